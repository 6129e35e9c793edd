package logbook_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
)

// TestOnePlannedSessionCountsOnce: the coach says that she was there, the athlete
// what she did; two who contradict each other leave it open.
func TestOnePlannedSessionCountsOnce(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	coach := did("coach", "p1", "2026-11-17", z)
	athlete := did("athlete", "p1", "2026-11-17", z, set(80, 5, 2))
	athlete.Start = wall("2026-11-17T17:10")
	nobody := coach
	nobody.ID, nobody.What = "nobody", logbook.Session{Planned: "p1", Session: season.FullBody, State: logbook.Unknown}
	missed := coach
	missed.ID, missed.What = "missed", logbook.Session{Planned: "p1", Session: season.FullBody, State: logbook.Missed}
	heavier := athlete
	heavier.ID, heavier.What = "heavier", did("", "p1", "2026-11-17", z, set(85, 5, 2)).What
	later := func(e logbook.Entry) logbook.Entry { // 50 minutes from 16:20
		e.Start = wall("2026-11-17T16:20")
		s := e.What.(logbook.Session)
		s.Minutes = logbook.Told(50)
		e.What = s
		return e
	}
	other := did("other", "p2", "2026-11-17", z)
	for name, c := range map[string]struct {
		log      []logbook.Entry
		counts   []string
		disputed int
	}{
		"sets beside presence":          {[]logbook.Entry{coach, athlete, nobody, other}, []string{"other", "athlete"}, 0},
		"done beside missed":            {[]logbook.Entry{coach, missed, other}, []string{"other"}, 2},
		"two who tell the sets":         {[]logbook.Entry{athlete, heavier, other}, []string{"other"}, 2},
		"two at one time are one":       {[]logbook.Entry{did("x", "", "2026-11-17", z), did("y", "", "2026-11-17", z)}, []string{"x"}, 0},
		"an extra one beside the other": {[]logbook.Entry{athlete, did("y", "", "2026-11-17", z)}, []string{"y", "athlete"}, 0},
		"the sets of who was there":     {[]logbook.Entry{coach, did("y", "", "2026-11-17", z, set(80, 5, 2))}, []string{"y"}, 0},
		"two who start apart":           {[]logbook.Entry{later(did("x", "", "2026-11-17", z)), did("y", "", "2026-11-17", z, set(80, 5, 2))}, []string{"y"}, 0},
		"two names at one time":         {[]logbook.Entry{coach, other, did("y", "", "2026-11-17", z)}, []string{"coach", "other", "y"}, 0},
	} {
		v := newLog(t, c.log...).View("")
		var got []string
		for _, d := range v.Done() {
			got = append(got, d.ID)
		}
		if d := cmp.Diff(c.counts, got); d != "" {
			t.Errorf("%s: %s", name, d)
		}
		n := 0
		for _, d := range v.Disputed {
			n += len(d.Entries)
		}
		if n != c.disputed || (len(v.Questions) == 1) != (n > 0) {
			t.Errorf("%s: %+v %+v", name, v.Disputed, v.Questions)
		}
	}
}

// TestDoneEnds: the end comes from the entry, else from the minutes, by the clock
// of the zone across a change.
func TestDoneEnds(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	e := did("a", "p1", "2026-10-25", z)
	e.Start = wall("2026-10-25T01:40")
	s := logbook.Session{Planned: "p1", Session: season.Recovery, State: logbook.Done, Minutes: logbook.Told(100)}
	e.What = s
	d := newLog(t, e).View("").Done()[0]
	if d.End != wall("2026-10-25T02:20") || !d.HasEnd { // 40 + 60 minutes of summer time: the second 02:20
		t.Error(d.End)
	}
	e.End, e.HasEnd = wall("2026-10-25T04:00"), true
	if d = newLog(t, e).View("").Done()[0]; d.End != e.End {
		t.Error(d.End)
	}
	s.Minutes = logbook.Maybe[int]{}
	e.What, e.HasEnd = s, false
	if d = newLog(t, e).View("").Done()[0]; d.HasEnd {
		t.Error("an end that nobody told")
	}
}

