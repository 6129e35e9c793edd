package layered

import (
	"context"
	"errors"
)

// Graph is every plan within a slack of the best, in one structure that answers
// many questions. It owns its memory and is safe for concurrent use.
type Graph struct {
	g      *graph
	m      *Model
	static [][]int64
	rep    [][]int32
	slack  int64
	best   Solution
}

// ErrBounded says that the counted work ran out before the graph was complete:
// questions about all plans have no exact answer then.
var ErrBounded = errors.New("layered: node limit: the graph is not complete")

// ErrInfeasible says that there is no plan at all.
var ErrInfeasible = errors.New("layered: no plan is allowed")

// Explore solves, and keeps every plan that costs at most settings.Slack more
// than the best one.
func (m *Model) Explore(ctx context.Context, static [][]int64, settings Settings) (*Graph, error) {
	s := solvers.Get().(*Solver)
	defer solvers.Put(s)
	return s.Explore(ctx, m, static, settings)
}

// Explore is Model.Explore with the memory of this solver.
func (s *Solver) Explore(ctx context.Context, m *Model, static [][]int64, settings Settings) (*Graph, error) {
	if err := m.checkStatic(static); err != nil {
		return nil, err
	}
	s.ctx, s.m, s.static, s.set, s.stats, s.ticks = ctx, m, static, settings, Stats{}, 0
	defer func() { s.ctx, s.m, s.static = nil, nil, nil }()
	out := Solution{}
	g, err := s.run(&out, true)
	switch {
	case err != nil:
		return nil, err
	case out.Status == Infeasible:
		return nil, ErrInfeasible
	case g == nil:
		return nil, ErrBounded
	}
	out.Stats = s.stats
	// The known plan that cut the graph may have been dearer than the best: cut
	// once more, now that the best is known.
	slack := max(settings.Slack, 0)
	upper := add(g.low(), slack)
	s.keep, _ = g.trim(upper, s.keep)
	e := &Graph{g: g.clone(), m: m, slack: slack, best: out}
	for l := range static {
		e.static = append(e.static, append([]int64(nil), static[l]...))
		e.rep = append(e.rep, append([]int32(nil), s.rep[l]...))
	}
	return e, nil
}

// Best returns the best plan.
func (e *Graph) Best() Solution {
	out := e.best
	out.Options = append([]int(nil), e.best.Options...)
	out.ByRule = append([]int64(nil), e.best.ByRule...)
	return out
}

// Slack is how much dearer than the best a plan in the graph may be.
func (e *Graph) Slack() int64 { return e.slack }

// over is what an option costs more than the one that stands for its group; Inf
// if it may not be chosen.
func (e *Graph) over(layer, option int) int64 {
	c := e.static[layer][option]
	if c >= Inf {
		return Inf
	}
	return c - e.static[layer][e.rep[layer][e.m.joint[layer][option]]]
}

// Prices returns what the best plan with each option of a layer costs more than
// the best plan, and whether that is exact. Where it is not, every plan with the
// option costs at least that much more: more than the slack, or forbidden.
func (e *Graph) Prices(layer int) (extra []int64, exact []bool) {
	n := e.m.options[layer]
	byGroup := make([]int64, e.m.width[layer])
	for k := range byGroup {
		byGroup[k] = Inf
	}
	g := e.g
	for i := g.layer[layer]; i < g.layer[layer+1]; i++ {
		for _, x := range g.out(i) {
			byGroup[x.group] = min(byGroup[x.group], g.fore[i]+x.cost+g.back[x.to]-g.low())
		}
	}
	extra, exact = make([]int64, n), make([]bool, n)
	for o := 0; o < n; o++ {
		extra[o] = add(byGroup[e.m.joint[layer][o]], e.over(layer, o))
		exact[o] = extra[o] <= e.slack
		if !exact[o] {
			extra[o] = e.slack + 1
		}
	}
	return extra, exact
}

// Force returns the best plan that has an option, by a solve of its own: the
// exact price where Prices only says "at least". Its status is Infeasible if no
// plan has it.
func (m *Model) Force(ctx context.Context, static [][]int64, settings Settings, layer, option int) (*Solution, error) {
	if layer < 0 || layer >= len(m.options) || option < 0 || option >= m.options[layer] {
		return nil, errors.New("layered: no such option")
	}
	forced := append([][]int64(nil), static...)
	row := make([]int64, len(static[layer]))
	for o := range row {
		row[o] = Inf
	}
	row[option] = static[layer][option]
	forced[layer] = row
	return m.Solve(ctx, forced, settings)
}

// Through returns the cheapest plan of the graph that has an option, if one lies
// within the slack. Which of several equals is
// fixed.
func (e *Graph) Through(layer, option int) (Plan, bool) {
	g := e.g
	if layer < 0 || layer >= g.layers() || option < 0 || option >= e.m.options[layer] || e.over(layer, option) >= Inf {
		return Plan{}, false
	}
	k := e.m.joint[layer][option]
	low, from, to := Inf, int32(-1), int32(-1)
	for i := g.layer[layer]; i < g.layer[layer+1]; i++ {
		for _, x := range g.out(i) {
			if c := g.fore[i] + x.cost + g.back[x.to]; x.group == k && c < low {
				low, from, to = c, i, x.to
			}
		}
	}
	over := e.over(layer, option)
	if from < 0 || low+over > g.low()+e.slack {
		return Plan{}, false
	}
	p := Plan{Cost: low + over + e.m.base, Options: make([]int, g.layers())}
	p.Options[layer] = option
	n := to
	for l := layer + 1; l < g.layers(); l++ {
		o, next := e.step(l, n)
		p.Options[l], n = o, next
	}
	// Backward along cheapest ways in.
	n = from
	for l := layer - 1; l >= 0; l-- {
		best, at := int32(-1), int32(-1)
		for i := g.layer[l]; i < g.layer[l+1]; i++ {
			for _, x := range g.out(i) {
				if x.to != n || g.fore[i]+x.cost != g.fore[n] {
					continue
				}
				if o := e.rep[l][x.group]; best < 0 || o < best {
					best, at = o, i
				}
			}
		}
		p.Options[l], n = int(best), at
	}
	return p, true
}

// step follows a cheapest way out of a node.
func (e *Graph) step(layer int, n int32) (option int, to int32) {
	best := int32(-1)
	for _, x := range e.g.out(n) {
		if x.cost+e.g.back[x.to] != e.g.back[n] {
			continue
		}
		if o := e.rep[layer][x.group]; best < 0 || o < best {
			best, to = o, x.to
		}
	}
	return int(best), to
}
