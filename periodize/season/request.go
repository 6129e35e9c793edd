package season

import (
	"time"

	"example.org/weft/calendar"
)

// Schema is the version of the request and plan formats written here.
const Schema = 1

// Request is everything a plan is made from. It is a plain value: planning
// changes nothing in it.
type Request struct {
	Schema  int
	Period  Period
	Now     time.Time // what starts before it is past; zero: the first instant of Period.From where the athlete is
	Athlete Athlete
	Events  []calendar.Event
	Places  []Place // none: one place, always open, with ordinary kit
	Rules   []Override
	Club    []ClubRule // rules of the club's own
	Log     []Done
	Issued  []Plan // earlier plans, newest last
	Pins    []Pin
}

// Period is the span of dates to plan, both included.
type Period struct {
	From calendar.Date `json:"from"`
	To   calendar.Date `json:"to"`
}

// Days returns the number of dates in the period, 0 if it is empty or unset.
func (p Period) Days() int {
	if p.From.IsZero() || p.To.IsZero() || p.To.Before(p.From) {
		return 0
	}
	return p.To.DaysSince(p.From) + 1
}

// Contains reports whether the date lies in the period.
func (p Period) Contains(d calendar.Date) bool {
	return !d.IsZero() && !d.Before(p.From) && !d.After(p.To)
}

// Override changes one row of the rule table for this request.
type Override struct {
	Rule   string `json:"rule"`
	Value  *int   `json:"value,omitempty"`  // in the row's unit
	Points *int   `json:"points,omitempty"` // of an aim
	Off    bool   `json:"off,omitempty"`
	By     string `json:"by,omitempty"`     // the adult who answers for loosening a safeguard of minors
	Reason string `json:"reason,omitempty"` // printed with it
}

// Done is one entry of the log: a session that took place or was missed.
type Done struct {
	ID      string
	Session string // id of the planned session, if there was one
	Kind    Kind
	Start   calendar.Wall
	End     calendar.Wall
	HasEnd  bool
	Zone    calendar.Zone // unset: the athlete's
	Missed  bool
}

// Pin fixes a choice the coach has made. A pinned session may break a limit;
// the plan then says so.
type Pin struct {
	Date  calendar.Date   `json:"date"`
	Kind  Kind            `json:"kind,omitempty"` // "" with None: nothing on this date
	Start *calendar.Clock `json:"start,omitempty"`
	Place string          `json:"place,omitempty"`
	None  bool            `json:"none,omitempty"` // keep the date free of sessions
}
