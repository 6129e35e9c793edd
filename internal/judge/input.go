package judge

// Kind is the kind of a session.
type Kind uint8

// The kinds of session. All but Recovery are lifts; all but Primer and Recovery
// carry heavy lower-body work and count as full-body.
const (
	FullBody Kind = iota
	Trimmed
	Primer
	Recovery
	PostGame
	Eccentric
	kinds = iota
)

func (k Kind) lift() bool     { return k != Recovery }
func (k Kind) fullBody() bool { return k != Recovery && k != Primer }

// EventKind is the kind of a calendar event.
type EventKind uint8

// The kinds of event.
const (
	Game EventKind = iota
	Practice
	Skills
	Travel
	Exam
	Closure
	Busy
	eventKinds = iota
)

// Event is an active calendar event; postponed and cancelled ones are left out
// by the caller.
type Event struct {
	ID         string
	Kind       EventKind
	Start, End int64 // instants; End is the actual, else planned, else assumed end
	Date       int   // local date on which it starts
	StartClock int   // local clocks, counted from the midnight of Date
	EndClock   int
	Important  bool // games
	Hard       bool // practices
	LongHaul   bool // travel
	DateOnly   bool // games: the times stand for "some time on this date"
	IfNeeded   bool // games: perhaps not played
}

// Session is one session of a plan or of the log.
type Session struct {
	ID         string
	Kind       Kind
	Start, End int64 // instants
	Date       int   // local date of its start
	StartClock int   // local clocks, counted from the midnight of Date
	EndClock   int
	Place      int  // index into Input.PlaceOpen; a place that is not there is never open
	Forced     bool // in the frozen past, completed or pinned
	Done       bool // took place: whether somewhere was open then is no question
}

// Span is a stretch of time, start included, end not.
type Span struct{ Start, End int64 }

// Offset is what the athlete's clock shows from an instant on.
type Offset struct {
	From    int64
	Seconds int // east of UTC
}

// DateSpan is a stretch of dates, both included. An endless one has no To.
type DateSpan struct {
	From, To int
	Endless  bool
}

func (s DateSpan) covers(date int) bool {
	return s.From <= date && (s.Endless || date <= s.To)
}

// Athlete is what the rules need to know of the person. With AgeKnown false the
// age is the assumed one of the parameters and the training age is zero.
type Athlete struct {
	BornYear, BornMonth int
	AgeKnown            bool
	TrainingAgeMonths   int // -1: unknown, judged as zero
	PostGame            bool
	Holds               []DateSpan
}

// Input is a plan with everything it is judged against. The order of events,
// sessions and spans does not matter.
type Input struct {
	From, To     int // dates of the period, both included
	FirstWeekday int // of the club week, 0 = Sunday .. 6
	Athlete      Athlete
	Events       []Event
	// Sessions dated before From are history: they count in windows and are
	// not judged. Sessions after To are left alone.
	Sessions    []Session
	AthleteOpen []Span
	PlaceOpen   [][]Span // by place
	// PreferredStart is the preferred start clock of each date from From on.
	// A missing or negative entry stands for the default of that weekday.
	PreferredStart []int
	// Offsets are those of the athlete's clock, at home and on journeys, in order
	// of time. The dates of sessions follow from them, and which dates are lost.
	// None: the dates are as given, and none is lost.
	Offsets   []Offset
	HasIssued bool      // whether an issued plan is to be kept; else the next two are not read
	Issued    []Session // the plan as issued
	Now       int64     // instant before which everything is frozen
}
