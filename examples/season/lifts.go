package main

import (
	"strconv"
	"strings"

	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// lifts are the lines of the week view, by session: "Back squat 3x5 80 kg".
func lifts(cards []exercise.Card) map[string]string {
	out := map[string]string{}
	for _, c := range cards {
		if c.Kind == season.Recovery {
			continue
		}
		var parts []string
		for _, it := range c.Main() {
			x := it.Exercise
			part := shortName(x.Name) + " " + strconv.Itoa(x.Sets) + "x" + strings.ReplaceAll(x.Reps, " ", "")
			if x.Load != nil {
				part += " " + load.Mass(x.Load.Grams).String()
			}
			parts = append(parts, part)
		}
		out[c.Session] = strings.Join(parts, ", ")
	}
	return out
}

// shortName leaves out how an exercise is done.
func shortName(s string) string {
	s, _, _ = strings.Cut(s, ",")
	return s
}
