package columns

// diveRounds is how often new columns are asked for after each step of a dive: once,
// and again as long as the step has cost anything.
const diveRounds = 8

// dive settles one group after the other on the heaviest of its columns in the
// program's answer, and asks for new columns of the others in between. It finds a
// choice, mostly a good one, and proves nothing.
func (s *search) dive(n *node, above *program) error {
	q := s.below(n, above)
	settled := make([]*Column, s.Groups)
	for left := s.Groups; left > 0; {
		if err := q.solve(); err != nil {
			return err
		}
		done := s.settle(q, settled)
		if left -= done; done == 0 {
			return nil // a group has only columns that are banned
		}
		if left == 0 {
			break
		}
		was := q.lp.Cost()
		for round := range diveRounds {
			if err := q.solve(); err != nil {
				return err
			}
			if round > 0 && q.lp.Cost() < was+1e-3 {
				break
			}
			answers, err := s.price(s.suggested(q), n, settled)
			if err != nil {
				return err
			}
			added := 0
			for g := range answers {
				for _, c := range answers[g].Columns {
					if s.keep(g, c) {
						added++
					}
				}
			}
			if s.extend(q, n); added == 0 {
				break
			}
		}
	}
	s.offer(settled)
	return s.better(settled)
}

// settle fixes every group whose heaviest column is whole, or else the one whose
// is nearest to it, and says how many.
func (s *search) settle(q *program, settled []*Column) int {
	best, heaviest := -1, 0.0
	var of *Column
	done := 0
	for g := range q.cols {
		if settled[g] != nil {
			continue
		}
		c, v := s.heaviest(q, g)
		if c == nil {
			return 0
		}
		if v > 1-whole {
			s.fix(q, g, c)
			settled[g] = c
			done++
		} else if best < 0 || v > heaviest+1e-7 {
			best, heaviest, of = g, v, c
		}
	}
	if done == 0 && best >= 0 {
		s.fix(q, best, of)
		settled[best] = of
		done = 1
	}
	return done
}

func (s *search) fix(q *program, g int, c *Column) {
	s.ban(q, g, func(x *Column) bool { return x != c })
}

// heaviest is the column of a group that has most of it in the program's answer,
// the cheapest of equals.
func (s *search) heaviest(q *program, g int) (*Column, float64) {
	var best *Column
	most := -1.0
	for i, c := range q.cols[g] {
		if c < 0 {
			continue
		}
		x, v := s.pool[g][i], q.lp.Value(c)
		if v > most+1e-7 || (v > most-1e-7 && x.Cost < best.Cost) {
			best, most = x, v
		}
	}
	return best, most
}
