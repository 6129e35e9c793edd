package whatif_test

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func text(t *testing.T, req *season.Request) string {
	t.Helper()
	b, err := json.Marshal(req)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// Each change leaves the request it is made to as it is, and says what it
// touched.
func TestApply(t *testing.T) {
	dates := func(list ...string) (out []calendar.Date) {
		out = []calendar.Date{}
		for _, s := range list {
			out = append(out, seasontest.Date(s))
		}
		return out
	}
	none := []string{}
	for _, c := range []struct {
		change whatif.Change
		text   string
		want   whatif.Touched
	}{
		{whatif.Move("g01", "2026-11-06T19:00"), "move g01 to 2026-11-06T19:00", whatif.Touched{Events: []string{"g01"}, Dates: dates("2026-11-06", "2026-11-07")}},
		{whatif.MoveDays("g01", 2), "move g01 by +2 days", whatif.Touched{Events: []string{"g01"}, Dates: dates("2026-11-07", "2026-11-09")}},
		{whatif.Cancel("g02"), "cancel g02", whatif.Touched{Events: []string{"g02"}, Dates: dates("2026-11-15")}},
		{whatif.Confirm("g02"), "confirm g02", whatif.Touched{Events: []string{"g02"}, Dates: dates("2026-11-15")}},
		{whatif.Postpone("g02"), "postpone g02", whatif.Touched{Events: []string{"g02"}, Dates: dates("2026-11-15")}},
		{whatif.Add(game("x", "Guests", "2026-11-04T12:00", 60, calendar.Zone{})), "add x", whatif.Touched{Events: []string{"x"}, Dates: dates("2026-11-04")}},
		{whatif.AddWeekly(time.Sunday, clock(10, 0), 60, true, calendar.Date{}, calendar.Date{}), "hard practice each Sunday 10:00, 60 minutes",
			whatif.Touched{Events: []string{"weekly-2026-11-08-10:00"}, Dates: dates("2026-11-08")}}, // a game on 15 November
		{whatif.DropPractices(time.Tuesday, calendar.Date{}, calendar.Date{}), "no practice on Tuesdays",
			whatif.Touched{Events: []string{"p-2026-11-03", "p-2026-11-10"}, Dates: dates("2026-11-03", "2026-11-10")}},
		{whatif.SetRule(season.Override{Rule: "lifts-in-7", Value: number(2)}), "lifts-in-7 2", whatif.Touched{Rules: []string{"lifts-in-7"}}},
		{whatif.SetRule(season.Override{Rule: "primer", Points: number(9)}), "primer 9 points", whatif.Touched{Rules: []string{"primer"}}},
		{whatif.SetRule(season.Override{Rule: "primer", Off: true}), "primer off", whatif.Touched{Rules: []string{"primer"}}},
		{whatif.OptIn(season.OptPostGame), "opted in to post-game", whatif.Touched{Athlete: []string{"optIns"}}},
		{whatif.OptOut(season.OptPostGame), "opted out of post-game", whatif.Touched{Athlete: []string{"optIns"}}},
		{whatif.TrainingAge(6), "training age 6 months", whatif.Touched{Athlete: []string{"trainingAge"}}},
		{whatif.Hold(season.Hold{From: seasontest.Date("2026-11-04")}), "held from 2026-11-04", whatif.Touched{Athlete: []string{"holds"}}},
		{whatif.Kit("gym", "bar", "band"), "gym with bar, band", whatif.Touched{Places: []string{"gym"}}},
		{whatif.Kit("gym"), "gym with nothing but a floor", whatif.Touched{Places: []string{"gym"}}},
		{whatif.ClosePlace("gym", season.Period{From: seasontest.Date("2026-11-04"), To: seasontest.Date("2026-11-05")}), "gym closed 2026-11-04 to 2026-11-05",
			whatif.Touched{Places: []string{"gym"}, Dates: dates("2026-11-04", "2026-11-05")}},
		{whatif.OpenHours("gym", season.Hours{Days: []time.Weekday{time.Friday}, From: clock(17, 0), To: clock(19, 0)}), "gym open Fri 17:00-19:00", whatif.Touched{Places: []string{"gym"}}},
		{whatif.CloseHours("gym", season.Hours{Days: []time.Weekday{time.Monday}, From: clock(9, 0), To: clock(12, 0)}), "gym closed Mon 09:00-12:00", whatif.Touched{Places: []string{"gym"}}},
		{whatif.FreeHours(season.Hours{Days: []time.Weekday{time.Monday}, From: clock(7, 0), To: clock(9, 0)}), "athlete also free Mon 07:00-09:00", whatif.Touched{Athlete: []string{"hours"}}},
		{whatif.BusyHours(season.Hours{Days: []time.Weekday{time.Monday}, From: clock(7, 0), To: clock(17, 0)}), "athlete busy Mon 07:00-17:00", whatif.Touched{Athlete: []string{"hours"}}},
		{whatif.SetFreeHours(season.Hours{Days: []time.Weekday{time.Monday}, From: clock(7, 0), To: clock(17, 0)}), "athlete free Mon 07:00-17:00", whatif.Touched{Athlete: []string{"hours"}}},
		{whatif.Longer(30), "open 30 minutes longer", whatif.Touched{Athlete: []string{"hours"}, Places: []string{"gym"}}},
		{whatif.Compose("", whatif.Cancel("g01"), whatif.OptIn(season.OptPostGame)), "cancel g01, opted in to post-game",
			whatif.Touched{Events: []string{"g01"}, Dates: dates("2026-11-07"), Athlete: []string{"optIns"}}},
		{whatif.Compose("quiet"), "quiet", whatif.Touched{}},
	} {
		req := club(2)
		before := text(t, req)
		next, touched, err := whatif.Apply(*req, c.change)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if got := c.change.String(); got != c.text {
			t.Errorf("called %q, want %q", got, c.text)
		}
		for _, p := range []*[]string{&c.want.Events, &c.want.Rules, &c.want.Places, &c.want.Athlete} {
			if *p == nil {
				*p = none
			}
		}
		if c.want.Dates == nil {
			c.want.Dates = dates()
		}
		if diff := cmp.Diff(c.want, touched, cmp.Comparer(func(a, b calendar.Date) bool { return a == b })); diff != "" {
			t.Errorf("%s touched (-want +got):\n%s", c.text, diff)
		}
		if after := text(t, req); after != before {
			t.Errorf("%s changed the request it was made to", c.text)
		}
		same := text(t, &next) == before
		if empty := c.text == "quiet" || c.text == "opted out of post-game"; same != empty {
			t.Errorf("%s: the request is the same: %v", c.text, same)
		}
	}
}

// Every change that does not fit is named with its place, and nothing is
// changed.
func TestApplyProblems(t *testing.T) {
	day := season.Hours{Days: []time.Weekday{time.Monday}, From: clock(9, 0), To: clock(12, 0)}
	never := season.Hours{From: clock(12, 0), To: clock(9, 0)}
	all := season.Hours{Days: append(slices.Clone(weekdays), weekend...), From: 0, To: calendar.EndOfDay}
	bad := []whatif.Change{
		whatif.Move("g99", "2026-11-06T19:00"), whatif.Move("g01", "yesterday"), whatif.MoveDays("g99", 1), whatif.MoveDays("g01", 100_000_000),
		whatif.Cancel("nobody"), whatif.Add(game("g01", "again", "2026-11-04T12:00", 60, calendar.Zone{})),
		whatif.AddWeekly(9, clock(10, 0), 60, false, calendar.Date{}, calendar.Date{}), whatif.AddWeekly(time.Monday, -5, 60, false, calendar.Date{}, calendar.Date{}),
		whatif.AddWeekly(time.Monday, clock(10, 0), 0, false, calendar.Date{}, calendar.Date{}),
		whatif.AddWeekly(time.Monday, clock(10, 0), 60, false, seasontest.Date("2026-11-20"), seasontest.Date("2026-11-10")),
		whatif.AddWeekly(time.Monday, clock(10, 0), 60, false, seasontest.Date("1950-11-20"), seasontest.Date("2026-11-10")),
		whatif.DropPractices(time.Sunday, calendar.Date{}, calendar.Date{}), whatif.SetRule(season.Override{Rule: "no-such"}),
		whatif.OptIn("dancing"), whatif.TrainingAge(-1), whatif.Kit("cellar", "bar"), whatif.ClosePlace("gym", season.Period{}),
		whatif.OpenHours("gym", never), whatif.CloseHours("gym", all), whatif.FreeHours(never), whatif.BusyHours(all), whatif.Longer(0),
	}
	for _, c := range bad {
		req := club(2)
		next, _, err := whatif.Apply(*req, c)
		var input *season.InputError
		if !errors.As(err, &input) || len(input.Problems) == 0 {
			t.Errorf("%s: error %v", c, err)
			continue
		}
		for _, p := range input.Problems {
			if p.Reason == "" || p.Remedy == "" || p.Path == "" {
				t.Errorf("%s: problem without reason, remedy or path: %+v", c, p)
			}
		}
		if text(t, &next) != text(t, req) {
			t.Errorf("%s: the request was changed", c)
		}
	}
	_, _, err := whatif.Apply(*club(2), bad...)
	var input *season.InputError
	if !errors.As(err, &input) || len(input.Problems) < len(bad) {
		t.Errorf("of %d changes that do not fit, not all are named: %v", len(bad), err)
	}
	if !strings.Contains(err.Error(), "/changes/4") {
		t.Errorf("places are missing: %v", err)
	}
	bare := club(2)
	bare.Athlete.Hours, bare.Places[0].Hours = nil, nil
	for _, c := range []whatif.Change{whatif.FreeHours(day), whatif.BusyHours(day), whatif.OpenHours("gym", day), whatif.Longer(30)} {
		if _, _, err := whatif.Apply(*bare, c); err == nil {
			t.Errorf("%s: no error without hours", c)
		}
	}
	if _, _, err := whatif.Apply(*bare, whatif.CloseHours("gym", day)); err != nil {
		t.Error(err)
	}
}

// Hours taken away are closed, and nothing else is.
func TestCloseHours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		span := func(label string) season.Hours {
			from := rapid.IntRange(0, 22).Draw(t, label+"From")
			to := rapid.IntRange(from+1, 24).Draw(t, label+"To")
			bits := rapid.IntRange(1, 127).Draw(t, label+"Days")
			h := season.Hours{From: clock(from, 0), To: clock(to, 0)}
			for d := time.Sunday; d <= time.Saturday; d++ {
				if bits>>int(d)&1 == 1 {
					h.Days = append(h.Days, d)
				}
			}
			return h
		}
		req := club(1)
		req.Places[0].Hours = []season.Hours{span("a"), span("b")}
		take := span("take")
		in := func(list []season.Hours, d time.Weekday, at calendar.Clock) bool {
			return slices.ContainsFunc(list, func(h season.Hours) bool { return slices.Contains(h.Days, d) && h.From <= at && at < h.To })
		}
		next, _, err := whatif.Apply(*req, whatif.CloseHours("gym", take))
		left := false
		for d := time.Sunday; d <= time.Saturday; d++ {
			for h := range 48 {
				at := clock(h/2, h%2*30)
				want := in(req.Places[0].Hours, d, at) && !in([]season.Hours{take}, d, at)
				left = left || want
				if err == nil && in(next.Places[0].Hours, d, at) != want {
					t.Fatalf("%s %s: want open %v; %v without %v is %v", d, at, want, req.Places[0].Hours, take, next.Places[0].Hours)
				}
			}
		}
		if (err == nil) != left {
			t.Fatalf("something is left: %v, error %v", left, err)
		}
	})
}

