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

// ParseKit reads kit as it is written for a place: "rack", "bar 20 kg", "trap
// bar 25 kg", "discs 20 kg", "discs 10 kg x 2" (pairs), "dumbbells 4-40 kg by 2
// kg", "kettlebell 16 kg", "stack 5-100 kg by 5 kg", "ball 3 kg", "band 15 kg",
// and "gym" for all of [Gym]. "bar" alone is a 20 kg bar; "bar" without discs
// has those of a gym. The list may be empty: that is a bare floor. Every problem
// is returned, an unknown word as a warning, since it only stands unused.
func (c Catalogue) ParseKit(words []string) (Kit, []calendar.Problem) {
	var k Kit
	var f faults
	if len(words) > maxKitList {
		f.add("kit-size", "/kit", strconv.Itoa(len(words)), "more than 500 words", "name each thing once")
		return Kit{}, f.list
	}
	discs, plates := 0, false
	for i, line := range words {
		path := fmt.Sprintf("/kit/%d", i)
		name, masses, pairs, problem := kitLine(line)
		if problem == "" && name == "" {
			problem = "it does not begin with what is there"
		}
		if problem != "" {
			f.add("kit-load", path, line, problem, `write "bar 20 kg", "dumbbells 4-40 kg by 2 kg" or "discs 10 kg x 2"`)
			continue
		}
		switch name {
		case "gym":
			g := Gym()
			k.Words = append(k.Words, g.Words...)
			k.Dumbbells, k.Kettlebells = append(k.Dumbbells, g.Dumbbells...), append(k.Kettlebells, g.Kettlebells...)
			k.Stack, k.Balls = append(k.Stack, g.Stack...), append(k.Balls, g.Balls...)
			if k.Bar == 0 {
				k.Bar = g.Bar
			}
			if k.TrapBar == 0 {
				k.TrapBar = g.TrapBar
			}
			plates = true
		case "bar", "trap-bar":
			m := load.MensBar
			if len(masses) > 0 {
				m = masses[0]
			}
			plates = true
			if name == "bar" {
				k.Bar = m
			} else {
				k.TrapBar = m
			}
		case "disc", "discs":
			for _, m := range masses {
				k.Discs = append(k.Discs, load.Disc{Mass: m, Pairs: pairs})
				discs++
			}
			if len(masses) == 0 {
				f.add("kit-load", path, line, "discs without a mass", `write "discs 10 kg" or "discs 10 kg x 2"`)
			}
		case "dumbbell", "dumbbells":
			if name == "dumbbell" || len(masses) == 0 {
				k.Words = append(k.Words, name)
			}
			k.Dumbbells = append(k.Dumbbells, masses...)
		case "kettlebell", "kettlebells":
			if name == "kettlebells" || len(masses) == 0 {
				k.Words = append(k.Words, name)
			}
			k.Kettlebells = append(k.Kettlebells, masses...)
		case "stack":
			k.Stack = append(k.Stack, masses...)
		case "ball", "balls", "medicine-ball":
			k.Words = append(k.Words, "medicine-ball")
			k.Balls = append(k.Balls, masses...)
		case "band", "bands":
			k.Words = append(k.Words, "band")
			k.Bands = append(k.Bands, masses...)
		default:
			if p, bad := c.kitWord(name); bad {
				p.Path, p.Value = path, line
				f.list = append(f.list, p)
			}
			k.Words = append(k.Words, name)
		}
	}
	if plates && discs == 0 {
		k.Discs = load.GymDiscs()
	}
	f.list = append(f.list, k.problems("/kit")...)
	return k, f.list
}

// kitWord warns of a word for kit that no exercise uses.
func (c Catalogue) kitWord(word string) (calendar.Problem, bool) {
	known := slices.Concat(c.data().words, []string{"gym", "bar", "trap-bar", "discs", "dumbbells", "kettlebells", "stack", "ball", "balls", "field", "corridor"})
	word = plainWord(word)
	if slices.Contains(known, word) {
		return calendar.Problem{}, false
	}
	p := calendar.Problem{Code: "kit-unknown", Class: calendar.ClassWarning, Value: word, Reason: "no exercise uses it", Remedy: "leave it out, or use one of KitWords"}
	if near, ok := calendar.Nearest(word, known); ok {
		p.Remedy = "did you mean " + near + "?"
	}
	return p, true
}

// kitLine takes a line of kit apart: a name, one mass or a row of them, pairs.
func kitLine(line string) (name string, masses []load.Mass, pairs int, problem string) {
	pairs = load.Plenty
	if len(line) > 120 {
		return "", nil, 0, "longer than 120 bytes"
	}
	start := strings.IndexAny(line, "0123456789")
	if start < 0 {
		return plainWord(strings.TrimSpace(line)), nil, pairs, ""
	}
	name = plainWord(strings.TrimSpace(line[:start]))
	rest := strings.TrimSpace(line[start:])
	if head, tail, ok := strings.Cut(rest, " x "); ok {
		n, err := strconv.Atoi(strings.TrimSpace(tail))
		if err != nil || n < 1 || n > 1000 {
			return name, nil, 0, "the number of pairs is not from 1 to 1000"
		}
		rest, pairs = strings.TrimSpace(head), n
	}
	span, by, stepped := strings.Cut(rest, " by ")
	low, high, ranged := strings.Cut(span, "-")
	if ranged != stepped {
		return name, nil, 0, "a row of loads needs its first and last and the step"
	}
	top, err := load.ParseMass(strings.TrimSpace(pick(ranged, high, span)))
	if err != nil {
		return name, nil, 0, oneLine(err)
	}
	if !ranged {
		return name, []load.Mass{top}, pairs, ""
	}
	if !strings.ContainsAny(low, "kgl") {
		low += strings.TrimLeft(strings.TrimSpace(high), "0123456789.") // "4-40 kg"
	}
	first, err1 := load.ParseMass(strings.TrimSpace(low))
	step, err2 := load.ParseMass(strings.TrimSpace(by))
	switch {
	case err1 != nil:
		return name, nil, 0, oneLine(err1)
	case err2 != nil:
		return name, nil, 0, oneLine(err2)
	case step <= 0 || first <= 0 || top < first || (top-first)/step >= maxKitList:
		return name, nil, 0, "the row of loads has no end, or more than 500 steps"
	}
	for m := first; m <= top; m += step {
		masses = append(masses, m)
	}
	return name, masses, pairs, ""
}

func pick(b bool, yes, no string) string {
	if b {
		return yes
	}
	return no
}
