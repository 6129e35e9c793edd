package main

import (
	"bufio"
	"bytes"
	"io"
	"path/filepath"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/calendar/fixture"
	"example.org/weft/calendar/icalendar"
	"example.org/weft/internal/say"
)

// fixtures reads tables and calendars and makes one calendar of them.
func (l *loader) fixtures(set settings, zone calendar.Zone) []calendar.Event {
	var lists [][]calendar.Event
	before := len(l.problems)
	defer func() { l.asked = leftOpen(l.problems[before:]) }()
	for _, name := range l.opt.fixtures {
		l.with(name, func(r io.Reader) {
			b := bufio.NewReader(r)
			var events []calendar.Event
			var problems []calendar.Problem
			var err error
			if isCalendar(name, b) {
				var res icalendar.Result
				var by titled
				res, problems, err = icalendar.Read(b, shown(name), icalendar.Options{DefaultZone: zone, LastZone: utc(), From: set.from, To: set.to, Team: l.opt.team, Classify: by.classify, NoReminders: true})
				events = res.Events
				if by.n > 0 {
					problems = append(problems, calendar.Problem{Code: "kind-by-title", Class: calendar.ClassWarning, Path: shown(name),
						Reason: say.Count(by.n, "event") + " without a category taken for what the title says, such as practice",
						Remedy: "give them CATEGORIES, such as practice, if they are something else"})
				}
				for i := range problems {
					if problems[i].Code == icalendar.CodeRuleEndless {
						problems[i].Remedy = "give -from and -to"
					}
				}
			} else {
				events, problems, err = fixture.Read(b, shown(name), fixture.Options{Team: l.opt.team, DefaultZone: zone,
					Columns: l.opt.columnNames(), Dates: fixture.DateOrder(l.opt.dates)})
			}
			if err != nil {
				l.add(unreadable(shown(name), err))
				return
			}
			for i := range problems {
				problems[i].Remedy = inFlags.Replace(problems[i].Remedy)
			}
			l.add(problems...)
			lists = append(lists, near(events, set.from, set.to))
		})
	}
	if failed(l.problems) {
		return nil
	}
	return l.mergeAll(lists)
}

// utc is the zone of calendars that name none where no flag and no athlete does:
// clock times are as written, and only the hours over a clock change are not
// known. The question that it raises says so to who reads the plan.
func utc() calendar.Zone {
	z, _ := calendar.LoadZone("UTC") // known without any data
	return z
}

// manyEvents is the size from which a calendar is cut to the asked dates and what
// lies around them.
const (
	manyEvents = 20_000
	farDates   = 70 // more than planning looks at
)

// near leaves out of a long list what lies far from the asked dates, but for the
// last game before them and the first after them.
func near(events []calendar.Event, from, to calendar.Date) []calendar.Event {
	if len(events) < manyEvents || from.IsZero() || to.IsZero() {
		return events
	}
	first, last := from.AddDays(-farDates), to.AddDays(farDates)
	before, after := -1, -1
	var out []calendar.Event
	for i, e := range events {
		end := e.Start.Date
		if e.HasEnd && e.End.Date.After(end) {
			end = e.End.Date
		}
		game := e.Kind == calendar.Game && e.Active()
		switch {
		case end.Before(first):
			if game && (before < 0 || e.Start.Date.After(events[before].Start.Date)) {
				before = i
			}
		case e.Start.Date.After(last):
			if game && (after < 0 || e.Start.Date.Before(events[after].Start.Date)) {
				after = i
			}
		default:
			out = append(out, e)
		}
	}
	for _, i := range []int{before, after} {
		if i >= 0 {
			out = append(out, events[i])
		}
	}
	return out
}

// inFlags says in flags what the library says in its own options.
var inFlags = strings.NewReplacer(
	"Options.Team", "-team",
	"Options.Columns", "-columns",
	"Options.Dates", "-dates",
	"give a default zone", "give -zone",
)

// isCalendar tells a calendar from a table: by its name, else by how it begins.
func isCalendar(name string, r *bufio.Reader) bool {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".ics", ".ical", ".ifb", ".icalendar":
		return true
	case ".csv", ".tsv":
		return false
	}
	head, _ := r.Peek(64)
	head = bytes.TrimLeft(bytes.TrimPrefix(head, []byte("\xEF\xBB\xBF")), " \t\r\n")
	const begin = "BEGIN:VCALENDAR"
	return len(head) >= len(begin) && strings.EqualFold(string(head[:len(begin)]), begin)
}
