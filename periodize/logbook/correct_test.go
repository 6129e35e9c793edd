package logbook_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
)

// TestCorrections are the cases of the documentation, one by one. An entry is
// "id=minutes", "id>target=minutes" where it replaces, "id-target" where it
// voids; what holds is "id=minutes", disputes are "id?".
func TestCorrections(t *testing.T) {
	z := zone(t, "Europe/Copenhagen")
	entry := func(n int, text string) logbook.Entry {
		e := logbook.Entry{Recorded: instant("2026-11-20T10:00:00Z").Add(time.Duration(n) * time.Minute)}
		if id, of, ok := strings.Cut(text, "-"); ok {
			e.ID, e.What = id, logbook.Void{Of: of}
			return e
		}
		place, minutes, _ := strings.Cut(text, "=")
		e.ID, e.Replaces, _ = strings.Cut(place, ">")
		e.Start, e.Zone, e.DateOnly = wall("2026-11-19T00:00"), z, true // two games of a date are two
		var m int
		if _, err := fmt.Sscan(minutes, &m); err != nil {
			t.Fatal(err)
		}
		e.What = logbook.Game{Minutes: logbook.Told(m)}
		return e
	}
	for log, want := range map[string]string{
		"g=60":                            "g=60",
		"g=60 g=61":                       "g?",
		"g=60 a>g=71":                     "a=71",
		"a>g=71":                          "a=71",
		"g=60 g=61 a>g=71":                "a=71",
		"g=60 v-g":                        "",
		"v-g":                             "",
		"g=60 v-g w-g":                    "",
		"g=60 v-g w-v":                    "g=60",
		"g=60 v-g w-v x-w":                "",
		"g=60 a>g=71 v-a":                 "g=60",
		"g=60 a>g=71 b>a=72":              "b=72",
		"g=60 a>g=71 b>g=72":              "g?",
		"g=60 a>g=71 b>g=71":              "a=71",
		"g=60 b>g=71 a>g=71":              "b=71", // the first told
		"g=60 a>g=71 b>g=72 v-b":          "a=71",
		"g=60 a>g=71 b>g=72 c>b=71":       "a=71",
		"g=60 a>g=71 v-g":                 "g?",
		"g=60 a>g=71 a>g=72":              "g?",
		"g=60 a>g=71 a>g=72 b>a=73":       "b=73",
		"g=60 v-g a>v=71":                 "a=71",
		"a>b=1 b>a=2":                     "a?",
		"g=60 a>b=1 b>a=2":                "a? g=60",
		"a>g=1 b>g=2":                     "g?",
		"g=60 h=80 x>g=1 x>h=2":           "g?", // x tells two things, of two others
		"g=60 h=80 x>g=1 x>h=2 y>x=3":     "y=3",
		"g=60 h=80 x>g=1 x>h=2 v-x":       "g=60 h=80",
		"g=60 h=80 a>g=1 b>h=2 c>b=5 v-c": "a=1 b=2",
	} {
		var entries []logbook.Entry
		for i, text := range strings.Fields(log) {
			entries = append(entries, entry(i, text))
		}
		v := newLog(t, entries...).View("")
		var got []string
		for _, e := range v.Entries {
			got = append(got, fmt.Sprintf("%s=%d", e.ID, e.What.(logbook.Game).Minutes.Value))
		}
		for _, d := range v.Disputed {
			got = append(got, d.ID+"?")
		}
		slices.Sort(got)
		if s := strings.Join(got, " "); s != want || len(v.Disputed) > 0 != slices.ContainsFunc(v.Questions, func(n season.Note) bool { return n.Class == season.Question }) {
			t.Errorf("%s: %s, want %s; %v", log, s, want, v.Questions)
		}
		// One by one, backwards.
		var f logbook.Fold
		for i := range entries {
			if err := f.Add(entries[len(entries)-1-i]); err != nil {
				t.Fatal(err)
			}
		}
		if d := cmp.Diff(shown(v), shown(f.View(""))); d != "" {
			t.Errorf("%s, backwards: %s", log, d)
		}
	}
}

