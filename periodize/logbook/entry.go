package logbook

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Entry is one thing that somebody told. It is never changed or deleted: a later
// entry replaces or voids it.
type Entry struct {
	ID      string // among the entries of one athlete; see [Entry.ContentID]
	Athlete string // opaque id; "" in the log of a single athlete
	// Recorded is the instant at which it was told, however long after the fact.
	Recorded time.Time
	Source   Source // role of who told it; "" is not said

	// Replaces is the id of an earlier entry that this one corrects.
	Replaces string

	// Start is when it was, on the wall of Zone: unset in Void and Confirm. A
	// DateOnly entry has a date and no time of day; a Session has a time.
	Start    calendar.Wall
	DateOnly bool
	End      calendar.Wall // of sessions, games and practices
	HasEnd   bool
	Zone     calendar.Zone

	What What
}

// Kind is the kind of an entry.
type Kind string

// The kinds of entry.
const (
	OfSession  Kind = "session"
	OfGame     Kind = "game"
	OfPractice Kind = "practice"
	OfWellness Kind = "wellness"
	OfBodyMass Kind = "body-mass"
	OfTest     Kind = "test"
	OfRemark   Kind = "note"
	OfVoid     Kind = "void"
	OfConfirm  Kind = "confirm"
)

// Kinds returns all kinds of entry in their fixed order.
func Kinds() []Kind {
	return []Kind{OfSession, OfGame, OfPractice, OfWellness, OfBodyMass, OfTest, OfRemark, OfVoid, OfConfirm}
}

// Dated reports whether an entry of this kind happened at some time: all do but
// those about other entries.
func (k Kind) Dated() bool { return k != OfVoid && k != OfConfirm }

// What is what an entry tells: a Session, Game, Practice, Wellness, BodyMass,
// Test, Remark, Void or Confirm.
type What interface {
	Kind() Kind
	what()
}

func (Session) what()  {}
func (Game) what()     {}
func (Practice) what() {}
func (Wellness) what() {}
func (BodyMass) what() {}
func (Test) what()     {}
func (Remark) what()   {}
func (Void) what()     {}
func (Confirm) what()  {}

// Kind is session.
func (Session) Kind() Kind { return OfSession }

// Kind is game.
func (Game) Kind() Kind { return OfGame }

// Kind is practice.
func (Practice) Kind() Kind { return OfPractice }

// Kind is wellness.
func (Wellness) Kind() Kind { return OfWellness }

// Kind is body-mass.
func (BodyMass) Kind() Kind { return OfBodyMass }

// Kind is test.
func (Test) Kind() Kind { return OfTest }

// Kind is note.
func (Remark) Kind() Kind { return OfRemark }

// Kind is void.
func (Void) Kind() Kind { return OfVoid }

// Kind is confirm.
func (Confirm) Kind() Kind { return OfConfirm }

// Source is the role of who told something.
type Source string

// The sources.
const (
	FromAthlete Source = "athlete"
	FromCoach   Source = "coach"
	FromStaff   Source = "staff"  // clinicians and others of the club
	FromDevice  Source = "device" // measured and sent without a person
	FromImport  Source = "import" // from another record, whose source is not known
)

// Sources returns all sources in their fixed order.
func Sources() []Source {
	return []Source{FromAthlete, FromCoach, FromStaff, FromDevice, FromImport}
}

// State says whether a session took place.
type State string

// The states. Nothing follows from an unknown session in either direction.
const (
	Done    State = "done"
	Missed  State = "missed"
	Unknown State = "unknown" // somebody was asked, and nobody knows
)

// States returns all states in their fixed order.
func States() []State { return []State{Done, Missed, Unknown} }

// Session is a strength session, planned or extra.
type Session struct {
	Planned string      // id of the planned session; "": an extra one
	Session season.Kind // kind of session
	State   State
	Rating  Maybe[load.SessionRating] // of the whole session, CR-10, 0 to 10 in tenths
	Minutes Maybe[int]
	Sets    []Set // in their order; none: not told
}

// Set is one set of an exercise.
type Set struct {
	Exercise string           // id or name in the catalogue
	Load     Maybe[load.Mass] // of one dumbbell where there are two; 0 is the own weight alone
	Reps     Maybe[int]       // whole repetitions done; of one side where sides take turns
	Left     Maybe[int]       // repetitions left in reserve
	Effort   load.Effort      // by repetitions in reserve; 0: not rated
	Failed   bool             // it ended in a repetition that did not succeed
	Ramp     bool             // on the way to the work sets
}

// Reserve is the repetitions left: those told, none after a failed one, or what
// the rating leaves. Halves occur where the rating has them. ok is false where
// nothing was told, and for ratings below 5, which give no number.
func (s Set) Reserve() (load.Reps, bool) {
	switch {
	case s.Failed:
		return 0, true
	case s.Left.Known:
		return load.Reps(s.Left.Value), true
	case s.Effort == 0:
		return 0, false
	}
	return s.Effort.Reserve(load.TenMinus)
}

// Game is what an athlete did in a game.
type Game struct {
	Event   string                    // id of the game in the calendar
	Minutes Maybe[int]                // on the field; 0 is a game on the bench
	Rating  Maybe[load.SessionRating] // CR-10, 0 to 10 in tenths
}

