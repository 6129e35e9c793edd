package whatif_test

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
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
	// move g1 by +1 day [g1] [2026-11-07 2026-11-08] [] [] [] <nil>
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
	// variant                                lifts/w weeks<2 full/w empty no lift  hours changed  points
	// base                                      3.00       0   2.00     2       2   4.67       0     241
	//     missed: practice-order 1, recovery-after 2, recovery-count 2
	// open 30 minutes longer                    3.00       0   2.00     2       2   4.83       0     241
	//     misses the same
	// cancel g2                                 2.50       0   2.00     2       3   4.75       2     151
	//     missed: recovery-after 1 (2)
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

func ExampleWriteCauses() {
	sweep := whatif.Sweep{Planner: &periodize.Planner{}} // not brief: it looks for what stood in the way
	var fatal error
	rows := whatif.Rows(sweep.Run(context.Background(), fortnight(), nil), &fatal)
	var b strings.Builder
	if err := whatif.WriteCauses(&b, rows); err != nil || fatal != nil {
		fmt.Println(err, fatal)
	}
	fmt.Print(strings.ReplaceAll(b.String(), "\r\n", "\n"))
	// Output:
	// index,name,aim,missed,points,rule,in_the_way
	// 0,base,practice-order,1,1,practice-order,1
	// 0,base,recovery-after,2,120,open-hours,2
	// 0,base,recovery-count,2,120,event-overlap,2
	// 0,base,recovery-count,2,120,lift-run,2
	// 0,base,recovery-count,2,120,open-hours,2
	// 0,base,recovery-count,2,120,primer,2
	// 0,base,recovery-count,2,120,second-full-body,2
	// 0,base,recovery-count,2,120,second-lift,2
}