// TestToldEarlier: the same facts told again, earlier, move the first telling.
func TestToldEarlier(t *testing.T) {
	e := did("a", "p1", "2026-11-17", zone(t, "Europe/Berlin"), set(80, 5, 2))
	early := e
	early.Recorded = instant("2026-11-18T06:00:00Z")
	f := logbook.NewFold(newLog(t, e))
	for range 2 {
		if err := f.Add(early); err != nil {
			t.Fatal(err)
		}
	}
	if v := f.View(""); len(v.Entries) != 1 || !v.Entries[0].Recorded.Equal(early.Recorded) {
		t.Errorf("%+v", v)
	}
	if err := f.Add(logbook.Entry{ID: "b"}); err == nil || len(f.View("").Entries) != 1 {
		t.Error("an entry that tells nothing was taken")
	}
}

// TestDisputedSessionsCountForTheMost: of two tellings, the one that counts for
// most.
func TestDisputedSessionsCountForTheMost(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	for _, order := range [][2]season.Kind{{season.Recovery, season.FullBody}, {season.FullBody, season.Recovery}} {
		var entries []logbook.Entry
		for i, k := range order {
			e := did("s", "p1", "2026-11-17", z)
			e.Start = e.Start.AddMinutes(5 * i)
			e.What = logbook.Session{Planned: "p1", Session: k, State: logbook.Done}
			entries = append(entries, e)
		}
		p := logbook.Past{Period: season.Period{From: day("2026-11-16"), To: day("2026-11-22")}, Now: instant("2026-11-23T08:00:00Z"), Zone: z,
			Planned: []season.Session{{ID: "p1", Kind: season.FullBody, Date: day("2026-11-17"), Start: instant("2026-11-17T16:00:00Z"), End: instant("2026-11-17T17:00:00Z")}}}
		got := newLog(t, entries...).View("").Tally(p)
		if got.Lifts != (logbook.Bounds{Least: 0, Most: 1}) || got.Sessions != (logbook.Bounds{Least: 0, Most: 1}) || got.EmptyRun != (logbook.Bounds{Least: 5, Most: 7}) || len(got.Questions) > 0 {
			t.Errorf("%v: %+v", order, got)
		}
	}
}

// TestLowerBoundsMoveNothing: light work of which nobody told what was left
// neither lowers an estimate nor makes it newer; more than is known raises it.
func TestLowerBoundsMoveNothing(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	rated := did("a", "", "2026-11-02", z, set(100, 5, 2))
	g := logbook.Given{Today: day("2026-11-20"), Athlete: lifter(), Kit: exercise.Gym()}
	estimate := func(entries ...logbook.Entry) logbook.Estimate {
		l, _, err := newLog(t, entries...).View("").Lift("back-squat", g)
		if err != nil {
			t.Fatal(err)
		}
		return l.Estimate
	}
	alone := estimate(rated)
	if e := estimate(rated, did("b", "", "2026-11-09", z, set(70, 5, -1))); e != alone {
		t.Errorf("%+v, alone %+v", e, alone)
	}
	if e := estimate(rated, did("b", "", "2026-11-09", z, set(110, 5, -1))); e.Max <= alone.Max || e.Floor || e.Date != day("2026-11-09") {
		t.Errorf("%+v, alone %+v", e, alone)
	}
	// Of lower bounds the highest holds, until something better is told.
	low, high := did("c", "", "2026-11-03", z, set(90, 5, -1)), did("d", "", "2026-11-06", z, set(80, 5, -1))
	if e := estimate(low, high); !e.Floor || e.Max != 105_000 || e.Evidence.Entry != "c" {
		t.Errorf("%+v", e)
	}
	if e := estimate(low, high, did("e", "", "2026-11-10", z, set(80, 5, 2))); e.Floor || e.Max.Kilograms() > 99 || e.Sessions != 1 {
		t.Errorf("%+v", e)
	}
}
