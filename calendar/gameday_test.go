package calendar_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"example.org/weft/calendar"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func dates(t testing.TB, list ...string) []calendar.Date {
	var out []calendar.Date
	for _, s := range list {
		out = append(out, date(t, s))
	}
	return out
}

func TestGameDay(t *testing.T) {
	games := dates(t, "2026-11-14", "2026-11-07", "2026-11-18", "2026-11-14")
	for _, c := range []struct{ date, want string }{
		{"2026-11-01", "[G-6]"},
		{"2026-11-06", "[G-1]"},
		{"2026-11-07", "[G]"},
		{"2026-11-10", "[G+3]"},
		{"2026-11-11", "[G-3]"},
		{"2026-11-14", "[G]"},
		{"2026-11-16", "[G+2 G-2]"},
		{"2026-12-18", "[G+30]"},
	} {
		if got := fmt.Sprint(calendar.GameDay(date(t, c.date), games)); got != c.want {
			t.Errorf("%s: got %s, want %s", c.date, got, c.want)
		}
	}
	if calendar.GameDay(date(t, "2026-11-07"), nil) != nil || calendar.GameDay(calendar.Date{}, games) != nil {
		t.Error("a distance to nothing")
	}
	if got := calendar.GameDay(date(t, "2026-11-16"), games); got[0].Game != date(t, "2026-11-14") || got[1].Game != date(t, "2026-11-18") {
		t.Errorf("got %v", got)
	}
}

// Against the plain definition: all games at the smallest distance.
func TestGameDayLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var games []calendar.Date
		for _, n := range rapid.SliceOfN(rapid.IntRange(20000, 20040), 0, 6).Draw(t, "games") {
			games = append(games, calendar.DateFromDayNumber(n))
		}
		d := calendar.DateFromDayNumber(rapid.IntRange(19990, 20050).Draw(t, "date"))
		best := 1 << 30
		for _, g := range games {
			best = min(best, max(d.DaysSince(g), g.DaysSince(d)))
		}
		var want []int
		for _, n := range []int{best, -best} {
			if slices.Contains(games, d.AddDays(-n)) && !slices.Contains(want, n) {
				want = append(want, n)
			}
		}
		var got []int
		for _, o := range calendar.GameDay(d, games) {
			got = append(got, o.Days)
			if d.DaysSince(o.Game) != o.Days {
				t.Fatalf("offset %v", o)
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatal(diff)
		}
	})
}

func TestGameFreeRuns(t *testing.T) {
	games := dates(t, "2026-12-20", "2026-11-01", "2026-11-02", "2026-11-09", "2026-11-17", "2026-11-27", "2026-12-08", "2026-12-08")
	run := func(r calendar.Run) string {
		return fmt.Sprintf("%s..%s %d %s (%s %s)", r.From, r.To, r.Days, r.Class, r.Before, r.Behind)
	}
	for _, c := range []struct {
		from, to string
		want     []string
	}{
		{"", "", []string{
			"2026-11-03..2026-11-08 6 normal (2026-11-02 2026-11-09)",
			"2026-11-10..2026-11-16 7 open-week (2026-11-09 2026-11-17)",
			"2026-11-18..2026-11-26 9 open-week (2026-11-17 2026-11-27)",
			"2026-11-28..2026-12-07 10 break (2026-11-27 2026-12-08)",
			"2026-12-09..2026-12-19 11 break (2026-12-08 2026-12-20)",
		}},
		// What lies outside the asked period is unknown, also inside a run.
		{"2026-12-01", "2026-12-18", []string{
			"2026-12-01..2026-12-07 7 open-week (2026-11-27 2026-12-08)",
			"2026-12-09..2026-12-18 10 break (2026-12-08 2026-12-20)",
		}},
		{"2026-12-21", "2027-02-01", nil},
		{"2026-12-08", "2026-12-08", nil},
	} {
		var from, to calendar.Date
		if c.from != "" {
			from, to = date(t, c.from), date(t, c.to)
		}
		var got []string
		for _, r := range calendar.GameFreeRuns(games, from, to) {
			got = append(got, run(r))
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s to %s: %s", c.from, c.to, diff)
		}
	}
	if calendar.GameFreeRuns(dates(t, "2026-11-01"), calendar.Date{}, calendar.Date{}) != nil {
		t.Error("a run beside a single game")
	}
}