func ExampleWriteJSON() {
	if err := whatif.WriteJSON(os.Stdout, slices.Values([]whatif.Row{{Name: "base", Missed: []whatif.AimMissed{{Aim: "primer", Count: 1, Points: 240}}}})); err != nil {
		fmt.Println(err)
	}
	// Output:
	// [
	// {"index":0,"name":"base","points":0,"bound":0,"broken":0,"weeks":0,"lifts":0,"fullBody":0,"weeksUnderTwo":0,"weeksWithout":0,"weeksBelow":0,"sessions":0,"minutes":0,"longestEmpty":0,"longestNoLift":0,"missed":[{"aim":"primer","count":1,"points":240}],"changes":0}
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

func ExampleFragility_Run() {
	f := whatif.Fragility{Days: []int{-2, -1, 1}}
	got, err := f.Run(context.Background(), fortnight())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range got.Fixtures {
		for _, m := range x.Moves {
			fmt.Printf("%s %+d: %d sessions change, %d points\n", x.Event, m.Days, m.Changed, m.Points)
			for _, b := range m.Breaks {
				fmt.Println("  ", b.Session, "would break", b.Rule)
			}
		}
	}
	for _, w := range got.Weeks {
		fmt.Println("week of", w.From, "breaks", w.Breaks, "limits in", w.Moves, "moves")
	}
	fmt.Println("free:", got.Free)
	// Output:
	// g1 -2: 2 sessions change, 1 points
	//    2026-11-04-full-body would break full-before-game
	//    2026-11-06-primer would break primer-window
	// g1 -1: 1 sessions change, 2481 points
	//    2026-11-06-primer would break event-overlap
	//    2026-11-06-primer would break primer-window
	//    2026-11-06-primer would break game-date
	// g1 +1: 2 sessions change, 212 points
	//    2026-11-06-primer would break primer-window
	//    2026-11-09-full-body would break after-game
	// g2 -2: 2 sessions change, 1 points
	//    2026-11-11-full-body would break full-before-game
	//    2026-11-13-primer would break primer-window
	// g2 -1: 1 sessions change, 2481 points
	//    2026-11-13-primer would break event-overlap
	//    2026-11-13-primer would break primer-window
	//    2026-11-13-primer would break game-date
	// g2 +1: 1 sessions change, 151 points
	//    2026-11-13-primer would break primer-window
	// week of 2026-11-02 breaks 7 limits in 3 moves
	// week of 2026-11-09 breaks 6 limits in 3 moves
	// free: []
}

func ExampleWriteMoves() {
	f := whatif.Fragility{Days: []int{-1, 1}}
	got, err := f.Run(context.Background(), fortnight())
	if err != nil {
		fmt.Println(err)
		return
	}
	var b strings.Builder
	if err := whatif.WriteMoves(&b, got); err != nil {
		fmt.Println(err)
	}
	fmt.Print(strings.ReplaceAll(b.String(), "\r\n", "\n"))
	// Output:
	// event,title,date,days,problem,breaks,rules,changed,points,missed_more
	// g1,Rimvik,2026-11-07,-1,,3,event-overlap game-date primer-window,1,2481,"empty-run 1, lift-run 1, primer 1"
	// g1,Rimvik,2026-11-07,1,,2,after-game primer-window,2,212,"lift-run 1, primer 1, size 1"
	// g2,Sand,2026-11-14,-1,,3,event-overlap game-date primer-window,1,2481,"empty-run 1, lift-run 1, primer 1"
	// g2,Sand,2026-11-14,1,,1,primer-window,1,151,"lift-run 1, primer 1"
}

func ExampleFork_Run() {
	known := time.Date(2026, 11, 12, 19, 0, 0, 0, time.UTC)
	fork := whatif.Fork{Known: known, Branches: []whatif.Branch{
		{Name: "as it is", Weight: 60},
		{Name: "a day earlier", Change: whatif.MoveDays("g2", -1), Weight: 40},
	}}
	got, err := fork.Run(context.Background(), fortnight())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range got.Shared {
		fmt.Println(s.Start.Format("Mon 2 Jan 15:04"), s.Kind)
	}
	for _, b := range got.Branches {
		fmt.Printf("%s: %d points, %d for whoever knew\n", b.Name, b.Points, b.KnowingPoints)
		for _, s := range b.Plan.Sessions {
			if !s.Start.Before(got.Known) {
				fmt.Println("  ", s.Start.Format("Mon 2 Jan 15:04"), s.Kind)
			}
		}
	}
	fmt.Println(got.Proof, "price", got.Price, "of", got.Weight)
	// Output:
	// Mon 2 Nov 17:15 full-body
	// Wed 4 Nov 17:00 full-body
	// Fri 6 Nov 17:00 primer
	// Mon 9 Nov 17:00 full-body
	// Wed 11 Nov 17:00 full-body
	// as it is: 241 points, 241 for whoever knew
	//    Fri 13 Nov 17:00 primer
	// a day earlier: 2722 points, 2722 for whoever knew
	// proved price 0 of 100
}

func ExampleSeries() {
	for _, b := range whatif.Series("g1", "g2") {
		_, touched, err := whatif.Apply(*fortnight(), b.Change)
		fmt.Println(b.Name, touched.Events, err)
	}
	for _, b := range append(whatif.Knockout("g2"), whatif.Starts("g2", "2026-11-14T16:00", "2026-11-14T20:30")...) {
		_, touched, err := whatif.Apply(*fortnight(), b.Change)
		fmt.Println(b.Name, touched.Events, err)
	}
	// Output:
	// over [g1 g2] <nil>
	// 1 more [g1 g2] <nil>
	// 2 more [g1 g2] <nil>
	// through [g2] <nil>
	// out [g2] <nil>
	// 2026-11-14T16:00 [g2] <nil>
	// 2026-11-14T20:30 [g2] <nil>
}

func ExampleRounds() {
	first, err := whatif.Rounds(fortnight(), []string{"g2"})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(first.Known.Format("Mon 2 Jan 15:04"), first.Outcomes[0].Name, "or", first.Outcomes[1].Name)
	_, err = whatif.Rounds(fortnight(), []string{"g2"}, []string{"g1", "p1"})
	fmt.Println(err)
	// Output:
	// Sat 7 Nov 19:40 g2 or no g2
	// /rounds/1/1: error: "p1" - there is no game of this id that could be played; use the id of a game
}

func ExampleTree_Run() {
	// Whether g2 is played is known after g1; and if it is, its hour on Thursday.
	first, err := whatif.Rounds(fortnight(), []string{"g2"})
	if err != nil {
		fmt.Println(err)
		return
	}
	hour := &whatif.Decision{Known: time.Date(2026, 11, 12, 12, 0, 0, 0, time.UTC)}
	for _, b := range whatif.Starts("g2", "2026-11-14T16:00", "2026-11-14T20:30") {
		hour.Outcomes = append(hour.Outcomes, whatif.Outcome{Branch: b})
	}
	first.Outcomes[0].Weight, first.Outcomes[0].Then = 3, hour
	tree := whatif.Tree{First: first}
	got, err := tree.Run(context.Background(), fortnight())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range got.Stages {
		fmt.Println(s.Path, "until", s.Known.Format("Mon 2 Jan 15:04"), "price", s.Price, "of", s.Weight)
		for _, x := range s.Shared {
			fmt.Println("  ", x.Start.Format("Mon 2 Jan 15:04"), x.Kind)
		}
	}
	for _, b := range got.Branches {
		fmt.Println(b.Name, b.Weight, b.Points)
	}
	fmt.Println(got.Proof, "price", got.Price, "of", got.Weight)
	// Output:
	// [] until Sat 7 Nov 19:40 price 0 of 8
	//    Mon 2 Nov 17:15 full-body
	//    Wed 4 Nov 17:00 full-body
	//    Fri 6 Nov 17:00 primer
	// [g2] until Thu 12 Nov 13:00 price 0 of 6
	//    Mon 9 Nov 17:00 full-body
	//    Wed 11 Nov 17:00 full-body
	// g2, 2026-11-14T16:00 3 242
	// g2, 2026-11-14T20:30 3 241
	// no g2 2 151
	// proved price 0 of 8
}

func ExampleLottery_Run() {
	lottery := whatif.Lottery{Seed: 6, Seasons: 20, Rates: whatif.Rates{Postponed: 400, LaterFrom: 2, LaterTo: 5}, Measures: []whatif.Variant{
		{Name: "no practice on Mondays", Change: whatif.DropPractices(time.Monday, calendar.Date{}, calendar.Date{})},
		{Name: "open 30 minutes longer", Change: whatif.Longer(30)},
	}}
	first, postponed := lottery.Draw(fortnight(), 0)
	fmt.Println("season 1:", first, "postponed", postponed)
	odds, err := lottery.Run(context.Background(), fortnight())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(odds.Generator, "seed", odds.Seed)
	fmt.Println(odds.AsItIs.WeeksMissed, "of", odds.AsItIs.Weeks, "weeks below the minimum")
	for _, m := range odds.Measures {
		fmt.Println(m.Name, "saves", m.WeeksSaved, "weeks and", m.Saved, "points")
	}
	// Output:
	// season 1: postpone g2 postponed 1
	// splitmix64-2 seed 6
	// 0 of 40 weeks below the minimum
	// no practice on Mondays saves 0 weeks and 10 points
	// open 30 minutes longer saves 0 weeks and 0 points
}

func ExampleRatesOf() {
	before := fortnight().Events
	after, err := season.Apply(*fortnight(), season.Move("g2", "2026-11-18T18:00"))
	if err != nil {
		fmt.Println(err)
		return
	}
	rates, ok := whatif.RatesOf(before, after.Events, whatif.Rates{Through: 500})
	fmt.Printf("%+v %v\n", rates, ok)
	// Output:
	// {Postponed:500 LaterFrom:4 LaterTo:4 Through:500 Needed:0} true
}
