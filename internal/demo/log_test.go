package demo

import (
	"context"
	"testing"

	"example.org/weft/periodize"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/logbook"
)

// The invented log is one that a reader takes, tells nothing after its instant,
// names sessions of the plan it was made from, and holds what it says it holds.
func TestLog(t *testing.T) {
	req := Season()
	plan, err := (&periodize.Planner{Brief: true}).Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	_, cards, err := exercise.Builder{}.Season(*plan, exercise.Club{Athlete: req.Athlete})
	if err != nil {
		t.Fatal(err)
	}
	log, err := logbook.NewLog(Log(plan, cards)...)
	if err != nil {
		t.Fatal(err)
	}
	if late := log.Future(Now()); len(late) > 0 {
		t.Error(late)
	}
	planned := map[string]bool{}
	for _, s := range plan.Sessions {
		planned[s.ID] = true
	}
	missed, sets, typed := 0, 0, 0
	view := log.View(req.Athlete.ID)
	for _, e := range view.Entries {
		s, ok := e.What.(logbook.Session)
		if !ok {
			continue
		}
		if !planned[s.Planned] {
			t.Errorf("%s tells of the session %q, which is not planned", e.ID, s.Planned)
		}
		if s.State == logbook.Missed {
			missed++
		}
		for _, x := range s.Sets {
			if sets++; x.Load.Value > 1000*1000 {
				typed++
			}
		}
	}
	if missed != 2 || sets < 60 || typed != 1 || len(view.Disputed) > 0 {
		t.Errorf("%d missed, %d sets, %d of them typed wrong, %d disputed", missed, sets, typed, len(view.Disputed))
	}
}
