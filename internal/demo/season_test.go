package demo

import (
	"testing"

	"example.org/weft/calendar"
)

// The season says what its constants say: nothing was lost on the way.
func TestSeason(t *testing.T) {
	r := Season()
	for _, p := range r.Validate() {
		if p.Class == calendar.ClassError || p.Class == calendar.ClassRefusal || p.Class == calendar.ClassWarning {
			t.Error(p.Error())
		}
	}
	n, ids := 0, map[string]bool{}
	for _, e := range r.Events {
		if ids[e.ID] {
			t.Errorf("id %s twice", e.ID)
		}
		ids[e.ID] = true
		if e.Kind == calendar.Game {
			n++
		}
		if _, err := calendar.Place(e, calendar.Assumptions{}); err != nil {
			t.Errorf("%s: %v", e.ID, err)
		}
	}
	if n != len(games) {
		t.Errorf("%d games, want %d", n, len(games))
	}
	if r.Period.Days() != 37*7 || r.Period.From.Weekday().String() != "Monday" {
		t.Errorf("period %v: want 37 whole weeks", r.Period)
	}
	for _, p := range r.Places {
		for _, h := range p.Hours {
			if h.To <= h.From {
				t.Errorf("%s: hours %v", p.ID, h)
			}
		}
	}
}
