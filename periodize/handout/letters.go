package handout

import (
	"strings"
	"unicode"

	"example.org/weft/calendar"
)

// ems is how wide a text may get in print, in hundredths of the size of the
// typeface: as in DejaVu Sans, the widest of those that sheets are set in, rounded
// up. Figures, most small letters and capitals are alike in width; the others are
// named. Letters of other scripts count as their square.
func ems(s string) (sum int) {
	for _, r := range s {
		sum += em(r)
	}
	return sum
}

func em(r rune) int {
	switch {
	case strings.ContainsRune("ijl'|", r):
		return 32
	case strings.ContainsRune(" .,:;!-()[]/ftrI", r):
		return 42
	case strings.ContainsRune("mWM@%+=", r):
		return 100
	case r == 'w':
		return 82
	case r < 0x80 && unicode.IsUpper(r):
		return 79
	case r < 0x80:
		return 65
	case r < 0x370:
		return 85
	}
	return 100
}

// clipEms cuts a name to a width, and says by two stops that it was cut.
func clipEms(s string, most int) string {
	s = calendar.Inert(strings.Join(strings.Fields(s), " "))
	if ems(s) <= most {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && ems(string(r))+ems("..") > most {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ") + ".."
}
