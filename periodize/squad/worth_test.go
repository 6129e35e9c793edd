package squad

import (
	"context"
	"testing"

	"example.org/weft/periodize/season"
)

// TestWorth: what an offer saves is the difference of two plans made by hand, and no
// more than the prices say, which are what one more saves at the margin.
func TestWorth(t *testing.T) {
	r := club(9, 14, 2)
	r.Coaches = []Coach{{ID: "c1"}}
	r.Ratios = []Ratio{{Athletes: 2}}
	first := plan(t, r)
	list, err := (&Planner{}).Worth(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	if len(list) != 3 {
		t.Fatalf("%+v", list)
	}
	for _, x := range list {
		more := *r
		more.Halls = append([]Hall(nil), r.Halls...)
		switch x.Offer {
		case OnePlace:
			more.Halls[0].Capacity = 3
		case OneCoach:
			more.Coaches = []Coach{{ID: "c1"}, {ID: "c2"}}
		case ThirtyMinutes:
			more.Halls[0].Place.Hours = []season.Hours{{Days: workdays, From: clock(15, 0), To: clock(20, 0)}, {Days: weekend, From: clock(9, 0), To: clock(12, 30)}}
		}
		p := plan(t, &more)
		if x.Points != first.Points-p.Points || x.Proof != season.Proved {
			t.Errorf("%s: saves %d, %s; planned by hand %d", x.Offer, x.Points, x.Proof, first.Points-p.Points)
		}
		// A place alone, or a coach alone, helps nobody: two places, and one coach to
		// two, are both full.
		if x.Offer != ThirtyMinutes && x.Points != 0 {
			t.Errorf("%s alone saves %d", x.Offer, x.Points)
		}
	}
	r.Ratios = []Ratio{{Athletes: 20}}
	first = plan(t, r)
	list, err = (&Planner{}).Worth(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	if x := list[0]; x.Offer != OnePlace || x.Points <= 0 || x.Points > x.Estimate+1 {
		t.Errorf("a place saves %d of %d, the prices say %d", x.Points, first.Points, x.Estimate)
	}
	t.Logf("%+v", list)
}
