package periodize_test

import (
	"context"
	"fmt"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// What else could stand on a date, each with its price. A price names the aims
// that would be missed.
func ExampleExploration_OnDate() {
	var planner periodize.Planner
	x, err := planner.Explore(context.Background(), quiet())
	if err != nil {
		fmt.Println(err)
		return
	}
	others, err := x.OnDate(date("2026-11-12"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, a := range others {
		fmt.Printf("%q %d %v %v\n", a.Kind, a.Price, a.AtLeast, a.Costs)
	}
	// Output:
	// "full-body" 0 false []
	// "recovery" 0 false []
	// "trimmed-full-body" 1 false [{size 0 1}]
}

func ExampleExploration_Plan() {
	var planner periodize.Planner
	x, err := planner.Explore(context.Background(), read())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range x.Plan().Sessions {
		fmt.Println(s.Start.Format("Mon 15:04"), s.Kind)
	}
	// Output:
	// Mon 17:00 full-body
	// Tue 17:00 primer
	// Thu 17:00 recovery
	// Fri 17:00 primer
	// Sun 10:00 recovery
}

// With a start: what that very session would break, or cost.
func ExampleExploration_WhyNot_start() {
	var planner periodize.Planner
	ctx := context.Background()
	x, err := planner.Explore(ctx, quiet())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, start := range []string{"15:30", "20:30"} {
		at, err := calendar.ParseClock(start)
		if err != nil {
			fmt.Println(err)
			return
		}
		a, err := x.WhyNot(ctx, date("2026-11-12"), season.Trimmed, &at)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(start, "possible:", a.Possible, "price:", a.Price, "limits:", a.Limits)
	}
	// Output:
	// 15:30 possible: true price: 1 limits: []
	// 20:30 possible: false price: 0 limits: [{open-hours }]
}

// A game is moved and, before the next session, moved back: the plan handed out
// first is the one in force again, for the days not yet lived.
func ExamplePlanner_Replan_movedBack() {
	var planner periodize.Planner
	ctx, req := context.Background(), read()
	first, err := planner.Plan(ctx, req)
	if err != nil {
		fmt.Println(err)
		return
	}
	away, err := season.Apply(*req, season.Move("g8", "2026-11-15T16:00"))
	if err != nil {
		fmt.Println(err)
		return
	}
	second, err := planner.Replan(ctx, &away, first)
	if err != nil {
		fmt.Println(err)
		return
	}
	back, err := season.Apply(away, season.Move("g8", "2026-11-14T18:00"))
	if err != nil {
		fmt.Println(err)
		return
	}
	back.Issued = []season.Plan{*first}
	third, err := planner.Replan(ctx, &back, second)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, s := range third.Sessions {
		fmt.Println(s.ID == first.Sessions[i].ID, s.Start.Equal(first.Sessions[i].Start), s.Start.Format("Mon 15:04"), s.Kind)
	}
	for _, c := range third.Changes {
		if c.Change != season.Unchanged {
			fmt.Println(c.Change, c.Kind, c.Cause[0].Text)
		}
	}
	// Output:
	// true true Mon 17:00 full-body
	// true true Tue 17:00 primer
	// true true Thu 17:00 recovery
	// true true Fri 17:00 primer
	// true true Sun 10:00 recovery
	// replaced primer g8 moved from 2026-11-15 16:00 to 2026-11-14 18:00
	// dropped primer as issued it would now break primer-latest (g8)
	// added recovery g8 moved from 2026-11-15 16:00 to 2026-11-14 18:00
}
