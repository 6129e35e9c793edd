package history

import "example.org/weft/internal/starts"

// spread is what two successive empty dates cost among plans of equal points:
// sessions are spread over the week.
const spread = 8

// emptyRun charges each date without a session beyond the longest run. A lost
// date is no empty one.
type emptyRun struct {
	*base
	longest uint64
	cost    int64
}

func newEmptyRun(b *base) *emptyRun {
	return &emptyRun{b, uint64(b.m.Set.Value("empty-run")), b.m.Set.Points("empty-run") * starts.Point}
}

func (r *emptyRun) Init() uint64 { return 0 }

func (r *emptyRun) Group(l, o int) uint64 { return min(uint64(r.opts[l][o].sessions), 1) }

func (r *emptyRun) Step(l, o int, state uint64) (uint64, int64) {
	if r.opts[l][o].sessions > 0 {
		return 0, 0
	}
	if r.day(l).Lost {
		return state, 0
	}
	var cost int64
	if state > 0 && !r.m.NoTies {
		cost = spread
	}
	if state >= r.longest {
		return state, cost + r.cost
	}
	return state + 1, cost
}

// liftRun charges each date without a lift beyond the longest run.
type liftRun struct {
	*base
	longest uint64
	cost    int64
}

func newLiftRun(b *base) *liftRun {
	return &liftRun{b, uint64(b.m.Set.Value("lift-run")), b.m.Set.Points("lift-run") * starts.Point}
}

func (r *liftRun) Init() uint64 { return 0 }

func (r *liftRun) Group(l, o int) uint64 { return min(uint64(r.opts[l][o].lifts), 1) }

func (r *liftRun) Step(l, o int, state uint64) (uint64, int64) {
	if r.opts[l][o].lifts > 0 {
		return 0, 0
	}
	if r.day(l).Lost {
		return state, 0
	}
	if state >= r.longest {
		return state, r.cost
	}
	return state + 1, 0
}
