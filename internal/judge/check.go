package judge

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// What Judge accepts at most. Work grows with sessions times events.
const (
	MaxDates    = 3700      // dates of the period, about ten years
	MaxDate     = 1_000_000 // distance of any date from 1970-01-01
	MaxClock    = 1440 * MaxDates
	MaxEvents   = 10_000
	MaxSessions = 4000     // each of Sessions and Issued
	MaxSpans    = 50_000   // open spans of athlete and places, and holds, each
	MaxLength   = 7 * 1440 // minutes of one session
	MaxNumber   = 10_000_000
)

// maxInstant leaves room for zones and for events longer than a date.
const maxInstant = 2 * 1440 * int64(MaxDate)

// maxRating is the top of the CR-10 scale.
const maxRating = 10

// Problem is one thing that keeps a plan from being judged.
type Problem struct {
	Path   string // such as Sessions[3].End
	Value  string
	Reason string
	Remedy string
}

// InputError carries every problem of an input, in the order of its fields.
type InputError struct{ Problems []Problem }

func (e *InputError) Error() string {
	if len(e.Problems) == 0 {
		return "judge: bad input"
	}
	p := e.Problems[0]
	text := fmt.Sprintf("judge: %s = %s: %s; %s", p.Path, p.Value, p.Reason, p.Remedy)
	if more := len(e.Problems) - 1; more > 0 {
		text += fmt.Sprintf(" (and %d more)", more)
	}
	return text
}

// checker collects problems. Fields are those of row i of a list, or of the
// whole input where the list has no name; a path is only built for a problem.
type checker struct {
	problems []Problem
	list     string
	i        int
}

func (c *checker) at(list string, i int) { c.list, c.i = list, i }

func (c *checker) add(field string, value any, reason, remedy string) {
	if c.list != "" {
		field = at(c.list, c.i) + "." + field
	}
	c.problems = append(c.problems, Problem{field, fmt.Sprint(value), reason, remedy})
}

func (c *checker) within(field string, v, low, high int64) {
	if v < low || v > high {
		c.add(field, v, "out of range", fmt.Sprintf("give %d to %d", low, high))
	}
}

func (c *checker) date(field string, d int) {
	c.within(field, int64(d), -MaxDate, MaxDate)
}

func (c *checker) instant(field string, t int64) {
	c.within(field, t, -maxInstant, maxInstant)
}

func (c *checker) clock(field string, v int) {
	c.within(field, int64(v), -MaxClock, MaxClock)
}

// Check returns every problem for which Judge would refuse the input, or nil.
func Check(in Input, p Parameters) []Problem {
	var c checker
	// Counts first: nothing else is read of an input that is too large.
	c.count("Events", len(in.Events), MaxEvents)
	c.count("Sessions", len(in.Sessions), MaxSessions)
	c.count("AthleteOpen", len(in.AthleteOpen), MaxSpans)
	c.count("PlaceOpen", countSpans(in.PlaceOpen), MaxSpans)
	c.count("Athlete.Holds", len(in.Athlete.Holds), MaxSpans)
	c.count("PreferredStart", len(in.PreferredStart), MaxDates)
	c.count("Offsets", len(in.Offsets), MaxSpans)
	if in.HasIssued {
		c.count("Issued", len(in.Issued), MaxSessions)
	}
	if len(c.problems) > 0 {
		return c.problems
	}
	c.period(in)
	c.athlete(in.Athlete)
	for i, e := range in.Events {
		c.at("Events", i)
		c.event(e)
	}
	for i, s := range in.Sessions {
		c.at("Sessions", i)
		c.session(s)
	}
	c.offsets(in)
	c.spans("AthleteOpen", in.AthleteOpen)
	for i, spans := range in.PlaceOpen {
		c.spans(at("PlaceOpen", i), spans)
	}
	if in.HasIssued {
		for i, s := range in.Issued {
			c.at("Issued", i)
			c.session(s)
		}
	}
	c.at("", 0)
	if in.HasIssued {
		c.instant("Now", in.Now)
	}
	for i, v := range in.PreferredStart {
		if v > MaxClock || v < -MaxClock {
			c.clock(at("PreferredStart", i), v)
		}
	}
	c.parameters(p)
	return c.problems
}

