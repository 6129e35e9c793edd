package squad

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Plan is the plan of a squad: one for each athlete, and what the halls look like.
type Plan struct {
	Schema   int                `json:"schema"`
	Engine   int                `json:"engine"`
	Period   season.Period      `json:"period"`
	Now      time.Time          `json:"now"`
	Zone     string             `json:"zone"`
	Proof    season.Proof       `json:"proof"` // of Points: "proved" if Gap is 0
	Points   int64              `json:"points"`
	Bound    int64              `json:"bound"` // no plan of the squad that moves as few people has fewer points
	Gap      int64              `json:"gap"`   // Points less Bound
	Alone    int64              `json:"alone"` // points if each athlete had the halls alone
	Mixed    int                `json:"mixed"` // slots with sessions of more than one kind that a coach can run together
	Athletes []AthletePlan      `json:"athletes"`
	Slots    []Slot             `json:"slots"`
	LeftOut  []LeftOut          `json:"leftOut"`
	Moved    []Slip             `json:"moved"` // who is moved against the plan issued last
	Findings []season.Note      `json:"findings"`
	Assumed  []calendar.Problem `json:"assumed"` // questions and warnings of the request
	Work     Work               `json:"work"`
}

// AthletePlan is the plan of one athlete: judged, explained and with its list of
// changes, as if it had been made alone.
type AthletePlan struct {
	Athlete string       `json:"athlete"`
	Line    int          `json:"line"`  // place in the line, 1 is first
	Alone   int64        `json:"alone"` // points of the best plan with the halls alone
	Plan    *season.Plan `json:"plan"`
}

// Slot is one time of one hall and who is there.
type Slot struct {
	Hall     string        `json:"hall"`
	Date     calendar.Date `json:"date"`
	Start    time.Time     `json:"start"`
	End      time.Time     `json:"end"`
	Capacity int           `json:"capacity"`
	Coaches  int           `json:"coaches"` // that are there; -1: nobody has to be
	Kinds    []season.Kind `json:"kinds"`   // of the sessions, each once
	Seats    []Seat        `json:"seats"`   // by athlete
}

// Seat is an athlete's session in a slot.
type Seat struct {
	Athlete string      `json:"athlete"`
	Session string      `json:"session"`
	Kind    season.Kind `json:"kind"`
}

// LeftOut is an athlete who would lift in a hall on a date with the halls alone, and
// has none there within three dates of it: the lift at home that takes its place, if
// there is one.
type LeftOut struct {
	Athlete string        `json:"athlete"`
	Date    calendar.Date `json:"date"`
	Kind    season.Kind   `json:"kind"`
	Home    string        `json:"home,omitempty"` // id of a session
	Text    string        `json:"text"`
}

// Slip is what changes for one athlete against the plan issued last, date by date: the
// sessions that change by time or kind, each with its cause if there is one to tell,
// and those that change their place.
type Slip struct {
	Athlete  string          `json:"athlete"`
	Affected bool            `json:"affected"` // its own calendar changed
	Changes  []season.Change `json:"changes"`
	Places   []PlaceChange   `json:"places"`
}

// PlaceChange is a session that is in another place than before, whether or not its
// time changes too.
type PlaceChange struct {
	Session string    `json:"session"`
	Start   time.Time `json:"start"` // now
	From    string    `json:"from"`
	To      string    `json:"to"`
}

// Work counts what was done. It repeats on every machine.
type Work struct {
	Nodes   int `json:"nodes"`
	Rounds  int `json:"rounds"`
	Columns int `json:"columns"`
}

// planOf is the plan of one athlete, nil if it has none.
func (p *Plan) planOf(id string) *season.Plan {
	for i := range p.Athletes {
		if p.Athletes[i].Athlete == id {
			return p.Athletes[i].Plan
		}
	}
	return nil
}
