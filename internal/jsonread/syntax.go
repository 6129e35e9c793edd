package jsonread

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"
)

// malformed records a fault of syntax after which reading can go on.
func (p *parser) malformed(n int32, off int, value, reason, remedy string) {
	p.d.malformed = true
	p.d.problem(entry{code: CodeSyntax, node: n, off: int32(off), value: value, bare: value == "", reason: reason, remedy: remedy})
}

// stop records the problem that ends the reading.
func (p *parser) stop(n int32, off int, code, reason, remedy string) {
	p.d.malformed = true
	p.d.problem(entry{code: code, node: n, off: int32(off), bare: true, reason: reason, remedy: remedy})
}

// unexpected stops at the current character, with a remedy for the usual
// mistakes of people and of other formats.
func (p *parser) unexpected(n int32, wanted string) bool {
	p.d.malformed = true
	rest := p.src[p.i:]
	e := entry{code: CodeSyntax, node: n, off: int32(p.i), reason: wanted, remedy: "add it"}
	if len(rest) == 0 {
		e.bare = true
		e.reason += ", but the text ends"
		p.d.problem(e)
		return false
	}
	r, size := utf8.DecodeRune(rest)
	e.value = Inert(string(rest[:size]), 1)
	switch {
	case r == '/' || r == '#':
		e.remedy = "remove the comment: JSON has none"
	case r == '\'' || r == '`' || r >= 0x2018 && r <= 0x201F || r == 0xAB || r == 0xBB:
		e.remedy = `use straight double quotes: "`
	case r == utf8.RuneError && size == 1:
		e.code = CodeEncoding
		e.remedy = "save the text as UTF-8"
	case r == 0:
		e.code = CodeEncoding
		e.remedy = "save the text as UTF-8, without the character NUL"
	case r == 0xFEFF || r == 0xA0 || r == 0x200B:
		e.remedy = "remove the invisible character"
	case r == ',' || r == ']' || r == '}' || r == ':':
		e.remedy = "add it, or remove this character"
	}
	p.d.problem(e)
	return false
}

// wordByte reports whether c can start or go on in a number or a word.
func wordByte(c byte) bool {
	return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '-' || c == '+' || c == '.' || c == '_'
}

// literal reads the longest run of letters and digits, so that one word that
// is not JSON is one problem.
func (p *parser) literal(n int32) bool {
	start := p.i
	for p.i < len(p.src) && wordByte(p.src[p.i]) {
		p.i++
	}
	word := p.src[start:p.i]
	nd := &p.d.nodes[n]
	nd.end = int32(p.i)
	switch string(word) {
	case "true", "false":
		nd.kind = Bool
		return true
	case "null":
		nd.kind = Null
		return true
	}
	if validNumber(word) {
		nd.kind = Number
		return true
	}
	p.d.malformed = true
	nd.flags |= faulty
	if p.d.found.wants(Error, int32(start)) {
		if p.d.private(n) {
			word = nil
		}
		reason, remedy := wrongWord(word)
		p.d.found.add(entry{code: CodeSyntax, node: n, off: int32(start), reason: reason, remedy: remedy})
	}
	return true
}

// validNumber follows the grammar of RFC 8259 section 6.
func validNumber(b []byte) bool {
	b = bytes.TrimPrefix(b, []byte("-"))
	whole := digits(b)
	if whole == 0 || whole > 1 && b[0] == '0' {
		return false
	}
	b = b[whole:]
	if len(b) > 0 && b[0] == '.' {
		n := digits(b[1:])
		if n == 0 {
			return false
		}
		b = b[1+n:]
	}
	if len(b) > 0 && b[0]|0x20 == 'e' {
		b = b[1:]
		if len(b) > 0 && (b[0] == '+' || b[0] == '-') {
			b = b[1:]
		}
		n := digits(b)
		if n == 0 {
			return false
		}
		b = b[n:]
	}
	return len(b) == 0
}

func digits(b []byte) int {
	n := 0
	for n < len(b) && b[n] >= '0' && b[n] <= '9' {
		n++
	}
	return n
}

// wrongWord explains a run of letters and digits that is no JSON value.
func wrongWord(b []byte) (reason, remedy string) {
	if len(b) > 64 {
		return "this is not a JSON value", "put text in double quotes"
	}
	bare := strings.TrimLeft(string(b), "+-")
	switch w := strings.ToLower(bare); {
	case w == "nan" || w == "inf" || w == "infinity":
		return "this is not a number in JSON", "give a finite number, or leave the field out"
	case w == "true" || w == "false":
		return "true and false are written in small letters, without a sign", "write " + w
	case w == "null" || w == "none" || w == "nil" || w == "undefined":
		return "this stands for no value", "leave the field out"
	case bare == "" || bare[0] != '.' && (bare[0] < '0' || bare[0] > '9'):
		return "this is not a JSON value", "put text in double quotes"
	case b[0] == '+':
		return "a number has no plus sign in JSON", "leave the + out"
	case strings.HasPrefix(w, "0x") || strings.HasPrefix(w, "0b") || strings.HasPrefix(w, "0o"):
		return "numbers are decimal in JSON", "write the number with the digits 0 to 9"
	case len(bare) > 1 && bare[0] == '0' && bare[1] >= '0' && bare[1] <= '9':
		return "a number has no leading zero in JSON", "leave the leading zero out, or put text such as a date in double quotes"
	case bare[0] == '.' || strings.HasSuffix(bare, "."):
		return "a decimal point has digits on both sides in JSON", "write a digit before and after the point"
	}
	return "this is not a number in JSON", "write a number such as 12 or 7.5, or put text such as a date in double quotes"
}

// glimpse returns the first character at an offset.
func (p *parser) glimpse(i int) string {
	_, size := utf8.DecodeRune(p.src[i:])
	return Inert(string(p.src[i:i+size]), 1)
}

func number(n int64) string { return strconv.FormatInt(n, 10) }

// count says how many, as in "1 field" and "2 fields".
func count(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return strconv.Itoa(n) + " " + thing
}