func placed(t testing.TB, events ...calendar.Event) []calendar.Placed {
	t.Helper()
	var out []calendar.Placed
	for _, e := range events {
		p, err := calendar.Place(e, calendar.Assumptions{})
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, p)
	}
	return out
}

// game names the game after the day of its start.
func game(t testing.TB, zoneName, start, end string) calendar.Event {
	e := event(t, calendar.Game, zoneName, start, end)
	e.ID = "g" + start[5:10]
	return e
}

func TestFacts(t *testing.T) {
	const z = "Europe/Berlin"
	list := placed(t,
		game(t, z, "2026-10-23T19:00", "2026-10-23T21:00"),
		game(t, z, "2026-10-24T16:45", "2026-10-24T18:45"), // back to back
		game(t, z, "2026-10-26T17:45", "2026-10-26T20:00"), // 48 h after it: the clocks go back
		game(t, z, "2026-10-29T20:00", "2026-10-29T22:00"), // 72 h after it
		game(t, z, "2026-11-01T21:00", ""),                 // 71 h
		game(t, z, "2026-11-21", ""),                       // a break before it
		event(t, calendar.Practice, z, "2026-10-25T10:00", ""),
	)
	off := game(t, z, "2026-10-28T20:00", "")
	off.Status = calendar.Postponed
	list = append(list, placed(t, off)...)
	f := calendar.FactsOf(list, calendar.Date{}, calendar.Date{})
	pair := func(list []calendar.Pair) (out []string) {
		for _, p := range list {
			s := fmt.Sprintf("%s %s %v", p.First, p.Second, p.Elapsed)
			if p.Uncertain {
				s += "?"
			}
			out = append(out, s)
		}
		return out
	}
	spell := func(list []calendar.Spell) (out []string) {
		for _, s := range list {
			out = append(out, fmt.Sprint(s.From, " ", s.To, " ", s.Games))
		}
		return out
	}
	for _, c := range []struct {
		name      string
		got, want []string
	}{
		{"back to back", pair(f.BackToBack), []string{"g10-23 g10-24 19h45m0s"}},
		{"same date", pair(f.SameDate), nil},
		{"under 48", pair(f.Under48), []string{"g10-23 g10-24 19h45m0s"}},
		{"under 72", pair(f.Under72), []string{"g10-23 g10-24 19h45m0s", "g10-24 g10-26 48h0m0s", "g10-29 g11-01 71h0m0s"}},
		{"longest", pair(f.Longest), []string{"g11-01 g11-21 466h0m0s?", "g10-26 g10-29 72h0m0s", "g10-29 g11-01 71h0m0s"}},
		{"three in seven", spell(f.ThreeInSeven), []string{"2026-10-23 2026-11-01 [g10-23 g10-24 g10-26 g10-29 g11-01]"}},
		{"five in ten", spell(f.FiveInTen), []string{"2026-10-23 2026-11-01 [g10-23 g10-24 g10-26 g10-29 g11-01]"}},
	} {
		if diff := cmp.Diff(c.want, c.got); diff != "" {
			t.Errorf("%s: %s", c.name, diff)
		}
	}
	if f.Games != 6 || f.Dates != 6 || f.First != date(t, "2026-10-23") || f.Last != date(t, "2026-11-21") || len(f.Pairs) != 5 {
		t.Errorf("got %+v", f)
	}
	if n := len(f.Runs); n == 0 || f.Runs[n-1].Class != calendar.Break || f.Runs[n-1].Days != 19 {
		t.Errorf("runs %v", f.Runs)
	}
	want := []calendar.ClockChange{{
		Zone: z, At: instant(t, "2026-10-25T01:00:00Z"), Date: date(t, "2026-10-25"), Shift: -time.Hour, Games: []string{"g10-24", "g10-26"},
	}}
	if diff := cmp.Diff(want, f.ClockChanges); diff != "" {
		t.Error(diff)
	}
	// The order of the events does not matter.
	rng := rand.New(rand.NewPCG(3, 4))
	for range 20 {
		rng.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		if diff := cmp.Diff(f, calendar.FactsOf(list, calendar.Date{}, calendar.Date{})); diff != "" {
			t.Fatal(diff)
		}
	}
	// A period cuts.
	if g := calendar.FactsOf(list, date(t, "2026-10-24"), date(t, "2026-10-29")); g.Games != 3 || len(g.ThreeInSeven) != 1 || len(g.FiveInTen) != 0 {
		t.Errorf("cut: %+v", g)
	}
	if g := calendar.FactsOf(nil, calendar.Date{}, calendar.Date{}); g.Games != 0 || g.Pairs != nil {
		t.Errorf("nothing: %+v", g)
	}
}

