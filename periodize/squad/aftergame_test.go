package squad

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"example.org/weft/periodize/season"
)

// TestAfterGame: the morning after a game on Saturday. Who played 60 minutes or more
// recovers on Sunday, who played less lifts, trimmed if there were any minutes.
func TestAfterGame(t *testing.T) {
	r := rink(9, clock(18, 30))
	r.Halls[0].Capacity = 4
	r.Halls[0].Place.Hours = append(r.Halls[0].Place.Hours, season.Hours{Days: weekend, From: clock(10, 0), To: clock(12, 0)})
	r.Period = season.Period{From: date("2026-11-18"), To: date("2026-11-29")} // so that a third lift in 7 dates is left
	for i := range r.Athletes {
		r.Athletes[i].Season.Events = append(r.Athletes[i].Season.Events, game(r.Athletes[i].Season.Athlete.Zone, "2026-11-28", 19, 30))
	}
	r.Athletes[7].Season.Athlete.Role = "goalkeeper"
	first := plan(t, r)
	r.Now = time.Date(2026, 11, 21, 22, 30, 0, 0, time.UTC)
	minutes := []PlayedBy{{"h01", 60}, {"h02", 0}, {"h03", 71}, {"h04", 59}, {"h05", 0}, {"h06", 12}, {"h07", 90}, {"h08", 0}}
	out, err := (&Planner{}).AfterGame(context.Background(), r, first, "g2026-11-21", minutes)
	if err != nil {
		t.Fatal(err)
	}
	want := Split{Starters: []string{"h01", "h03", "h07"}, TopUp: []string{"h02", "h04", "h05", "h06", "h08"}, Keepers: []string{"h08"}, Unknown: []string{"h09"}}
	if s := out.Split; !slices.Equal(s.Starters, want.Starters) || !slices.Equal(s.TopUp, want.TopUp) || !slices.Equal(s.Keepers, want.Keepers) || !slices.Equal(s.Unknown, want.Unknown) {
		t.Errorf("%+v", s)
	}
	next := *out.Request
	next.Issued = first
	check(t, &next, out.Plan)
	for _, a := range out.Plan.Athletes {
		var kind season.Kind
		for _, s := range a.Plan.Sessions {
			if s.Date == date("2026-11-22") {
				kind = s.Kind
			}
		}
		top := slices.Contains(want.TopUp, a.Athlete)
		if top != kind.Lift() || (!top && kind != season.Recovery) {
			t.Errorf("%s: %q on the day after, top-up %v", a.Athlete, kind, top)
		}
		if (a.Athlete == "h04" || a.Athlete == "h06") && kind != season.Trimmed {
			t.Errorf("%s: %s less than 24 h after minutes in a game", a.Athlete, kind)
		}
	}
	asked := 0
	for _, x := range out.Plan.Assumed {
		if x.Code == CodeNoMinutes && x.Value == "h09" {
			asked++
		}
	}
	if asked != 1 {
		t.Errorf("asked %d times about h09: %v", asked, out.Plan.Assumed)
	}
	if len(r.Athletes[1].TopUps) > 0 || r.Athletes[1].Season.Events[0].Kind != "game" {
		t.Error("the request that was handed over has changed")
	}
}

func TestAfterGameBadInput(t *testing.T) {
	r := rink(3, clock(18, 30))
	_, err := (&Planner{}).AfterGame(context.Background(), r, nil, "g2026-11-21", []PlayedBy{{"h01", -1}, {"nobody", 3}, {"h02", 4}, {"h02", 5}})
	var bad *season.InputError
	if !errors.As(err, &bad) || len(bad.Problems) != 3 {
		t.Fatalf("%v", err)
	}
	if _, err = (&Planner{}).AfterGame(context.Background(), r, nil, "g9", []PlayedBy{{"h01", 3}}); !errors.As(err, &bad) || bad.Problems[0].Code != season.CodeUnknownEvent {
		t.Errorf("%v", err)
	}
	if _, err = (&Planner{}).AfterGame(context.Background(), nil, nil, "g9", nil); !errors.As(err, &bad) {
		t.Errorf("%v", err)
	}
}
