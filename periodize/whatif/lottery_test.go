package whatif_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/calendar/fixture"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
)

// cup is club with a last round that may not be reached.
func cup(weeks int) *season.Request {
	req := club(weeks)
	monday := req.Period.To.AddDays(-6)
	for i, status := range []calendar.Status{calendar.Provisional, calendar.IfNecessary} {
		g := game([]string{"q1", "q2"}[i], "Quarter-finalist", monday.AddDays(1+2*i).String()+"T12:00", 90, req.Athlete.Zone)
		g.Status, g.Competition = status, "quarter-final"
		req.Events = append(req.Events, g)
	}
	s := game("s1", "Semi-finalist", monday.AddDays(4).String()+"T19:00", 90, req.Athlete.Zone)
	s.Status, s.Competition = calendar.Provisional, "semi-final"
	req.Events = append(req.Events, s)
	return req
}

func lottery() whatif.Lottery {
	friday := season.Hours{Days: []time.Weekday{time.Friday, time.Wednesday}, From: clock(15, 0), To: clock(20, 0)}
	return whatif.Lottery{Seed: 11, Seasons: 20, Rates: whatif.Rates{Postponed: 200, Through: 500, Needed: 400}, Measures: []whatif.Variant{
		{Name: "half an hour", Change: whatif.Longer(30)},
		{Name: "one practice less", Change: whatif.DropPractices(time.Tuesday, calendar.Date{}, calendar.Date{})},
		{Name: "two evenings more", Change: whatif.OpenHours("gym", friday)},
		{Name: "nobody's", Change: whatif.Cancel("nobody")},
	}}
}

// Twenty seasons: the same for any number of workers, and the sums are those of
// planning each season by itself.
func TestLottery(t *testing.T) {
	base := cup(4)
	ctx := context.Background()
	first := ""
	var got *whatif.Odds
	for _, workers := range []int{1, 2, 8} {
		l := lottery()
		l.Sweep.Workers = workers
		var err error
		if got, err = l.Run(ctx, base); err != nil {
			t.Fatal(err)
		}
		if text := all(t, got); first == "" {
			first = text
		} else if text != first {
			t.Errorf("%d workers give other bytes", workers)
		}
	}
	l := lottery()
	planner := periodize.Planner{Brief: true}
	want := whatif.MeasureOdds{Name: "as it is"}
	seen := map[string]bool{}
	for n := range 20 {
		c, postponed := l.Draw(base, n)
		seen[c.String()] = true
		req, _, err := whatif.Apply(*base, c)
		if err != nil {
			t.Fatal(err)
		}
		p, err := planner.Plan(ctx, &req)
		if err != nil {
			t.Fatal(err)
		}
		r := whatif.RowOf(p, req.Rules, nil)
		want.Seasons++
		want.Weeks += int64(r.Weeks)
		want.WeeksMissed += int64(r.WeeksBelow)
		if r.WeeksBelow > 0 {
			want.SeasonsMissed++
		}
		want.Points += r.Points
		want.Postponed += int64(postponed)
	}
	if got.AsItIs != want {
		t.Errorf("got %+v\nwant %+v", got.AsItIs, want)
	}
	if len(seen) < 10 || want.Postponed == 0 {
		t.Errorf("%d different seasons of 20, %d games postponed", len(seen), want.Postponed)
	}
	if got.Generator != whatif.Generator || got.Seasons != 20 || got.Seed != 11 || len(got.Measures) != 4 {
		t.Errorf("%+v", got)
	}
	for i, m := range got.Measures {
		if i > 0 && m.WeeksSaved > got.Measures[i-1].WeeksSaved {
			t.Errorf("%s stands behind %s", m.Name, got.Measures[i-1].Name)
		}
		switch {
		case m.Name == "nobody's":
			if m.Failed != 20 || m.Problem == "" || m.Seasons != 0 {
				t.Errorf("%+v", m)
			}
		case m.Failed > 0 || m.Saved != want.Points-m.Points || m.WeeksSaved != want.WeeksMissed-m.WeeksMissed:
			t.Errorf("%+v does not add up with %+v", m, want)
		case m.Name == "two evenings more" && m.Worse > 0:
			t.Errorf("more room made %d seasons worse", m.Worse)
		}
	}
}

