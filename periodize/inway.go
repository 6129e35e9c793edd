package periodize

import (
	"context"

	"example.org/weft/internal/history"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// reach is how many dates before and after a missed aim may be planned anew to
// see what would have to give for it. All others stay as planned.
const reach = 10

// stretch is the part of the season around a missed aim: layers from to to, both
// included.
type stretch struct {
	w        *work
	from, to int
	model    *starts.Model // whose options the stretch is planned with
	options  []int
	rules    []*cut          // of the season, cut to the stretch
	tables   []layered.Table // the same, compiled
}

// cut is a rule of the whole season on a stretch of it: it starts where the plan
// brings it, and in the last layer adds what the plan behind the stretch costs.
type cut struct {
	rule   layered.Rule
	behind layered.Rule // the rule as the plan was made with it
	w      *work
	from   int
	last   int
	init   uint64
	states []uint64 // of the rule along the plan, before each layer of the season
	costs  []int64  // what the rule charges the plan from each layer on
}

func (c *cut) Init() uint64 { return c.init }

func (c *cut) Group(l, o int) uint64 {
	if g, ok := c.rule.(layered.Grouper); ok {
		return g.Group(c.from+l, o)
	}
	return uint64(o)
}

func (c *cut) Step(l, o int, s uint64) (uint64, int64) {
	next, cost := c.rule.Step(c.from+l, o, s)
	if l < c.last || cost >= layered.Inf {
		return next, cost
	}
	chosen := c.w.solution.Options
	for k := c.from + l + 1; k < len(chosen); k++ {
		if next == c.states[k] { // from here on it is the plan's own way
			return 0, cost + c.costs[k]
		}
		var more int64
		next, more = c.behind.Step(k, chosen[k], next)
		if more >= layered.Inf {
			return 0, layered.Inf
		}
		cost += more
	}
	return 0, cost
}

// track follows every rule along the plan.
func (w *work) track() {
	if w.states != nil {
		return
	}
	chosen := w.solution.Options
	for _, n := range w.rules {
		states := make([]uint64, len(chosen)+1)
		costs := make([]int64, len(chosen)+1)
		states[0] = n.Rule.Init()
		for l, o := range chosen {
			states[l+1], costs[l] = n.Rule.Step(l, o, states[l])
		}
		for l := len(chosen) - 1; l >= 0; l-- {
			costs[l] += costs[l+1]
		}
		w.states, w.rest = append(w.states, states), append(w.rest, costs)
	}
}

// stretch cuts the season around layers from to to. Aims missed in one week
// share it.
func (w *work) stretch(from, to int) (*stretch, error) {
	w.track()
	s := &stretch{w: w, model: w.model, from: max(0, from-reach), to: min(len(w.model.Choices)-1, to+reach)}
	if last := w.last; last != nil && last.from == s.from && last.to == s.to {
		return last, nil
	}
	if err := s.cut(w.rules); err != nil {
		return nil, err
	}
	w.last = s
	return s, nil
}

// cut cuts and compiles rules, each of which is one of the season's by its ids.
func (s *stretch) cut(rules []history.Named) error {
	for l := s.from; l <= s.to; l++ {
		s.options = append(s.options, len(s.model.Choices[l].Options))
	}
	for _, n := range rules {
		at := -1
		for i, o := range s.w.rules {
			if o.IDs[0] == n.IDs[0] {
				at = i
			}
		}
		if at < 0 {
			continue
		}
		c := &cut{rule: n.Rule, behind: s.w.rules[at].Rule, w: s.w, from: s.from, last: s.to - s.from,
			init: s.w.states[at][s.from], states: s.w.states[at], costs: s.w.rest[at]}
		t, err := layered.CompileRule(s.options, c, s.w.settings())
		if err != nil {
			return &FaultError{err.Error()}
		}
		s.rules, s.tables = append(s.rules, c), append(s.tables, t)
	}
	return nil
}

// cost is what the plan itself costs on the stretch and behind it.
func (s *stretch) cost() int64 {
	var n int64
	for l := s.from; l <= s.to; l++ {
		n += s.w.static[l][s.w.solution.Options[l]]
	}
	for i := range s.w.rules {
		n += s.w.rest[i][s.from]
	}
	return n
}

// solve plans the stretch anew, under one more rule if extra is not nil, leaving
// out the rules at some indices.
func (s *stretch) solve(ctx context.Context, static [][]int64, extra *layered.Table, without ...int) (*layered.Solution, error) {
	var tables []layered.Table
next:
	for i, t := range s.tables {
		for _, x := range without {
			if x == i {
				continue next
			}
		}
		tables = append(tables, t)
	}
	if extra != nil {
		tables = append(tables, *extra)
	}
	m, err := layered.Join(s.options, tables...)
	if err != nil {
		return nil, &FaultError{err.Error()}
	}
	sol, err := m.Solve(ctx, static, s.w.settings())
	if err != nil {
		return nil, engineError(err)
	}
	return sol, nil
}

// inWay finds what stood in the way of an aim, given a rule that forbids missing
// it: the limits over days without which it would have been kept, and the aims
// that would have been missed instead.
func (s *stretch) inWay(ctx context.Context, need layered.Rule) ([]season.InTheWay, error) {
	var out []season.InTheWay
	extra, err := layered.CompileRule(s.options, need, s.w.settings())
	if err != nil {
		return nil, &FaultError{err.Error()}
	}
	static := s.w.static[s.from : s.to+1]
	sol, err := s.solve(ctx, static, &extra)
	if err != nil {
		return nil, err
	}
	ok := sol.Status != layered.Infeasible
	plain := s.cost()
	for i, n := range s.w.rules {
		if !limits(n) || !s.tables[i].Forbids() {
			continue
		}
		relaxed, err := s.solve(ctx, static, &extra, i)
		if err != nil {
			return nil, err
		}
		if relaxed.Status != layered.Infeasible && (!ok || (relaxed.Cost < sol.Cost && relaxed.Cost <= plain)) {
			out = append(out, season.InTheWay{Rule: rule.Family(n.IDs[0])})
		}
	}
	if ok {
		out = append(out, s.dearer(sol.Options)...)
	}
	return out, nil
}

func limits(n history.Named) bool {
	r, ok := rule.Find(n.IDs[0])
	return r.Kind == rule.Limit || !ok // a rule of one's own may be either
}

// dearer names the aims that cost more with the given choices than in the plan.
func (s *stretch) dearer(options []int) []season.InTheWay {
	var out []season.InTheWay
	seen := map[season.InTheWay]bool{}
	add := func(x season.InTheWay) {
		if !seen[x] {
			seen[x] = true
			out = append(out, x)
		}
	}
	plain := s.w.points
	other := s.priced(options)
	byEvent := map[string]bool{}
	for l, o := range options {
		was, is := s.w.charged(s.from+l, s.w.solution.Options[s.from+l]), s.w.charged(s.from+l, o)
		for x, p := range is {
			if p > was[x] && other[x.Rule] > plain[x.Rule] {
				add(x)
				byEvent[x.Rule] = true
			}
		}
	}
	for id, p := range other {
		if p > plain[id] && !byEvent[id] {
			add(season.InTheWay{Rule: id})
		}
	}
	sortInWay(out)
	return out
}

// priced returns the points of each aim with other choices on the stretch.
func (s *stretch) priced(options []int) map[string]int64 {
	all := append([]int(nil), s.w.solution.Options...)
	copy(all[s.from:], options)
	out := map[string]int64{}
	v, err := verdictOf(s.w.model, s.w.chosen(all))
	if err != nil {
		return out
	}
	for _, r := range v.ByRule {
		out[r.Rule] = r.Points
	}
	return out
}

// charged is what an option costs by itself, by rule and event.
func (w *work) charged(l, o int) map[season.InTheWay]int64 {
	out := map[season.InTheWay]int64{}
	m := w.model
	c := &m.Choices[l]
	d := &m.Days[m.From+l]
	primer, recovery := false, false
	for _, x := range c.Options[o] {
		slot := &c.Slots[x]
		primer = primer || slot.Kind == season.Primer
		recovery = recovery || slot.Kind == season.Recovery
		for _, ch := range slot.Costs {
			out[w.way(ch.Rule, ch.Event)] += ch.Points
		}
	}
	if d.PrimerFor >= 0 && !primer {
		out[w.way(d.PrimerRule, d.PrimerFor)] += m.Set.Points(d.PrimerRule)
	}
	if d.RecoveryFrom >= 0 && !recovery {
		out[w.way("recovery-after", d.RecoveryFrom)] += m.Set.Points("recovery-after")
	}
	return out
}

func (w *work) way(id string, event int) season.InTheWay {
	x := season.InTheWay{Rule: id}
	if event >= 0 {
		x.Event = w.model.Events[event].ID
	}
	return x
}
