package rule_test

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// at makes a session of a Thursday in Oslo.
func at(kind season.Kind, from string, minutes int) rule.Session {
	zone, err := calendar.LoadZone("Europe/Oslo")
	if err != nil {
		panic(err)
	}
	w, err := calendar.ParseWall("2026-11-12T" + from)
	if err != nil {
		panic(err)
	}
	start := zone.Resolve(w).Instant
	return rule.Session{Kind: kind, Date: w.Date, From: w.Clock, To: w.Clock + calendar.Clock(minutes*60),
		Start: start, End: start.Add(time.Duration(minutes) * time.Minute)}
}

func ExampleForbid() {
	r := rule.Forbid("no-thursday-lifts", "no lift on Thursdays",
		rule.Which{Kinds: []season.Kind{season.FullBody, season.Trimmed, season.Primer}, Days: []time.Weekday{time.Thursday}})
	fmt.Println(r.Single(rule.Day{}, at(season.Primer, "17:00", 35)).Forbid, r.Single(rule.Day{}, at(season.Recovery, "17:00", 40)).Forbid)
	// Output: true false
}

func ExampleCosts() {
	r := rule.Costs("late", "rather not after 19:00", 2, rule.Which{From: 19 * 3600, To: 24 * 3600})
	fmt.Println(r.Single(rule.Day{}, at(season.FullBody, "18:30", 55)).Points, r.Single(rule.Day{}, at(season.FullBody, "17:00", 55)).Points)
	// Output: 2 0
}

func ExampleAfter() {
	r := rule.After("night-shift", "nothing on the morning after a night shift", rule.Match{Title: "night shift"}, 10*time.Hour, rule.Which{})
	shift := calendar.Event{Kind: calendar.Busy, Title: "Night shift", HasEnd: true}
	shift.Zone, _ = calendar.LoadZone("Europe/Oslo")
	shift.Start, _ = calendar.ParseWall("2026-11-11T22:00")
	shift.End, _ = calendar.ParseWall("2026-11-12T06:00")
	placed, err := calendar.Place(shift, calendar.Assumptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	day := rule.Day{Before: []calendar.Placed{placed}}
	fmt.Println(r.Single(day, at(season.FullBody, "10:00", 55)).Forbid, r.Single(day, at(season.FullBody, "17:00", 55)).Forbid)
	// Output: true false
}

func ExampleAtMost() {
	r := rule.AtMost("school-days", "at most one session on a school day", 1, 1, 0,
		rule.Which{Days: []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday}})
	day := rule.Day{}
	state, first := r.Memory.Step(r.Memory.Init(), day, at(season.FullBody, "10:00", 55))
	_, second := r.Memory.Step(state, day, at(season.Recovery, "17:00", 40))
	fmt.Println(first.Forbid, second.Forbid)
	// Output: false true
}

func ExampleApart() {
	r := rule.Apart("rest", "20 hours between sessions", 20*time.Hour, 3, rule.Which{})
	state, _ := r.Memory.Step(r.Memory.Init(), rule.Day{}, at(season.FullBody, "10:00", 55))
	_, v := r.Memory.Step(state, rule.Day{}, at(season.Recovery, "17:00", 40))
	fmt.Println(v.Points)
	// Output: 3
}

func ExampleCheckCustom() {
	for _, p := range rule.CheckCustom([]rule.Custom{{ID: "size"}}) {
		fmt.Println(p.Reason)
	}
	// Output:
	// a rule of the table has this id
	// the rule says nothing
}

func ExampleSession_Minutes() {
	fmt.Println(at(season.Primer, "17:00", 35).Minutes())
	// Output: 35
}

func ExampleClub() {
	list := rule.Club([]season.ClubRule{{ID: "two-evenings", Shape: season.ClubAtMost, Most: 2, Dates: 7, From: 18 * 3600, To: 24 * 3600},
		{ID: "heavy-kept", Shape: season.ClubAtLeast, Least: 1, Dates: 10, Points: 40, Kinds: []season.Kind{season.FullBody}}})
	for _, r := range list {
		fmt.Println(r.ID, "-", r.Doc)
	}
	for _, f := range list[1].Plain(run("x...........x")) {
		fmt.Println(f.Date, f.Verdict.Points)
	}
	fmt.Println(len(rule.CheckCustom(list)))
	// Output:
	// two-evenings - at most 2 such sessions in any 7 dates
	// heavy-kept - such a session on 1 of any 10 dates
	// 2026-11-22 40
	// 2026-11-23 40
	// 0
}