// The rates are kept: never and always, and about as often as asked.
func TestDraw(t *testing.T) {
	base := cup(6)
	base.Events[0].Status = calendar.Played
	count := func(r whatif.Rates) (postponed, through, needed int) {
		l := whatif.Lottery{Seed: 3, Rates: r}
		for n := range 200 {
			c, k := l.Draw(base, n)
			postponed += k
			req, touched, err := whatif.Apply(*base, c)
			if err != nil {
				t.Fatal(err)
			}
			on := map[calendar.Date]int{}
			status := map[string]calendar.Status{}
			for _, v := range req.Events {
				status[v.ID] = v.Status
				if v.Kind == calendar.Game && v.Active() {
					on[v.Start.Date]++
				}
			}
			for d, n := range on {
				if n > 1 {
					t.Errorf("%d games on %s after %s", n, d, c)
				}
			}
			for _, id := range touched.Events {
				if id == base.Events[0].ID {
					t.Error("a played game was postponed")
				}
			}
			if status["q1"] == calendar.Confirmed {
				through++
			}
			if status["q2"] == calendar.Confirmed {
				needed++
			}
			if status["q1"] == calendar.Cancelled && (status["q2"] == calendar.Confirmed || status["s1"] == calendar.Confirmed) {
				t.Errorf("knocked out, and plays on: %v", status)
			}
		}
		return postponed, through, needed
	}
	if a, b, c := count(whatif.Rates{}); a+b+c != 0 {
		t.Errorf("rates of 0: %d %d %d", a, b, c)
	}
	games := 0
	for _, v := range base.Events {
		if v.Kind == calendar.Game && v.Status == "" {
			games++
		}
	}
	if a, b, c := count(whatif.Rates{Postponed: 1000, Through: 1000, Needed: 1000}); a != 200*games || b != 200 || c != 200 {
		t.Errorf("rates of 1000: %d of %d, %d, %d", a, 200*games, b, c)
	}
	// Of 1,400 and 200 draws these are within four standard deviations.
	if a, b, c := count(whatif.Rates{Postponed: 100, Through: 500, Needed: 500}); a < 95 || a > 185 || b < 72 || b > 128 || c < 26 || c > 75 {
		t.Errorf("of 1,400 games a tenth: %d; of 200 rounds a half: %d; of these a half: %d", a, b, c)
	}
	if games != 7 {
		t.Errorf("%d games can be postponed", games)
	}
}

func TestLotteryProblems(t *testing.T) {
	l := whatif.Lottery{Seasons: -1, Rates: whatif.Rates{Postponed: 1001, Through: -1, Needed: 2000, LaterFrom: 9, LaterTo: 8}}
	_, err := l.Run(context.Background(), club(1))
	bad, ok := err.(*season.InputError)
	if !ok || len(bad.Problems) != 5 {
		t.Errorf("error %v", err)
	}
}

func TestRatesOf(t *testing.T) {
	zone := seasontest.Zone("Europe/Oslo")
	var before, after []calendar.Event
	for i, w := range []string{"2026-09-05T15:00", "2026-09-12T15:00", "2026-09-19T15:00", "2026-09-26T15:00", "2026-10-03T15:00", "2026-10-10T15:00", "2026-10-17T15:00"} {
		v := game("", string(rune('A'+i)), w, 90, zone)
		v.Home = calendar.AtHome
		before = append(before, v)
		switch i {
		case 1:
			v = game("", "B", "2026-09-30T19:00", 90, zone) // 18 dates later
		case 2:
			v.Status = calendar.Postponed
		case 3:
			v = game("", "D", "2026-09-22T19:00", 90, zone) // earlier
		}
		v.Home = calendar.AtHome
		if i != 6 {
			after = append(after, v)
		}
	}
	for _, ids := range []bool{false, true} {
		if ids {
			for i := range before {
				before[i].ID = before[i].ContentID()
			}
			for i := range after {
				after[i].ID = after[i].ContentID() // others than before, where moved
			}
		}
		got, ok := whatif.RatesOf(before, after, whatif.Rates{Through: 300})
		if want := (whatif.Rates{Postponed: 500, LaterFrom: 18, LaterTo: 18, Through: 300}); !ok || got != want {
			t.Errorf("ids %v: %+v, %v; want %+v", ids, got, ok, want)
		}
	}
	if _, ok := whatif.RatesOf(before, nil, whatif.Rates{}); ok {
		t.Error("no game on both lists")
	}
}

