package bridge

import (
	"context"
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// Slip is what a change would do, to be looked at before it is accepted.
type Slip struct {
	News      string   `json:"news"`
	Changes   []Line   `json:"changes"`
	Unchanged int      `json:"unchanged"`
	Points    string   `json:"points"` // the plan's measure, before and after
	Problems  []string `json:"problems"`
	Outcome   string   `json:"outcome"`
}

// Line is one change of a session.
type Line struct {
	Change string `json:"change"`
	Kind   string `json:"kind"`
	Text   string `json:"text"`
	Why    string `json:"why"`
}

type moveArgs struct {
	ID string `json:"id"`
	To string `json:"to"` // wall time in the game's zone, or a date alone
	Do string `json:"do"` // move, cancel, confirm, postpone
}

// move looks at what a changed game would do to the plan.
func (d *Desk) move(ctx context.Context, a moveArgs, stage Stage) (any, error) {
	var edit season.Edit
	switch a.Do {
	case "move", "":
		edit = season.Move(a.ID, a.To)
	case "cancel":
		edit = season.Cancel(a.ID)
	case "confirm":
		edit = season.Confirm(a.ID)
	case "postpone":
		edit = season.Postpone(a.ID)
	default:
		return nil, wrong("do", a.Do, "no such change", "reload the page")
	}
	next, err := season.Apply(*d.req, edit)
	if err != nil {
		return nil, err
	}
	return d.propose(ctx, &next, d.news(a), stage)
}

func (d *Desk) news(a moveArgs) string {
	for _, e := range d.req.Events {
		if e.ID != a.ID {
			continue
		}
		n := name(e)
		if n == "" {
			n = "the game"
		}
		was := wallText(e.Start, e.DateOnly)
		switch a.Do {
		case "cancel":
			return fmt.Sprintf("%s, %s, is cancelled", n, was)
		case "confirm":
			return fmt.Sprintf("%s, %s, is confirmed", n, was)
		case "postpone":
			return fmt.Sprintf("%s, %s, is postponed", n, was)
		}
		if w, err := calendar.ParseWall(a.To); err == nil {
			return fmt.Sprintf("%s moves from %s to %s", n, was, wallText(w, false))
		}
		if x, err := calendar.ParseDate(a.To); err == nil {
			return fmt.Sprintf("%s moves from %s to %s", n, was, say.Day(x))
		}
	}
	return ""
}

func wallText(w calendar.Wall, dateOnly bool) string {
	if dateOnly {
		return say.Day(w.Date)
	}
	return say.Day(w.Date) + " " + say.Clock(w.Clock)
}

// keptIssued is how many earlier plans a request carries along; the newest ones.
const keptIssued = 6

// propose plans a changed request against the plan on the desk, as one that was
// handed out, and keeps both until somebody accepts.
func (d *Desk) propose(ctx context.Context, next *season.Request, news string, stage Stage) (any, error) {
	d.draft = nil
	next = d.issuedTo(next)
	plan, err := d.quick(ctx, next, stage)
	if err != nil {
		return nil, err
	}
	d.draft = &draft{req: next, plan: plan}
	return d.slip(plan, news), nil
}

// issuedTo adds the plan on the desk to a request, as one that was handed out.
func (d *Desk) issuedTo(next *season.Request) *season.Request {
	next.Issued = append(slices.Clone(next.Issued), *d.plan)
	if n := len(next.Issued) - keptIssued; n > 0 {
		next.Issued = next.Issued[n:]
	}
	return next
}

// slip says what is not as it was handed out.
func (d *Desk) slip(plan *season.Plan, news string) Slip {
	s := Slip{News: news, Changes: []Line{}, Problems: notes(plan.Refusals), Outcome: string(plan.Outcome)}
	for _, w := range plan.Warnings {
		s.Problems = append(s.Problems, calendar.Inert(w.Text))
	}
	s.Points = fmt.Sprintf("%d points before, %d after", d.plan.Cost.Points, plan.Cost.Points)
	names := namesOf(d.draft.req)
	for _, c := range plan.Changes {
		if c.Change == season.Unchanged {
			s.Unchanged++
			continue
		}
		s.Changes = append(s.Changes, d.line(c, names))
	}
	return s
}

func (d *Desk) line(c season.Change, names names) Line {
	l := Line{Change: string(c.Change), Kind: string(c.Kind)}
	kind := kindWord(c.Kind)
	switch {
	case c.Change == season.Moved && c.From != nil && c.To != nil:
		l.Text = fmt.Sprintf("%s from %s to %s", kind, d.moment(*c.From), d.moment(*c.To))
		if c.OldKind != "" {
			l.Text += ", was " + say.Kind(c.OldKind)
		}
	case c.Change == season.Replaced && c.From != nil:
		l.Text = fmt.Sprintf("%s: %s becomes %s", d.moment(*c.From), say.Kind(c.OldKind), lower(kind))
	case c.To != nil:
		l.Text = kind + " on " + d.moment(*c.To)
	case c.From != nil:
		l.Text = kind + " of " + d.moment(*c.From)
	default:
		l.Text = kind
	}
	if len(c.Cause) > 0 { // the first says most: the limit that would be broken, if one is
		l.Why = names.because(c.Cause[0])
	}
	return l
}

func (d *Desk) moment(t time.Time) string {
	c := d.clockAt(t)
	if c.zone != "" {
		return say.Day(c.date) + " " + c.text + ", " + thereText(c.zone)
	}
	return say.Day(c.date) + " " + c.text
}

// accept makes the changed request the one on the desk.
func (d *Desk) accept() (any, error) {
	if d.draft == nil {
		return nil, wrong("", "", "there is no change to accept", "make it again")
	}
	d.notes = nil
	if m := d.draft.day; m != nil {
		d.days = append(slices.DeleteFunc(d.days, func(x DayMark) bool { return x.Session == m.Session }), *m)
	}
	d.settle(d.draft.req, d.draft.plan, d.invented)
	return d.view(), nil
}

type pinArgs struct {
	Date    string `json:"date"`
	Kind    string `json:"kind"` // "": no session on the date
	Start   string `json:"start"`
	Place   string `json:"place"`
	Instead string `json:"instead"` // id of the session that it takes the place of
}

// pin looks at what a choice of the coach would do: a session that stands where
// somebody wants it, or a date without one.
func (d *Desk) pin(ctx context.Context, a pinArgs, stage Stage) (any, error) {
	date, err := calendar.ParseDate(a.Date)
	if err != nil {
		return nil, valueError("date", err)
	}
	next := *d.req
	next.Pins = slices.DeleteFunc(slices.Clone(d.req.Pins), func(p season.Pin) bool { return p.Date == date })
	pin := season.Pin{Date: date, Kind: season.Kind(a.Kind), None: a.Kind == "", Place: a.Place}
	if a.Kind != "" && a.Start != "" {
		c, err := calendar.ParseClock(a.Start)
		if err != nil {
			return nil, valueError("start", err)
		}
		pin.Start = &c
	}
	next.Pins = append(next.Pins, pin)
	if s := d.find(a.Instead); s != nil && s.Date != date && d.alone(s) {
		next.Pins = slices.DeleteFunc(next.Pins, func(p season.Pin) bool { return p.Date == s.Date })
		next.Pins = append(next.Pins, season.Pin{Date: s.Date, None: true})
	}
	return d.propose(ctx, &next, pinText(pin), stage)
}

// alone reports whether no other session stands on the date of one.
func (d *Desk) alone(s *season.Session) bool {
	for i := range d.plan.Sessions {
		if o := &d.plan.Sessions[i]; o.Date == s.Date && o.ID != s.ID {
			return false
		}
	}
	return true
}

func pinText(p season.Pin) string {
	if p.None {
		return "No session on " + say.Day(p.Date)
	}
	t := kindWord(p.Kind) + " on " + say.Day(p.Date)
	if p.Start != nil {
		t += " at " + say.Clock(*p.Start)
	}
	return t
}

func (d *Desk) pins() []PinText {
	out := []PinText{}
	for i, p := range d.req.Pins {
		out = append(out, PinText{i, pinText(p)})
	}
	return out
}

type unpinArgs struct {
	Index int `json:"index"`
}

// unpin looks at what giving up a choice would do.
func (d *Desk) unpin(ctx context.Context, a unpinArgs, stage Stage) (any, error) {
	if a.Index < 0 || a.Index >= len(d.req.Pins) {
		return nil, wrong("pins", fmt.Sprint(a.Index), "there is no such choice", "reload the page")
	}
	next := *d.req
	gone := next.Pins[a.Index]
	next.Pins = slices.Delete(slices.Clone(next.Pins), a.Index, a.Index+1)
	return d.propose(ctx, &next, "No longer fixed: "+pinText(gone), stage)
}
