package bridge

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"path"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/calendar/fixture"
	"example.org/weft/calendar/icalendar"
	invented "example.org/weft/internal/demo"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

func (d *Desk) demo(ctx context.Context, stage Stage) (any, error) {
	return d.begin(ctx, invented.Season(), true, nil, stage)
}

// restoreArgs bring back a request as [Desk.save] wrote it.
type restoreArgs struct {
	Request  string    `json:"request"`
	Invented bool      `json:"invented"`
	Days     []DayMark `json:"days"`
}

func (d *Desk) restore(ctx context.Context, a restoreArgs, stage Stage) (any, error) {
	req, err := season.ReadRequest(strings.NewReader(a.Request))
	if err != nil {
		return nil, err
	}
	return d.begin(ctx, req, a.Invented, a.Days, stage)
}

// openArgs are files that were opened, dropped or pasted.
type openArgs struct {
	Files []file `json:"files"`
	Team  string `json:"team"`  // of a league's table
	Zone  string `json:"zone"`  // of rows that name none; "": the athlete's
	Fresh bool   `json:"fresh"` // forget the request on the desk
}

type file struct {
	Name string `json:"name"`
	Text string `json:"text"`
}

// open reads a whole request, or fixtures to be added to the one on the desk.
func (d *Desk) open(ctx context.Context, a openArgs, stage Stage) (any, error) {
	stage("reading", 0, 0)
	if len(a.Files) == 0 {
		return nil, wrong("", "", "there is no file", "choose one, or paste its text")
	}
	for _, f := range a.Files {
		if !isJSON(f.Text) {
			continue
		}
		if len(a.Files) > 1 {
			return nil, wrong(f.Name, "", "a saved request comes alone", "open it by itself, and then the fixtures")
		}
		req, notes, err := season.RequestReader{}.Read(strings.NewReader(f.Text))
		if err != nil {
			return nil, inFile(f.Name, err)
		}
		d.notes = notes
		return d.begin(ctx, req, false, nil, stage)
	}
	return d.fixtures(ctx, a, stage)
}

func isJSON(text string) bool {
	return strings.HasPrefix(strings.TrimLeft(strings.TrimPrefix(text, "\uFEFF"), " \t\r\n"), "{")
}

// inFile puts the name of a file before the paths of problems.
func inFile(name string, err error) error {
	var bad *season.InputError
	if !errors.As(err, &bad) {
		return err
	}
	out := make([]calendar.Problem, len(bad.Problems))
	for i, p := range bad.Problems {
		p.Path = strings.TrimSpace(name + " " + p.Path)
		out[i] = p
	}
	return &season.InputError{Problems: out}
}

// fixtures reads tables and calendars and puts their events into the request on
// the desk, or into a new one.
func (d *Desk) fixtures(ctx context.Context, a openArgs, stage Stage) (any, error) {
	var lists [][]calendar.Event
	var problems []calendar.Problem
	base := d.req
	if a.Fresh || d.invented {
		base = nil // nobody's own season begins with the invented one
	}
	zone, err := zoneFor(a.Zone, base)
	if err != nil {
		return nil, err
	}
	var from, to calendar.Date
	if base != nil {
		from, to = base.Period.From, base.Period.To
		lists = append(lists, base.Events)
	}
	for _, f := range a.Files {
		events, found := read(f, a.Team, zone, from, to)
		problems = append(problems, found...)
		lists = append(lists, events)
	}
	if failed(problems) {
		return nil, &season.InputError{Problems: problems}
	}
	events, found := fixture.Merge(calendar.Assumptions{}, lists...)
	problems = append(problems, found...)
	if failed(problems) {
		return nil, &season.InputError{Problems: problems}
	}
	var req *season.Request
	days := d.days
	if base == nil {
		days = nil
		if req, err = fresh(events, zone); err != nil {
			return nil, err
		}
	} else {
		next := *base
		next.Events = events
		req = &next
	}
	d.notes = problems
	return d.begin(ctx, req, false, days, stage)
}

// zoneFor is the zone of rows that name none: as asked, else the athlete's.
func zoneFor(name string, base *season.Request) (calendar.Zone, error) {
	switch {
	case name != "":
		z, err := calendar.LoadZone(name)
		if err != nil {
			return z, valueError("zone", err)
		}
		return z, nil
	case base != nil:
		return base.Athlete.Zone, nil
	}
	return calendar.Zone{}, nil
}

func valueError(where string, err error) error {
	var v *calendar.ValueError
	if errors.As(err, &v) {
		return &season.InputError{Problems: []calendar.Problem{v.Problem("page", where, "")}}
	}
	return wrong(where, "", err.Error(), "write it another way")
}

