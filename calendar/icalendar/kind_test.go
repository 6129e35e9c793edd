package icalendar

import (
	"strings"
	"testing"

	"example.org/weft/calendar"
)

// An event that nothing names a game, and that is longer than any game, is busy
// time: a camp, a holiday, a trip.
func TestLongEventsAreBusy(t *testing.T) {
	const file = "BEGIN:VCALENDAR\nVERSION:2.0\n" +
		"BEGIN:VEVENT\nUID:one\nDTSTART;VALUE=DATE:20261005\nDTEND;VALUE=DATE:20261006\nEND:VEVENT\n" +
		"BEGIN:VEVENT\nUID:two\nDTSTART;VALUE=DATE:20261012\nDTEND;VALUE=DATE:20261014\nEND:VEVENT\n" +
		"BEGIN:VEVENT\nUID:twelve\nDTSTART:20261020T080000\nDURATION:PT12H\nEND:VEVENT\n" +
		"BEGIN:VEVENT\nUID:more\nDTSTART:20261021T080000\nDURATION:PT12H1M\nEND:VEVENT\n" +
		"BEGIN:VEVENT\nUID:said\nDTSTART:20261022T080000\nDURATION:PT13H\nCATEGORIES:travel\nEND:VEVENT\n" +
		"END:VCALENDAR\n"
	z, err := calendar.LoadZone("Europe/Oslo")
	if err != nil {
		t.Fatal(err)
	}
	res, problems, err := Read(strings.NewReader(file), "camp.ics", Options{DefaultZone: z})
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]calendar.Kind{"one": calendar.Game, "two": calendar.Busy, "twelve": calendar.Game, "more": calendar.Busy, "said": calendar.Travel}
	for _, e := range res.Events {
		if e.Kind != want[e.ID] {
			t.Errorf("%s is %s, want %s", e.ID, e.Kind, want[e.ID])
		}
	}
	var lines []string
	for _, p := range problems {
		lines = append(lines, p.Path+" "+p.Code)
	}
	if got := strings.Join(lines, ", "); got != "camp.ics:8 kind-assumed, camp.ics:18 kind-assumed" {
		t.Errorf("problems %s", got)
	}
}
