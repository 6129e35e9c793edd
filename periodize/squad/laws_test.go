package squad

import (
	"context"
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// draw draws a squad: one or two halls, teams with games and practices, minors,
// coaches, people with a log, and a few pins.
func draw(t *rapid.T) *Request {
	n := func(label string, low, high int) int { return rapid.IntRange(low, high).Draw(t, label) }
	odds := func(label string, in int) bool { return n(label, 1, in) == in }
	zone := zoneOf(rapid.SampledFrom([]string{"Europe/Amsterdam", "America/New_York", "Australia/Lord_Howe"}).Draw(t, "zone"))
	from := date(rapid.SampledFrom([]string{"2026-11-09", "2026-10-19", "2027-03-24"}).Draw(t, "from"))
	days := n("days", 4, 12)
	r := &Request{Period: season.Period{From: from, To: from.AddDays(days - 1)}}
	for i := range n("halls", 1, 2) {
		opens := n("opens", 14, 18)
		h := Hall{Capacity: n("capacity", 1, 3), SlotMinutes: rapid.SampledFrom([]int{45, 60, 35}).Draw(t, "slot"), ChangeMinutes: n("change", 0, 10),
			Place: season.Place{ID: fmt.Sprintf("hall%d", i), Hours: []season.Hours{{Days: allDays, From: clock(opens, 0), To: clock(opens+n("hours", 1, 3), 30)}}}}
		if odds("closed", 3) {
			h.Place.Closed = []season.Period{{From: from.AddDays(2), To: from.AddDays(3)}}
		}
		r.Halls = append(r.Halls, h)
	}
	for i := range n("coaches", 0, 2) {
		c := Coach{ID: fmt.Sprintf("c%d", i), Hall: r.Halls[i%len(r.Halls)].Place.ID}
		if odds("some hours", 2) {
			c.Hours = []season.Hours{{Days: workdays, From: clock(15, 0), To: clock(19, 0)}}
			if odds("in two parts", 2) {
				c.Hours = []season.Hours{{Days: workdays, From: clock(15, 0), To: clock(16, 20)}, {Days: workdays[1:], From: clock(16, 20), To: clock(19, 0)}}
			}
		}
		r.Coaches = append(r.Coaches, c)
	}
	if odds("kinds cost", 4) {
		r.KindPoints = n("kind points", 1, 9)
	}
	if odds("ratios", 2) {
		r.Ratios = []Ratio{{Under: 18, Athletes: n("young", 1, 3)}, {Athletes: n("adults", 2, 4)}}
	}
	for i := range n("athletes", 2, 6) {
		a := Athlete{SupervisedHome: odds("supervised", 4)}
		a.Season.Athlete = season.Athlete{ID: fmt.Sprintf("a%d", i), Zone: zone, TrainingAgeMonths: n("training", 1, 4) * 12,
			Born: season.YearMonth{Year: rapid.SampledFrom([]int{1999, 1994, 2009, 2012}).Draw(t, "born"), Month: n("month", 1, 12)}}
		if odds("unknown age", 8) {
			a.Season.Athlete.Born = season.YearMonth{}
		}
		if odds("home", 2) {
			a.Season.Places = []season.Place{{ID: "home"}}
		}
		a.Season.Events = teamEvents(zone, from, days, n("team", 0, 2))
		if odds("log", 3) {
			a.Season.Log = []season.Done{{Kind: season.FullBody, Start: calendar.Wall{Date: from.AddDays(-n("ago", 1, 9)), Clock: clock(16, 0)}}}
		}
		if odds("pin", 6) {
			at := clock(16, 30)
			a.Season.Pins = []season.Pin{{Date: from.AddDays(3), Kind: season.Recovery, Start: &at, Place: r.Halls[0].Place.ID}}
		}
		if odds("held", 12) {
			a.Season.Athlete.Holds = []season.Hold{{From: from.AddDays(-3)}}
		}
		r.Athletes = append(r.Athletes, a)
	}
	return r
}

// pinned reports whether somebody pinned a session.
func pinned(r *Request) bool {
	return slices.ContainsFunc(r.Athletes, func(a Athlete) bool { return len(a.Season.Pins) > 0 })
}

func TestNobodyAboveTheLimits(t *testing.T) {
	bounded, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		all++
		r := draw(t)
		for i := range r.Athletes {
			r.Athletes[i].Season.Pins = nil // a pin may break a limit; that is reported
		}
		before, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		p, err := (&Planner{}).Plan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		check(t, r, p)
		if after, _ := json.Marshal(r); string(after) != string(before) {
			t.Error("planning changed the request")
		}
		if p.Proof != season.Proved && r.KindPoints == 0 {
			bounded++
		}
	})
	if 20*bounded > all {
		t.Errorf("%d of %d small squads are not proved", bounded, all)
	}
}

func TestOrderAndWorkersChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := draw(t)
		first, err := (&Planner{}).Plan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		want := text(t, first)
		for _, workers := range []int{2, 8} {
			p, err := (&Planner{Workers: workers}).Plan(context.Background(), r)
			if err != nil {
				t.Fatal(err)
			}
			if got := text(t, p); got != want {
				t.Fatalf("%d workers give another plan", workers)
			}
		}
		other := *r
		other.Athletes = rapid.Permutation(r.Athletes).Draw(t, "athletes")
		other.Halls = rapid.Permutation(r.Halls).Draw(t, "halls")
		other.Coaches = rapid.Permutation(r.Coaches).Draw(t, "coaches")
		other.Ratios = rapid.Permutation(r.Ratios).Draw(t, "ratios")
		p, err := (&Planner{}).Plan(context.Background(), &other)
		if err != nil {
			t.Fatal(err)
		}
		p.Assumed, first.Assumed = nil, nil // their paths count the athletes
		if got, want := text(t, p), text(t, first); got != want {
			t.Fatalf("another order gives another plan:\n%s\n%s", got, want)
		}
	})
}

// TestNamesMeanNothing: the same athletes under other ids in the same order get the
// same plans.
func TestNamesMeanNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := draw(t)
		first, err := (&Planner{}).Plan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		other := *r
		other.Athletes = slices.Clone(r.Athletes)
		for i := range other.Athletes {
			other.Athletes[i].Season.Athlete.ID = "z" + r.Athletes[i].id() + "q"
		}
		p, err := (&Planner{}).Plan(context.Background(), &other)
		if err != nil {
			t.Fatal(err)
		}
		for i := range p.Athletes {
			if p.Athletes[i].Athlete != "z"+first.Athletes[i].Athlete+"q" || !reflect.DeepEqual(p.Athletes[i].Plan.Sessions, first.Athletes[i].Plan.Sessions) {
				t.Fatalf("%s is planned otherwise under another name", first.Athletes[i].Athlete)
			}
		}
	})
}

// TestMoreRoomIsNeverWorse: a place more, or an hour more at the end, costs no
// points.
func TestMoreRoomIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := draw(t)
		if pinned(r) {
			return // what pins fill may be in another slot then
		}
		first, err := (&Planner{Nodes: 500}).Plan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		other := *r
		other.Halls = slices.Clone(r.Halls)
		other.Halls[0].Capacity++
		h := &other.Halls[len(other.Halls)-1]
		h.Place.Hours = slices.Clone(h.Place.Hours)
		h.Place.Hours[0].To += calendar.Clock(time.Hour / time.Second)
		p, err := (&Planner{Nodes: 500}).Plan(context.Background(), &other)
		if err != nil {
			t.Fatal(err)
		}
		if p.Bound > first.Points || (p.Proof == season.Proved && p.Points > first.Points) {
			t.Fatalf("%d points with more room, bound %d, %d before", p.Points, p.Bound, first.Points)
		}
	})
}

func text(t interface{ Fatal(...any) }, p *Plan) string {
	b, err := json.MarshalIndent(p, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}
