package squad

import (
	"time"

	"example.org/weft/periodize/season"
)

// Request is a squad: athletes, each with a calendar, rules and log of its own,
// and what they share. It is a plain value: planning changes nothing in it.
type Request struct {
	// Period and Now are those of every athlete; what an athlete's own request
	// says of them is not looked at.
	Period   season.Period
	Now      time.Time
	Athletes []Athlete
	Halls    []Hall
	// Coaches are who watches. None: adults train unwatched, and for minors one
	// coach at all hours is assumed, and asked about.
	Coaches []Coach
	// Ratios are how many athletes one coach may watch, by age. None: the default
	// ratios, and a question if there are minors.
	Ratios []Ratio
	// HomePoints is what a lift at a place of the athlete's own costs more than one
	// in a hall, 1 to 1000; 0 is DefaultHomePoints.
	HomePoints int
	// KindPoints is what a session costs that is not of the kind most in its slot, 0 to
	// 100. With 0 kinds decide only among plans with equal points. With more they may
	// cost points: Plan.Points is then above Plan.Bound by what they cost at most.
	KindPoints int
	// MovePoints is what it costs to move an athlete whose own calendar did not change,
	// 1 to 10000; 0 is DefaultMovePoints, with which the fewest people are moved. With
	// less, more people are moved where each then misses less.
	MovePoints int
	// Issued is the plan of the squad issued last, nil if there is none.
	Issued *Plan
	// Affected are the athletes whose own calendar changed since Issued was made:
	// their plans may change freely. See Planner.Replan.
	Affected []string
}

// Athlete is one of the squad. Its request needs an id in Athlete.ID; the places
// of the request are its own, such as home, and the halls are added to them.
type Athlete struct {
	Season season.Request
	// Played are minutes played in games of the last dates. An athlete that none
	// are known of stands behind those with known ones.
	Played []Played
	// SupervisedHome says that an adult who may supervise is there at the
	// athlete's own places: a minor lifts only where somebody does.
	SupervisedHome bool
	// Target is the plan of the athlete's whole season, made alone; nil if there is
	// none. Where the weeks leave a choice they follow its dates and kinds.
	Target *season.Plan
	// TopUps are the games it played little in, see Planner.AfterGame.
	TopUps []TopUp
}

// Played is how long an athlete played in a game.
type Played struct {
	Event   string `json:"event"`
	Minutes int    `json:"minutes"`
}

// Hall is a place that is shared. Its opening hours are cut into slots: each opening
// begins with one, and after each there is time for the change-over, which the last
// one does not need. Several halls are open to everybody alike.
type Hall struct {
	Place         season.Place // hours are needed
	Capacity      int          // athletes at a time
	SlotMinutes   int
	ChangeMinutes int
}

// Coach watches one hall at some hours. A slot is watched by those who are there
// for all of it.
type Coach struct {
	ID    string
	Hall  string         // may be left out if there is one hall
	Hours []season.Hours // none: whenever the hall is open
	Away  []season.Period
}

// Ratio is how many athletes under an age one coach may watch; Under 0 stands for
// all ages. The narrowest age counts. Where ages share a slot each takes its
// share of a coach: with 1 to 10 and 1 to 20, five of each are three quarters.
type Ratio struct {
	Under    int
	Athletes int
}

// Limits of a request.
const (
	MaxAthletes = 120
	MaxHalls    = 6
	MaxCoaches  = 50
	MaxRatios   = 20
	MaxSlots    = 3000 // of all halls in the period
	MaxDays     = 56   // a squad is planned eight weeks ahead at most
	MaxCapacity = 500
	MaxMinutes  = 24 * 60
	MaxPlayed   = 1000 // of one athlete
	MaxProblems = 1000 // listed
)

// DefaultHomePoints: convenience, and less than a recovery session or any aim
// above it. Common practice, no source.
const DefaultHomePoints = 6

// protective is the smallest default ratio.
const protective = 10

// DefaultRatios are the ratios if none are given: one coach to 10 athletes up to
// 13 years, to 15 up to 17, to 20 adults (NSCA professional standards, from memory;
// sources disagree).
func DefaultRatios() []Ratio { return []Ratio{{14, protective}, {18, 15}, {0, 20}} }

// shortMinutes is the shortest slot: the shortest session there is, rounded down.
const shortMinutes = 20

// id of an athlete.
func (a *Athlete) id() string { return a.Season.Athlete.ID }
