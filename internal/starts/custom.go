package starts

import (
	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
)

// RuleDay is a date as rules of one's own see it, without its sessions.
func (f *Facts) RuleDay(i int) rule.Day {
	d := &f.Days[i]
	out := rule.Day{Date: d.Date}
	for j := range f.Events {
		switch f.Events[j].Day {
		case d.N:
			out.Events = append(out.Events, f.Events[j].Placed)
		case d.N - 1:
			out.Before = append(out.Before, f.Events[j].Placed)
		}
	}
	return out
}

// RuleSession is a slot as rules of one's own see it.
func (f *Facts) RuleSession(s *Slot) rule.Session {
	loc := f.zoneOf(s.Place, s.From).Location()
	out := rule.Session{Kind: s.Kind, Start: Instant(s.From).In(loc), End: Instant(s.To).In(loc),
		Date: calendar.DateFromDayNumber(s.Day), From: calendar.Clock(s.StartClock * 60),
		To: calendar.Clock(min(s.EndClock, 1440) * 60), Fixed: s.Forced}
	if s.Place >= 0 && s.Place < len(f.placeIDs) {
		out.Place = f.placeIDs[s.Place]
	}
	return out
}

// Custom returns the rules of one's own.
func (f *Facts) Custom() []rule.Custom { return f.custom }

// CustomDoc is what a rule of one's own says of itself.
func (f *Facts) CustomDoc(id string) string {
	for _, c := range f.custom {
		if c.ID == id {
			return c.Doc
		}
	}
	return ""
}