func at(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

func countSpans(lists [][]Span) int {
	n := len(lists)
	for _, l := range lists {
		n += len(l)
	}
	return n
}

func (c *checker) count(path string, n, most int) {
	if n > most {
		c.add("len("+path+")", n, "too many", fmt.Sprintf("give at most %d", most))
	}
}

func (c *checker) period(in Input) {
	c.date("From", in.From)
	c.date("To", in.To)
	if in.To < in.From {
		c.add("To", in.To, "before From", "give a date that is not before From")
	} else if len(c.problems) == 0 && in.To-in.From >= MaxDates {
		c.add("To", in.To, "period too long", fmt.Sprintf("give at most %d dates", MaxDates))
	}
	c.within("FirstWeekday", int64(in.FirstWeekday), 0, 6)
}

func (c *checker) athlete(a Athlete) {
	if a.AgeKnown {
		c.within("Athlete.BornYear", int64(a.BornYear), 1, 9999)
		c.within("Athlete.BornMonth", int64(a.BornMonth), 1, 12)
	}
	c.within("Athlete.TrainingAgeMonths", int64(a.TrainingAgeMonths), -1, 1200)
	for i, h := range a.Holds {
		c.at("Athlete.Holds", i)
		c.date("From", h.From)
		if h.Endless {
			continue
		}
		c.date("To", h.To)
		if h.To < h.From {
			c.add("To", h.To, "before From", "give a date that is not before From, or an endless hold")
		}
	}
}

func (c *checker) event(e Event) {
	if e.Kind >= eventKinds {
		c.add("Kind", e.Kind, "unknown kind of event", "give one of the declared kinds")
	}
	c.instant("Start", e.Start)
	c.instant("End", e.End)
	if e.End < e.Start {
		c.add("End", e.End, "before Start", "give an end that is not before the start")
	}
	c.date("Date", e.Date)
	c.clock("StartClock", e.StartClock)
	c.clock("EndClock", e.EndClock)
}

func (c *checker) session(s Session) {
	if s.Kind >= kinds {
		c.add("Kind", s.Kind, "unknown kind of session", "give one of the declared kinds")
	}
	c.instant("Start", s.Start)
	c.instant("End", s.End)
	if s.End <= s.Start {
		c.add("End", s.End, "not after Start", "give an end after the start")
	} else if s.End > s.Start+MaxLength && s.Start <= maxInstant {
		c.add("End", s.End, "session too long", fmt.Sprintf("give at most %d minutes", MaxLength))
	}
	c.date("Date", s.Date)
	c.clock("StartClock", s.StartClock)
	c.clock("EndClock", s.EndClock)
}

// offsets also compares the dates of sessions with the clock.
func (c *checker) offsets(in Input) {
	before := len(c.problems)
	for i, o := range in.Offsets {
		c.at("Offsets", i)
		c.instant("From", o.From)
		c.within("Seconds", int64(o.Seconds), -daySeconds, daySeconds)
		if i > 0 && o.From <= in.Offsets[i-1].From {
			c.add("From", o.From, "not after the one before", "give them in order of time")
		}
	}
	if len(in.Offsets) == 0 || len(c.problems) > before {
		return
	}
	clocks := clocksOf(in.Offsets)
	for i, s := range in.Sessions {
		if s.Start < in.Offsets[0].From || s.Start > maxInstant {
			continue
		}
		c.at("Sessions", i)
		if d := dateAt(clocks, s.Start); d != s.Date {
			c.add("Date", s.Date, fmt.Sprintf("the clock shows date %d", d), "give the date of the start where the athlete is")
		}
	}
}

func (c *checker) spans(list string, spans []Span) {
	for i, s := range spans {
		c.at(list, i)
		c.instant("Start", s.Start)
		c.instant("End", s.End)
		if s.End < s.Start {
			c.add("End", s.End, "before Start", "give a closing that is not before the opening")
		}
	}
}

func (c *checker) parameters(p Parameters) {
	aims := Aims()
	known := append(Limits(), aims...)
	for i, id := range p.Disabled {
		if !slices.Contains(known, id) {
			c.add(at("Parameters.Disabled", i), strconv.Quote(id), "unknown rule", "give one of "+strings.Join(known, ", "))
		}
	}
	for _, id := range aims {
		points, ok := p.Points[id]
		path := "Parameters.Points[" + id + "]"
		if !ok {
			c.add(path, "nothing", "aim without points", "start from Default")
			continue
		}
		c.within(path, points, 0, MaxNumber)
	}
	var strangers []string
	for id := range p.Points {
		if !slices.Contains(aims, id) {
			strangers = append(strangers, id)
		}
	}
	slices.Sort(strangers)
	for _, id := range strangers {
		c.add("Parameters.Points["+id+"]", p.Points[id], "unknown aim", "give one of "+strings.Join(aims, ", "))
	}
	c.numbers("Parameters", reflect.ValueOf(p))
	if p.LoadBlock == 0 {
		c.add("Parameters.LoadBlock", p.LoadBlock, "load is counted in blocks of nothing", "give 1 or more")
	}
	for k, rating := range p.Rating {
		if rating > maxRating {
			c.add(at("Parameters.Rating", k), rating, "beyond the scale", fmt.Sprintf("give at most %d", maxRating))
		}
	}
}

// numbers bounds every integer below v, so that no sum can overflow.
func (c *checker) numbers(path string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Int, reflect.Int64:
		c.within(path, v.Int(), 0, MaxNumber)
	case reflect.Array:
		for i := range v.Len() {
			c.numbers(at(path, i), v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			c.numbers(path+"."+v.Type().Field(i).Name, v.Field(i))
		}
	}
}
