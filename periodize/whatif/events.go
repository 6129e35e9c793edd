package whatif

import (
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// eventEdit is an edit of one event.
type eventEdit struct {
	id   string
	edit season.Edit
}

// Move gives an event another start, a wall time such as 2026-11-05T19:45 or a
// date alone, as [season.Move] does.
func Move(id, wall string) Change { return eventEdit{id, season.Move(id, wall)} }

// Cancel marks an event as cancelled.
func Cancel(id string) Change { return eventEdit{id, season.Cancel(id)} }

// Confirm marks an event as confirmed.
func Confirm(id string) Change { return eventEdit{id, season.Confirm(id)} }

// Postpone marks an event as postponed: it takes up no time until it is moved.
func Postpone(id string) Change { return eventEdit{id, season.Postpone(id)} }

func (c eventEdit) String() string  { return c.edit.String() }
func (c eventEdit) apply(e *editor) { e.edit([]string{c.id}, c.edit) }

// movedDays moves an event by whole days.
type movedDays struct {
	id   string
	days int
}

// MoveDays moves an event by whole days, backwards if negative, at the same
// clock time.
func MoveDays(id string, days int) Change { return movedDays{id, days} }

func (c movedDays) String() string {
	days := "days"
	if c.days == 1 || c.days == -1 {
		days = "day"
	}
	return fmt.Sprintf("move %s by %+d %s", calendar.Inert(c.id), c.days, days)
}

func (c movedDays) apply(e *editor) {
	wall := ""
	if v, ok := eventOf(&e.req, c.id); ok {
		w := v.Start
		w.Date = w.Date.AddDays(c.days)
		if w.Date.IsZero() {
			e.bad(season.CodeDate, c.id, "moved by so many days it leaves the calendar", "move it by fewer days")
			return
		}
		wall = w.String()
		if v.DateOnly {
			wall = w.Date.String()
		}
	}
	e.edit([]string{c.id}, season.Move(c.id, wall))
}

// added adds events.
type added struct{ event calendar.Event }

// Add adds an event, as [season.Add] does.
func Add(v calendar.Event) Change {
	v.Unknown = slices.Clone(v.Unknown)
	return added{v}
}

func (c added) String() string {
	name := c.event.ID
	if name == "" {
		name = string(c.event.Kind) + " of " + c.event.Start.String()
	}
	return "add " + calendar.Inert(name)
}

func (c added) apply(e *editor) {
	v := c.event
	if v.Zone.IsZero() {
		v.Zone = e.req.Athlete.Zone
	}
	if v.ID == "" {
		v.ID = v.ContentID()
	}
	e.edit([]string{v.ID}, season.Add(v))
}

// weekly is a practice once a week.
type weekly struct {
	day      time.Weekday
	start    calendar.Clock
	minutes  int
	from, to calendar.Date
	hard     bool
}

// AddWeekly adds a practice on a day of each week from one date to another, both
// included; unset dates are those of the period. It is left out on dates of
// games. Minutes are 1 to 720.
func AddWeekly(day time.Weekday, start calendar.Clock, minutes int, hard bool, from, to calendar.Date) Change {
	return weekly{day, start, minutes, from, to, hard}
}

func (c weekly) String() string {
	kind := "practice"
	if c.hard {
		kind = "hard practice"
	}
	return fmt.Sprintf("%s each %s %s, %d minutes", kind, c.day, c.start, c.minutes) + fromTo(c.from, c.to)
}

func fromTo(from, to calendar.Date) string {
	text := ""
	if !from.IsZero() {
		text += " from " + from.String()
	}
	if !to.IsZero() {
		text += " to " + to.String()
	}
	return text
}

func (c weekly) apply(e *editor) {
	from, to := c.from, c.to
	if from.IsZero() {
		from = e.req.Period.From
	}
	if to.IsZero() {
		to = e.req.Period.To
	}
	switch {
	case c.day < time.Sunday || c.day > time.Saturday:
		e.bad(season.CodeChoice, fmt.Sprint(int(c.day)), "there is no such day of the week", "use Sunday (0) to Saturday (6)")
		return
	case !c.start.Valid() || c.start == calendar.EndOfDay:
		e.bad(season.CodeClock, c.start.String(), "a practice cannot start then", "give a time from 00:00 to 23:59")
		return
	case c.minutes < 1 || c.minutes > 720:
		e.bad(season.CodeRange, fmt.Sprint(c.minutes), "a practice lasts 1 to 720 minutes", "give its minutes")
		return
	case from.IsZero() || to.IsZero() || to.Before(from):
		e.bad(season.CodeSpan, from.String()+" to "+to.String(), "no date lies in this span", "give the first date, then the last")
		return
	case to.DaysSince(from) > 2*season.MaxPeriodDays:
		e.bad(season.CodeLimit, from.String()+" to "+to.String(), fmt.Sprintf("more than %d dates", 2*season.MaxPeriodDays), "give a shorter span")
		return
	}
	games := map[calendar.Date]bool{}
	for i := range e.req.Events {
		if v := &e.req.Events[i]; v.Kind == calendar.Game && v.Active() {
			games[v.Start.Date] = true
		}
	}
	var ids []string
	var edits []season.Edit
	for d := from; !d.After(to); d = d.AddDays(1) {
		if d.Weekday() != c.day || games[d] {
			continue
		}
		v := calendar.Event{Kind: calendar.Practice, Zone: e.req.Athlete.Zone, Hard: c.hard,
			Start: calendar.Wall{Date: d, Clock: c.start}, HasEnd: true}
		v.End = v.Start.AddMinutes(c.minutes)
		v.ID = fmt.Sprintf("weekly-%s-%s", d, c.start)
		ids = append(ids, v.ID)
		edits = append(edits, season.Add(v))
	}
	e.edit(ids, edits...)
}

// dropped cancels the practices of a day of the week.
type dropped struct {
	day      time.Weekday
	from, to calendar.Date
}

// DropPractices cancels each practice that starts on a day of the week from one
// date to another, both included; unset dates are those of the period. It is an
// error if there is none.
func DropPractices(day time.Weekday, from, to calendar.Date) Change { return dropped{day, from, to} }

func (c dropped) String() string {
	return fmt.Sprintf("no practice on %ss", c.day) + fromTo(c.from, c.to)
}

func (c dropped) apply(e *editor) {
	p := season.Period{From: c.from, To: c.to}
	if p.From.IsZero() {
		p.From = e.req.Period.From
	}
	if p.To.IsZero() {
		p.To = e.req.Period.To
	}
	var ids []string
	for i := range e.req.Events {
		v := &e.req.Events[i]
		if v.Kind == calendar.Practice && v.Active() && v.Status != calendar.Played && p.Contains(v.Start.Date) && v.Start.Date.Weekday() == c.day {
			id := v.ID
			if id == "" {
				id = v.ContentID()
			}
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	ids = slices.Compact(ids)
	if len(ids) == 0 {
		e.bad(season.CodeUnknownEvent, c.day.String(), "there is no practice on that day of the week", "name another day")
		return
	}
	var edits []season.Edit
	for _, id := range ids {
		edits = append(edits, season.Cancel(id))
	}
	e.edit(ids, edits...)
}
