package icalendar

import (
	"errors"
	"strings"
)

// property is one content line: NAME;PARAM=value:value.
type property struct {
	name   string // upper case
	params []param
	value  string // raw, as in the file
	line   int
	long   bool // cut at the limit on line length
}

type param struct {
	name   string // upper case
	values []string
}

// get returns the first value of a parameter, "" when it is absent.
func (p *property) get(name string) string {
	for i := range p.params {
		if p.params[i].name == name && len(p.params[i].values) > 0 {
			return p.params[i].values[0]
		}
	}
	return ""
}

var (
	errParamEquals = errors.New("a parameter has no \"=\"")
	errParamName   = errors.New("a parameter has no right name")
	errParamQuote  = errors.New("a quoted parameter is not closed")
	errParamTail   = errors.New("text follows a quoted parameter")
	errParamCount  = errors.New("too many parameters")
	errNoColon     = errors.New("no \":\" before the value")
)

// nameEnd returns the length of the property name that the line begins with,
// 0 when the line is not shaped like a property.
func nameEnd(line string) int {
	for i := 0; i < len(line); i++ {
		c := line[i]
		switch {
		case c == ':' || c == ';':
			return i
		case c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-':
		default:
			return 0
		}
	}
	return 0
}

// parse fills p from one content line, whose name has length n.
func (p *property) parse(line string, n, maxParams int) error {
	p.name = upper(line[:n])
	p.params = nil
	rest := line[n:]
	count := 0
	for rest[0] == ';' {
		rest = rest[1:]
		if rest != "" && (rest[0] == ';' || rest[0] == ':') {
			continue // a semicolon too many
		}
		eq := strings.IndexAny(rest, "=:;\"")
		if eq < 0 || rest[eq] != '=' {
			return errParamEquals
		}
		q := param{name: upper(strings.TrimSpace(rest[:eq]))}
		if n := nameEnd(q.name + ":"); n == 0 || n != len(q.name) {
			return errParamName
		}
		rest = rest[eq+1:]
		for {
			var v string
			if rest != "" && rest[0] == '"' {
				end := strings.IndexByte(rest[1:], '"')
				if end < 0 {
					return errParamQuote
				}
				v, rest = rest[1:1+end], rest[end+2:]
				if rest != "" && rest[0] != ',' && rest[0] != ';' && rest[0] != ':' {
					return errParamTail
				}
			} else {
				end := strings.IndexAny(rest, ",;:")
				if end < 0 {
					return errNoColon
				}
				v, rest = rest[:end], rest[end:]
			}
			if rest == "" {
				return errNoColon
			}
			if count++; count > maxParams {
				return errParamCount
			}
			q.values = append(q.values, unescapeParam(v))
			if rest[0] != ',' {
				break
			}
			rest = rest[1:]
		}
		p.params = append(p.params, q)
	}
	p.value = rest[1:]
	return nil
}

// upper is strings.ToUpper for the ASCII names of the format. Common names come
// back without an allocation.
func upper(s string) string {
	for i := 0; i < len(s); i++ {
		if s[i] >= 'a' && s[i] <= 'z' {
			return strings.ToUpper(s)
		}
	}
	return s
}

// paramText writes parameters back, each with its leading semicolon.
func paramText(params []param) string {
	var b strings.Builder
	for _, q := range params {
		b.WriteByte(';')
		b.WriteString(q.name)
		b.WriteByte('=')
		for i, v := range q.values {
			if i > 0 {
				b.WriteByte(',')
			}
			b.WriteString(escapeParam(v))
		}
	}
	return b.String()
}
