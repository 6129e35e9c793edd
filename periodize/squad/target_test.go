package squad

import (
	"context"
	"testing"

	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// TestSeasonBehindTheWeeks: with room for everybody, the four weeks of a squad follow
// each athlete's plan of eight where it leaves a choice.
func TestSeasonBehindTheWeeks(t *testing.T) {
	long := club(6, 56, 20)
	r := club(6, 28, 20)
	same := func(p *Plan) (hits, all int) {
		for i := range r.Athletes {
			target := long.Athletes[i].Target
			for _, s := range p.planOf(r.Athletes[i].id()).Sessions {
				all++
				for _, x := range target.Sessions {
					if x.Date == s.Date && x.Kind == s.Kind {
						hits++
					}
				}
			}
		}
		return hits, all
	}
	for i := range r.Athletes {
		a := &r.Athletes[i]
		a.Season.Events = long.Athletes[i].Season.Events // the weeks behind are known
		req := long.seasonOf(&long.Athletes[i])
		// The season was planned by a coach who keeps Monday free.
		req.Athlete.Hours = []season.Hours{{Days: allDays[:2], From: clock(9, 0), To: clock(21, 0)}, {Days: workdays[1:], From: clock(11, 0), To: clock(21, 0)}}
		first, err := (&periodize.Planner{}).Plan(context.Background(), &req)
		if err != nil {
			t.Fatal(err)
		}
		long.Athletes[i].Target = first
	}
	without := plan(t, r)
	for i := range r.Athletes {
		r.Athletes[i].Target = long.Athletes[i].Target
	}
	with := plan(t, r)
	before, all := same(without)
	after, now := same(with)
	if after < before+10 || 10*after < 8*now {
		t.Errorf("%d of %d sessions as in the season, %d of %d without it", after, now, before, all)
	}
	t.Logf("%d of %d sessions as in the season, %d of %d without it", after, now, before, all)
}
