package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"example.org/weft/calendar"
	invented "example.org/weft/internal/demo"
	"example.org/weft/internal/say"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// past is what a log tells, and what was planned before.
type past struct {
	view     logbook.View
	links    []logbook.Link
	setting  logbook.Setting
	given    logbook.Given
	history  exercise.History
	lifts    []logbook.Lift
	warnings []season.Note
	prefer   []logbook.Preference
	unplaced []season.Note
	aims     []season.ClubRule // to keep qualities
	left     int               // rules that the request did not take
}

// checkLog says what is wrong with the flags about a log.
func (o *options) checkLog(bad func(format string, a ...any)) {
	if o.keep && o.log == "" && !(o.report && o.demo()) {
		bad("-keep counts from what a log tells: name it with -log")
	}
	switch {
	case o.report && o.log == "" && !o.demo():
		bad("-report tells what a log says: name it with -log")
	case o.report && (o.why != "" || o.card != "" || o.sheet != ""):
		bad("-report, -sheet, -card and -why: ask for one of them")
	case o.report && o.format != "text" && known(o.format, formats):
		bad("-report is for -format text")
	}
}

// remember reads the log and takes what it tells into the request: sessions done
// or missed, lifted maxima, and notes as preferences. The demo brings a log of its
// own, and the plan it was made from.
func (p *program) remember(ctx context.Context, opt *options, in *input) ([]calendar.Problem, error) {
	if opt.log == "" && !(opt.report && in.demo) {
		return nil, nil
	}
	l := &loader{program: p, opt: opt}
	r := in.request
	var log logbook.Log
	if opt.log == "" {
		entries, err := p.demoLog(ctx, in)
		if err != nil {
			return nil, err
		}
		if log, err = logbook.NewLog(entries...); err != nil {
			return nil, err
		}
	} else {
		if r.Now.IsZero() {
			return []calendar.Problem{wrong("missing", "-now", "", "a log tells what was before now, and now is not said", "give -now, an instant with its offset")}, nil
		}
		var ok bool
		if log, ok = l.log(r); !ok {
			return l.problems, nil
		}
	}
	if err := in.take(log); err != nil {
		return l.problems, err
	}
	if opt.keep {
		in.keep()
	}
	if n := in.past.left; n > 0 {
		x := wrong("limit", "-log", "", fmt.Sprintf("%s left out: a request carries %d rules of the club's own", say.Count(n, "note or aim"), season.MaxClubRules),
			"void notes that no longer hold, or leave rules out")
		x.Class = calendar.ClassWarning
		l.add(x)
	}
	for _, x := range r.Validate() {
		if failed([]calendar.Problem{x}) {
			l.add(x)
		}
	}
	return l.problems, nil
}

// keepPoints is what each date from the edge of a band on costs: less than a
// primer, more than comfort. Common practice, no source.
const keepPoints = 30

// keep gives the request the aims to keep strength and speed, unless it has them.
func (in *input) keep() {
	for _, q := range []load.Quality{load.MaximalStrength, load.MaximalSpeed} {
		if aim, ok := logbook.KeepRule(in.past.view, in.past.setting, q, keepPoints, in.request.Period.From); ok && !in.has(aim.ID) && in.carry(aim) {
			in.past.aims = append(in.past.aims, aim)
		}
	}
}

// has reports whether the request has a rule of the club's own with an id.
func (in *input) has(id string) bool {
	return slices.ContainsFunc(in.request.Club, func(r season.ClubRule) bool { return r.ID == id })
}

// carry adds a rule to the request, as many as it takes.
func (in *input) carry(r season.ClubRule) bool {
	if len(in.request.Club) >= season.MaxClubRules {
		in.past.left++
		return false
	}
	in.request.Club = append(in.request.Club, r)
	return true
}

// demoLog plans the demo as before the season, and tells what came of it.
func (p *program) demoLog(ctx context.Context, in *input) ([]logbook.Entry, error) {
	plan, err := p.planner.Plan(ctx, in.request)
	if err != nil {
		return nil, err
	}
	_, cards, err := fill(in, plan)
	if err != nil {
		return nil, err
	}
	in.request.Issued = append(in.request.Issued, *plan)
	if in.request.Now.IsZero() {
		in.request.Now = invented.Now()
	}
	return slices.DeleteFunc(invented.Log(plan, cards), func(e logbook.Entry) bool { return e.Recorded.After(in.request.Now) }), nil
}

