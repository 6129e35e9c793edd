package calendar

import (
	"fmt"
	"time"
)

// MaxGame is the longest game there is; a longer one is a mistake in the data.
const MaxGame = 12 * time.Hour

// Assumptions fill in what an event leaves open. The zero value of each field
// means its default. Defaults are common practice, no source.
type Assumptions struct {
	GameMinutes     int   // 120; length by sport may be given
	PracticeMinutes int   // 90
	SkillsMinutes   int   // 60
	TravelMinutes   int   // 180
	ExamMinutes     int   // 120
	DateOnlyFrom    Clock // 09:00, the earliest plausible start of a game without a time
	DateOnlyTo      Clock // 22:00, its latest plausible end
	ExamFrom        Clock // 08:00, the earliest plausible start of an exam without a time
	ExamTo          Clock // 17:00, its latest plausible end
}

// Lengths of an event that may be assumed, in minutes.
const (
	minAssumed = 1
	maxAssumed = 720
)

func (a *Assumptions) minuteFields() []struct {
	name  string
	value *int
	usual int
} {
	return []struct {
		name  string
		value *int
		usual int
	}{
		{"gameMinutes", &a.GameMinutes, 120},
		{"practiceMinutes", &a.PracticeMinutes, 90},
		{"skillsMinutes", &a.SkillsMinutes, 60},
		{"travelMinutes", &a.TravelMinutes, 180},
		{"examMinutes", &a.ExamMinutes, 120},
	}
}

const (
	usualFrom, usualTo         Clock = 9 * 3600, 22 * 3600
	usualExamFrom, usualExamTo Clock = 8 * 3600, 17 * 3600
)

// Check names every value out of range: minutes outside 1 to 720, clock times
// outside the day or in the wrong order.
func (a Assumptions) Check() []Problem {
	var out []Problem
	for _, f := range a.minuteFields() {
		if v := *f.value; v != 0 && (v < minAssumed || v > maxAssumed) {
			out = append(out, Problem{
				Code: "assumption-range", Class: ClassError, Field: f.name, Value: fmt.Sprint(v),
				Reason: fmt.Sprintf("outside %d to %d minutes", minAssumed, maxAssumed),
				Remedy: fmt.Sprintf("leave it out for %d", f.usual),
			})
		}
	}
	b := a.clocks()
	for _, s := range []struct {
		field, usual string
		from, to     Clock
	}{{"dateOnlyFrom", "09:00 to 22:00", b.DateOnlyFrom, b.DateOnlyTo}, {"examFrom", "08:00 to 17:00", b.ExamFrom, b.ExamTo}} {
		if !stretch(s.from, s.to) {
			out = append(out, Problem{
				Code: "assumption-range", Class: ClassError, Field: s.field, Value: s.from.String() + " to " + s.to.String(),
				Reason: "no stretch of a date", Remedy: "leave both out for " + s.usual,
			})
		}
	}
	return out
}

// stretch reports whether two clock times enclose a part of one date.
func stretch(from, to Clock) bool { return 0 <= from && from < to && to <= EndOfDay }

func (a Assumptions) clocks() Assumptions {
	if a.DateOnlyFrom == 0 {
		a.DateOnlyFrom = usualFrom
	}
	if a.DateOnlyTo == 0 {
		a.DateOnlyTo = usualTo
	}
	if a.ExamFrom == 0 {
		a.ExamFrom = usualExamFrom
	}
	if a.ExamTo == 0 {
		a.ExamTo = usualExamTo
	}
	return a
}

// Settled returns the assumptions with the defaults filled in, also for the
// values out of range that Check names.
func (a Assumptions) Settled() Assumptions {
	for _, f := range a.minuteFields() {
		if *f.value < minAssumed || *f.value > maxAssumed {
			*f.value = f.usual
		}
	}
	a = a.clocks()
	if !stretch(a.DateOnlyFrom, a.DateOnlyTo) {
		a.DateOnlyFrom, a.DateOnlyTo = usualFrom, usualTo
	}
	if !stretch(a.ExamFrom, a.ExamTo) {
		a.ExamFrom, a.ExamTo = usualExamFrom, usualExamTo
	}
	return a
}

// minutes returns the assumed length of a kind; ok is false if none is assumed.
func (a Assumptions) minutes(k Kind) (n int, ok bool) {
	switch k {
	case Game:
		return a.GameMinutes, true
	case Practice:
		return a.PracticeMinutes, true
	case Skills:
		return a.SkillsMinutes, true
	case Travel:
		return a.TravelMinutes, true
	case Exam:
		return a.ExamMinutes, true
	}
	return 0, false
}

// Placed is an event on the time line.
type Placed struct {
	Event
	Span Span // instants in UTC; the end is the actual, the planned or the assumed one

	// Date is the local date on which the event starts, in its own zone. A game
	// belongs to this date also when it ends after midnight.
	Date Date

	EndAssumed bool // no end was given
	Fit        Fit  // of the start
	EndFit     Fit  // of the end; Unresolved if it was assumed
}

