package logbook_test

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/rule/ruletest"
	"example.org/weft/periodize/season"
)

// berlin is loaded once, as simulations make many entries.
var berlin = sync.OnceValue(func() calendar.Zone {
	z, err := calendar.LoadZone("Europe/Berlin")
	if err != nil {
		panic(err)
	}
	return z
})

// entry is one of an athlete without an id, on a date or at a time of Berlin.
func entry(id, start string, what logbook.What) logbook.Entry {
	z := berlin()
	e := logbook.Entry{ID: id, Zone: z, Start: wall(start), What: what}
	if e.Start.IsZero() {
		e.Start, e.DateOnly = calendar.Wall{Date: day(start)}, true
	}
	e.Recorded = z.DayStart(e.Start.Date.AddDays(1))
	return e
}

func done(kind season.Kind, sets ...logbook.Set) logbook.Session {
	return logbook.Session{Session: kind, State: logbook.Done, Sets: sets}
}

func worked(reps, left int) logbook.Set {
	return logbook.Set{Exercise: "back-squat", Load: logbook.Told(100 * load.Kilogram), Reps: logbook.Told(reps), Left: logbook.Told(left)}
}

func of(list []logbook.Retention, q load.Quality) logbook.Retention {
	for _, r := range list {
		if r.Quality == q {
			return r
		}
	}
	return logbook.Retention{}
}

func band(b logbook.Band) string { return fmt.Sprint(b.Early, " ", b.Middle, " ", b.Late) }

// Residual effects: Issurin and Lustig 2004; Issurin 2010, Sports Med
// 40:189-206, via secondary text; the dates are derived.
func TestBandsOfTheTable(t *testing.T) {
	l := newLog(t,
		entry("s", "2026-01-05T17:00", done(season.FullBody)),
		entry("p", "2026-01-05T19:00", done(season.Primer)),
		entry("g", "2026-01-05", logbook.Game{Minutes: logbook.Told(70)}))
	got := logbook.Edges(l.View(""), logbook.Setting{Today: day("2026-01-20")}, nil)
	for _, c := range []struct {
		quality load.Quality
		want    string
		phase   load.ResidualPhase
	}{
		{load.AerobicEndurance, "2026-01-30 2026-02-04 2026-02-09", load.Retained},
		{load.MaximalStrength, "2026-01-30 2026-02-04 2026-02-09", load.Retained},
		{load.GlycolyticEndurance, "2026-01-19 2026-01-23 2026-01-27", load.Fading},
		{load.StrengthEndurance, "2026-01-15 2026-01-20 2026-01-25", load.Fading},
		{load.MaximalSpeed, "2026-01-07 2026-01-10 2026-01-13", load.BandOver},
	} {
		r := of(got, c.quality)
		if band(r.Sure.Band) != c.want || r.Sure.Phase != c.phase || r.Sure.Days != 15 || r.Perhaps != r.Sure {
			t.Errorf("%s: %+v, want %s, %s", c.quality, r.Sure, c.want, c.phase)
		}
	}
	late := logbook.Edges(newLog(t, entry("s", "2026-08-26T17:00", done(season.Trimmed))).View(""), logbook.Setting{Today: day("2026-11-01")}, nil)
	if r := of(late, load.MaximalStrength); r.Sure.Days != 67 || band(r.Sure.Band) != "2026-09-20 2026-09-25 2026-09-30" {
		t.Errorf("strength after a summer: %+v", r.Sure)
	}
}

