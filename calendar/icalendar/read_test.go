package icalendar

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
)

// ics wraps event lines in a calendar.
func ics(lines ...string) string {
	all := append([]string{"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//invented//test//EN"}, lines...)
	return strings.Join(append(all, "END:VCALENDAR", ""), "\r\n")
}

func event(lines ...string) string {
	return strings.Join(append(append([]string{"BEGIN:VEVENT"}, lines...), "END:VEVENT"), "\r\n")
}

func zone(t testing.TB, name string) calendar.Zone {
	t.Helper()
	z, err := calendar.LoadZone(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func date(t testing.TB, s string) calendar.Date {
	t.Helper()
	d, err := calendar.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// show prints an event on one line: id, kind, status, start, end, zones.
func show(e calendar.Event) string {
	s := fmt.Sprintf("%s %s %s ", e.ID, e.Kind, e.Status)
	if e.DateOnly {
		s += e.Start.Date.String()
	} else {
		s += e.Start.String()
	}
	if e.HasEnd {
		if e.DateOnly {
			s += " to " + e.End.Date.String()
		} else {
			s += " to " + e.End.String()
		}
	}
	s += " " + e.Zone.Name()
	if !e.EndZone.IsZero() {
		s += "/" + e.EndZone.Name()
	}
	return s
}

func showAll(es []calendar.Event) []string {
	var out []string
	for _, e := range es {
		out = append(out, show(e))
	}
	return out
}

// brief prints a problem as class, code and line.
func brief(ps []calendar.Problem) []string {
	var out []string
	for _, p := range ps {
		_, line, _ := strings.Cut(p.Path, ":")
		out = append(out, strings.TrimSpace(fmt.Sprintf("%s %s %s", p.Class, p.Code, line)))
	}
	return out
}

func read(t testing.TB, text string, opt Options) (Result, []calendar.Problem) {
	t.Helper()
	res, ps, err := Read(strings.NewReader(text), "t.ics", opt)
	if err != nil {
		t.Fatal(err)
	}
	return res, ps
}

func TestRead(t *testing.T) {
	halifax := zone(t, "America/Halifax")
	tests := []struct {
		name     string
		text     string
		opt      Options
		want     []string
		problems []string
	}{
		{"zoned", ics(event("UID:g1", "SUMMARY:Home game", "DTSTART;TZID=Europe/Berlin:20261108T140000", "DTEND;TZID=Europe/Berlin:20261108T160000")), Options{},
			[]string{"g1 game confirmed 2026-11-08T14:00 to 2026-11-08T16:00 Europe/Berlin"}, nil},
		{"UTC with a zone", ics(event("UID:g1", "DTSTART:20261108T003000Z", "DURATION:PT2H")), Options{DefaultZone: halifax},
			[]string{"g1 game confirmed 2026-11-07T20:30 to 2026-11-07T22:30 America/Halifax"}, nil},
		{"UTC without a zone", ics(event("UID:g1", "DTSTART:20261108T003000Z")), Options{},
			[]string{"g1 game confirmed 2026-11-08T00:30 UTC"}, []string{"warning zone-assumed 6"}},
		{"second pass of a doubled hour, in UTC", ics(event("UID:g1", "DTSTART:20261101T053000Z")), Options{DefaultZone: halifax},
			[]string{"g1 game confirmed 2026-11-01T05:30 UTC"}, nil},
		{"floating", ics(event("UID:g1", "DTSTART:20261108T140000")), Options{DefaultZone: halifax},
			[]string{"g1 game confirmed 2026-11-08T14:00 America/Halifax"}, nil},
		{"floating, no zone", ics(event("UID:g1", "DTSTART:20261108T140000")), Options{}, nil, []string{"error zone-missing 6"}},
		{"zone of the calendar", ics("X-WR-TIMEZONE:America/Halifax", event("UID:g1", "DTSTART:20261108T140000")), Options{},
			[]string{"g1 game confirmed 2026-11-08T14:00 America/Halifax"}, []string{"warning zone-assumed 4"}},
		{"one date", ics(event("UID:g1", "DTSTART;VALUE=DATE:20261117", "DTEND;VALUE=DATE:20261118")), Options{DefaultZone: halifax},
			[]string{"g1 game confirmed 2026-11-17 America/Halifax"}, nil},
		{"several dates", ics(event("UID:x", "CATEGORIES:Exam", "DTSTART;VALUE=DATE:20261117", "DURATION:P3D")), Options{DefaultZone: halifax},
			[]string{"x exam confirmed 2026-11-17 to 2026-11-20 America/Halifax"}, nil},
		{"to another zone", ics(event("UID:f", "CATEGORIES:TRAVEL", "DTSTART;TZID=Pacific/Auckland:20270220T160000", "DTEND;TZID=Pacific/Honolulu:20270220T060000")), Options{},
			[]string{"f travel confirmed 2027-02-20T16:00 to 2027-02-20T06:00 Pacific/Auckland/Pacific/Honolulu"}, nil},
		{"status", ics(
			event("UID:a", "STATUS:TENTATIVE", "DTSTART;TZID=Europe/Berlin:20261113T140000"),
			event("UID:b", "STATUS:CANCELLED", "DTSTART;TZID=Europe/Berlin:20261114T140000"),
			event("UID:c", "STATUS:PERHAPS", "DTSTART;TZID=Europe/Berlin:20261115T140000")), Options{},
			[]string{"a game provisional 2026-11-13T14:00 Europe/Berlin", "b game cancelled 2026-11-14T14:00 Europe/Berlin", "c game confirmed 2026-11-15T14:00 Europe/Berlin"},
			[]string{"warning value 16"}},
		{"weekly with a changed and a dropped date", ics(
			event("UID:p", "CATEGORIES:practice", "DTSTART;TZID=Europe/Berlin:20261020T180000", "DTEND;TZID=Europe/Berlin:20261020T193000", "RRULE:FREQ=WEEKLY;COUNT=4", "EXDATE;TZID=Europe/Berlin:20261103T180000"),
			event("UID:p", "RECURRENCE-ID;TZID=Europe/Berlin:20261027T180000", "CATEGORIES:practice", "DTSTART;TZID=Europe/Berlin:20261028T170000", "DURATION:PT1H")), Options{},
			[]string{
				"p#2026-10-20T18:00 practice confirmed 2026-10-20T18:00 to 2026-10-20T19:30 Europe/Berlin",
				"p#2026-10-27T18:00 practice confirmed 2026-10-28T17:00 to 2026-10-28T18:00 Europe/Berlin",
				"p#2026-11-10T18:00 practice confirmed 2026-11-10T18:00 to 2026-11-10T19:30 Europe/Berlin",
			}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			res, ps := read(t, tt.text, tt.opt)
			if d := cmp.Diff(tt.want, showAll(res.Events)); d != "" {
				t.Errorf("events (-want +got):\n%s", d)
			}
			if d := cmp.Diff(tt.problems, brief(ps)); d != "" {
				t.Errorf("problems (-want +got):\n%s\n%v", d, ps)
			}
		})
	}
}

func sortedStrings(s []string) []string {
	s = slices.Clone(s)
	slices.Sort(s)
	return s
}
