package logbook

import "example.org/weft/periodize/season"

// Limits of a log. Whatever is longer is refused with a problem that names the
// limit; nothing is cut silently.
const (
	MaxBytes   = 64 << 20 // of one text
	MaxEntries = 200_000  // of one log, a squad's season among them
	MaxSets    = 200      // of one session
	MaxTrials  = 100      // of one test
	MaxRows    = 500_000  // of one table, the header not counted
	MaxColumns = 100
	MaxCell    = 8_192 // bytes
	MaxChain   = 64    // corrections of corrections of an entry
	MaxMinutes = 720   // of one session or practice
	MaxPlayed  = 300   // minutes of one game
	MaxReps    = 1_000 // of one set
	MaxLeft    = 30    // repetitions in reserve that anybody can tell
)

const (
	maxID       = season.MaxIDRunes
	maxText     = season.MaxTextRunes
	maxProblems = season.MaxProblems
	maxValue    = 1_000_000_000_000 // of a test, in thousandths of its unit
)

// Limits tighten what a reader accepts. A field that is zero or negative, or
// above the constant of the same name, stands for that constant.
type Limits struct {
	Bytes   int64
	Entries int
	Rows    int
}

func (l Limits) filled() Limits {
	if l.Bytes <= 0 || l.Bytes > MaxBytes {
		l.Bytes = MaxBytes
	}
	if l.Entries <= 0 || l.Entries > MaxEntries {
		l.Entries = MaxEntries
	}
	if l.Rows <= 0 || l.Rows > MaxRows {
		l.Rows = MaxRows
	}
	return l
}
