package periodize

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/calendar/fixture"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/season"
)

// Whole seasons of openly licensed fixture lists, in the folder that OPEN_DATA
// names: the laws hold, the plan is proved, and what a coach aims at is there.
func TestOpenSeasons(t *testing.T) {
	dir := os.Getenv("OPEN_DATA")
	if dir == "" {
		t.Skip("OPEN_DATA is unset: no open fixture lists to plan")
	}
	for _, name := range []string{"volleyball-team.csv", "football-team-after.csv", "football-winter-break-team.csv"} {
		f, err := os.Open(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		events, problems, err := fixture.Read(f, name, fixture.Options{})
		f.Close()
		if err != nil || len(problems) > 0 {
			t.Fatalf("%s: %v %v", name, err, problems)
		}
		for _, adult := range []bool{true, false} {
			t.Run(fmt.Sprintf("%s/adult=%v", name, adult), func(t *testing.T) { openSeason(t, events, adult) })
		}
	}
}

func openSeason(t *testing.T, events []calendar.Event, adult bool) {
	req := &season.Request{Schema: season.Schema, Events: events,
		Athlete: season.Athlete{ID: "a", Zone: events[0].Zone, TrainingAgeMonths: -1}}
	if adult {
		req.Athlete.Born, req.Athlete.TrainingAgeMonths = season.YearMonth{Year: 1990, Month: 5}, 40
	}
	first, last := events[0].Start.Date, events[0].Start.Date
	for _, e := range events {
		if e.Start.Date.Before(first) {
			first = e.Start.Date
		}
		if e.Start.Date.After(last) {
			last = e.Start.Date
		}
	}
	req.Period = season.Period{From: calendar.WeekStart(first, time.Monday), To: calendar.WeekStart(last, time.Monday).AddDays(6)}
	var p Planner
	plan, err := p.Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(plan)
	if err != nil {
		t.Fatal(err)
	}
	for _, breach := range seasontest.Check(text, req) {
		t.Error(breach)
	}
	if plan.Proof != season.Proved || plan.Cost.Broken != 0 || plan.Cost.Bound != plan.Cost.Points {
		t.Errorf("proof %s, cost %+v", plan.Proof, plan.Cost)
	}
	backwards := *req
	backwards.Events = nil
	for i := range events {
		backwards.Events = append(backwards.Events, events[len(events)-1-i])
	}
	again, err := p.Plan(context.Background(), &backwards)
	if err != nil {
		t.Fatal(err)
	}
	if other, err := json.Marshal(again); err != nil || !bytes.Equal(text, other) {
		t.Errorf("the rows backwards give another plan (%v)", err)
	}
	weeks(t, plan)
}

// weeks counts the inner weeks with two lifts and with a full-body session; each
// other one must name what stood in the way.
func weeks(t *testing.T, plan *season.Plan) {
	lifts, heavy := map[calendar.Date]int{}, map[calendar.Date]int{}
	for _, s := range plan.Sessions {
		week := calendar.WeekStart(s.Date, time.Monday)
		if s.Kind.Lift() {
			lifts[week]++
		}
		if s.Kind.HeavyLowerBody() {
			heavy[week]++
		}
	}
	named := func(aim string, week calendar.Date) bool {
		for _, m := range plan.Missed {
			if m.Aim != aim || m.From != week || m.To != week.AddDays(6) {
				continue
			}
			for _, w := range m.InTheWay {
				if w.Rule != aim {
					return true
				}
			}
		}
		return false
	}
	all, two, full := 0, 0, 0
	for week := plan.Period.From.AddDays(7); week.AddDays(13).Compare(plan.Period.To) <= 0; week = week.AddDays(7) {
		all++
		if lifts[week] >= 2 {
			two++
		} else if !named("second-lift", week) {
			t.Errorf("week of %s: %d lifts, and nothing named that stood in the way", week, lifts[week])
		}
		if heavy[week] >= 1 {
			full++
		} else if !named("week-full-body", week) {
			t.Errorf("week of %s: no full-body session, and nothing named that stood in the way", week)
		}
	}
	t.Logf("%d dates, %d inner weeks: %d with two lifts, %d with a full-body session; %d points", plan.Period.Days(), all, two, full, plan.Cost.Points)
	if 100*two < 95*all || 100*full < 90*all {
		t.Errorf("of %d inner weeks %d have two lifts, want 95 %%; %d have a full-body session, want 90 %%", all, two, full)
	}
}