// A date lies in a spell of n in k dates exactly if some window of k dates with n
// games has games on both sides of it or on it.
func TestSpellsLaw(t *testing.T) {
	z := zone(t, "UTC")
	rapid.Check(t, func(t *rapid.T) {
		days := rapid.SliceOfNDistinct(rapid.IntRange(20000, 20040), 0, 15, rapid.ID[int]).Draw(t, "days")
		var list []calendar.Placed
		for _, n := range days {
			e := calendar.Event{ID: fmt.Sprint(n), Kind: calendar.Game, Zone: z, Start: calendar.Wall{Date: calendar.DateFromDayNumber(n), Clock: 70000}}
			p, _ := calendar.Place(e, calendar.Assumptions{})
			list = append(list, p)
		}
		f := calendar.FactsOf(list, calendar.Date{}, calendar.Date{})
		for _, c := range []struct {
			n, days int
			spells  []calendar.Spell
		}{{3, 7, f.ThreeInSeven}, {5, 10, f.FiveInTen}} {
			want := map[string]bool{}
			for from := 19990; from < 20050; from++ {
				var in []string
				for _, n := range days {
					if n >= from && n < from+c.days {
						in = append(in, fmt.Sprint(n))
					}
				}
				if len(in) >= c.n {
					for _, id := range in {
						want[id] = true
					}
				}
			}
			got := map[string]bool{}
			for i, s := range c.spells {
				for _, id := range s.Games {
					if got[id] {
						t.Fatalf("game %s in two spells", id)
					}
					got[id] = true
				}
				if len(s.Games) < c.n || fmt.Sprint(s.From.DayNumber()) != s.Games[0] || fmt.Sprint(s.To.DayNumber()) != s.Games[len(s.Games)-1] {
					t.Fatalf("spell %v", s)
				}
				if i > 0 && !s.From.After(c.spells[i-1].To) {
					t.Fatalf("spells overlap: %v", c.spells)
				}
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Fatalf("%d in %d: %s", c.n, c.days, diff)
			}
		}
	})
}

func TestAssumed(t *testing.T) {
	const z = "Europe/Berlin"
	list := placed(t,
		game(t, z, "2026-11-14T19:45", ""), game(t, z, "2026-11-07T19:45", ""), game(t, z, "2026-11-21T19:45", "2026-11-21T21:30"),
		game(t, z, "2026-11-28", ""), event(t, calendar.Practice, z, "2026-11-24T18:00", ""),
	)
	got := calendar.Assumed(list, calendar.Assumptions{GameMinutes: 105}, "games.csv")
	want := []calendar.Problem{
		{Code: "end-assumed", Class: calendar.ClassQuestion, Path: "games.csv", Field: "end", Value: "g11-07 and 1 more",
			Reason: "2 games without an end: 105 minutes assumed", Remedy: "give the ends, or the usual length of a game"},
		{Code: "date-only", Class: calendar.ClassQuestion, Path: "games.csv", Field: "time", Value: "g11-28",
			Reason: "1 game without a time: 09:00 to 22:00 of the date kept free", Remedy: "give the times when they are fixed"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestTransitions(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	span := calendar.Span{Start: instant(t, "2026-10-25T01:00:00Z"), End: instant(t, "2027-10-31T01:00:00Z")}
	got := z.Transitions(span)
	want := []calendar.Transition{
		{At: instant(t, "2026-10-25T01:00:00Z"), Offset: 3600, Abbrev: "CET"},
		{At: instant(t, "2027-03-28T01:00:00Z"), Offset: 7200, DST: true, Abbrev: "CEST"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if got := z.Transitions(calendar.Span{Start: instant(t, "0001-01-01T00:00:00Z"), End: instant(t, "9999-12-31T00:00:00Z")}); len(got) < 10_000 {
		t.Errorf("%d changes to the year 9999", len(got))
	}
	if calendar.Zone.Transitions(calendar.Zone{}, span) != nil || zone(t, "UTC").Transitions(span) != nil {
		t.Error("changes where there are none")
	}
}
