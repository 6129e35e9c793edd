package periodize_test

import (
	"context"
	"fmt"

	"example.org/weft/periodize"
	"example.org/weft/periodize/exercise"
)

// What the report of a day does to the rest of the week, before it is confirmed.
func ExamplePlanner_Today() {
	var planner periodize.Planner
	var builder exercise.Builder
	req := quiet()
	plan, err := planner.Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
		return
	}
	in := exercise.Input{Session: plan.Sessions[0], Athlete: req.Athlete, Kit: exercise.Gym()}
	card, err := builder.Session(in)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("written:", card.Date, card.Kind)
	for _, report := range []exercise.CheckIn{
		{Minutes: 30},
		{Ill: true},
		{Signs: []exercise.Sign{exercise.HeadKnock}},
	} {
		result, err := builder.Today(in, card, report)
		if err != nil {
			fmt.Println(err)
			return
		}
		week, err := planner.Today(context.Background(), req, plan, card, result)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(result.State(), "-", week.Plan.Outcome)
		for _, c := range week.Changes {
			fmt.Printf("  %s: %s to %s, %s\n", c.Change, when(c.From), when(c.To), c.Kind)
		}
	}
	// Output:
	// written: 2026-11-09 full-body
	// eased - planned
	// held - planned
	//   moved: Tue 17:00 to Thu 17:00, recovery
	//   replaced: Sun 10:00 to Sun 10:00, trimmed-full-body
	// held - refused
	//   dropped: Tue 17:00 to nothing, recovery
	//   dropped: Wed 17:00 to nothing, full-body
	//   dropped: Fri 17:00 to nothing, primer
	//   dropped: Sun 10:00 to nothing, recovery
}
