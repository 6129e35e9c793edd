package exercise

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Kit is what there is to train with. The zero value is nothing but a floor; an
// ordinary gym is [Gym].
type Kit struct {
	// Words name what is there, as the exercises do: "rack", "bench", "band",
	// "corridor". "field" brings a corridor with it, "dumbbells" (two of each) a
	// dumbbell. What is listed below need not be named.
	Words       []string
	Bar         load.Mass // 0: there is none
	TrapBar     load.Mass // 0: there is none
	Discs       []load.Disc
	Dumbbells   []load.Mass // pairs
	Kettlebells []load.Mass // one each
	Stack       []load.Mass // steps of the machines; none: kilograms are not told
	Balls       []load.Mass // medicine balls
	Bands       []load.Mass // by their nominal pull; none: "band" alone is enough
}

const kg = load.Kilogram

// Gym is an ordinary gym: a 20 kg bar and a 20 kg trap bar, a 15 kg bar may be
// set instead, discs from 25 to 1.25 kg, dumbbells from 4 to 40 kg, kettlebells,
// machines and 15 m of floor.
//
// Source: common practice, no source.
func Gym() Kit {
	k := Kit{
		Words: []string{"rack", "bench", "box", "chair", "step", "band", "mini-band", "pull-up-bar", "cable", "pulldown", "leg-press",
			"chest-press", "leg-curl", "back-extension", "swiss-ball", "slider", "straps", "landmine", "bike", "rower", "anchor", "hurdles", "corridor"},
		Bar: load.MensBar, TrapBar: 20 * kg, Discs: load.GymDiscs(),
		Kettlebells: []load.Mass{8 * kg, 12 * kg, 16 * kg, 20 * kg, 24 * kg, 32 * kg},
		Balls:       []load.Mass{2 * kg, 3 * kg, 4 * kg, 5 * kg},
	}
	for m := 4 * kg; m <= 40*kg; m += 2 * kg {
		k.Dumbbells = append(k.Dumbbells, m)
	}
	for m := 5 * kg; m <= 100*kg; m += 5 * kg {
		k.Stack = append(k.Stack, m)
	}
	return k
}

// Limits of a kit.
const (
	maxKitList = season.MaxKit
)

// ready is a kit that can be asked.
type ready struct {
	words uint64 // of the catalogue
	bar   *load.Rack
	trap  *load.Rack
	kit   Kit
	pairs []load.Mass // for both hands
	ones  []load.Mass // for one

	pair, single top
}

func (k Kit) problems(at string) []calendar.Problem {
	var f faults
	if len(k.Words) > maxKitList {
		f.add("kit-size", at+"/words", strconv.Itoa(len(k.Words)), "more than 500 words", "name each thing once")
	}
	masses := func(field string, list []load.Mass) {
		if len(list) > maxKitList {
			f.add("kit-size", at+"/"+field, strconv.Itoa(len(list)), "more than 500 entries", "name each mass once")
			return
		}
		for i, m := range list {
			if m <= 0 || m > 500*kg {
				f.add("kit-mass", fmt.Sprintf("%s/%s/%d", at, field, i), m.String(), "not above 0 and at most 500 kg", "give the mass of one")
			}
		}
	}
	masses("dumbbells", k.Dumbbells)
	masses("kettlebells", k.Kettlebells)
	masses("stack", k.Stack)
	masses("balls", k.Balls)
	masses("bands", k.Bands)
	for _, b := range []struct {
		field string
		mass  load.Mass
	}{{"bar", k.Bar}, {"trapBar", k.TrapBar}} {
		if b.mass == 0 {
			continue
		}
		if _, err := load.NewRack(b.mass, k.Discs); err != nil {
			f.add("kit-plates", at+"/"+b.field, b.mass.String(), "this bar and these discs cannot be: "+oneLine(err), "give the mass of the empty bar and of single discs, in kg or lb")
		}
	}
	return f.list
}

func oneLine(err error) string { return strings.ReplaceAll(err.Error(), "\n", "; ") }

// ready compiles a kit that has no problems for a catalogue.
func (k Kit) ready(c *compiled) *ready {
	r := &ready{kit: k}
	have := map[string]bool{}
	for _, w := range k.Words {
		have[plainWord(w)] = true
	}
	if k.Bar > 0 {
		have["bar"] = true
		r.bar, _ = load.NewRack(k.Bar, k.Discs)
	}
	if k.TrapBar > 0 {
		have["trap-bar"] = true
		r.trap, _ = load.NewRack(k.TrapBar, k.Discs)
	}
	have["dumbbells"] = have["dumbbells"] || len(k.Dumbbells) > 0
	have["kettlebell"] = have["kettlebell"] || have["kettlebells"] || len(k.Kettlebells) > 0
	have["dumbbell"] = have["dumbbell"] || have["dumbbells"]
	have["medicine-ball"] = have["medicine-ball"] || len(k.Balls) > 0
	have["band"] = have["band"] || len(k.Bands) > 0
	have["corridor"] = have["corridor"] || have["field"]
	for i, w := range c.words {
		if have[w] {
			r.words |= 1 << i
		}
	}
	r.pairs = slices.Clone(k.Dumbbells)
	r.ones = slices.Concat(k.Dumbbells, k.Kettlebells)
	r.pair, r.single = topOf(r.pairs), topOf(r.ones)
	return r
}

// fits reports whether an exercise can be done with the kit.
func (r *ready) fits(e *entry) bool {
	for _, any := range e.kit {
		if r.words&any == 0 {
			return false
		}
	}
	return true
}

// atMost is the heaviest load of an exercise that the kit builds and that is
// not over the target.
func (r *ready) atMost(e *entry, target load.Mass) (load.Mass, bool) {
	switch e.Load {
	case Bar:
		l, ok := r.bar.AtMost(target)
		return l.Total, ok
	case TrapBar:
		l, ok := r.trap.AtMost(target)
		return l.Total, ok
	}
	return load.FixedAtMost(target, r.fixed(e))
}

// heaviest is the heaviest single weight or pair for an exercise, 0 if there is
// none; one tells that there is no other.
func (r *ready) heaviest(e *entry) (most load.Mass, one bool) {
	switch e.Load {
	case Pair:
		return r.pair.most, r.pair.one
	case Single:
		return r.single.most, r.single.one
	}
	return 0, false
}

// top is the heaviest of a list, and whether there is no other.
type top struct {
	most load.Mass
	one  bool
}

func topOf(list []load.Mass) top {
	var t top
	for _, m := range list {
		t.most = max(t.most, m)
	}
	t.one = t.most > 0 && !slices.ContainsFunc(list, func(m load.Mass) bool { return m != t.most })
	return t
}

// above is the next step up.
func (r *ready) above(e *entry, m load.Mass) (load.Mass, bool) {
	switch e.Load {
	case Bar:
		l, ok := r.bar.Above(m)
		return l.Total, ok
	case TrapBar:
		l, ok := r.trap.Above(m)
		return l.Total, ok
	}
	var best load.Mass
	for _, x := range r.fixed(e) {
		if x > m && (best == 0 || x < best) {
			best = x
		}
	}
	return best, best > 0
}

func (r *ready) fixed(e *entry) []load.Mass {
	switch e.Load {
	case Pair:
		return r.pairs
	case Single:
		return r.ones
	case Stack:
		return r.kit.Stack
	case Ball:
		return r.kit.Balls
	case Band:
		return r.kit.Bands
	}
	return nil
}
