package layered

import (
	"context"
	"errors"
	"fmt"
	"sync"
)

// Settings bound the work of a solve. The zero value is the documented default
// of every field.
type Settings struct {
	// MaxStates is the most states one rule may have in one layer; default 1<<16.
	MaxStates int
	// MaxNodes is the most nodes the graphs of one attempt may hold in all,
	// counted, so that the outcome repeats on every machine; default 20 million. A
	// solve makes at most two attempts.
	MaxNodes int64
	// Beam is the width of the search for an upper bound; default 16.
	Beam int
	// Slack keeps every choice that is on a plan at most this much dearer than
	// the best in the graph of the result; default 0.
	Slack int64
}

func (s Settings) maxStates() int {
	if s.MaxStates <= 0 {
		return 1 << 16
	}
	return s.MaxStates
}

func (s Settings) maxNodes() int64 {
	if s.MaxNodes <= 0 {
		return 20_000_000
	}
	return s.MaxNodes
}

func (s Settings) beam() int {
	if s.Beam <= 0 {
		return 16
	}
	return s.Beam
}

// Status says what is known of a solution.
type Status uint8

const (
	// Proved: no plan costs less.
	Proved Status = iota
	// Bounded: the counted work ran out. The plan is the best one found, and
	// no plan costs less than Bound.
	Bounded
	// Infeasible: every plan contains a forbidden choice.
	Infeasible
)

// Stats count the work of a solve.
type Stats struct {
	Nodes    int64  // nodes made in all compositions
	Edges    int64  // edges looked at
	BeamWork int64  // edges looked at by the beams
	Final    int    // nodes of the last graph
	Steps    []Step // the compositions, in order
}

// Step is the composition of one rule.
type Step struct {
	Rule  int
	Nodes int   // kept
	Edges int64 // looked at
	Low   int64 // the bound after it, without the base
	Upper int64 // cost of the best plan known before it
}

// Solution is the answer to one solve.
type Solution struct {
	Status  Status
	Options []int // the chosen option of each layer
	Cost    int64
	Bound   int64 // equal to Cost if proved
	ByRule  []int64
	Stats   Stats
}

// ErrStatic says that the static costs do not fit the model.
var ErrStatic = errors.New("layered: static costs do not match the options")

func (m *Model) checkStatic(static [][]int64) error {
	if len(static) != len(m.options) {
		return fmt.Errorf("%w: %d layers, want %d", ErrStatic, len(static), len(m.options))
	}
	total := m.most
	for l, row := range static {
		if len(row) != m.options[l] {
			return fmt.Errorf("%w: layer %d has %d, want %d", ErrStatic, l, len(row), m.options[l])
		}
		var most int64
		for o, c := range row {
			if c >= Inf {
				continue
			}
			if c > MaxCost || c < -MaxCost {
				return fmt.Errorf("%w: layer %d option %d costs %d, at most %d either way", ErrStatic, l, o, c, MaxCost)
			}
			most = max(most, c, -c)
		}
		if total += most; total > MaxCost {
			return ErrCosts
		}
	}
	return nil
}

var solvers = sync.Pool{New: func() any { return new(Solver) }}

// Solve finds a plan of least cost: static[l][o] is what option o of layer l
// costs by itself, Inf if it may not be chosen. Among plans of equal cost the
// one with the smallest options, compared layer by layer, is returned. The
// context only aborts; it never shortens the search to another answer. It is
// safe for concurrent use.
func (m *Model) Solve(ctx context.Context, static [][]int64, settings Settings) (*Solution, error) {
	s := solvers.Get().(*Solver)
	defer solvers.Put(s)
	return s.Solve(ctx, m, static, settings)
}

// Solver holds the memory of a solve, and of a compilation, and reuses it for the
// next. The zero value is ready. It is for one goroutine at a time.
type Solver struct {
	ctx    context.Context
	m      *Model
	static [][]int64
	set    Settings
	stats  Stats
	ticks  int64 // work since the context was last looked at

	rep    [][]int32 // [layer][group] cheapest option, -1 none
	reps   []int32   // its memory
	graphs [2]graph
	coarse []int32 // of each node being composed: the node of the coarser graph
	state  []int32 // and the state of the rule
	index  []int32
	keep   []int32
	left   []int
	larges []unfolded
	path   []int32 // groups of the best plan of the graph
	said   []verdict
	work   beamWork
	plans  [2]beamPlan

	compiler compiler // see Compile
	memory   lent     // of the model
}

// Forget gives up the memory of graphs if it is more than so many bytes, so that one
// hard problem does not weigh on all that follow.
func (s *Solver) Forget(bytes int) {
	size := 4 * (cap(s.coarse) + cap(s.state) + cap(s.index) + cap(s.keep))
	for i := range s.graphs {
		g := &s.graphs[i]
		size += 16*cap(g.edge) + 8*(cap(g.fore)+cap(g.back)) + 4*(cap(g.edges)+cap(g.layer))
	}
	if size > bytes {
		s.graphs, s.coarse, s.state, s.index, s.keep = [2]graph{}, nil, nil, nil, nil
	}
}

