package oracle

import "example.org/weft/internal/judge"

// Brute is what all plans of a season say together.
type Brute struct {
	Plans, Legal   int64
	Broken, Points int64 // of the best
	Optima         int64
	// Least is the cheapest plan with each option: broken limits and points; -1
	// where no legal plan has it.
	Least [][][2]int64
}

// Best judges every combination of options from the definitions. ok is false if
// there are more than most.
func (c *Case) Best(most int64) (out Brute, ok bool, err error) {
	n := int64(1)
	for i := range c.Static {
		if n *= int64(len(c.Static[i])); n > most {
			return out, false, nil
		}
		row := make([][2]int64, len(c.Static[i]))
		for o := range row {
			row[o] = [2]int64{-1, -1}
		}
		out.Least = append(out.Least, row)
	}
	in, p := c.fixed(), c.parameters()
	past := len(in.Sessions)
	options := make([]int, len(c.Static))
	for {
		in.Sessions = append(in.Sessions[:past:past], sessions(c.Slots(options))...)
		v, err := judge.Judge(in, p)
		if err != nil {
			return out, true, err
		}
		out.Plans++
		if len(v.Illegal) == 0 {
			out.enter(options, v.Broken, v.Points)
		}
		i := 0
		for ; i < len(options); i++ {
			if options[i]++; options[i] < len(c.Static[i]) {
				break
			}
			options[i] = 0
		}
		if i == len(options) {
			return out, true, nil
		}
	}
}

func (b *Brute) enter(options []int, broken, points int64) {
	less := func(at [2]int64) bool {
		return at[0] < 0 || broken < at[0] || broken == at[0] && points < at[1]
	}
	switch best := [2]int64{b.Broken, b.Points}; {
	case b.Legal == 0 || less(best):
		b.Broken, b.Points, b.Optima = broken, points, 1
	case best == [2]int64{broken, points}:
		b.Optima++
	}
	b.Legal++
	for l, o := range options {
		if less(b.Least[l][o]) {
			b.Least[l][o] = [2]int64{broken, points}
		}
	}
}
