package whatif_test

import (
	"context"
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

func runFork(t *testing.T, base *season.Request, f *whatif.Fork) *whatif.Forked {
	t.Helper()
	var first string
	var got *whatif.Forked
	for _, workers := range []int{1, 2, 8} {
		f.Workers = workers
		var err error
		if got, err = f.Run(context.Background(), base); err != nil {
			t.Fatal(err)
		}
		text := all(t, got)
		if first == "" {
			first = text
		}
		if text != first {
			t.Errorf("%d workers give other bytes", workers)
		}
	}
	checkFork(t, base, f, got)
	return got
}

func kinds(sessions []season.Session, from, to string, which func(season.Kind) bool) int {
	n := 0
	for _, s := range sessions {
		if which(s.Kind) && !s.Date.Before(seasontest.Date(from)) && !s.Date.After(seasontest.Date(to)) {
			n++
		}
	}
	return n
}

func fullSize(k season.Kind) bool { return k == season.FullBody || k == season.Eccentric }
func report(p *season.Plan) string {
	return fmt.Sprint(choices(p, time.Time{}, p.Now.AddDate(2, 0, 0)))
}

// Five games in three days of an under-18 team, the last of them at 11:00 or
// 15:30 or, for those knocked out on Saturday, not at all.
func TestTournamentWithUnknownBracket(t *testing.T) {
	zone := seasontest.Zone("Europe/Paris")
	base := &season.Request{Schema: season.Schema, Period: season.Period{From: seasontest.Date("2027-05-17"), To: seasontest.Date("2027-05-30")}}
	base.Athlete = season.Athlete{ID: "u18", Born: season.YearMonth{Year: 2010, Month: 3}, Zone: zone, TrainingAgeMonths: 24}
	for i, w := range []string{"2027-05-21T10:00", "2027-05-21T17:00", "2027-05-22T09:30", "2027-05-22T16:30", "2027-05-23T11:00"} {
		base.Events = append(base.Events, game(fmt.Sprintf("t%d", i+1), fmt.Sprintf("Opponent %d", i+1), w, 50, zone))
	}
	branches := append(whatif.Starts("t5", "2027-05-23T11:00", "2027-05-23T15:30"), whatif.Branch{Name: "knocked out", Change: whatif.Cancel("t5")})
	f := &whatif.Fork{Known: instant(zone, "2027-05-22T18:00"), Branches: branches}
	got := runFork(t, base, f)
	if got.Proof != season.Proved {
		t.Errorf("%s", got.Proof)
	}
	// Before the tournament a date must stay free of sessions for those who play on
	// Sunday; whoever knew of the knock-out would have that Sunday free, and one
	// recovery session more.
	if a, b, c := got.Branches[0].Price, got.Branches[1].Price, got.Branches[2].Price; a != 0 || b != 0 || c != 30 {
		t.Errorf("not knowing costs %d, %d and %d", a, b, c)
	}
	early, late, out := got.Branches[0].Plan, got.Branches[1].Plan, got.Branches[2].Plan
	if a, b := report(early), report(late); a != b {
		t.Errorf("two kick-offs, two plans:\n%s\n%s", a, b)
	}
	for _, p := range []*season.Plan{early, late, out} {
		for _, s := range p.Sessions {
			if s.Kind.HeavyLowerBody() && s.Date.Before(seasontest.Date("2027-05-21")) && s.End.After(instant(zone, "2027-05-20T10:00")) {
				t.Errorf("heavy work ends %s, less than 24 h before the first game", s.End)
			}
			if fullSize(s.Kind) && s.Date.Before(seasontest.Date("2027-05-21")) && s.End.After(instant(zone, "2027-05-19T10:00")) {
				t.Errorf("a full-size session ends %s, less than 48 h before the first game", s.End)
			}
		}
		if n := kinds(p.Sessions, "2027-05-21", "2027-05-23", season.Kind.Lift); n != 0 {
			t.Errorf("%d lifts during the tournament", n)
		}
	}
	// Whoever is knocked out may lift a day earlier than the others.
	first := func(p *season.Plan) calendar.Date {
		for _, s := range p.Sessions {
			if s.Kind.Lift() && s.Date.After(seasontest.Date("2027-05-22")) {
				return s.Date
			}
		}
		return calendar.Date{}
	}
	if first(out).IsZero() || first(out).After(first(early)) {
		t.Errorf("knocked out: first lift on %s, else on %s", first(out), first(early))
	}
}

// A best of seven with three games that are played only if they are needed.
func TestSeriesWithGamesThatMayNotBeNeeded(t *testing.T) {
	zone := seasontest.Zone("America/Halifax")
	base := &season.Request{Schema: season.Schema, Period: season.Period{From: seasontest.Date("2027-04-05"), To: seasontest.Date("2027-04-25")}}
	base.Athlete = season.Athlete{ID: "d2", Born: season.YearMonth{Year: 2000, Month: 8}, Zone: zone, TrainingAgeMonths: 72, OptIns: []season.OptIn{season.OptPostGame}}
	for i, d := range []int{6, 8, 10, 12, 14, 16, 18} {
		g := game(fmt.Sprintf("f%d", i+1), "Finalist", fmt.Sprintf("2027-04-%02dT19:00", d), 150, zone)
		g.Importance, g.Round = calendar.Normal, fmt.Sprint(i+1)
		if i >= 4 {
			g.Status = calendar.IfNecessary
		}
		base.Events = append(base.Events, g)
	}
	next := game("next", "Next round", "2027-04-20T19:00", 150, zone)
	swept := whatif.Compose("swept", whatif.Cancel("f5"), whatif.Cancel("f6"), whatif.Cancel("f7"), whatif.Add(next))
	f := &whatif.Fork{Known: instant(zone, "2027-04-12T21:30"), Branches: []whatif.Branch{
		{Name: "swept", Change: swept, Weight: 20}, {Name: "goes on", Weight: 80}}}
	got := runFork(t, base, f)
	t.Logf("price %d of weight %d, %s after %d plans", got.Price, got.Weight, got.Proof, got.Plans)
	if got.Proof != season.Proved {
		t.Errorf("not proved: %d points, bound %d", got.Points, got.Bound)
	}
	if n := kinds(got.Shared, "2027-04-06", "2027-04-12", season.Kind.Lift); n < 2 {
		t.Errorf("%d lifts from 6 to 12 April: %v", n, choices(&season.Plan{Sessions: got.Shared}, time.Time{}, got.Known))
	}
	on := got.Branches[1].Plan
	for _, s := range append(slices.Clone(got.Shared), on.Sessions...) {
		if fullSize(s.Kind) && !s.Date.Before(seasontest.Date("2027-04-06")) && s.Date.Before(seasontest.Date("2027-04-18")) {
			t.Errorf("a full-size session on %s, where no gap reaches 48 h", s.Date)
		}
		if s.Kind == season.Trimmed && s.End.After(instant(zone, "2027-04-06T00:00")) && s.Date.Before(seasontest.Date("2027-04-18")) {
			for _, g := range base.Events {
				if at := instant(zone, g.Start.String()); at.After(s.Start) && at.Sub(s.End) < 24*time.Hour {
					t.Errorf("a trimmed session ends %s before game %s", at.Sub(s.End), g.ID)
				}
			}
		}
	}
	free := got.Branches[0].Plan
	if n := kinds(free.Sessions, "2027-04-13", "2027-04-18", fullSize); n < 1 {
		t.Errorf("swept: no full-size session in the freed dates: %s", report(free))
	}
	for _, s := range free.Sessions {
		if fullSize(s.Kind) && s.Date.After(seasontest.Date("2027-04-12")) && s.Date.Before(seasontest.Date("2027-04-20")) && s.End.After(instant(zone, "2027-04-18T19:00")) {
			t.Errorf("swept: a full-size session ends %s, less than 48 h before the next round", s.End)
		}
	}
}

// Branches that are known from the first instant share nothing: each has the
// plan made knowing it, and not knowing costs nothing.
func TestForkKnownAtOnce(t *testing.T) {
	base := club(2)
	f := &whatif.Fork{Known: instant(base.Athlete.Zone, "2026-11-02T00:00"), Branches: append(whatif.Knockout("g01", "m02"), whatif.Series("g02")...)}
	got := runFork(t, base, f)
	if got.Price != 0 || got.Proof != season.Proved || len(got.Shared) != 0 {
		t.Errorf("price %d, %s, %d sessions shared", got.Price, got.Proof, len(got.Shared))
	}
	for _, b := range got.Branches {
		if all(t, b.Plan) != all(t, b.Knowing) {
			t.Errorf("%s: the plan is not that of whoever knows", b.Name)
		}
	}
}

// The answer is the best of all shared choices, written out one by one, and
// sometimes not knowing has a price.
func TestForkIsExact(t *testing.T) {
	prices, exact := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		base := club(2)
		draw := func(label string, from, to int) int { return rapid.IntRange(from, to).Draw(t, label) }
		every := append(slices.Clone(weekdays), weekend...)
		base.Athlete.Hours = []season.Hours{{Days: every, From: clock(17, 0), To: clock(17, 35)},
			{Days: []time.Weekday{time.Weekday(draw("long", 0, 6)), time.Tuesday, time.Thursday}, From: clock(17, 0), To: clock(18, 0)}}
		base.Places = nil
		base.Period.From = base.Period.From.AddDays(draw("from", 0, 6))
		base.Period.To = base.Period.From.AddDays(draw("dates", 5, 7))
		if draw("optIn", 0, 2) == 0 {
			base.Athlete.TrainingAgeMonths = 0
		}
		shared := draw("shared", 1, 2)
		f := &whatif.Fork{Known: base.Athlete.Zone.DayStart(base.Period.From.AddDays(shared)), Workers: 2}
		for i := range draw("branches", 2, 3) {
			b := whatif.Branch{Weight: draw("weight", 1, 9)}
			if i > 0 {
				id := []string{"g01", "m02", "g02"}[draw("game", 0, 2)]
				if b.Change = whatif.MoveDays(id, draw("days", -5, 5)); draw("cancel", 0, 4) == 0 {
					b.Change = whatif.Cancel(id)
				}
			}
			f.Branches = append(f.Branches, b)
		}
		got, err := f.Run(context.Background(), base)
		if err != nil {
			t.Fatal(err)
		}
		// With hardly any work there is an answer too, and it does not claim too much.
		hasty := *f
		hasty.MaxPlans = 1
		quick, err := hasty.Run(context.Background(), base)
		if err != nil {
			t.Fatal(err)
		}
		checkFork(t, base, &hasty, quick)
		if quick.Bound > got.Points || quick.Points < got.Bound || quick.Proof == season.Proved && quick.Points > got.Points {
			t.Fatalf("in haste %d points, bound %d, %s; else %d", quick.Points, quick.Bound, quick.Proof, got.Points)
		}
		best, apart := writtenOut(t, base, f, shared)
		if best >= 0 && got.Bound > best {
			t.Fatalf("bound %d; %d is reached", got.Bound, best)
		}
		if best >= 0 && got.Proof == season.Proved && got.Points > best {
			t.Fatalf("%d points proved, written out %d", got.Points, best)
		}
		if best >= 0 && (apart < 0 || best <= apart) {
			if exact++; got.Points != best {
				t.Fatalf("%d points, written out %d", got.Points, best)
			}
		}
		if got.Price > 0 {
			prices++
		}
	})
	t.Logf("written out in full %d times; not knowing had a price in %d", exact, prices)
	if exact == 0 || !testing.Short() && prices == 0 {
		t.Error("nothing was compared")
	}
}

