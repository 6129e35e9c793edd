package logbook_test

import (
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// Test dates by the rules alone, on random plans.
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
			plan.Sessions = append(plan.Sessions, season.Session{ID: "s" + lift.String(), Kind: season.Kinds()[draw(6, "kind")], Date: lift, Start: s, End: s.Add(55 * time.Minute)})
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
		// A gap is late only if every earlier date from the 28th on is forbidden.
		last = o.Last
		for _, x := range got {
			if x.Late {
				for d := last.AddDays(28); d.Before(x.Date) && d.DaysSince(last) <= 56; d = d.AddDays(1) {
					if plan.Period.Contains(d) && free(plan, z, d) && x.Date.DaysSince(d) >= 28 {
						t.Fatalf("%s is late, and %s would have been allowed", x.Date, d)
					}
				}
			}
			last = x.Date
		}
	})
	if some < 5 {
		t.Errorf("%d plans with dates, %d without", some, none)
	}
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

// free is the rule for a date as a whole.
func free(plan *season.Plan, z calendar.Zone, d calendar.Date) bool {
	return allowed(plan, z, logbook.TestDate{Date: d})
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
