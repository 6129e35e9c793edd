package main

import (
	"context"
	"errors"
	"io"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// day reads the report, the kit and the profile that the flags name.
func (l *loader) day(in *input) {
	var catalogue exercise.Catalogue
	take := func(file string, problems []calendar.Problem, err error) bool {
		var bad *season.InputError
		if errors.As(err, &bad) {
			problems = bad.Problems
		}
		l.add(named(file, problems)...)
		return err == nil
	}
	if l.opt.kit != "" {
		l.with(l.opt.kit, func(r io.Reader) {
			kit, problems, err := catalogue.ReadKit(r)
			if take(l.opt.kit, problems, err) {
				in.kit = &kit
			}
		})
	}
	if l.opt.profile != "" {
		l.with(l.opt.profile, func(r io.Reader) {
			profile, problems, err := catalogue.ReadProfile(r)
			if take(l.opt.profile, problems, err) {
				in.profile = profile
			}
		})
	}
	if l.opt.checkin != "" {
		l.with(l.opt.checkin, func(r io.Reader) {
			report, problems, err := catalogue.ReadCheckIn(r)
			if !take(l.opt.checkin, problems, err) && holds(report) {
				l.add(wrong("hold", shown(l.opt.checkin), "", "it tells of a sign that ends the day's training", "no session today, whatever else is wrong in it; ask a clinician"))
			}
			in.report = &report
		})
	}
}

// holds reports whether a report that cannot be used holds the day nevertheless.
func holds(report exercise.CheckIn) bool {
	r, err := exercise.Builder{}.Today(exercise.Input{}, exercise.Card{}, report)
	_, held := r.(exercise.Held)
	return err == nil && held
}

// todayer plans again with what a day leads to.
type todayer interface {
	Today(context.Context, *season.Request, *season.Plan, exercise.Card, exercise.Result) (*periodize.Week, error)
}

// today writes what the report makes of a session, and of the week if that is
// confirmed.
func (p *program) today(ctx context.Context, s *sheet, written exercise.Card) error {
	planner, ok := p.planner.(todayer)
	if !ok {
		return errors.New("this planner answers no reports")
	}
	club, err := clubOf(s.in, s.plan)
	if err != nil {
		return err
	}
	var builder exercise.Builder
	in, _, err := builder.Written(*s.plan, club, written.Session)
	if err != nil {
		return err
	}
	result, err := builder.Today(in, written, *s.in.report)
	if err != nil {
		return err
	}
	return s.outcome(ctx, planner, written, result)
}

// heldOnFreeDate writes the hold that a report on a date without a session leads
// to, if it does.
func (p *program) heldOnFreeDate(ctx context.Context, s *sheet, date calendar.Date) (bool, error) {
	planner, ok := p.planner.(todayer)
	if !ok {
		return false, errors.New("this planner answers no reports")
	}
	in := exercise.Input{Athlete: s.in.request.Athlete, Session: season.Session{Date: date}}
	result, err := exercise.Builder{}.Today(in, exercise.Card{}, *s.in.report)
	if held, ok := result.(exercise.Held); err == nil && ok {
		return true, s.outcome(ctx, planner, exercise.Card{}, held)
	}
	return false, nil // nothing is asked of a free date but whether it holds
}

// outcome writes what becomes of the day and of the week.
func (s *sheet) outcome(ctx context.Context, planner todayer, written exercise.Card, result exercise.Result) error {
	week, err := planner.Today(ctx, s.in.request, s.plan, written, result)
	if err != nil {
		return err
	}
	s.title("TODAY: " + strings.ToUpper(string(result.State())))
	s.Line("  For the athlete and those who look after the athlete, not for a wall.")
	switch r := result.(type) {
	case exercise.AsWritten:
		s.day(r.Day)
	case exercise.Eased:
		s.day(r.Day)
	case exercise.Swapped:
		s.day(r.Day)
	case exercise.Held:
		s.reasons(r.Why, r.Physio)
		if r.Clearance {
			s.Line("  No session from today on until a named clinician has cleared it.")
		}
	}
	s.restOfWeek(week)
	return nil
}

// day writes a session that takes place, with what was changed and why.
func (s *sheet) day(d exercise.Day) {
	s.reasons(d.Why, d.Questions, d.Physio)
	if d.Refer {
		s.Line("  - a clinician should look at it, though training goes on")
	}
	s.card(d.Card)
}

func (s *sheet) reasons(lists ...[]season.Note) {
	for _, list := range lists {
		for _, n := range list {
			s.Hang("  - ", n.Text)
		}
	}
}

// restOfWeek writes what else moves if the day is confirmed.
func (s *sheet) restOfWeek(week *periodize.Week) {
	in := *s.in
	in.request = &week.Request
	in.request.Issued = append(in.request.Issued[:len(in.request.Issued):len(in.request.Issued)], *s.plan)
	next := newSheet(&in, week.Plan, false)
	next.title("IF THIS IS CONFIRMED, the rest of the plan")
	switch {
	case week.Plan.Outcome == season.Refused:
		next.Hang("  ", "nothing is planned until the hold is cleared: "+say.Count(len(week.Changes), "session")+" off")
	case len(week.Changes) == 0:
		next.Line("  stays as it is")
	}
	for i, c := range week.Changes {
		if week.Plan.Outcome == season.Refused || i == mostShown {
			break
		}
		label, text := next.changeText(c)
		text, _, _ = strings.Cut(text, ";")
		next.Hang("  "+say.Pad(label, 10)+" ", text)
	}
	if n := len(week.Changes) - mostShown; n > 0 && week.Plan.Outcome != season.Refused {
		next.Line("  and " + say.Count(n, "change") + " more")
	}
	s.Append(&next.Page)
}

// mostShown is how many changes of the weeks ahead are listed.
const mostShown = 12
