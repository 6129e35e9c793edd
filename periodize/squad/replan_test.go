package squad

import (
	"context"
	"slices"
	"testing"
	"time"

	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

func replan(t *testing.T, r *Request, last *Plan) *Plan {
	t.Helper()
	p, err := (&Planner{}).Replan(context.Background(), r, last)
	if err != nil {
		t.Fatal(err)
	}
	now := *r
	now.Issued = last
	check(t, &now, p)
	return p
}

func moved(p *Plan) []string {
	var out []string
	for _, s := range p.Moved {
		out = append(out, s.Athlete)
	}
	return out
}

// TestRackBreaks: of 22 in slots of 8, 8 and 6 and with a place less in each, two
// have to leave the full slots; one of them finds the seventh place of the third.
func TestRackBreaks(t *testing.T) {
	r := rink(22, clock(18, 30))
	first := plan(t, r)
	full := 0
	for _, s := range on(first, "2026-11-19") {
		full += max(0, len(s.Seats)-7)
	}
	r.Halls[0].Capacity = 7
	second := replan(t, r, first)
	if n := len(second.Moved); full == 0 || n != full {
		t.Errorf("%d moved, want %d: %v", n, full, moved(second))
	}
	if n := seated(on(second, "2026-11-19")); n != 21 {
		t.Errorf("%d in 21 places", n)
	}
	for _, s := range second.Moved {
		if s.Affected || len(s.Changes)+len(s.Places) == 0 {
			t.Errorf("%+v", s)
		}
	}
}

func TestNothingChangedChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := draw(t)
		first, err := (&Planner{}).Plan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		second, err := (&Planner{}).Replan(context.Background(), r, first)
		if err != nil {
			t.Fatal(err)
		}
		if len(second.Moved) > 0 {
			t.Fatalf("moved %+v", second.Moved)
		}
		if second.Points != first.Points {
			t.Fatalf("%d points, %d before", second.Points, first.Points)
		}
	})
}

// TestHallCloses: when the hall closes on a date, exactly those who were to come are
// moved.
func TestHallCloses(t *testing.T) {
	r := club(12, 14, 3)
	first := plan(t, r)
	day := date("2026-11-13")
	var there []string
	for _, s := range on(first, day.String()) {
		for _, seat := range s.Seats {
			there = append(there, seat.Athlete)
		}
	}
	r.Now = time.Date(2026, 11, 11, 7, 0, 0, 0, time.UTC)
	r.Halls[0].Place.Closed = []season.Period{{From: day, To: day}}
	second := replan(t, r, first)
	slices.Sort(there)
	if got := moved(second); len(there) == 0 || !slices.Equal(got, there) {
		t.Errorf("moved %v, there were %v", got, there)
	}
}

// TestGameMovesForHalf: those whose game moves are planned again, and of the others
// only who has to make room.
func TestGameMovesForHalf(t *testing.T) {
	r := club(12, 14, 3)
	first := plan(t, r)
	var team []string
	for i := range r.Athletes {
		a := &r.Athletes[i]
		if i%3 != 1 {
			continue
		}
		team = append(team, a.id())
		next, err := season.Apply(r.seasonOf(a), season.Move("g12", "2026-11-20T19:30"))
		if err != nil {
			t.Fatal(err)
		}
		a.Season.Events = next.Events
	}
	r.Now = time.Date(2026, 11, 16, 7, 0, 0, 0, time.UTC)
	second := replan(t, r, first)
	others := 0
	for _, s := range second.Moved {
		if s.Affected != slices.Contains(team, s.Athlete) {
			t.Errorf("%s: affected %v", s.Athlete, s.Affected)
		}
		if !s.Affected {
			others++
		}
	}
	if others > 1 || len(second.Moved) < len(team) {
		t.Errorf("moved %v, the game moved for %v", moved(second), team)
	}
	for _, a := range second.Athletes { // what is past stays
		for _, s := range first.planOf(a.Athlete).Sessions {
			if s.Start.Before(r.Now) && !slices.ContainsFunc(a.Plan.Sessions, func(x season.Session) bool { return x.ID == s.ID && x.Start.Equal(s.Start) }) {
				t.Errorf("%s: %s is past and gone", a.Athlete, s.ID)
			}
		}
	}
}