// Solve is Model.Solve with the memory of this solver.
func (s *Solver) Solve(ctx context.Context, m *Model, static [][]int64, settings Settings) (*Solution, error) {
	if err := m.checkStatic(static); err != nil {
		return nil, err
	}
	s.ctx, s.m, s.static, s.set, s.stats, s.ticks = ctx, m, static, settings, Stats{}, 0
	defer func() {
		s.ctx, s.m, s.static = nil, nil, nil
		for i := range s.larges {
			s.larges[i].rule = nil
		}
	}()
	out := &Solution{}
	if _, err := s.run(out, false); err != nil && !errors.Is(err, errNoPlan) {
		return nil, err
	} else if err == nil && out.Status != Bounded {
		out.Stats = s.stats
		return out, nil
	}
	// The nodes ran out. A better known plan cuts more: start again, once, with
	// a beam so wide that it costs about as much as what was lost.
	first := *out
	s.set.Beam = wideBeam * s.set.beam()
	spent := s.stats
	s.stats = Stats{}
	*out = Solution{}
	_, err := s.run(out, false)
	s.stats.Nodes += spent.Nodes
	s.stats.Edges += spent.Edges
	s.stats.BeamWork += spent.BeamWork
	out.Stats = s.stats
	if err != nil {
		return nil, err
	}
	if out.Status == Bounded && first.Options != nil { // the better of both
		out.Bound = max(out.Bound, first.Bound)
		if first.Cost < out.Cost {
			out.Options, out.Cost, out.ByRule = first.Options, first.Cost, first.ByRule
		}
		if out.Bound == out.Cost {
			out.Status = Proved
		}
	}
	return out, nil
}

// wideBeam is how many times wider the beam is after the nodes have run out.
const wideBeam = 16

var errNoPlan = errors.New("layered: no plan found within the nodes allowed; allow more")

// pulse looks at the context now and then.
func (s *Solver) pulse(n int64) error {
	s.ticks += n
	if s.ticks < 1<<16 {
		return nil
	}
	s.ticks = 0
	return s.ctx.Err()
}

func infeasible(out *Solution) { out.Status, out.Cost, out.Bound = Infeasible, Inf, Inf }

// run composes rules until the best plan is known, or all of them, and returns
// the last graph, in the solver's memory; nil if there is none.
func (s *Solver) run(out *Solution, all bool) (*graph, error) {
	if err := s.ctx.Err(); err != nil {
		return nil, err
	}
	m := s.m
	slack := max(s.set.Slack, 0)
	if m.base >= Inf {
		infeasible(out)
		return nil, nil
	}
	s.choose()
	g, spare := &s.graphs[0], &s.graphs[1]
	if !s.ground(g) {
		infeasible(out)
		return nil, nil
	}
	// left holds the rules not yet composed. A rule that never charges nor
	// forbids has nothing to say.
	s.left = s.left[:0]
	n := 0
	for i := range m.rules {
		if !m.rules[i].free {
			s.left = append(s.left, i)
		}
		if m.rules[i].large != nil {
			for len(s.larges) <= n {
				s.larges = append(s.larges, unfolded{})
			}
			s.larges[n].unfold(&m.rules[i], len(m.options), s.set.maxStates())
			n++
		}
	}
	for ; n < len(s.larges); n++ {
		s.larges[n].rule = nil
	}
	left := s.left
	best, other := &s.plans[0], &s.plans[1]
	found := false
	beamed := -Inf // the bound when the last beam was tried
	for len(left) > 0 {
		// A beam pays where the bound has risen much since the last one, or where
		// the graph is large enough that a better known plan saves more.
		low := g.low()
		if low > beamed && (!found || (low < best.cost && (4*(low-beamed) >= best.cost-low || len(g.edge) > 40*g.layers()))) {
			beamed = low
			cut := Inf
			if found {
				cut = best.cost
			}
			better, err := s.beam(g, left, cut, other)
			if err != nil {
				return nil, err
			}
			if better {
				best, other, found = other, best, true
			}
		}
		upper := Inf
		if found {
			upper = add(best.cost, slack)
		}
		if s.next(g, left, upper) && !all {
			break // the best plan of the graph breaks no rule that is left
		}
		i := left[0]
		left = left[1:]
		edges := s.stats.Edges
		ok, err := s.compose(spare, g, i, upper)
		if errors.Is(err, errNodes) {
			return nil, s.bounded(out, g, best, found)
		}
		if err != nil {
			return nil, err
		}
		if !ok {
			if found {
				return nil, errors.New("layered: fault: the bound cut off a plan that is known")
			}
			infeasible(out)
			return nil, nil
		}
		g, spare = spare, g
		s.stats.Steps = append(s.stats.Steps, Step{i, len(g.fore), s.stats.Edges - edges, g.low(), upper})
	}
	s.stats.Final = len(g.fore)
	out.Cost = g.low() + m.base
	out.Bound = out.Cost
	s.path = g.path(s.rep, s.path)
	out.Options = g.first(s.rep, s.path)
	out.ByRule = m.charge(out.Options)
	return g, nil
}

