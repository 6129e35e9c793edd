package jsonread

import (
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// ordinary marks the bytes of a string that need no look.
var ordinary = func() (t [256]bool) {
	for c := ' '; c < 0x7F; c++ {
		t[c] = c != '"' && c != '\\'
	}
	return t
}()

// quoted reads a string or name from its opening quote on. It returns the
// offset after the closing quote, whether the text between is plain, and false
// if reading must stop. Faults inside the string are recorded and passed over.
func (p *parser) quoted(n int32, most int, what string, mark uint8) (end int, isPlain, ok bool) {
	src, start := p.src, p.i
	i := start + 1
	isPlain = true
	seen := p.d.found.count[Error]
	defer func() {
		if p.d.found.count[Error] > seen {
			p.d.nodes[n].flags |= mark
		}
	}()
	for i < len(src) {
		c := src[i]
		if ordinary[c] {
			i++
			continue
		}
		switch {
		case c == '"':
			if i-start-1 > most {
				p.d.problem(entry{code: CodeTooLong, node: n, off: int32(start), bare: mark == badName,
					reason: "the " + what + " is longer than " + number(int64(most)) + " bytes", remedy: "shorten it"})
			}
			return i + 1, isPlain, true
		case c == '\\':
			isPlain = false
			size, r := p.escape(n, i)
			if size > 0 {
				p.character(n, i, r)
			}
			i += max(size, 1)
		case c == '\n' || c == '\r':
			p.stop(n, start, CodeSyntax, "the "+what+" is not closed on its line", `close it with ", and write line ends inside it as \n`)
			return 0, false, false
		case c < ' ':
			p.malformed(n, i, Inert(string(src[i:i+1]), 1), "a control character stands bare in a string", `remove it or write it as an escape such as \t`)
			i++
		default:
			r, size := utf8.DecodeRune(src[i:])
			if r == utf8.RuneError && size == 1 {
				isPlain = false
				p.d.problem(entry{code: CodeEncoding, node: n, off: int32(i), value: Inert(string(src[i:i+1]), 1),
					reason: "this byte is not UTF-8", remedy: "save the text as UTF-8"})
			} else {
				p.character(n, i, r)
			}
			i += size
		}
	}
	p.stop(n, start, CodeSyntax, "the text ends inside a "+what, `close it with "`)
	return 0, false, false
}

// escape reads the escape at offset i, records what is wrong with it, and
// returns its length and character. Length 0 means not an escape.
func (p *parser) escape(n int32, i int) (int, rune) {
	size, r, half := escape(p.src[i:])
	switch {
	case size == 0:
		p.malformed(n, i, "", `a backslash starts no known escape here`,
			`write the backslash itself as \\; the escapes are \" \\ \/ \b \f \n \r \t and \u with four hexadecimal digits`)
	case half:
		p.d.problem(entry{code: CodeSurrogate, node: n, off: int32(i), value: Inert(string(p.src[i+1:i+size]), size),
			reason: "half of a surrogate pair stands alone", remedy: "write the character itself, or both halves"})
	}
	return size, r
}

// character records characters that have no place in a string. Tabs and line
// ends may be meant.
func (p *parser) character(n int32, i int, r rune) {
	switch {
	case r == 0:
		p.d.problem(entry{code: CodeNUL, node: n, off: int32(i), value: "U+0000",
			reason: "the string holds the character NUL", remedy: "remove it"})
	case r == '\t' || r == '\n' || r == '\r':
	case unicode.IsControl(r), r >= 0x202A && r <= 0x202E, r >= 0x2066 && r <= 0x2069, r == 0x2028, r == 0x2029, r == 0xFEFF:
		p.d.problem(entry{class: Warning, code: CodeControl, node: n, off: int32(i), value: Inert(string(r), 1),
			reason: "the string holds a character that controls how text is shown", remedy: "remove it if it is not meant"})
	}
}

// escape decodes the escape at the start of b, which is a backslash. half
// tells of a surrogate without its partner, decoded as U+FFFD. Size 0 means
// that this is no escape.
func escape(b []byte) (size int, r rune, half bool) {
	if len(b) < 2 {
		return 0, 0, false
	}
	switch b[1] {
	case '"', '\\', '/':
		return 2, rune(b[1]), false
	case 'b':
		return 2, '\b', false
	case 'f':
		return 2, '\f', false
	case 'n':
		return 2, '\n', false
	case 'r':
		return 2, '\r', false
	case 't':
		return 2, '\t', false
	case 'u':
		r, ok := unit(b)
		if !ok {
			return 0, 0, false
		}
		if !utf16.IsSurrogate(r) {
			return 6, r, false
		}
		if low, ok := unit(b[6:]); ok {
			if r = utf16.DecodeRune(r, low); r != utf8.RuneError {
				return 12, r, false
			}
		}
		return 6, utf8.RuneError, true
	}
	return 0, 0, false
}

// unit reads \uXXXX at the start of b.
func unit(b []byte) (rune, bool) {
	if len(b) < 6 || b[0] != '\\' || b[1] != 'u' {
		return 0, false
	}
	var r rune
	for _, c := range b[2:6] {
		switch {
		case c >= '0' && c <= '9':
			c -= '0'
		case c >= 'a' && c <= 'f':
			c -= 'a' - 10
		case c >= 'A' && c <= 'F':
			c -= 'A' - 10
		default:
			return 0, false
		}
		r = r<<4 | rune(c)
	}
	return r, true
}

// unquote decodes a string from its bytes with quotes.
func unquote(b []byte, isPlain bool) string { return unescape(b[1:len(b)-1], isPlain) }

// unescape decodes the text between quotes. What is not UTF-8, and half a
// pair, becomes U+FFFD; what is no escape stays as written.
func unescape(b []byte, isPlain bool) string {
	if isPlain {
		return string(b)
	}
	out := make([]byte, 0, len(b))
	for i := 0; i < len(b); {
		c := b[i]
		if ordinary[c] {
			out = append(out, c)
			i++
			continue
		}
		r, size := rune(c), 1
		if c == '\\' {
			if n, e, _ := escape(b[i:]); n > 0 {
				r, size = e, n
			}
		} else if c >= utf8.RuneSelf {
			r, size = utf8.DecodeRune(b[i:])
		}
		out = utf8.AppendRune(out, r)
		i += size
	}
	return string(out)
}
