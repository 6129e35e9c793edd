package exercise_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// at is an instant of a date in UTC.
func at(date string, hour, minute int) time.Time {
	return time.Unix(int64(day(date).DayNumber())*86400+int64(hour)*3600+int64(minute)*60, 0).UTC()
}

// TestIllnessByTheHour: ill for three days, free of fever since the 4th at 18:00.
// Training is possible 24 hours later, and then reduced for three days.
func TestIllnessByTheHour(t *testing.T) {
	in := exercise.Input{Athlete: club().Athlete, Kit: exercise.Gym()}
	in.History.Illness = []exercise.Illness{{From: day("2026-11-02"), To: day("2026-11-04"), Until: at("2026-11-04", 18, 0)}}
	for _, x := range []struct {
		date         string
		hour, minute int
		want         string
	}{
		{"2026-11-04", 20, 0, "refused"},
		{"2026-11-05", 17, 59, "refused"},
		{"2026-11-05", 18, 0, "reduced until 2026-11-07"},
		{"2026-11-07", 18, 0, "reduced until 2026-11-07"},
		{"2026-11-08", 17, 59, "reduced until 2026-11-08"},
		{"2026-11-08", 18, 0, ""},
		{"2026-11-01", 18, 0, ""}, // before it
	} {
		in.Session = session(season.FullBody, 55, x.date)
		in.Session.Start = at(x.date, x.hour, x.minute)
		c, err := exercise.Builder{}.Session(in)
		got := ""
		if err != nil {
			got = "refused"
		}
		for _, n := range c.Notes {
			if n.Code == "card-after-illness" {
				got = "reduced until " + n.Values["date"].Text
			}
		}
		if got != x.want {
			t.Errorf("%s %02d:%02d: %q, want %q", x.date, x.hour, x.minute, got, x.want)
		}
	}
}

