package logbook

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// formula characters make a spreadsheet take a cell for a formula: common
// practice, no source.
const formula = "=+-@\uff1d\uff0b\uff0d\uff20"

// guard puts an apostrophe before a text that a spreadsheet would run or that
// begins with a space, and behind one that ends with a space, which a table would
// lose. It does so too where one stands there already, so that unguard is its
// inverse.
func guard(s string) string {
	if risky(s) {
		s = "'" + s
	}
	if loose(s) {
		s += "'"
	}
	return s
}

func unguard(s string) string {
	if strings.HasSuffix(s, "'") && loose(s) {
		s = s[:len(s)-1]
	}
	if strings.HasPrefix(s, "'") && risky(s) {
		s = s[1:]
	}
	return s
}

// risky reports whether behind apostrophes there is a formula or a space.
func risky(s string) bool {
	r, n := utf8.DecodeRuneInString(strings.TrimLeft(s, "'"))
	return n > 0 && (strings.ContainsRune(formula, r) || unicode.IsSpace(r))
}

// loose reports whether before apostrophes there is a space.
func loose(s string) bool {
	r, n := utf8.DecodeLastRuneInString(strings.TrimRight(s, "'"))
	return n > 0 && unicode.IsSpace(r)
}
