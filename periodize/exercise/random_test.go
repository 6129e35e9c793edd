package exercise_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// TestTenCards prints ten cards of very different athletes, to be read by a
// coach, and checks what would make one laugh.
func TestTenCards(t *testing.T) {
	home := exercise.Kit{Words: []string{"chair", "band", "corridor"}, Dumbbells: []load.Mass{5 * load.Kilogram, 10 * load.Kilogram}}
	hotel := exercise.Kit{Words: []string{"bench", "bike", "corridor"}, Dumbbells: []load.Mass{8 * load.Kilogram, 12 * load.Kilogram, 16 * load.Kilogram, 20 * load.Kilogram}}
	small := exercise.Gym()
	small.Bar = load.WomensBar
	who := func(born, months int, role string, maxima ...season.Maximum) season.Athlete {
		return season.Athlete{ID: fmt.Sprint(born), Born: season.YearMonth{Year: born, Month: 2}, TrainingAgeMonths: months, Role: role, Maxima: maxima}
	}
	best := func(id string, kilograms int64) season.Maximum {
		return season.Maximum{Exercise: id, Grams: kilograms * 1000, Kind: "tested", Date: day("2026-10-12")}
	}
	pro := who(1990, 150, "goalkeeper", best("trap-bar-deadlift", 180), best("bench-press", 100))
	pro.OptIns = []season.OptIn{season.OptLowRepSets, season.OptPostGame}
	for i, in := range []exercise.Input{
		{Session: session(season.FullBody, 45, "2026-11-10"), Athlete: who(2013, 0, ""), Kit: exercise.Gym()},
		{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: pro, Kit: exercise.Gym()},
		{Session: session(season.Primer, 35, "2026-11-10"), Athlete: pro, Kit: exercise.Gym()},
		{Session: session(season.Trimmed, 40, "2026-11-10"), Athlete: who(2003, 40, "", best("back-squat", 61), best("bench-press", 42)), Kit: small},
		{Session: session(season.PostGame, 30, "2026-11-10"), Athlete: who(2001, 60, ""), Kit: exercise.Gym(), History: exercise.History{Played: []exercise.Played{{Date: day("2026-11-10"), Minutes: 12}}}},
		{Session: session(season.Recovery, 40, "2026-11-10"), Athlete: who(2008, 14, ""), Kit: home},
		{Session: session(season.FullBody, 30, "2026-11-10"), Athlete: who(2000, 30, ""), Kit: home},
		{Session: session(season.Eccentric, 60, "2026-12-22"), Athlete: who(1999, 70, "", best("romanian-deadlift", 120)), Kit: exercise.Gym()},
		{Session: session(season.FullBody, 50, "2026-11-10"), Athlete: who(2000, 30, ""), Kit: hotel},
		{Session: session(season.FullBody, 40, "2026-11-10"), Athlete: season.Athlete{ID: "unknown", TrainingAgeMonths: -1}, Kit: exercise.Kit{}},
	} {
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(i, err)
		}
		t.Log("\n" + printed(c))
		seen := map[string]bool{}
		for _, b := range c.Blocks {
			if b.Minutes > 20 && b.Name != "Easy piece" {
				t.Errorf("%d: %d minutes of %s", i, b.Minutes, b.Name)
			}
			for _, it := range b.Items {
				if it.Slot != "ramp-up" && seen[it.ID] && in.Session.Kind != season.Recovery {
					t.Errorf("%d: %s twice", i, it.ID)
				}
				seen[it.ID] = seen[it.ID] || it.Slot != "ramp-up"
				if strings.Contains(it.Exercise.Name, "  ") || it.Exercise.Sets < 1 {
					t.Errorf("%d: %+v", i, it.Exercise)
				}
			}
		}
	}
}

func TestGroupsOfAthletesDiffer(t *testing.T) {
	in := exercise.Input{Session: session(season.PostGame, 30, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	rounds := func(minutes int) int {
		in.History.Played = []exercise.Played{{Date: day("2026-11-10"), Minutes: minutes}}
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, s := range c.Sets() {
			n += s
		}
		return n
	}
	if bench, starter := rounds(12), rounds(85); bench <= starter {
		t.Errorf("the bench does %d sets, a starter %d", bench, starter)
	}
	// A keeper's primer starts short and pushes off sideways.
	keeper := exercise.Input{Session: session(season.Primer, 35, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	keeper.Kit.Words = append(keeper.Kit.Words, "field")
	field, err := exercise.Builder{}.Session(keeper)
	if err != nil {
		t.Fatal(err)
	}
	keeper.Athlete.Role = "Goalkeeper"
	goal, err := exercise.Builder{}.Session(keeper)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		card exercise.Card
		want []string
	}{{field, []string{"sprint-15"}}, {goal, []string{"sprint-10"}}} {
		for _, id := range x.want {
			if _, ok := item(x.card, id); !ok {
				t.Errorf("no %s in\n%s", id, printed(x.card))
			}
		}
	}
	if !slices.ContainsFunc(goal.Blocks, func(b exercise.Block) bool {
		return slices.ContainsFunc(b.Items, func(it exercise.Item) bool { return it.Exercise.Pattern == string(exercise.JumpLateral) })
	}) {
		t.Errorf("no lateral power for a keeper:\n%s", printed(goal))
	}
}

func TestWeeksAreEased(t *testing.T) {
	plan := invented(2)
	_, open, err := exercise.Builder{}.Season(plan, club())
	if err != nil {
		t.Fatal(err)
	}
	g := plan.Games[0]
	g.ID, g.Date = "midweek", calendar.DateFromDayNumber(g.Date.DayNumber()-2)
	g.Start, g.End = g.Start.AddDate(0, 0, -2), g.End.AddDate(0, 0, -2)
	plan.Games = append(plan.Games, g)
	_, tight, err := exercise.Builder{}.Season(plan, club())
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []exercise.Region{exercise.Lower, exercise.Push, exercise.Pull, exercise.Trunk} {
		a, b := open[0].Sets()[r]+open[1].Sets()[r], tight[0].Sets()[r]+tight[1].Sets()[r]
		if b >= a || b == 0 || a > 18 {
			t.Errorf("%s: %d sets in a congested week, %d in another", r, b, a)
		}
	}
}
