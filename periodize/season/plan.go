package season

import (
	"time"

	"example.org/weft/calendar"
)

// Kind is a kind of session.
type Kind string

// The kinds of session.
const (
	FullBody  Kind = "full-body"
	Trimmed   Kind = "trimmed-full-body"
	Primer    Kind = "primer"
	Recovery  Kind = "recovery"
	PostGame  Kind = "post-game"
	Eccentric Kind = "eccentric"
)

// Kinds returns all kinds in their fixed order.
func Kinds() []Kind { return []Kind{FullBody, Trimmed, Primer, Recovery, PostGame, Eccentric} }

// Known reports whether the kind is one of Kinds.
func (k Kind) Known() bool {
	for _, x := range Kinds() {
		if x == k {
			return true
		}
	}
	return false
}

// Lift reports whether it is strength work: any kind but recovery.
func (k Kind) Lift() bool { return k != Recovery && k.Known() }

// HeavyLowerBody reports whether it holds heavy lower-body work.
func (k Kind) HeavyLowerBody() bool {
	return k == FullBody || k == Trimmed || k == PostGame || k == Eccentric
}

// Outcome says whether a plan was made.
type Outcome string

// Planned: there is a plan, though perhaps an empty one. Refused: nothing may be
// planned, see Refusals.
const (
	Planned Outcome = "planned"
	Refused Outcome = "refused"
)

// Proof says how good a plan is known to be.
type Proof string

// Proved: no plan of the starts considered costs less. Bounded: best found
// within the counted work; none costs less than Cost.Bound.
const (
	Proved  Proof = "proved"
	Bounded Proof = "bounded"
)

// Plan is the answer to a request.
type Plan struct {
	Schema       int        `json:"schema"`
	ID           string     `json:"id"`       // digest of request and rules
	Revision     int        `json:"revision"` // counts up from the plan issued before
	Engine       int        `json:"engine"`   // raised whenever the same request may give another plan
	Now          time.Time  `json:"now"`
	Outcome      Outcome    `json:"outcome"`
	Proof        Proof      `json:"proof"`
	Cost         Cost       `json:"cost"`
	Period       Period     `json:"period"`
	Zone         string     `json:"zone"`
	Clocks       []Clock    `json:"clocks,omitempty"` // of journeys: whose clock counts from when on
	RulesVersion string     `json:"rulesVersion"`
	EventsDigest []DayHash  `json:"eventsDigest,omitempty"` // of the events it was made for, by date
	Games        []PlanGame `json:"games"`
	Sessions     []Session  `json:"sessions"`
	Missed       []Missed   `json:"missed"`
	Findings     []Note     `json:"findings"`
	Questions    []Note     `json:"questions"`
	Refusals     []Note     `json:"refusals"`
	Warnings     []Note     `json:"warnings"`
	Changes      []Change   `json:"changes"`
}

// Clock says in which zone the athlete is from an instant on.
type Clock struct {
	From time.Time `json:"from"`
	Zone string    `json:"zone"` // a name, of a custom zone what its calendar calls it
}

// DayHash is the digest of the events of one date.
type DayHash struct {
	Date calendar.Date `json:"date"`
	Hash string        `json:"hash"`
}

// Cost is a plan's measure: fewer broken limits first, then fewer points.
type Cost struct {
	Broken int64      `json:"broken"` // limits broken by pins or the past
	Points int64      `json:"points"`
	Bound  int64      `json:"bound"` // no plan has fewer points
	ByRule []RuleCost `json:"byRule"`
}

// RuleCost is the part of one rule.
type RuleCost struct {
	Rule   string `json:"rule"`
	Broken int64  `json:"broken,omitempty"`
	Points int64  `json:"points"`
}

// PlanGame is a game as the plan saw it.
type PlanGame struct {
	ID         string              `json:"id"`
	Start      time.Time           `json:"start"`
	End        time.Time           `json:"end"`
	Date       calendar.Date       `json:"date"`
	DateOnly   bool                `json:"dateOnly,omitempty"`
	EndAssumed bool                `json:"endAssumed,omitempty"`
	Importance calendar.Importance `json:"importance"`
	Status     calendar.Status     `json:"status"`
	Title      string              `json:"title,omitempty"`
	Local      *Local              `json:"local,omitempty"`
}

