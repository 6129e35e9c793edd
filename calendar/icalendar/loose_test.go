package icalendar

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
)

// Forms of a time that are found beside that of the standard. Days that do not
// exist are read as ical.js 2.2.1 and node-ical 0.20.1 read them.
func TestLooseTimes(t *testing.T) {
	for _, tt := range []struct{ value, want string }{
		{":2026-11-08T14:00:00", "2026-11-08T14:00"},
		{":2026-11-08 14:00", "2026-11-08T14:00"},
		{":2026-11-08T13:00:00Z", "2026-11-08T14:00"},
		{":2026-11-08T14:00:00.000+01:00", "2026-11-08T14:00"},
		{":20261108T1400", "2026-11-08T14:00"},
		{":20261108T140000-0500", "2026-11-08T20:00"},
		{":20261108T130000.000Z", "2026-11-08T14:00"},
		{":20261108140000", "2026-11-08T14:00"},
		{":202611081300Z", "2026-11-08T14:00"},
		{":20261108T", "2026-11-08"},
		{":20261108Z", "2026-11-08"},
		{":2026-11-08", "2026-11-08"},
		{";VALUE=DATE:20261108T140000", "2026-11-08T14:00"},
		{";VALUE=DATE:20261108T000000", "2026-11-08"},
		{":20260229T140000", "2026-03-01T14:00"},
		{":20260231", "2026-03-03"},
		{":20261131T140000", "2026-12-01T14:00"},
		{":20261331T140000", ""},
		{":20261100T140000", ""},
		{":20261132T140000", ""},
		{":00001108T140000", ""},
		{":20261108T250000", ""},
		{":20261108T14000", ""},
		{":2026110814", ""},
		{":20261108T140000Europe", ""},
		{":8.11.2026", ""},
		{":", ""},
	} {
		res, ps := read(t, ics(event("UID:g1", "DTSTART"+tt.value), event("UID:g2", "DTSTART:20270108T140000")), Options{DefaultZone: zone(t, "Europe/Berlin")})
		got := ""
		if len(res.Events) == 2 {
			e := res.Events[0]
			if got = e.Start.String(); e.DateOnly {
				got = e.Start.Date.String()
			}
		}
		if got != tt.want || len(ps) != 1 || ps[0].Class != calendar.ClassQuestion || ps[0].Path != "t.ics:6" {
			t.Errorf("%s: got %q, want %q, %v", tt.value, got, tt.want, ps)
		}
	}
}

// What stands inside what: each event keeps its own lines.
func TestNesting(t *testing.T) {
	one := event("UID:a", "DTSTART:20261108T140000", "SUMMARY:A")
	open := strings.TrimSuffix(one, "\r\nEND:VEVENT")
	two := event("UID:b", "DTSTART:20261109T140000", "SUMMARY:B")
	for _, tt := range []struct {
		name, text string
		want       string
		problems   []string
	}{
		{"an event in an event", ics(open, two, "LOCATION:of A", "END:VEVENT"), "A of A,B", []string{"warning structure 8"}},
		{"an end is missing", ics(open, two), "A,B", []string{"warning structure 8", "question structure 13"}},
		{"an event in an alarm", ics(open, "BEGIN:VALARM", two, "LOCATION:of the alarm", "END:VALARM", "LOCATION:of A", "END:VEVENT"), "A of A,B", []string{"warning structure 9"}},
		{"an end too many", ics(one, "END:VEVENT", two), "A,B", []string{"warning structure 9"}},
		{"a name misspelt at the end", ics(open, "END:VEVNT", two), "A,B", []string{"warning structure 8"}},
		{"a name misspelt at the begin", "BEGIN:VCALNDAR\r\n" + one + "\r\nEND:VCALENDAR\r\n" + ics(two), "A,B", []string{"warning structure 1", "warning structure 2", "warning structure 2", "warning structure 7"}},
		{"in no calendar, between two", one + "\r\n" + ics(two) + event("UID:c", "DTSTART:20261110T140000", "SUMMARY:C"), "A,B,C", []string{"warning structure 1"}},
		{"a calendar in a calendar", "BEGIN:VCALENDAR\r\nX-WR-TIMEZONE:Europe/Paris\r\n" + ics(two) + one + "\r\nEND:VCALENDAR\r\n", "A,B", []string{"warning structure 3"}},
		{"a task in no calendar", ics(one) + "BEGIN:VTODO\r\nEND:VTODO\r\n", "A", []string{"warning structure 10"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			res, ps := read(t, tt.text, Options{DefaultZone: zone(t, "Europe/Berlin")})
			var got []string
			for _, e := range res.Events {
				s := e.Title
				for _, p := range e.Unknown {
					s += " " + p.Value
				}
				got = append(got, s)
			}
			if s := strings.Join(got, ","); s != tt.want {
				t.Errorf("got %s, want %s", s, tt.want)
			}
			if d := cmp.Diff(tt.problems, brief(ps)); d != "" {
				t.Errorf("problems (-want +got):\n%s%v", d, ps)
			}
		})
	}
}

// IDs stay within the length that requests allow, and stay different.
func TestLongID(t *testing.T) {
	long := strings.Repeat("é", 150)
	text := ics(event("UID:"+long+"1", "DTSTART:20261108T140000", "RRULE:FREQ=DAILY;COUNT=3"), event("UID:"+long+"2", "DTSTART:20261108T140000"), event("UID:"+strings.Repeat("x", maxID), "DTSTART:20261108T140000"))
	res, ps := read(t, text, Options{DefaultZone: zone(t, "Europe/Berlin")})
	ids := map[string]bool{}
	for _, e := range res.Events {
		if len(e.ID) > maxID || ids[e.ID] {
			t.Errorf("%d bytes: %s", len(e.ID), e.ID)
		}
		ids[e.ID] = true
	}
	if d := cmp.Diff([]string{"warning limit 4", "warning limit 9"}, brief(ps)); d != "" || len(ids) != 5 {
		t.Errorf("%d ids, problems (-want +got):\n%s", len(ids), d)
	}
}