func TestWhatIsEnough(t *testing.T) {
	const strength, many, speed, glyc, aerobic = load.MaximalStrength, load.StrengthEndurance, load.MaximalSpeed, load.GlycolyticEndurance, load.AerobicEndurance
	rated := func(r load.SessionRating) logbook.Maybe[load.SessionRating] { return logbook.Told(r) }
	for _, c := range []struct {
		name          string
		what          logbook.What
		sure, perhaps []load.Quality
	}{
		{"full-body", done(season.FullBody), []load.Quality{strength, many}, nil},
		{"trimmed", done(season.Trimmed), []load.Quality{strength}, nil},
		{"primer", done(season.Primer), []load.Quality{speed}, nil},
		{"recovery", done(season.Recovery), nil, nil},
		{"missed", logbook.Session{Session: season.FullBody, State: logbook.Missed}, nil, nil},
		{"nobody knows", logbook.Session{Session: season.FullBody, State: logbook.Unknown}, nil, []load.Quality{strength, many}},
		{"broken off", logbook.Session{Session: season.FullBody, State: logbook.Done, Minutes: logbook.Told(12)}, nil, nil},
		{"heavy, few repetitions", done(season.FullBody, worked(5, 2), worked(5, 2)), []load.Quality{strength}, []load.Quality{many}},
		{"light throughout", done(season.FullBody, worked(8, 6), worked(8, 5)), []load.Quality{many}, nil},
		{"heavy and many", done(season.FullBody, worked(5, 1), worked(10, 4), worked(10, 3)), []load.Quality{strength, many}, nil},
		{"bench", logbook.Game{Minutes: logbook.Told(0)}, nil, nil},
		{"late substitute", logbook.Game{Minutes: logbook.Told(16)}, []load.Quality{speed}, nil},
		{"starter", logbook.Game{Minutes: logbook.Told(58)}, []load.Quality{aerobic, glyc, speed}, nil},
		{"minutes not told", logbook.Game{}, nil, []load.Quality{aerobic, glyc, speed}},
		{"practice without sprints", logbook.Practice{Minutes: logbook.Told(75), Rating: rated(5), Sprinted: logbook.Told(false)}, []load.Quality{aerobic}, nil},
		{"hard practice with sprints", logbook.Practice{Minutes: logbook.Told(50), Rating: rated(7.5), Sprinted: logbook.Told(true)}, []load.Quality{glyc, speed}, nil},
		{"practice of which little is told", logbook.Practice{Minutes: logbook.Told(90)}, []load.Quality{aerobic}, []load.Quality{glyc, speed}},
		{"easy practice", logbook.Practice{Minutes: logbook.Told(90), Rating: rated(2), Sprinted: logbook.Told(false)}, nil, nil},
		{"practice missed", logbook.Practice{Minutes: logbook.Told(0)}, nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			start := "2026-11-19"
			if c.what.Kind() == logbook.OfSession {
				start += "T17:00"
			}
			v := newLog(t, entry("x", start, c.what)).View("")
			for _, r := range logbook.Edges(v, logbook.Setting{Today: day("2026-11-21")}, nil) {
				sure, may := slices.Contains(c.sure, r.Quality), slices.Contains(c.perhaps, r.Quality)
				if r.Sure.Known() != sure || r.Perhaps.Known() != (sure || may) {
					t.Errorf("%s: sure %v, perhaps %v", r.Quality, r.Sure.Known(), r.Perhaps.Known())
				}
			}
		})
	}
}

// What nobody told of may have been done: two bounds.
func TestUnknownDaysGiveTwoBounds(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	v := newLog(t, entry("s", "2026-11-02T17:00", done(season.FullBody))).View("")
	issued := []season.Session{{ID: "p1", Kind: season.FullBody, Date: day("2026-11-09")}, {ID: "p2", Kind: season.Primer, Date: day("2026-11-13")}}
	game, err := calendar.Place(calendar.Event{ID: "g", Kind: calendar.Game, Zone: z, Start: wall("2026-11-14T19:00")}, calendar.Assumptions{})
	if err != nil {
		t.Fatal(err)
	}
	s := logbook.Setting{Today: day("2026-11-16"), Issued: issued, Events: []calendar.Placed{game}}
	got := logbook.Edges(v, s, nil)
	if r := of(got, load.MaximalStrength); r.Sure.Date != day("2026-11-02") || r.Perhaps.Date != day("2026-11-09") || r.Perhaps.Sure || r.Perhaps.ID != "p1" {
		t.Errorf("strength: %+v, %+v", r.Sure, r.Perhaps)
	}
	if r := of(got, load.MaximalSpeed); r.Sure.Known() || r.Perhaps.Date != day("2026-11-14") || r.Perhaps.Of != "game" {
		t.Errorf("speed: %+v, %+v", r.Sure, r.Perhaps)
	}
	// Told, both ways.
	missed := newLog(t, entry("s", "2026-11-02T17:00", done(season.FullBody)),
		entry("m", "2026-11-09T17:00", logbook.Session{Planned: "p1", Session: season.FullBody, State: logbook.Missed}),
		entry("g", "2026-11-14", logbook.Game{Event: "g", Minutes: logbook.Told(3)})).View("")
	got = logbook.Edges(missed, s, nil)
	if r := of(got, load.MaximalStrength); r.Perhaps.Date != day("2026-11-02") {
		t.Errorf("strength after a miss: %+v", r.Perhaps)
	}
	if r := of(got, load.MaximalSpeed); r.Perhaps.Date != day("2026-11-13") {
		t.Errorf("speed after three minutes: %+v", r.Perhaps)
	}
}

