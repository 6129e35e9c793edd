package squad

import (
	"context"
	"slices"
	"time"

	"example.org/weft/internal/columns"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// DefaultMovePoints is what it costs to move an athlete whose own calendar did not
// change: more than any aim, so that the fewest people are moved, and these may have
// to move often. How many sessions of theirs move, and of the others', is the business
// of the rule change.
const DefaultMovePoints = 10_000

func (r *Request) movePoints() int64 {
	if r.MovePoints == 0 {
		return DefaultMovePoints
	}
	return int64(r.MovePoints)
}

// RuleKeep keeps who is not moved where it was.
const RuleKeep = "squad-keep"

// since is the instant from which on sessions are planned.
func (r *Request) since(a *Athlete) time.Time {
	if zone := a.Season.Athlete.Zone; r.Now.IsZero() && !zone.IsZero() {
		return zone.DayStart(r.Period.From)
	}
	return r.Now
}

// issuedPlan is what keeps an athlete in place when the squad is planned again.
type issuedPlan struct {
	column   *columns.Column // the plan issued last, as it would be now; nil if it cannot stand
	sessions []season.Session
	move     int64 // what another plan costs more
}

// affected reports whether an athlete's own calendar changed since the plan was
// issued, on a date that is not over, or the request says that something else did.
func (r *Request) affected(a *Athlete, last *season.Plan, m *starts.Model) bool {
	if slices.Contains(r.Affected, a.id()) {
		return true
	}
	was := map[string]string{}
	for _, d := range last.EventsDigest {
		was[d.Date.String()] = d.Hash
	}
	for _, d := range season.EventsDigest(a.Season.Events, m.Period) {
		day, ok := m.Index(d.Date.DayNumber())
		if ok && m.Days[day].To > m.Now && last.Period.Contains(d.Date) && was[d.Date.String()] != d.Hash {
			return true
		}
		delete(was, d.Date.String())
	}
	for i := m.From; i < m.To; i++ { // what was there and is gone
		if _, gone := was[m.Days[i].Date.String()]; gone && m.Days[i].To > m.Now {
			return true
		}
	}
	return false
}

// hold finds the issued plan among the choices of an athlete who should not be
// moved. The costs must be settled.
func (m *member) hold(ctx context.Context, r *Request, set layered.Settings) error {
	if r.Issued == nil || m.ready.Refused {
		return nil
	}
	last := r.Issued.planOf(m.athlete.id())
	if last == nil || r.affected(m.athlete, last, m.ready.Model) {
		return nil
	}
	m.issued = &issuedPlan{move: r.movePoints() * starts.Point}
	model := m.ready.Model
	for i := range last.Sessions {
		if s := model.SlotOf(&last.Sessions[i]); s.From >= model.Now && model.Period.Contains(last.Sessions[i].Date) {
			m.issued.sessions = append(m.issued.sessions, last.Sessions[i])
		}
	}
	only := make([][]int64, len(m.base))
	for l := range m.base {
		only[l] = make([]int64, len(m.base[l]))
		for o := range only[l] {
			only[l][o] = layered.Inf
			if m.stands(l, o) {
				only[l][o] = m.base[l][o]
			}
		}
	}
	m.priced = only
	s, err := m.solver.Solve(ctx, m.ready.Compiled, only, set)
	m.priced = make([][]int64, len(m.base))
	for l := range m.priced {
		m.priced[l] = make([]int64, len(m.base[l]))
	}
	if err != nil || s.Status == layered.Infeasible {
		return err
	}
	copyRows(m.priced, only)
	c := m.column(s)
	m.issued.column = &c
	return nil
}

func copyRows(to, from [][]int64) {
	for l := range to {
		copy(to[l], from[l])
	}
}

// stands reports whether an option of a date is what the issued plan has there.
func (m *member) stands(l, o int) bool {
	model := m.ready.Model
	c := &model.Choices[l]
	day := model.Days[model.From+l].N
	n := 0
	for _, s := range c.Options[o] {
		x := &c.Slots[s]
		if x.Done {
			continue
		}
		if !slices.ContainsFunc(m.issued.sessions, func(i season.Session) bool {
			return i.Kind == x.Kind && starts.Minutes(i.Start, false) == x.From && i.Place == model.PlaceIDs[x.Place]
		}) {
			return false
		}
		n++
	}
	want := 0
	for _, s := range m.issued.sessions {
		if s.Date.DayNumber() == day {
			want++
		}
	}
	return n == want
}

// weigh adds to an answer what moving costs: every plan but the issued one is
// dearer by so much, and the issued one is among the answers.
func (m *member) weigh(a columns.Answer, prices []int64, fixed []columns.Fix) columns.Answer {
	if m.issued == nil {
		return a
	}
	move := m.issued.move
	out := columns.Answer{None: a.None, Bound: a.Bound + move}
	stay := m.issued.column
	for _, c := range a.Columns {
		if stay != nil && slices.Equal(c.Plan, stay.Plan) {
			continue
		}
		c.Cost += move
		out.Columns = append(out.Columns, c)
	}
	if stay == nil || !meets(stay, fixed) {
		return out
	}
	cost := stay.Cost
	for _, u := range stay.Uses {
		cost += u.N * prices[u.Row]
	}
	if out.None || cost <= out.Bound {
		out.Bound = cost
		out.Columns = append([]columns.Column{*stay}, out.Columns...)
	} else {
		out.Columns = append(out.Columns, *stay)
	}
	out.None = false
	return out
}

func meets(c *columns.Column, fixed []columns.Fix) bool {
	for _, f := range fixed {
		uses := slices.ContainsFunc(c.Uses, func(u columns.Use) bool { return u.Row == f.Row })
		if uses != f.On {
			return false
		}
	}
	return true
}

// stays reports whether a choice of options is the issued plan.
func (m *member) stays(plan []int) bool {
	return m.issued != nil && m.issued.column != nil && slices.Equal(plan, m.issued.column.Plan)
}

// keep is the rule that nothing but the issued plan may stand, for who is not
// moved.
func (m *member) keep() rule.Custom {
	now := m.ready.Model.Now
	return rule.Custom{ID: RuleKeep, Doc: "who need not be moved stays", Single: func(_ rule.Day, s rule.Session) rule.Verdict {
		issued := slices.ContainsFunc(m.issued.sessions, func(i season.Session) bool {
			return i.Kind == s.Kind && i.Start.Equal(s.Start) && i.Place == s.Place
		})
		return rule.Verdict{Forbid: !issued && !s.Fixed && starts.Minutes(s.Start, false) >= now}
	}}
}