// TestHistory: what the builder of cards is given, and that it uses it.
func TestHistory(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	game := logbook.Entry{ID: "g", Recorded: instant("2028-12-31T00:00:00Z"), Start: wall("2026-11-14T19:00"), Zone: z, What: logbook.Game{Minutes: logbook.Told(0)}}
	bench := game
	bench.ID, bench.Start, bench.What = "h", wall("2026-11-07T19:00"), logbook.Game{}
	primer := did("c", "p3", "2026-11-16", z) // light and fast, not rated: no evidence
	primer.What = logbook.Session{Planned: "p3", Session: season.Primer, State: logbook.Done, Sets: []logbook.Set{set(50, 3, -1)}}
	log := newLog(t, did("a", "p1", "2026-11-10", z, ramp(set(60, 8, 5)), set(100, 5, 2), set(100, 5, 3), set(100, 5, 1)),
		did("b", "p2", "2026-11-12", z, set(1000, 5, 2)), primer, game, bench, did("d", "p4", "2026-11-20", z, set(105, 5, 2)))
	given := logbook.Given{Today: day("2026-11-18"), Athlete: lifter(), Kit: exercise.Gym(),
		Cards: []exercise.Card{card("p2", "back-squat", 3, 5, 2), card("p9", "back-squat", 3, 5, 2), card("p1", "back-squat", 3, 5, 2), card("p4", "back-squat", 3, 5, 2)}}
	for i, d := range []string{"2026-11-12", "2026-11-13", "2026-11-10", "2026-11-20"} {
		given.Cards[i].Date = day(d)
	}
	h, err := log.View("").History(given)
	if err != nil {
		t.Fatal(err)
	}
	want := []exercise.DoneSet{{Exercise: "back-squat", Date: day("2026-11-10"), Load: 100 * load.Kilogram, Reps: 5, Left: 2}}
	if d := cmp.Diff(want, h.Sets, cmp.Comparer(func(a, b exercise.DoneSet) bool { return a == b })); d != "" {
		t.Error(d)
	}
	if len(h.Lifts) != 3 || h.Lifts[2] != day("2026-11-16") || len(h.Played) != 1 || h.Played[0].Minutes != 0 || h.WeekSets[exercise.Lower] != 1 {
		t.Errorf("%+v", h)
	}
	if len(h.Cards) != 2 || h.Cards[0].Session != "p1" || h.Cards[1].Session != "p2" {
		t.Errorf("%+v", h.Cards)
	}
	// A learner is told the hardest set, which left one.
	given.Athlete.TrainingAgeMonths = 5
	if h, _ = log.View("").History(given); len(h.Sets) != 1 || h.Sets[0].Left != 1 || h.Sets[0].Load != 100*load.Kilogram {
		t.Errorf("%+v", h.Sets)
	}
	// The builder takes the load from it.
	given.Athlete.TrainingAgeMonths = 50
	h, _ = log.View("").History(given)
	in := exercise.Input{Athlete: given.Athlete, Kit: given.Kit, History: h,
		Session: season.Session{ID: "p5", Kind: season.FullBody, Date: day("2026-11-18"), Minutes: 55}}
	for _, x := range (exercise.Catalogue{}).All() {
		if x.Role == exercise.Main && x.Pattern.Region() == exercise.Lower && x.ID != "back-squat" {
			in.Profile.Avoid = append(in.Profile.Avoid, x.ID)
		}
	}
	c, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	used := false
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			used = used || it.ID == "back-squat" && it.Exercise.Evidence != nil && it.Exercise.Evidence.Code == "progress-hold" &&
				it.Exercise.Load.Grams == 100_000 && strings.Contains(it.Exercise.Evidence.Text, "2026-11-10, the hardest set 100 kg x 5, 1 left")
		}
	}
	if !used || slices.ContainsFunc(c.Notes, func(n season.Note) bool { return n.Code == "question-jump" }) {
		t.Errorf("%+v", c)
	}
}