func (s *Solver) bounded(out *Solution, g *graph, best *beamPlan, found bool) error {
	if !found {
		return errNoPlan
	}
	out.Bound = g.low() + s.m.base
	out.Status = Bounded
	out.Cost = best.cost + s.m.base
	for l, k := range best.groups {
		out.Options = append(out.Options, int(s.rep[l][k]))
	}
	if out.Bound == out.Cost {
		out.Status = Proved
	}
	out.ByRule = s.m.charge(out.Options)
	return nil
}

// choose picks the cheapest option of each joint group.
func (s *Solver) choose() {
	total := 0
	for _, w := range s.m.width {
		total += w
	}
	if cap(s.reps) < total {
		s.reps = make([]int32, total)
	}
	all := s.reps[:total]
	s.rep = s.rep[:0]
	for l, row := range s.static {
		rep := all[:s.m.width[l]:s.m.width[l]]
		all = all[s.m.width[l]:]
		for k := range rep {
			rep[k] = -1
		}
		for o, c := range row {
			k := s.m.joint[l][o]
			if c < Inf && (rep[k] < 0 || c < row[rep[k]]) {
				rep[k] = int32(o)
			}
		}
		s.rep = append(s.rep, rep)
	}
}

// next moves to the front of left the rule to compose next: the one that says
// most against the best plan of the graph, which is the one that lifts the bound.
// A choice it forbids counts as thrice an equal part of what separates bound and
// known plan: measured on seasons, where limits found late make the graphs of all
// rules before them large. It reports whether no rule says anything: then that plan is a best one
// under all rules, and, being the first among its equals in the graph, the first
// among all.
func (s *Solver) next(g *graph, left []int, upper int64) bool {
	s.path = g.path(s.rep, s.path)
	s.said = sized(s.said, len(left))
	all := int64(0)
	for x, i := range left {
		t := &s.m.rules[i]
		v := verdict{}
		st := 0
		large := s.unfoldedOf(i)
		for l, k := range s.path {
			var to int32
			var c int64
			if large != nil {
				to, c = large.step(l, int32(st), k, s.m.width[l])
			} else {
				at := st*s.m.width[l] + int(k)
				to, c = t.next[l][at], t.cost[l][at]
			}
			if to < 0 {
				v.forbids++
				if large != nil {
					break // no other state is known
				}
				st = 0 // go on from some state
				continue
			}
			v.charges = add(v.charges, c)
			st = int(to)
		}
		all += v.forbids
		s.said[x] = v
	}
	share := int64(1)
	if upper < Inf {
		share = max(1, (upper-g.low())/(all+1))
	}
	best, score := 0, int64(-1)
	for x, i := range left {
		n := s.said[x].charges + 3*s.said[x].forbids*share
		if s.m.rules[i].large != nil && n > 0 {
			n = 1 // after all others that say anything
		}
		if n > score || (n == score && s.m.rules[i].size < s.m.rules[left[best]].size) {
			best, score = x, n
		}
	}
	left[0], left[best] = left[best], left[0]
	return score == 0
}

// unfoldedOf returns what is known of a large rule, nil for any other.
func (s *Solver) unfoldedOf(rule int) *unfolded {
	r := &s.m.rules[rule]
	if r.large == nil {
		return nil
	}
	for i := range s.larges {
		if s.larges[i].rule == r {
			return &s.larges[i]
		}
	}
	return nil
}

// verdict is what a rule says against a plan.
type verdict struct {
	charges int64
	forbids int64
}

// charge adds up what each rule charges for a plan, from the compiled tables.
func (m *Model) charge(options []int) []int64 {
	out := make([]int64, len(m.rules))
	for i := range m.rules {
		t := &m.rules[i]
		if t.large != nil {
			var c int64
			state := t.large.Init()
			for l, o := range options {
				var more int64
				state, more = t.large.Step(l, o, state)
				c = add(c, more)
			}
			out[i] = c
			continue
		}
		c := t.base
		s := 0
		for l, o := range options {
			k := s*m.width[l] + int(m.joint[l][o])
			c = add(c, t.cost[l][k])
			if t.next[l][k] < 0 {
				break
			}
			s = int(t.next[l][k])
		}
		out[i] = c
	}
	return out
}
