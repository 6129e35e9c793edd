package periodize

import (
	"context"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// What stands in the way of an aim is enough by itself: whatever else is relaxed,
// the aim is missed. Relaxed itself it is in the way no more: the aim is kept, or
// something else is named.
func TestObstacles(t *testing.T) {
	misses, empty, others, relaxed, kept := 0, 0, 0, 0, 0
	sizes := map[int]int{}
	onSeasons(t, 120, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{MinDates: 7, MaxDates: 14, Plain: true})
		if rapid.IntRange(0, 3).Draw(t, "open") > 0 { // else the hours are in the way of all
			req = open(req)
		}
		x := explored(t, req)
		if x.Plan().Outcome == season.Refused {
			t.Skip("refused")
		}
		for _, m := range x.Plan().Missed {
			if m.Session != "" {
				continue
			}
			ways, err := x.Obstacles(context.Background(), m)
			if err != nil {
				t.Fatalf("%v\n%s", err, shown(req))
			}
			misses++
			sizes[len(ways)]++
			if (len(ways) == 0) != asGoodWith(t, x, m) {
				t.Fatalf("in the way of %s of %s: %v\n%s", m.Aim, m.From, ways, shown(req))
			}
			if len(ways) == 0 {
				empty++
			}
			if len(ways) == 1 && ways[0].Rule == m.Aim {
				t.Fatalf("nothing is past, and yet nothing can be taken away for %s of %s\n%s", m.Aim, m.From, shown(req))
			}
			limits, seen := true, map[season.InTheWay]bool{}
			for _, y := range ways {
				r, ok := rule.Find(y.Rule)
				if !ok || seen[y] {
					t.Fatalf("in the way of %s of %s: %v\n%s", m.Aim, m.From, ways, shown(req))
				}
				seen[y] = true
				limits = limits && r.Kind == rule.Limit
			}
			if limits && len(ways) > 0 {
				other := rapid.SampledFrom(loosened).Draw(t, "other")
				next, ok := seasontestValid(req, other)
				for _, y := range ways {
					ok = ok && rule.Family(y.Rule) != rule.Family(other.Rule) && (y.Event == "" || !strings.HasPrefix(other.Rule, "buffer"))
				}
				if ok && runsAlike(req, next) {
					others++
					if y := explored(t, next); !missedIn(y, m) {
						t.Fatalf("%v alone is said to be in the way of %s of %s, and yet it is kept with %s relaxed\n%s", ways, m.Aim, m.From, other.Rule, shown(req))
					}
				}
			}
			if len(ways) != 1 || ways[0].Event != "" {
				continue
			}
			next, ok := without(req, ways[0].Rule)
			if !ok {
				continue
			}
			relaxed++
			y := explored(t, next)
			if !missedIn(y, m) {
				kept++
				continue
			}
			if _, same := y.missOf(m); !same {
				continue // the run is another one
			}
			again, err := y.Obstacles(context.Background(), m)
			if err != nil {
				t.Fatal(err)
			}
			for _, z := range again {
				if z == ways[0] {
					t.Fatalf("%v is still in the way of %s of %s without it\n%s", z, m.Aim, m.From, shown(req))
				}
			}
		}
	})
	t.Logf("%d misses, obstacles by number %v, %d with another limit relaxed, %d with it relaxed, then %d kept", misses, sizes, others, relaxed, kept)
	if !testing.Short() && (misses < 40 || empty == 0 || others < 10 || kept < 5) {
		t.Error("too few of a sort")
	}
}

// missedIn reports whether a plan misses an aim too: a run that is cut short and
// still too long counts, on whatever dates it begins and ends.
func missedIn(x *Exploration, m season.Missed) bool {
	if m.Aim == "empty-run" || m.Aim == "lift-run" {
		for _, y := range x.verdict.Misses {
			if y.Aim == m.Aim && y.From <= m.To.DayNumber() && m.From.DayNumber() <= y.To {
				return true
			}
		}
		return false
	}
	_, ok := x.missOf(m)
	return ok
}

// open is the request with all hours open.
func open(req *season.Request) *season.Request {
	out := *req
	out.Athlete.Hours = []season.Hours{{Days: []time.Weekday{0, 1, 2, 3, 4, 5, 6}, From: 0, To: calendar.EndOfDay}}
	out.Places = append([]season.Place(nil), req.Places...)
	for i := range out.Places {
		out.Places[i].Hours, out.Places[i].Closed = nil, nil
	}
	return &out
}

// runsAlike reports whether the aims of two requests ask for the same.
func runsAlike(a, b *season.Request) bool {
	var p Planner
	x, err1 := p.prepare(a)
	y, err2 := p.prepare(b)
	if err1 != nil || err2 != nil {
		return false
	}
	for i := range x.model.Days {
		if x.model.Days[i].Restricted != y.model.Days[i].Restricted || x.model.Days[i].PrimerFor != y.model.Days[i].PrimerFor {
			return false
		}
	}
	return true
}

// without is the request without one limit, if it can be switched off. No hours
// open what is out of reach on a journey.
func without(req *season.Request, id string) (*season.Request, bool) {
	if id == "open-hours" {
		for _, e := range req.Events {
			if e.Active() && (!e.Zone.Equal(req.Athlete.Zone) || !e.EndZone.IsZero() && !e.EndZone.Equal(e.Zone)) {
				return nil, false
			}
		}
		return open(req), true
	}
	return seasontestValid(req, disabled(id))
}

// asGoodWith reports whether a plan of the same points keeps an aim over dates.
func asGoodWith(t *rapid.T, x *Exploration, m season.Missed) bool {
	t.Helper()
	miss, ok := x.missOf(m)
	if !ok {
		return true
	}
	w := x.w
	first := w.model.Days[w.model.From].N
	s, err := w.stretch(miss.From-first, miss.To-first)
	if err != nil {
		t.Fatal(err)
	}
	which, _ := wantedKinds(m.Aim)
	table, err := layered.CompileRule(s.options, w.need(miss, s, which), w.settings())
	if err != nil {
		t.Fatal(err)
	}
	sol, err := s.solve(context.Background(), w.static[s.from:s.to+1], &table)
	if err != nil {
		t.Fatal(err)
	}
	return sol.Status != layered.Infeasible && pointsOf(sol.Cost) <= pointsOf(s.cost())
}
