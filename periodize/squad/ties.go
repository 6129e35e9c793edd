package squad

import (
	"time"

	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// ties are what decides among plans of the squad with equal points. All of them
// together weigh less than half a point, so that they never outweigh one, and a
// bound on cost with ties is one on points too.
//
// A session in a hall costs an athlete its place in the line of that week, times
// the number of athletes, and where the slot is a poor one for it, one that starts
// farther from its preferred time than the rule start-time allows, what its turn
// says. Any session costs one more. What is out of kind is in labels.go.
type ties struct {
	members []*member
	first   time.Weekday
	line    [][]int // of each week since the first: places in the line
	turn    [][]int // and whose turn it is to take a poor slot, n-1 is first
	scale   int64   // by which they are multiplied
	over    int64   // and then divided
}

// The most that ties of either sort may weigh together.
const (
	tieBudget   = starts.Point / 4
	labelBudget = starts.Point / 4
)

// newTies finds the scale that keeps the budget. In squads so large that single
// steps of the line do not fit, neighbours in it count as equal.
func newTies(members []*member) *ties {
	t := &ties{members: members, scale: 1, over: 1}
	t.order()
	var most int64
	for _, m := range members {
		if m.ready.Refused {
			continue
		}
		for l := range m.base {
			d := &m.ready.Model.Days[m.ready.Model.From+l]
			var high int64
			for o := range m.base[l] {
				high = max(high, t.raw(m, d, l, o))
			}
			most += high
		}
	}
	switch {
	case most == 0:
	case most <= tieBudget:
		t.scale = min(tieBudget/most, 64)
	default:
		t.scale, t.over = tieBudget, most
	}
	return t
}

// order finds the line and the turns of each week. Turns are counted from no year in
// particular, so that the next plan goes on where this one ends.
func (t *ties) order() {
	place, number, all := make([]int, len(t.members)), make([]int, len(t.members)), make([]*Athlete, len(t.members))
	var period season.Period
	for i, m := range t.members {
		place[i], number[i], all[i] = m.line, m.number, m.athlete
		if !m.ready.Refused {
			t.first = time.Weekday(m.ready.Model.Set.Value("week-start"))
			period = m.ready.Model.Period
		}
	}
	if period.Days() == 0 {
		return
	}
	team := teamsOf(all)
	began := weekOf(period.From, t.first)
	for week := began; week <= weekOf(period.To, t.first); week++ {
		t.line = append(t.line, weekly(place, team, week-began))
		t.turn = append(t.turn, weekly(number, team, week))
	}
}

func (t *ties) of(m *member, d *starts.Day, l, o int) int64 {
	return t.raw(m, d, l, o) * t.scale / t.over
}

// raw is the tie of an option before it is scaled.
func (t *ties) raw(m *member, d *starts.Day, l, o int) int64 {
	n := len(t.members)
	week := weekOf(d.Date, t.first) - weekOf(m.ready.Model.Period.From, t.first)
	c := &m.ready.Model.Choices[l]
	var out int64
	for _, s := range c.Options[o] {
		if !c.Slots[s].Forced {
			out++
		}
	}
	for i := range m.uses[l][o] {
		out += int64(n * t.line[week][m.number])
		if m.poor[l][o][i] {
			out += int64(t.turn[week][m.number])
		}
	}
	return out
}

// poorFor reports whether a start is far from what the athlete prefers.
func poorFor(s *starts.Slot) bool {
	if s.Kind == season.PostGame {
		return false
	}
	for _, c := range s.Costs {
		if c.Rule == "start-time" {
			return true
		}
	}
	return false
}
