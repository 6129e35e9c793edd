package exercise

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
)

// ParseKit reads kit as it is written for a place: "rack", "bar 20 kg", "trap
// bar 25 kg", "discs 20 kg", "discs 10 kg x 2" (pairs), "dumbbells 4-40 kg by 2
// kg", "kettlebell 16 kg", "stack 5-100 kg by 5 kg", "ball 3 kg", "band 15 kg",
// and "gym" for all of [Gym]. "bar" alone is a 20 kg bar; "bar" without discs
// has those of a gym. An empty list, or "floor" alone, is a bare floor. Every
// problem is returned, an unknown word as a warning, since it only stands unused.
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
	known := slices.Concat(c.data().words, []string{"gym", "floor", "bar", "trap-bar", "discs", "dumbbells", "kettlebells", "stack", "ball", "balls", "field", "corridor"})
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
