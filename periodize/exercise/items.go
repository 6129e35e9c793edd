package exercise

import (
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// block turns a choice into a part of the card.
func (a *asked) block(g *group, p *chosen) Block {
	n := 0
	for i := range p.options {
		switch o := &p.options[i]; {
		case o.e == nil:
		case o.once > 0:
			n += 1 + rampSets
		default:
			n++
		}
	}
	b := Block{Name: g.name, Minutes: p.minutes, Rounds: p.rounds, Items: make([]Item, 0, n)}
	for i := range p.options {
		o := &p.options[i]
		if o.e == nil {
			continue
		}
		it := a.item(&g.slots[i], o.e, o.side, a.doseIn(&g.slots[i], o.e, o.side), p.rounds)
		if o.once > 0 {
			b.Items = a.ramp(b.Items, o, &it)
		}
		b.Items = append(b.Items, it)
	}
	return b
}

func (a *asked) item(s *slot, e *entry, m maybe, d dose, sets int) Item {
	w := a.weigh(e, d, a.slow(e, s.class))
	x := season.Exercise{Name: e.Name, Pattern: string(e.Pattern), Sets: sets, Reps: d.text(e), Load: w.grams, Effort: w.effort, Rest: d.rest}
	if w.why.Code != "" {
		n := w.why
		x.Evidence = &n
	}
	switch {
	case m != mayBoth:
		x.Side = m.side()
	case e.Sided:
		x.Side = "each"
	}
	if a.slow(e, s.class) {
		x.Effort += ", 4 s down"
	}
	if s.class == classSprint && e.Impact > 0 {
		x.Effort = "fast and fresh: walk back, then wait"
	}
	it := Item{ID: e.ID, Slot: s.name, Exercise: x, Seconds: d.secs, Reps: d.high, Left: d.left, Why: a.why(s, e, m)}
	if s.class <= classStrength {
		it.Easier, it.Harder = a.relative(e.Easier), a.relative(e.Harder)
	}
	return it
}

func (a *asked) why(s *slot, e *entry, m maybe) season.Note {
	switch {
	case s.name == slotPrehab:
		return note("pick-own")
	case s.name == slotWarm:
		return note("pick-warm")
	case m != mayBoth:
		return note("pick-one-side", "side", m.side())
	case a.keep != nil && a.keep.works(e.ID):
		return note("pick-kept")
	case s.class == classMain && a.continues(e):
		return note("pick-continued", "date", a.mem.mains[e.Pattern].since)
	case s.class == classMain && a.hasRecord(e):
		return note("pick-maximum")
	case s.class == classMain && a.mem.last != "" && a.mem.last != e.Pattern:
		return note("pick-alternate")
	case a.cards > 0 && a.used[e.at] == 0:
		return note("pick-varied")
	case a.alone(s):
		return note("pick-only")
	}
	return note("pick-fits")
}

// continues reports whether an exercise is the main lift of its pattern in this
// block.
func (a *asked) continues(e *entry) bool {
	m, ok := a.mem.bound(e.Pattern, a.in.Session.Date, a.in.Week.BlockFrom)
	return ok && m.id == e.ID
}

// alone reports whether nothing else could stand in a slot.
func (a *asked) alone(s *slot) bool {
	n := 0
	for _, p := range s.patterns {
		for _, i := range a.c.slots[p] {
			if a.stands(s, &a.c.list[i]).ok() {
				if n++; n > 1 {
					return false
				}
			}
		}
	}
	return n == 1
}

const rampSets = 2

// ramp is the lighter sets before the first work set of a bar lift: half and
// three quarters of the work load, rounded down to what can be built.
func (a *asked) ramp(out []Item, o *option, work *Item) []Item {
	for _, r := range [rampSets]struct{ reps, percent int }{{5, 50}, {3, 75}} {
		x := season.Exercise{Name: o.e.Name + ", lighter", Pattern: string(o.e.Pattern), Sets: 1, Rest: 60,
			Reps: dose{reps: r.reps}.text(&entry{}), Effort: "easy and quick"}
		n := note("load-ramp", "percent", r.percent)
		if work.Exercise.Load != nil {
			if m, ok := a.kit.atMost(o.e, load.Mass(work.Exercise.Load.Grams)*load.Mass(r.percent)/100); ok {
				x.Load = &season.Grams{Grams: int64(m)}
				x.Evidence = &n
			}
		}
		out = append(out, Item{ID: o.e.ID, Slot: slotRamp, Exercise: x, Seconds: r.reps * o.e.Seconds, Reps: r.reps, Left: -1, Why: note("pick-ramp")})
	}
	return out
}
