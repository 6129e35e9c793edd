package columns

// respond betters a choice by asking for the best column of one group after the
// other, with the rows that the others have filled at their highest price and all
// others free, until nothing gets better. It returns the choice it ends with.
func (s *search) respond(chosen []*Column) ([]*Column, error) {
	x := s.exchange(chosen)
	for better := true; better; {
		better = false
		for g := range x.chosen {
			c, err := s.response(x, g)
			if err != nil {
				return nil, err
			}
			if c == nil {
				continue
			}
			was := x.chosen[g]
			d := x.put(was, -1) - was.Cost
			d += x.put(c, 1) + c.Cost
			if d < 0 {
				x.chosen[g], better = c, true
				continue
			}
			x.put(c, -1)
			x.put(was, 1)
		}
	}
	s.offer(x.chosen)
	return x.chosen, nil
}

// response is the best column of a group beside those of the others, nil if it is
// known already.
func (s *search) response(x *exchange, g int) (*Column, error) {
	most := int64(1)
	for _, u := range x.chosen[g].Uses {
		most = max(most, u.N)
	}
	prices := make([]int64, len(s.Limits))
	for r := range prices {
		need := int64(1)
		if r >= s.Decisive {
			need = most
		}
		if s.Limits[r]-x.used[r]+x.chosen[g].uses(r) < need {
			prices[r] = s.Over
		}
	}
	s.stats.Priced++
	a, err := s.Price(s.ctx, g, prices, nil)
	if err != nil || a.None || len(a.Columns) == 0 {
		return nil, err
	}
	c := a.Columns[0]
	if !s.keep(g, c) {
		return nil, nil
	}
	return &c, nil
}
