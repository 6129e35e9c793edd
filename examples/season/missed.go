package main

import (
	"fmt"
	"strings"

	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

const waysShown = 3 // of what stood in the way of one miss

// missed prints the aims that could not be kept, by aim, most dear first as the
// rule table has them.
func (s *sheet) missed() {
	var order []string
	groups := map[string][]season.Missed{}
	small, points := 0, int64(0)
	for _, m := range s.plan.Missed {
		if convenience(m.Aim) && !s.verbose {
			small++
			points += m.Points
			continue
		}
		if groups[m.Aim] == nil {
			order = append(order, m.Aim)
		}
		groups[m.Aim] = append(groups[m.Aim], m)
	}
	sortAims(order)
	s.title("MISSED AIMS, and what stood in the way")
	if len(order) == 0 {
		s.Line("  none")
	}
	for _, aim := range order {
		var sum int64
		for _, m := range groups[aim] {
			sum += m.Points
		}
		s.Hang("  ", fmt.Sprintf("%s: missed %s, %d points", upper(aimWord(aim)), times(len(groups[aim])), sum))
		for _, m := range groups[aim] {
			s.Hang("    "+say.Pad(say.Between(m.From, m.To), 16)+" ", s.missText(m))
		}
	}
	if small > 0 {
		s.Hang("  ", fmt.Sprintf("And %s, %d points together (-v lists them)", say.Count(small, "small convenience"), points))
	}
}

func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func (s *sheet) missText(m season.Missed) string {
	var b strings.Builder
	if e, ok := s.byID[m.Event]; ok {
		fmt.Fprintf(&b, "%s: ", s.name(e))
	} else if m.Aim == "empty-run" || m.Aim == "lift-run" {
		fmt.Fprintf(&b, "%d dates, %d are tolerated: ", m.Got, m.Wanted)
	} else if m.Session == "" && m.From != m.To {
		fmt.Fprintf(&b, "%d of %d: ", m.Got, m.Wanted)
	}
	b.WriteString(s.ways(m))
	return b.String()
}

// ways says what stood in the way: limits, and what was kept in the place of the
// aim. Events of one rule stand together.
func (s *sheet) ways(m season.Missed) string {
	var order []string
	events := map[string][]string{}
	for _, w := range m.InTheWay {
		if w.Rule == m.Aim && w.Event == m.Event {
			continue // only its own price
		}
		if _, ok := events[w.Rule]; !ok {
			order = append(order, w.Rule)
			events[w.Rule] = nil
		}
		if e, ok := s.byID[w.Event]; ok {
			events[w.Rule] = append(events[w.Rule], s.name(e)+" "+say.Between(e.Date, e.Date))
		}
	}
	named := func(id, word string) string {
		if n := events[id]; len(n) > 0 {
			word += " (" + strings.ReplaceAll(listed(n, 2), "; ", ", ") + ")"
		}
		return word
	}
	var limits, kept, small []string
	for _, id := range order {
		switch {
		case !isAim(id):
			limits = append(limits, named(id, limitWord(id)))
		case convenience(id):
			small = append(small, named(id, aimWord(id)))
		default:
			kept = append(kept, named(id, aimWord(id)))
		}
	}
	most := waysShown
	if s.verbose {
		kept, small = append(kept, small...), nil
		most = len(order)
	}
	if len(limits)+len(kept) == 0 {
		kept = small
	}
	var parts []string
	if len(limits) > 0 {
		parts = append(parts, listed(limits, most))
	}
	if len(kept) > 0 {
		parts = append(parts, "kept instead: "+listed(kept, most))
	}
	if len(parts) == 0 {
		return "other choices weighed more"
	}
	return strings.Join(parts, "; ")
}
