package icalendar

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
)

// A weekly practice in Halifax, whose clocks go back on 2026-11-01. Expected by
// hand from sections 3.2.13 and 3.8.4.4; package icalcheck compares such series
// with ical.js.
func TestFuture(t *testing.T) {
	series := func(more ...string) string {
		return event(append([]string{"UID:p", "SUMMARY:old", "DTSTART;TZID=America/Halifax:20261020T180000", "DTEND;TZID=America/Halifax:20261020T193000", "RRULE:FREQ=WEEKLY;COUNT=5"}, more...)...)
	}
	change := func(named, start string, more ...string) string {
		return event(append([]string{"UID:p", "SUMMARY:new", "RECURRENCE-ID;RANGE=THISANDFUTURE" + named, "DTSTART" + start}, more...)...)
	}
	const halifax = ";TZID=America/Halifax:"
	tests := []struct {
		name, text string
		opt        Options
		want       []string
	}{
		{"an hour later and longer, through a clock change", ics(series(), change(halifax+"20261027T180000", halifax+"20261027T190000", "DURATION:PT2H")), Options{}, []string{
			"#2026-10-20T18:00 old 2026-10-20T18:00-19:30", "#2026-10-27T18:00 new 2026-10-27T19:00-21:00", "#2026-11-03T18:00 new 2026-11-03T19:00-21:00", "#2026-11-10T18:00 new 2026-11-10T19:00-21:00", "#2026-11-17T18:00 new 2026-11-17T19:00-21:00"}},
		{"another day, named in UTC, before its series", ics(change(":20261103T220000Z", halifax+"20261105T170000"), series()), Options{DefaultZone: zone(t, "America/Halifax")}, []string{
			"#2026-10-20T18:00 old 2026-10-20T18:00-19:30", "#2026-10-27T18:00 old 2026-10-27T18:00-19:30", "#2026-11-03T18:00 new 2026-11-05T17:00", "#2026-11-10T18:00 new 2026-11-12T17:00", "#2026-11-17T18:00 new 2026-11-19T17:00"}},
		{"a change of its own and an EXDATE come first", ics(series("EXDATE;TZID=America/Halifax:20261110T180000"), change(halifax+"20261027T180000", halifax+"20261027T190000"),
			event("UID:p", "SUMMARY:one", "RECURRENCE-ID;TZID=America/Halifax:20261103T180000", "DTSTART;TZID=America/Halifax:20261103T080000")), Options{}, []string{
			"#2026-10-20T18:00 old 2026-10-20T18:00-19:30", "#2026-10-27T18:00 new 2026-10-27T19:00", "#2026-11-03T18:00 one 2026-11-03T08:00", "#2026-11-17T18:00 new 2026-11-17T19:00"}},
		{"the later of two", ics(series(), change(halifax+"20261110T180000", halifax+"20261110T180000", "STATUS:CANCELLED"), change(halifax+"20261027T180000", halifax+"20261026T180000")), Options{}, []string{
			"#2026-10-20T18:00 old 2026-10-20T18:00-19:30", "#2026-10-27T18:00 new 2026-10-26T18:00", "#2026-11-03T18:00 new 2026-11-02T18:00", "#2026-11-10T18:00 new 2026-11-10T18:00 cancelled", "#2026-11-17T18:00 new 2026-11-17T18:00 cancelled"}},
		{"moved into the span", ics(series(), change(halifax+"20261027T180000", halifax+"20261030T190000")), Options{From: date(t, "2026-11-20"), To: date(t, "2026-11-30")}, []string{
			"#2026-11-17T18:00 new 2026-11-20T19:00"}},
		{"to another zone, where it stays at 12:00", ics(series(), change(halifax+"20261027T180000", ";TZID=Europe/Paris:20261028T120000")), Options{}, []string{
			"#2026-10-20T18:00 old 2026-10-20T18:00-19:30", "#2026-10-27T18:00 new 2026-10-28T12:00", "#2026-11-03T18:00 new 2026-11-04T12:00", "#2026-11-10T18:00 new 2026-11-11T12:00", "#2026-11-17T18:00 new 2026-11-18T12:00"}},
		{"to whole dates", ics(series(), change(halifax+"20261110T180000", ";VALUE=DATE:20261111")), Options{DefaultZone: zone(t, "America/Halifax")}, []string{
			"#2026-10-20T18:00 old 2026-10-20T18:00-19:30", "#2026-10-27T18:00 old 2026-10-27T18:00-19:30", "#2026-11-03T18:00 old 2026-11-03T18:00-19:30", "#2026-11-10T18:00 new 2026-11-11", "#2026-11-17T18:00 new 2026-11-18"}},
		{"named by its date", ics(series(), change(";VALUE=DATE:20261110", halifax+"20261110T190000")), Options{}, []string{
			"#2026-10-20T18:00 old 2026-10-20T18:00-19:30", "#2026-10-27T18:00 old 2026-10-27T18:00-19:30", "#2026-11-03T18:00 old 2026-11-03T18:00-19:30", "#2026-11-10T18:00 new 2026-11-10T19:00", "#2026-11-17T18:00 new 2026-11-17T19:00"}},
		{"of whole dates", ics(event("UID:p", "SUMMARY:old", "DTSTART;VALUE=DATE:20261020", "RRULE:FREQ=DAILY;COUNT=3"), change(";VALUE=DATE:20261021", ";VALUE=DATE:20261023")), Options{DefaultZone: zone(t, "America/Halifax")}, []string{
			"#2026-10-20 old 2026-10-20", "#2026-10-21 new 2026-10-23", "#2026-10-22 new 2026-10-24"}},
		{"of a series in UTC", ics(event("UID:p", "SUMMARY:old", "DTSTART:20261027T210000Z", "RRULE:FREQ=WEEKLY;COUNT=3"), change(":20261027T210000Z", ":20261027T220000Z")), Options{DefaultZone: zone(t, "America/Halifax")}, []string{
			"#2026-10-27T21:00Z new 2026-10-27T19:00", "#2026-11-03T21:00Z new 2026-11-03T18:00", "#2026-11-10T21:00Z new 2026-11-10T18:00"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			res, ps := read(t, tt.text, tt.opt)
			var got []string
			for _, e := range res.Events {
				s := e.ID[1:] + " " + e.Title + " " + e.Start.String()
				if e.DateOnly {
					s = e.ID[1:] + " " + e.Title + " " + e.Start.Date.String()
				}
				if e.HasEnd {
					s += "-" + e.End.Clock.String()
				}
				if e.Status == calendar.Cancelled {
					s += " cancelled"
				}
				got = append(got, s)
			}
			if d := cmp.Diff(sortedStrings(tt.want), sortedStrings(got)); d != "" || len(ps) > 0 {
				t.Errorf("(-want +got):\n%s %v", d, ps)
			}
		})
	}
}
