package columns

// diveRounds is how often new columns are asked for after each step of a dive: once,
// and again as long as the step has cost anything.
const diveRounds = 8

// undoOne is for how many groups one step of a dive is taken back.
const undoOne = 2

// worse is by how many units a step of a dive may raise the cost before it is taken
// back: costs that decide are whole units.
const worse = 0.5

// dive settles one group after the other on the heaviest of its columns in the
// program's answer, and asks for new columns of the others in between. A step that
// makes the rest dearer is taken back as long as there is another: that column is left
// out instead. It finds a choice, mostly a good one, and proves nothing.
func (s *search) dive(n *node, above *program) error {
	q := s.below(n, above)
	settled := make([]*Column, s.Groups)
	undo := s.Groups / undoOne
	if s.Brief {
		undo = 0
	}
	for left := s.Groups; left > 0; {
		if err := q.solve(); err != nil {
			return err
		}
		was := q.lp.Cost()
		if done := s.settleWhole(q, settled); done > 0 {
			left -= done
			continue
		}
		g, c := s.heaviestOf(q, settled)
		if c == nil {
			return nil // a group has only columns that are banned
		}
		before := q.clone()
		s.fix(q, g, c)
		settled[g] = c
		left--
		if err := s.fill(n, q, settled, was); err != nil {
			return err
		}
		if q.lp.Cost() > was+worse && undo > 0 {
			undo--
			settled[g] = nil
			left++
			q = before
			s.extend(q, n)
			s.ban(q, g, func(x *Column) bool { return x == c })
			if err := s.fill(n, q, settled, was); err != nil {
				return err
			}
		}
	}
	s.offer(settled)
	return s.better(settled)
}

// fill asks for new columns of the groups that are not settled, as long as what was
// done last costs anything.
func (s *search) fill(n *node, q *program, settled []*Column, was float64) error {
	for round := range diveRounds {
		if err := q.solve(); err != nil {
			return err
		}
		if round > 0 && q.lp.Cost() < was+1e-3 {
			return nil
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
			return nil
		}
	}
	return q.solve()
}

// settleWhole fixes every group that has a whole column, and says how many.
func (s *search) settleWhole(q *program, settled []*Column) int {
	done := 0
	for g := range q.cols {
		if settled[g] != nil {
			continue
		}
		if c, v := s.heaviest(q, g); c != nil && v > 1-whole {
			s.fix(q, g, c)
			settled[g] = c
			done++
		}
	}
	return done
}

// heaviestOf is the group whose heaviest column is nearest to a whole one, and that
// column; nil if a group has none.
func (s *search) heaviestOf(q *program, settled []*Column) (group int, c *Column) {
	most := 0.0
	for g := range q.cols {
		if settled[g] != nil {
			continue
		}
		x, v := s.heaviest(q, g)
		if x == nil {
			return g, nil
		}
		if c == nil || v > most+1e-7 {
			group, c, most = g, x, v
		}
	}
	return group, c
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