// Place computes the instants of an event. A date-only game takes 09:00 to 22:00
// of its date, a date-only exam of one date 08:00 to 17:00; other date-only kinds,
// and an exam of several dates, take whole local dates ([SplitExam] makes such an
// exam one of each date). Skipped and doubled wall times are resolved by RFC 5545,
// and Fit says so.
//
// The error is a *ValueError: zone or date missing, end not after the start (an
// empty span is allowed for kinds other than games), a game longer than MaxGame,
// a date-only game of several dates, or a kind whose length nobody assumes
// (closure, busy) without an end.
func Place(e Event, a Assumptions) (Placed, error) {
	a = a.Settled()
	p := Placed{Event: e}
	if e.Zone.IsZero() {
		return Placed{}, &ValueError{What: "zone", Code: "zone-missing", Reason: "no time zone given", Remedy: "name the place, such as Europe/Berlin"}
	}
	if e.Start.Date.IsZero() || !e.Start.Clock.Valid() {
		return Placed{}, &ValueError{What: "start", Code: "start-missing", Value: e.Start.String(), Reason: "no date or no time of day", Remedy: "give the start as 2026-11-08T14:00"}
	}
	if !e.Kind.Known() {
		return Placed{}, &ValueError{What: "kind", Code: "kind-unknown", Value: string(e.Kind), Reason: "unknown kind of event", Remedy: "use game, practice, skills, travel, exam, closure or busy"}
	}
	if e.DateOnly {
		return placeDate(p, a)
	}
	r := e.Zone.Resolve(e.Start)
	p.Span.Start, p.Fit = r.Instant, r.Fit
	p.Date = e.Zone.Local(r.Instant).Date
	end, what := e.End, "end"
	switch {
	case e.HasActualEnd:
		end, what = e.ActualEnd, "actual end"
	case e.HasEnd:
	default:
		n, ok := a.minutes(e.Kind)
		if !ok {
			return Placed{}, &ValueError{What: "end", Code: "end-missing", Reason: fmt.Sprintf("a %s has no usual length", e.Kind), Remedy: "give its end"}
		}
		p.Span.End, p.EndAssumed = p.Span.Start.Add(time.Duration(n)*time.Minute), true
		return p, nil
	}
	r = e.endZone().Resolve(end)
	if r.Fit == Unresolved {
		return Placed{}, &ValueError{What: what, Code: "end-invalid", Value: end.String(), Reason: "no date or no time of day", Remedy: "give it as 2026-11-08T16:00"}
	}
	// The end of an event that starts in the second of two equal hours is in the
	// second one too; the first would lie before the start.
	if r.Fit == Doubled && r.Instant.Before(p.Span.Start) {
		r.Instant = r.Later
	}
	p.Span.End, p.EndFit = r.Instant, r.Fit
	switch d := p.Span.End.Sub(p.Span.Start); {
	case d < 0:
		return Placed{}, &ValueError{What: what, Code: "end-before-start", Value: end.String(), Reason: "it ends before it starts at " + e.Start.String(), Remedy: "give an end after the start"}
	case d == 0 && e.Kind == Game:
		return Placed{}, &ValueError{What: what, Code: "game-empty", Value: end.String(), Reason: "the game ends when it starts", Remedy: "give an end after the start, or none"}
	case d > MaxGame && e.Kind == Game:
		return Placed{}, &ValueError{What: what, Code: "game-long", Value: end.String(), Reason: fmt.Sprintf("the game lasts %s, more than 12 h", d), Remedy: "check date and time of start and end"}
	}
	return p, nil
}

func placeDate(p Placed, a Assumptions) (Placed, error) {
	e := p.Event
	p.Date = e.Start.Date
	last := e.Start.Date.AddDays(1)
	if e.HasEnd {
		last = e.End.Date
		if !last.After(e.Start.Date) {
			return Placed{}, &ValueError{What: "end", Code: "end-before-start", Value: last.String(), Reason: "it ends before it starts on " + e.Start.Date.String(), Remedy: "give the first date no longer taken"}
		}
	}
	days := last.DaysSince(e.Start.Date)
	if e.Kind != Game && (e.Kind != Exam || days > 1) {
		p.Span = Span{e.Zone.DayStart(e.Start.Date), e.endZone().DayStart(last)}
		p.Fit, p.EndFit = Exact, Exact
		return p, nil
	}
	if days > 1 {
		return Placed{}, &ValueError{What: "end", Code: "game-dates", Value: last.String(), Reason: "a game of several dates", Remedy: "give each game its own date"}
	}
	clockFrom, clockTo := a.DateOnlyFrom, a.DateOnlyTo
	if e.Kind == Exam {
		clockFrom, clockTo = a.ExamFrom, a.ExamTo
	}
	from := e.Zone.Resolve(Wall{e.Start.Date, clockFrom})
	to := e.Zone.Resolve(Wall{e.Start.Date, clockTo})
	p.Span = Span{from.Instant, to.Instant}
	p.Fit, p.EndFit, p.EndAssumed = from.Fit, to.Fit, true
	return p, nil
}

// Buffer is the time an event needs around it: changing, travel.
type Buffer struct {
	Before, After time.Duration
}

// Buffers holds the buffer of each kind; a kind not in it has none.
type Buffers map[Kind]Buffer

// DefaultBuffers returns a new map with the defaults: game 45 and 15 minutes,
// practice and skills 15 and 15, travel 0 and 30, exam 30 and 0, closure and busy
// none. Common practice, no source.
func DefaultBuffers() Buffers {
	return Buffers{
		Game:     {45 * time.Minute, 15 * time.Minute},
		Practice: {15 * time.Minute, 15 * time.Minute},
		Skills:   {15 * time.Minute, 15 * time.Minute},
		Travel:   {0, 30 * time.Minute},
		Exam:     {30 * time.Minute, 0},
		Closure:  {},
		Busy:     {},
	}
}

// Blocked returns the span with the buffers of the event's kind. Nil buffers are
// the defaults.
func (p Placed) Blocked(b Buffers) Span {
	if b == nil {
		b = DefaultBuffers()
	}
	w := b[p.Kind]
	return p.Span.Grow(w.Before, w.After)
}
