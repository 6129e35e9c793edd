package layered

import (
	"context"
	"errors"
	"fmt"
	"sort"
)

// Settings bound the work of a solve. The zero value is the documented default
// of every field.
type Settings struct {
	// MaxStates is the most states one rule may have in one layer; default 1<<16.
	MaxStates int
	// MaxNodes is the most nodes the graphs of one solve may hold in all,
	// counted, so that the outcome repeats on every machine; default 20 million.
	MaxNodes int64
	// Beam is the width of the search for an upper bound; default 30.
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
		return 30
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
	Nodes    int64 // nodes made in all compositions
	Edges    int64 // edges looked at
	BeamWork int64 // edges looked at by the beams
	Final    int   // nodes of the last graph
	Rules    []int // order in which the rules were composed
}

// Solution is the answer to one solve.
type Solution struct {
	Status  Status
	Options []int // the chosen option of each layer
	Cost    int64
	Bound   int64 // equal to Cost if proved
	ByRule  []int64
	Stats   Stats
	graph   *graph
	slack   int64
	model   *Model
	rep     [][]int32
	static  [][]int64
}

// ErrStatic says that the static costs do not fit the model.
var ErrStatic = errors.New("layered: static costs do not match the options")

// Solve finds a plan of least cost: static[l][o] is what option o of layer l
// costs by itself, Inf if it may not be chosen. Among plans of equal cost the
// one with the smallest options, compared layer by layer, is returned. The
// context only aborts; it never shortens the search to another answer.
func (m *Model) Solve(ctx context.Context, static [][]int64, settings Settings) (*Solution, error) {
	if len(static) != len(m.options) {
		return nil, fmt.Errorf("%w: %d layers, want %d", ErrStatic, len(static), len(m.options))
	}
	for l, row := range static {
		if len(row) != m.options[l] {
			return nil, fmt.Errorf("%w: layer %d has %d, want %d", ErrStatic, l, len(row), m.options[l])
		}
		for o, c := range row {
			if c < Inf && (c > MaxCost || c < -MaxCost) {
				return nil, fmt.Errorf("%w: layer %d option %d costs %d, at most %d either way", ErrStatic, l, o, c, MaxCost)
			}
		}
	}
	s := &solver{ctx: ctx, m: m, static: static, set: settings}
	return s.run()
}

type solver struct {
	ctx    context.Context
	m      *Model
	static [][]int64
	set    Settings
	rep    [][]int32 // [layer][group] cheapest option, -1 none
	stats  Stats
	work   int64 // since the context was last looked at
}

// pulse looks at the context now and then.
func (s *solver) pulse(n int64) error {
	s.work += n
	if s.work < 1<<16 {
		return nil
	}
	s.work = 0
	return s.ctx.Err()
}

func (s *solver) run() (*Solution, error) {
	if err := s.ctx.Err(); err != nil {
		return nil, err
	}
	m := s.m
	out := &Solution{model: m, static: s.static, slack: max(s.set.Slack, 0)}
	if m.base >= Inf {
		out.Status = Infeasible
		out.Cost, out.Bound = Inf, Inf
		return out, nil
	}
	s.choose()
	out.rep = s.rep
	g := s.ground()
	if g == nil {
		out.Status = Infeasible
		out.Cost, out.Bound = Inf, Inf
		return out, nil
	}
	// left holds the rules not yet composed, the dearest in the best plan known
	// first: it is they that lift the bound.
	left := make([]int, len(m.rules))
	for i := range left {
		left[i] = i
	}
	best, err := s.beam(g, left)
	if err != nil {
		return nil, err
	}
	for len(left) > 0 {
		s.order(left, best)
		i := left[0]
		left = left[1:]
		s.stats.Rules = append(s.stats.Rules, i)
		low := g.low()
		upper := Inf
		if best != nil {
			upper = add(best.cost, out.slack)
		}
		ng, err := s.compose(g, i, upper)
		if errors.Is(err, errNodes) {
			return s.bounded(out, g, best)
		}
		if err != nil {
			return nil, err
		}
		if ng == nil {
			if best != nil {
				return nil, errors.New("layered: fault: the bound cut off a plan that is known")
			}
			out.Status = Infeasible
			out.Cost, out.Bound = Inf, Inf
			return out, nil
		}
		g = ng
		if len(left) > 0 && (best == nil || g.low() < best.cost) && (best == nil || g.low() > low || len(s.stats.Rules) == 1) {
			b, err := s.beam(g, left)
			if err != nil {
				return nil, err
			}
			if b != nil && (best == nil || b.cost < best.cost) {
				best = b
			}
		}
	}
	s.stats.Final = g.nodes()
	out.graph = g
	out.Cost = g.low() + m.base
	out.Bound = out.Cost
	out.Options = g.first(s.rep)
	out.ByRule = m.charge(out.Options)
	out.Stats = s.stats
	return out, nil
}

func (s *solver) bounded(out *Solution, g *graph, best *beamPlan) (*Solution, error) {
	out.Stats = s.stats
	out.Bound = g.low() + s.m.base
	if best == nil {
		return nil, fmt.Errorf("layered: no plan found within %d nodes; allow more", s.set.maxNodes())
	}
	out.Status = Bounded
	out.Cost = best.cost + s.m.base
	for l, k := range best.groups {
		out.Options = append(out.Options, int(s.rep[l][k]))
	}
	if out.Bound == out.Cost {
		out.Status = Proved
	}
	out.ByRule = s.m.charge(out.Options)
	return out, nil
}

// choose picks the cheapest option of each joint group.
func (s *solver) choose() {
	s.rep = make([][]int32, len(s.m.options))
	for l, row := range s.static {
		rep := make([]int32, s.m.width[l])
		for k := range rep {
			rep[k] = -1
		}
		for o, c := range row {
			k := s.m.joint[l][o]
			if c < Inf && (rep[k] < 0 || c < row[rep[k]]) {
				rep[k] = int32(o)
			}
		}
		s.rep[l] = rep
	}
}

// order sorts the rules that are left: those that cost much in the best known
// plan first, then those with fewer states.
func (s *solver) order(left []int, best *beamPlan) {
	size := func(i int) int { return s.m.rules[i].size }
	sort.SliceStable(left, func(a, b int) bool {
		x, y := left[a], left[b]
		if best != nil && best.byRule[x] != best.byRule[y] {
			return best.byRule[x] > best.byRule[y]
		}
		if sx, sy := size(x), size(y); sx != sy {
			return sx < sy
		}
		return x < y
	})
}

// charge adds up what each rule charges for a plan, from the compiled tables.
func (m *Model) charge(options []int) []int64 {
	out := make([]int64, len(m.rules))
	for i := range m.rules {
		t := &m.rules[i]
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
