package season

import "example.org/weft/internal/jsonread"

// Limits of a request and of a plan handed back. Whatever is longer is refused
// with a problem that names the limit; nothing is cut silently.
const (
	MaxBytes        = 64 << 20 // of one JSON text
	MaxPeriodDays   = 400      // dates in a period
	MaxEvents       = 100_000
	MaxLog          = 20_000
	MaxIssued       = 50
	MaxPlaces       = 50
	MaxHours        = 200   // in one list of hours or preferred starts
	MaxClosed       = 1_000 // closed spans of a place
	MaxKit          = 500   // names in the kit of a place
	MaxMaxima       = 2_000
	MaxRestrictions = 200
	MaxHolds        = 200
	MaxOptIns       = 20
	MaxOverrides    = 500
	MaxPins         = 2_000
	MaxSessions     = 2_000  // in one plan
	MaxNotes        = 20_000 // in one list of a plan
	MaxIDRunes      = 200    // characters of an id
	MaxTextRunes    = 2_000  // characters of any other text
	MaxNoteRunes    = 16_000 // characters of a text in a plan, made of others
	MaxProblems     = 1_000  // listed; one more problem counts the rest
)

// Limits tighten what a reader accepts. A field that is zero or negative, or
// above the constant of the same name, stands for that constant.
type Limits struct {
	Bytes      int64
	PeriodDays int
	Events     int
	Log        int
	Issued     int
}

func (l Limits) filled() Limits {
	fill := func(v *int, most int) {
		if *v <= 0 || *v > most {
			*v = most
		}
	}
	if l.Bytes <= 0 || l.Bytes > MaxBytes {
		l.Bytes = MaxBytes
	}
	fill(&l.PeriodDays, MaxPeriodDays)
	fill(&l.Events, MaxEvents)
	fill(&l.Log, MaxLog)
	fill(&l.Issued, MaxIssued)
	return l
}

// options are those of every text read here. What is known of a person's health
// is never shown by a problem.
func (l Limits) options(strict bool) jsonread.Options {
	return jsonread.Options{
		Limits:   jsonread.Limits{Bytes: l.Bytes},
		Strict:   strict,
		Private:  []string{"restrictions", "holds", "wellness"},
		Problems: MaxProblems,
	}
}
