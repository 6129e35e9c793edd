package history

import (
	"example.org/weft/internal/starts"
)

// weekStrength holds the aims of a whole week: a full-body session, a second
// one, two lifts, and in a break one more. The state counts full-body sessions
// and lifts of the week so far, as far as they matter.
type weekStrength struct {
	*base
	first, second, lift, extra int64
	wanted                     int
	inBreak                    []bool // by layer: the week lies wholly in one break
}

func newWeekStrength(b *base) *weekStrength {
	set := b.m.Set
	r := &weekStrength{base: b,
		first:  set.Points("week-full-body") * starts.Point,
		second: set.Points("second-full-body") * starts.Point,
		lift:   set.Points("second-lift") * starts.Point,
		extra:  set.Points("break-session") * starts.Point,
		wanted: set.Value("break-session"),
	}
	for l := 0; l < b.days; l++ {
		first := b.m.From + l - b.day(l).Date.DaysSince(b.m.WeekFirst(b.m.From+l))
		r.inBreak = append(r.inBreak, b.m.WeekInBreak(b.m.From+l) && !b.m.Days[first].Restricted)
	}
	return r
}

func (r *weekStrength) Init() uint64 { return 0 }

func (r *weekStrength) Group(l, o int) uint64 {
	s := &r.opts[l][o]
	return uint64(min(s.strength, 15))<<8 | uint64(min(s.lifts, 15))
}

func (r *weekStrength) Step(l, o int, state uint64) (uint64, int64) {
	d := r.day(l)
	s := &r.opts[l][o]
	if !d.WholeWeek {
		return 0, 0
	}
	strength, lifts := int(state&15)+s.strength, int(state>>4)+s.lifts
	strength, lifts = min(strength, max(2, r.wanted)), min(lifts, 2)
	if !d.WeekLast {
		return uint64(lifts)<<4 | uint64(strength), 0
	}
	var cost int64
	if strength < 1 {
		cost += r.first
	}
	if strength < 2 {
		cost += r.second
	}
	if lifts < 2 {
		cost += r.lift
	}
	if r.inBreak[l] && strength < r.wanted {
		cost += r.extra
	}
	return 0, cost
}

// recoveryCount: recovery sessions of a whole week, each one short or beyond a
// miss.
type recoveryCount struct {
	*base
	least, most int
	cost        int64
	asked       []bool // by layer, of its week
}

func newRecoveryCount(b *base) *recoveryCount {
	set := b.m.Set
	r := &recoveryCount{base: b, least: set.Value("recovery-least"), most: set.Value("recovery-most"),
		cost: set.Points("recovery-count") * starts.Point}
	asked := false
	for l := 0; l < b.days; l++ {
		d := b.day(l)
		if l == 0 || b.day(l-1).WeekLast {
			asked = d.WholeWeek && !d.Restricted
		}
		r.asked = append(r.asked, asked)
	}
	return r
}

func (r *recoveryCount) Init() uint64 { return 0 }

func (r *recoveryCount) Group(l, o int) uint64 { return uint64(r.count(l, o)) }

// count leaves out what is done on the date of a game: that is no day of
// recovery.
func (r *recoveryCount) count(l, o int) int {
	if len(r.day(l).Games) > 0 {
		return 0
	}
	return r.opts[l][o].recovery
}

func (r *recoveryCount) Step(l, o int, state uint64) (uint64, int64) {
	if !r.asked[l] {
		return 0, 0
	}
	n := int(state) + r.count(l, o)
	var cost int64
	if n > r.most {
		cost = int64(n-r.most) * r.cost
		n = r.most
	}
	if r.day(l).WeekLast {
		if n < r.least {
			cost += int64(r.least-n) * r.cost
		}
		return 0, cost
	}
	return uint64(n), cost
}

// weekCount limits sessions of some sort in a week.
type weekCount struct {
	*base
	most  int
	which func(*starts.Day, *starts.Slot) bool
}

func newWeekCount(b *base, id string, which func(*starts.Day, *starts.Slot) bool) *weekCount {
	return &weekCount{b, b.m.Set.Value(id), which}
}

func (r *weekCount) Init() uint64 {
	n := 0
	first := r.day(0)
	for i := range r.m.History {
		s := &r.m.History[i]
		if at, ok := r.m.Index(s.Day); ok && r.m.Days[at].Week == first.Week && r.which(&r.m.Days[at], s) {
			n++
		}
	}
	return uint64(min(n, r.most))
}

func (r *weekCount) Step(l, o int, state uint64) (uint64, int64) {
	n := int(state)
	var cost int64
	d := r.day(l)
	for _, s := range r.opts[l][o].slots {
		if !r.which(d, s) {
			continue
		}
		n++
		if n > r.most {
			cost = plus(cost, forbid(s))
			n = r.most
		}
	}
	if d.WeekLast {
		return 0, cost
	}
	return uint64(n), cost
}
