package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/calendar/fixture"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// input is what a plan is made from, and what a reader should know about it.
type input struct {
	request *season.Request
	rules   *rule.Set
	demo    bool
	period  string            // how the period was found, "" if it was given
	file    string            // of the request, for problems
	placed  []calendar.Placed // the events, in order of time
	why     calendar.Date     // that is asked about; zero if none is
	card    calendar.Date     // whose cards are asked for; zero if none is
	report  *exercise.CheckIn // of that day; nil if there is none
	lifts   map[string]string // what to print of a session, by its id; nil for nothing
	profile exercise.Profile
	kit     *exercise.Kit // instead of that of the places; nil if there is none
	on      calendar.Date // that a sheet is about; zero if none is named
	past    *past         // what a log tells; nil without one
	asked   []season.Note // what reading the fixtures left open
}

// loader reads the input and collects everything that is wrong with it.
type loader struct {
	*program
	opt      *options
	problems []calendar.Problem
	asked    []season.Note // of the fixtures
}

func (l *loader) add(p ...calendar.Problem) { l.problems = append(l.problems, p...) }

// load reads what the flags name. If a problem forbids planning there is no
// input.
func (p *program) load(opt *options) (*input, []calendar.Problem) {
	l := &loader{program: p, opt: opt}
	in := &input{demo: opt.demo()}
	set := l.settings()
	in.why, in.card, in.on = set.why, set.card, set.on
	switch {
	case in.demo:
		in.request = demo()
	case opt.request != "":
		in.file = opt.request
		in.request = l.request()
	default:
		in.request, in.period = l.assemble(set)
	}
	l.day(in)
	issued := l.issued()
	if in.request == nil && !failed(l.problems) {
		l.add(wrong("request", "", "", "no request could be made of the input", "check the files"))
	}
	if failed(l.problems) {
		return nil, l.problems
	}
	r := in.request
	r.Issued = append(r.Issued, issued...)
	if opt.request != "" || in.demo {
		set.apply(r)
	}
	found := r.Validate()
	var rules []calendar.Problem
	in.rules, rules = rule.New(r.Rules)
	for _, asked := range []struct {
		flag string
		date calendar.Date
	}{{"-why", in.why}, {"-card", in.card}, {"-on", in.on}} {
		if !asked.date.IsZero() && !r.Period.Contains(asked.date) {
			l.add(wrong("date", asked.flag, asked.date.String(), fmt.Sprintf("it is no date of the period %s to %s", r.Period.From, r.Period.To), "ask about a date of the plan"))
		}
	}
	for _, x := range in.places(append(found, rules...), r.Events) {
		if failed([]calendar.Problem{x}) {
			l.add(x)
		}
	}
	if failed(l.problems) {
		return nil, l.problems
	}
	in.place()
	in.asked = l.asked
	return in, l.problems
}

// askedText is a question without the word for it.
func askedText(p calendar.Problem) string { return strings.Replace(p.Error(), ": question: ", ": ", 1) }

// leftOpen are the questions of reading, for whoever sees the plan and not how it
// was made. They are few: the others stand on standard error.
func leftOpen(problems []calendar.Problem) (out []season.Note) {
	const most = 5
	n := 0
	for _, p := range problems {
		if p.Class != calendar.ClassQuestion {
			continue
		}
		if n++; n <= most {
			out = append(out, season.NewNote("question-input", season.Subject{}, "", season.Values{"text": season.Str(askedText(p)), "code": season.Str(p.Code)}))
		}
	}
	if n > most {
		text := say.Count(n-most, "more question") + " of the files that were read"
		out = append(out, season.NewNote("question-input", season.Subject{}, "", season.Values{"text": season.Str(text), "code": season.Str("more")}))
	}
	return out
}

// settings are the flags that stand for fields of a request.
type settings struct {
	from, to calendar.Date
	why      calendar.Date
	card     calendar.Date
	on       calendar.Date
	now      time.Time
	zone     calendar.Zone
}

func (s settings) apply(r *season.Request) {
	if !s.from.IsZero() {
		r.Period.From = s.from
	}
	if !s.to.IsZero() {
		r.Period.To = s.to
	}
	if !s.now.IsZero() {
		r.Now = s.now
	}
}

func (l *loader) settings() (s settings) {
	date := func(flag, text string) (d calendar.Date) {
		if text != "" {
			var err error
			d, err = calendar.ParseDate(text)
			l.value("date", flag, err)
		}
		return d
	}
	s.from, s.to, s.why = date("-from", l.opt.from), date("-to", l.opt.to), date("-why", l.opt.why)
	s.card, s.on = date("-card", l.opt.card), date("-on", l.opt.on)
	if t := l.opt.now; t != "" {
		at, err := time.Parse(time.RFC3339, t)
		if err != nil || at.Year() <= calendar.FirstYear || at.Year() >= calendar.LastYear {
			l.add(wrong("instant", "-now", t, "this is not an instant of the years 1901 to 2198", "write date, time and offset, such as 2026-11-03T10:00:00+01:00"))
		}
		s.now = at.UTC()
	}
	if l.opt.zone != "" {
		var err error
		s.zone, err = calendar.LoadZone(l.opt.zone)
		l.value("zone", "-zone", err)
	}
	return s
}

