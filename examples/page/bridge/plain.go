package bridge

import (
	"fmt"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// Hours, preferred starts and dates are written as people write them:
//
//	Mon-Fri 15:00-22:00; Sat, Sun 09:00-18:00
//	every day 16:30
//	2026-12-24 to 2026-12-26; 2027-01-01
//
// What is read is written back the same way, so that nothing is left to guess.

// mostPlain bounds such a text, in bytes.
const mostPlain = 8 << 10

var dayNames = []string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}

// weekOrder is the week as it is written, Monday first.
var weekOrder = []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday}

// reader collects what is wrong with the texts of one form.
type reader struct{ problems []calendar.Problem }

func (r *reader) bad(where, value, reason, remedy string) {
	r.problems = append(r.problems, calendar.Problem{Code: "page", Class: calendar.ClassError, Path: where, Value: value, Reason: reason, Remedy: remedy})
}

// parts splits a text into its entries.
func (r *reader) parts(where, text string) []string {
	if len(text) > mostPlain {
		r.bad(where, "", "it is too long", "write less than 8,000 letters")
		return nil
	}
	var out []string
	for _, p := range strings.FieldsFunc(text, func(c rune) bool { return c == ';' || c == '\n' }) {
		if p = strings.TrimSpace(p); p != "" {
			out = append(out, p)
		}
	}
	return out
}

const hoursExample = `write days and hours, such as "Mon-Fri 15:00-21:30; Sat 09:00-18:00"`

func (r *reader) hours(where, text string) []season.Hours {
	var out []season.Hours
	for _, p := range r.parts(where, text) {
		days, clocks, ok := r.days(where, p, hoursExample)
		if !ok {
			continue
		}
		from, to, two := strings.Cut(strings.NewReplacer(" to ", "-", "–", "-", " ", "").Replace(clocks), "-")
		if !two {
			r.bad(where, p, "there is no hour to open and one to close", hoursExample)
			continue
		}
		a, okA := r.clock(where, from)
		b, okB := r.clock(where, to)
		if okA && okB {
			out = append(out, season.Hours{Days: days, From: a, To: b})
		}
	}
	return out
}

func (r *reader) prefer(where, text string) []season.Prefer {
	const example = `write days and one time, such as "Mon-Fri 16:30; Sat, Sun 10:00"`
	var out []season.Prefer
	for _, p := range r.parts(where, text) {
		days, clock, ok := r.days(where, p, example)
		if !ok {
			continue
		}
		if c, ok := r.clock(where, clock); ok {
			out = append(out, season.Prefer{Days: days, Start: c})
		}
	}
	return out
}

func (r *reader) clock(where, text string) (calendar.Clock, bool) {
	c, err := calendar.ParseClock(strings.TrimSpace(text))
	if err != nil {
		r.bad(where, text, "it is no time of day", "write hours and minutes, such as 09:30")
	}
	return c, err == nil
}

// days reads the days at the beginning of an entry, and returns the rest.
func (r *reader) days(where, text, example string) (days []time.Weekday, rest string, ok bool) {
	at := strings.IndexAny(text, "0123456789")
	if at < 0 {
		r.bad(where, text, "there is no time of day in it", example)
		return nil, "", false
	}
	words, rest := strings.TrimSpace(text[:at]), text[at:]
	switch strings.ToLower(strings.TrimSuffix(words, ":")) {
	case "", "daily", "every day", "all days":
		return weekOrder, rest, true
	}
	chosen := map[time.Weekday]bool{}
	for _, w := range strings.FieldsFunc(words, func(c rune) bool { return c == ',' || c == ' ' || c == ':' || c == '&' }) {
		if strings.EqualFold(w, "and") {
			continue
		}
		first, last, span := strings.Cut(strings.ReplaceAll(w, "–", "-"), "-")
		a, okA := weekday(first)
		b, okB := a, true
		if span {
			b, okB = weekday(last)
		}
		if !okA || !okB {
			r.bad(where, w, "it is no day of the week", example)
			return nil, "", false
		}
		for {
			chosen[a] = true
			if a == b {
				break
			}
			a = (a + 1) % 7
		}
	}
	for _, d := range weekOrder {
		if chosen[d] {
			days = append(days, d)
		}
	}
	return days, rest, len(days) > 0
}

// weekday reads a day by its first three letters or all of them.
func weekday(s string) (time.Weekday, bool) {
	s = strings.ToLower(strings.TrimSuffix(s, "."))
	for _, d := range weekOrder {
		whole := strings.ToLower(d.String())
		if len(s) >= 3 && strings.HasPrefix(whole, s) || s == whole+"s" {
			return d, true
		}
	}
	return 0, false
}

// spans reads dates and spans of dates.
func (r *reader) spans(where, text string) []season.Period {
	var out []season.Period
	for _, p := range r.parts(where, text) {
		from, to, two := strings.Cut(p, " to ")
		if !two {
			to = from
		}
		a, okA := r.date(where, from)
		b, okB := r.date(where, to)
		if okA && okB {
			out = append(out, season.Period{From: a, To: b})
		}
	}
	return out
}

func (r *reader) date(where, text string) (calendar.Date, bool) {
	d, err := calendar.ParseDate(strings.TrimSpace(text))
	if err != nil {
		r.bad(where, text, "it is no date", "write year, month and day, such as 2026-12-24")
	}
	return d, err == nil
}

func daysText(days []time.Weekday) string {
	in := map[time.Weekday]bool{}
	for _, d := range days {
		in[d] = true
	}
	if len(in) == 7 {
		return "every day"
	}
	var out []string
	for i := 0; i < 7; i++ {
		if !in[weekOrder[i]] {
			continue
		}
		j := i
		for j+1 < 7 && in[weekOrder[j+1]] {
			j++
		}
		switch {
		case j-i >= 2:
			out = append(out, dayNames[i]+"-"+dayNames[j])
			i = j
		default:
			out = append(out, dayNames[i])
		}
	}
	return strings.Join(out, ", ")
}

func hoursText(list []season.Hours) string {
	var out []string
	for _, h := range list {
		out = append(out, fmt.Sprintf("%s %s-%s", daysText(h.Days), say.Clock(h.From), say.Clock(h.To)))
	}
	return strings.Join(out, "; ")
}

func preferText(list []season.Prefer) string {
	var out []string
	for _, p := range list {
		out = append(out, daysText(p.Days)+" "+say.Clock(p.Start))
	}
	return strings.Join(out, "; ")
}

func spansText(list []season.Period) string {
	var out []string
	for _, p := range list {
		t := p.From.String()
		if p.To != p.From {
			t += " to " + p.To.String()
		}
		out = append(out, t)
	}
	return strings.Join(out, "; ")
}
