package whatif_test

import (
	"fmt"
	"iter"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
)

var (
	weekdays = []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday}
	weekend  = []time.Weekday{time.Saturday, time.Sunday}
)

func clock(h, m int) calendar.Clock { return calendar.Clock(h*3600 + m*60) }

func game(id, opponent, wall string, minutes int, zone calendar.Zone) calendar.Event {
	w, err := calendar.ParseWall(wall)
	if err != nil {
		panic(err) // of a test
	}
	return calendar.Event{ID: id, Kind: calendar.Game, Opponent: opponent, Zone: zone, Start: w, End: w.AddMinutes(minutes), HasEnd: true}
}

// club is an invented club with a game each Saturday or Sunday, a midweek game
// now and then, and two practices a week.
func club(weeks int) *season.Request {
	zone := seasontest.Zone("Europe/Oslo")
	from := seasontest.Date("2026-11-02")
	req := &season.Request{Schema: season.Schema, Period: season.Period{From: from, To: from.AddDays(7*weeks - 1)}}
	req.Athlete = season.Athlete{ID: "b-4", Born: season.YearMonth{Year: 2003, Month: 2}, Zone: zone, TrainingAgeMonths: 48,
		Hours: []season.Hours{{Days: weekdays, From: clock(15, 30), To: clock(18, 0)}, {Days: weekend, From: clock(9, 0), To: clock(13, 0)}}}
	req.Places = []season.Place{{ID: "gym", Hours: []season.Hours{{Days: []time.Weekday{time.Monday, time.Tuesday, time.Thursday, time.Saturday, time.Sunday}, From: clock(8, 0), To: clock(20, 0)}}}}
	for w := range weeks {
		monday := from.AddDays(7 * w)
		on := monday.AddDays(5 + w%2)
		req.Events = append(req.Events, game(fmt.Sprintf("g%02d", w+1), fmt.Sprintf("Team %d", w+1), on.String()+"T15:20", 95, zone))
		if w%3 == 1 {
			req.Events = append(req.Events, game(fmt.Sprintf("m%02d", w+1), fmt.Sprintf("Cup team %d", w+1), monday.AddDays(2).String()+"T19:30", 95, zone))
		}
		for _, d := range []int{1, 3} {
			w := calendar.Wall{Date: monday.AddDays(d), Clock: clock(18, 30)}
			req.Events = append(req.Events, calendar.Event{ID: "p-" + w.Date.String(), Kind: calendar.Practice, Zone: zone, Start: w, End: w.AddMinutes(90), HasEnd: true})
		}
	}
	return req
}

func variants(list ...whatif.Change) iter.Seq[whatif.Variant] {
	return func(yield func(whatif.Variant) bool) {
		for _, c := range list {
			if !yield(whatif.Variant{Change: c}) {
				return
			}
		}
	}
}

func number(n int) *int { return &n }

// some are changes that fit club.
func some() []whatif.Change {
	return []whatif.Change{
		whatif.MoveDays("g02", -1),
		whatif.Cancel("m02"),
		whatif.OpenHours("gym", season.Hours{Days: []time.Weekday{time.Wednesday, time.Friday}, From: clock(8, 0), To: clock(20, 0)}),
		whatif.CloseHours("gym", season.Hours{Days: []time.Weekday{time.Monday}, From: 0, To: calendar.EndOfDay}),
		whatif.AddWeekly(time.Monday, clock(17, 0), 75, false, calendar.Date{}, calendar.Date{}),
		whatif.DropPractices(time.Tuesday, calendar.Date{}, calendar.Date{}),
		whatif.SetRule(season.Override{Rule: "full-before-game", Value: number(60)}),
		whatif.OptIn(season.OptPostGame),
		whatif.TrainingAge(3),
		whatif.Longer(30),
		whatif.ClosePlace("gym", season.Period{From: seasontest.Date("2026-11-09"), To: seasontest.Date("2026-11-12")}),
		whatif.Compose("both", whatif.MoveDays("g01", 1), whatif.OptIn(season.OptPostGame)),
	}
}

func collect(t *testing.T, results iter.Seq2[whatif.Result, error]) []whatif.Result {
	t.Helper()
	var out []whatif.Result
	for r, err := range results {
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, r)
	}
	return out
}