// log reads the file that -log names, by its extension.
func (l *loader) log(r *season.Request) (log logbook.Log, ok bool) {
	rd := logbook.Reader{Strict: l.opt.strict, Now: r.Now, Athlete: r.Athlete.ID, Zone: r.Athlete.Zone, Recorded: r.Now}
	l.with(l.opt.log, func(f io.Reader) {
		var problems []calendar.Problem
		var err error
		if strings.EqualFold(filepath.Ext(l.opt.log), ".json") {
			log, problems, err = rd.JSON(f)
			problems = named(l.opt.log, problems)
		} else {
			log, problems, err = rd.CSV(f, shown(l.opt.log))
		}
		var bad *season.InputError
		switch {
		case errors.As(err, &bad):
			problems = bad.Problems
			if strings.EqualFold(filepath.Ext(l.opt.log), ".json") {
				problems = named(l.opt.log, problems)
			}
		case err != nil:
			problems = append(problems, wrong("file", shown(l.opt.log), "", err.Error(), "give another file"))
		default:
			ok = true
		}
		l.add(problems...)
	})
	if athletes := log.Athletes(); ok && len(athletes) > 0 && !slices.Contains(athletes, r.Athlete.ID) {
		x := wrong("athlete", shown(l.opt.log), r.Athlete.ID, "the log tells nothing of this athlete", "it tells of "+calendar.Inert(listed(athletes, 5)))
		l.add(x)
		ok = false
	}
	return log, ok
}

// take folds the log and hands the request what it tells.
func (in *input) take(log logbook.Log) error {
	r := in.request
	zone := r.Athlete.Zone
	s := &past{}
	issued := inForce(r.Issued)
	s.view, s.links = log.View(r.Athlete.ID).Linked(issued, in.placed)
	today := calendar.DateOf(r.Now, zone)
	kit := exercise.Gym()
	switch {
	case in.kit != nil:
		kit = *in.kit
	case len(r.Places) > 0 && r.Places[0].Kit != nil:
		kit, _ = exercise.Catalogue{}.ParseKit(r.Places[0].Kit) // its problems are told with the cards
	}
	s.setting = logbook.Setting{Today: today, Athlete: r.Athlete, Issued: issued, Events: in.placed, Plays: usualMinutes(&s.view)}
	s.given = logbook.Given{Today: today, Athlete: r.Athlete, Kit: kit}
	for i := range r.Issued {
		cards, err := in.cardsThen(&r.Issued[i], log, s.given)
		if err != nil {
			return err
		}
		s.given.Cards = append(s.given.Cards, cards...)
	}
	s.given.Cards = newest(s.given.Cards)
	var err error
	if s.lifts, s.warnings, err = s.view.Progress(s.given); err != nil {
		return err
	}
	if s.history, err = s.view.History(s.given); err != nil {
		return err
	}
	s.prefer, s.unplaced = s.view.Preferences()
	in.past = s
	r.Log = append(r.Log, s.view.Done()...)
	for _, m := range logbook.Maxima(s.lifts) {
		if m.Kind == "tested" { // what was estimated comes from the sets themselves
			r.Athlete.Maxima = append(r.Athlete.Maxima, m)
		}
	}
	s.prefer = slices.DeleteFunc(s.prefer, func(p logbook.Preference) bool { return !in.carry(p.Rule) })
	return nil
}

// cardsThen are the cards of a plan as they were when it was handed out: made of
// what had been told by then.
func (in *input) cardsThen(plan *season.Plan, log logbook.Log, g logbook.Given) ([]exercise.Card, error) {
	then := *in
	g.Today, g.Cards = calendar.DateOf(plan.Now, in.request.Athlete.Zone), nil
	view := log.AsOf(plan.Now).View(in.request.Athlete.ID)
	history, err := view.History(g)
	if err != nil {
		return nil, err
	}
	then.past = &past{history: history}
	_, cards, err := fill(&then, plan)
	return cards, err
}

// newest keeps the last card of each session.
func newest(cards []exercise.Card) []exercise.Card {
	at := map[string]int{}
	var out []exercise.Card
	for _, c := range cards {
		if i, ok := at[c.Session]; ok {
			out[i] = c
			continue
		}
		at[c.Session] = len(out)
		out = append(out, c)
	}
	return out
}

// inForce are the sessions as they stood when their time came: each plan counts
// from its now to that of the next.
func inForce(issued []season.Plan) (out []season.Session) {
	for i := range issued {
		now := issued[i].Now
		out = slices.DeleteFunc(out, func(s season.Session) bool { return !s.Start.Before(now) })
		for _, s := range issued[i].Sessions {
			if !s.Start.Before(now) {
				out = append(out, s)
			}
		}
	}
	return out
}

// usualMinutes are the minutes of the middle one of the last games, if at least
// three are told.
func usualMinutes(v *logbook.View) logbook.Maybe[int] {
	var minutes []int
	for i := len(v.Entries) - 1; i >= 0 && len(minutes) < 7; i-- {
		if g, ok := v.Entries[i].What.(logbook.Game); ok && g.Minutes.Known {
			minutes = append(minutes, g.Minutes.Value)
		}
	}
	if len(minutes) < 3 {
		return logbook.Maybe[int]{}
	}
	slices.Sort(minutes)
	return logbook.Told(minutes[(len(minutes)-1)/2])
}
