package jsonread

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

const closestRunes = 64

// Closest returns the candidate that a writer of word most likely meant, and
// false where none is near. Case, '-', '_' and spaces do not count. Otherwise
// the distance is the number of letters inserted, deleted, replaced or swapped
// with their neighbour, and may be 1 for words of three letters or more, 2
// from six and 3 from nine. Of equally near candidates the first wins. Words
// over 64 characters have no near one.
func Closest(word string, candidates []string) (string, bool) {
	if len(word) > closestRunes*utf8.UTFMax {
		return "", false
	}
	w := letters(word)
	if len(w) == 0 || len(w) > closestRunes {
		return "", false
	}
	best, found := 4, ""
	for _, c := range candidates {
		if c == word {
			return c, true
		}
		if len(c) > closestRunes*utf8.UTFMax {
			continue
		}
		l := letters(c)
		if len(l) == 0 || len(l) > closestRunes {
			continue
		}
		most := 0
		switch n := min(len(w), len(l)); {
		case n >= 9:
			most = 3
		case n >= 6:
			most = 2
		case n >= 3:
			most = 1
		}
		most = min(most, best-1)
		if d := distance(w, l, most); d <= most {
			best, found = d, c
		}
	}
	return found, best < 4
}

// letters folds a word for comparison.
func letters(s string) []rune {
	var out []rune
	for _, r := range strings.ToLower(s) {
		if r != '-' && r != '_' && !unicode.IsSpace(r) {
			out = append(out, r)
		}
	}
	return out
}

// distance is the restricted Damerau-Levenshtein distance of a and b, or
// anything above most if it is above most.
func distance(a, b []rune, most int) int {
	if len(a)-len(b) > most || len(b)-len(a) > most {
		return most + 1
	}
	var rows [3][closestRunes + 1]int
	before, last, now := &rows[0], &rows[1], &rows[2]
	for j := range len(b) + 1 {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		least := i
		for j := 1; j <= len(b); j++ {
			d := last[j-1]
			if a[i-1] != b[j-1] {
				d = 1 + min(d, last[j], now[j-1])
			}
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d = min(d, 1+before[j-2])
			}
			now[j] = d
			least = min(least, d)
		}
		// A swap reaches two rows back, so a row above the bound is not yet the
		// end if the row before it is within.
		if least > most && slices.Min(last[:len(b)+1]) > most {
			return most + 1
		}
		before, last, now = last, now, before
	}
	return last[len(b)]
}
