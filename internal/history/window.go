package history

import (
	"example.org/weft/internal/starts"
)

// counts remembers how many sessions of some sort each of the last six dates
// had, two bits a date, the latest in the lowest bits.
type counts uint64

func (c counts) on(ago int) int { return int(c>>(2*(ago-1))) & 3 }

func (c counts) push(n int) counts {
	if n > 3 {
		n = 3
	}
	return (c<<2 | counts(n)) & (1<<12 - 1)
}

func (b *base) initialCounts(count func(*starts.Slot) bool) counts {
	var c counts
	first := b.day(0).N
	for n := first - 6; n < first; n++ {
		c = c.push(b.historyOn(n, count))
	}
	return c
}

// lifts is the limit on lifts in any 7 dates.
type lifts struct {
	*base
	limit [][7]int // [layer][k]: of the window that starts k dates before the layer
	least []int    // the strictest of each layer
	init  counts
}

func newLifts(b *base) *lifts {
	r := &lifts{base: b, init: b.initialCounts(isLift)}
	m := b.m
	for l := 0; l < b.days; l++ {
		var row [7]int
		least := 99
		for k := 0; k < 7; k++ {
			from := m.From + l - k
			limit := m.Set.Value("lifts-in-7-break")
			for x := from; x < from+7; x++ {
				if !m.Days[x].Roomy {
					limit = m.Set.Value("lifts-in-7")
				}
			}
			if m.Days[from+6].Restricted {
				limit = min(limit, m.Set.Value("lifts-in-7-beginner"))
			}
			row[k] = limit
			least = min(least, limit)
		}
		r.limit = append(r.limit, row)
		r.least = append(r.least, least)
	}
	return r
}

func (r *lifts) Init() uint64 { return uint64(r.init) }

func (r *lifts) Group(l, o int) uint64 { return r.shape(l, o) }

func (r *lifts) Step(l, o int, state uint64) (uint64, int64) {
	c := counts(state)
	var cost int64
	today := 0
	for _, s := range r.opts[l][o].slots {
		if !s.Kind.Lift() {
			continue
		}
		today++
		sum := today
		over := sum > r.limit[l][0]
		for k := 1; k < 7; k++ {
			sum += c.on(k)
			over = over || sum > r.limit[l][k]
		}
		if over {
			cost = plus(cost, forbid(s))
		}
	}
	return uint64(c.push(today)), cost
}

// noFreeDate: minors with no date free of games and practice in 7 dates have at
// most a few sessions in them.
type noFreeDate struct {
	*base
	strict [][7]bool // [layer][k]: the window that starts k dates before has no free date
	ahead  []bool    // some strict window holds the layer and the next one
	most   int
}

func newNoFreeDate(b *base) *noFreeDate {
	r := &noFreeDate{base: b, most: b.m.Set.Value("no-free-date")}
	m := b.m
	window := func(from int) bool {
		for x := from; x < from+7; x++ {
			if m.Days[x].Free {
				return false
			}
		}
		return true
	}
	for l := 0; l < b.days; l++ {
		var row [7]bool
		ahead := false
		for k := 0; k < 7; k++ {
			row[k] = window(m.From + l - k)
			ahead = ahead || (row[k] && k < 6)
		}
		r.strict = append(r.strict, row)
		r.ahead = append(r.ahead, ahead)
	}
	return r
}

func (r *noFreeDate) Init() uint64 { return uint64(r.initialCounts(isAny)) }

func (r *noFreeDate) Group(l, o int) uint64 { return r.shape(l, o) }

func (r *noFreeDate) Step(l, o int, state uint64) (uint64, int64) {
	c := counts(state)
	var cost int64
	today := 0
	for _, s := range r.opts[l][o].slots {
		today++
		if !r.day(l).Minor {
			continue
		}
		sum := today
		over := r.strict[l][0] && sum > r.most
		for k := 1; k < 7; k++ {
			sum += c.on(k)
			over = over || (r.strict[l][k] && sum > r.most)
		}
		if over {
			cost = plus(cost, forbid(s))
		}
	}
	if !r.ahead[l] {
		return 0, cost
	}
	return uint64(c.push(today)), cost
}

// freeDate: minors keep one of the dates free of games and practice in any 7
// dates free of sessions too. The state counts the dates since the last such
// date, 7 for longer ago.
type freeDate struct {
	*base
	need []int // how many dates ago that date may be at most, for a session on this date; -1 never
}

func newFreeDate(b *base) *freeDate {
	r := &freeDate{base: b}
	m := b.m
	for l := 0; l < b.days; l++ {
		i := m.From + l
		next := i + 1
		for next < len(m.Days) && next < i+8 && !m.Days[next].Free {
			next++
		}
		// Of the windows that hold this date and no later free one, the latest
		// looks back the least.
		from := min(i, next-7)
		r.need = append(r.need, i-from)
	}
	return r
}

func (r *freeDate) Init() uint64 {
	m := r.m
	for ago := 1; ago < 7; ago++ {
		d := &m.Days[m.From-ago]
		if d.Free && r.historyOn(d.N, isAny) == 0 {
			return uint64(ago)
		}
	}
	return 7
}

func (r *freeDate) Group(l, o int) uint64 { return r.shape(l, o) }

// The state entering a date is how many dates ago the last free one was.
func (r *freeDate) Step(l, o int, state uint64) (uint64, int64) {
	d := r.day(l)
	var cost int64
	opt := &r.opts[l][o]
	if d.Free && d.Minor && int(state) > r.need[l] {
		for _, s := range opt.slots {
			cost = plus(cost, forbid(s))
		}
	}
	if d.Free && opt.sessions == 0 {
		return 1, cost
	}
	return min(state+1, 7), cost
}
