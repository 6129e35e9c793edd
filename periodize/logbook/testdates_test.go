package logbook_test

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// Test dates by the rules alone, on random plans, and as few dates late as can be.
func TestDatesOfTests(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	none, some := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		draw := func(n int, what string) int { return rapid.IntRange(0, n-1).Draw(t, what) }
		from := day("2026-10-05")
		plan := &season.Plan{Zone: z.Name(), Period: season.Period{From: from, To: from.AddDays(60 + draw(50, "length"))}}
		for d := from.AddDays(draw(5, "first")); !d.After(plan.Period.To); d = d.AddDays(1 + draw(6, "gap")) {
			start := z.Resolve(calendar.Wall{Date: d, Clock: calendar.Clock(3600 * (10 + draw(11, "hour")))}).Instant
			plan.Games = append(plan.Games, season.PlanGame{ID: d.String(), Date: d, Start: start})
			lift := d.AddDays(1 + draw(3, "lift"))
			s := z.Resolve(calendar.Wall{Date: lift, Clock: calendar.Clock(3600 * (8 + draw(10, "at")))}).Instant
			plan.Sessions = append(plan.Sessions, season.Session{ID: fmt.Sprint("s", len(plan.Sessions)), Kind: season.Kinds()[draw(6, "kind")], Date: lift, Start: s, End: s.Add(55 * time.Minute)})
		}
		o := logbook.Testing{}
		if draw(2, "known") == 0 {
			o.Last = from.AddDays(-1 - draw(70, "last"))
		}
		got, refused, err := logbook.TestDates(plan, o)
		if err != nil || len(refused) > 0 {
			t.Fatal(err, refused)
		}
		last := o.Last
		for _, x := range got {
			if !allowed(plan, z, x) {
				t.Fatalf("%s is not allowed", x.Date)
			}
			if !last.IsZero() && (x.After != x.Date.DaysSince(last) || x.After < 28 || x.Late != (x.After > 56)) {
				t.Fatalf("%+v after %s", x, last)
			}
			last = x.Date
		}
		if len(got) == 0 {
			none++
		} else {
			some++
		}
		if got, want := lateDates(plan, o.Last, got), leastLate(plan, z, o.Last); got != want {
			t.Fatalf("%d dates late, and %d can be had", got, want)
		}
	})
	if some < 5 {
		t.Errorf("%d plans with dates, %d without", some, none)
	}
}

// lateDates counts the dates beyond 8 weeks after the test before, up to the end
// of the plan too; where there was none, all dates of a plan without a test.
func lateDates(plan *season.Plan, last calendar.Date, tests []logbook.TestDate) (late int) {
	for _, x := range tests {
		if !last.IsZero() {
			late += max(0, x.Date.DaysSince(last)-56)
		}
		last = x.Date
	}
	if last.IsZero() {
		return plan.Period.Days()
	}
	return late + max(0, plan.Period.To.DaysSince(last)-56)
}

// leastLate is the least that any sequence of allowed dates has, all tried.
func leastLate(plan *season.Plan, z calendar.Zone, last calendar.Date) int {
	least := lateDates(plan, last, nil)
	var try func(so []logbook.TestDate, from calendar.Date)
	try = func(so []logbook.TestDate, from calendar.Date) {
		for d := from; !d.After(plan.Period.To); d = d.AddDays(1) {
			if !could(plan, z, d) {
				continue
			}
			next := append(so[:len(so):len(so)], logbook.TestDate{Date: d})
			least = min(least, lateDates(plan, last, next))
			try(next, d.AddDays(28))
		}
	}
	from := plan.Period.From
	if !last.IsZero() && last.AddDays(28).After(from) {
		from = last.AddDays(28)
	}
	try(nil, from)
	return least
}

// could is the rule for a date, with the lift of the plan on it that a test would
// stand with: the full-body one if there are several.
func could(plan *season.Plan, z calendar.Zone, d calendar.Date) bool {
	x := logbook.TestDate{Date: d}
	for _, s := range plan.Sessions {
		if s.Date == d && s.Kind.Lift() && s.Kind != season.PostGame && (x.Session == "" || s.Kind == season.FullBody) {
			x.Session = s.ID
		}
	}
	return allowed(plan, z, x)
}

// allowed is the rule, for a test that stands as it is proposed.
func allowed(plan *season.Plan, z calendar.Zone, x logbook.TestDate) bool {
	ends := z.DayStart(x.Date.AddDays(1))
	for _, s := range plan.Sessions {
		if s.ID == x.Session && x.Session != "" {
			ends = s.End
		}
	}
	for _, g := range plan.Games {
		if g.Date == x.Date || g.Date == x.Date.AddDays(-1) || g.Start.After(ends) && g.Start.Before(ends.Add(48*time.Hour)) {
			return false
		}
	}
	return true
}