// The first date at an edge, from the plain definition: the first on which the
// latest stimulus up to it lies as far back as the edge.
func TestFirstDateAtAnEdge(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		today := day("2026-11-16")
		draw := func(n int, what string) int { return rapid.IntRange(0, n-1).Draw(t, what) }
		var entries []logbook.Entry
		sure, may := map[calendar.Date]bool{}, map[calendar.Date]bool{}
		for i := range draw(4, "behind") {
			d := today.AddDays(-draw(60, "ago"))
			w := logbook.Session{Session: season.FullBody, State: logbook.Done}
			if draw(3, "known") == 0 {
				w.State = logbook.Unknown
			} else {
				sure[d] = true
			}
			may[d] = true
			e := entry(fmt.Sprint(i), d.String()+"T17:00", w)
			entries = append(entries, e)
		}
		l, err := logbook.NewLog(entries...)
		if err != nil {
			t.Fatal(err)
		}
		to := today.AddDays(draw(90, "to"))
		plan := &season.Plan{Period: season.Period{From: today, To: to}}
		for i := range draw(4, "planned") {
			d := today.AddDays(draw(90, "date"))
			if !d.After(to) {
				plan.Sessions = append(plan.Sessions, season.Session{ID: fmt.Sprint("p", i), Kind: season.Trimmed, Date: d, Start: z.DayStart(d)})
				sure[d], may[d] = true, true
			}
		}
		r := of(logbook.Edges(l.View(""), logbook.Setting{Today: today}, plan), load.MaximalStrength)
		for _, c := range []struct {
			got logbook.Band
			on  map[calendar.Date]bool
		}{{r.Ahead.Sooner, sure}, {r.Ahead.Later, may}} {
			for _, edge := range []struct {
				days int
				got  calendar.Date
			}{{25, c.got.Early}, {30, c.got.Middle}, {35, c.got.Late}} {
				want := calendar.Date{}
				for d := today; want.IsZero() && !d.After(to); d = d.AddDays(1) {
					ago := 0
					for ; ago < 200 && !c.on[d.AddDays(-ago)]; ago++ {
					}
					if ago < 200 && ago >= edge.days {
						want = d
					}
				}
				if edge.got != want {
					t.Fatalf("%d days: %s, want %s", edge.days, edge.got, want)
				}
				if !want.IsZero() {
					found++
				}
			}
		}
	})
	if found < 10 {
		t.Errorf("only %d edges were reached", found)
	}
}

func TestCaveats(t *testing.T) {
	for _, c := range []struct {
		born   season.YearMonth
		months int
		want   string
	}{
		{season.YearMonth{Year: 1999, Month: 3}, 40, "[retention-table]"},
		{season.YearMonth{Year: 1999, Month: 3}, 7, "[retention-table retention-newcomer]"},
		{season.YearMonth{Year: 1999, Month: 3}, -1, "[retention-table retention-unknown]"},
		{season.YearMonth{Year: 2010, Month: 3}, 40, "[retention-table retention-young]"},
		{season.YearMonth{}, 40, "[retention-table retention-young]"},
	} {
		s := logbook.Setting{Today: day("2026-11-16"), Athlete: season.Athlete{Born: c.born, TrainingAgeMonths: c.months}}
		var got []string
		for _, n := range logbook.Edges(logbook.View{}, s, nil)[0].Notes {
			got = append(got, n.Code)
		}
		if fmt.Sprint(got) != c.want {
			t.Errorf("%+v: %v, want %s", c, got, c.want)
		}
	}
}

func TestKeepAgreesWithItsDefinition(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	l := newLog(t, entry("s", "2026-11-02T17:00", done(season.FullBody)))
	for _, q := range logbook.Qualities() {
		aim, ok := logbook.Keep(l.View(""), logbook.Setting{Plays: logbook.Told(60)}, q, 8)
		if want := len(logbook.KeptBy(q)) > 0; ok != want {
			t.Errorf("%s: ok %v, want %v", q, ok, want)
		}
		if !ok {
			continue
		}
		rapid.Check(t, func(t *rapid.T) {
			draw := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "n") }
			if err := ruletest.Check(aim, ruletest.Days(draw, z, calendar.Event{Kind: calendar.Game, Start: wall("2026-11-08T19:00"), End: wall("2026-11-08T21:00"), HasEnd: true})); err != nil {
				t.Fatal(err)
			}
		})
	}
}

