package starts

import (
	"sort"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// charges returns the static costs of a slot: what it costs whatever else is
// planned.
func (f *Facts) charges(s *Slot) []Charge {
	var out []Charge
	charge := func(id string, times int64, event int) {
		if p := f.Set.Points(id) * times; p != 0 {
			out = append(out, Charge{id, p, event})
		}
	}
	at, ok := f.Index(s.Day)
	if !ok {
		return nil
	}
	d := &f.Days[at]
	hours := func(id string) int64 { return int64(f.Set.Value(id)) * 60 }
	k := s.Kind
	if k == season.Trimmed || k == season.PostGame {
		near, important := -1, -1
		for x := sort.Search(len(f.Games), func(i int) bool { return f.Events[f.Games[i]].From > s.From }); x < len(f.Games); x++ {
			g := f.Games[x]
			gap := f.Events[g].From - s.To
			if gap >= 96*60 {
				break
			}
			if f.Events[g].Important {
				if gap < hours("important-48h") && important < 0 {
					important = g
				}
			} else if gap < hours("near-game") && near < 0 {
				near = g
			}
		}
		switch {
		case important >= 0:
			charge("important-48h", 1, important)
		case near >= 0:
			charge("near-game", 1, near)
		}
	}
	if k == season.Primer {
		if g := f.nextGame(s.From); g >= 0 && f.Events[g].From-s.To < hours("primer-timing") {
			charge("primer-timing", 1, g)
		}
	}
	switch k {
	case season.Trimmed:
		charge("size", 1, -1)
	case season.PostGame:
		charge("size", 2, -1)
	}
	if k != season.PostGame {
		far := s.StartClock - d.Prefer
		if far < 0 {
			far = -far
		}
		if far > f.Set.Value("start-time") {
			charge("start-time", 1, -1)
		}
	}
	if k.Lift() {
		for i := range f.eventsNear(s.From-24*60, s.From) {
			e := &f.Events[i]
			if (e.Kind == calendar.Practice || e.Kind == calendar.Skills) && e.Day == s.Day && e.To <= s.From && s.From-e.To < hours("practice-order") {
				charge("practice-order", 1, i)
				break
			}
		}
	}
	if full(k) && d.HardDay {
		charge("hard-day", 1, -1)
	}
	for _, c := range f.custom {
		if c.Single == nil {
			continue
		}
		if v := c.Single(f.RuleDay(at), f.RuleSession(s)); !v.Forbid && v.Points > 0 {
			out = append(out, Charge{c.ID, int64(min(v.Points, rule.HighestPoints)), -1})
		}
	}
	return out
}