// TestTheCalendarSetsTheEmphasis: power before a game, a full second round in a
// break, and nothing of the kind otherwise; never by the number of the week.
func TestTheCalendarSetsTheEmphasis(t *testing.T) {
	make := func(kind season.Kind, days int, inBreak bool) exercise.Card {
		in := exercise.Input{Session: session(kind, 55, "2026-11-10"), Athlete: club().Athlete, Kit: exercise.Gym(), Week: exercise.Week{Break: inBreak}}
		in.Session.GameDay = []season.GameOffset{{Event: "g", Days: days}}
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	lower := func(c exercise.Card) (n int) {
		for _, b := range c.Blocks {
			for _, it := range b.Items {
				if b.Rounds > 0 && it.Slot != "ramp-up" && exercise.Pattern(it.Exercise.Pattern).Region() == exercise.Lower {
					n++
				}
			}
		}
		return n
	}
	near, far, rest := make(season.FullBody, -2, false), make(season.FullBody, -5, false), make(season.FullBody, -8, true)
	if !hasNote(near.Notes, "card-fast") || lower(near) != 1 {
		t.Errorf("two dates before a game:\n%s", printed(near))
	}
	if hasNote(far.Notes, "card-fast") || hasNote(far.Notes, "card-build") || lower(far) != 2 {
		t.Errorf("five dates before a game:\n%s", printed(far))
	}
	if !hasNote(rest.Notes, "card-build") || lower(rest) != 2 {
		t.Errorf("in a break:\n%s", printed(rest))
	}
	if c := make(season.Primer, -1, false); hasNote(c.Notes, "card-fast") {
		t.Errorf("a primer is fast by itself:\n%s", printed(c))
	}
}

// TestTheWeekAsksForWhatItLacks: a second full-body session has the patterns that
// the first had not, whatever came last; and a pattern of which the week has all it
// may have gives way to another of its region.
func TestTheWeekAsksForWhatItLacks(t *testing.T) {
	pairs := [][2]exercise.Pattern{{exercise.Squat, exercise.Hinge}, {exercise.PushHorizontal, exercise.PushVertical}, {exercise.PullHorizontal, exercise.PullVertical}}
	rapid.Check(t, func(t *rapid.T) {
		in := exercise.Input{Session: session(rapid.SampledFrom([]season.Kind{season.FullBody, season.Trimmed}).Draw(t, "kind"), rapid.IntRange(35, 60).Draw(t, "minutes"), "2026-11-12"),
			Athlete: adult(), Kit: exercise.Gym(), Week: exercise.Week{Known: true, Full: 2}}
		first := in
		first.Session.Date = day("2026-11-09")
		card, err := exercise.Builder{}.Session(first) // what came last, and counts for nothing here
		if err != nil {
			t.Fatal(err)
		}
		in.History.Cards = []exercise.Card{card}
		full := rapid.Bool().Draw(t, "full")
		in.Congested = rapid.Bool().Draw(t, "congested")
		done := map[exercise.Pattern]int{}
		lacks := map[exercise.Pattern]exercise.Pattern{}
		for _, p := range pairs {
			i := rapid.IntRange(0, 1).Draw(t, "which")
			lacks[p[i]] = p[1-i]
			switch {
			case !full:
				done[p[1-i]] = 3
			case in.Congested:
				done[p[1-i]], done[p[i]] = 6, 2
			default:
				done[p[1-i]], done[p[i]] = 10, 2
			}
		}
		in.History.WeekPatterns, in.History.WeekSets = done, map[exercise.Region]int{}
		for p, n := range done {
			in.History.WeekSets[p.Region()] += n
		}
		got, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		has := patternsOf(got)
		for p, other := range lacks {
			if !full && has[p] == 0 {
				t.Fatalf("no %s after %v\n%s", p, done, printed(got))
			}
			if full && has[other] > 0 {
				t.Fatalf("%s after %v\n%s", other, done, printed(got))
			}
		}
	})
}

// TestABreakCutsTheBlock: the main lift is that of its block until a break, and
// after it the block begins anew.
func TestABreakCutsTheBlock(t *testing.T) {
	plan := invented(8)
	// The games of the fourth and fifth week are off: 20 dates without one.
	plan.Games = slices.DeleteFunc(plan.Games, func(g season.PlanGame) bool {
		return g.Date.Equal(day("2026-10-03")) || g.Date.Equal(day("2026-10-10"))
	})
	plan.Period = season.Period{From: day("2026-09-07"), To: day("2026-11-01")}
	_, cards, err := exercise.Builder{}.Season(plan, club())
	if err != nil {
		t.Fatal(err)
	}
	since := map[string]calendar.Date{}
	for _, c := range cards {
		for _, b := range c.Blocks {
			for _, it := range b.Items {
				if it.Why.Code != "pick-continued" {
					continue
				}
				d := day(it.Why.Values["date"].Text)
				if c.Date.After(day("2026-10-17")) && d.Before(day("2026-10-17")) {
					t.Errorf("%s: the block of before the break goes on since %s", c.Date, d)
				}
				since[c.Date.String()] = d
			}
		}
	}
	if len(since) < 6 {
		t.Errorf("few main lifts go on: %v", since)
	}
}

// TestAnEasedSessionIsTheShorterKind: a full-body session with a set less is a
// trimmed one, and the week is told so.
func TestAnEasedSessionIsTheShorterKind(t *testing.T) {
	for _, x := range []struct {
		kind   season.Kind
		report exercise.CheckIn
		want   season.Kind
		state  season.State
	}{
		{season.FullBody, exercise.CheckIn{Energy: exercise.Read(2)}, season.Trimmed, season.Eased},
		{season.Eccentric, exercise.CheckIn{Energy: exercise.Read(2)}, season.Trimmed, season.Eased}, // nothing is lowered slowly
		{season.FullBody, exercise.CheckIn{Minutes: 34}, season.Trimmed, season.Eased},
		{season.FullBody, exercise.CheckIn{Minutes: 35}, season.FullBody, season.Eased},
		{season.Primer, exercise.CheckIn{Energy: exercise.Read(2)}, season.Primer, season.Eased},
	} {
		in := exercise.Input{Session: session(x.kind, 55, "2026-12-22"), Athlete: club().Athlete, Kit: exercise.Gym()}
		written, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		r, err := exercise.Builder{}.Today(in, written, x.report)
		if err != nil {
			t.Fatal(err)
		}
		if e := r.Effect(); e.Kind != x.want || r.State() != x.state {
			t.Errorf("%s after %+v: %s, %s", x.kind, x.report, e.Kind, r.State())
		}
		if x.kind == season.Eccentric {
			for _, it := range itemsOf(r) {
				if e, _ := (exercise.Catalogue{}).Find(it.ID); e.Eccentric && it.Slot != "prehab" {
					t.Errorf("%s in a trimmed session", it.ID)
				}
			}
		}
	}
}

// TestARestrictionWithoutASide: both sides are spared, and the side is asked.
func TestARestrictionWithoutASide(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	in.Athlete.Restrictions = []season.Restriction{{Region: "shoulder", From: day("2026-11-01"), By: "physiotherapist"}}
	c, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	if !hasNote(c.Notes, "question-side") {
		t.Errorf("the side is not asked:\n%s", printed(c))
	}
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			if loadsSore(it, "shoulder", "both") {
				t.Errorf("%s against a restriction", it.ID)
			}
		}
	}
}

