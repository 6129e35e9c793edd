package squad

import (
	"slices"

	"example.org/weft/internal/columns"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// Sorts of session that one coach can run together: strength, of which the trimmed
// session is the same with a set less, primers, and recovery.
const (
	strength = iota
	primers
	easy
	sorts
)

func sortOf(k season.Kind) int {
	switch k {
	case season.Primer:
		return primers
	case season.Recovery:
		return easy
	}
	return strength
}

// labels say which sort of session each slot is for, -1 for no matter which. A
// session of another sort in it costs a tie, or KindPoints.
type labels struct {
	of   []int
	unit int64
}

// labelsFor gives each slot a sort, date by date and hall by hall: so that most of
// the sessions chosen fit a slot of their sort, and among equals so that most are in
// one already.
func (w *work) labelsFor(chosen []columns.Column) labels {
	out := labels{of: make([]int, len(w.grid.slots))}
	for i := range out.of {
		out.of[i] = -1
	}
	seats := make([][sorts]int64, len(w.grid.slots))
	most := int64(1)
	for i, m := range w.members {
		for l, o := range chosen[i].Plan {
			for n, s := range m.uses[l][o] {
				seats[s][sortOf(m.kinds[l][o][n])]++
			}
		}
		for l := range m.uses {
			most += int64(len(slices.MaxFunc(m.uses[l], func(a, b []int32) int { return len(a) - len(b) })))
		}
	}
	out.unit = max(1, labelBudget/most)
	if n := int64(w.req.KindPoints); n > 0 {
		out.unit = n * starts.Point
	}
	for h := range w.grid.byHall {
		for list := w.grid.byHall[h]; len(list) > 0; {
			n := 1
			for n < len(list) && n < mostLabelled && w.grid.slots[list[n]].date == w.grid.slots[list[0]].date {
				n++
			}
			w.label(list[:n], seats, out.of)
			list = list[n:]
		}
	}
	return out
}

// mostKindPoints is the most that Request.KindPoints may be.
const mostKindPoints = 100

// mostLabelled bounds the slots that are labelled together: 3^7 ways.
const mostLabelled = 7

// label tries all ways to label the slots of a date.
func (w *work) label(slots []int, seats [][sorts]int64, of []int) {
	var want [sorts]int64
	for _, s := range slots {
		for k, n := range seats[s] {
			want[k] += n
		}
	}
	way, best, bestFit, bestStay := make([]int, len(slots)), []int(nil), int64(-1), int64(-1)
	for {
		var room [sorts]int64
		fit, stay := int64(0), int64(0)
		for i, s := range slots {
			room[way[i]] += w.limits[s]
			stay += seats[s][way[i]]
		}
		for k := range want {
			fit += min(want[k], room[k])
		}
		if fit > bestFit || (fit == bestFit && stay > bestStay) {
			best, bestFit, bestStay = slices.Clone(way), fit, stay
		}
		i := 0
		for ; i < len(way); i++ {
			if way[i]++; way[i] < sorts {
				break
			}
			way[i] = 0
		}
		if i == len(way) {
			break
		}
	}
	for i, s := range slots {
		of[s] = best[i]
	}
}

// cost is what an option costs by the labels.
func (x labels) cost(m *member, l, o int) int64 {
	var n int64
	for i, s := range m.uses[l][o] {
		if k := x.of[s]; k >= 0 && k != sortOf(m.kinds[l][o][i]) {
			n += x.unit
		}
	}
	return n
}

// wear adds the labels to what the options of an athlete cost, and to columns that
// are known.
func (m *member) wear(x labels, known []columns.Column) []columns.Column {
	if m.ready.Refused {
		return known
	}
	out := slices.Clone(known)
	for i := range out {
		for l, o := range out[i].Plan {
			out[i].Cost += x.cost(m, l, o)
		}
	}
	for l := range m.base {
		for o := range m.base[l] {
			m.base[l][o] += x.cost(m, l, o)
		}
	}
	m.asked = nil
	if m.issued != nil && m.issued.column != nil {
		c := *m.issued.column
		for l, o := range c.Plan {
			c.Cost += x.cost(m, l, o)
		}
		m.issued.column = &c
	}
	return out
}

// points of a choice, without ties.
func points(r *columns.Result) int64 { return r.Cost / starts.Point }
