package main

import (
	"fmt"
	"regexp"
	"sort"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

const factItems = 6 // shown of a list

// facts prints what the calendar alone says about the season.
func (s *sheet) facts() {
	f := calendar.FactsOf(s.in.placed, s.plan.Period.From, s.plan.Period.To)
	s.title("THE SEASON")
	if f.Games == 0 {
		s.fact("  Games", "none is known in the period")
		return
	}
	s.fact("  Games", fmt.Sprintf("%s on %s, %s to %s", say.Count(f.Games, "game"), say.Count(f.Dates, "date"), say.DayYear(f.First), say.DayYear(f.Last)))
	if doubtful := s.doubtful(); doubtful != "" {
		s.fact("", doubtful)
	}
	s.pairs("  Same date", f.SameDate)
	s.pairs("  Back to back", f.BackToBack)
	s.pairs("  Under 48 h", f.Under48)
	s.pairs("  Under 72 h", f.Under72)
	s.spells("  3 in 7 dates", f.ThreeInSeven)
	s.spells("  5 in 10 dates", f.FiveInTen)
	var breaks, open []string
	for _, r := range s.runs() {
		item := fmt.Sprintf("%s (%d)", say.Between(r.From, r.To), r.Days)
		switch r.Class {
		case calendar.Break:
			breaks = append(breaks, item)
		case calendar.OpenWeek:
			open = append(open, item)
		}
	}
	s.fact("  Breaks", listed(breaks, factItems))
	if len(open) > 0 {
		s.fact("  Open weeks", listed(open, factItems))
	}
	var gaps []string
	for _, p := range f.Longest {
		gaps = append(gaps, fmt.Sprintf("%s, %s", between(p), days(p.Elapsed)))
	}
	if len(gaps) > 0 {
		s.fact("  Longest gaps", listed(gaps, factItems))
	}
	var clocks []string
	for _, c := range f.ClockChanges {
		t := say.Day(c.Date) + " forward"
		if c.Shift < 0 {
			t = say.Day(c.Date) + " back"
		}
		if c.Zone != s.plan.Zone {
			t += " in " + c.Zone
		}
		if n := len(c.Games); n > 0 {
			t += fmt.Sprintf(" (%s from the day before to the day after)", say.Count(n, "game"))
		}
		clocks = append(clocks, t)
	}
	if len(clocks) > 0 {
		s.fact("  Clocks", listed(clocks, factItems))
	}
}

func days(d time.Duration) string {
	if h := say.Hours(d); h < 96 {
		return fmt.Sprintf("%d h", h)
	}
	return fmt.Sprintf("%d days", say.Hours(d)/24)
}

func between(p calendar.Pair) string {
	if p.Dates[0] == p.Dates[1] {
		return say.Day(p.Dates[0])
	}
	return say.Between(p.Dates[0], p.Dates[1])
}

func (s *sheet) pairs(label string, list []calendar.Pair) {
	if len(list) == 0 {
		return
	}
	var items []string
	for _, p := range list {
		t := fmt.Sprintf("%s %s", between(p), days(p.Elapsed))
		if p.Elapsed < 0 {
			t = between(p) + " overlap"
		} else if p.Uncertain {
			t += "?"
		}
		items = append(items, t)
	}
	s.fact(label, fmt.Sprintf("%d: %s", len(list), listed(items, factItems)))
}

func (s *sheet) spells(label string, list []calendar.Spell) {
	if len(list) == 0 {
		return
	}
	var items []string
	for _, x := range list {
		items = append(items, fmt.Sprintf("%s (%d)", say.Between(x.From, x.To), len(x.Games)))
	}
	s.fact(label, listed(items, factItems))
}

// doubtful counts the games of the period that are not simply to be played.
func (s *sheet) doubtful() string {
	n := map[calendar.Status]int{}
	open := 0
	for _, g := range s.in.placed {
		if g.Kind != calendar.Game || !s.plan.Period.Contains(g.Date) {
			continue
		}
		n[g.Status]++
		if g.DateOnly && g.Active() {
			open++
		}
	}
	var parts []string
	for _, x := range []struct {
		status calendar.Status
		word   string
	}{{calendar.Provisional, "provisional"}, {calendar.IfNecessary, "only if necessary"}, {calendar.Postponed, "postponed"}, {calendar.Cancelled, "cancelled"}} {
		if k := n[x.status]; k > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", k, x.word))
		}
	}
	if open > 0 {
		parts = append(parts, fmt.Sprintf("%d without a time yet", open))
	}
	if len(parts) == 0 {
		return ""
	}
	return listed(parts, len(parts))
}

var isoDate = regexp.MustCompile(`\b\d{4}-\d{2}-\d{2}\b`)

// datesIn writes the dates of a text as the sheet writes them.
func (s *sheet) datesIn(text string) string {
	var out strings.Builder
	at := 0
	for _, m := range isoDate.FindAllStringIndex(text, -1) {
		d, err := calendar.ParseDate(text[m[0]:m[1]])
		if err != nil || partOfID(text, m[0], m[1]) {
			continue
		}
		out.WriteString(text[at:m[0]])
		if at = m[1]; s.plan.Period.Contains(d) {
			out.WriteString(say.Day(d))
		} else {
			out.WriteString(say.DayYear(d))
		}
	}
	return out.String() + text[at:]
}

// partOfID reports whether what looks like a date is part of a longer word, such
// as an id that somebody has to copy.
func partOfID(text string, from, to int) bool {
	const joins = "-_/#+"
	return from > 0 && strings.ContainsRune(joins, rune(text[from-1])) || to < len(text) && strings.ContainsRune(joins, rune(text[to]))
}

func sortedKeys(m season.Values) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}
