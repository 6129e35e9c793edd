package exercise

import (
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Adjusted is the load of the sets that are left.
type Adjusted struct {
	Load *season.Grams // nil: no kilograms can be told, see Why
	Why  season.Note
}

// mostRise is the most a load rises from set to set, in percent: ACSM position
// stand 2009, MSSE 41:687-708 (2 to 10 %), seen.
const mostRise = 10

// FirstSet adjusts an item after its first set, in the kit of the input: within
// a repetition of what should be left the load stays; with two or more to spare
// it rises by one step of at most 10 %; with two or more too few it falls to what
// leaves the target. Where the card gave no kilograms, the set decides them, by
// the builder's equation, down to what can be built. The error is a
// *season.InputError.
func (b Builder) FirstSet(in Input, it Item, did DoneSet) (Adjusted, error) {
	c := b.Catalogue.data()
	var f faults
	e := c.find(it.ID)
	if e == nil {
		f.add("exercise-unknown", "/item/id", it.ID, "no such exercise in the catalogue", c.suggest(it.ID))
	}
	if did.Load <= 0 || did.Load > load.MaxMass || did.Reps < 1 || did.Reps > 1000 || did.Left < 0 || did.Left > 30 {
		f.add("set-range", "/did", setText(did), "a first set has a load, repetitions and those left", "give all three")
	}
	if it.Left < 0 || it.Reps < 1 {
		f.add("item-unrated", "/item", it.ID, "nothing is to be left in this exercise", "adjust exercises with a load only")
	}
	f.list = append(f.list, in.Kit.problems("/kit")...)
	if len(f.list) > 0 {
		return Adjusted{}, &season.InputError{Problems: f.list}
	}
	curve := load.Epley
	if b.Curve != nil {
		curve = *b.Curve
	}
	kit := in.Kit.ready(c)
	spare := did.Left - it.Left - max(it.Reps-did.Reps, 0)
	grams := func(m load.Mass) *season.Grams { return &season.Grams{Grams: int64(m)} }
	est, known := curve.OneRepMax(did.Load, load.Reps(did.Reps+did.Left))
	var found load.Mass
	if rating, ok := load.EffortLeaving(load.Reps(it.Left)); ok && known {
		raw, ok := curve.LoadAt(est.Load, load.Reps(it.Reps), rating)
		if !ok {
			known = false
		} else if found, ok = kit.atMost(e, raw); !ok {
			return Adjusted{Why: note("first-lightest")}, nil
		}
	}
	switch {
	case it.Exercise.Load == nil && (!known || found == 0):
		return Adjusted{Why: note("first-guess")}, nil
	case it.Exercise.Load == nil:
		if most := did.Load * (100 + mostRise) / 100; found > most {
			if found, known = kit.atMost(e, most); !known {
				found = did.Load
			}
		}
		return Adjusted{grams(found), note("first-found", "max", est.Load, "curve", curve.String(), "set", setText(did))}, nil
	case spare >= 2:
		if up, ok := kit.above(e, did.Load); ok && up*100 <= did.Load*(100+mostRise) {
			return Adjusted{grams(up), note("first-up", "left", did.Left, "target", it.Left)}, nil
		}
		return Adjusted{grams(did.Load), note("first-no-step", "left", did.Left)}, nil
	case spare <= -2:
		if !known || found == 0 || found >= did.Load {
			var ok bool
			if found, ok = kit.atMost(e, did.Load*95/100); !ok {
				return Adjusted{Why: note("first-lightest")}, nil
			}
		}
		return Adjusted{grams(found), note("first-down", "left", did.Left, "target", it.Left)}, nil
	}
	return Adjusted{grams(did.Load), note("first-stay")}, nil
}
