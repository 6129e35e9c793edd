package periodize_test

import (
	"context"
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// A hall that is shared is open to this athlete in three slots of a week.
func ExamplePlanner_Ready() {
	zone, _ := calendar.LoadZone("Europe/Oslo")
	req := &season.Request{
		Period:  season.Period{From: date("2026-11-16"), To: date("2026-11-22")},
		Athlete: season.Athlete{ID: "a3", Born: season.YearMonth{Year: 2001, Month: 5}, Zone: zone, TrainingAgeMonths: 40},
		Places:  []season.Place{{ID: "hall"}},
	}
	slot := func(d, clock string) periodize.SlotTime {
		t, _ := time.ParseInLocation("2006-01-02 15:04", d+" "+clock, zone.Location())
		return periodize.SlotTime{Start: t, End: t.Add(50 * time.Minute)}
	}
	planner := periodize.Planner{Slots: []periodize.PlaceSlots{{Place: "hall", Times: []periodize.SlotTime{
		slot("2026-11-16", "16:05"), slot("2026-11-18", "16:05"), slot("2026-11-18", "17:00")}}}}
	plan, err := planner.Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range plan.Sessions {
		fmt.Println(s.Start.Format("Mon 15:04"), s.Minutes, s.Kind)
	}
	ready, err := planner.Ready(req)
	fmt.Println(len(ready.Model.Choices), "dates are ready for the engine", err)
	// Output:
	// Mon 16:05 50 full-body
	// Wed 17:00 50 full-body
	// 7 dates are ready for the engine <nil>
}
