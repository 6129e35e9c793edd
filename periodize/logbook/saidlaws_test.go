package logbook_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// drawAttention draws what a coach's list is made from, around the dates of the
// drawn entries.
func drawAttention(t *rapid.T, z calendar.Zone, entries []logbook.Entry) logbook.Attention {
	draw := func(n int, what string) int { return rapid.IntRange(0, n-1).Draw(t, what) }
	today := day("2026-11-16")
	if len(entries) > 0 {
		if d := entries[draw(len(entries), "of")].Start.Date; !d.IsZero() {
			today = d.AddDays(draw(60, "after") - 5)
		}
	}
	a := logbook.Attention{Setting: logbook.Setting{Today: today, Athlete: season.Athlete{Zone: z, Born: season.YearMonth{Year: 1980 + draw(45, "born"), Month: 1 + draw(12, "month")}, TrainingAgeMonths: draw(60, "months") - 1}}}
	a.EmptyIsRest = draw(2, "rest") == 0
	plan := &season.Plan{Zone: z.Name(), Period: season.Period{From: today.AddDays(-20), To: today.AddDays(draw(60, "to"))}}
	for i := range draw(8, "planned") {
		s := planned(fmt.Sprint("p", i%5), season.Kinds()[draw(6, "kind")], today.AddDays(draw(60, "date")-20).String())
		plan.Sessions = append(plan.Sessions, s)
		a.Issued = append(a.Issued, s)
	}
	for i := range draw(5, "events") {
		e := calendar.Event{ID: fmt.Sprint("g", i), Kind: calendar.Kinds()[draw(4, "event")], Zone: z, Start: calendar.Wall{Date: today.AddDays(draw(40, "on") - 20), Clock: 18 * 3600}}
		if p, err := calendar.Place(e, calendar.Assumptions{}); err == nil {
			a.Events = append(a.Events, p)
		}
	}
	if draw(2, "plan") == 0 {
		a.Plan = plan
	}
	if draw(2, "plays") == 0 {
		a.Plays = logbook.Told(draw(90, "minutes"))
	}
	a.Off = season.Period{From: today.AddDays(-90), To: today.AddDays(-60)}
	return a
}

// said is all that this package says of a log, as text.
func saidOf(t *rapid.T, v logbook.View, a logbook.Attention) string {
	list, err := v.Findings(a)
	if err != nil {
		t.Fatal(err)
	}
	changes, asked := v.Changes(a.Tests)
	prefer, unplaced := v.Preferences()
	mass, ok := v.BodyMass(logbook.MassOptions{Today: a.Today, Born: a.Athlete.Born, Off: a.Off})
	text, err := json.Marshal([]any{list, logbook.Edges(v, a.Setting, a.Plan), changes, asked, prefer, unplaced, mass, ok,
		v.Loads(logbook.LoadOptions{Setting: a.Setting, EmptyIsRest: a.EmptyIsRest, Ratio: true, Divisor: load.Population})})
	if err != nil {
		t.Fatal(err) // also a number that is none
	}
	return string(text)
}

// The order of the entries, and how often each is given, change nothing that is
// said.
func TestOrderAndRepetitionSayNothing(t *testing.T) {
	z := berlin()
	rapid.Check(t, func(t *rapid.T) {
		entries := drawEntries(t, z, 30)
		a := drawAttention(t, z, entries)
		one := drawLog(t, entries)
		mixed := rapid.Permutation(append(append([]logbook.Entry{}, entries...), entries...)).Draw(t, "order")
		two := drawLog(t, mixed)
		athlete := ""
		if list := one.Athletes(); len(list) > 0 {
			athlete = list[0]
		}
		if x, y := saidOf(t, one.View(athlete), a), saidOf(t, logbook.Merge(two, one).View(athlete), a); x != y {
			t.Fatalf("%s\n%s", x, y)
		}
	})
}

// What is not known never makes a bound tighter: with an entry less, the sure date
// is no later, and what was sure to be the load of a week is no more.
func TestLessIsKnownWithLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var list []logbook.Entry
		for i := range rapid.IntRange(1, 8).Draw(t, "n") {
			d := day("2026-11-16").AddDays(-rapid.IntRange(0, 40).Draw(t, "ago")).String()
			switch rapid.IntRange(0, 2).Draw(t, "what") {
			case 0:
				list = append(list, entry(fmt.Sprint(i), fmt.Sprintf("%sT%02d:00", d, 5+2*i), lift(rapid.IntRange(5, 70).Draw(t, "minutes"), 6)))
			case 1:
				list = append(list, entry(fmt.Sprint(i), d, logbook.Game{Minutes: logbook.Told(rapid.IntRange(0, 80).Draw(t, "played"))}))
			default:
				list = append(list, entry(fmt.Sprint(i), d, practice(rapid.IntRange(0, 90).Draw(t, "took"), 7)))
			}
		}
		s := logbook.Setting{Today: day("2026-11-16")}
		period := season.Period{From: day("2026-10-05"), To: s.Today}
		with, without := drawLog(t, list).View(""), drawLog(t, list[1:]).View("")
		more, less := logbook.Edges(with, s, nil), logbook.Edges(without, s, nil)
		for i := range more {
			if less[i].Sure.Date.After(more[i].Sure.Date) {
				t.Fatalf("%s: %s with more, %s with less", more[i].Quality, more[i].Sure.Date, less[i].Sure.Date)
			}
		}
		o := logbook.LoadOptions{Setting: s, Period: period}
		p, q := with.Loads(o), without.Loads(o)
		for i := range p.Weeks {
			if q.Weeks[i].Total.Least > p.Weeks[i].Total.Least {
				t.Fatalf("%+v with more, %+v with less", p.Weeks[i], q.Weeks[i])
			}
		}
	})
}
