package periodize

import (
	"context"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Engine and judge mean the same by a rule that is off: with each rule off in turn,
// a session pinned before, in and right after games and practices that end late. A
// difference is a FaultError.
func TestRulesThatAreOff(t *testing.T) {
	zone := seasontest.Zone("Europe/Oslo")
	on := func(id string, kind calendar.Kind, date, from string, minutes int) calendar.Event {
		w, err := calendar.ParseWall(date + "T" + from)
		if err != nil {
			t.Fatal(err)
		}
		return calendar.Event{ID: id, Kind: kind, Zone: zone, Start: w, End: w.AddMinutes(minutes), HasEnd: true}
	}
	base := season.Request{Schema: season.Schema, Period: season.Period{From: seasontest.Date("2026-11-11"), To: seasontest.Date("2026-11-15")}}
	base.Athlete = season.Athlete{ID: "r", Zone: zone, TrainingAgeMonths: 60, OptIns: []season.OptIn{season.OptPostGame}}
	base.Events = []calendar.Event{on("g1", calendar.Game, "2026-11-12", "19:30", 100), on("g2", calendar.Game, "2026-11-13", "17:00", 100),
		on("p1", calendar.Practice, "2026-11-11", "20:00", 90), on("x1", calendar.Exam, "2026-11-13", "09:00", 60)}
	planned := 0
	for _, born := range []int{2001, 2010} {
		for _, r := range rule.Table() {
			for _, at := range []string{"11T21:30", "11T21:35", "12T06:00", "12T10:00", "12T21:10", "12T21:25", "13T00:00", "13T10:00", "13T18:40", "14T06:30"} {
				for _, kind := range []season.Kind{season.FullBody, season.Trimmed, season.Recovery, season.PostGame} {
					req := base
					req.Athlete.Born = season.YearMonth{Year: born, Month: 5}
					w, err := calendar.ParseWall("2026-11-" + at)
					if err != nil {
						t.Fatal(err)
					}
					req.Rules = []season.Override{{Rule: r.ID, Off: true, By: "head coach", Reason: "trial"}}
					req.Pins = []season.Pin{{Date: w.Date, Kind: kind, Start: &w.Clock}}
					_, err = new(Planner).Plan(context.Background(), &req)
					switch err.(type) {
					case nil:
						planned++
					case *season.InputError: // a rule that cannot be off
					default:
						t.Errorf("%s off, %s at %s, born %d: %v", r.ID, kind, w, born, err)
					}
				}
			}
		}
	}
	if planned < 1000 {
		t.Errorf("%d planned", planned)
	}
}
