package whatif_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
	"pgregory.net/rapid"
)

func instant(zone calendar.Zone, wall string) time.Time {
	w, err := calendar.ParseWall(wall)
	if err != nil {
		panic(err) // of a test
	}
	return zone.Resolve(w).Instant
}

// choices are a plan's sessions from one instant to another.
func choices(p *season.Plan, from, to time.Time) []string {
	var out []string
	for _, s := range p.Sessions {
		if !s.Start.Before(from) && s.Start.Before(to) {
			out = append(out, fmt.Sprintln(s.Start.Unix(), s.End.Unix(), s.Kind, s.Place))
		}
	}
	return out
}

// unlogged is a plan without what the request tells as done: in a season that has
// not begun for somebody on a journey, that can lie after now.
func unlogged(req *season.Request, p *season.Plan) *season.Plan {
	out := *p
	out.Sessions = slices.DeleteFunc(slices.Clone(p.Sessions), func(s season.Session) bool {
		return slices.ContainsFunc(req.Log, func(d season.Done) bool { return s.ID == d.ID || s.ID == d.Session })
	})
	return &out
}

// checkFork checks what holds for every fork: the branches share their sessions
// until the instant, each plan is legal on its branch and costs what is said, no
// price is negative, and bound, points and price agree.
func checkFork(t interface{ Fatalf(string, ...any) }, base *season.Request, f *whatif.Fork, got *whatif.Forked) {
	planner := periodize.Planner{Brief: true}
	ctx := context.Background()
	far := instant(base.Athlete.Zone, "2100-01-01T00:00")
	var points, knowing, weight int64
	for i, b := range got.Branches {
		if b.Price < 0 || b.Weight < 1 {
			t.Fatalf("%s: price %d, weight %d", b.Name, b.Price, b.Weight)
		}
		req, _, err := whatif.Apply(*base, f.Branches[i].Change)
		if err != nil {
			t.Fatalf("%v", err)
		}
		made, err := planner.Plan(ctx, &req)
		if err != nil {
			t.Fatalf("%v", err)
		}
		if b.KnowingPoints > made.Cost.Points && made.Outcome == season.Planned {
			t.Fatalf("%s: whoever knows pays %d, the plan %d", b.Name, b.KnowingPoints, made.Cost.Points)
		}
		start := made.Now
		shared := season.Plan{Sessions: got.Shared}
		a, c := choices(unlogged(base, b.Plan), start, got.Known), choices(&shared, start, got.Known)
		if fmt.Sprint(a) != fmt.Sprint(c) {
			t.Fatalf("%s: not the shared sessions until %s:\n%v\n%v", b.Name, got.Known, a, c)
		}
		whole := season.Plan{Sessions: append([]season.Session(nil), got.Shared...)}
		for _, s := range b.Plan.Sessions {
			if !s.Start.Before(got.Known) {
				whole.Sessions = append(whole.Sessions, s)
			}
		}
		e, err := planner.Evaluate(ctx, &req, &whole)
		if err != nil {
			t.Fatalf("%v", err)
		}
		if !e.Legal || e.Points != b.Points {
			t.Fatalf("%s: judged legal %v, %d points, stated %d: %v", b.Name, e.Legal, e.Points, b.Points, e.Broken)
		}
		if len(choices(unlogged(base, made), start, got.Known)) == 0 && len(a) == 0 && b.Broken == 0 {
			// Nothing was shared: it is the plan made knowing the branch.
			x, y := choices(made, start, far), choices(b.Plan, start, far)
			if fmt.Sprint(x) != fmt.Sprint(y) {
				t.Fatalf("%s: nothing is shared, and the plans differ:\n%v\n%v", b.Name, x, y)
			}
		}
		for _, pin := range base.Pins {
			if does(made, pin) && !does(&whole, pin) {
				t.Fatalf("%s: the pin of %s is not obeyed", b.Name, pin.Date)
			}
		}
		points += b.Weight * b.Points
		knowing += b.Weight * b.KnowingPoints
		weight += b.Weight
	}
	if got.Weight != weight || got.Points != points || got.Bound > got.Points || got.Price < 0 || got.Price < points-knowing {
		t.Fatalf("sums: %+v; points %d, knowing %d, weight %d", got, points, knowing, weight)
	}
	if (got.Proof == season.Proved) && got.Bound != got.Points {
		t.Fatalf("proved with bound %d, points %d", got.Bound, got.Points)
	}
}

// does reports whether a plan does what a pin says.
func does(p *season.Plan, pin season.Pin) bool {
	for _, s := range p.Sessions {
		if s.Date == pin.Date && (pin.None || s.Kind == pin.Kind && (pin.Start == nil || s.Start.Format("15:04") == pin.Start.String())) {
			return !pin.None
		}
	}
	return pin.None
}

// Over random seasons with random branches.
func TestForkLaws(t *testing.T) {
	proved, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		base := seasontest.Request(t, seasontest.Options{MinDates: 7, MaxDates: 14, Plain: rapid.Bool().Draw(t, "plain")})
		f := whatif.Fork{Workers: 2, MaxPlans: 60}
		var ids []string
		for _, e := range base.Events {
			if e.Kind == calendar.Game && e.Active() {
				ids = append(ids, e.ID)
			}
		}
		for i := range rapid.IntRange(1, 3).Draw(t, "branches") {
			b := whatif.Branch{Weight: rapid.IntRange(0, 5).Draw(t, "weight")}
			if len(ids) > 0 && i > 0 {
				id := rapid.SampledFrom(ids).Draw(t, "id")
				if rapid.Bool().Draw(t, "cancel") {
					b.Change = whatif.Cancel(id)
				} else {
					b.Change = whatif.MoveDays(id, rapid.SampledFrom([]int{-1, 1, 2}).Draw(t, "days"))
				}
			}
			f.Branches = append(f.Branches, b)
		}
		f.Known = base.Athlete.Zone.DayStart(base.Period.From.AddDays(rapid.IntRange(0, base.Period.Days()).Draw(t, "known"))).
			Add(time.Duration(rapid.IntRange(0, 23).Draw(t, "hour")) * time.Hour)
		got, err := f.Run(context.Background(), base)
		var bad *whatif.VariantError
		if errors.As(err, &bad) {
			t.Skip("a branch that is no calendar")
		}
		if err != nil {
			t.Fatal(err)
		}
		checkFork(t, base, &f, got)
		all++
		if got.Proof == season.Proved {
			proved++
		}
		if len(f.Branches) == 1 && (got.Price != 0 || got.Proof != season.Proved) {
			t.Fatalf("one branch: price %d, %s", got.Price, got.Proof)
		}
	})
	t.Logf("%d of %d proved", proved, all)
}
