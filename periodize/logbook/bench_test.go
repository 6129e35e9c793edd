package logbook_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// squad is the log of a season of 30 athletes over 40 weeks: each week two lifts
// with three exercises of three sets, a primer, two recovery sessions, three
// practices, a game, five mornings of wellness and a weighing; a session in
// fifty is corrected.
func squad(z calendar.Zone) (entries []logbook.Entry, cards []exercise.Card) {
	lifts := []string{"back-squat", "bench-press", "romanian-deadlift"}
	for a := range 30 {
		athlete := fmt.Sprintf("a%02d", a)
		put := func(id string, d calendar.Date, clock calendar.Clock, what logbook.What) {
			e := logbook.Entry{ID: id, Athlete: athlete, Start: calendar.Wall{Date: d, Clock: clock}, DateOnly: clock == 0, Zone: z, What: what,
				Recorded: z.DayStart(d.AddDays(1))}
			entries = append(entries, e)
			if s, ok := what.(logbook.Session); ok && len(entries)%50 == 0 {
				s.Minutes = logbook.Told(51)
				e.ID, e.Replaces, e.What = id+"-corrected", id, s
				entries = append(entries, e)
			}
		}
		for w := range 40 {
			monday := day("2026-08-31").AddDays(7 * w)
			for k, kind := range []season.Kind{season.FullBody, season.FullBody, season.Primer, season.Recovery, season.Recovery} {
				id := fmt.Sprintf("w%02d-%d", w, k)
				s := logbook.Session{Planned: "p" + id, Session: kind, State: logbook.Done, Rating: logbook.Told(load.SessionRating(6.5)), Minutes: logbook.Told(50)}
				if kind == season.FullBody {
					for i, x := range lifts {
						for n := range 3 {
							s.Sets = append(s.Sets, logbook.Set{Exercise: x, Load: kg(60 + 20*float64(i) + 2.5*float64(w/5)), Reps: logbook.Told(5), Left: logbook.Told(2 + (w+n)%2)})
						}
						if a == 0 {
							cards = append(cards, card(s.Planned, x, 3, 5, 2))
						}
					}
				}
				put(id, monday.AddDays(k), 17*3600, s)
			}
			for k := range 3 {
				put(fmt.Sprintf("t%02d-%d", w, k), monday.AddDays(2*k), 19*3600, logbook.Practice{Minutes: logbook.Told(80), Rating: logbook.Told(load.SessionRating(5))})
			}
			put(fmt.Sprintf("g%02d", w), monday.AddDays(5), 19*3600, logbook.Game{Minutes: logbook.Told(60)})
			for k := range 5 {
				put(fmt.Sprintf("h%02d-%d", w, k), monday.AddDays(k), 0, logbook.Wellness{Scale: logbook.HooperScale, Sleep: logbook.Told(3)})
			}
			put(fmt.Sprintf("b%02d", w), monday, 0, logbook.BodyMass{Mass: 74_300})
		}
	}
	return entries, cards
}

// BenchmarkFoldSquad folds the season of a squad: 18,000 entries and more.
func BenchmarkFoldSquad(b *testing.B) {
	entries, _ := squad(zone(b, "Europe/Berlin"))
	l := newLog(b, entries...)
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		if f := logbook.NewFold(l); len(f.Athletes()) != 30 {
			b.Fatal("athletes are missing")
		}
	}
	b.ReportMetric(float64(l.Len()), "entries")
}

func BenchmarkAdd(b *testing.B) {
	z := zone(b, "Europe/Berlin")
	entries, _ := squad(z)
	fold := logbook.NewFold(newLog(b, entries...))
	e := did("new", "", "2027-06-08", z, set(100, 5, 2))
	e.Athlete = "a17"
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		e.ID = fmt.Sprintf("new%07d", i)
		if err := fold.Add(e); err != nil {
			b.Fatal(err)
		}
	}
}

func given() logbook.Given {
	return logbook.Given{Today: day("2027-06-10"), Athlete: lifter(), Kit: exercise.Gym()}
}

// BenchmarkView is what holds for one athlete of the squad.
func BenchmarkView(b *testing.B) {
	entries, _ := squad(zone(b, "Europe/Berlin"))
	fold := logbook.NewFold(newLog(b, entries...))
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		if v := fold.View("a17"); len(v.Entries) != 600 {
			b.Fatal(len(v.Entries))
		}
	}
}

// BenchmarkLift is one lift of one athlete anew, as after a set was logged.
func BenchmarkLift(b *testing.B) {
	entries, cards := squad(zone(b, "Europe/Berlin"))
	v := newLog(b, entries...).View("a17")
	g := given()
	g.Cards = cards
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		if l, ok, err := v.Lift("back-squat", g); err != nil || !ok || l.Estimate.Sessions != 80 {
			b.Fatal(l, err)
		}
	}
}

func BenchmarkProgressSquad(b *testing.B) {
	entries, cards := squad(zone(b, "Europe/Berlin"))
	fold := logbook.NewFold(newLog(b, entries...))
	g := given()
	g.Cards = cards
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		for _, a := range fold.Athletes() {
			if lifts, _, err := fold.View(a).Progress(g); err != nil || len(lifts) != 3 {
				b.Fatal(len(lifts), err)
			}
		}
	}
}

func BenchmarkMergeSquad(b *testing.B) {
	entries, _ := squad(zone(b, "Europe/Berlin"))
	l := newLog(b, entries...)
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		if m := logbook.Merge(l, l); m.Len() != l.Len() {
			b.Fatal(m.Len())
		}
	}
}

// BenchmarkNewLog checks and sorts the entries of a squad's season.
func BenchmarkNewLog(b *testing.B) {
	entries, _ := squad(zone(b, "Europe/Berlin"))
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		newLog(b, entries...)
	}
}

func BenchmarkReadCSV(b *testing.B) {
	entries, _ := squad(zone(b, "Europe/Berlin"))
	text, ok := asTable(b, newLog(b, entries...))
	if !ok {
		b.Fatal("no table")
	}
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		if _, _, err := (logbook.Reader{}).CSV(strings.NewReader(text), "log.csv"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadJSON(b *testing.B) {
	entries, _ := squad(zone(b, "Europe/Berlin"))
	text := []byte(written(b, newLog(b, entries...)))
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	b.ResetTimer()
	for range b.N {
		if _, err := logbook.ReadJSON(bytes.NewReader(text)); err != nil {
			b.Fatal(err)
		}
	}
}
