package main

import (
	"context"
	"fmt"
	"io"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
)

// fragile prints what the fixtures do when they move: the weeks at risk first.
func fragile(ctx context.Context, sweep whatif.Sweep, base *season.Request, w io.Writer) error {
	f := whatif.Fragility{Sweep: sweep}
	got, err := f.Run(ctx, base)
	if err != nil {
		return err
	}
	const most = 10
	fmt.Fprintf(w, "\nfragile weeks, each fixture moved by two days either way (the first %d of %d):\n", min(most, len(got.Weeks)), len(got.Weeks))
	for _, x := range got.Weeks[:min(most, len(got.Weeks))] {
		fmt.Fprintf(w, "week of %s: %d moves break %d limits if nobody plans anew; with a new plan %d sessions change, and %d points are lost\n",
			x.From, x.Moves, x.Breaks, x.Changed, x.Points)
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

// branches prints the plan for a series whose last games may not be needed, if
// there is one.
func branches(ctx context.Context, sweep whatif.Sweep, base *season.Request, w io.Writer) error {
	var ids []string
	var first calendar.Event
	for _, e := range base.Canonical().Events {
		if e.Kind == calendar.Game && e.Status == calendar.IfNecessary {
			if len(ids) == 0 {
				first = e
			}
			if e.Competition == first.Competition {
				ids = append(ids, e.ID)
			}
		}
	}
	if len(ids) == 0 {
		fmt.Fprintln(w, "\nno game is played only if it is needed")
		return nil
	}
	// Taken to be known at noon of the date before.
	known := first.Zone.Resolve(calendar.Wall{Date: first.Start.Date.AddDays(-1), Clock: clock(12, 0)}).Instant
	fork := whatif.Fork{Planner: sweep.Planner, Workers: sweep.Workers, Known: known, Branches: whatif.Series(ids...)}
	got, err := fork.Run(ctx, base)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "\ngames that are played only if they are needed: %d, which is known on %s; until then:\n", len(ids), got.Known.Format("Mon 2006-01-02 15:04"))
	from := got.Known.Add(-14 * 24 * time.Hour)
	for _, s := range got.Shared {
		if s.Start.After(from) {
			fmt.Fprintf(w, "  %s  %s\n", s.Start.Format("Mon 2006-01-02 15:04"), s.Kind)
		}
	}
	for _, b := range got.Branches {
		fmt.Fprintf(w, "%s (not knowing costs %d points):\n", b.Name, b.Price)
		for _, s := range b.Plan.Sessions {
			if !s.Start.Before(got.Known) {
				fmt.Fprintf(w, "  %s  %s\n", s.Start.Format("Mon 2006-01-02 15:04"), s.Kind)
			}
		}
	}
	fmt.Fprintf(w, "the best plan: %s, after %d plans\n", got.Proof, got.Plans)
	return nil
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
	fmt.Fprintf(w, "\n%d seasons at random (%s, seed %d; %d of 1000 games postponed):\n", odds.Seasons, odds.Generator, odds.Seed, odds.Rates.Postponed)
	line := func(m whatif.MeasureOdds) {
		fmt.Fprintf(w, "%-22s  %d of %d weeks and %d of %d seasons below the weekly minimum; %d points", m.Name, m.WeeksMissed, m.Weeks, m.SeasonsMissed, m.Seasons, m.Points)
		if m.Failed > 0 {
			fmt.Fprintf(w, "; %d not planned: %s", m.Failed, calendar.Inert(m.Problem))
		}
	}
	line(odds.AsItIs)
	fmt.Fprintln(w)
	for _, m := range odds.Measures {
		line(m)
		fmt.Fprintf(w, "; better in %d seasons, worse in %d\n", m.Better, m.Worse)
	}
	return nil
}
