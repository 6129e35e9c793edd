package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
)

// fragile prints what the fixtures do when they move: the weeks at risk first. With
// a file it writes each move there.
func fragile(ctx context.Context, sweep whatif.Sweep, base *season.Request, file string, w io.Writer) error {
	f := whatif.Fragility{Sweep: sweep}
	got, err := f.Run(ctx, base)
	if err != nil {
		return err
	}
	if file != "" {
		var b bytes.Buffer
		if err := whatif.WriteMoves(&b, got); err != nil {
			return err
		}
		if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
			return err
		}
	}
	const most = 10
	fmt.Fprintf(w, "\nFRAGILE WEEKS, each fixture moved by two days either way (the first %d of %d)\n", min(most, len(got.Weeks)), len(got.Weeks))
	fmt.Fprintf(w, "  %-12s %6s %28s %28s %12s\n", "week of", "moves", "limits that the plan breaks", "sessions that a new one moves", "points lost")
	for _, x := range got.Weeks[:min(most, len(got.Weeks))] {
		fmt.Fprintf(w, "  %-12s %6d %28d %29d %12d\n", x.From, x.Moves, x.Breaks, x.Changed, x.Points)
	}
	if len(got.Free) == 0 {
		fmt.Fprintln(w, "moves that are free: none")
		return nil
	}
	fmt.Fprintf(w, "moves that are free: %d;", len(got.Free))
	for _, x := range got.Free[:min(most, len(got.Free))] {
		fmt.Fprintf(w, " %s by %+d;", x.Date, x.Days)
	}
	if len(got.Free) > most {
		fmt.Fprint(w, " and more")
	}
	fmt.Fprintln(w)
	return nil
}

// branches prints the plan for games that may not be needed, each competition's
// one after the other: whether a game is played is known when the one before ends.
func branches(ctx context.Context, sweep whatif.Sweep, base *season.Request, w io.Writer) error {
	var games []calendar.Event
	for _, e := range base.Canonical().Events {
		if e.Kind == calendar.Game && e.Status == calendar.IfNecessary {
			games = append(games, e)
		}
	}
	if len(games) == 0 {
		fmt.Fprintln(w, "\nno game is played only if it is needed")
		return nil
	}
	slices.SortStableFunc(games, func(a, b calendar.Event) int { return a.Start.Compare(b.Start) })
	rounds := map[string][]calendar.Event{}
	for _, e := range games {
		rounds[e.Competition] = append(rounds[e.Competition], e)
	}
	for _, name := range slices.Sorted(maps.Keys(rounds)) {
		var ids [][]string
		for _, e := range rounds[name] {
			ids = append(ids, []string{e.ID})
		}
		first, err := whatif.Rounds(base, ids...)
		if err != nil {
			return err
		}
		called := func(e calendar.Event) string { return "game of " + e.Start.Date.String() }
		for d, i := first, 0; d != nil; d, i = d.Outcomes[0].Then, i+1 {
			d.Outcomes[0].Name, d.Outcomes[1].Name = called(rounds[name][i]), "no "+called(rounds[name][i])
		}
		tree := whatif.Tree{First: first, Planner: sweep.Planner, Workers: sweep.Workers}
		got, err := tree.Run(ctx, base)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "\nGAMES PLAYED ONLY IF THEY ARE NEEDED%s: %d\n", of(name), len(rounds[name]))
		show(w, got)
	}
	return nil
}

func of(competition string) string {
	if competition == "" {
		return ""
	}
	return ", " + calendar.Inert(competition)
}

// before is how much of what lies before the first decision is printed.
const before = 14 * 24 * time.Hour

func show(w io.Writer, got *whatif.TreePlan) {
	const layout = "Mon 2006-01-02 15:04"
	sessions := func(list []season.Session, from time.Time) {
		for _, s := range list {
			if !s.Start.Before(from) {
				fmt.Fprintf(w, "  %s  %s\n", s.Start.Format(layout), s.Kind)
			}
		}
	}
	after := make([]time.Time, len(got.Branches))
	for i, s := range got.Stages {
		if i == 0 {
			fmt.Fprintf(w, "whatever comes, until %s:\n", s.Known.Format(layout))
			sessions(s.Shared, s.Known.Add(-before))
		} else {
			fmt.Fprintf(w, "after %s, until %s:\n", strings.Join(s.Path, " and "), s.Known.Format(layout))
			sessions(s.Shared, s.From)
		}
		fmt.Fprintf(w, "  to know it sooner is worth %s points on average\n", mean(s.Price, s.Weight))
		for _, b := range s.Branches {
			after[b] = s.Known
		}
	}
	for i, b := range got.Branches {
		fmt.Fprintf(w, "%s, from then on (%d points; %d more than if it had been known from the start):\n", b.Name, b.Points, b.Price)
		sessions(b.Plan.Sessions, after[i])
	}
	fmt.Fprintf(w, "not knowing costs %s points on average; the plan is %s, after %d plans\n", mean(got.Price, got.Weight), got.Proof, got.Plans)
}

// mean is points a weight, to one decimal.
func mean(points, weight int64) string {
	tenths := (20*points + weight) / (2 * weight)
	return fmt.Sprintf("%d.%d", tenths/10, tenths%10)
}

// lottery prints what came of seasons drawn at random.
func lottery(ctx context.Context, sweep whatif.Sweep, base *season.Request, seasons int, seed uint64, w io.Writer) error {
	always := calendar.Date{}
	l := whatif.Lottery{Sweep: sweep, Seasons: seasons, Seed: seed,
		// Invented rates: count those of a club with whatif.RatesOf.
		Rates: whatif.Rates{Postponed: 60, Through: 500, Needed: 500},
		Measures: []whatif.Variant{
			{Name: "one more open evening", Change: whatif.OpenHours("gym", season.Hours{Days: []time.Weekday{time.Tuesday}, From: clock(15, 30), To: clock(20, 0)})},
			{Name: "half an hour longer", Change: whatif.Longer(30)},
		}}
	for _, e := range base.Events {
		if e.Kind == calendar.Practice && e.Start.Date.Weekday() == time.Monday {
			l.Measures = append(l.Measures, whatif.Variant{Name: "one practice less", Change: whatif.DropPractices(time.Monday, always, always)})
			break
		}
	}
	odds, err := l.Run(ctx, base)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "\n%d SEASONS AT RANDOM (%s, seed %d; %d of 1000 games postponed)\n", odds.Seasons, odds.Generator, odds.Seed, odds.Rates.Postponed)
	fmt.Fprintf(w, "  %-24s %17s %17s %12s %8s %7s\n", "below the weekly minimum", "weeks", "seasons", "points", "better", "worse")
	line := func(m whatif.MeasureOdds, better, worse string) {
		text := fmt.Sprintf("  %-24s %17s %17s %12d %8s %7s", m.Name, fmt.Sprintf("%d of %d", m.WeeksMissed, m.Weeks),
			fmt.Sprintf("%d of %d", m.SeasonsMissed, m.Seasons), m.Points, better, worse)
		fmt.Fprintln(w, strings.TrimRight(text, " "))
		if m.Failed > 0 {
			fmt.Fprintf(w, "    %d not planned: %s\n", m.Failed, calendar.Inert(m.Problem))
		}
	}
	line(odds.AsItIs, "", "")
	for _, m := range odds.Measures {
		line(m, strconv.Itoa(m.Better), strconv.Itoa(m.Worse))
	}
	return nil
}
