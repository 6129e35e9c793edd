package calendar

import (
	"crypto/sha256"
	"encoding/base32"
	"strings"
)

// Kind says what an event is.
type Kind string

const (
	Game     Kind = "game"
	Practice Kind = "practice"
	Skills   Kind = "skills"
	Travel   Kind = "travel"
	Exam     Kind = "exam"
	Closure  Kind = "closure"
	Busy     Kind = "busy"
)

// Kinds returns all kinds in their fixed order.
func Kinds() []Kind {
	return []Kind{Game, Practice, Skills, Travel, Exam, Closure, Busy}
}

// Status says whether an event takes place. The empty status is Confirmed.
type Status string

const (
	Confirmed   Status = "confirmed"
	Provisional Status = "provisional"
	IfNecessary Status = "if-necessary"
	Postponed   Status = "postponed"
	Cancelled   Status = "cancelled"
	Played      Status = "played"
)

// Statuses returns all statuses in their fixed order.
func Statuses() []Status {
	return []Status{Confirmed, Provisional, IfNecessary, Postponed, Cancelled, Played}
}

// Importance of a game. The empty importance is ImportanceUnknown, which is
// treated as normal.
type Importance string

const (
	Important         Importance = "important"
	Normal            Importance = "normal"
	ImportanceUnknown Importance = "unknown"
)

// Importances returns all degrees in their fixed order.
func Importances() []Importance {
	return []Importance{Important, Normal, ImportanceUnknown}
}

// Home and away, as in Event.Home; "" is not known.
const (
	AtHome    = "home"
	AtAway    = "away"
	AtNeutral = "neutral"
)

// Property is something a source said that has no field of its own, kept so that
// it can be written back.
type Property struct {
	Name   string
	Params []Param
	Value  string
}

// Param is a parameter of a Property.
type Param struct {
	Name   string
	Values []string
}

// Event is something in the calendar as people write it: wall times and zones.
// Instants are computed late, by [Place].
type Event struct {
	ID    string
	Kind  Kind
	Team  string
	Title string

	Start    Wall
	DateOnly bool // Start.Clock is 0: a game or exam at some time of this date, for other kinds the whole date

	// End is a wall time in EndZone. For a DateOnly event it is the midnight that
	// ends its last date, so the first date no longer taken, with Clock 0.
	End    Wall
	HasEnd bool

	Zone    Zone
	EndZone Zone // unset means Zone

	// ActualEnd is known later: overtime, delay. A wall time in EndZone.
	ActualEnd    Wall
	HasActualEnd bool

	Status     Status
	Importance Importance
	Hard       bool // a practice marked hard

	Home     string // AtHome, AtAway, AtNeutral or ""
	Opponent string // free text

	Competition string // free text
	Round       string // free text

	Revision int    // higher replaces lower; 0 if the source has none
	Source   string // where it was read, such as games.csv:12, for messages
	Unknown  []Property
}

// Active reports whether the event takes up time: it is neither postponed nor
// cancelled.
func (e Event) Active() bool { return e.Status != Postponed && e.Status != Cancelled }

// Settled returns the status with the default filled in.
func (s Status) Settled() Status {
	if s == "" {
		return Confirmed
	}
	return s
}

// Settled returns the importance with the default filled in.
func (i Importance) Settled() Importance {
	if i == "" {
		return ImportanceUnknown
	}
	return i
}

// Known reports whether the kind is one of Kinds.
func (k Kind) Known() bool {
	switch k {
	case Game, Practice, Skills, Travel, Exam, Closure, Busy:
		return true
	}
	return false
}

// Known reports whether the status is empty or one of Statuses.
func (s Status) Known() bool {
	switch s {
	case "", Confirmed, Provisional, IfNecessary, Postponed, Cancelled, Played:
		return true
	}
	return false
}

// Known reports whether the importance is empty or one of Importances.
func (i Importance) Known() bool {
	switch i {
	case "", Important, Normal, ImportanceUnknown:
		return true
	}
	return false
}

// endZone returns the zone of End and ActualEnd.
func (e Event) endZone() Zone {
	if e.EndZone.IsZero() {
		return e.Zone
	}
	return e.EndZone
}

// ContentID returns an id made from what the event is: kind, team, start, zone,
// home or away, opponent, and the title where there is no opponent. It does not
// depend on the row or file it came from, nor on status, importance, end or
// revision, so a game keeps its id when it has been played. A moved game gets
// another one: sources that move games should give ids.
func (e Event) ContentID() string {
	title := ""
	if e.Opponent == "" {
		title = e.Title
	}
	start := e.Start.Date.String()
	if !e.DateOnly {
		start = e.Start.String()
	}
	h := sha256.New()
	for _, part := range []string{
		string(e.Kind), e.Team, start, e.Zone.Name(), e.Home, e.Opponent, title,
	} {
		// A NUL after each part keeps ("ab", "c") apart from ("a", "bc"); a NUL
		// inside a part is escaped.
		h.Write([]byte(strings.ReplaceAll(strings.ReplaceAll(part, `\`, `\\`), "\x00", `\0`)))
		h.Write([]byte{0})
	}
	code := base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(h.Sum(nil)[:10])
	return string(e.Kind) + "-" + strings.ToLower(code)
}