// TestReplanKeepsTheLimits: whatever becomes of the hall, the plan after it is as
// sound as one made from nothing, and says of everybody whether something changes.
func TestReplanKeepsTheLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := draw(t)
		for i := range r.Athletes {
			r.Athletes[i].Season.Pins = nil
		}
		first, err := (&Planner{}).Plan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		next := *r
		next.Halls = slices.Clone(r.Halls)
		h := &next.Halls[0]
		h.Capacity = rapid.IntRange(1, 4).Draw(t, "capacity now")
		if rapid.Bool().Draw(t, "closes") {
			d := r.Period.From.AddDays(rapid.IntRange(0, r.Period.Days()-1).Draw(t, "on"))
			h.Place.Closed = []season.Period{{From: d, To: d}}
		}
		next.Now = r.Athletes[0].Season.Athlete.Zone.DayStart(r.Period.From.AddDays(rapid.IntRange(0, 2).Draw(t, "days later")))
		second, err := (&Planner{}).Replan(context.Background(), &next, first)
		if err != nil {
			t.Fatal(err)
		}
		next.Issued = first
		check(t, &next, second)
		for _, a := range second.Athletes {
			slip := Slip{}
			if at := slices.IndexFunc(second.Moved, func(s Slip) bool { return s.Athlete == a.Athlete }); at >= 0 {
				slip = second.Moved[at]
			}
			told(t, first.planOf(a.Athlete), a.Plan, slip)
		}
	})
}

// TestPinsAboveCapacity: three people pinned to a slot of one place stay there, and
// the plan says so; nobody else is put beside them.
func TestPinsAboveCapacity(t *testing.T) {
	r := rink(6, clock(18, 30))
	r.Halls[0].Capacity = 1
	at := clock(16, 50)
	for i := range 3 {
		r.Athletes[i].Season.Pins = []season.Pin{{Date: date("2026-11-19"), Kind: season.FullBody, Start: &at, Place: "rink"}}
	}
	p, err := (&Planner{}).Plan(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	slots := on(p, "2026-11-19")
	said := slices.ContainsFunc(p.Findings, func(f season.Note) bool { return f.Code == FindingOver })
	if len(slots[1].Seats) != 3 || len(slots[0].Seats) != 1 || !said {
		t.Errorf("%+v, said %v", slots, said)
	}
}

// TestMovePoints: where moving people costs little, more of them are moved and the
// squad misses less.
func TestMovePoints(t *testing.T) {
	r := club(12, 14, 4)
	first := plan(t, r)
	r.Halls[0].Capacity = 2
	few := replan(t, r, first)
	r.MovePoints = 1
	many := replan(t, r, first)
	if len(many.Moved) <= len(few.Moved) || many.Points >= few.Points {
		t.Errorf("%d moved for %d points, with little to pay %d for %d", len(few.Moved), few.Points, len(many.Moved), many.Points)
	}
}

// told demands of a slip that it says all there is: who has the old plan and the slip
// knows the new one, by start, kind and place.
func told(t interface{ Fatalf(string, ...any) }, last, now *season.Plan, slip Slip) {
	type at struct {
		start int64
		kind  season.Kind
	}
	places := map[at]string{}
	for _, s := range last.Sessions {
		places[at{s.Start.Unix(), s.Kind}] = s.Place
	}
	kept := map[at]string{}
	for _, c := range slip.Changes {
		old := c.Kind
		if c.OldKind != "" {
			old = c.OldKind
		}
		place := ""
		if c.From != nil {
			from := at{c.From.Unix(), old}
			if _, ok := places[from]; !ok {
				t.Fatalf("%s %s was not in the plan", old, c.From)
			}
			place = places[from]
			delete(places, from)
		}
		if c.To != nil {
			kept[at{c.To.Unix(), c.Kind}] = place
		}
	}
	for k, v := range kept {
		places[k] = v
	}
	moved := map[int64]string{}
	for _, x := range slip.Places {
		moved[x.Start.Unix()] = x.To
	}
	if len(places) != len(now.Sessions) {
		t.Fatalf("%d sessions by the slip, %d in the plan: %+v", len(places), len(now.Sessions), slip)
	}
	for _, s := range now.Sessions {
		place, ok := places[at{s.Start.Unix(), s.Kind}]
		if to, told := moved[s.Start.Unix()]; told {
			place = to
		}
		if !ok || (place != "" && place != s.Place) {
			t.Fatalf("%s %s in %s is not told: %+v", s.Kind, s.Start, s.Place, slip)
		}
	}
}
