package icalendar

import (
	"strings"
	"unicode/utf8"
)

// unescapeText undoes the escapes of RFC 5545 section 3.3.11. A backslash
// before any other character is kept as it stands.
func unescapeText(s string) string {
	i := strings.IndexByte(s, '\\')
	if i < 0 {
		return s
	}
	var b strings.Builder
	b.Grow(len(s))
	for {
		b.WriteString(s[:i])
		if i+1 == len(s) {
			b.WriteByte('\\')
			return b.String()
		}
		switch c := s[i+1]; c {
		case 'n', 'N':
			b.WriteByte('\n')
		case '\\', ';', ',':
			b.WriteByte(c)
		default:
			b.WriteByte('\\')
			b.WriteByte(c)
		}
		s = s[i+2:]
		if i = strings.IndexByte(s, '\\'); i < 0 {
			b.WriteString(s)
			return b.String()
		}
	}
}

// splitText splits a list of TEXT values at its unescaped commas.
func splitText(s string) []string {
	var out []string
	from := 0
	for i := 0; i < len(s); i++ {
		switch s[i] {
		case '\\':
			i++
		case ',':
			out = append(out, unescapeText(s[from:i]))
			from = i + 1
		}
	}
	return append(out, unescapeText(s[from:]))
}

// escapeText writes a TEXT value. Control characters have no place in a
// calendar file: line breaks become \n, a tab stays, the others are left out.
func escapeText(s string) string {
	var b strings.Builder
	b.Grow(len(s) + 8)
	for i, r := range s {
		switch {
		case r == '\\' || r == ';' || r == ',':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\r':
			if i+1 >= len(s) || s[i+1] != '\n' {
				b.WriteString(`\n`)
			}
		case r == '\n':
			b.WriteString(`\n`)
		case isControl(r):
		default:
			b.WriteRune(r) // an invalid byte arrives as U+FFFD
		}
	}
	return b.String()
}

// isControl tells the characters that RFC 5545 allows nowhere in a value: the
// C0 and C1 controls but for the tab, and DEL. U+2028, U+2029 and the
// directional overrides are text and stay.
func isControl(r rune) bool {
	return r < ' ' && r != '\t' || r >= 0x7f && r <= 0x9f
}

// unescapeParam undoes the caret escapes of RFC 6868.
func unescapeParam(s string) string {
	if strings.IndexByte(s, '^') < 0 {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] == '^' && i+1 < len(s) {
			switch s[i+1] {
			case 'n':
				b.WriteByte('\n')
				i++
				continue
			case '\'':
				b.WriteByte('"')
				i++
				continue
			case '^':
				i++
			}
		}
		b.WriteByte(s[i])
	}
	return b.String()
}

// escapeParam writes one parameter value, quoted where it must be.
func escapeParam(s string) string {
	var b strings.Builder
	quote := false
	for i, r := range s {
		switch {
		case r == '^':
			b.WriteString("^^")
		case r == '"':
			b.WriteString("^'")
		case r == '\r':
			if i+1 >= len(s) || s[i+1] != '\n' {
				b.WriteString("^n")
			}
		case r == '\n':
			b.WriteString("^n")
		case isControl(r):
		default:
			quote = quote || r == ':' || r == ';' || r == ','
			b.WriteRune(r)
		}
	}
	if quote {
		return `"` + b.String() + `"`
	}
	return b.String()
}

// cleanText replaces what is not UTF-8 by U+FFFD and drops control characters,
// and says which of the two it did.
func cleanText(b []byte) (s string, notUTF8, control bool) {
	ascii := true
	for _, c := range b {
		if c < ' ' && c != '\t' || c >= 0x7f {
			ascii = false
			break
		}
	}
	if ascii {
		return string(b), false, false
	}
	notUTF8 = !utf8.Valid(b)
	s = string(b)
	if notUTF8 {
		s = strings.ToValidUTF8(s, "\uFFFD")
	}
	if strings.IndexFunc(s, isControl) >= 0 {
		control = true
		s = strings.Map(func(r rune) rune {
			if isControl(r) {
				return -1
			}
			return r
		}, s)
	}
	return s, notUTF8, control
}
