package whatif_test

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
)

// fortnight is the request of the examples: two weeks of an invented club.
func fortnight() *season.Request {
	req, err := season.ReadRequest(strings.NewReader(`{
		"schema": 1,
		"period": {"from": "2026-11-02", "to": "2026-11-15"},
		"athlete": {"id": "a", "born": "2001-05", "zone": "Europe/Oslo", "trainingAgeYears": 4,
			"hours": [{"days": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"], "from": "15:00", "to": "18:00"}]},
		"places": [{"id": "gym", "hours": [{"days": ["mon", "wed", "fri"], "from": "08:00", "to": "20:00"}]}],
		"events": [
			{"id": "g1", "kind": "game", "start": "2026-11-07T18:00", "end": "2026-11-07T19:40", "opponent": "Rimvik"},
			{"id": "g2", "kind": "game", "start": "2026-11-14T18:00", "end": "2026-11-14T19:40", "opponent": "Sand"},
			{"id": "p1", "kind": "practice", "start": "2026-11-02T15:30", "end": "2026-11-02T17:00"}
		]
	}`))
	if err != nil {
		panic(err)
	}
	return req
}

func day(s string) calendar.Date {
	d, err := calendar.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d
}

func hour(s string) calendar.Clock {
	c, err := calendar.ParseClock(s)
	if err != nil {
		panic(err)
	}
	return c
}

// tell prints what changes do to the request of the examples.
func tell(changes ...whatif.Change) {
	for _, c := range changes {
		_, touched, err := whatif.Apply(*fortnight(), c)
		fmt.Println(c, touched.Events, touched.Dates, touched.Rules, touched.Places, touched.Athlete, err)
	}
}

func ExampleApply() {
	req := fortnight()
	next, touched, err := whatif.Apply(*req, whatif.MoveDays("g1", -1), whatif.OptIn(season.OptPostGame))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(touched.Events, touched.Dates, touched.Athlete)
	fmt.Println(req.Events[0].Start, "is now", next.Events[0].Start)
	_, _, err = whatif.Apply(*req, whatif.Cancel("g9"))
	fmt.Println(err)
	// Output:
	// [g1] [2026-11-06 2026-11-07] [optIns]
	// 2026-11-07T18:00 is now 2026-11-06T18:00
	// /changes/0: error: "g9" - there is no event of this id; use one of: g1, g2, p1
}

func ExampleMove() {
	tell(whatif.Move("g1", "2026-11-05T19:45"), whatif.MoveDays("g1", 1), whatif.Cancel("g1"), whatif.Confirm("g1"), whatif.Postpone("g1"))
	// Output:
	// move g1 to 2026-11-05T19:45 [g1] [2026-11-05 2026-11-07] [] [] [] <nil>
	// move g1 by +1 days [g1] [2026-11-07 2026-11-08] [] [] [] <nil>
	// cancel g1 [g1] [2026-11-07] [] [] [] <nil>
	// confirm g1 [g1] [2026-11-07] [] [] [] <nil>
	// postpone g1 [g1] [2026-11-07] [] [] [] <nil>
}

func ExampleAdd() {
	friendly := calendar.Event{ID: "f", Kind: calendar.Game, Start: calendar.Wall{Date: day("2026-11-10"), Clock: hour("19:00")}}
	tell(whatif.Add(friendly),
		whatif.AddWeekly(time.Tuesday, hour("17:30"), 75, false, calendar.Date{}, calendar.Date{}),
		whatif.DropPractices(time.Monday, calendar.Date{}, calendar.Date{}))
	// Output:
	// add f [f] [2026-11-10] [] [] [] <nil>
	// practice each Tuesday 17:30, 75 minutes [weekly-2026-11-03-17:30 weekly-2026-11-10-17:30] [2026-11-03 2026-11-10] [] [] [] <nil>
	// no practice on Mondays [p1] [2026-11-02] [] [] [] <nil>
}

func ExampleOpenHours() {
	tuesday := season.Hours{Days: []time.Weekday{time.Tuesday}, From: hour("16:00"), To: hour("20:00")}
	friday := season.Hours{Days: []time.Weekday{time.Friday}, From: 0, To: calendar.EndOfDay}
	tell(whatif.OpenHours("gym", tuesday), whatif.CloseHours("gym", friday), whatif.FreeHours(tuesday), whatif.BusyHours(friday),
		whatif.SetFreeHours(tuesday, friday), whatif.Longer(30), whatif.Kit("gym", "bar", "bench"),
		whatif.ClosePlace("gym", season.Period{From: day("2026-11-09"), To: day("2026-11-10")}))
	// Output:
	// gym open Tue 16:00-20:00 [] [] [] [gym] [] <nil>
	// gym closed Fri 00:00-24:00 [] [] [] [gym] [] <nil>
	// athlete also free Tue 16:00-20:00 [] [] [] [] [hours] <nil>
	// athlete busy Fri 00:00-24:00 [] [] [] [] [hours] <nil>
	// athlete free Tue 16:00-20:00; Fri 00:00-24:00 [] [] [] [] [hours] <nil>
	// open 30 minutes longer [] [] [] [gym] [hours] <nil>
	// gym with bar, bench [] [] [] [gym] [] <nil>
	// gym closed 2026-11-09 to 2026-11-10 [] [2026-11-09 2026-11-10] [] [gym] [] <nil>
}

