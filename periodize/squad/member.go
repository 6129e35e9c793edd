package squad

import (
	"context"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/columns"
	"example.org/weft/internal/history"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Ids of the rules that a squad adds to those of its athletes.
const (
	RuleHome  = "squad-home"  // a lift at home costs more than one in a hall
	RuleMinor = "squad-minor" // a minor lifts only where somebody supervises
)

// member is one athlete made ready for the engine.
type member struct {
	athlete *Athlete
	req     season.Request
	rules   []rule.Custom
	ready   *history.Ready
	ratio   int
	weight  int64 // share of a coach, 0 if no row counts coaches
	rows    int   // number of slots: the rows that count coaches come after theirs
	line    int   // place in the line
	number  int   // place by id

	base   [][]int64         // static cost of each option, points and ties
	uses   [][][]int32       // slots that each option takes
	kinds  [][][]season.Kind // and for which kind of session
	poor   [][][]bool        // and whether it is a poor one
	broken int64             // limits that are broken whatever is chosen
	fixed  []int             // slots that are taken whatever is chosen

	solver layered.Solver
	priced [][]int64
	asked  [][]int64 // costs of the last solve, and its answer
	answer columns.Answer
	issued *issuedPlan // nil if the athlete may be moved freely
}

// rulesFor are the squad's rules for one athlete.
func (r *Request) rulesFor(a *Athlete) []rule.Custom {
	points := r.HomePoints
	if points == 0 {
		points = DefaultHomePoints
	}
	home := func(s rule.Session) bool { return r.hall(s.Place) < 0 && s.Kind != season.PostGame }
	out := []rule.Custom{{ID: RuleHome, Doc: "a lift at home is second to one in the hall", Single: func(_ rule.Day, s rule.Session) rule.Verdict {
		if s.Kind.Lift() && home(s) {
			return rule.Verdict{Points: points}
		}
		return rule.Verdict{}
	}}}
	if !a.SupervisedHome {
		out = append(out, rule.Custom{ID: RuleMinor, Doc: "under 18 only supervised", Single: func(d rule.Day, s rule.Session) rule.Verdict {
			age, known := a.Season.Athlete.Born.AgeOn(d.Date)
			return rule.Verdict{Forbid: s.Kind.Lift() && home(s) && (!known || age < 18)}
		}})
	}
	if len(a.TopUps) > 0 {
		out = append(out, topUpRule(a.TopUps))
	}
	if a.Target != nil {
		out = append(out, targetRule(a.Target))
	}
	if r.Issued == nil {
		return out
	}
	if p := r.Issued.planOf(a.id()); p != nil && r.loose(a) {
		out = append(out, changeRule(p))
	} else if p != nil {
		out = append(out, movesRule(p, r.since(a)))
	}
	return out
}

// join makes an athlete ready, with all slots of the grid open to it.
func join(r *Request, a *Athlete, g *grid, maxNodes int64) (*member, error) {
	m := &member{athlete: a, req: r.seasonOf(a), rules: r.rulesFor(a), ratio: r.ratio(a)}
	p := periodize.Planner{MaxNodes: maxNodes, Rules: m.rules, Slots: g.places(r, nil)}
	var err error
	m.ready, err = p.Ready(&m.req)
	return m, err
}

// lay reads off the model what each option costs and which slots it takes.
func (m *member) lay(r *Request, g *grid) {
	model := m.ready.Model
	model.NoTies = true
	m.base = model.Static()
	halls := make([]int, len(model.PlaceIDs))
	for p, id := range model.PlaceIDs {
		halls[p] = r.hall(id)
	}
	m.uses, m.kinds, m.poor = make([][][]int32, len(m.base)), make([][][]season.Kind, len(m.base)), make([][][]bool, len(m.base))
	m.rows = len(g.slots)
	m.priced = make([][]int64, len(m.base))
	for l := range model.Choices {
		c := &model.Choices[l]
		always := m.always(c)
		for _, s := range always {
			if h := halls[c.Slots[s].Place]; h >= 0 && !c.Slots[s].Done {
				m.fixed = append(m.fixed, g.touching(h, c.Slots[s].From, c.Slots[s].To)...)
			}
		}
		m.priced[l] = make([]int64, len(c.Options))
		for _, opt := range c.Options {
			var uses []int32
			var kinds []season.Kind
			var poor []bool
			for _, s := range opt {
				x := &c.Slots[s]
				h := halls[x.Place]
				if h < 0 || x.Done || slices.Contains(always, s) {
					continue
				}
				for _, i := range g.touching(h, x.From, x.To) {
					uses, kinds, poor = append(uses, int32(i)), append(kinds, x.Kind), append(poor, poorFor(x))
				}
			}
			m.uses[l], m.kinds[l], m.poor[l] = append(m.uses[l], uses), append(m.kinds[l], kinds), append(m.poor[l], poor)
		}
	}
}

// always are the slots that every option of a date has.
func (m *member) always(c *starts.Choices) []int {
	var out []int
	for s := range c.Slots {
		if c.Slots[s].Forced && !slices.ContainsFunc(c.Options, func(o []int) bool { return !slices.Contains(o, s) }) {
			out = append(out, s)
		}
	}
	return out
}

// tie adds what decides among plans that are equally good by points, see ties.
func (m *member) tie(t *ties) {
	model := m.ready.Model
	for l := range m.base {
		d := &model.Days[model.From+l]
		for o := range m.base[l] {
			m.base[l][o] += t.of(m, d, l, o)
		}
	}
}

// ask solves with a price on each slot, and some slots demanded or forbidden.
func (m *member) ask(ctx context.Context, prices []int64, fixed []columns.Fix, set layered.Settings) (columns.Answer, error) {
	if m.ready.Refused {
		return columns.Answer{Columns: []columns.Column{{}}}, nil
	}
	for l := range m.base {
		for o, c := range m.base[l] {
			for _, s := range m.uses[l][o] {
				c += prices[s]
				if m.weight > 0 {
					c += m.weight * prices[m.rows+int(s)]
				}
			}
			m.priced[l][o] = c
		}
	}
	for _, f := range fixed {
		m.demand(f)
	}
	if m.asked == nil || !equalRows(m.asked, m.priced) {
		s, err := m.solver.Solve(ctx, m.ready.Compiled, m.priced, set)
		if err != nil {
			return columns.Answer{}, err
		}
		m.remember(s)
	}
	return m.weigh(m.answer, prices, fixed), nil
}

// remember keeps the answer of the last solve: late in a search most prices stay.
func (m *member) remember(s *layered.Solution) {
	m.answer = columns.Answer{None: s.Status == layered.Infeasible}
	if !m.answer.None {
		m.answer.Bound = s.Bound - m.broken*starts.Broken
		m.answer.Columns = []columns.Column{m.column(s)}
	}
	if m.asked == nil {
		m.asked = make([][]int64, len(m.priced))
		for l := range m.priced {
			m.asked[l] = make([]int64, len(m.priced[l]))
		}
	}
	copyRows(m.asked, m.priced)
}

func equalRows(a, b [][]int64) bool {
	for l := range a {
		if !slices.Equal(a[l], b[l]) {
			return false
		}
	}
	return true
}

// demand forbids the options that do not meet a demand.
func (m *member) demand(f columns.Fix) {
	for l := range m.uses {
		touches := slices.ContainsFunc(m.uses[l], func(u []int32) bool { return slices.Contains(u, int32(f.Row)) })
		if !touches {
			continue
		}
		for o, u := range m.uses[l] {
			if slices.Contains(u, int32(f.Row)) != f.On {
				m.priced[l][o] = layered.Inf
			}
		}
	}
}

// column turns a solution into a column: its cost without prices.
func (m *member) column(s *layered.Solution) columns.Column {
	c := columns.Column{Cost: s.Cost - m.broken*starts.Broken, Plan: s.Options}
	for l, o := range s.Options {
		c.Cost += m.base[l][o] - m.priced[l][o]
		for _, u := range m.uses[l][o] {
			c.Uses = append(c.Uses, columns.Use{Row: int(u), N: 1})
			if m.weight > 0 {
				c.Uses = append(c.Uses, columns.Use{Row: m.rows + int(u), N: m.weight})
			}
		}
	}
	slices.SortFunc(c.Uses, func(a, b columns.Use) int { return a.Row - b.Row })
	return c
}

// weekOf is the week of a date, counted from no year in particular.
func weekOf(d calendar.Date, first time.Weekday) int {
	return calendar.WeekStart(d, first).DayNumber() / 7
}