func TestNoMaximalTestsOfBeginners(t *testing.T) {
	plan := &season.Plan{Zone: "Europe/Berlin", Period: season.Period{From: day("2026-10-05"), To: day("2026-12-20")}}
	for _, c := range []struct {
		born    season.YearMonth
		months  int
		refused bool
	}{
		{season.YearMonth{Year: 2000, Month: 2}, 40, false},
		{season.YearMonth{Year: 2000, Month: 2}, 11, true},
		{season.YearMonth{Year: 2013, Month: 2}, 30, true},
		{season.YearMonth{}, 30, true},
	} {
		a := season.Athlete{Born: c.born, TrainingAgeMonths: c.months}
		dates, refused, err := logbook.TestDates(plan, logbook.Testing{Maximal: true, Athlete: a})
		if err != nil || (len(refused) > 0) != c.refused || (len(dates) > 0) == c.refused {
			t.Errorf("%+v: %v %v %v", c, dates, refused, err)
		}
		if dates, refused, err := logbook.TestDates(plan, logbook.Testing{Athlete: a}); err != nil || len(refused) > 0 || len(dates) == 0 {
			t.Errorf("%+v, a jump: %v %v %v", c, dates, refused, err)
		}
	}
}

func ExampleTestDates() {
	z, err := calendar.LoadZone("Europe/Berlin")
	if err != nil {
		fmt.Println(err)
		return
	}
	plan := &season.Plan{Zone: "Europe/Berlin", Period: season.Period{From: day("2026-11-02"), To: day("2026-12-27")}}
	for i := range 8 { // a game each Saturday
		d := day("2026-11-07").AddDays(7 * i)
		plan.Games = append(plan.Games, season.PlanGame{Date: d, Start: z.Resolve(calendar.Wall{Date: d, Clock: 18 * 3600}).Instant})
	}
	dates, _, err := logbook.TestDates(plan, logbook.Testing{Last: day("2026-10-05")})
	fmt.Println(len(dates), dates[0].Date, dates[0].After, err)
	// Output: 1 2026-11-16 42 <nil>
}

// Where tests stand with a lift, their pins give the same plan again, and hold the
// lift where it is when a practice would move it.
func TestPinsOfTests(t *testing.T) {
	req := &season.Request{Period: season.Period{From: day("2026-11-02"), To: day("2027-01-24")},
		Athlete: season.Athlete{ID: "a7", Born: season.YearMonth{Year: 2000, Month: 5}, Zone: zone(t, "Europe/Berlin"), TrainingAgeMonths: 50}}
	for d := day("2026-11-07"); d.Before(req.Period.To); d = d.AddDays(7) {
		req.Events = append(req.Events, calendar.Event{ID: "g" + d.String(), Kind: calendar.Game, Start: wall(d.String() + "T18:00"), End: wall(d.String() + "T19:40"), HasEnd: true})
	}
	var planner periodize.Planner
	plan, err := planner.Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	dates, _, err := logbook.TestDates(plan, logbook.Testing{})
	if err != nil || len(dates) < 2 {
		t.Fatal(dates, err)
	}
	for _, d := range dates {
		pin, ok, err := d.Pin(plan)
		if err != nil || !ok || pin.Date != d.Date {
			t.Fatal(d, pin, ok, err)
		}
		req.Pins = append(req.Pins, pin)
	}
	at := func(p *season.Plan) (out []string) {
		for _, s := range p.Sessions {
			out = append(out, fmt.Sprint(s.Start, s.Kind, s.Minutes))
		}
		return out
	}
	again, err := planner.Plan(context.Background(), req)
	if err != nil || again.Cost.Broken > 0 || fmt.Sprint(at(again)) != fmt.Sprint(at(plan)) {
		t.Fatalf("%v %+v\n%v\n%v", err, again.Cost, at(plan), at(again))
	}
	i := slices.IndexFunc(plan.Sessions, func(s season.Session) bool { return s.ID == dates[0].Session })
	hour := plan.Sessions[i].Start.Hour()
	req.Athlete.Prefer = []season.Prefer{{Days: []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday}, Start: calendar.Clock(3600 * (hour - 3))}}
	moved, err := planner.Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	held := slices.ContainsFunc(moved.Sessions, func(s season.Session) bool { return s.Pinned && s.Start.Equal(plan.Sessions[i].Start) })
	if !held || moved.Sessions[0].Start.Hour() == plan.Sessions[0].Start.Hour() && moved.Sessions[1].Start.Hour() == plan.Sessions[1].Start.Hour() {
		t.Errorf("the pinned one is held: %v\n%v", held, at(moved))
	}
	if _, ok, err := (logbook.TestDate{Date: dates[0].Date}).Pin(plan); ok || err != nil {
		t.Error("a pin without a session")
	}
	if _, _, err := dates[0].Pin(&season.Plan{Zone: "Nowhere/At_All", Sessions: plan.Sessions}); err == nil {
		t.Error("a plan without a zone")
	}
}

func ExampleTestDate_Pin() {
	start := berlin().Resolve(wall("2026-11-16T17:00")).Instant
	plan := &season.Plan{Zone: "Europe/Berlin", Period: season.Period{From: day("2026-11-02"), To: day("2026-12-27")},
		Sessions: []season.Session{{ID: "s4", Kind: season.FullBody, Date: day("2026-11-16"), Start: start, End: start.Add(55 * time.Minute)}}}
	dates, _, err := logbook.TestDates(plan, logbook.Testing{Last: day("2026-10-05")})
	if err != nil {
		fmt.Println(err)
		return
	}
	pin, ok, err := dates[0].Pin(plan)
	fmt.Println(pin.Date, pin.Kind, *pin.Start, ok, err)
	// Output: 2026-11-16 full-body 17:00 true <nil>
}
