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
)

// fixtures reads tables and calendars and makes one calendar of them.
func (l *loader) fixtures(set settings, zone calendar.Zone) []calendar.Event {
	var lists [][]calendar.Event
	for _, name := range l.opt.fixtures {
		l.with(name, func(r io.Reader) {
			b := bufio.NewReader(r)
			var events []calendar.Event
			var problems []calendar.Problem
			var err error
			if isCalendar(name, b) {
				var res icalendar.Result
				var by titled
				res, problems, err = icalendar.Read(b, shown(name), icalendar.Options{DefaultZone: zone, From: set.from, To: set.to, Team: l.opt.team, Classify: by.classify})
				events = res.Events
				if by.n > 0 {
					problems = append(problems, calendar.Problem{Code: "kind-by-title", Class: calendar.ClassWarning, Path: shown(name),
						Reason: count(by.n, "event") + " without a category taken for what the title says, such as practice",
						Remedy: "give them CATEGORIES, such as practice, if they are something else"})
				}
				for i := range problems {
					if problems[i].Code == icalendar.CodeRuleEndless {
						problems[i].Remedy = "give -from and -to"
					}
				}
			} else {
				events, problems, err = fixture.Read(b, shown(name), fixture.Options{Team: l.opt.team, DefaultZone: zone})
			}
			if err != nil {
				l.add(unreadable(shown(name), err))
				return
			}
			for i := range problems {
				problems[i].Remedy = inFlags.Replace(problems[i].Remedy)
			}
			l.add(problems...)
			lists = append(lists, events)
		})
	}
	if failed(l.problems) {
		return nil
	}
	return l.mergeAll(lists)
}

// inFlags says in flags what the library says in its own options.
var inFlags = strings.NewReplacer(
	"Options.Team", "-team",
	"say so in Options.Columns or rename it", "rename it",
	"give a default zone", "give -zone",
)

// isCalendar tells a calendar from a table: by its name, else by how it begins.
func isCalendar(name string, r *bufio.Reader) bool {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".ics", ".ical", ".ifb", ".icalendar":
		return true
	case ".csv", ".tsv", ".txt":
		return false
	}
	head, _ := r.Peek(64)
	head = bytes.TrimLeft(bytes.TrimPrefix(head, []byte("\xEF\xBB\xBF")), " \t\r\n")
	const begin = "BEGIN:VCALENDAR"
	return len(head) >= len(begin) && strings.EqualFold(string(head[:len(begin)]), begin)
}