// read reads one table or calendar.
func read(f file, team string, zone calendar.Zone, from, to calendar.Date) ([]calendar.Event, []calendar.Problem) {
	name := f.Name
	if name == "" {
		name = "pasted text"
	}
	var events []calendar.Event
	var problems []calendar.Problem
	var err error
	if isCalendar(f) {
		var res icalendar.Result
		res, problems, err = icalendar.Read(strings.NewReader(f.Text), name, icalendar.Options{DefaultZone: zone, From: from, To: to, Team: team, NoReminders: true})
		events = res.Events
		for i := range problems {
			if problems[i].Code == icalendar.CodeRuleEndless {
				problems[i].Remedy = "set the first and the last date of the plan first"
			}
		}
	} else {
		events, problems, err = fixture.Read(strings.NewReader(f.Text), name, fixture.Options{Team: team, DefaultZone: zone})
	}
	if err != nil {
		problems = append(problems, calendar.Problem{Code: "file", Class: calendar.ClassError, Path: name, Reason: err.Error(), Remedy: "give another file"})
	}
	for i := range problems {
		problems[i].Remedy = onPage.Replace(problems[i].Remedy)
	}
	return events, problems
}

// onPage says in words of the page what the library says in its own options.
var onPage = strings.NewReplacer(
	"Options.Team", "the field Team",
	"say so in Options.Columns or rename it", "rename it",
	"name another one in Options.Columns if it is something else", "rename it if it is something else",
	"say in Options.Columns which one it is", "rename one of them",
	"; or say in Options.Dates whether day or month comes first", "",
	"give a default zone", "fill in Time zone beside the file",
)

// isCalendar tells a calendar from a table: by its name, else by how it begins.
func isCalendar(f file) bool {
	switch strings.ToLower(path.Ext(f.Name)) {
	case ".ics", ".ical", ".ifb", ".icalendar":
		return true
	case ".csv", ".tsv":
		return false
	}
	const begin = "BEGIN:VCALENDAR"
	head := strings.TrimLeft(strings.TrimPrefix(f.Text, "\uFEFF"), " \t\r\n")
	return len(head) >= len(begin) && strings.EqualFold(head[:len(begin)], begin)
}

func failed(problems []calendar.Problem) bool {
	for _, p := range problems {
		if p.Class == calendar.ClassError || p.Class == calendar.ClassRefusal {
			return true
		}
	}
	return false
}

// fresh is a request around some events, for an athlete of whom nothing is known
// yet: whole weeks from the first game to the last, because weekly aims bind only
// there.
func fresh(events []calendar.Event, zone calendar.Zone) (*season.Request, error) {
	first, last := calendar.GameDates(events)
	for _, e := range events {
		if zone.IsZero() && e.Kind == calendar.Game && e.Active() {
			zone = e.Zone
		}
	}
	if first.IsZero() {
		return nil, wrong("period", "", "there are no games in it to find the dates of the season by", "open the games first")
	}
	start := time.Weekday(rule.Default().Value("week-start"))
	p := season.Period{From: calendar.WeekStart(first, start), To: calendar.WeekStart(last, start).AddDays(6)}
	if p.Days() > season.MaxPeriodDays {
		return nil, wrong("period", "", fmt.Sprintf("the games lie on %d dates, the limit is %d", p.Days(), season.MaxPeriodDays), "leave out games of other seasons")
	}
	return &season.Request{Schema: season.Schema, Period: p, Events: events,
		Athlete: season.Athlete{ID: "athlete", Zone: zone, TrainingAgeMonths: -1}}, nil
}

// Saved is a text to be written to a file. What became of sessions on their day
// is beside it and in no file.
type Saved struct {
	Name string    `json:"name"`
	Text string    `json:"text"`
	Days []DayMark `json:"days,omitempty"`
}

// save writes the request as a file.
func (d *Desk) save() (any, error) {
	b, err := d.req.MarshalJSON()
	if err != nil {
		return nil, err
	}
	return Saved{Name: "request.json", Text: string(b) + "\n", Days: d.days}, nil
}

// planText writes the plan as the programs do: the same bytes.
func (d *Desk) planText(ctx context.Context, stage Stage) (any, error) {
	x, err := d.explore(ctx, stage)
	if err != nil {
		return nil, err
	}
	b, err := x.Plan().MarshalJSON()
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, b, "", "  "); err != nil {
		return nil, err
	}
	out.WriteByte('\n')
	return Saved{Name: "plan.json", Text: out.String()}, nil
}
