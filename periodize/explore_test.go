package periodize

import (
	"bytes"
	"context"
	"errors"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/season"
)

// Questions that have no answer say so.
func TestNoExploration(t *testing.T) {
	ctx := context.Background()
	req, err := season.ReadRequest(bytes.NewReader([]byte(weekRequest)))
	if err != nil {
		t.Fatal(err)
	}
	held := *req
	held.Athlete.Holds = []season.Hold{{From: seasontest.Date("2026-11-01")}}
	for name, x := range map[string]func() (*Exploration, error){
		"refused": func() (*Exploration, error) { p := Planner{}; return p.Explore(ctx, &held) },
		"bounded": func() (*Exploration, error) { p := Planner{MaxNodes: 1}; return p.Explore(ctx, req) },
	} {
		t.Run(name, func(t *testing.T) {
			x, err := x()
			if err != nil {
				t.Fatal(err)
			}
			if x.Plan() == nil {
				t.Fatal("no plan")
			}
			if _, err := x.OnDate(req.Period.From); !errors.Is(err, ErrNoExploration) {
				t.Error(err)
			}
			if _, err := x.Elsewhere(ctx, "x"); !errors.Is(err, ErrNoExploration) {
				t.Error(err)
			}
			if _, _, err := x.Different(ctx); !errors.Is(err, ErrNoExploration) {
				t.Error(err)
			}
			_, err = x.WhyNot(ctx, req.Period.From, season.Recovery, nil)
			if (name == "refused") != errors.Is(err, ErrNoExploration) || name == "bounded" && err != nil {
				t.Error(err)
			}
		})
	}
	p := Planner{}
	if _, err := p.Equals(ctx, &held); !errors.Is(err, ErrNoExploration) {
		t.Error(err)
	}
	x, err := p.Explore(ctx, req)
	if err != nil {
		t.Fatal(err)
	}
	late := calendar.Clock(25 * 3600)
	for name, f := range map[string]func() error{
		"date before": func() error { _, err := x.OnDate(req.Period.From.AddDays(-1)); return err },
		"date unset":  func() error { _, err := x.OnDate(calendar.Date{}); return err },
		"no session":  func() error { _, err := x.Elsewhere(ctx, "nobody"); return err },
		"no kind":     func() error { _, err := x.WhyNot(ctx, req.Period.From, "yoga", nil); return err },
		"no date":     func() error { _, err := x.WhyNot(ctx, calendar.Date{}, season.Primer, nil); return err },
		"no clock":    func() error { _, err := x.WhyNot(ctx, req.Period.From, season.Primer, &late); return err },
		"not missed":  func() error { _, err := x.Obstacles(ctx, season.Missed{Aim: "primer"}); return err },
		"no plan":     func() error { _, err := p.Evaluate(ctx, req, nil); return err },
		"odd sessions": func() error {
			_, err := p.Evaluate(ctx, req, &season.Plan{Sessions: make([]season.Session, 2)})
			return err
		},
	} {
		if f() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

const weekRequest = `{"schema": 1, "period": {"from": "2026-11-09", "to": "2026-11-15"},
 "athlete": {"id": "a1", "born": "2001-03", "zone": "Europe/Amsterdam", "trainingAgeYears": 3, "hours": [{"days": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"], "from": "16:00", "to": "20:00"}]},
 "places": [{"id": "gym"}, {"id": "hall"}],
 "events": [{"id": "g1", "kind": "game", "start": "2026-11-08T14:00", "end": "2026-11-08T15:40"},
  {"id": "g2", "kind": "game", "start": "2026-11-15T14:00", "end": "2026-11-15T15:40"}]}`
