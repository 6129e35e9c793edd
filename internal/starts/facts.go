package starts

import (
	"sort"
	"strconv"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Pad is the number of dates before and after the period whose facts are kept:
// windows of seven dates reach that far.
const Pad = 14

// Event is a placed event in minutes.
type Event struct {
	calendar.Placed
	From, To             int64 // instants, minutes since 1970-01-01T00:00Z
	BlockFrom, BlockTo   int64 // with buffers
	Day                  int   // local date on which it starts
	StartClock, EndClock int   // local minutes since midnight of Day
	LongHaul             bool
	Important            bool
}

// Day holds the facts of one date.
type Day struct {
	Date       calendar.Date
	N          int   // day number
	From, To   int64 // first instant of the date and of the next, see dateStart
	Age        int
	Minor      bool
	Restricted bool  // beginner or under 14
	Games      []int // indices of events, in order of start
	Free       bool  // no game, practice or skills starts, and it is not lost
	Lost       bool  // skipped by the clock or spent on a trip between zones
	Break      bool  // lies in a break
	Roomy      bool  // lies in a break or an open week
	FirstHalf  bool  // of a break
	RunDays    int   // length of its game-free run, 0 if none
	RunID      int   // number of its run, -1 if none
	Exam       bool
	ExamEnd    int64
	HardDay    bool
	Hold       bool
	Prefer     int // preferred start, local minutes
	Week       int // number of its week within Facts, -1 outside
	WeekLast   bool
	WholeWeek  bool // its week lies wholly in the period

	PrimerFor    int // event that asks for a primer on this date, -1 none
	PrimerRule   string
	RecoveryFrom int // event that asks for recovery on this date, -1 none
}

// Facts is what the calendar and the athlete say about each date.
type Facts struct {
	Set       *rule.Set
	Zone      calendar.Zone
	Period    season.Period
	Now       int64
	Athlete   season.Athlete
	AgeKnown  bool
	TrainAge  int // months; 0 if unknown
	Events    []Event
	Games     []int // active games in order of start
	First     int   // day number of Days[0]
	Days      []Day
	From, To  int // indices of the period in Days, To exclusive
	Runs      []calendar.Run
	span      int64  // see longest
	away      []span // when the athlete is at an away game or on a trip
	home      []span // when a trip home has ended that
	stays     []stay // where the athlete's clock is
	crossings []span // trips of journeys between zones
	noWayBack []int  // events that begin a journey of which no way back is known

	custom []rule.Custom
	// fullMinutes is the usual length of a full-body session of this athlete.
	fullMinutes int
	placeIDs    []string
	placeZones  []calendar.Zone    // unset: the athlete's
	slots       map[int][]SlotTime // of the places that have any

	// Ignore holds limits that are not looked at: for asking what would be
	// possible without them. Always empty when a plan is made.
	Ignore map[Breach]bool

	scratch scratch // used while choices are made
}

// Far is how many dates before and after the period events are looked at; of
// those farther off only the nearest game on either side counts. MostEvents is
// how many there may be.
const (
	Far        = 60
	MostEvents = 10_000
)

func endDate(e calendar.Event) calendar.Date {
	d := e.Start.Date
	if e.HasEnd && e.End.Date.After(d) {
		d = e.End.Date
	}
	if e.HasActualEnd && e.ActualEnd.Date.After(d) {
		d = e.ActualEnd.Date
	}
	return d
}

// Index returns the place of a day number in Days, and whether it has one.
func (f *Facts) Index(n int) (int, bool) {
	i := n - f.First
	return i, i >= 0 && i < len(f.Days)
}

// Game reports whether a game starts on the day number.
func (f *Facts) Game(n int) bool {
	i, ok := f.Index(n)
	return ok && len(f.Days[i].Games) > 0
}

// Assumptions are the numbers of the rule set that events are placed by.
func Assumptions(set *rule.Set) calendar.Assumptions {
	return calendar.Assumptions{GameMinutes: set.Value("game-minutes")}
}

// Buffers are those of the rule set.
func Buffers(set *rule.Set) calendar.Buffers {
	get := func(kind string) calendar.Buffer {
		return calendar.Buffer{
			Before: time.Duration(set.Value("buffer-"+kind+"-before")) * time.Minute,
			After:  time.Duration(set.Value("buffer-"+kind+"-after")) * time.Minute,
		}
	}
	return calendar.Buffers{
		calendar.Game: get("game"), calendar.Practice: get("practice"), calendar.Skills: get("practice"),
		calendar.Travel: get("travel"), calendar.Exam: get("exam"),
	}
}

// floorMinutes and ceilMinutes turn an instant into minutes.
func floorMinutes(t time.Time) int64 {
	s := t.Unix()
	if s < 0 {
		s -= 59
	}
	return s / 60
}

func ceilMinutes(t time.Time) int64 {
	m := floorMinutes(t)
	if time.Unix(m*60, 0).Before(t) {
		m++
	}
	return m
}

// Instant returns the time of a minute, in UTC.
func Instant(m int64) time.Time { return time.Unix(m*60, 0).UTC() }

// NewFacts places the events and derives the facts of every date. The request
// must be valid: problems of its events are returned as they are found.
func NewFacts(req *season.Request, set *rule.Set) (*Facts, []calendar.Problem) {
	f := &Facts{Set: set, Zone: req.Athlete.Zone, Period: req.Period, Athlete: req.Athlete}
	f.AgeKnown = req.Athlete.Born != (season.YearMonth{})
	if f.AgeKnown && req.Athlete.TrainingAgeMonths > 0 {
		f.TrainAge = req.Athlete.TrainingAgeMonths
	}
	problems := f.place(req)
	if len(problems) > 0 {
		return nil, problems
	}
	f.findStays()
	f.First = req.Period.From.DayNumber() - Pad
	n := req.Period.Days() + 2*Pad
	f.From, f.To = Pad, n-Pad
	f.Days = make([]Day, n)
	for i := range f.Days {
		f.plainDay(i)
	}
	if req.Now.IsZero() {
		f.Now = f.Days[f.From].From
	} else {
		f.Now = ceilMinutes(req.Now)
	}
	f.fullMinutes = set.Value("minutes-full-body")
	if f.Days[f.From].Restricted {
		f.fullMinutes = min(f.fullMinutes, set.Value("minutes-beginner"))
	}
	f.eventsOnDays()
	f.loseDates()
	f.runs()
	f.asks()
	f.trips()
	return f, nil
}

func (f *Facts) place(req *season.Request) []calendar.Problem {
	var problems []calendar.Problem
	buffers := Buffers(f.Set)
	assume := Assumptions(f.Set)
	first, last := req.Period.From.AddDays(-Far), req.Period.To.AddDays(Far)
	before, after := -1, -1 // the games next to what is looked at
	for i, e := range req.Events {
		if e.Active() && e.Kind == calendar.Game {
			d := e.Start.Date
			if d.Before(first) && (before < 0 || d.After(req.Events[before].Start.Date)) {
				before = i
			}
			if d.After(last) && (after < 0 || d.Before(req.Events[after].Start.Date)) {
				after = i
			}
		}
	}
	for i, e := range req.Events {
		if !e.Active() {
			continue
		}
		if i != before && i != after && (e.Start.Date.After(last) || endDate(e).Before(first)) {
			continue // too far off to matter
		}
		if len(f.Events) == MostEvents {
			return []calendar.Problem{{Code: "events-crowded", Class: calendar.ClassError, Path: "/events",
				Reason: "too many events in and around the period", Remedy: "give at most " + strconv.Itoa(MostEvents) + ", or a shorter period"}}
		}
		p, err := calendar.Place(e, assume)
		if err != nil {
			problems = append(problems, calendar.Problem{Code: "event-time", Class: calendar.ClassError,
				Path: season.EventPath(i), Value: e.ID, Reason: err.Error()})
			continue
		}
		b := p.Blocked(buffers)
		ev := Event{Placed: p, From: floorMinutes(p.Span.Start), To: ceilMinutes(p.Span.End),
			BlockFrom: floorMinutes(b.Start), BlockTo: ceilMinutes(b.End), Day: p.Date.DayNumber(),
			Important: e.Importance == calendar.Important}
		ev.StartClock = clockOn(e.Zone, ev.From, ev.Day)
		end := e.EndZone
		if end.IsZero() {
			end = e.Zone
		}
		// East over the date line a trip ends on the date before.
		ev.EndClock = clockOn(end, ev.To, min(ev.Day, calendar.DateOf(Instant(ev.To), end).DayNumber()))
		if e.Kind == calendar.Travel {
			ev.LongHaul = longHaul(e, p)
		}
		f.Events = append(f.Events, ev)
	}
	sort.SliceStable(f.Events, func(i, j int) bool {
		a, b := &f.Events[i], &f.Events[j]
		if a.From != b.From {
			return a.From < b.From
		}
		if a.Important != b.Important { // the important game is the earliest of its date
			return a.Important
		}
		if a.To != b.To {
			return a.To < b.To
		}
		if a.Kind != b.Kind {
			return a.Kind < b.Kind
		}
		return a.ID < b.ID
	})
	for i := range f.Events {
		if f.Events[i].Kind == calendar.Game {
			f.Games = append(f.Games, i)
		}
	}
	return problems
}

// longHaul: 6 zones or 6 hours.
func longHaul(e calendar.Event, p calendar.Placed) bool {
	if p.Span.Duration() >= 6*time.Hour {
		return true
	}
	if e.EndZone.IsZero() {
		return false
	}
	_, a := p.Span.End.In(e.Zone.Location()).Zone()
	_, b := p.Span.End.In(e.EndZone.Location()).Zone()
	d := a - b
	if d < 0 {
		d = -d
	}
	return d >= 6*3600
}

// clockOn returns the local minutes of an instant, counted from midnight of a
// day number: over 1440 on the date after.
func clockOn(z calendar.Zone, m int64, day int) int {
	w := z.Local(Instant(m))
	return (w.Date.DayNumber()-day)*1440 + int(w.Clock)/60
}

func (f *Facts) plainDay(i int) {
	d := &f.Days[i]
	d.N = f.First + i
	d.Date = calendar.DateFromDayNumber(d.N)
	d.From, d.To = f.dateStart(d.Date), f.dateStart(d.Date.AddDays(1))
	d.Free = true
	d.RunID, d.PrimerFor, d.RecoveryFrom, d.Week = -1, -1, -1, -1
	d.Age = 13
	if age, ok := f.Athlete.Born.AgeOn(d.Date); ok {
		d.Age = age
	}
	d.Minor = d.Age < 18
	d.Restricted = f.TrainAge < 12 || d.Age < 14
	wd := d.Date.Weekday()
	d.Prefer = f.Set.Value("prefer-weekday")
	if wd == time.Saturday || wd == time.Sunday {
		d.Prefer = f.Set.Value("prefer-weekend")
	}
	for _, p := range f.Athlete.Prefer {
		for _, day := range p.Days {
			if day == wd {
				d.Prefer = int(p.Start) / 60
			}
		}
	}
	for _, h := range f.Athlete.Holds {
		if !d.Date.Before(h.From) && (h.ClearedBy == "" || h.ClearedOn.IsZero() || d.Date.Before(h.ClearedOn)) {
			d.Hold = true
		}
	}
	first := calendar.WeekStart(d.Date, time.Weekday(f.Set.Value("week-start")))
	zero := calendar.WeekStart(calendar.DateFromDayNumber(f.First), time.Weekday(f.Set.Value("week-start")))
	d.Week = first.DaysSince(zero) / 7
	last := first.AddDays(6)
	d.WeekLast = d.Date == last
	d.WholeWeek = f.Period.Contains(first) && f.Period.Contains(last)
}

func (f *Facts) eventsOnDays() {
	for i := range f.Events {
		e := &f.Events[i]
		at, ok := f.Index(e.Day)
		if !ok {
			continue
		}
		d := &f.Days[at]
		switch e.Kind {
		case calendar.Game:
			d.Games = append(d.Games, i)
			d.Free = false
		case calendar.Practice, calendar.Skills:
			d.Free = false
			d.HardDay = d.HardDay || (e.Hard && e.Kind == calendar.Practice)
		case calendar.Exam:
			d.Exam = true
			d.ExamEnd = max(d.ExamEnd, e.To)
		}
	}
}

func (f *Facts) runs() {
	var dates []calendar.Date
	for _, g := range f.Games {
		dates = append(dates, f.Events[g].Date)
	}
	for _, r := range calendar.GameFreeRuns(dates, f.Period.From, f.Period.To) {
		first, last := f.index(r.From), f.index(r.To)
		for i := first; i <= last; i++ {
			if f.Days[i].Lost {
				r.Days--
			}
		}
		switch {
		case r.Days < calendar.OpenWeekDays:
			continue
		case r.Days < calendar.BreakDays:
			r.Class = calendar.OpenWeek
		}
		id := len(f.Runs)
		f.Runs = append(f.Runs, r)
		nth, half := 0, (r.Days+1)/2
		for i := first; i <= last; i++ {
			d := &f.Days[i]
			d.Roomy, d.RunDays, d.RunID = true, r.Days, id
			if r.Class == calendar.Break {
				d.Break = true
				d.FirstHalf = nth < half
			}
			if !d.Lost {
				nth++
			}
		}
	}
}

// index is the place of a date of the period in Days.
func (f *Facts) index(d calendar.Date) int { return d.DayNumber() - f.First }

// asks finds the dates on which a primer or a recovery session is aimed at.
func (f *Facts) asks() {
	for i := f.From; i < f.To; i++ {
		d := &f.Days[i]
		if d.Restricted || d.Lost {
			continue
		}
		prev, next := f.Days[f.livedBefore(i)].Games, f.Days[f.livedAfter(i)].Games
		sandwich := len(prev) > 0 && len(next) > 0
		important := len(next) > 0 && f.Events[next[0]].Important
		if len(next) > 0 && len(d.Games) == 0 && (!sandwich || important) {
			d.PrimerFor, d.PrimerRule = next[0], "primer"
			if important {
				d.PrimerRule = "primer-important"
			}
		}
		if len(prev) > 0 && len(d.Games) == 0 && !(sandwich && important) && !(d.Minor && len(prev) > 1) {
			d.RecoveryFrom = prev[len(prev)-1]
		}
	}
}

// WeekInBreak reports whether all seven dates of the week of Days[i] lie in one
// break.
func (f *Facts) WeekInBreak(i int) bool {
	d := &f.Days[i]
	if !d.Break {
		return false
	}
	for x := max(0, i-6); x < min(len(f.Days), i+7); x++ {
		if o := &f.Days[x]; o.Week == d.Week && (!o.Break || o.RunID != d.RunID) {
			return false
		}
	}
	return true
}

// WeekFirst returns the first date of the week of Days[i].
func (f *Facts) WeekFirst(i int) calendar.Date {
	return calendar.WeekStart(f.Days[i].Date, time.Weekday(f.Set.Value("week-start")))
}
