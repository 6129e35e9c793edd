package exercise_test

import (
	"fmt"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

func day(s string) calendar.Date {
	d, err := calendar.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d
}

// adult is an invented athlete of 23 with a training age of two years.
func adult() season.Athlete {
	return season.Athlete{ID: "a", Born: season.YearMonth{Year: 2003, Month: 5}, TrainingAgeMonths: 26}
}

func session(kind season.Kind, minutes int, date string) season.Session {
	return season.Session{ID: date + "-" + string(kind), Kind: kind, Minutes: minutes, Date: day(date)}
}

// printed is a card as text.
func printed(c exercise.Card) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s, %d min, %s\n", c.Date, c.Kind, c.Minutes, c.State)
	for _, p := range c.Blocks {
		fmt.Fprintf(&b, "  %d min %s", p.Minutes, p.Name)
		if p.Rounds > 0 {
			fmt.Fprintf(&b, ", %d rounds", p.Rounds)
		}
		b.WriteByte('\n')
		for _, it := range p.Items {
			x := it.Exercise
			fmt.Fprintf(&b, "    %d x %s %s", x.Sets, x.Reps, x.Name)
			if x.Side != "" {
				fmt.Fprintf(&b, " (%s)", x.Side)
			}
			if x.Load != nil {
				fmt.Fprintf(&b, ", %s", load.Mass(x.Load.Grams))
			}
			if x.Effort != "" {
				fmt.Fprintf(&b, ", %s", x.Effort)
			}
			fmt.Fprintf(&b, ", rest %d s [%s]\n", x.Rest, it.Why.Code)
		}
	}
	for _, n := range c.Notes {
		fmt.Fprintf(&b, "  - %s\n", n.Text)
	}
	return b.String()
}