// What is proposed goes through a request, is planned by, and is not proposed
// again for the plan it leads to.
func TestProposals(t *testing.T) {
	req := aimless(t)
	req.Period.To = req.Period.From.AddDays(41)
	for i := range 6 { // primers need a game
		on := req.Period.From.AddDays(7*i + 5).String()
		req.Events = append(req.Events, calendar.Event{ID: fmt.Sprint("g", i), Kind: calendar.Game, Start: wall(on + "T18:00"), End: wall(on + "T19:30"), HasEnd: true})
	}
	v := newLog(t, entry("s", "2026-11-02T17:00", done(season.FullBody)), entry("p", "2026-11-14T10:00", done(season.Primer))).View("")
	s := logbook.Setting{Today: req.Period.From, Athlete: req.Athlete}
	var plain periodize.Planner
	ids := func(list []logbook.Proposal) (out []string) {
		for _, p := range list {
			out = append(out, p.Rule.ID)
		}
		return out
	}
	plan, err := plain.Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	list := logbook.Proposals(v, s, plan, 40)
	if got := fmt.Sprint(ids(list)); got != "[keep-strength keep-strength-endurance keep-speed]" {
		t.Fatalf("%s", got)
	}
	for _, p := range list {
		req.Club = append(req.Club, p.Rule)
	}
	b, err := req.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	read, problems, err := season.RequestReader{Strict: true}.Read(bytes.NewReader(b))
	if err != nil || len(problems) > 0 {
		t.Fatal(problems, err)
	}
	if plan, err = plain.Plan(context.Background(), read); err != nil {
		t.Fatal(err)
	}
	if again := logbook.Proposals(v, s, plan, 40); len(again) > 0 {
		t.Errorf("%v is proposed again", ids(again))
	}
	if list := logbook.Proposals(v, s, nil, 40); list != nil {
		t.Errorf("without a plan: %v", ids(list))
	}
}

// aimless asks for two weeks with every aim of the table switched off.
func aimless(t *testing.T) *season.Request {
	t.Helper()
	req := &season.Request{Period: season.Period{From: day("2026-11-16"), To: day("2026-11-29")},
		Athlete: season.Athlete{ID: "a7", Born: season.YearMonth{Year: 2000, Month: 5}, Zone: zone(t, "Europe/Berlin"), TrainingAgeMonths: 50}}
	for _, row := range rule.Table() {
		if row.Kind == rule.Aim && !row.Fixed {
			req.Rules = append(req.Rules, season.Override{Rule: row.ID, Off: true})
		}
	}
	return req
}

// A planner that is given the aim keeps to it, by the engine's own proof: without
// any other wish for a heavy session there is none, with it there is one by the
// last date that costs nothing.
func TestPlannerKeepsStrength(t *testing.T) {
	req := aimless(t)
	heavy := func(p *season.Plan) (n int, last calendar.Date) {
		for _, s := range p.Sessions {
			if s.HeavyLowerBody {
				n, last = n+1, s.Date
			}
		}
		return n, last
	}
	var plain periodize.Planner
	without, err := plain.Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	if n, _ := heavy(without); n != 0 {
		t.Fatalf("%d heavy sessions without a wish for one", n)
	}
	// Last done on 28 October: the early edge, 25 dates on, is 22 November.
	v := newLog(t, entry("s", "2026-10-28T17:00", done(season.FullBody))).View("")
	aim, ok := logbook.Keep(v, logbook.Setting{Today: req.Period.From}, load.MaximalStrength, 5)
	if !ok {
		t.Fatal("no aim")
	}
	with, err := (&periodize.Planner{Rules: []rule.Custom{aim}}).Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	// The same aim as data in the request gives the same plan.
	aimed := *req
	r, ok := logbook.KeepRule(v, logbook.Setting{Today: req.Period.From}, load.MaximalStrength, 5, req.Period.From)
	aimed.Club = []season.ClubRule{r}
	carried, err := plain.Plan(context.Background(), &aimed)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	if d := cmp.Diff(with.Sessions, carried.Sessions, cmp.AllowUnexported(calendar.Date{})); d != "" {
		t.Error(d)
	}
	n, last := heavy(with)
	if n != 1 || last.After(day("2026-11-22")) || with.Proof != season.Proved || with.Cost.Points != 0 {
		t.Errorf("%d heavy sessions, the last on %s, %s, %d points", n, last, with.Proof, with.Cost.Points)
	}
}
