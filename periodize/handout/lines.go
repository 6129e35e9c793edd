package handout

import (
	"strings"
	"unicode/utf8"

	"example.org/weft/calendar"
)

// textWidth is the widest line of a sheet as text.
const textWidth = 80

// lines collects text. What is not printable cannot get into it.
type lines struct{ b strings.Builder }

func (l *lines) line(s string) {
	l.b.WriteString(strings.TrimRight(calendar.Inert(s), " "))
	l.b.WriteByte('\n')
}

// hang writes text behind a label, its further lines as far in as the first.
func (l *lines) hang(label, text string) {
	n := utf8.RuneCountInString(label)
	for i, s := range wrap(text, textWidth-n) {
		if i > 0 {
			label = strings.Repeat(" ", n)
		}
		l.line(label + s)
	}
}

// wrap breaks text between words; longer words are cut.
func wrap(text string, width int) []string {
	width = max(width, 8)
	var out []string
	var line []rune
	for _, w := range strings.Fields(calendar.Inert(text)) {
		word := []rune(w)
		if len(line) > 0 && len(line)+1+len(word) > width {
			out, line = append(out, string(line)), nil
		}
		for ; len(word) > width; word = word[width:] {
			out = append(out, string(word[:width]))
		}
		if len(line) > 0 {
			line = append(line, ' ')
		}
		line = append(line, word...)
	}
	if len(line) > 0 || len(out) == 0 {
		out = append(out, string(line))
	}
	return out
}

// pad fills a text with spaces up to n characters.
func pad(s string, n int) string {
	if k := utf8.RuneCountInString(s); k < n {
		return s + strings.Repeat(" ", n-k)
	}
	return s
}

// clip makes a name printable, one line, and at most n characters.
func clip(s string, n int) string {
	s = calendar.Inert(strings.Join(strings.Fields(s), " "))
	if r := []rune(s); len(r) > n {
		return strings.TrimRight(string(r[:n-2]), " ") + ".."
	}
	return s
}
