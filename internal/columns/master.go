package columns

import (
	"context"
	"encoding/binary"
	"errors"
	"math"
	"slices"
	"sync"
	"sync/atomic"
)

// search is a problem being solved.
type search struct {
	*Problem
	ctx   context.Context
	pool  [][]*Column // of each group, in order of arrival
	known []map[string]int64
	rows  []int     // the row of the linear program of each limit, -1 without one
	bind  int       // how many have one
	best  []*Column // of the best choice so far, nil if there is none
	cost  int64     // its cost with what is over
	stats Stats
}

// node is a part of the choices: those that meet the demands.
type node struct {
	fixed  [][]Fix // of each group
	bound  int64
	center []int64 // prices of the best bound above it
	q      *program
}

var errNothing = errors.New("columns: a group has no column at all")

// Solve finds the best choice it can within the work allowed. The context only
// aborts.
func Solve(ctx context.Context, p Problem) (*Result, error) {
	s := &search{Problem: &p, ctx: ctx, pool: make([][]*Column, p.Groups), known: make([]map[string]int64, p.Groups), cost: math.MaxInt64}
	for g := range s.known {
		s.known[g] = map[string]int64{}
		if g < len(p.Known) {
			for _, c := range p.Known[g] {
				s.keep(g, c)
			}
		}
	}
	for _, l := range p.Limits {
		s.rows = append(s.rows, -1)
		if l < NoLimit {
			s.rows[len(s.rows)-1] = s.bind
			s.bind++
		}
	}
	bound, prices, err := s.tree()
	if err != nil {
		return nil, err
	}
	if s.best == nil {
		return nil, errNothing
	}
	out := &Result{Bound: bound, Prices: prices, Stats: s.stats}
	for _, c := range s.best {
		out.Chosen = append(out.Chosen, *c)
	}
	out.Cost, out.Over = s.total(s.best)
	out.Proved = s.enough(s.cost, bound)
	out.Pool = make([][]Column, p.Groups)
	for g := range s.pool {
		out.Stats.Columns += len(s.pool[g])
		for _, c := range s.pool[g] {
			out.Pool[g] = append(out.Pool[g], *c)
		}
	}
	return out, nil
}

// keep adds a column to the pool unless one that uses the same costs no more.
func (s *search) keep(g int, c Column) bool {
	key := make([]byte, 0, 16*len(c.Uses))
	for _, u := range c.Uses {
		key = binary.AppendUvarint(key, uint64(u.Row))
		key = binary.AppendVarint(key, u.N)
	}
	if was, ok := s.known[g][string(key)]; ok && was <= c.Cost {
		return false
	}
	s.known[g][string(key)] = c.Cost
	s.pool[g] = append(s.pool[g], &c)
	return true
}

// program is the linear program of a node over the columns of the pool.
type program struct {
	lp    *LP
	cols  [][]int // of each group and column of the pool, -1 if it is not in
	added []int   // how many columns of the pool have been looked at
}

// clone is a copy that goes on by itself.
func (q *program) clone() *program {
	out := &program{lp: q.lp.Clone(), cols: make([][]int, len(q.cols)), added: slices.Clone(q.added)}
	for g := range q.cols {
		out.cols[g] = slices.Clone(q.cols[g])
	}
	return out
}

// below is the linear program of a node made from that of the node above.
func (s *search) below(n *node, above *program) *program {
	q := above.clone()
	for g := range q.cols {
		s.ban(q, g, func(c *Column) bool { return !c.meets(n.fixed[g]) })
	}
	s.extend(q, n)
	return q
}

// ban makes columns of a group dearer than anything.
func (s *search) ban(q *program, g int, which func(*Column) bool) {
	for i, c := range q.cols[g] {
		if c >= 0 && which(s.pool[g][i]) {
			q.lp.Bar(c, s.banned())
			q.cols[g][i] = -1
		}
	}
}

func (s *search) banned() float64 { return 100 * float64(s.Over) / s.unit() }

// trace is a little that is added to the right side of a row, another for each:
// many limits are met exactly at once, and the simplex method would take steps of
// no length between them for long. It is far below what any decision looks at.
func trace(row int) float64 { return 5e-8 * (1 + float64(row*37%101)/101) }

// whole is how near to one a part of a column counts as all of it.
const whole = 1e-4

// solve solves a linear program. One that takes too long, or whose basis rounding
// has spoilt, stays where it is: its numbers satisfy the rows all the same, and no
// bound depends on it.
func (q *program) solve() error {
	err := q.lp.Solve()
	if errors.Is(err, ErrLPSteps) || errors.Is(err, ErrLPSingular) {
		return nil
	}
	return err
}

