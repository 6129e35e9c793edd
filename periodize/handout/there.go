package handout

import (
	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// there is when something takes place as the clock on the spot shows it: who
// travels reads that one.
type there struct {
	start, end calendar.Wall
	zone       string
	other      bool // than the plan's clock
}

func (b *Book) sessionThere(s *season.Session) there {
	if s.Local != nil {
		return there{s.Local.Start, s.Local.End, s.Local.Zone, true}
	}
	return there{b.zone.Local(s.Start), b.zone.Local(s.End), b.plan.Zone, false}
}

func (b *Book) gameThere(g calendar.Placed) there {
	own := there{g.Zone.Local(g.Span.Start), g.Zone.Local(g.Span.End), g.Zone.Name(), false}
	own.other = own.start != b.zone.Local(g.Span.Start)
	if !own.other {
		own.zone = b.plan.Zone
	}
	return own
}

func (t there) clocks() string { return say.Clocks(t.start.Clock, t.end.Clock) }

// note says whose clock it is, "" for the plan's.
func (t there) note() string {
	if t.other {
		return "time there"
	}
	return ""
}
