package jsonread

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

const (
	shownRunes  = 60  // of a value
	nameRunes   = 64  // of one name in a path
	reasonRunes = 240 // of a reason or remedy that a caller gave

	cut = "…"
)

// Inert returns at most limit characters of s as text that does nothing where
// it is printed: characters that do not print (control characters, line ends,
// direction marks, bad UTF-8) and backslashes are escaped, and so are the
// characters <, > and & for the sake of web pages. A cut text ends in "…".
func Inert(s string, limit int) string { return inert(s, limit, false) }

func inert(s string, limit int, quote bool) string {
	if limit < 0 {
		limit = 0
	}
	var b strings.Builder
	if quote {
		b.WriteByte('"')
	}
	n := 0
	for i := 0; i < len(s); n++ {
		if n == limit {
			b.WriteString(cut)
			break
		}
		r, size := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			b.WriteString(`\x`)
			hex(&b, rune(s[i]), 2)
		case r == '\\', quote && r == '"':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\r':
			b.WriteString(`\r`)
		case r == '\t':
			b.WriteString(`\t`)
		case r == '<', r == '>', r == '&', !strconv.IsPrint(r) && r <= 0xFFFF:
			b.WriteString(`\u`)
			hex(&b, r, 4)
		case !strconv.IsPrint(r):
			b.WriteString(`\U`)
			hex(&b, r, 8)
		default:
			b.WriteRune(r)
		}
		i += size
	}
	if quote {
		b.WriteByte('"')
	}
	return b.String()
}

func hex(b *strings.Builder, r rune, digits int) {
	for shift := 4 * (digits - 1); shift >= 0; shift -= 4 {
		b.WriteByte("0123456789abcdef"[r>>shift&15])
	}
}