// value reports the error of a parser.
func (l *loader) value(code, path string, err error) {
	var v *calendar.ValueError
	switch {
	case errors.As(err, &v):
		l.add(v.Problem(code, path, ""))
	case err != nil:
		l.add(wrong(code, path, "", err.Error(), "check the value"))
	}
}

// with opens a file and hands it on; closing it is the loader's.
func (l *loader) with(name string, read func(r io.Reader)) {
	if name == "-" {
		read(l.stdin)
		return
	}
	f, err := l.open(name)
	if err != nil {
		l.add(unreadable(name, err))
		return
	}
	defer f.Close()
	read(f)
}

// bytes returns the whole of a file that may not be longer than the limit.
func (l *loader) bytes(name string, limit int64) (text []byte, ok bool) {
	l.with(name, func(r io.Reader) {
		b, err := io.ReadAll(io.LimitReader(r, limit+1))
		switch {
		case err != nil:
			l.add(unreadable(shown(name), err))
		case int64(len(b)) > limit:
			l.add(wrong("limit", shown(name), "", "the file is longer than "+strconv.FormatInt(limit, 10)+" bytes", "leave out what is not needed"))
		default:
			text, ok = bytes.TrimPrefix(b, []byte("\xEF\xBB\xBF")), true
		}
	})
	return text, ok
}

// shown is the name of a file in messages.
func shown(name string) string {
	if name == "-" {
		return "standard input"
	}
	return name
}

// named puts the name of a file in front of the places of problems.
func named(file string, problems []calendar.Problem) []calendar.Problem {
	out := slices.Clone(problems)
	for i := range out {
		out[i].Path = strings.TrimSpace(shown(file) + " " + out[i].Path)
	}
	return out
}

// request reads a whole request.
func (l *loader) request() *season.Request {
	text, ok := l.bytes(l.opt.request, season.MaxBytes)
	if !ok {
		return nil
	}
	req, notes, err := season.RequestReader{Strict: l.opt.strict}.Read(bytes.NewReader(text))
	var bad *season.InputError
	switch {
	case errors.As(err, &bad):
		l.add(named(l.opt.request, bad.Problems)...)
		l.overrides(l.opt.request, text, bad.Problems)
		return nil
	case err != nil:
		l.add(wrong("request", shown(l.opt.request), "", err.Error(), "check the file"))
		return nil
	}
	l.add(named(l.opt.request, notes)...)
	return req
}

// overrides checks the rules of a text that could not be read for other reasons,
// so that their problems need no second try.
func (l *loader) overrides(file string, text []byte, known []calendar.Problem) {
	var has struct{ Rules []season.Override }
	if json.Unmarshal(text, &has) != nil {
		return
	}
	reported := map[string]bool{}
	for _, p := range known {
		reported[p.Path] = true
	}
	_, problems := rule.New(has.Rules)
	for _, p := range problems {
		if !reported[p.Path] {
			l.add(named(file, []calendar.Problem{p})...)
		}
	}
}

// issued reads the plans that were handed out.
func (l *loader) issued() (out []season.Plan) {
	for _, name := range l.opt.issued {
		l.with(name, func(r io.Reader) {
			p, err := season.ReadPlan(r)
			var bad *season.InputError
			switch {
			case errors.As(err, &bad):
				l.add(named(name, bad.Problems)...)
			case err != nil:
				l.add(wrong("plan", shown(name), "", err.Error(), "check the file"))
			default:
				out = append(out, *p)
			}
		})
	}
	return out
}

// places turns the pointers of problems into what a person can find: the file of
// the request, or the table and the id of an event.
func (in *input) places(problems []calendar.Problem, events []calendar.Event) []calendar.Problem {
	if in.file != "" {
		return named(in.file, problems)
	}
	out := slices.Clone(problems)
	for i := range out {
		if out[i].Path == "/events" && len(events) > 0 && events[0].Source != "" {
			out[i].Path = events[0].Source + " and on"
			continue
		}
		rest, ok := strings.CutPrefix(out[i].Path, "/events/")
		index, field, _ := strings.Cut(rest, "/")
		n, err := strconv.Atoi(index)
		if !ok || err != nil || n < 0 || n >= len(events) {
			continue
		}
		e := events[n]
		out[i].Path = strings.TrimPrefix(e.Source+", event "+e.ID+" of "+e.Start.Date.String(), ", ")
		out[i].Field = field
	}
	return out
}

