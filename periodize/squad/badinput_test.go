package squad

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

func TestBadInput(t *testing.T) {
	for _, x := range []struct {
		name  string
		spoil func(r *Request)
		code  string
		class calendar.Class
		path  string
	}{
		{"capacity 0", func(r *Request) { r.Halls[0].Capacity = 0 }, CodeRange, calendar.ClassError, "/halls/0/capacity"},
		{"slot of a minute", func(r *Request) { r.Halls[0].SlotMinutes = 1 }, CodeRange, calendar.ClassError, "/halls/0/slotMinutes"},
		{"negative change-over", func(r *Request) { r.Halls[0].ChangeMinutes = -5 }, CodeRange, calendar.ClassError, "/halls/0/changeMinutes"},
		{"closes before it opens", func(r *Request) { r.Halls[0].Place.Hours[1].To = clock(8, 15) }, CodeClosing, calendar.ClassError, "/halls/0/hours/1/to"},
		{"never open", func(r *Request) { r.Halls[0].Place.Hours = nil }, CodeMissing, calendar.ClassError, "/halls/0/hours"},
		{"shorter than a slot", func(r *Request) { r.Halls[0].Place.Hours[1].To = clock(9, 50) }, CodeNoSlot, calendar.ClassWarning, "/halls/0/hours/1"},
		{"hall twice", func(r *Request) { r.Halls = append(r.Halls, r.Halls[0]) }, CodeTwice, calendar.ClassError, "/halls/1/id"},
		{"hall of another zone", func(r *Request) { r.Halls[0].Place.Zone = zoneOf("Asia/Tokyo") }, CodeZones, calendar.ClassError, "/halls/0/zone"},
		{"travelling hall", func(r *Request) { r.Halls[0].Place.Away = true }, CodeAway, calendar.ClassError, "/halls/0/away"},
		{"no hall", func(r *Request) { r.Halls = nil }, CodeMissing, calendar.ClassError, "/halls"},
		{"nobody", func(r *Request) { r.Athletes = nil }, CodeMissing, calendar.ClassError, "/athletes"},
		{"athlete twice", func(r *Request) { r.Athletes[3].Season.Athlete.ID = "a01" }, CodeTwice, calendar.ClassError, "/athletes/3/athlete/id"},
		{"athlete without id", func(r *Request) { r.Athletes[3].Season.Athlete.ID = "" }, CodeMissing, calendar.ClassError, "/athletes/3/athlete/id"},
		{"another zone", func(r *Request) { r.Athletes[2].Season.Athlete.Zone = zoneOf("Asia/Tokyo") }, CodeZones, calendar.ClassError, "/athletes/2/athlete/zone"},
		{"an event of an athlete", func(r *Request) { r.Athletes[1].Season.Events[0].End.Date = date("2026-11-01") }, season.CodeEnd, calendar.ClassError, "/athletes/1/events/0/end"},
		{"minors without a ratio", young, CodeNoRatio, calendar.ClassQuestion, "/ratios"},
		{"minors without a coach", young, CodeNoCoach, calendar.ClassQuestion, "/coaches"},
		{"ratio 0", func(r *Request) { r.Ratios = []Ratio{{Under: 18}} }, CodeRange, calendar.ClassError, "/ratios/0/athletes"},
		{"ratio twice", func(r *Request) { r.Ratios = []Ratio{{18, 5}, {18, 6}} }, CodeTwice, calendar.ClassError, "/ratios/1/under"},
		{"coach of no hall", func(r *Request) { r.Coaches = []Coach{{ID: "c", Hall: "attic"}} }, CodeUnknownHall, calendar.ClassError, "/coaches/0/hall"},
		{"coach twice", func(r *Request) { r.Coaches = []Coach{{ID: "c"}, {ID: "c"}} }, CodeTwice, calendar.ClassError, "/coaches/1/id"},
		{"away backwards", func(r *Request) {
			r.Coaches = []Coach{{ID: "c", Away: []season.Period{{From: date("2026-11-20"), To: date("2026-11-13")}}}}
		}, season.CodeSpan, calendar.ClassError, "/coaches/0/away/0"},
		{"too long", func(r *Request) { r.Period.To = r.Period.From.AddDays(56) }, CodeLimit, calendar.ClassError, "/period/to"},
		{"backwards", func(r *Request) { r.Period.To = date("2026-11-02") }, season.CodeSpan, calendar.ClassError, "/period/to"},
		{"too many", func(r *Request) {
			for i := range MaxAthletes {
				a := r.Athletes[0]
				a.Season.Athlete.ID = fmt.Sprintf("b%d", i)
				r.Athletes = append(r.Athletes, a)
			}
		}, CodeLimit, calendar.ClassError, "/athletes"},
		{"home at any price", func(r *Request) { r.HomePoints = 1001 }, CodeRange, calendar.ClassError, "/homePoints"},
		{"kinds at any price", func(r *Request) { r.KindPoints = 101 }, CodeRange, calendar.ClassError, "/kindPoints"},
		{"nobody is affected", func(r *Request) { r.Affected = []string{"a99"} }, CodeUnknownAthlete, calendar.ClassError, "/affected/0"},
		{"hall and place", func(r *Request) { r.Athletes[0].Season.Places = []season.Place{{ID: "hall"}} }, CodeHallAndPlace, calendar.ClassWarning, "/athletes/0/places"},
		{"minutes of some", func(r *Request) { r.Athletes[0].Played = []Played{{"g5", 31}} }, CodeNoMinutes, calendar.ClassQuestion, "/athletes"},
		{"minutes below 0", func(r *Request) { r.Athletes[0].Played = []Played{{"g5", -1}} }, CodeRange, calendar.ClassError, "/athletes/0/played/0/minutes"},
	} {
		t.Run(x.name, func(t *testing.T) {
			r := club(5, 7, 2)
			x.spoil(r)
			found := false
			for _, p := range r.Validate() {
				found = found || (p.Code == x.code && p.Class == x.class && p.Path == x.path && p.Reason != "" && p.Remedy != "")
			}
			if !found {
				t.Errorf("want %s %s at %s, got %v", x.class, x.code, x.path, r.Validate())
			}
			p, err := (&Planner{}).Plan(context.Background(), r)
			var bad *season.InputError
			switch {
			case x.class == calendar.ClassError && (!errors.As(err, &bad) || p != nil):
				t.Errorf("planned: %v", err)
			case x.class != calendar.ClassError && err != nil:
				t.Errorf("not planned: %v", err)
			case err == nil:
				said := false
				for _, a := range p.Assumed {
					said = said || a.Code == x.code
				}
				if !said {
					t.Errorf("the plan does not say what was assumed: %v", p.Assumed)
				}
			}
		})
	}
}

