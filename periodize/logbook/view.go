package logbook

import (
	"example.org/weft/periodize/season"
)

// View is what holds now for one athlete. It shares memory with the log it came
// from, and is not to be changed.
type View struct {
	Athlete string
	// Entries are those that count, in the order of time. Voids and confirmations
	// are not among them.
	Entries []Entry
	// Disputed are entries of which two things are told. None of them counts, and
	// whether it happened is unknown.
	Disputed  []Entry
	Questions []season.Note

	confirmed map[string]bool // ids
}

// View is what holds now for one athlete; empty for one of whom nothing is told.
func (l Log) View(athlete string) View { return NewFold(l.Of(athlete)).View(athlete) }

// Confirmed reports whether somebody confirmed the values of an entry.
func (v View) Confirmed(id string) bool { return v.confirmed[id] }
