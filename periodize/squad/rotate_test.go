package squad

import (
	"testing"
	"time"

	"example.org/weft/periodize/season"
)

// TestPoorSlotsRotate: on each of eight dates half of the squad has to come at 19:00,
// two hours from what everybody prefers. 24 poor sessions for six athletes are four
// each; nobody has more than six, nor fewer than two.
func TestPoorSlotsRotate(t *testing.T) {
	r := rink(6, clock(20, 0))
	r.Period = season.Period{From: date("2026-11-16"), To: date("2026-12-13")}
	h := &r.Halls[0]
	h.Capacity, h.SlotMinutes, h.ChangeMinutes = 3, 60, 120
	h.Place.Hours[0].Days = []time.Weekday{time.Monday, time.Thursday}
	for i := range r.Athletes {
		r.Athletes[i].Season.Places = nil
		r.Athletes[i].Season.Events = nil
	}
	p := plan(t, r)
	poor := map[string]int{}
	all := 0
	for _, s := range p.Slots {
		if s.Start.Hour() == 19 {
			for _, seat := range s.Seats {
				poor[seat.Athlete]++
				all++
			}
		}
	}
	if all != 24 {
		t.Fatalf("%d poor sessions", all)
	}
	for i := range r.Athletes {
		if n := poor[r.Athletes[i].id()]; n < 2 || n > 6 {
			t.Errorf("%s has %d of %d: %v", r.Athletes[i].id(), n, all, poor)
		}
	}
	t.Log(poor)
}

// TestLineMovesOn: who is last in the first week is among the first in the second,
// and everybody is first once in three weeks.
func TestLineMovesOn(t *testing.T) {
	for _, n := range []int{1, 2, 3, 5, 22, 31} {
		if n > 1 && inWeek(n-1, 1, n) >= third(n) {
			t.Errorf("%d: the last becomes %d", n, inWeek(n-1, 1, n))
		}
		for place := range n {
			first := false
			for week := range 3 {
				first = first || inWeek(place, week, n) < third(n)
			}
			if !first {
				t.Errorf("%d athletes: place %d is never in the first third", n, place)
			}
		}
	}
}