// place puts the events on the time line, each id once.
func (in *input) place() {
	r := in.request.Canonical()
	a := calendar.Assumptions{GameMinutes: in.rules.Value("game-minutes")}
	for _, e := range r.Events {
		if e.Zone.IsZero() {
			e.Zone = r.Athlete.Zone
		}
		// What cannot be placed has been refused with the request.
		if p, err := calendar.Place(e, a); err == nil {
			in.placed = append(in.placed, p)
		}
	}
	slices.SortStableFunc(in.placed, calendar.ComparePlaced)
}

// assemble makes a request of fixtures, an athlete and the flags.
func (l *loader) assemble(set settings) (*season.Request, string) {
	athlete := l.athleteText()
	zone := set.zone
	if zone.IsZero() {
		zone = athlete.zone
	}
	events := l.fixtures(set, zone)
	if zone.IsZero() {
		for _, e := range events { // in order of start
			zone = e.Zone
			break
		}
	}
	period, how := l.dates(set, events, athlete.weekStart)
	req := l.readAthlete(athlete, period, set.now, zone)
	if req == nil {
		return nil, how
	}
	req.Events = events
	return req, how
}

// dates settles the period: as asked, else the weeks that hold the games.
func (l *loader) dates(set settings, events []calendar.Event, weekStart time.Weekday) (season.Period, string) {
	p := season.Period{From: set.from, To: set.to}
	if !p.From.IsZero() && !p.To.IsZero() {
		switch {
		case p.To.Before(p.From):
			l.add(wrong("period", "-to", p.To.String(), "it lies before -from, "+p.From.String(), "give a last date on or after the first"))
		case p.Days() > season.MaxPeriodDays:
			l.add(wrong("period", "-to", p.To.String(), fmt.Sprintf("the period has %d dates, the limit is %d", p.Days(), season.MaxPeriodDays), "plan a shorter period"))
		default:
			return p, ""
		}
		return season.Period{}, ""
	}
	if failed(l.problems) {
		return season.Period{}, "" // the games are not all known
	}
	first, last := calendar.GameDates(events)
	if first.IsZero() {
		l.add(wrong("period", "-from", "", "there are no games to find the period by", "give -from and -to"))
		return season.Period{}, ""
	}
	var how []string
	if p.From.IsZero() {
		p.From = calendar.WeekStart(first, weekStart)
		how = append(how, "from the week of the first game")
	}
	if p.To.IsZero() {
		p.To = calendar.WeekStart(last, weekStart).AddDays(6) // aims bind in whole weeks
		how = append(how, "to the week of the last game")
	}
	switch {
	case p.To.Before(p.From):
		l.add(wrong("period", "-from", p.From.String(), "no game is known from this date on, the last is on "+last.String(), "give -to as well"))
		return season.Period{}, ""
	case p.Days() > season.MaxPeriodDays && set.from.IsZero() && set.to.IsZero():
		all := p
		p.From = calendar.WeekStart(lastSeason(events, last, p.To.AddDays(7-season.MaxPeriodDays)), weekStart)
		how[0] = "from the week of the first game of the last season in the calendar"
		l.add(calendar.Problem{Code: "period", Class: calendar.ClassQuestion, Path: "-from", Value: p.From.String(),
			Reason: fmt.Sprintf("the games from %s to %s lie on %d dates, the limit is %d: only the last season is planned, from this date on", all.From, all.To, all.Days(), season.MaxPeriodDays),
			Remedy: "give -from and -to"})
	case p.Days() > season.MaxPeriodDays:
		l.add(wrong("period", "-to", p.To.String(), fmt.Sprintf("the games from %s on lie on %d dates, the limit is %d", p.From, p.Days(), season.MaxPeriodDays), "give -from and -to"))
		return season.Period{}, ""
	}
	return p, strings.Join(how, " ")
}

// offSeason is the gap between games, in dates, that parts one season from the
// next: common practice, no source.
const offSeason = 56

// lastSeason is the date of the first game since the last gap as long as an
// off-season, but none before a date.
func lastSeason(events []calendar.Event, last, earliest calendar.Date) calendar.Date {
	var dates []calendar.Date
	for _, e := range events {
		if e.Kind == calendar.Game && e.Active() {
			dates = append(dates, e.Start.Date)
		}
	}
	slices.SortFunc(dates, calendar.Date.Compare)
	first := last
	for _, d := range slices.Backward(dates) {
		if d.Before(earliest) || first.DaysSince(d) > offSeason {
			break
		}
		first = d
	}
	return first
}

// mergeAll makes one calendar of several lists.
func (l *loader) mergeAll(lists [][]calendar.Event) []calendar.Event {
	events, problems := fixture.Merge(calendar.Assumptions{}, lists...)
	l.add(problems...)
	return events
}