// One club's list before and after a real change, in the folder that OPEN_DATA
// names.
func TestOpenLists(t *testing.T) {
	dir := os.Getenv("OPEN_DATA")
	if dir == "" {
		t.Skip("OPEN_DATA names no folder of fixture lists")
	}
	list := func(name string) []calendar.Event {
		f, err := os.Open(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		events, problems, err := fixture.Read(f, name, fixture.Options{})
		if err != nil || len(problems) > 0 {
			t.Fatalf("%v %v", err, problems)
		}
		return events
	}
	before, after := list("football-team-before.csv"), list("football-team-after.csv")
	rates, ok := whatif.RatesOf(before, after, whatif.Rates{})
	if !ok || rates.Postponed != 26 { // one game of 38
		t.Errorf("rates %+v", rates)
	}
	zone := before[0].Zone
	base := &season.Request{Schema: season.Schema, Period: season.Period{From: seasontest.Date("2025-02-03"), To: seasontest.Date("2025-03-30")}, Events: before}
	base.Athlete = season.Athlete{ID: "a", Born: season.YearMonth{Year: 2000, Month: 5}, Zone: zone, TrainingAgeMonths: 60}
	for i := range base.Events {
		if base.Events[i].Start.Date.After(seasontest.Date("2025-02-11")) {
			base.Events[i].Status = calendar.Confirmed
		}
	}
	// The change of 18 February, with a day's notice, as a change to the plan, and
	// as a fork for whoever heard of the talks before.
	var moved calendar.Event
	var to string
	for _, v := range base.Events {
		for _, w := range after {
			if v.Opponent == w.Opponent && v.Home == w.Home && v.Start != w.Start {
				moved, to = v, w.Start.String()
			}
		}
	}
	if moved.Start.Date != seasontest.Date("2025-03-15") || to[:10] != "2025-02-19" {
		t.Fatalf("moved from %s to %s", moved.Start, to)
	}
	f := &whatif.Fork{Known: instant(zone, "2025-02-18T12:00"), Branches: []whatif.Branch{{Name: "15 March"}, {Name: "19 February", Change: whatif.Move(moved.ID, to)}}}
	got := runFork(t, base, f)
	t.Logf("fork: price %d of %d, %s after %d plans", got.Price, got.Weight, got.Proof, got.Plans)
	if got.Proof != season.Proved {
		t.Errorf("not proved: %d, bound %d", got.Points, got.Bound)
	}
	frail := whatif.Fragility{}
	r, err := frail.Run(context.Background(), base)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Fixtures) < 5 || len(r.Weeks) < 4 {
		t.Errorf("%d fixtures, %d weeks", len(r.Fixtures), len(r.Weeks))
	}
	sweep := whatif.Sweep{Issued: true}
	rows := collect(t, sweep.Run(context.Background(), base, variants(whatif.Move(moved.ID, to))))
	if rows[1].Row.Changes < 1 || rows[1].Row.Changes > 12 {
		t.Errorf("%d sessions change", rows[1].Row.Changes)
	}
	t.Logf("the real move changes %d of %d sessions", rows[1].Row.Changes, rows[0].Row.Sessions)
}

// A cup and play-offs at the same time: each goes its way, round by round, and a
// game that may not be needed is played only in a round that is reached.
func TestDrawOfTwoCompetitions(t *testing.T) {
	base := club(6)
	add := func(id, competition, round, wall string, status calendar.Status) {
		g := game(id, "Side", wall, 90, base.Athlete.Zone)
		g.Competition, g.Round, g.Status = competition, round, status
		base.Events = append(base.Events, g)
	}
	add("c1", "cup", "quarter-final", "2026-12-01T12:00", calendar.Provisional)
	add("p1", "league", "play-off 1", "2026-12-02T12:00", calendar.Provisional)
	add("c2", "cup", "semi-final", "2026-12-03T12:00", calendar.Provisional)
	add("p2", "league", "play-off 1", "2026-12-04T12:00", calendar.Provisional)
	add("p3", "league", "3", "2026-12-05T12:00", calendar.IfNecessary)
	add("p4", "league", "play-off 2", "2026-12-08T12:00", calendar.Provisional)
	l := whatif.Lottery{Seed: 5, Rates: whatif.Rates{Through: 500, Needed: 500}}
	seen := map[string]int{}
	for n := range 400 {
		c, _ := l.Draw(base, n)
		req, _, err := whatif.Apply(*base, c)
		if err != nil {
			t.Fatal(err)
		}
		on := map[string]bool{}
		for _, v := range req.Events {
			if on[v.ID] = v.Status == calendar.Confirmed; v.Status == calendar.Provisional || v.Status == calendar.IfNecessary {
				t.Fatalf("%s is still open", v.ID)
			}
		}
		if on["c2"] && !on["c1"] || on["p2"] != on["p1"] || on["p3"] && !on["p1"] || on["p4"] && !on["p1"] {
			t.Fatalf("season %d: %v", n, on)
		}
		for name, is := range map[string]bool{"cup without play-off": on["c1"] && !on["p1"], "play-off without cup": on["p1"] && !on["c1"],
			"both": on["c1"] && on["p1"], "second play-off, none in the cup": on["p4"] && !on["c1"]} {
			if is {
				seen[name]++
			}
		}
	}
	// Of 400 seasons a quarter each, and an eighth, within four standard deviations.
	for name, want := range map[string]int{"cup without play-off": 100, "play-off without cup": 100, "both": 100, "second play-off, none in the cup": 50} {
		if got := seen[name]; got < want-35 || got > want+35 {
			t.Errorf("%s: %d of 400, want about %d", name, got, want)
		}
	}
}
