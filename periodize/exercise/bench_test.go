package exercise

import (
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// weeksOf is a season of weeks with two full-body sessions, a primer and a
// recovery session.
func weeksOf(n int) season.Plan {
	var p season.Plan
	monday := calendar.DateFromDayNumber(20_703) // 2026-09-07
	for w := range n {
		for _, x := range []struct {
			day, minutes int
			kind         season.Kind
		}{{0, 55, season.FullBody}, {2, 55, season.FullBody}, {4, 35, season.Primer}, {6, 40, season.Recovery}} {
			d := monday.AddDays(7*w + x.day)
			start := time.Unix(int64(d.DayNumber())*86400+17*3600, 0).UTC()
			p.Sessions = append(p.Sessions, season.Session{ID: d.String(), Kind: x.kind, Date: d, Start: start, End: start.Add(time.Duration(x.minutes) * time.Minute),
				Minutes: x.minutes, State: season.AsWritten, GameDay: []season.GameOffset{{Event: "g", Days: x.day - 5}}})
		}
	}
	return p
}

func BenchmarkSeason(b *testing.B) {
	home := Kit{Words: []string{"chair", "band", "corridor"}}
	for _, x := range []struct {
		name  string
		weeks int
		kit   Kit
	}{{"month", 4, Gym()}, {"season", 30, Gym()}, {"season-at-home", 30, home}} {
		b.Run(x.name, func(b *testing.B) {
			plan := weeksOf(x.weeks)
			club := Club{Kits: map[string]Kit{"": x.kit}, Athlete: season.Athlete{ID: "a", Born: season.YearMonth{Year: 2003, Month: 5}, TrainingAgeMonths: 26,
				Maxima: []season.Maximum{{Exercise: "back-squat", Grams: 140_000, Kind: "tested", Date: plan.Sessions[0].Date}}}}
			b.ReportAllocs()
			states := 0
			for range b.N {
				f := Builder{}.filler(plan, club)
				if err := f.all(""); err != nil || len(f.cards) != 4*x.weeks {
					b.Fatal(err, len(f.cards))
				}
				states = f.base.ws.states
			}
			b.ReportMetric(float64(states), "states/op")
		})
	}
}