// writtenOut pins every combination of kinds or nothing on the first dates, and
// returns the least sum of the branches' points among those on which the branches
// agree on all else that lies there, and among those on which they do not; -1 if
// there is none.
func writtenOut(t *rapid.T, base *season.Request, f *whatif.Fork, dates int) (best, apart int64) {
	planner := periodize.Planner{Brief: true}
	options := append([]season.Kind{""}, season.Kinds()...)
	best, apart = -1, -1
	total := 1
	for range dates {
		total *= len(options)
	}
	for n := range total {
		var pins []season.Pin
		for d, rest := 0, n; d < dates; d, rest = d+1, rest/len(options) {
			p := season.Pin{Date: base.Period.From.AddDays(d), Kind: options[rest%len(options)]}
			p.None = p.Kind == ""
			pins = append(pins, p)
		}
		var points int64
		var first string
		legal, agree := true, true
		for i, b := range f.Branches {
			req, _, err := whatif.Apply(*base, b.Change)
			if err != nil {
				t.Fatal(err)
			}
			req.Pins = pins
			p, err := planner.Plan(context.Background(), &req)
			if err != nil {
				t.Fatal(err)
			}
			if p.Cost.Broken > 0 {
				legal = false
				break
			}
			points += p.Cost.Points * int64(max(b.Weight, 1))
			here := fmt.Sprint(choices(p, p.Now, f.Known))
			if i == 0 {
				first = here
			}
			agree = agree && here == first
		}
		switch {
		case !legal:
		case agree && (best < 0 || points < best):
			best = points
		case !agree && (apart < 0 || points < apart):
			apart = points
		}
	}
	return best, apart
}
