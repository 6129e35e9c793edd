package ruletest_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/rule/ruletest"
	"example.org/weft/periodize/season"
)

// game is of no date yet: [ruletest.Days] gives it one.
var game = calendar.Event{Kind: calendar.Game, Start: calendar.Wall{Clock: 19 * 3600}, End: calendar.Wall{Clock: 21 * 3600}, HasEnd: true}

func TestAtLeastAgreesWithItsDefinition(t *testing.T) {
	zone, err := calendar.LoadZone("Pacific/Auckland")
	if err != nil {
		t.Fatal(err)
	}
	charged, calm := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		draw := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "n") }
		days := ruletest.Days(draw, zone, game)
		n := rule.Need{Least: draw(5), Dates: draw(70), Points: draw(9), Which: rule.Which{Kinds: season.Kinds()[:draw(3)+1]}}
		if draw(2) == 0 {
			n.Dates = 2 + draw(6) // short runs, as there are not many dates
		}
		if draw(2) == 0 {
			n.Events = rule.Match{Kind: calendar.Game}
		}
		for range draw(5) {
			n.Before = append(n.Before, days[0].Date.AddDays(3-draw(40))) // some not before
		}
		r := rule.AtLeast("at-least", "", n)
		if err := ruletest.Check(r, days); err != nil {
			t.Fatal(err)
		}
		if len(r.Plain(days)) > 0 {
			charged++
		} else {
			calm++
		}
	})
	if charged < 2 || calm < 2 {
		t.Errorf("of the runs drawn %d cost something and %d nothing", charged, calm)
	}
}

// The most states that there can be on one date: three of 28 dates.
func TestAtLeastRemembersLittle(t *testing.T) {
	for _, n := range []rule.Need{{Least: 3, Dates: 28}, {Least: 2, Dates: 60}, {Least: 1, Dates: 60}} {
		r := rule.AtLeast("at-least", "", n)
		first := calendar.DateFromDayNumber(20_000)
		states := map[uint64]bool{r.Memory.Init(): true}
		for i := range 70 {
			next := map[uint64]bool{}
			d := rule.Day{Date: first.AddDays(i)}
			for s := range states {
				a, _ := r.Memory.EndDay(s, d)
				b, _ := r.Memory.Step(s, d, rule.Session{Kind: season.Primer})
				b, _ = r.Memory.EndDay(b, d)
				next[a], next[b] = true, true
			}
			if states = next; len(states) > rule.MostStates {
				t.Fatalf("%+v: %d states on date %d", n, len(states), i)
			}
		}
	}
}
