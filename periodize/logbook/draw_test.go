package logbook_test

import (
	"fmt"
	"testing"
	"time"
	_ "time/tzdata"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

func zone(t testing.TB, name string) calendar.Zone {
	t.Helper()
	z, err := calendar.LoadZone(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func day(s string) calendar.Date {
	d, err := calendar.ParseDate(s)
	if err != nil {
		return calendar.Date{}
	}
	return d
}

func wall(s string) calendar.Wall {
	w, err := calendar.ParseWall(s)
	if err != nil {
		return calendar.Wall{}
	}
	return w
}

func instant(s string) time.Time {
	t, err := time.Parse(time.RFC3339, s)
	if err != nil {
		return time.Time{}
	}
	return t
}

func newLog(t testing.TB, entries ...logbook.Entry) logbook.Log {
	t.Helper()
	l, err := logbook.NewLog(entries...)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// drawEntries draws entries from so few ids, dates and values that repetitions,
// clashes and chains of corrections are common.
func drawEntries(t *rapid.T, z calendar.Zone, most int) []logbook.Entry {
	n := rapid.IntRange(0, most).Draw(t, "entries")
	out := make([]logbook.Entry, n)
	for i := range out {
		out[i] = drawEntry(t, z)
	}
	return out
}

func drawEntry(t *rapid.T, z calendar.Zone) logbook.Entry {
	ids := []string{"s1", "s2", "s3", "c1", "c2", "c3", "x"}
	id := rapid.SampledFrom(ids)
	e := logbook.Entry{
		ID:       id.Draw(t, "id"),
		Athlete:  rapid.SampledFrom([]string{"", "a", "a", "a"}).Draw(t, "athlete"),
		Recorded: instant("2026-11-20T10:00:00Z").Add(time.Duration(rapid.IntRange(0, 3).Draw(t, "told")) * time.Hour),
		Source:   rapid.SampledFrom(append(logbook.Sources(), "")).Draw(t, "source"),
	}
	other := func() string {
		for {
			if o := id.Draw(t, "other"); o != e.ID {
				return o
			}
		}
	}
	switch rapid.IntRange(0, 9).Draw(t, "what") {
	case 0, 1:
		e.What = logbook.Void{Of: other(), Reason: rapid.SampledFrom([]string{"", "typed twice"}).Draw(t, "reason")}
		return e
	case 2:
		e.What = logbook.Confirm{Of: other()}
		return e
	case 3, 4, 5:
		e.Replaces = other()
	}
	e.Zone = z
	e.Start = calendar.Wall{Date: day("2026-11-09").AddDays(rapid.IntRange(0, 3).Draw(t, "day"))}
	switch rapid.IntRange(0, 9).Draw(t, "kind") {
	case 0:
		e.DateOnly = true
		e.What = logbook.Wellness{Scale: logbook.McLeanScale, Sleep: drawCount(t, 1, 5), Mood: logbook.Told(rapid.IntRange(1, 5).Draw(t, "mood"))}
	case 1:
		e.DateOnly = true
		e.What = logbook.BodyMass{Mass: load.Mass(rapid.IntRange(48_100, 103_700).Draw(t, "mass"))}
	case 2:
		e.Start.Clock = 19 * 3600
		e.What = logbook.Game{Event: "g7", Minutes: drawCount(t, 0, 97), Rating: drawRating(t)}
	case 3:
		e.Start.Clock = 18*3600 + 900
		e.End, e.HasEnd = e.Start.AddMinutes(85), true
		e.What = logbook.Practice{Minutes: drawCount(t, 0, 85), Rating: drawRating(t), Sprinted: logbook.Maybe[bool]{Value: false, Known: rapid.Bool().Draw(t, "sprints")}}
	case 4:
		e.DateOnly = true
		e.What = logbook.Test{Name: "countermovement jump", Protocol: "best of 3", Unit: logbook.InCm, Value: logbook.Milli(rapid.IntRange(28_000, 51_999).Draw(t, "jump")),
			Trials: []logbook.Milli{31_250, 30_999}[:rapid.IntRange(0, 2).Draw(t, "trials")]}
	case 5:
		e.DateOnly = true
		e.What = logbook.Remark{Text: "flat <b>after</b> primers\n& late", Session: season.Primer, Days: []time.Weekday{time.Sunday, time.Thursday}[:rapid.IntRange(0, 2).Draw(t, "days")]}
	default:
		e.Start.Clock = calendar.Clock(rapid.SampledFrom([]int{16*3600 + 1800, 17*3600 + 600}).Draw(t, "clock"))
		e.What = drawSession(t)
	}
	return e
}

func drawSession(t *rapid.T) logbook.Session {
	s := logbook.Session{
		Planned: rapid.SampledFrom([]string{"", "p1", "p2"}).Draw(t, "planned"),
		Session: rapid.SampledFrom([]season.Kind{season.FullBody, season.Recovery}).Draw(t, "session"),
		State:   rapid.SampledFrom([]logbook.State{logbook.Done, logbook.Done, logbook.Missed, logbook.Unknown}).Draw(t, "state"),
	}
	if s.State != logbook.Done {
		return s
	}
	s.Rating, s.Minutes = drawRating(t), drawCount(t, 0, 61)
	for range rapid.IntRange(0, 2).Draw(t, "sets") {
		s.Sets = append(s.Sets, logbook.Set{
			Exercise: rapid.SampledFrom([]string{"back-squat", "bench-press", "tyre flip"}).Draw(t, "exercise"),
			Load:     logbook.Maybe[load.Mass]{Value: load.Mass(rapid.IntRange(0, 3).Draw(t, "load")) * 33_500, Known: rapid.Bool().Draw(t, "loaded")},
			Reps:     drawCount(t, 1, 13), Left: drawCount(t, 0, 4), Ramp: rapid.Bool().Draw(t, "ramp"),
		})
	}
	return s
}

func drawCount(t *rapid.T, low, high int) logbook.Maybe[int] {
	if rapid.Bool().Draw(t, "known") {
		return logbook.Told(rapid.IntRange(low, high).Draw(t, "count"))
	}
	return logbook.Maybe[int]{}
}

func drawRating(t *rapid.T) logbook.Maybe[load.SessionRating] {
	if rapid.Bool().Draw(t, "rated") {
		return logbook.Told(load.SessionRating(float64(rapid.IntRange(0, 100).Draw(t, "tenths")) / 10))
	}
	return logbook.Maybe[load.SessionRating]{}
}

// written is a log as text, the simplest thing to compare.
func written(t interface{ Fatal(...any) }, l logbook.Log) string {
	var b stringWriter
	if err := l.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	return string(b)
}

type stringWriter []byte

func (w *stringWriter) Write(p []byte) (int, error) {
	*w = append(*w, p...)
	return len(p), nil
}

func shown(v logbook.View) string { return fmt.Sprintf("%+v", v) }
