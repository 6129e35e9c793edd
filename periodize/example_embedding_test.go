package periodize_test

import (
	"context"
	"fmt"
	"strings"
	_ "time/tzdata" // zones, also where none are installed

	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

const request = `{
  "schema": 1,
  "period": {"from": "2026-11-09", "to": "2026-11-15"},
  "athlete": {"id": "a7", "born": "2001-05", "zone": "Europe/Berlin", "trainingAgeYears": 4,
    "hours": [{"days": ["mon", "tue", "wed", "thu", "fri"], "from": "15:00", "to": "21:00"},
      {"days": ["sat", "sun"], "from": "09:00", "to": "20:00"}]},
  "events": [
    {"id": "g7", "kind": "game", "start": "2026-11-11T19:30", "end": "2026-11-11T21:15"},
    {"id": "g8", "kind": "game", "start": "2026-11-14T18:00", "end": "2026-11-14T19:45"}]
}`

func Example_embedding() {
	var planner periodize.Planner // default rules; safe for concurrent use

	req, err := season.ReadRequest(strings.NewReader(request))
	if err != nil {
		fmt.Println(err) // every problem, each with path, value and remedy
		return
	}
	plan, err := planner.Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plan.Outcome, plan.Proof, plan.Cost.Points)
	for _, s := range plan.Sessions {
		fmt.Println(s.Start.Format("Mon 15:04"), s.Minutes, s.Kind, "-", s.Why[0].Text)
	}
	for _, m := range plan.Missed {
		fmt.Println("missed:", m.Aim, m.Got, "of", m.Wanted)
	}
	// Output:
	// planned proved 120
	// Mon 17:00 55 full-body - first full-body session of the week, ends 49 h 35 before the next game
	// Tue 17:00 35 primer - fresh for the game: ends 25 h 55 before it
	// Thu 17:00 40 recovery - recovery on the day after the game
	// Fri 17:00 35 primer - fresh for the game: ends 24 h 25 before it
	// Sun 10:00 40 recovery - recovery on the day after the game
	// missed: second-full-body 1 of 2
}
