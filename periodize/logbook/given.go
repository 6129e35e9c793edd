package logbook

import (
	"fmt"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// Given is what must be known of an athlete besides the log, to say what a lift
// is worth and what comes next. The zero value of each field is its default.
type Given struct {
	// Today is the date for which loads are told; what lies after it is not used.
	// Unset: the date of the newest entry.
	Today   calendar.Date
	Athlete season.Athlete  // age, training age and maxima are read
	Cards   []exercise.Card // as issued; what a session asked for, and so what was reached
	Kit     exercise.Kit    // what loads can be built from; nothing: no step can be told

	Catalogue exercise.Catalogue
	// Curve relates repetitions and maxima; nil is [load.Epley].
	Curve *load.Curve
}

func (g *Given) curve() load.Curve {
	if g.Curve != nil {
		return *g.Curve
	}
	return load.Epley
}

// cautious reports whether ratings are taken as those of a novice or youth: also
// where age or training age is not known.
func (g *Given) cautious() bool {
	age, ok := g.Athlete.Born.AgeOn(g.Today)
	return !ok || age < 18 || g.Athlete.TrainingAgeMonths < 12
}

// check finds what makes it impossible to tell loads.
func (g *Given) check() error {
	var f finder
	for _, b := range []struct {
		field string
		mass  load.Mass
	}{{"bar", g.Kit.Bar}, {"trapBar", g.Kit.TrapBar}} {
		if b.mass == 0 {
			continue
		}
		if _, err := load.NewRack(b.mass, g.Kit.Discs); err != nil {
			reason, remedy := because(err)
			f.err(CodeMass, "/kit/"+b.field, b.mass.String(), "this bar and these discs cannot be: "+reason, remedy)
		}
	}
	for i, m := range g.Athlete.Maxima {
		if m.Grams <= 0 || m.Grams > int64(load.MaxMass) || m.Date.IsZero() {
			f.err(CodeRange, fmt.Sprintf("/athlete/maxima/%d", i), load.Mass(m.Grams).String(), "a maximum is above 0 and at most 10000 kg, and has a date", "give load with its unit, and the date")
		}
	}
	if g.Curve != nil {
		if _, ok := g.Curve.Percent(1); !ok {
			f.err(CodeChoice, "/curve", g.Curve.String(), "no such curve", "use one of load.Curves")
		}
	}
	return f.failed()
}

// settled gives Today its default.
func (g Given) settled(v *View) Given {
	if g.Today.IsZero() {
		for i := range v.Entries {
			if d := v.Entries[i].Date(); d.After(g.Today) {
				g.Today = d
			}
		}
	}
	return g
}

// steps builds the loads of an exercise from a kit.
type steps struct {
	rack  *load.Rack
	fixed []load.Mass
}

func (g *Given) steps(x *exercise.Exercise) steps {
	rack := func(bar load.Mass) steps {
		if bar == 0 {
			return steps{}
		}
		r, err := load.NewRack(bar, g.Kit.Discs)
		if err != nil {
			return steps{}
		}
		return steps{rack: r}
	}
	k := &g.Kit
	switch x.Load {
	case exercise.Bar:
		return rack(k.Bar)
	case exercise.TrapBar:
		return rack(k.TrapBar)
	case exercise.Pair:
		return steps{fixed: k.Dumbbells}
	case exercise.Single:
		return steps{fixed: append(append([]load.Mass{}, k.Dumbbells...), k.Kettlebells...)}
	case exercise.Stack:
		return steps{fixed: k.Stack}
	case exercise.Ball:
		return steps{fixed: k.Balls}
	case exercise.Band:
		return steps{fixed: k.Bands}
	}
	return steps{}
}

// atMost is the heaviest load that can be built and is not over the target.
func (s steps) atMost(target load.Mass) (load.Mass, bool) {
	if s.rack != nil {
		l, ok := s.rack.AtMost(target)
		return l.Total, ok
	}
	return load.FixedAtMost(target, s.fixed)
}

// above is the lightest load that can be built and is over the given one.
func (s steps) above(m load.Mass) (load.Mass, bool) {
	if s.rack != nil {
		l, ok := s.rack.Above(m)
		return l.Total, ok
	}
	var best load.Mass
	for _, x := range s.fixed {
		if x > m && (best == 0 || x < best) {
			best = x
		}
	}
	return best, best > 0
}
