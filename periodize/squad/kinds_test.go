package squad

import (
	"slices"
	"testing"

	"example.org/weft/periodize/season"
)

// mixedSlots counts once more, by the kinds of the seats, which slots no one coach can
// run as one session.
func mixedSlots(p *Plan) int {
	n := 0
	for _, s := range p.Slots {
		together := map[string]bool{}
		for _, seat := range s.Seats {
			switch seat.Kind {
			case season.FullBody, season.Trimmed, season.Eccentric, season.PostGame:
				together["strength"] = true
			default:
				together[string(seat.Kind)] = true
			}
		}
		if len(together) > 1 {
			n++
		}
	}
	return n
}

// TestKindPoints: what kinds may cost keeps them together, and the plan says what it
// cost: Points is no lower, Bound is the same, and the points each session out of kind
// costs buy nothing dearer.
func TestKindPoints(t *testing.T) {
	r := club(20, 14, 6)
	first := plan(t, r)
	if first.Mixed != mixedSlots(first) || first.Mixed == 0 {
		t.Fatalf("%d mixed, counted %d", first.Mixed, mixedSlots(first))
	}
	mixed := []int{first.Mixed}
	for _, n := range []int{2, 20} {
		r.KindPoints = n
		p := plan(t, r)
		if p.Mixed != mixedSlots(p) || p.Points < first.Points || p.Bound != first.Bound {
			t.Errorf("%d points: %d mixed, counted %d, %d points, bound %d and %d", n, p.Mixed, mixedSlots(p), p.Points, p.Bound, first.Bound)
		}
		out := 0 // sessions out of kind cost so much; the first plan had more of them
		for _, s := range first.Slots {
			out += len(s.Seats)
		}
		if p.Points > first.Points+int64(n*out) {
			t.Errorf("%d points more for kinds at %d", p.Points-first.Points, n)
		}
		mixed = append(mixed, p.Mixed)
	}
	if slices.Max(mixed[1:]) > mixed[0] || mixed[2] >= mixed[0] {
		t.Errorf("mixed slots at 0, 2 and 20 points: %v", mixed)
	}
	t.Log(mixed)
}
