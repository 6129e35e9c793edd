package handout

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Paper is what sheets are printed on.
type Paper uint8

// The papers.
const (
	A4     Paper = iota // 210 x 297 mm
	Letter              // 8.5 x 11 in
)

// Options of all sheets of a book. The zero value is A4.
type Options struct {
	Paper   Paper
	Name    string // of the athlete, as people around know him or her; "": the id of the request
	Club    string // printed beside it, "" if none
	Example bool   // the data are invented, and each page says so
}

// Book is a plan with the request it answers, ready to be written for its
// readers. Make one with [New]. It is safe for concurrent use.
type Book struct {
	req    *season.Request
	plan   *season.Plan
	opt    Options
	zone   calendar.Zone
	first  time.Weekday      // of a week
	events []calendar.Placed // of all kinds, in order of time
	games  []calendar.Placed // those to be played
	byID   map[string]calendar.Placed
	facts  calendar.Facts
	days   map[calendar.Date]*day
	today  calendar.Date // of the plan's now; zero if nothing of the period is past
	usual  string        // the place of most sessions
}

// day is what one date holds.
type day struct {
	games    []calendar.Placed // also those called off
	events   []calendar.Placed // active, of other kinds, on each date they touch
	sessions []*season.Session
	closed   []string // places
}

// New puts a plan beside its request. The error is a *[season.InputError] with
// every problem: request or plan that do not hold, and a plan that is none of
// this request (another zone, another period, other events).
func New(req *season.Request, plan *season.Plan, opt Options) (*Book, error) {
	var problems []calendar.Problem
	bad := func(path, value, reason, remedy string) {
		problems = append(problems, calendar.Problem{
			Code: "handout", Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy,
		})
	}
	if req == nil || plan == nil {
		bad("", "", "a sheet needs a request and its plan", "give both")
		return nil, &season.InputError{Problems: problems}
	}
	keep := func(path string, found []calendar.Problem) {
		for _, p := range found {
			if p.Class == calendar.ClassError {
				p.Path = path + p.Path
				problems = append(problems, p)
			}
		}
	}
	keep("request", req.Validate())
	keep("plan", plan.Validate())
	rules, found := rule.New(req.Rules)
	keep("request", found)
	if opt.Paper > Letter {
		bad("options", fmt.Sprint(opt.Paper), "no paper is known by this number", "use A4 or Letter")
	}
	if len(problems) == 0 {
		if plan.Period != req.Period {
			bad("plan/period", plan.Period.From.String()+" to "+plan.Period.To.String(), "the request asks for other dates", "give the request that was planned")
		}
		if plan.Zone != req.Athlete.Zone.Name() {
			bad("plan/zone", plan.Zone, "the request has "+req.Athlete.Zone.Name(), "give the request that was planned")
		}
	}
	if len(problems) > 0 {
		return nil, &season.InputError{Problems: problems}
	}
	canonical := req.Canonical()
	b := &Book{
		req: &canonical, plan: plan, opt: opt, zone: canonical.Athlete.Zone,
		first: time.Weekday(rules.Value("week-start")),
		byID:  map[string]calendar.Placed{}, days: map[calendar.Date]*day{},
	}
	if plan.EventsDigest != nil && !slices.Equal(plan.EventsDigest, season.EventsDigest(canonical.Events, plan.Period)) {
		bad("plan/eventsDigest", "", "the plan was made for other events than those of the request", "plan again, or give the request that was planned")
		return nil, &season.InputError{Problems: problems}
	}
	b.place(rules.Value("game-minutes"))
	b.fill()
	return b, nil
}

// place puts the events on the time line. What cannot be placed was an error of
// the request.
func (b *Book) place(gameMinutes int) {
	a := calendar.Assumptions{GameMinutes: gameMinutes}
	for _, e := range b.req.Events {
		if e.Zone.IsZero() {
			e.Zone = b.zone
		}
		if p, err := calendar.Place(e, a); err == nil {
			b.events = append(b.events, p)
		}
	}
	slices.SortStableFunc(b.events, calendar.ComparePlaced)
	for _, e := range b.events {
		b.byID[e.ID] = e
		if e.Kind == calendar.Game && e.Active() {
			b.games = append(b.games, e)
		}
	}
	b.facts = calendar.FactsOf(b.events, b.plan.Period.From, b.plan.Period.To)
	if b.zone.DayStart(b.plan.Period.From).Before(b.plan.Now) {
		b.today = calendar.DateOf(b.plan.Now, b.zone)
	}
}

