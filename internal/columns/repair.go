package columns

import (
	"cmp"
	"context"
	"slices"
)

// The size of a repair: how many groups are chosen for again, and the work each may
// take.
const (
	repairGroups = 8
	repairNodes  = 2
	repairRounds = 15
	repairMost   = 10 // repairs after one dive
	repairKnown  = 30 // columns of each group to begin with, the newest
)

// repair betters the best choice piece by piece. The bound at the node's prices
// says how much each group's column is dearer than it could be; the worst group is
// chosen for again, together with those whose columns fill the rows that it would
// like to use, as a small problem of its own in what the others leave. It stops when
// every group has been the worst once without anything getting better, or after
// repairMost of them.
func (s *search) repair(n *node) error {
	if s.Brief || s.best == nil || s.Groups <= 1 {
		return nil
	}
	answers, err := s.price(n.center, &node{fixed: make([][]Fix, s.Groups)}, nil)
	if err != nil {
		return err
	}
	tried := make([]bool, s.Groups)
	for range repairMost {
		if s.enough(s.cost, n.bound) {
			return nil
		}
		worst := s.worst(answers, n.center, tried)
		if worst < 0 {
			return nil
		}
		tried[worst] = true
		was := s.cost
		if err := s.again(s.around(worst, answers, n.center), n.center); err != nil {
			return err
		}
		if s.cost < was {
			clear(tried)
		}
	}
	return nil
}

// loss is what a group's column costs more at the prices than the best there is.
func (s *search) loss(g int, answers []Answer, prices []int64) int64 {
	return priced(s.best[g], prices) - answers[g].Bound
}

func priced(c *Column, prices []int64) int64 {
	n := c.Cost
	for _, u := range c.Uses {
		n += prices[u.Row] * u.N
	}
	return n
}

// worst is the group that loses most of those not tried yet, -1 if none loses.
func (s *search) worst(answers []Answer, prices []int64, tried []bool) int {
	worst, most := -1, int64(0)
	for g := range s.best {
		if l := s.loss(g, answers, prices); !tried[g] && l > most {
			worst, most = g, l
		}
	}
	return worst
}

// around returns a group and those that stand most in its way, in order.
func (s *search) around(g int, answers []Answer, prices []int64) []int {
	used := make([]int64, len(s.Limits))
	for _, c := range s.best {
		for _, u := range c.Uses {
			used[u.Row] += u.N
		}
	}
	wanted := map[int]bool{}
	for _, c := range answers[g].Columns[:1] {
		for _, u := range c.Uses {
			if used[u.Row]-s.best[g].uses(u.Row)+u.N > s.Limits[u.Row] {
				wanted[u.Row] = true
			}
		}
	}
	type rival struct {
		group int
		rows  int
		loss  int64
	}
	var rivals []rival
	for h, c := range s.best {
		r := rival{group: h, loss: s.loss(h, answers, prices)}
		for _, u := range c.Uses {
			if wanted[u.Row] {
				r.rows++
			}
		}
		if h != g {
			rivals = append(rivals, r)
		}
	}
	slices.SortStableFunc(rivals, func(a, b rival) int {
		if c := cmp.Compare(min(b.rows, 1), min(a.rows, 1)); c != 0 {
			return c
		}
		if c := cmp.Compare(b.loss, a.loss); c != 0 {
			return c
		}
		return cmp.Compare(b.rows, a.rows)
	})
	out := []int{g}
	for _, r := range rivals[:min(repairGroups-1, len(rivals))] {
		out = append(out, r.group)
	}
	slices.Sort(out)
	return out
}

// again chooses for some groups again, in what the others leave.
func (s *search) again(groups []int, prices []int64) error {
	left := slices.Clone(s.Limits)
	inside := map[int]bool{}
	for _, g := range groups {
		inside[g] = true
	}
	for h, c := range s.best {
		if inside[h] {
			continue
		}
		for _, u := range c.Uses {
			if left[u.Row] < NoLimit {
				left[u.Row] = max(0, left[u.Row]-u.N)
			}
		}
	}
	sub := *s.Problem
	sub.Groups, sub.Limits, sub.Start = len(groups), left, prices
	sub.Nodes, sub.Rounds, sub.Progress, sub.Brief = repairNodes, repairRounds, nil, true
	sub.Price = func(ctx context.Context, i int, prices []int64, fixed []Fix) (Answer, error) {
		return s.Price(ctx, groups[i], prices, fixed)
	}
	sub.Known = make([][]Column, len(groups))
	for i, g := range groups {
		sub.Known[i] = append(sub.Known[i], *s.best[g])
		for _, c := range s.pool[g][max(0, len(s.pool[g])-repairKnown):] {
			sub.Known[i] = append(sub.Known[i], *c)
		}
	}
	out, err := Solve(s.ctx, sub)
	if err != nil {
		return err
	}
	s.stats.Rounds += out.Stats.Rounds
	s.stats.Priced += out.Stats.Priced
	next := slices.Clone(s.best)
	for i, g := range groups {
		c := out.Chosen[i]
		next[g] = &c
		for _, x := range out.Pool[i] {
			s.keep(g, x)
		}
	}
	s.offer(next)
	return nil
}