// TestTheThirdWeekIsReferred: a mild complaint that was reported in each of the
// two weeks before is referred, also if nobody gives its first date.
func TestTheThirdWeekIsReferred(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-24"), Athlete: adult(), Kit: exercise.Gym()}
	written, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	knee := func(side string, pain int, dates ...string) (out []exercise.Complaint) {
		for _, d := range dates {
			out = append(out, exercise.Complaint{Region: "knee", Side: side, Pain: pain, Date: day(d)})
		}
		return out
	}
	for _, x := range []struct {
		name    string
		reports []exercise.Complaint
		want    bool
	}{
		{"new", nil, false},
		{"the second week", knee("left", 1, "2026-11-16"), false},
		{"the third", knee("left", 1, "2026-11-10", "2026-11-16"), true},
		{"the other side", knee("right", 1, "2026-11-10", "2026-11-16"), false},
		{"nothing felt", knee("left", 0, "2026-11-10", "2026-11-16"), false},
		{"a week between", knee("left", 1, "2026-11-03", "2026-11-16"), false},
	} {
		in.History.Reports = x.reports
		r, err := exercise.Builder{}.Today(in, written, exercise.CheckIn{Pain: []exercise.Complaint{{Region: "knee", Side: "left", Pain: 1}}})
		if err != nil {
			t.Fatal(err)
		}
		if d, ok := r.(exercise.AsWritten); !ok || d.Refer != x.want || hasNote(d.Why, "day-refer") != x.want {
			t.Errorf("%s: %s, refer %v", x.name, r.State(), d.Refer)
		}
	}
}

// TestEveryChangeHasAReason: what is gone from the card is named, with why.
func TestEveryChangeHasAReason(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: club().Athlete, Kit: exercise.Gym()}
	written, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, report := range []exercise.CheckIn{
		{Pain: []exercise.Complaint{{Region: "knee", Side: "left", Pain: 4}}},
		{Minutes: 25},
		{Kit: &exercise.Kit{Words: []string{"band"}}},
	} {
		r, err := exercise.Builder{}.Today(in, written, report)
		if err != nil {
			t.Fatal(err)
		}
		now := map[string]bool{}
		for _, it := range itemsOf(r) {
			now[it.ID] = true
		}
		for _, b := range written.Blocks {
			for _, it := range b.Items {
				if b.Rounds == 0 || it.Slot == "ramp-up" {
					continue
				}
				said := slices.ContainsFunc(whyOf(r), func(n season.Note) bool {
					return (n.Code == "day-out" || n.Code == "day-instead") && n.Values["exercise"].Text == it.Exercise.Name
				})
				if said == now[it.ID] {
					t.Errorf("%+v: %s is on the card %v, and its loss is told %v", report, it.ID, now[it.ID], said)
				}
			}
		}
	}
}
