package squad

import (
	"testing"
	"time"

	"example.org/weft/periodize/rule/ruletest"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// TestMovesAsDefined: the automaton counts as the plain loop does.
func TestMovesAsDefined(t *testing.T) {
	r := club(1, 14, 4)
	own := plan(t, r).Athletes[0].Plan
	zone := r.Athletes[0].Season.Athlete.Zone
	rapid.Check(t, func(t *rapid.T) {
		days := ruletest.Days(func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "n") }, zone)
		last := *own
		last.Sessions = nil
		for _, d := range days { // some of what is there was there before
			for _, s := range d.Sessions {
				place, at := s.Place, s.Start
				switch rapid.IntRange(0, 3).Draw(t, "was") {
				case 0:
					continue
				case 1:
					place += "'"
				case 2:
					at = at.Add(5 * time.Minute)
				}
				last.Sessions = append(last.Sessions, season.Session{Date: s.Date, Start: at, Kind: s.Kind, Place: place})
			}
		}
		now := time.Time{}
		if len(days) > 0 {
			now = zone.DayStart(days[0].Date.AddDays(rapid.IntRange(0, 2).Draw(t, "past")))
		}
		if err := ruletest.Check(movesRule(&last, now), days); err != nil {
			t.Fatal(err)
		}
	})
}

// TestMovesAreSpread: a place less for two weeks. No more people are moved than there
// must be, and nobody for all of them; one session each costs nothing.
func TestMovesAreSpread(t *testing.T) {
	if got := []int{movesCost(0, 1), movesCost(0, 2), movesCost(0, 3), movesCost(2, 2), movesCost(5, 3)}; got[0] != 0 || got[1] != 1 || got[2] != 3 || got[3] != 5 || got[4] != 15 {
		t.Errorf("%v", got)
	}
	r := rink(10, clock(16, 50)) // one slot on each Thursday
	r.Period.To = r.Period.From.AddDays(27)
	for i := range r.Athletes {
		r.Athletes[i].Season.Events = nil
	}
	first := plan(t, r)
	r.Halls[0].Capacity = 6
	second := replan(t, r, first)
	most, all := 0, 0
	for _, s := range second.Moved {
		n := max(len(s.Changes), len(s.Places))
		most, all = max(most, n), all+n
	}
	// Each Thursday eight come, and two of them too many: two people who are there on
	// all four, or more of them who are not.
	if all < 8 || most > (all+len(second.Moved)-1)/len(second.Moved)+1 {
		t.Errorf("%d moved, %d sessions in all, %d of one", len(second.Moved), all, most)
	}
	for _, s := range second.Moved {
		if s.Affected {
			t.Errorf("%s: its calendar did not change", s.Athlete)
		}
		for _, c := range s.Changes {
			if c.Change == season.Unchanged {
				t.Errorf("%+v", c)
			}
		}
	}
}