// fill gathers what each date holds, in order of time.
func (b *Book) fill() {
	for _, e := range b.events {
		switch {
		case e.Kind == calendar.Game:
			d := b.on(e.Date)
			d.games = append(d.games, e)
		case e.Active():
			first, last := b.dates(e)
			for d := calendar.Later(first, b.plan.Period.From); !d.After(calendar.Earlier(last, b.plan.Period.To)); d = d.AddDays(1) {
				b.on(d).events = append(b.on(d).events, e)
			}
		}
	}
	for _, p := range b.req.Places {
		for _, c := range p.Closed {
			for d := calendar.Later(c.From, b.plan.Period.From); !d.After(calendar.Earlier(c.To, b.plan.Period.To)); d = d.AddDays(1) {
				b.on(d).closed = append(b.on(d).closed, p.ID)
			}
		}
	}
	for i := range b.plan.Sessions {
		s := &b.plan.Sessions[i]
		b.on(s.Date).sessions = append(b.on(s.Date).sessions, s)
	}
	b.usual = say.UsualPlace(b.plan.Sessions)
}

func (b *Book) on(d calendar.Date) *day {
	if b.days[d] == nil {
		b.days[d] = &day{}
	}
	return b.days[d]
}

// at is what a date holds, also if that is nothing.
func (b *Book) at(d calendar.Date) day {
	if x := b.days[d]; x != nil {
		return *x
	}
	return day{}
}

// dates are the first and the last date that an event touches in the plan's zone.
func (b *Book) dates(e calendar.Placed) (first, last calendar.Date) {
	first = calendar.DateOf(e.Span.Start, b.zone)
	last = calendar.DateOf(e.Span.End.Add(-time.Nanosecond), b.zone)
	return first, calendar.Later(first, last)
}

// who is the athlete as the sheets call him or her.
func (b *Book) who() string {
	if b.opt.Name != "" {
		return say.Clip(b.opt.Name, 40)
	}
	return say.Clip(b.req.Athlete.ID, 40)
}

// name is what people call an event.
func (b *Book) name(e calendar.Placed) string {
	return say.Name(e.Event, eventWord(e.Event), 28)
}

// where is a game with its place: "at Brakhavn", "Tornby, home".
func (b *Book) where(e calendar.Placed) string { return say.Where(b.name(e), e.Home) }

// marks of a game that is not simply to be played, "" if there are none.
func gameMarks(e calendar.Placed) string {
	var out []string
	switch e.Status.Settled() {
	case calendar.Provisional:
		out = append(out, "not certain")
	case calendar.IfNecessary:
		out = append(out, "only if needed")
	case calendar.Postponed:
		out = append(out, "put off")
	case calendar.Cancelled:
		out = append(out, "called off")
	}
	if e.Importance == calendar.Important {
		out = append(out, "important")
	}
	if e.DateOnly {
		out = append(out, "time open")
	}
	return strings.Join(out, ", ")
}

// clock is an instant as a time of day in the plan's zone.
func (b *Book) clock(t time.Time) string { return say.Clock(b.zone.Local(t).Clock) }

func (b *Book) clocks(from, to time.Time) string { return b.clock(from) + "-" + b.clock(to) }

// moment is an instant as date and time in the plan's zone.
func (b *Book) moment(t time.Time) string {
	return say.DayYear(b.zone.Local(t).Date) + " " + b.clock(t)
}

// next is the first game after an instant.
func (b *Book) next(t time.Time) (g calendar.Placed, ok bool) {
	for _, g := range b.games {
		if g.Span.Start.After(t) {
			return g, true
		}
	}
	return g, false
}

// weekOf is the first and the last date of a week within the period.
func (b *Book) weekOf(d calendar.Date) (from, to calendar.Date) {
	from = calendar.WeekStart(d, b.first)
	return calendar.Later(from, b.plan.Period.From), calendar.Earlier(from.AddDays(6), b.plan.Period.To)
}

// outside is the error of asking about dates that the plan does not have.
func (b *Book) outside(d calendar.Date) error {
	p := b.plan.Period
	return &season.InputError{Problems: []calendar.Problem{{
		Code: "handout", Class: calendar.ClassError, Path: "date", Value: d.String(),
		Reason: "the plan goes from " + p.From.String() + " to " + p.To.String(), Remedy: "ask about a date of the plan",
	}}}
}
