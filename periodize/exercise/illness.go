package exercise

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// feverFree is how long fever and symptoms have been gone before training.
// Common practice, no source.
const feverFree = 24 * time.Hour

// ill reports whether a session lies in an illness or before it is over for long
// enough: 24 hours where the hour of its end is known, else a whole date.
func ill(list []Illness, s *season.Session) bool {
	for _, x := range list {
		switch {
		case s.Date.Before(x.From):
		case x.To.IsZero(), !s.Date.After(x.To):
			return true
		case x.Until.IsZero() || s.Start.IsZero():
			if s.Date.DaysSince(x.To) <= 1 {
				return true
			}
		case s.Start.Sub(x.Until) < feverFree:
			return true
		}
	}
	return false
}

// reducedUntil is the last date of reduced work at the hour of a session: as many
// days as the illness had, from when training was allowed again.
func reducedUntil(list []Illness, s *season.Session) (until calendar.Date, ok bool) {
	for _, x := range list {
		if x.To.IsZero() || !s.Date.After(x.To) {
			continue
		}
		days := x.To.DaysSince(x.From) + 1
		last := x.To.AddDays(1 + days)
		if !x.Until.IsZero() && !s.Start.IsZero() {
			left := x.Until.Add(feverFree + time.Duration(days)*24*time.Hour).Sub(s.Start)
			last = s.Date.AddDays(int((left+24*time.Hour-1)/(24*time.Hour)) - 1)
		}
		if !s.Date.After(last) && (!ok || last.After(until)) {
			until, ok = last, true
		}
	}
	return until, ok
}
