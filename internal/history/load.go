package history

import "example.org/weft/internal/starts"

// The rules of this file sum session load in blocks. They are off by default.
// Their states are sums, so they are the dear ones: a week's sum has some thirty
// values, two weeks' sums some hundreds.

// weekLoad holds a week's load inside a band.
type weekLoad struct {
	*base
	least, most int
	cost        int64
}

func newWeekLoad(b *base) *weekLoad {
	set := b.m.Set
	return &weekLoad{b, set.Value("week-load-least") / starts.LoadBlock, set.Value("week-load-most") / starts.LoadBlock,
		set.Points("week-load") * starts.Point}
}

func (r *weekLoad) Init() uint64 { return 0 }

func (r *weekLoad) Group(l, o int) uint64 { return uint64(r.opts[l][o].blocks) }

// Beyond the band each further block is charged at once, so that the sum need
// not be remembered beyond it.
func (r *weekLoad) Step(l, o int, state uint64) (uint64, int64) {
	d := r.day(l)
	if !d.WholeWeek {
		return 0, 0
	}
	n := int(state) + r.opts[l][o].blocks
	var cost int64
	if n > r.most {
		cost = int64(n-r.most) * r.cost
		n = r.most
	}
	if !d.WeekLast {
		return uint64(n), cost
	}
	if n < r.least {
		cost += int64(r.least-n) * r.cost
	}
	return 0, cost
}

// loadRamp limits the change of load from one whole week to the next. The state
// is the load of the week before plus one, 0 if that week is not whole, and in
// the lower bits that of the week so far.
type loadRamp struct {
	*base
	most int
	cost int64
}

func newLoadRamp(b *base) *loadRamp {
	set := b.m.Set
	return &loadRamp{b, set.Value("load-ramp") / starts.LoadBlock, set.Points("load-ramp") * starts.Point}
}

// Large: two sums are too many states to enumerate.
func (r *loadRamp) Large() {}

func (r *loadRamp) Init() uint64 { return 0 }

func (r *loadRamp) Group(l, o int) uint64 { return uint64(r.opts[l][o].blocks) }

func (r *loadRamp) Step(l, o int, state uint64) (uint64, int64) {
	d := r.day(l)
	if !d.WholeWeek {
		return 0, 0
	}
	before, n := int(state>>16), int(state&0xffff)+r.opts[l][o].blocks
	if !d.WeekLast {
		return uint64(before)<<16 | uint64(n), 0
	}
	var cost int64
	if before > 0 {
		change := n - (before - 1)
		if change < 0 {
			change = -change
		}
		cost = int64(max(0, change-r.most)) * r.cost
	}
	return uint64(n+1) << 16, cost
}

// rollingCount counts sessions in the seven dates that end at each date.
type rollingCount struct {
	*base
	most int
	cost int64
}

func newRollingCount(b *base) *rollingCount {
	return &rollingCount{b, b.m.Set.Value("rolling-count"), b.m.Set.Points("rolling-count") * starts.Point}
}

func (r *rollingCount) Init() uint64 { return uint64(r.initialCounts(isAny)) }

func (r *rollingCount) Group(l, o int) uint64 { return uint64(r.opts[l][o].sessions) }

func (r *rollingCount) Step(l, o int, state uint64) (uint64, int64) {
	c := counts(state)
	today := r.opts[l][o].sessions
	sum := today
	for k := 1; k < 7; k++ {
		sum += c.on(k)
	}
	return uint64(c.push(today)), int64(max(0, sum-r.most)) * r.cost
}

// rollingLoad sums session load over the three dates that end at each date. The
// state is the load of yesterday and of the date before.
type rollingLoad struct {
	*base
	most int
	cost int64
}

func newRollingLoad(b *base) *rollingLoad {
	return &rollingLoad{b, b.m.Set.Value("rolling-load") / starts.LoadBlock, b.m.Set.Points("rolling-load") * starts.Point}
}

func (r *rollingLoad) Init() uint64 {
	first := r.day(0).N
	var state uint64
	for ago := 2; ago >= 1; ago-- {
		sum := 0
		for i := range r.m.History {
			if s := &r.m.History[i]; s.Day == first-ago {
				sum += s.Blocks()
			}
		}
		state = state<<16 | uint64(sum)
	}
	return state
}

func (r *rollingLoad) Group(l, o int) uint64 { return uint64(r.opts[l][o].blocks) }

func (r *rollingLoad) Step(l, o int, state uint64) (uint64, int64) {
	today := r.opts[l][o].blocks
	sum := today + int(state&0xffff) + int(state>>16)
	return (state&0xffff)<<16 | uint64(today), int64(max(0, sum-r.most)) * r.cost
}
