package squad

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// RuleMoves is the wish that who has to be moved is moved rarely: the second session
// of an athlete that changes its time, its kind or its place costs a point, the third
// two more, and so on up to MovesMost points each. So of plans that move as few people
// the better one moves few sessions, and no one person for all. Less than any aim.
// Common practice, no source.
const (
	RuleMoves = "squad-moves"
	MovesMost = 5
)

// movesRule is that wish for the plan issued last. What starts before now is past.
func movesRule(p *season.Plan, now time.Time) rule.Custom {
	m := &moves{byDate: map[calendar.Date][]season.Session{}, now: now}
	for _, s := range p.Sessions {
		if !s.Start.Before(now) {
			m.byDate[s.Date] = append(m.byDate[s.Date], s)
		}
	}
	return rule.Custom{ID: RuleMoves, Doc: "few sessions of one athlete move", Memory: m, Plain: m.plain}
}

// moves counts: its state is how many sessions moved so far, and of the date the
// sessions that are new and those that stayed.
type moves struct {
	byDate map[calendar.Date][]season.Session
	now    time.Time
}

// perDate is more than the sessions of a date.
const perDate = 8

func (m *moves) Init() uint64 { return 0 }

func (m *moves) Step(state uint64, d rule.Day, s rule.Session) (uint64, rule.Verdict) {
	switch {
	case s.Start.Before(m.now):
		return state, rule.Verdict{}
	case m.stays(s):
		return state + 1, rule.Verdict{}
	}
	return state + perDate, rule.Verdict{}
}

func (m *moves) EndDay(state uint64, d rule.Day) (uint64, rule.Verdict) {
	stayed, added, before := int(state%perDate), int(state/perDate%perDate), int(state/perDate/perDate)
	n := max(added, len(m.byDate[d.Date])-stayed)
	return uint64(min(before+n, MovesMost+1)) * perDate * perDate, rule.Verdict{Points: movesCost(before, n)}
}

// stays reports whether a session is one of the plan issued last.
func (m *moves) stays(s rule.Session) bool {
	for _, x := range m.byDate[s.Date] {
		if x.Kind == s.Kind && x.Start.Equal(s.Start) && x.Place == s.Place {
			return true
		}
	}
	return false
}

// movesCost is what n more moves cost after some.
func movesCost(before, n int) int {
	points := 0
	for i := range n {
		points += min(before+i, MovesMost)
	}
	return points
}

func (m *moves) plain(days []rule.Day) []rule.Finding {
	var out []rule.Finding
	before := 0
	for _, d := range days {
		added, gone := 0, len(m.byDate[d.Date])
		for _, s := range d.Sessions {
			if s.Start.Before(m.now) {
				continue
			}
			if m.stays(s) {
				gone--
			} else {
				added++
			}
		}
		n := max(added, gone)
		if points := movesCost(before, n); points > 0 {
			out = append(out, rule.Finding{Date: d.Date, Session: -1, Verdict: rule.Verdict{Points: points}})
		}
		before += n
	}
	return out
}