// build writes the linear program of a node. The rows of the groups come after
// those of the limits; a group without a column is kept alive by one that costs
// more than anything.
func (s *search) build(n *node) *program {
	right := make([]float64, s.bind+s.Groups)
	equal := make([]bool, s.bind+s.Groups)
	for r, l := range s.Limits {
		if at := s.rows[r]; at >= 0 {
			right[at] = float64(l) + trace(at)
		}
	}
	for g := 0; g < s.Groups; g++ {
		right[s.bind+g], equal[s.bind+g] = 1+trace(s.bind+g), true
	}
	q := &program{lp: NewLP(right, equal), cols: make([][]int, s.Groups), added: make([]int, s.Groups)}
	over := float64(s.Over) / s.unit()
	for r := range s.bind {
		q.lp.Add(over, []int{r}, []float64{-1})
	}
	for g := 0; g < s.Groups; g++ {
		q.lp.Add(s.banned(), []int{s.bind + g}, []float64{1})
	}
	s.extend(q, n)
	return q
}

// extend adds what has come to the pool since.
func (s *search) extend(q *program, n *node) {
	for g := range s.pool {
		for ; q.added[g] < len(s.pool[g]); q.added[g]++ {
			c := s.pool[g][q.added[g]]
			if !c.meets(n.fixed[g]) {
				q.cols[g] = append(q.cols[g], -1)
				continue
			}
			rows, coefs := make([]int, 0, len(c.Uses)+1), make([]float64, 0, len(c.Uses)+1)
			for _, u := range c.Uses {
				if at := s.rows[u.Row]; at >= 0 {
					rows, coefs = append(rows, at), append(coefs, float64(u.N))
				}
			}
			rows, coefs = append(rows, s.bind+g), append(coefs, 1)
			q.cols[g] = append(q.cols[g], q.lp.Add(float64(c.Cost)/s.unit(), rows, coefs))
		}
	}
}

// suggested are the prices that the duals of the linear program say.
func (s *search) suggested(q *program) []int64 {
	out := make([]int64, len(s.Limits))
	for r := range out {
		if s.rows[r] < 0 {
			continue
		}
		p := math.Round(-q.lp.Dual(s.rows[r]) * s.unit())
		out[r] = int64(min(max(p, 0), float64(s.Over)))
	}
	return out
}

// price asks for the columns of all groups but those that are settled, several at
// the same time.
func (s *search) price(prices []int64, n *node, settled []*Column) ([]Answer, error) {
	out := make([]Answer, s.Groups)
	errs := make([]error, s.Groups)
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(max(s.Workers, 1), s.Groups) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for {
				g := int(next.Add(1)) - 1
				if g >= s.Groups {
					return
				}
				if settled != nil && settled[g] != nil {
					continue
				}
				out[g], errs[g] = s.Price(s.ctx, g, prices, n.fixed[g])
			}
		}()
	}
	wg.Wait()
	s.stats.Priced += s.Groups
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return out, s.ctx.Err()
}

// bound is what the answers prove at the prices. No choice is left if a group has
// no column.
func (s *search) bound(prices []int64, answers []Answer) (bound int64, none bool) {
	for g := range answers {
		if answers[g].None {
			return 0, true
		}
		bound += answers[g].Bound
	}
	for r, p := range prices {
		if p > 0 { // a row without a limit has no price
			bound -= p * s.Limits[r]
		}
	}
	return bound, false
}

// How far prices move towards the duals of the linear program: the rest is the
// weight of the prices of the best bound, which damps their swinging.
const (
	smoothWhole = 10
	smoothOld   = 6
)

// relax finds the best bound of a node and the program over the columns that
// prove it; nil if the node has no choice.
func (s *search) relax(n *node, rounds int) (*program, error) {
	q := n.q
	if q == nil {
		q = s.build(n)
	} else {
		q = s.below(n, q)
		n.q = nil
	}
	old := int64(smoothOld)
	first := true
	for round := 0; round < rounds; round++ {
		if err := q.solve(); err != nil {
			return nil, err
		}
		duals := s.suggested(q)
		prices := make([]int64, len(duals))
		for r := range prices {
			prices[r] = (n.center[r]*old + duals[r]*(smoothWhole-old)) / smoothWhole
		}
		if first {
			copy(prices, n.center) // what the parent knew, or no prices at all
		}
		answers, err := s.price(prices, n, nil)
		if err != nil {
			return nil, err
		}
		s.stats.Rounds++
		bound, none := s.bound(prices, answers)
		if none {
			return nil, nil
		}
		better := bound > n.bound || first
		if better {
			n.bound = max(n.bound, bound)
			n.center = prices
		}
		first = false
		added := 0
		for g := range answers {
			for _, c := range answers[g].Columns {
				if s.keep(g, c) {
					added++
				}
			}
		}
		s.extend(q, n)
		if s.Progress != nil {
			s.Progress(s.stats, s.cost, n.bound)
		}
		// The program over all columns costs no less than the bound and no more than
		// the program over these.
		gap := q.lp.Cost() - float64(n.bound)/s.unit()
		if s.best != nil && s.enough(s.cost, n.bound) {
			break
		}
		switch {
		case added > 0 && gap > s.near():
			if !better {
				old = max(old-2, 2)
			} else {
				old = smoothOld
			}
		case added == 0 && old > 0 && gap > s.near():
			old = 0 // the duals themselves, before giving up
		default:
			return q, q.solve()
		}
	}
	return q, q.solve()
}
