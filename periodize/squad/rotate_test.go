package squad

import (
	"slices"
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

// TestPlacesGoRoundInTeams: three teams want slots of their own. Whatever the teams'
// sizes, everybody is once in three weeks among the first third of its team, and in two
// weeks running nobody is among the last third.
func TestPlacesGoRoundInTeams(t *testing.T) {
	var team, place []int
	for i, size := range []int{12, 7, 11} {
		for range size {
			team, place = append(team, i), append(place, len(place))
		}
	}
	size := []int{12, 7, 11}
	rank := func(week, who int) int { // within the team
		line, n := weekly(place, team, week), 0
		for other := range place {
			if team[other] == team[who] && line[other] < line[who] {
				n++
			}
		}
		return n
	}
	for who := range place {
		n, last := size[team[who]], -2
		first := 0
		for week := range 3 {
			r := rank(week, who)
			if r < third(n) {
				first++
			}
			if r >= n-n/3 {
				if week == last+1 {
					t.Errorf("%d of team %d is last in weeks %d and %d", who, team[who], last, week)
				}
				last = week
			}
		}
		if first < 1 {
			t.Errorf("%d of team %d is never first", who, team[who])
		}
	}
	for week := range 4 { // each line is an order
		line := slices.Clone(weekly(place, team, week))
		slices.Sort(line)
		if !slices.Equal(line, place) {
			t.Errorf("week %d: %v", week, line)
		}
	}
}
