package periodize

import (
	"context"
	"fmt"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/internal/history"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// benchRequest is an invented season: a game every so many dates, practice on
// three evenings, a break in the middle of long ones.
func benchRequest(b *testing.B, dates, every int) *season.Request {
	b.Helper()
	zone, err := calendar.LoadZone("Europe/Oslo")
	if err != nil {
		b.Fatal(err)
	}
	from, err := calendar.ParseDate("2026-09-07") // a Monday
	if err != nil {
		b.Fatal(err)
	}
	req := &season.Request{
		Period: season.Period{From: from, To: from.AddDays(dates - 1)},
		Athlete: season.Athlete{ID: "bench", Born: season.YearMonth{Year: 2001, Month: 4}, Zone: zone, TrainingAgeMonths: 40,
			OptIns: []season.OptIn{season.OptPostGame}},
	}
	wall := func(d calendar.Date, hour, minute int) calendar.Wall {
		return calendar.Wall{Date: d, Clock: calendar.Clock(hour*3600 + minute*60)}
	}
	for i := 0; i < dates; i++ {
		d := from.AddDays(i)
		resting := dates > 100 && i > 100 && i < 118
		if i%7%2 == 1 && !resting {
			req.Events = append(req.Events, calendar.Event{ID: fmt.Sprintf("p%d", i), Kind: calendar.Practice, Zone: zone,
				Start: wall(d, 18, 30), End: wall(d, 20, 0), HasEnd: true, Hard: i%14 == 3})
		}
		if i%every == 5%every && !resting {
			req.Events = append(req.Events, calendar.Event{ID: fmt.Sprintf("g%d", i), Kind: calendar.Game, Zone: zone,
				Start: wall(d, 14+i%5, 15), End: wall(d, 16+i%5, 0), HasEnd: true})
		}
	}
	return req
}

var benchSizes = []struct {
	name         string
	dates, every int
}{
	{"month", 28, 7}, {"month-congested", 28, 3}, {"season", 210, 7}, {"season-tight", 210, 4}, {"season-congested", 210, 3}, {"longest", 400, 5},
}

// BenchmarkPlan is a whole plan, explanations and judgement included.
func BenchmarkPlan(b *testing.B) {
	for _, size := range benchSizes {
		b.Run(size.name, func(b *testing.B) {
			req := benchRequest(b, size.dates, size.every)
			var p Planner
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				if _, err := p.Plan(context.Background(), req); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkSolve is the engine: rules compiled and the plan proved (compiled), or
// a solve of compiled rules where only static costs changed (static).
func BenchmarkSolve(b *testing.B) {
	for _, size := range benchSizes {
		var p Planner
		w, err := p.prepare(benchRequest(b, size.dates, size.every))
		if err != nil {
			b.Fatal(err)
		}
		if err := w.compile(); err != nil {
			b.Fatal(err)
		}
		states := 0
		for _, n := range w.compiled.States() {
			states += n
		}
		report := func(b *testing.B, s *layered.Solution) {
			b.ReportMetric(float64(states), "states/op")
			b.ReportMetric(float64(s.Stats.Nodes), "nodes/op")
			b.ReportMetric(float64(s.Stats.Edges+s.Stats.BeamWork), "edges/op")
		}
		b.Run(size.name+"/compiled", func(b *testing.B) {
			var solver layered.Solver
			var s *layered.Solution
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				prob := layered.Problem{}
				for i := range w.model.Choices {
					prob.Options = append(prob.Options, len(w.model.Choices[i].Options))
				}
				for _, r := range history.Rules(w.model) {
					prob.Rules = append(prob.Rules, r.Rule)
				}
				m, err := layered.Compile(prob, w.settings())
				if err != nil {
					b.Fatal(err)
				}
				if s, err = solver.Solve(context.Background(), m, w.static, w.settings()); err != nil {
					b.Fatal(err)
				}
			}
			report(b, s)
		})
		b.Run(size.name+"/static", func(b *testing.B) {
			var solver layered.Solver
			var s *layered.Solution
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				var err error
				if s, err = solver.Solve(context.Background(), w.compiled, w.static, w.settings()); err != nil {
					b.Fatal(err)
				}
			}
			report(b, s)
		})
		b.Run(size.name+"/prices", func(b *testing.B) {
			var solver layered.Solver
			set := w.settings()
			set.Slack = Slack * starts.Point
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				g, err := solver.Explore(context.Background(), w.compiled, w.static, set)
				if err != nil {
					b.Fatal(err)
				}
				for l := range w.model.Choices {
					g.Prices(l)
				}
			}
		})
	}
}
