// Package say writes plain text for people: lines of a page, dates, counts, and
// what people call sessions, games and changes of a plan. What several sheets say
// alike is worded here, what one says in its own way is not.
package say

import (
	"strings"
	"unicode/utf8"

	"example.org/weft/calendar"
)

// Page collects lines. What is not printable cannot get into one.
type Page struct {
	Width int // of the widest line that Hang writes, in characters
	b     strings.Builder
}

func (p *Page) String() string { return p.b.String() }

// Line writes a line as it is.
func (p *Page) Line(s string) {
	p.b.WriteString(strings.TrimRight(calendar.Inert(s), " "))
	p.b.WriteByte('\n')
}

// Hang writes text behind a label, its further lines as far in as the first.
func (p *Page) Hang(label, text string) {
	n := utf8.RuneCountInString(label)
	for i, s := range Wrap(text, p.Width-n) {
		if i > 0 {
			label = strings.Repeat(" ", n)
		}
		p.Line(label + s)
	}
}

// Append writes what stands on another page.
func (p *Page) Append(q *Page) { p.b.WriteString(q.String()) }

// Wrap breaks text between words; words longer than the width, which is 8 at
// least, are cut.
func Wrap(text string, width int) []string {
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

// Pad fills a text with spaces up to n characters.
func Pad(s string, n int) string {
	if k := utf8.RuneCountInString(s); k < n {
		return s + strings.Repeat(" ", n-k)
	}
	return s
}

// Clip makes a name printable, one line, and at most n characters, which are two
// or more.
func Clip(s string, n int) string {
	s = calendar.Inert(strings.Join(strings.Fields(s), " "))
	if r := []rune(s); len(r) > n {
		return strings.TrimRight(string(r[:n-2]), " ") + ".."
	}
	return s
}
