package history

// heavyGap keeps heavy lower-body sessions off consecutive dates and apart by
// elapsed hours. The state is the end of the last one, in minutes, and how many
// dates ago it was, in the lowest two bits; 0 once neither can matter.
type heavyGap struct {
	*base
	apart int64
}

func newHeavyGap(b *base) *heavyGap {
	return &heavyGap{base: b, apart: int64(b.m.Set.Value("heavy-gap")) * 60}
}

func (r *heavyGap) Init() uint64 {
	first := r.day(0)
	var end int64
	day := 0
	for i := range r.m.History {
		if s := &r.m.History[i]; s.Kind.HeavyLowerBody() && s.To >= end {
			end, day = s.To, s.Day
		}
	}
	if end == 0 {
		return 0
	}
	ago := first.N - day
	if ago > 1 && end+r.apart <= first.From {
		return 0
	}
	return uint64(end)<<2 | uint64(min(ago, 3))
}

func (r *heavyGap) Step(l, o int, state uint64) (uint64, int64) {
	end, ago := int64(state>>2), int(state&3)
	var cost int64
	for _, s := range r.opts[l][o].slots {
		if !s.Kind.HeavyLowerBody() {
			continue
		}
		if state != 0 && (ago <= 1 || s.From-end < r.apart) {
			cost = plus(cost, forbid(s))
		}
		end, ago, state = s.To, 0, 1
	}
	if state == 0 {
		return 0, cost
	}
	ago = min(ago+1, 3)
	if ago > 1 && end+r.apart <= r.day(l).To {
		return 0, cost
	}
	return uint64(end)<<2 | uint64(ago), cost
}

// minorLifts keeps lifts of minors off consecutive dates: the state says whether
// the date before had one, lost dates left out.
type minorLifts struct{ *base }

func newMinorLifts(b *base) *minorLifts { return &minorLifts{b} }

func (r *minorLifts) Init() uint64 {
	m := r.m
	for i := m.From - 1; i > 0; i-- {
		if d := &m.Days[i]; r.historyOn(d.N, isLift) > 0 {
			return 1
		} else if !d.Lost {
			break
		}
	}
	return 0
}

func (r *minorLifts) Group(l, o int) uint64 { return r.shape(l, o) }

func (r *minorLifts) Step(l, o int, state uint64) (uint64, int64) {
	var cost int64
	today := uint64(0)
	for _, s := range r.opts[l][o].slots {
		if !s.Kind.Lift() {
			continue
		}
		if r.day(l).Minor && (state > 0 || today > 0) {
			cost = plus(cost, forbid(s))
		}
		today = 1
	}
	if today == 0 && r.day(l).Lost {
		return state, cost
	}
	return today, cost
}
