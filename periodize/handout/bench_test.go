package handout_test

import (
	"fmt"
	"testing"

	"example.org/weft/periodize/handout"
)

// A season of 38 weeks with a game on each Saturday and every third Wednesday.
func BenchmarkSheets(b *testing.B) {
	text := `{"schema": 1, "period": {"from": "2026-08-31", "to": "2027-05-23"},
	"athlete": {"id": "a7", "born": "2001-05", "zone": "Europe/Berlin", "trainingAgeYears": 4}, "events": [`
	first := day(1).AddDays(-62) // Mon 31 Aug
	for w := range 38 {
		d := first.AddDays(7 * w)
		text += fmt.Sprintf(`{"id": "s%d", "kind": "game", "start": "%sT17:30", "end": "%sT19:15"},`, w, d.AddDays(5), d.AddDays(5))
		if w%3 == 1 {
			text += fmt.Sprintf(`{"id": "w%d", "kind": "game", "start": "%sT19:30", "end": "%sT21:15"},`, w, d.AddDays(2), d.AddDays(2))
		}
		text += fmt.Sprintf(`{"id": "p%d", "kind": "practice", "start": "%sT18:30", "end": "%sT20:00"},`, w, d.AddDays(3), d.AddDays(3))
	}
	req := read(b, text[:len(text)-1]+"]}")
	plan := planned(b, req)
	book := open(b, req, plan, handout.Options{})
	b.Run("book", func(b *testing.B) {
		for range b.N {
			open(b, req, plan, handout.Options{})
		}
	})
	for name, write := range map[string]func() int{
		"strip": func() int { return len(book.Strip().HTML()) },
		"months": func() (n int) {
			for _, d := range book.Months() {
				s, err := book.Month(d)
				if err != nil {
					b.Fatal(err)
				}
				n += len(s.Fragment())
			}
			return n
		},
		"weeks": func() (n int) {
			for _, d := range book.Weeks() {
				s, err := book.Week(d)
				if err != nil {
					b.Fatal(err)
				}
				n += len(s.Fragment())
			}
			return n
		},
		"table": func() int { return len(book.CSV()) },
	} {
		b.Run(name, func(b *testing.B) {
			bytes := 0
			for range b.N {
				bytes = write()
			}
			b.ReportMetric(float64(bytes), "bytes")
		})
	}
}