// Local is what the clock shows where something takes place. It is given where
// that clock is another than the plan's: of a game elsewhere, of a session on a
// journey or at a place with a zone of its own.
type Local struct {
	Zone  string        `json:"zone"` // a name, of a custom zone what its calendar calls it
	Start calendar.Wall `json:"start"`
	End   calendar.Wall `json:"end"`
}

// State is what becomes of a session on the day.
type State string

// The states. Planned sessions are as written until the day changes them; Done
// ones are past and fixed.
const (
	AsWritten State = "as-written"
	Eased     State = "eased"
	Swapped   State = "swapped"
	Held      State = "held"
	DoneState State = "done"
)

// Session is one placed session. Its id stays when it moves. Its date is the one
// where it takes place.
type Session struct {
	ID             string        `json:"id"`
	Start          time.Time     `json:"start"`
	End            time.Time     `json:"end"`
	Date           calendar.Date `json:"date"`
	Minutes        int           `json:"minutes"`
	Place          string        `json:"place"`
	Kind           Kind          `json:"kind"`
	Local          *Local        `json:"local,omitempty"`
	State          State         `json:"state"`
	Pinned         bool          `json:"pinned,omitempty"`
	GameDay        []GameOffset  `json:"gameDay"`
	HeavyLowerBody bool          `json:"heavyLowerBody"`
	SessionLoad    int           `json:"sessionLoad"` // expected, arbitrary units: effort rating x minutes
	Why            []Note        `json:"why"`
	Parts          []Part        `json:"parts,omitempty"`
}

// GameOffset is the distance in dates to a nearest game: -1 the day before.
type GameOffset struct {
	Event string `json:"event"`
	Days  int    `json:"days"`
}

// Part is a section of a session.
type Part struct {
	Name      string     `json:"name"`
	Minutes   int        `json:"minutes"`
	Exercises []Exercise `json:"exercises,omitempty"`
}

// Exercise is one prescribed exercise.
type Exercise struct {
	Name     string `json:"name"`
	Pattern  string `json:"pattern"`
	Side     string `json:"side,omitempty"`
	Sets     int    `json:"sets"`
	Reps     string `json:"reps"`
	Load     *Grams `json:"load,omitempty"`
	Effort   string `json:"effort,omitempty"`
	Rest     int    `json:"rest,omitempty"` // seconds
	Evidence *Note  `json:"evidence,omitempty"`
}

// Grams is a prescribed mass.
type Grams struct {
	Grams int64 `json:"grams"`
}

// Missed is an aim that the plan does not reach.
type Missed struct {
	Aim      string        `json:"aim"`
	From     calendar.Date `json:"from"`
	To       calendar.Date `json:"to"`
	Event    string        `json:"event,omitempty"`
	Session  string        `json:"session,omitempty"`
	Wanted   int           `json:"wanted"`
	Got      int           `json:"got"`
	Points   int64         `json:"points"`
	InTheWay []InTheWay    `json:"inTheWay"`
	Text     string        `json:"text"`
}

// InTheWay is a rule, and where there is one the event, that stood in the way.
type InTheWay struct {
	Rule  string `json:"rule"`
	Event string `json:"event,omitempty"`
}

// ChangeKind says what became of a session of the plan issued before.
type ChangeKind string

// The kinds of change.
const (
	Moved     ChangeKind = "moved"
	Added     ChangeKind = "added"
	Dropped   ChangeKind = "dropped"
	Unchanged ChangeKind = "unchanged"
	Replaced  ChangeKind = "replaced" // same start, other kind
)

// Change is the difference of one session to the plan issued before.
type Change struct {
	Change  ChangeKind `json:"change"`
	Session string     `json:"session"`
	Kind    Kind       `json:"kind"`
	OldKind Kind       `json:"oldKind,omitempty"`
	From    *time.Time `json:"from,omitempty"`
	To      *time.Time `json:"to,omitempty"`
	Cause   []Note     `json:"cause,omitempty"`
}
