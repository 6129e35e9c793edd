package history

import (
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// Named is a rule with the ids of the rows it stands for.
type Named struct {
	IDs  []string
	Rule layered.Rule
}

// Rules returns the automata of the default rules that are switched on.
func Rules(m *starts.Model) []Named {
	b := &base{m: m, days: len(m.Choices)}
	b.sum()
	var out []Named
	add := func(r layered.Rule, ids ...string) { out = append(out, Named{ids, r}) }
	add(newLifts(b), "lifts-in-7", "lifts-in-7-break", "lifts-in-7-beginner")
	add(newHeavyGap(b), "heavy-gap")
	add(newEmptyRun(b), "empty-run")
	add(newWeekStrength(b), "week-full-body", "second-full-body", "second-lift", "break-session")
	add(newRecoveryCount(b), "recovery-count")
	if m.Set.Points("lift-run") > 0 {
		add(newLiftRun(b), "lift-run")
	}
	// Rules that concern no date or session of this season are left out.
	eccentric := func(_ *starts.Day, s *starts.Slot) bool { return s.Kind == season.Eccentric }
	if b.any(eccentric) {
		add(newWeekCount(b, "eccentric-count", eccentric), "eccentric-count")
	}
	exam := func(d *starts.Day, _ *starts.Slot) bool { return d.Exam }
	if m.Set.On("exam-count") && b.any(exam) {
		add(newWeekCount(b, "exam-count", exam), "exam-count")
	}
	minor := b.any(func(d *starts.Day, _ *starts.Slot) bool { return d.Minor })
	if minor && m.Set.On("minor-lift-dates") {
		add(newMinorLifts(b), "minor-lift-dates")
	}
	if minor && m.Set.On("free-date") {
		add(newFreeDate(b), "free-date")
	}
	if minor && m.Set.On("no-free-date") {
		add(newNoFreeDate(b), "no-free-date")
	}
	if m.Set.Points("week-load") > 0 {
		add(newWeekLoad(b), "week-load")
	}
	if m.Set.Points("load-ramp") > 0 {
		add(newLoadRamp(b), "load-ramp")
	}
	if m.Set.Points("rolling-count") > 0 {
		add(newRollingCount(b), "rolling-count")
	}
	if m.Set.Points("rolling-load") > 0 {
		add(newRollingLoad(b), "rolling-load")
	}
	return out
}

// base is what the automata share: the model and a summary of each option.
type base struct {
	m    *starts.Model
	days int
	opts [][]summary
}

type summary struct {
	slots    []*starts.Slot
	sessions int
	lifts    int
	strength int // full-body, trimmed, post-game, eccentric
	recovery int
	blocks   int    // of session load
	forced   uint64 // bit i: slot i is forced
	kinds    uint64 // 3 bits a slot
}

func (b *base) sum() {
	b.opts = make([][]summary, b.days)
	options, sessions := 0, 0
	for i := range b.m.Choices {
		options += len(b.m.Choices[i].Options)
		for _, opt := range b.m.Choices[i].Options {
			sessions += len(opt)
		}
	}
	rows, slots := make([]summary, options), make([]*starts.Slot, sessions)
	for i := range b.m.Choices {
		c := &b.m.Choices[i]
		row := rows[:len(c.Options):len(c.Options)]
		rows = rows[len(row):]
		for o, opt := range c.Options {
			s := &row[o]
			s.slots, slots = slots[:0:len(opt)], slots[len(opt):]
			for n, x := range opt {
				slot := &c.Slots[x]
				s.slots = append(s.slots, slot)
				s.sessions++
				s.blocks += slot.Blocks()
				if slot.Kind.Lift() {
					s.lifts++
				}
				if slot.Kind.HeavyLowerBody() {
					s.strength++
				}
				if slot.Kind == season.Recovery {
					s.recovery++
				}
				if slot.Forced && n < 16 {
					s.forced |= 1 << n
				}
				code := uint64(1)
				switch {
				case slot.Kind == season.Recovery:
				case slot.Kind.HeavyLowerBody():
					code = 3
				default:
					code = 2
				}
				if n < 16 {
					s.kinds |= code << (3 * n)
				}
			}
		}
		b.opts[i] = row
	}
}

// any reports whether some session that could be chosen is of a sort.
func (b *base) any(which func(*starts.Day, *starts.Slot) bool) bool {
	for l := range b.m.Choices {
		d := b.day(l)
		for s := range b.m.Choices[l].Slots {
			if which(d, &b.m.Choices[l].Slots[s]) {
				return true
			}
		}
	}
	return false
}

func (b *base) day(layer int) *starts.Day { return &b.m.Days[b.m.From+layer] }

// shape tells options apart by the broad kinds of their sessions and by which of
// them are forced: enough for every rule that looks neither at the clock nor at
// a single kind.
func (b *base) shape(layer, option int) uint64 {
	s := &b.opts[layer][option]
	return s.kinds<<16 | s.forced
}

// forbid is what a broken limit costs: nothing may choose it, unless it is
// forced.
func forbid(s *starts.Slot) int64 {
	if s.Forced {
		return starts.Broken
	}
	return layered.Inf
}

// plus adds costs and keeps Inf.
func plus(a, b int64) int64 {
	if a >= layered.Inf || b >= layered.Inf {
		return layered.Inf
	}
	return a + b
}

// historyOn counts sessions before the period by day number.
func (b *base) historyOn(n int, count func(*starts.Slot) bool) int {
	k := 0
	for i := range b.m.History {
		if s := &b.m.History[i]; s.Day == n && count(s) {
			k++
		}
	}
	return k
}

func isLift(s *starts.Slot) bool { return s.Kind.Lift() }
func isAny(*starts.Slot) bool    { return true }