func ExampleSetRule() {
	sixty := 60
	tell(whatif.SetRule(season.Override{Rule: "full-before-game", Value: &sixty}), whatif.OptIn(season.OptPostGame), whatif.OptOut(season.OptPostGame),
		whatif.TrainingAge(6), whatif.Hold(season.Hold{From: day("2026-11-09")}),
		whatif.Compose("a quiet week", whatif.Cancel("g1"), whatif.Cancel("p1")))
	// Output:
	// full-before-game 60 hours [] [] [full-before-game] [] [] <nil>
	// opted in to post-game [] [] [] [] [optIns] <nil>
	// opted out of post-game [] [] [] [] [optIns] <nil>
	// training age 6 months [] [] [] [] [trainingAge] <nil>
	// held from 2026-11-09 [] [] [] [] [holds] <nil>
	// a quiet week [g1 p1] [2026-11-02 2026-11-07] [] [] [] <nil>
}

func ExampleSweep_Run() {
	variants := slices.Values([]whatif.Variant{
		{Name: "Friday games", Change: whatif.Compose("", whatif.MoveDays("g1", -1), whatif.MoveDays("g2", -1))},
		{Change: whatif.DropPractices(time.Monday, calendar.Date{}, calendar.Date{})},
		{Change: whatif.Cancel("g9")},
	})
	var sweep whatif.Sweep
	for r, err := range sweep.Run(context.Background(), fortnight(), variants) {
		if err != nil {
			fmt.Println(err)
			continue
		}
		lifts, _ := r.Row.LiftsAWeek()
		full, _ := r.Row.FullBodyAWeek()
		primers, _ := r.Row.MissedCount("primer")
		fmt.Printf("%s: lifts a week in hundredths %d, full-body %d, primers missed %d, changed %d\n", r.Name, lifts, full, primers, r.Row.Changes)
	}
	// Output:
	// base: lifts a week in hundredths 300, full-body 200, primers missed 0, changed 0
	// Friday games: lifts a week in hundredths 200, full-body 200, primers missed 2, changed 2
	// no practice on Mondays: lifts a week in hundredths 300, full-body 200, primers missed 0, changed 2
	// whatif: cancel g9: /changes/0: error: "g9" - there is no event of this id; use one of: g1, g2, p1
}

func ExampleWriteText() {
	var sweep whatif.Sweep
	var fatal error
	variants := slices.Values([]whatif.Variant{{Change: whatif.Longer(30)}, {Change: whatif.Cancel("g2")}})
	results := sweep.Run(context.Background(), fortnight(), variants)
	if err := whatif.WriteText(os.Stdout, whatif.Rows(results, &fatal)); err != nil || fatal != nil {
		fmt.Println(err, fatal)
	}
	// Output:
	// variant                                   lifts/wk  wks<2  full/wk  empty  no lift   hours  changed   points  aims missed
	// base                                          3.00      0     2.00      2        2    4.67        0      241  practice-order 1, recovery-after 2, recovery-count 2
	// open 30 minutes longer                        3.00      0     2.00      2        2    4.83        0      241  practice-order 1, recovery-after 2, recovery-count 2
	// cancel g2                                     2.50      0     2.00      2        3    4.75        2      151  practice-order 1, recovery-after 1, recovery-count 2
}

func ExampleWriteCSV() {
	rows := []whatif.Row{{Name: "=1+1", Weeks: 2, Lifts: 5, Minutes: 255}}
	var b strings.Builder
	if err := whatif.WriteCSV(&b, slices.Values(rows)); err != nil {
		fmt.Println(err)
	}
	for _, line := range strings.Split(b.String(), "\r\n") {
		cells := strings.Split(line, ",")
		fmt.Println(strings.Join(cells[:min(len(cells), 11)], ","))
	}
	// Output:
	// index,name,error,outcome,proof,points,bound,broken,weeks,lifts_a_week,weeks_under_two_lifts
	// 0,'=1+1,,,,0,0,0,2,2.50,0
	//
}

func ExampleWriteJSON() {
	if err := whatif.WriteJSON(os.Stdout, slices.Values([]whatif.Row{{Name: "base", Missed: []whatif.AimMissed{{Aim: "primer", Count: 1, Points: 240}}}})); err != nil {
		fmt.Println(err)
	}
	// Output:
	// [
	// {"index":0,"name":"base","points":0,"bound":0,"broken":0,"weeks":0,"lifts":0,"fullBody":0,"weeksUnderTwo":0,"weeksWithout":0,"sessions":0,"minutes":0,"longestEmpty":0,"longestNoLift":0,"missed":[{"aim":"primer","count":1,"points":240}],"changes":0}
	// ]
}

func ExampleWriteDiff() {
	var sweep whatif.Sweep
	var base *season.Plan
	for r, err := range sweep.Run(context.Background(), fortnight(), slices.Values([]whatif.Variant{{Change: whatif.MoveDays("g1", -1)}})) {
		if err != nil {
			fmt.Println(err)
			return
		}
		if base == nil {
			base = r.Plan
			continue
		}
		if err := whatif.WriteDiff(os.Stdout, base, r.Plan, true); err != nil {
			fmt.Println(err)
		}
		n := 0
		for _, d := range whatif.Diff(base, r.Plan) {
			if d.Changed {
				n++
			}
		}
		fmt.Println(n == r.Row.Changes, n == whatif.RowOf(r.Plan, nil, base).Changes)
	}
	// Output:
	// * Fri 2026-11-06 17:00  primer             -
	// 1 of 6 differ
	// true true
}
