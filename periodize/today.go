package periodize

import (
	"context"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// Week is what a day makes of the rest of a plan, to be looked at before anybody
// confirms it. Keep Request and Plan to confirm it, drop them to leave all as it
// was.
type Week struct {
	Request season.Request  // the request with the day in it
	Plan    *season.Plan    // as of the end of the day's session
	Changes []season.Change // of the plan's changes those of the other sessions, without unchanged ones
}

// Today plans again with what a report of the day leads to, see
// [exercise.Builder.Today]: a session that takes place counts as done, with the
// kind and minutes that are left of it; a held one is gone, with it what else was
// to be on its dates, and a hold for a clinician to clear stands from then on. So
// far nothing has happened: the request and the last plan are not changed, and
// the reasons of the day, which are private, are in neither plan nor request.
//
// card is the session of the last plan as it was written; a hold that is told on a
// date without one comes with the zero Card. The error is as for [Planner.Plan],
// and a *season.InputError if the plan has no such session.
func (p *Planner) Today(ctx context.Context, req *season.Request, last *season.Plan, card exercise.Card, result exercise.Result) (*Week, error) {
	s, err := ofCard(req, last, card, result)
	if err != nil {
		return nil, err
	}
	next := withDay(req, s, result.Effect())
	plan, err := p.Replan(ctx, &next, last)
	if err != nil {
		return nil, err
	}
	w := &Week{Request: next, Plan: plan}
	for _, c := range plan.Changes {
		if c.Change != season.Unchanged && (s == nil || c.Session != s.ID) {
			w.Changes = append(w.Changes, c)
		}
	}
	return w, nil
}

// ofCard finds the session that a card was written for.
func ofCard(req *season.Request, last *season.Plan, card exercise.Card, result exercise.Result) (*season.Session, error) {
	bad := func(path, value, reason, remedy string) error {
		return &season.InputError{Problems: []calendar.Problem{{Code: "today-missing", Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy}}}
	}
	switch {
	case req == nil:
		return nil, bad("", "", "there is no request", "pass the request that the plan was made from")
	case last == nil:
		return nil, bad("", "", "there is no plan", "pass the plan that the card was written from")
	case result == nil:
		return nil, bad("", "", "there is no result of the day", "ask exercise.Builder.Today first")
	}
	if card.Session == "" && result.State() == season.Held {
		return nil, nil
	}
	for i := range last.Sessions {
		if s := &last.Sessions[i]; s.ID == card.Session {
			return s, nil
		}
	}
	return nil, bad("/card/session", calendar.Inert(card.Session), "the plan has no session of this id", "pass a card of a session of this plan")
}

// withDay is the request once the day is over.
func withDay(req *season.Request, s *season.Session, e exercise.Effect) season.Request {
	next := *req
	if s != nil {
		next = withSession(req, s, e)
	}
	if e.Hold != nil {
		next.Athlete.Holds = append(slices.Clone(req.Athlete.Holds), *e.Hold)
	}
	next.Pins = slices.Clone(req.Pins)
	for _, d := range e.Free {
		if start := req.Athlete.Zone.DayStart(d); s == nil && next.Now.Before(start) && d == e.Free[0] {
			next.Now = start // what lies before it will have been
		}
		next.Pins = slices.DeleteFunc(next.Pins, func(p season.Pin) bool { return p.Date == d })
		if req.Period.Contains(d) {
			next.Pins = append(next.Pins, season.Pin{Date: d, None: true})
		}
	}
	return next
}

// withSession is the request with the day's session done, missed or ahead no
// more.
func withSession(req *season.Request, s *season.Session, e exercise.Effect) season.Request {
	next := *req
	next.Log = slices.DeleteFunc(slices.Clone(req.Log), func(d season.Done) bool { return d.Session == s.ID })
	done := season.Done{ID: "day-" + s.ID, Session: s.ID, Kind: e.Kind, Start: req.Athlete.Zone.Local(s.Start), Zone: req.Athlete.Zone}
	if e.Kind != "" {
		end := s.Start.Add(time.Duration(e.Minutes) * time.Minute)
		done.End, done.HasEnd = req.Athlete.Zone.Local(end), true
		next.Log = append(next.Log, done)
		if end.After(next.Now) {
			next.Now = end
		}
		return next
	}
	switch {
	case s.Start.Before(req.Now): // told after it was to begin
		done.Kind, done.Missed = s.Kind, true
		next.Log = append(next.Log, done)
	case next.Now.Before(s.Start):
		next.Now = s.Start // what lies before it will have been
	}
	return next
}
