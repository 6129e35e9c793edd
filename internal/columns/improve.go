package columns

// improve looks for a good choice near the answer of a node's linear program: the
// heaviest column of each group, bettered by exchanging the column of one group,
// then of two, until nothing gets better.
func (s *search) improve(q *program) error {
	chosen := make([]*Column, s.Groups)
	for g := range q.cols {
		if chosen[g], _ = s.heaviest(q, g); chosen[g] == nil {
			return nil
		}
	}
	s.offer(chosen)
	if err := s.better(chosen); err != nil {
		return err
	}
	if s.best != nil && !same(s.best, chosen) { // what is best so far, with the columns that came since
		return s.better(s.best)
	}
	return nil
}

// better offers what becomes of a choice by exchanging columns, and by asking for
// ones that fit beside the others.
func (s *search) better(chosen []*Column) error {
	for {
		x := s.exchange(chosen)
		for x.one() || x.two() {
		}
		s.offer(x.chosen)
		next, err := s.respond(x.chosen)
		if err != nil {
			return err
		}
		if same(next, x.chosen) {
			return nil
		}
		chosen = next
	}
}

func same(a, b []*Column) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// offer keeps a choice if it is the best so far.
func (s *search) offer(chosen []*Column) {
	cost, over := s.total(chosen)
	if cost += over * s.Over; cost < s.cost {
		s.cost = cost
		s.best = append([]*Column(nil), chosen...)
	}
}

// exchange is a choice that is being bettered.
type exchange struct {
	*search
	chosen []*Column
	used   []int64
}

func (s *search) exchange(chosen []*Column) *exchange {
	x := &exchange{search: s, chosen: append([]*Column(nil), chosen...), used: make([]int64, len(s.Limits))}
	for _, c := range chosen {
		x.put(c, 1)
	}
	return x
}

// put adds or takes away what a column uses, and returns what that changes of the
// cost of being over.
func (x *exchange) put(c *Column, sign int64) int64 {
	var d int64
	for _, u := range c.Uses {
		was := max(0, x.used[u.Row]-x.Limits[u.Row])
		x.used[u.Row] += sign * u.N
		d += max(0, x.used[u.Row]-x.Limits[u.Row]) - was
	}
	return d * x.Over
}

// one exchanges the column of single groups for the best other one, and reports
// whether something got better.
func (x *exchange) one() bool {
	better := false
	for g := range x.pool {
		was := x.chosen[g]
		gone := x.put(was, -1) - was.Cost
		best, low := was, -gone
		for _, c := range x.pool[g] {
			if d := x.put(c, 1) + c.Cost; d < low {
				best, low = c, d
			}
			x.put(c, -1)
		}
		x.put(best, 1)
		if best != was {
			x.chosen[g], better = best, true
		}
	}
	return better
}

// nearColumns is how many columns of a group, the newest, are tried beside
// another group's.
const nearColumns = 24

// two exchanges the columns of two groups at once where that is better.
func (x *exchange) two() bool {
	for g := range x.pool {
		for h := g + 1; h < len(x.pool); h++ {
			if x.pair(g, h) {
				return true
			}
		}
	}
	return false
}

func (x *exchange) pair(g, h int) bool {
	a, b := x.chosen[g], x.chosen[h]
	base := x.put(a, -1) + x.put(b, -1) - a.Cost - b.Cost
	bestA, bestB, low := a, b, -base
	for _, c := range x.near(g) {
		with := x.put(c, 1) + c.Cost
		if with < low {
			for _, d := range x.near(h) {
				if n := with + x.put(d, 1) + d.Cost; n < low {
					bestA, bestB, low = c, d, n
				}
				x.put(d, -1)
			}
		}
		x.put(c, -1)
	}
	x.chosen[g], x.chosen[h] = bestA, bestB
	x.put(bestA, 1)
	x.put(bestB, 1)
	return bestA != a || bestB != b
}

// near are the columns of a group that came last: those made for prices near the
// final ones.
func (x *exchange) near(g int) []*Column {
	return x.pool[g][max(0, len(x.pool[g])-nearColumns):]
}
