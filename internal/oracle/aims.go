package oracle

import "example.org/weft/internal/starts"

// aims writes the aims over several dates. Those on one date alone are costs of
// its options.
func (k *coder) aims() {
	k.run("empty-run", every)
	k.run("lift-run", lift)
	for _, w := range k.weeks() {
		if w < 0 || w+7 > k.days() {
			continue // not whole
		}
		k.strength(w)
		k.secondLift(w)
		k.recoveries(w)
	}
}

// run charges each date that ends a stretch of dates one longer than allowed
// without a session of a sort.
func (k *coder) run(aim string, is which) {
	points := k.m.Set.Points(aim)
	longest := k.m.Set.Value(aim)
	if points == 0 {
		return
	}
	for l := longest; l < k.days(); l++ {
		var row []Term
		for n := l - longest; n <= l; n++ {
			row = k.sum(row, n, func(o option) int { return min(o.count(is), 1) })
		}
		z := k.add(Var{Points: points, Upper: 1, Loose: true})
		k.row(append(row, Term{z, 1}), AtLeast, 1)
	}
}

// levels adds indicators that a week has fewer than 1, 2, .. sessions of a sort;
// cost[i] is what fewer than i+1 cost.
func (k *coder) levels(w int, is which, cost []int64) {
	falling := true
	for i := range cost {
		falling = falling && (i == 0 || cost[i] <= cost[i-1])
	}
	short := make([]int, len(cost))
	for i, c := range cost {
		short[i] = k.add(Var{Points: c, Upper: 1, Loose: falling})
	}
	var row []Term
	for l := w; l < w+7; l++ {
		row = k.sum(row, l, func(o option) int { return o.count(is) })
	}
	for i := range short {
		row = append(row, Term{short[i], 1})
		if i > 0 && !falling {
			k.row([]Term{{short[i], 1}, {short[i-1], -1}}, AtLeast, 0)
		}
	}
	k.row(row, AtLeast, int64(len(cost)))
	if len(cost) < 2 {
		return
	}
	// Fewer than two: but for any one date there is none. This follows for whole
	// numbers, and is sharper for fractions.
	for out := w; out < w+7; out++ {
		row := []Term{{short[1], 1}}
		for l := w; l < w+7; l++ {
			row = k.sum(row, l, func(o option) int {
				if n := o.count(is); n > 1 || n > 0 && l != out {
					return 1
				}
				return 0
			})
		}
		k.row(row, AtLeast, 1)
	}
	row = []Term{{short[0], 1}}
	for l := w; l < w+7; l++ {
		row = k.sum(row, l, func(o option) int { return min(o.count(is), 1) })
	}
	k.row(row, AtLeast, 1)
}

func (k *coder) strength(w int) {
	set := k.m.Set
	cost := []int64{set.Points("week-full-body"), set.Points("second-full-body")}
	wanted := set.Value("break-session")
	if k.inBreak(w) && !k.day(w).Restricted && wanted > 0 {
		for len(cost) < wanted {
			cost = append(cost, 0)
		}
		cost[wanted-1] += set.Points("break-session")
	}
	k.levels(w, heavy, cost)
}

// inBreak reports whether a week lies in one break.
func (k *coder) inBreak(w int) bool {
	for l := w; l < w+7; l++ {
		if d := k.day(l); !d.Break || d.RunID != k.day(w).RunID {
			return false
		}
	}
	return true
}

func (k *coder) secondLift(w int) {
	if points := k.m.Set.Points("second-lift"); points > 0 {
		k.levels(w, lift, []int64{0, points})
	}
}

func (k *coder) recoveries(w int) {
	set := k.m.Set
	points := set.Points("recovery-count")
	if points == 0 || k.day(w).Restricted {
		return
	}
	counted := func(s *starts.Slot) int { // not on the date of a game
		i, ok := k.m.Index(s.Day)
		return s2i(recovery(s) && ok && len(k.m.Days[i].Games) == 0)
	}
	k.band(k.weekSum(w, counted), set.Value("recovery-least"), set.Value("recovery-most"), points)
}

func s2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (k *coder) weekSum(w int, n func(*starts.Slot) int) []Term {
	var row []Term
	for l := w; l < w+7; l++ {
		row = k.sum(row, l, func(o option) int {
			sum := 0
			for _, s := range o.slots {
				sum += n(s)
			}
			return sum
		})
	}
	return row
}

// band charges each unit of a sum outside a range.
func (k *coder) band(terms []Term, least, most int, points int64) {
	high := k.high(terms)
	if least > 0 {
		short := k.add(Var{Points: points, Upper: int64(least), Loose: true})
		k.row(append(append([]Term(nil), terms...), Term{short, 1}), AtLeast, int64(least))
	}
	if high > int64(most) {
		beyond := k.add(Var{Points: points, Upper: high - int64(most), Loose: true})
		k.row(append(append([]Term(nil), terms...), Term{beyond, -1}), AtMost, int64(most))
	}
}

// high is an upper bound of a sum.
func (k *coder) high(terms []Term) int64 {
	var n int64
	for _, t := range terms {
		if t.Coef > 0 {
			n += t.Coef * k.Vars[t.Var].Upper
		}
	}
	return n
}
