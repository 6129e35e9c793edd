package logbook_test

import (
	"fmt"

	"example.org/weft/load"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// diary is a short log of an invented athlete.
func diary(entries ...logbook.Entry) logbook.View {
	l, err := logbook.NewLog(entries...)
	if err != nil {
		panic(err)
	}
	return l.View("")
}

func ExampleEdges() {
	view := diary(
		entry("s1", "2026-11-02T17:00", logbook.Session{Session: season.FullBody, State: logbook.Done}),
		entry("g1", "2026-11-14", logbook.Game{Minutes: logbook.Told(40)}))
	s := logbook.Setting{Today: day("2026-11-16"), Athlete: season.Athlete{Born: season.YearMonth{Year: 2000, Month: 5}, TrainingAgeMonths: 48}}
	one := &season.Plan{Period: season.Period{To: day("2027-01-10")},
		Sessions: []season.Session{{ID: "p1", Kind: season.FullBody, Date: day("2026-11-23")}}}
	none := &season.Plan{Period: one.Period}
	fmt.Println(logbook.Sufficient(load.MaximalSpeed))
	for _, r := range logbook.Edges(view, s, one) {
		if r.Sure.Known() {
			fmt.Println(r.Quality, r.Sure.Days, "days,", r.Sure.Phase, r.Sure.Band.Early, "to", r.Sure.Band.Late)
		}
		if r.Quality == load.MaximalStrength {
			fmt.Println("with the session planned:", r.Ahead.Sooner.Early)
		}
	}
	for _, r := range logbook.Edges(view, s, none) {
		if r.Quality == load.MaximalStrength {
			fmt.Println("without it:", r.Ahead.Sooner.Early)
		}
	}
	// Output:
	// a primer with its sprints, 15 min of a game on the field, or a practice of which somebody says that there were sprints at full speed common practice, no source
	// maximal strength 14 days, retained 2026-11-27 to 2026-12-07
	// with the session planned: 2026-12-18
	// strength endurance 14 days, fading 2026-11-12 to 2026-11-22
	// maximal speed 2 days, fading 2026-11-16 to 2026-11-22
	// without it: 2026-11-27
}

func ExampleLast_Known() {
	for _, r := range logbook.Edges(diary(), logbook.Setting{Today: day("2026-11-16")}, nil)[:1] {
		fmt.Println(r.Quality, r.Sure.Known())
	}
	// Output: aerobic endurance false
}

func ExampleKeep() {
	view := diary(entry("s1", "2026-11-02T17:00", logbook.Session{Session: season.FullBody, State: logbook.Done}))
	aim, ok := logbook.Keep(view, logbook.Setting{Today: day("2026-11-16")}, load.MaximalStrength, 40)
	fmt.Println(ok, aim.ID, "-", aim.Doc)
	_, ok = logbook.Keep(view, logbook.Setting{}, load.AerobicEndurance, 40)
	fmt.Println(ok, logbook.KeptBy(load.AerobicEndurance), logbook.KeptBy(load.MaximalStrength))
	// Output:
	// true keep-strength - a heavy strength session in any 25 dates, to keep maximal strength
	// false [] [full-body trimmed-full-body post-game eccentric]
}

func ExampleKeepRule() {
	view := diary(entry("s1", "2026-11-02T17:00", logbook.Session{Session: season.FullBody, State: logbook.Done}))
	aim, ok := logbook.KeepRule(view, logbook.Setting{Today: day("2026-11-16")}, load.MaximalStrength, 40, day("2026-11-16"))
	fmt.Println(ok, aim.ID, "-", aim.Says)
	fmt.Println(aim.Shape, aim.Least, "in", aim.Dates, aim.Kinds, aim.Before)
	// Output:
	// true keep-strength - a heavy strength session in any 25 dates, to keep maximal strength
	// at-least 1 in 25 [full-body trimmed-full-body post-game eccentric] [2026-11-02]
}

func ExampleProposals() {
	view := diary(entry("s1", "2026-11-02T17:00", logbook.Session{Session: season.FullBody, State: logbook.Done}))
	idle := &season.Plan{Period: season.Period{From: day("2026-11-16"), To: day("2026-12-27")}}
	for _, p := range logbook.Proposals(view, logbook.Setting{Today: day("2026-11-16"), Athlete: grown}, idle, 40) {
		fmt.Println(p.Edge, p.Rule.ID)
	}
	// Output:
	// 2026-11-27 keep-strength
	// 2026-11-22 keep-strength-endurance
}

func ExampleQualities() {
	for _, q := range logbook.Qualities() {
		days, spread, _ := q.Residual()
		fmt.Println(q, days, "+/-", spread)
	}
	// Output:
	// aerobic endurance 30 +/- 5
	// maximal strength 30 +/- 5
	// anaerobic glycolytic endurance 18 +/- 4
	// strength endurance 15 +/- 5
	// maximal speed 5 +/- 3
}
