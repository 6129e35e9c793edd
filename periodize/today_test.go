package periodize

import (
	"context"
	"errors"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// privateWords as words: four letters in a row may stand in any digest.
var privateWords = regexp.MustCompile(`\b(groin|pain)\b`)

// TestTodayInRandomSeasons: whatever a day leads to, what is planned after it
// keeps the laws, and neither request nor plan handed in is touched. A day as
// written changes nothing of the rest; a held day has no session on its dates; no
// reason of the day is in the plan.
func TestTodayInRandomSeasons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{MinDates: 7, MaxDates: 12, Plain: true, Zones: seasontest.FixedZones})
		var p Planner
		plan, err := p.Plan(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(plan.Sessions, func(s season.Session) bool { return s.State == season.AsWritten && !s.Start.Before(plan.Now) })
		if i < 0 {
			t.Skip("nothing to train")
		}
		s := plan.Sessions[i]
		in := exercise.Input{Session: s, Athlete: req.Athlete, Kit: exercise.Gym()}
		card, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Skip(err)
		}
		report := rapid.SampledFrom([]exercise.CheckIn{
			{},
			{Energy: exercise.Read(2)},
			{Minutes: 20},
			{Pain: []exercise.Complaint{{Region: "groin", Side: "left", Pain: 4}}},
			{Ill: true},
			{Pain: []exercise.Complaint{{Region: "groin", Side: "left", Pain: 8}}},
		}).Draw(t, "report")
		result, err := exercise.Builder{}.Today(in, card, report)
		if err != nil {
			t.Fatal(err)
		}
		before, issued := string(jsonOf(t, req)), string(jsonOf(t, plan))
		week, err := p.Today(context.Background(), req, plan, card, result)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(before, string(jsonOf(t, req))) + cmp.Diff(issued, string(jsonOf(t, plan))); d != "" {
			t.Fatalf("what was handed in changed: %s", d)
		}
		next := week.Request
		next.Issued = append(next.Issued, *plan)
		lawful(t, &next, week.Plan)
		text := string(jsonOf(t, week.Plan)) + string(jsonOf(t, week.Request))
		if found := privateWords.FindString(text); found != "" {
			t.Fatalf("the reason of the day is in the plan: %s", found)
		}
		on := func(p *season.Plan) (out []season.Session) {
			for _, x := range p.Sessions {
				if x.ID == s.ID {
					out = append(out, x)
				}
			}
			return out
		}
		switch r := result.(type) {
		case exercise.AsWritten:
			if len(week.Changes) > 0 {
				t.Fatalf("a day as written changes %+v", week.Changes)
			}
		case exercise.Held:
			for _, x := range week.Plan.Sessions {
				if slices.Contains(r.Free, x.Date) && x.State != season.DoneState {
					t.Fatalf("%s on a held date", x.ID)
				}
				if r.Clearance && x.Date.After(s.Date) {
					t.Fatalf("%s in a hold", x.ID)
				}
			}
		default:
			if got := on(week.Plan); len(got) != 1 || got[0].Minutes != result.Effect().Minutes || got[0].Kind != result.Effect().Kind {
				t.Fatalf("%+v after %+v", got, result.Effect())
			}
		}
	})
}

// TestTodayLate: a session that was to begin and did not is missed, not done.
func TestTodayLate(t *testing.T) {
	req, plan := planned(t)
	s := plan.Sessions[0]
	card := exercise.Card{Session: s.ID, Date: s.Date, Kind: s.Kind}
	req.Now = s.Start.Add(1)
	held := exercise.Held{Free: nil}
	week, err := (&Planner{}).Today(context.Background(), req, plan, card, held)
	if err != nil {
		t.Fatal(err)
	}
	if slices.ContainsFunc(week.Plan.Sessions, func(x season.Session) bool { return x.ID == s.ID }) || !week.Request.Log[0].Missed {
		t.Errorf("it counts as done: %+v", week.Request.Log)
	}
}

// TestTodayWithoutASession: a hold that is told on a free date stands too.
func TestTodayWithoutASession(t *testing.T) {
	req, plan := planned(t)
	free := plan.Sessions[0].Date
	for slices.ContainsFunc(plan.Sessions, func(s season.Session) bool { return s.Date == free }) {
		free = free.AddDays(1)
	}
	in := exercise.Input{Session: season.Session{Date: free}, Athlete: req.Athlete}
	for _, x := range []struct {
		report exercise.CheckIn
		until  int // dates from it on without a session; -1: all
	}{{exercise.CheckIn{Ill: true}, 2}, {exercise.CheckIn{Signs: []exercise.Sign{exercise.Fainting}}, -1}} {
		result, err := exercise.Builder{}.Today(in, exercise.Card{}, x.report)
		if err != nil {
			t.Fatal(err)
		}
		week, err := (&Planner{}).Today(context.Background(), req, plan, exercise.Card{}, result)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range week.Plan.Sessions {
			if n := s.Date.DaysSince(free); n >= 0 && (x.until < 0 || n < x.until) {
				t.Errorf("%+v: %s on %s", x.report, s.Kind, s.Date)
			}
			if before := slices.ContainsFunc(plan.Sessions, func(o season.Session) bool { return o.ID == s.ID }); s.Date.Before(free) && !before {
				t.Errorf("%+v: %s of before is new", x.report, s.ID)
			}
		}
	}
}

func TestTodayOfWhat(t *testing.T) {
	req, plan := planned(t)
	held := exercise.Held{}
	for _, x := range []struct {
		name   string
		req    *season.Request
		plan   *season.Plan
		card   string
		result exercise.Result
	}{
		{"no request", nil, plan, plan.Sessions[0].ID, held},
		{"no plan", req, nil, plan.Sessions[0].ID, held},
		{"no result", req, plan, plan.Sessions[0].ID, nil},
		{"no such session", req, plan, "2026-11-09x", held},
	} {
		_, err := (&Planner{}).Today(context.Background(), x.req, x.plan, exercise.Card{Session: x.card}, x.result)
		var bad *season.InputError
		if !errors.As(err, &bad) || len(bad.Problems) != 1 || bad.Problems[0].Remedy == "" {
			t.Errorf("%s: %v", x.name, err)
		}
	}
}

// planned is a week with a game on Saturday, and its plan.
func planned(t *testing.T) (*season.Request, *season.Plan) {
	t.Helper()
	req, err := season.ReadRequest(strings.NewReader(`{"schema": 1, "period": {"from": "2026-11-09", "to": "2026-11-22"},
		"athlete": {"id": "a7", "born": "2001-05", "zone": "Europe/Berlin", "trainingAgeYears": 4,
			"hours": [{"days": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"], "from": "10:00", "to": "20:00"}]},
		"events": [{"id": "g8", "kind": "game", "start": "2026-11-14T18:00", "end": "2026-11-14T19:45"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	plan, err := (&Planner{}).Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return req, plan
}
