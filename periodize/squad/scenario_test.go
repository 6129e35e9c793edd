package squad

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// rink is an invented ice hockey squad of adults whose hall opens on one afternoon
// of the week, Thursday from 16:00, in slots of 45 minutes and 5 to change over.
// Those with an even number play on Saturday evening.
func rink(n int, closing calendar.Clock) *Request {
	zone := zoneOf("Europe/Helsinki")
	r := &Request{Period: season.Period{From: date("2026-11-16"), To: date("2026-11-22")}}
	r.Halls = []Hall{{Capacity: 8, SlotMinutes: 45, ChangeMinutes: 5, Place: season.Place{ID: "rink",
		Hours: []season.Hours{{Days: []time.Weekday{time.Thursday}, From: clock(16, 0), To: closing}}}}}
	for i := range n {
		a := Athlete{}
		a.Season.Athlete = season.Athlete{ID: fmt.Sprintf("h%02d", i+1), Born: season.YearMonth{Year: 1994 + i%9, Month: 3}, Zone: zone, TrainingAgeMonths: 48}
		a.Season.Places = []season.Place{{ID: "home"}}
		a.Season.Events = []calendar.Event{game(zone, "2026-11-21", 19, 30)}
		r.Athletes = append(r.Athletes, a)
	}
	return r
}

func game(zone calendar.Zone, d string, hour, minute int) calendar.Event {
	e := calendar.Event{ID: "g" + d, Kind: calendar.Game, Zone: zone, HasEnd: true, Start: calendar.Wall{Date: date(d), Clock: clock(hour, minute)}}
	e.End = e.Start.AddMinutes(120)
	return e
}

func plan(t *testing.T, r *Request) *Plan {
	t.Helper()
	p, err := (&Planner{}).Plan(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	check(t, r, p)
	return p
}

// on are the slots of a date.
func on(p *Plan, d string) []Slot {
	var out []Slot
	for _, s := range p.Slots {
		if s.Date == date(d) {
			out = append(out, s)
		}
	}
	return out
}

func seated(slots []Slot) int {
	n := 0
	for _, s := range slots {
		n += len(s.Seats)
	}
	return n
}

func TestRinkOfTwentyTwo(t *testing.T) {
	r := rink(22, clock(18, 30))
	p := plan(t, r)
	slots := on(p, "2026-11-19")
	// ceil(22/8) = 3 slots: 3 x 50 - 5 = 145 of 150 min.
	if len(slots) != 3 || slots[2].End.Sub(slots[0].Start) != 145*time.Minute {
		t.Fatalf("%d slots, the last ends %s", len(slots), slots[len(slots)-1].End)
	}
	if n := seated(slots); n != 22 || p.Proof != season.Proved || len(p.LeftOut) != 0 {
		t.Errorf("%d of 22 in the hall, %s, left out %v", n, p.Proof, p.LeftOut)
	}
	for _, s := range slots {
		if len(s.Seats) > 8 {
			t.Errorf("%s: %d athletes", s.Start, len(s.Seats))
		}
	}
}

// TestKindsTogether: 14 with a game on Saturday want full-body work on Thursday, 8
// with one on Friday a primer: two slots and one.
func TestKindsTogether(t *testing.T) {
	r := rink(22, clock(18, 30))
	for i := range r.Athletes {
		if i%3 == 1 || i == 0 {
			r.Athletes[i].Season.Events = []calendar.Event{game(r.Athletes[0].Season.Athlete.Zone, "2026-11-20", 19, 0)}
		}
	}
	p := plan(t, r)
	primers := 0
	for _, s := range on(p, "2026-11-19") {
		if len(s.Kinds) != 1 {
			t.Errorf("%s holds %v", s.Start, s.Kinds)
		}
		if slices.Contains(s.Kinds, season.Primer) {
			primers += len(s.Seats)
		}
	}
	if primers != 8 {
		t.Errorf("%d primers in the hall", primers)
	}
}

// TestSixAtHome: in 100 min there are 2 slots, 16 are served, and 6 train at home:
// those with the most lifts in the last 7 dates, then the most minutes, then the
// last ids.
func TestSixAtHome(t *testing.T) {
	r := rink(22, clock(17, 40))
	lifts := []int{1, 0, 2, 0, 1, 2, 0, 0, 1, 0, 2, 0, 1, 0, 0, 2, 0, 1, 0, 0, 1, 0}
	for i := range r.Athletes {
		a := &r.Athletes[i]
		a.Season.Events = append(a.Season.Events, game(a.Season.Athlete.Zone, "2026-11-14", 17, 0))
		a.Played = []Played{{"g2026-11-14", 10 + i*7%13}}
		for n := range lifts[i] { // on Monday and Wednesday of the week before
			d := date("2026-11-09").AddDays(2 * n)
			a.Season.Log = append(a.Season.Log, season.Done{Kind: season.FullBody, Start: calendar.Wall{Date: d, Clock: clock(17, 0)}})
		}
	}
	p := plan(t, r)
	if n := seated(on(p, "2026-11-19")); n != 16 {
		t.Fatalf("%d served", n)
	}
	var want []string
	order := make([]int, 22)
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { // the definition, once more
		if lifts[a] != lifts[b] {
			return lifts[a] - lifts[b]
		}
		if x, y := r.Athletes[a].Played[0].Minutes, r.Athletes[b].Played[0].Minutes; x != y {
			return x - y
		}
		return a - b
	})
	for _, i := range order[16:] {
		want = append(want, r.Athletes[i].id())
	}
	var got []string
	for _, x := range p.LeftOut {
		if x.Date == date("2026-11-19") && x.Home != "" {
			got = append(got, x.Athlete)
		}
	}
	slices.Sort(want)
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("at home %v, want %v: %v", got, want, p.LeftOut)
	}
}

// TestTooManyForOneCoach: under 14, one coach to 6: four slots do not fit.
func TestTooManyForOneCoach(t *testing.T) {
	r := rink(22, clock(18, 30))
	for i := range r.Athletes {
		a := &r.Athletes[i].Season.Athlete
		a.Born, a.TrainingAgeMonths = season.YearMonth{Year: 2013, Month: 4}, 14
	}
	r.Ratios = []Ratio{{Under: 14, Athletes: 6}}
	r.Coaches = []Coach{{ID: "c1"}}
	p := plan(t, r)
	slots := on(p, "2026-11-19")
	if n := seated(slots); n != 18 {
		t.Errorf("%d served", n)
	}
	said := false
	for _, f := range p.Findings {
		said = said || f.Code == FindingNarrow && strings.Contains(f.Text, "4 x 50 - 5 = 195 min needed, 150 open")
	}
	if !said {
		t.Errorf("%+v", p.Findings)
	}
	for _, a := range p.Athletes {
		for _, s := range a.Plan.Sessions {
			if s.Kind.Lift() && s.Place == "home" {
				t.Errorf("%s, 13 years, lifts at home on %s", a.Athlete, s.Date)
			}
		}
	}
}
