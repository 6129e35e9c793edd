package main

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/weft/calendar"
)

// width is the widest line of the text.
const width = 98

// page collects lines. What is not printable cannot get into one.
type page struct{ b strings.Builder }

func (p *page) line(s string) {
	p.b.WriteString(strings.TrimRight(calendar.Inert(s), " "))
	p.b.WriteByte('\n')
}

// title begins a section.
func (p *page) title(s string) {
	p.line("")
	p.line(s)
}

// hang writes text behind a label, its further lines as far in as the first.
func (p *page) hang(label, text string) {
	n := utf8.RuneCountInString(label)
	for i, l := range wrap(text, width-n) {
		if i > 0 {
			label = strings.Repeat(" ", n)
		}
		p.line(label + l)
	}
}

// fact writes a labelled line of the head.
func (p *page) fact(label, text string) { p.hang(pad(label, 17), text) }

// wrap breaks text between words; longer words are cut.
func wrap(text string, width int) []string {
	width = max(width, 8)
	var out []string
	var line string
	n := 0
	for _, w := range strings.Fields(calendar.Inert(text)) {
		for k := utf8.RuneCountInString(w); k > width; k = utf8.RuneCountInString(w) {
			if n > 0 {
				out, line, n = append(out, line), "", 0
			}
			r := []rune(w)
			out, w = append(out, string(r[:width])), string(r[width:])
		}
		k := utf8.RuneCountInString(w)
		if n > 0 && n+1+k > width {
			out, line, n = append(out, line), "", 0
		}
		if n > 0 {
			line, n = line+" ", n+1
		}
		line, n = line+w, n+k
	}
	if n > 0 || len(out) == 0 {
		out = append(out, line)
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

// clip makes a name printable and short.
func clip(s string, n int) string {
	s = calendar.Inert(strings.Join(strings.Fields(s), " "))
	if r := []rune(s); len(r) > n {
		return strings.TrimRight(string(r[:n-2]), " ") + ".."
	}
	return s
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

func month(d calendar.Date) string {
	_, m, _ := d.YMD()
	return time.Month(m).String()[:3]
}

// dayText is "Mon 5 Sep", dayYear "Mon 5 Sep 2026".
func dayText(d calendar.Date) string {
	_, _, day := d.YMD()
	return fmt.Sprintf("%s %d %s", d.Weekday().String()[:3], day, month(d))
}

func dayYear(d calendar.Date) string {
	y, _, _ := d.YMD()
	return fmt.Sprintf("%s %d", dayText(d), y)
}

// span is "5 Sep", "5-9 Sep" or "28 Sep - 4 Oct", without years.
func span(from, to calendar.Date) string {
	_, m1, d1 := from.YMD()
	_, m2, d2 := to.YMD()
	switch {
	case from == to:
		return fmt.Sprintf("%d %s", d1, month(from))
	case m1 == m2 && to.DaysSince(from) < 31:
		return fmt.Sprintf("%d-%d %s", d1, d2, month(to))
	}
	return fmt.Sprintf("%d %s - %d %s", d1, month(from), d2, month(to))
}

// spanYear is span with the year of the last date.
func spanYear(from, to calendar.Date) string {
	y, _, _ := to.YMD()
	return fmt.Sprintf("%s %d", span(from, to), y)
}

// wholeHours rounds down, so that "48 h" is never less.
func wholeHours(d time.Duration) int64 { return int64(d / time.Hour) }

// listed joins the first few of a list.
func listed(items []string, most int) string {
	if len(items) == 0 {
		return "none"
	}
	if len(items) > most {
		return strings.Join(items[:most], "; ") + fmt.Sprintf("; and %d more", len(items)-most)
	}
	return strings.Join(items, "; ")
}