func young(r *Request) {
	for i := range 3 {
		r.Athletes[i].Season.Athlete.Born = season.YearMonth{Year: 2011, Month: 2 + i}
	}
}

// TestAllAtOnce: every problem of halls, coaches and athletes in one answer.
func TestAllAtOnce(t *testing.T) {
	r := club(5, 7, 2)
	r.Halls[0].Capacity = -1
	r.Coaches = []Coach{{Hall: "attic"}}
	r.Ratios = []Ratio{{Under: -2}}
	r.Athletes[4].Season.Athlete.ID = "a02"
	r.Athletes[1].Season.Events[1].Start.Date = calendar.Date{}
	_, err := (&Planner{}).Plan(context.Background(), r)
	var bad *season.InputError
	if !errors.As(err, &bad) || len(bad.Problems) < 6 {
		t.Fatalf("%v", err)
	}
}

func TestRatio(t *testing.T) {
	r := club(1, 7, 2)
	for _, x := range []struct {
		born season.YearMonth
		list []Ratio
		want int
	}{
		{season.YearMonth{Year: 1999, Month: 3}, nil, 20},
		{season.YearMonth{Year: 2012, Month: 3}, nil, 10}, // most protective, and asked
		{season.YearMonth{}, nil, 10},
		{season.YearMonth{Year: 2012, Month: 3}, DefaultRatios(), 15}, // 14 years
		{season.YearMonth{Year: 2013, Month: 3}, DefaultRatios(), 10}, // 13 years
		{season.YearMonth{Year: 1999, Month: 3}, DefaultRatios(), 20},
		{season.YearMonth{Year: 2012, Month: 3}, []Ratio{{0, 9}, {16, 4}, {18, 7}}, 4},
		{season.YearMonth{Year: 2010, Month: 3}, []Ratio{{0, 9}, {16, 4}, {18, 7}}, 7},
		{season.YearMonth{Year: 2001, Month: 3}, []Ratio{{0, 9}, {16, 4}, {18, 7}}, 9},
		{season.YearMonth{Year: 2010, Month: 3}, []Ratio{{14, 4}}, 10},
	} {
		r.Athletes[0].Season.Athlete.Born, r.Ratios = x.born, x.list
		if got := r.ratio(&r.Athletes[0]); got != x.want {
			t.Errorf("born %s, %v: one coach to %d, want %d", x.born, x.list, got, x.want)
		}
	}
}

// TestCoachesNeeded: coaches are the athletes over the ratio, rounded up: 30 at 15
// are 2, 31 are 3, 21 at 10 are 3 (derived from the ratios' words).
func TestCoachesNeeded(t *testing.T) {
	for _, x := range []struct{ athletes, ratio, coaches int }{{30, 15, 2}, {31, 15, 3}, {21, 10, 3}} {
		for coaches := x.coaches - 1; coaches <= x.coaches; coaches++ {
			r := rink(x.athletes, clock(16, 50)) // one slot
			r.Halls[0].Capacity = 40
			r.Ratios = []Ratio{{Athletes: x.ratio}}
			for i := range coaches {
				r.Coaches = append(r.Coaches, Coach{ID: fmt.Sprint("c", i)})
			}
			want := min(x.athletes, coaches*x.ratio)
			if got := seated(on(plan(t, r), "2026-11-19")); got != want {
				t.Errorf("%d athletes, one coach to %d, %d coaches: %d in the hall, want %d", x.athletes, x.ratio, coaches, got, want)
			}
		}
	}
}

// TestTooManySlots: six halls open day and night are refused before anything is
// planned.
func TestTooManySlots(t *testing.T) {
	r := club(3, 56, 2)
	h := r.Halls[0]
	h.SlotMinutes, h.ChangeMinutes = 20, 0
	h.Place.Hours = []season.Hours{{Days: allDays, From: 0, To: calendar.EndOfDay}}
	r.Halls = nil
	for i := range MaxHalls {
		h.Place.ID = fmt.Sprint("hall ", i)
		r.Halls = append(r.Halls, h)
	}
	_, err := (&Planner{}).Plan(context.Background(), r)
	var bad *season.InputError
	if !errors.As(err, &bad) || bad.Problems[0].Code != CodeLimit || bad.Problems[0].Path != "/halls" {
		t.Errorf("%v", err)
	}
}

func TestNoRequest(t *testing.T) {
	_, err := (&Planner{}).Plan(context.Background(), nil)
	var bad *season.InputError
	if !errors.As(err, &bad) {
		t.Errorf("%v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if p, err := (&Planner{}).Plan(ctx, club(5, 14, 2)); !errors.Is(err, context.Canceled) || p != nil {
		t.Errorf("cancelled: %v, %v", p, err)
	}
}
