package squad

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// write makes the plan of each athlete in the slots it was given, and of these the
// plan of the squad. Each is made and judged like any plan, with no other slot
// open to it, so that it has at most the points the search found.
func (w *work) write(ctx context.Context) (*Plan, error) {
	plans := make([]*season.Plan, len(w.members))
	if err := w.each(ctx, func(i int) error {
		m := w.members[i]
		chosen := w.result.Chosen[i].Plan
		p := periodize.Planner{MaxNodes: w.planner.MaxNodes, Rules: m.rules, Slots: w.grid.places(w.req, m.given(chosen))}
		if m.stays(chosen) {
			p.Rules = append(slices.Clip(p.Rules), m.keep())
		}
		plan, err := p.Plan(ctx, &m.req)
		plans[i] = plan
		return err
	}); err != nil {
		return nil, err
	}
	out := &Plan{Schema: Schema, Engine: Engine, Period: w.req.Period, Zone: w.grid.zone.Name(), Proof: season.Bounded,
		Now: plans[0].Now, Assumed: append([]calendar.Problem{}, w.notes...), LeftOut: []LeftOut{}, Findings: []season.Note{}, Moved: []Slip{},
		Work: Work{Nodes: w.result.Stats.Nodes, Rounds: w.result.Stats.Rounds, Columns: w.result.Stats.Columns}}
	var over, moved int64
	for i, p := range plans {
		m := w.members[i]
		alone := w.alone[i].Cost / starts.Point
		if m.issued != nil && !m.stays(w.alone[i].Plan) {
			alone -= w.req.movePoints()
		}
		if m.issued != nil && !m.stays(w.result.Chosen[i].Plan) {
			moved++
		}
		out.Points += p.Cost.Points
		out.Alone += alone
		over += p.Cost.Broken - m.broken
		out.Athletes = append(out.Athletes, AthletePlan{Athlete: m.athlete.id(), Line: m.line + 1, Alone: alone, Plan: p})
	}
	all := out.Points + moved*w.req.movePoints()
	out.Bound = min(boundPoints(w.result.Bound), all) - moved*w.req.movePoints()
	out.Gap = out.Points - out.Bound
	if out.Gap == 0 && over == 0 {
		out.Proof = season.Proved
	}
	w.slips(out)
	w.seat(out)
	w.leftOut(out)
	w.findings(out)
	return out, nil
}

// given are the slots and kinds that a choice of options takes, for the planner.
func (m *member) given(options []int) func(slot int) ([]season.Kind, bool) {
	taken := map[int][]season.Kind{}
	for l, o := range options {
		for i, s := range m.uses[l][o] {
			taken[int(s)] = append(taken[int(s)], m.kinds[l][o][i])
		}
	}
	return func(slot int) ([]season.Kind, bool) {
		kinds, ok := taken[slot]
		return kinds, ok
	}
}

// seat fills the slots.
func (w *work) seat(out *Plan) {
	for i := range w.grid.slots {
		s := &w.grid.slots[i]
		out.Slots = append(out.Slots, Slot{Hall: w.req.Halls[s.hall].Place.ID, Date: s.date, Start: w.grid.time(s.from), End: w.grid.time(s.to),
			Capacity: s.places, Coaches: s.coaches, Kinds: []season.Kind{}, Seats: []Seat{}})
	}
	for i := range out.Athletes {
		a := &out.Athletes[i]
		for j := range a.Plan.Sessions {
			x := &a.Plan.Sessions[j]
			h := w.req.hall(x.Place)
			if h < 0 {
				continue
			}
			for _, n := range w.grid.touching(h, starts.Minutes(x.Start, false), starts.Minutes(x.End, true)) {
				s := &out.Slots[n]
				s.Seats = append(s.Seats, Seat{a.Athlete, x.ID, x.Kind})
				if !slices.Contains(s.Kinds, x.Kind) {
					s.Kinds = append(s.Kinds, x.Kind)
				}
			}
		}
	}
	for i := range out.Slots {
		k := out.Slots[i].Kinds
		slices.SortFunc(k, func(a, b season.Kind) int { return order(a) - order(b) })
		if slices.ContainsFunc(k, func(x season.Kind) bool { return sortOf(x) != sortOf(k[0]) }) {
			out.Mixed++
		}
	}
}

func order(k season.Kind) int { return slices.Index(season.Kinds(), k) }

// nearDates is how far off a session may stand that takes the place of another.
const nearDates = 3

// leftOut finds who would lift in a hall on a date with the halls alone, and does
// not.
func (w *work) leftOut(out *Plan) {
	for i := range out.Athletes {
		m := w.members[i]
		if m.ready.Refused {
			continue
		}
		a := &out.Athletes[i]
		taken := map[string]bool{} // sessions that stand for another, or for themselves
		missing := m.missing(w.alone[i].Plan, func(d calendar.Date) bool {
			at := slices.IndexFunc(a.Plan.Sessions, func(s season.Session) bool { return s.Date == d && w.req.hall(s.Place) >= 0 })
			if at >= 0 {
				taken[a.Plan.Sessions[at].ID] = true
			}
			return at >= 0
		})
		for _, x := range missing {
			if s := w.instead(a.Plan, x.Date, taken, false); s != nil {
				taken[s.ID] = true // in the hall on another date: that is not left out
				continue
			}
			x.Athlete, x.Text = a.Athlete, "none instead"
			if s := w.instead(a.Plan, x.Date, taken, true); s != nil {
				taken[s.ID], x.Home = true, s.ID
				x.Text = fmt.Sprintf("%s at home on %s", s.Kind, s.Date)
			}
			x.Text = fmt.Sprintf("no place in the hall for the %s session of %s: %s", x.Kind, x.Date, x.Text)
			out.LeftOut = append(out.LeftOut, x)
		}
	}
	slices.SortStableFunc(out.LeftOut, func(a, b LeftOut) int {
		if c := a.Date.Compare(b.Date); c != 0 {
			return c
		}
		return strings.Compare(a.Athlete, b.Athlete)
	})
}

// missing are the lifts in halls that a choice of options has on dates without one.
func (m *member) missing(options []int, there func(calendar.Date) bool) []LeftOut {
	var out []LeftOut
	for l, o := range options {
		date := m.ready.Model.Days[m.ready.Model.From+l].Date
		for _, kind := range m.kinds[l][o] {
			if kind.Lift() && !there(date) {
				out = append(out, LeftOut{Date: date, Kind: kind})
			}
		}
	}
	return out
}

// instead is the lift at home, or the one in a hall, nearest to a date, the earlier
// of equals.
func (w *work) instead(p *season.Plan, d calendar.Date, taken map[string]bool, home bool) *season.Session {
	var best *season.Session
	near := nearDates + 1
	for i := range p.Sessions {
		s := &p.Sessions[i]
		n := s.Date.DaysSince(d)
		if n = max(n, -n); n < near && s.Kind.Lift() && s.Kind != season.PostGame && !taken[s.ID] && (w.req.hall(s.Place) < 0) == home {
			best, near = s, n
		}
	}
	return best
}