// A change is a value: what it was made from may change afterwards, and the
// request it is made to is left as it is, lists in it too.
func TestChangesAreValues(t *testing.T) {
	hours := season.Hours{Days: []time.Weekday{time.Monday}, From: clock(8, 0), To: clock(12, 0)}
	list := []season.Hours{hours}
	value, kit := 60, []string{"barbell"}
	event := game("x", "Guests", "2026-11-04T12:00", 60, calendar.Zone{})
	event.Unknown = []calendar.Property{{Name: "X-A"}}
	parts := []whatif.Change{whatif.Cancel("g01")}
	changes := []whatif.Change{whatif.OpenHours("gym", hours), whatif.CloseHours("gym", hours), whatif.FreeHours(hours), whatif.BusyHours(hours),
		whatif.SetFreeHours(list...), whatif.SetRule(season.Override{Rule: "full-before-game", Value: &value}), whatif.Kit("gym", kit...),
		whatif.Add(event), whatif.Compose("", parts...)}
	base := club(2)
	was := text(t, base)
	results := func() (out []string) {
		for _, c := range changes {
			next, _, err := whatif.Apply(*base, c)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, text(t, &next), c.String())
		}
		return out
	}
	before := results()
	hours.Days[0], list[0].From, value, kit[0], event.Unknown[0].Name, parts[0] = time.Friday, clock(9, 0), 72, "dumbbell", "X-B", nil
	if diff := cmp.Diff(before, results()); diff != "" {
		t.Errorf("a change is another than when it was made:\n%s", diff)
	}
	// What a result holds is its own.
	next, _, err := whatif.Apply(*base, whatif.Longer(15), whatif.OptIn(season.OptPostGame), whatif.DropPractices(time.Tuesday, calendar.Date{}, calendar.Date{}))
	if err != nil {
		t.Fatal(err)
	}
	for i := range next.Events {
		next.Events[i].Status = calendar.Postponed
	}
	next.Athlete.Hours[0].From, next.Places[0].Hours[0].From, next.Athlete.OptIns[0] = 0, 0, "other"
	if text(t, base) != was {
		t.Error("the request was changed through a result")
	}
}
