package columns

import (
	"math"
	"slices"
)

// tree is the search over nodes.
type tree struct {
	*search
	open   []*node
	closed int64 // the least bound of a node that needs no more work
	dive   bool  // the last node branched: go on below it
}

// childRounds is the most rounds of pricing at a node other than the first.
const childRounds = 15

// diveEvery is after how many nodes there is a dive, the first node's the first.
const diveEvery = 8

// tree branches until the best choice is proved or the nodes run out. It returns
// the bound of all choices, and the prices of the first node.
func (s *search) tree() (int64, []int64, error) {
	nodes, rounds := s.Nodes, s.Rounds
	if nodes <= 0 {
		nodes = DefaultNodes
	}
	if rounds <= 0 {
		rounds = DefaultRounds
	}
	root := &node{fixed: make([][]Fix, s.Groups), bound: math.MinInt64, center: make([]int64, len(s.Limits))}
	copy(root.center, s.Start)
	t := &tree{search: s, open: []*node{root}, closed: math.MaxInt64}
	for len(t.open) > 0 && s.stats.Nodes < nodes {
		n := t.take()
		if s.best != nil && s.enough(s.cost, n.bound) {
			t.close(n)
			continue
		}
		s.stats.Nodes++
		most := rounds
		if n != root {
			most = min(rounds, childRounds)
		}
		q, err := s.relax(n, most)
		if err != nil {
			return 0, nil, err
		}
		if q == nil { // no choice meets the demands
			t.dive = false
			continue
		}
		s.stats.Pivots += q.lp.Pivots
		if err := s.improve(q); err != nil {
			return 0, nil, err
		}
		if !s.enough(s.cost, n.bound) && s.stats.Nodes%diveEvery == 1 {
			if err := s.dive(n, q); err != nil {
				return 0, nil, err
			}
			if err := s.repair(n); err != nil {
				return 0, nil, err
			}
		}
		group, row, partly := s.partly(q)
		if !partly || s.enough(s.cost, n.bound) {
			t.close(n)
			continue
		}
		t.branch(n, q, group, row)
	}
	bound := min(s.cost, t.closed)
	for _, n := range t.open {
		bound = min(bound, n.bound)
	}
	return bound, root.center, nil
}

// take removes the next node: the last one made while diving, else the one of the
// least bound, the oldest of equals.
func (t *tree) take() *node {
	at := len(t.open) - 1
	if !t.dive {
		at = 0
		for i, n := range t.open {
			if n.bound < t.open[at].bound {
				at = i
			}
		}
	}
	n := t.open[at]
	t.open = slices.Delete(t.open, at, at+1)
	return n
}

func (t *tree) close(n *node) {
	t.closed = min(t.closed, n.bound)
	t.dive = false
}

// branch makes two nodes of one: the group must not use the row, and it must.
func (t *tree) branch(n *node, q *program, group, row int) {
	for _, on := range []bool{false, true} {
		child := &node{fixed: slices.Clone(n.fixed), bound: n.bound, center: n.center, q: q}
		child.fixed[group] = append(slices.Clone(n.fixed[group]), Fix{row, on})
		t.open = append(t.open, child)
	}
	t.dive = true
}

// partly returns the use of a decisive row that is nearest to a whole one without
// being whole.
func (s *search) partly(q *program) (group, row int, ok bool) {
	most := 0.0
	use := make([]float64, s.Decisive)
	for g := range q.cols {
		clear(use)
		for i, c := range q.cols[g] {
			if c < 0 {
				continue
			}
			v := q.lp.Value(c)
			if v < whole/10 {
				continue
			}
			for _, u := range s.pool[g][i].Uses {
				if u.Row < s.Decisive {
					use[u.Row] += v
				}
			}
		}
		for r, v := range use {
			if v > whole && v < 1-whole && v > most+whole {
				group, row, most, ok = g, r, v, true
			}
		}
	}
	return group, row, ok
}
