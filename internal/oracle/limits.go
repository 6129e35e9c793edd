package oracle

import (
	"fmt"
	"sort"

	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// limits writes the limits over several sessions. Those on one session alone are
// in the options and their costs.
func (k *coder) limits() {
	set := k.m.Set
	k.sameDate()
	for w := -6; w < k.days(); w++ {
		k.window("lifts-in-7", w, k.liftLimit(w), lift, func(int) bool { return true })
		if set.On("no-free-date") && k.noneFree(w) {
			k.window("no-free-date", w, set.Value("no-free-date"), every, func(l int) bool { return k.day(l).Minor })
		}
	}
	for _, w := range k.weeks() {
		all := func(int) bool { return true }
		k.window("eccentric-count", w, set.Value("eccentric-count"), func(s *starts.Slot) bool { return s.Kind == season.Eccentric }, all)
		if set.On("exam-count") {
			k.window("exam-count", w, set.Value("exam-count"), func(s *starts.Slot) bool {
				i, ok := k.m.Index(s.Day)
				return ok && k.m.Days[i].Exam
			}, all)
		}
	}
	k.heavyGap()
	if set.On("minor-lift-dates") {
		k.minorLifts()
	}
	if set.On("free-date") {
		for l := 0; l < k.days(); l++ {
			k.freeDate(l)
		}
	}
}

// weeks returns the first dates of all club weeks that touch the period.
func (k *coder) weeks() []int {
	first := -k.day(0).Date.DaysSince(k.m.WeekFirst(k.m.From))
	var out []int
	for w := first; w < k.days(); w += 7 {
		out = append(out, w)
	}
	return out
}

func (k *coder) liftLimit(w int) int {
	set := k.m.Set
	limit := set.Value("lifts-in-7-break")
	for l := w; l < w+7; l++ {
		if !k.day(l).Roomy {
			limit = set.Value("lifts-in-7")
		}
	}
	if k.day(w + 6).Restricted {
		limit = min(limit, set.Value("lifts-in-7-beginner"))
	}
	return limit
}

func (k *coder) noneFree(w int) bool {
	for l := w; l < w+7; l++ {
		if k.day(l).Free {
			return false
		}
	}
	return true
}

// window allows at most so many sessions of a sort in the seven dates from w on.
// The session that makes it more is in breach, so that forced sessions after it
// do not count against it: without any the whole window is one sum, with them
// each date needs its own.
func (k *coder) window(rule string, w, limit int, is which, judged func(l int) bool) {
	right := int64(limit)
	for l := w; l < min(w+7, 0); l++ {
		right -= int64(k.before(k.day(l).N, is))
	}
	count := func(o option) int { return o.count(is) }
	var terms []Term // of the dates before the one at hand
	var high int64   // the most they can be
	plain := right >= 0
	for l := max(w, 0); l < min(w+7, k.days()); l++ {
		forced := k.most(l, func(o option) int {
			return o.count(func(s *starts.Slot) bool { return s.Forced && is(s) })
		}) > 0
		if plain && (forced || !judged(l)) {
			k.row(terms, AtMost, right)
			plain = false
		}
		if !plain && judged(l) {
			k.late(rule, l, terms, high, right, is)
		}
		terms = k.sum(terms, l, count)
		high += k.most(l, count)
	}
	if plain {
		k.row(terms, AtMost, right)
	}
}

// late writes the demand on one date of a window: with a session that is free to
// be left out, all up to the last such session must be within the limit.
func (k *coder) late(rule string, l int, terms []Term, high, right int64, is which) {
	excess := max(high-right, 0)
	row := append([]Term(nil), terms...)
	some := false
	for o, x := range k.dates[l] {
		n := int64(x.lastFree(is))
		switch {
		case n == 0:
			row = append(row, Term{k.x[l][o], -excess})
		case n > right: // whatever is before
			k.forbid(l, o)
		default:
			some = true
			row = append(row, Term{k.x[l][o], n})
		}
	}
	if some {
		k.row(row, AtMost, right)
	}
	for i := range k.forced(l) {
		upTo := func(o option) int {
			if s := o.pinned(i); s != nil && is(s) {
				return o.upTo(is, s)
			}
			return 0
		}
		all := high + k.most(l, upTo) - right
		if all <= 0 || k.most(l, upTo) == 0 {
			continue
		}
		row := append([]Term(nil), terms...)
		for o, x := range k.dates[l] {
			if n := upTo(x); n > 0 {
				row = append(row, Term{k.x[l][o], int64(n)})
			} else {
				row = append(row, Term{k.x[l][o], -excess})
			}
		}
		k.row(append(row, Term{k.breach(rule, l, i), -all}), AtMost, right)
	}
}

// sameDate forbids two heavy sessions on a date, and two lifts of a minor.
func (k *coder) sameDate() {
	for l := range k.dates {
		minor := k.day(l).Minor && k.m.Set.On("minor-lift-dates")
		for o, x := range k.dates[l] {
			if x.lastFree(heavy) > 1 || minor && x.lastFree(lift) > 1 {
				k.forbid(l, o)
			}
		}
		for i := range k.forced(l) {
			for o, x := range k.dates[l] {
				s := x.pinned(i)
				if s != nil && heavy(s) && x.upTo(heavy, s) > 1 {
					k.row([]Term{{k.breach("heavy-gap", l, i), 1}, {k.x[l][o], -1}}, AtLeast, 0)
				}
				if s != nil && minor && lift(s) && x.upTo(lift, s) > 1 {
					k.row([]Term{{k.breach("minor-lift-dates", l, i), 1}, {k.x[l][o], -1}}, AtLeast, 0)
				}
			}
		}
	}
}

// heavyGap keeps heavy sessions apart. If any earlier one is too near, so is the
// last of them: pairs are enough. Sessions of which each is too near to each
// other are one row.
func (k *coder) heavyGap() {
	gap := int64(k.m.Set.Value("heavy-gap")) * 60
	near := func(end int64, endDay int, s *starts.Slot) bool {
		return s.Day-endDay <= 1 || s.From-end < gap
	}
	lastHeavy := func(o option) *starts.Slot {
		for i := len(o.slots) - 1; i >= 0; i-- {
			if heavy(o.slots[i]) {
				return o.slots[i]
			}
		}
		return nil
	}
	firstFree := func(o option) *starts.Slot {
		for _, s := range o.slots {
			if heavy(s) && !s.Forced {
				return s
			}
		}
		return nil
	}
	const reach = 6 // dates; the longest gap is 96 hours
	for i := range k.m.History {
		h := &k.m.History[i]
		if !heavy(h) {
			continue
		}
		for l := 0; l < min(reach, k.days()); l++ {
			for o, x := range k.dates[l] {
				if s := firstFree(x); s != nil && near(h.To, h.Day, s) {
					k.forbid(l, o)
				}
			}
			for i := range k.forced(l) {
				row := k.sum(nil, l, func(o option) int {
					if s := o.pinned(i); s != nil && heavy(s) && near(h.To, h.Day, s) {
						return -1
					}
					return 0
				})
				if len(row) > 0 {
					k.row(append(row, Term{k.breach("heavy-gap", l, i), 1}), AtLeast, 0)
				}
			}
		}
	}
	for l := range k.dates {
		var ends []int64
		for _, x := range k.dates[l] {
			if h := lastHeavy(x); h != nil {
				ends = append(ends, h.To)
			}
		}
		sort.Slice(ends, func(i, j int) bool { return ends[i] < ends[j] })
		for i, end := range ends {
			if i > 0 && ends[i-1] == end {
				continue
			}
			row := k.sum(nil, l, func(o option) int {
				if h := lastHeavy(o); h != nil && h.To >= end {
					return 1
				}
				return 0
			})
			some := false
			for n := l + 1; n < min(l+reach, k.days()); n++ {
				more := k.sum(nil, n, func(o option) int {
					if s := firstFree(o); s != nil && near(end, k.day(l).N, s) {
						return 1
					}
					return 0
				})
				some = some || len(more) > 0
				row = append(row, more...)
			}
			if some {
				k.row(row, AtMost, 1)
			}
		}
		for n := l + 1; n < min(l+reach, k.days()); n++ {
			for i := range k.forced(n) {
				// Starts that are too near to the same sessions share a row.
				rows := map[string][]Term{}
				var order []string
				for p, x := range k.dates[n] {
					s := x.pinned(i)
					if s == nil || !heavy(s) {
						continue
					}
					row := k.sum(nil, l, func(o option) int {
						if h := lastHeavy(o); h != nil && near(h.To, h.Day, s) {
							return -1
						}
						return 0
					})
					if len(row) == 0 {
						continue
					}
					key := fmt.Sprint(row)
					if rows[key] == nil {
						rows[key] = append(row, Term{k.breach("heavy-gap", n, i), 1})
						order = append(order, key)
					}
					rows[key] = append(rows[key], Term{k.x[n][p], -1})
				}
				for _, key := range order {
					k.row(rows[key], AtLeast, -1)
				}
			}
		}
	}
}

// minorLifts keeps lifts of minors off consecutive dates.
func (k *coder) minorLifts() {
	for l := range k.dates {
		if !k.day(l).Minor {
			continue
		}
		var before []Term
		past := 0
		if l == 0 {
			past = k.before(k.day(0).N-1, lift)
		} else {
			before = k.sum(nil, l-1, func(o option) int { return min(o.count(lift), 1) })
		}
		today := k.sum(nil, l, func(o option) int { return min(o.lastFree(lift), 1) })
		if len(today) > 0 {
			k.row(append(today, before...), AtMost, int64(1-min(past, 1)))
		}
		for i := range k.forced(l) {
			row := k.sum(nil, l, func(o option) int {
				if s := o.pinned(i); s != nil && lift(s) {
					return -1
				}
				return 0
			})
			if len(row) == 0 || past == 0 && len(before) == 0 {
				continue
			}
			row = append(row, Term{k.breach("minor-lift-dates", l, i), 1})
			for _, t := range before {
				row = append(row, Term{t.Var, -t.Coef})
			}
			k.row(row, AtLeast, int64(min(past, 1)-1))
		}
	}
}

// freeDate: of the dates of a window that are free of games and practice, a minor
// keeps one free of sessions. The last of them is the one that is judged, in
// every window in which it is the last.
func (k *coder) freeDate(l int) {
	if !k.day(l).Minor || !k.day(l).Free {
		return
	}
	w := l // the window that starts last has the fewest other free dates
	for n := l + 1; n < w+7; n++ {
		if k.day(n).Free {
			w = n - 7
		}
	}
	if w < l-6 {
		return
	}
	var rest []Term // free dates without a session
	for n := w; n < l; n++ {
		if !k.day(n).Free {
			continue
		}
		if n < 0 {
			if k.before(k.day(n).N, every) == 0 {
				return
			}
			continue
		}
		rest = k.sum(rest, n, func(o option) int {
			if len(o.slots) == 0 {
				return 1
			}
			return 0
		})
	}
	row := k.sum(nil, l, func(o option) int { return min(o.lastFree(every), 1) })
	for _, t := range rest {
		row = append(row, Term{t.Var, -1})
	}
	k.row(row, AtMost, 0)
	for i := range k.forced(l) {
		row := k.sum(append([]Term(nil), rest...), l, func(o option) int {
			if o.pinned(i) != nil {
				return -1
			}
			return 0
		})
		k.row(append(row, Term{k.breach("free-date", l, i), 1}), AtLeast, 0)
	}
}