// Practice is a practice of the sport.
type Practice struct {
	Event    string                    // id of the practice in the calendar
	Minutes  Maybe[int]                // taken part in; 0 is a practice missed
	Rating   Maybe[load.SessionRating] // CR-10, 0 to 10 in tenths
	Sprinted Maybe[bool]               // whether there were sprints at full speed
}

// Scale names a set of wellness questions, which says in which direction they
// count.
type Scale string

// The scales.
const (
	// HooperScale asks four questions, 1 to 7, 7 the worst: [load.Hooper].
	HooperScale Scale = "hooper"
	// McLeanScale asks five questions, 1 to 5, 5 the best: [load.McLean].
	McLeanScale Scale = "mclean"
)

// Scales returns all scales in their fixed order.
func Scales() []Scale { return []Scale{HooperScale, McLeanScale} }

// Range is the lowest and the highest rating, 0 and 0 for an unknown scale.
func (s Scale) Range() (low, high int) {
	switch s {
	case HooperScale:
		return 1, 7
	case McLeanScale:
		return 1, 5
	}
	return 0, 0
}

// HigherIsWorse tells the direction; ok is false for an unknown scale.
func (s Scale) HigherIsWorse() (worse, ok bool) {
	switch s {
	case HooperScale:
		return load.HooperScore(0).HigherIsWorse(), true
	case McLeanScale:
		return load.McLeanScore(0).HigherIsWorse(), true
	}
	return false, false
}

// Wellness is a morning's ratings on a scale. It is health data: no problem
// shows its values.
type Wellness struct {
	Scale    Scale
	Sleep    Maybe[int]
	Fatigue  Maybe[int]
	Stress   Maybe[int]
	Soreness Maybe[int]
	Mood     Maybe[int] // not asked by the Hooper scale
}

// BodyMass is one weighing. It is health data: no problem shows its value.
type BodyMass struct {
	Mass load.Mass
}

// Unit is the unit of a test.
type Unit string

// The units of tests.
const (
	InKilograms Unit = "kg"
	InPounds    Unit = "lb"
	InCm        Unit = "cm"
	InMetres    Unit = "m"
	InSeconds   Unit = "s"
	InMillis    Unit = "ms"
	InMetresSec Unit = "m/s"
	InWatts     Unit = "W"
	InWattsKg   Unit = "W/kg"
	InNewtons   Unit = "N"
	InReps      Unit = "reps"
	InLevels    Unit = "level"
	InBeats     Unit = "beats/min"
)

// Units returns all units of tests in their fixed order.
func Units() []Unit {
	return []Unit{InKilograms, InPounds, InCm, InMetres, InSeconds, InMillis, InMetresSec, InWatts, InWattsKg, InNewtons, InReps, InLevels, InBeats}
}

// Milli is a measured value in thousandths of its unit, so that what was written
// is kept exactly: 38.2 cm is 38200.
type Milli int64

// Float is the value in its unit.
func (m Milli) Float() float64 { return float64(m) / 1000 }

// Test is the result of a test. Results are compared with those of the same name
// and protocol only.
type Test struct {
	Name     string // such as "countermovement jump", or an exercise
	Protocol string // how it was done: "hands on hips, best of 3", "1rm"
	Unit     Unit
	Value    Milli   // what the protocol makes of the trials
	Trials   []Milli // in their order; none: not told
}

// OneRepMax is the protocol of a lifted one-repetition maximum. Such a test, in
// kg or lb and named for an exercise, is a known maximum.
const OneRepMax = "1rm"

// Mass is the result of a test in kg or lb, to the nearest gram.
func (t Test) Mass() (load.Mass, bool) {
	switch t.Unit {
	case InKilograms:
		return load.Mass(t.Value), t.Value > 0 && load.Mass(t.Value) <= load.MaxMass
	case InPounds:
		m, err := load.Pounds(t.Value.Float())
		return m, err == nil && m > 0
	}
	return 0, false
}

// Remark is what a person noticed, in their own words. With a kind of session
// and days of the week it is about those sessions, and can become a preference
// that its author may take back by voiding it.
type Remark struct {
	Text    string
	Session season.Kind    // "": of no kind in particular
	Days    []time.Weekday // none: of no day in particular
}

// Void takes an entry out of what counts. It stays in the log.
type Void struct {
	Of     string // id of an entry of the same athlete
	Reason string
}

// Confirm says that a value that seemed implausible is right as it stands.
type Confirm struct {
	Of string // id of an entry of the same athlete
}

// Date is the local date of the entry, unset if it has none.
func (e Entry) Date() calendar.Date { return e.Start.Date }

// At is the instant of the entry: that of its start, or the first of its date.
// ok is false if it has none.
func (e Entry) At() (at time.Time, ok bool) {
	switch {
	case e.Start.IsZero() || e.Zone.IsZero():
		return time.Time{}, false
	case e.DateOnly:
		return e.Zone.DayStart(e.Start.Date), true
	}
	return e.Zone.Resolve(e.Start).Instant, true
}

// target is the id of the entry that this one corrects, "" if none.
func (e *Entry) target() string {
	if v, ok := e.What.(Void); ok {
		return v.Of
	}
	return e.Replaces
}
