package squad_test

import (
	"context"
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

func date(s string) calendar.Date {
	d, err := calendar.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d
}

func clock(s string) calendar.Clock {
	c, err := calendar.ParseClock(s)
	if err != nil {
		panic(err)
	}
	return c
}

// three are invented athletes who share two places on two afternoons.
func three() *squad.Request {
	zone, err := calendar.LoadZone("Europe/Vienna")
	if err != nil {
		panic(err)
	}
	r := &squad.Request{Period: season.Period{From: date("2026-11-16"), To: date("2026-11-22")}}
	r.Halls = []squad.Hall{{Capacity: 2, SlotMinutes: 55, ChangeMinutes: 10, Place: season.Place{ID: "hall",
		Hours: []season.Hours{{Days: []time.Weekday{time.Monday, time.Thursday}, From: clock("16:00"), To: clock("17:00")}}}}}
	for i, id := range []string{"a4", "b9", "c2"} {
		r.Athletes = append(r.Athletes, squad.Athlete{Season: season.Request{
			Athlete: season.Athlete{ID: id, Born: season.YearMonth{Year: 1999 + i, Month: 6}, Zone: zone, TrainingAgeMonths: 50},
			Places:  []season.Place{{ID: "home"}}}})
	}
	return r
}

func ExamplePlanner_Plan() {
	plan, err := (&squad.Planner{}).Plan(context.Background(), three())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plan.Proof, plan.Points, "points, with the hall alone", plan.Alone)
	for _, s := range plan.Slots {
		fmt.Print(s.Start.Format("Mon 15:04"), ":")
		for _, seat := range s.Seats {
			fmt.Print(" ", seat.Athlete, " ", seat.Kind)
		}
		fmt.Println()
	}
	for _, x := range plan.LeftOut {
		fmt.Println(x.Athlete+":", x.Text)
	}
	for _, f := range plan.Findings {
		fmt.Println(f.Text)
	}
	// Output:
	// proved 12 points, with the hall alone 0
	// Mon 16:00: a4 full-body b9 full-body
	// Thu 16:00: a4 full-body b9 full-body
	// c2: no place in the hall for the full-body session of 2026-11-16: full-body at home on 2026-11-16
	// c2: no place in the hall for the full-body session of 2026-11-19: full-body at home on 2026-11-19
	// hall 2026-11-16: 3 want a place, 2 to a slot: 2 x 65 - 10 = 120 min needed, 60 open
	// hall 2026-11-19: 3 want a place, 2 to a slot: 2 x 65 - 10 = 120 min needed, 60 open
}

func ExampleDefaultRatios() {
	for _, r := range squad.DefaultRatios() {
		fmt.Println("under", r.Under, "one coach to", r.Athletes)
	}
	// Output:
	// under 14 one coach to 10
	// under 18 one coach to 15
	// under 0 one coach to 20
}

// A request says all that is wrong with it at once.
func ExampleRequest_Validate() {
	r := three()
	r.Halls[0].Capacity = 0
	r.Halls[0].Place.Hours[0].To = clock("15:00")
	r.Athletes[2].Season.Athlete.ID = "a4"
	r.Athletes[0].Season.Athlete.Born = season.YearMonth{Year: 2012, Month: 1}
	r.Athletes[0].Season.Athlete.TrainingAgeMonths = 20
	for _, p := range r.Validate() {
		fmt.Println(p.Error())
	}
	// Output:
	// /halls/0/capacity: error: "0" - outside 1 to 500; give how many athletes train at a time; leave out a hall that is closed
	// /halls/0/hours/0/to: error: "15:00" - it closes at or before it opens at 16:00; give a closing time after the opening, or two entries for a night
	// /athletes/2/athlete/id: error: "a4" - athlete 0 has the same id; give each athlete once
	// /ratios: question: minors: 1, and no supervision ratio: one coach to 10 athletes is assumed for all of them; give how many athletes one coach may watch, by age and by your local rules
	// /coaches: question: minors: 1, and no coach: one is assumed whenever a hall is open; give who is there and when: minors train only supervised
}
