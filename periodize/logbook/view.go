package logbook

import (
	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// View is what holds now for one athlete. It shares memory with the log it came
// from, and is not to be changed.
type View struct {
	Athlete string
	// Entries are those that count, in the order of time. Voids and confirmations
	// are not among them.
	Entries   []Entry
	Disputed  []Dispute
	Questions []season.Note

	confirmed map[string]bool // ids
}

// Dispute is one thing of which different things are told. None of its entries
// counts, and whether it happened is unknown.
type Dispute struct {
	ID      string  // the first of its ids that does not only replace another
	Entries []Entry // in the order of time

	together bool // each tells of it, so that it lies between them
}

// View is what holds now for one athlete; empty for one of whom nothing is told.
func (l Log) View(athlete string) View { return NewFold(l.Of(athlete)).View(athlete) }

// Confirmed reports whether somebody confirmed the values of an entry.
func (v View) Confirmed(id string) bool { return v.confirmed[id] }

// until is a view without what is dated after a date.
func (v View) until(d calendar.Date) View {
	n := len(v.Entries)
	for n > 0 && v.Entries[n-1].Date().After(d) {
		n--
	}
	v.Entries = v.Entries[:n:n] // in the order of time, across zones at most a date apart
	return v
}

// sessions calls f for each session that counts, in the order of time.
func (v *View) sessions(f func(e *Entry, s *Session)) {
	for i := range v.Entries {
		if s, ok := v.Entries[i].What.(Session); ok {
			f(&v.Entries[i], &s)
		}
	}
}
