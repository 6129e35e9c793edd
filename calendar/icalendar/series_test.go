package icalendar

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
)

func TestSeries(t *testing.T) {
	const start, end = "DTSTART;TZID=America/Halifax:20261020T180000", "DTEND;TZID=America/Halifax:20261020T193000"
	halifax := zone(t, "America/Halifax")
	november := Options{From: date(t, "2026-11-01"), To: date(t, "2026-11-30")}
	// starts shows start and id of each event.
	starts := func(es []calendar.Event) []string {
		var out []string
		for _, e := range es {
			s := e.Start.String()
			if e.DateOnly {
				s = e.Start.Date.String()
			}
			if e.HasEnd {
				s += "/" + e.End.String()[5:]
			}
			out = append(out, s+" "+strings.TrimPrefix(e.ID, "p"))
		}
		return out
	}
	tests := []struct {
		name     string
		text     string
		opt      Options
		want     []string
		problems []string
	}{
		{"wall time stays across a clock change", ics(event("UID:p", start, end, "RRULE:FREQ=WEEKLY;COUNT=3")), Options{},
			[]string{"2026-10-20T18:00/10-20T19:30 #2026-10-20T18:00", "2026-10-27T18:00/10-27T19:30 #2026-10-27T18:00", "2026-11-03T18:00/11-03T19:30 #2026-11-03T18:00"}, nil},
		{"in UTC the instant stays", ics(event("UID:p", "DTSTART:20261027T210000Z", "RRULE:FREQ=WEEKLY;COUNT=2")), Options{DefaultZone: halifax},
			[]string{"2026-10-27T18:00 #2026-10-27T21:00Z", "2026-11-03T17:00 #2026-11-03T21:00Z"}, nil},
		{"endless, in the span", ics(event("UID:p", start, "RRULE:FREQ=WEEKLY;INTERVAL=2")), november,
			[]string{"2026-11-03T18:00 #2026-11-03T18:00", "2026-11-17T18:00 #2026-11-17T18:00"}, nil},
		{"UNTIL is an instant", ics(event("UID:p", start, "RRULE:FREQ=WEEKLY;UNTIL=20261103T220000Z")), Options{},
			[]string{"2026-10-20T18:00 #2026-10-20T18:00", "2026-10-27T18:00 #2026-10-27T18:00", "2026-11-03T18:00 #2026-11-03T18:00"}, nil},
		{"UNTIL a second earlier", ics(event("UID:p", start, "RRULE:FREQ=WEEKLY;UNTIL=20261103T215959Z")), Options{},
			[]string{"2026-10-20T18:00 #2026-10-20T18:00", "2026-10-27T18:00 #2026-10-27T18:00"}, nil},
		{"UNTIL a date", ics(event("UID:p", start, "RRULE:FREQ=WEEKLY;UNTIL=20261027")), Options{},
			[]string{"2026-10-20T18:00 #2026-10-20T18:00", "2026-10-27T18:00 #2026-10-27T18:00"}, []string{"warning rule 7"}},
		{"UNTIL before the start", ics(event("UID:p", start, "RRULE:FREQ=WEEKLY;UNTIL=20260101T000000Z")), Options{}, nil, []string{"warning rule 7"}},
		{"dates", ics(event("UID:p", "DTSTART;VALUE=DATE:20261030", "DTEND;VALUE=DATE:20261101", "RRULE:FREQ=MONTHLY;COUNT=3;BYMONTHDAY=-2")), Options{DefaultZone: halifax},
			[]string{"2026-10-30/11-01T00:00 #2026-10-30", "2026-11-29/12-01T00:00 #2026-11-29", "2026-12-30/01-01T00:00 #2026-12-30"}, []string{"warning kind-assumed 4"}},
		{"start not in the rule", ics(event("UID:p", start, "RRULE:FREQ=WEEKLY;BYDAY=TH;COUNT=2")), Options{},
			[]string{"2026-10-20T18:00 #2026-10-20T18:00", "2026-10-22T18:00 #2026-10-22T18:00"}, []string{"warning rule-start 7"}},
		{"dates added and taken away", ics(event("UID:p", start, end, "RRULE:FREQ=WEEKLY;COUNT=3",
			"RDATE;TZID=America/Halifax:20261022T180000,20261027T180000", "RDATE;VALUE=PERIOD:20261024T130000Z/PT45M,20261025T130000Z/20261025T140000Z",
			"EXDATE:20261027T210000Z", "EXDATE;VALUE=DATE:20261103")), Options{DefaultZone: halifax},
			[]string{"2026-10-20T18:00/10-20T19:30 #2026-10-20T18:00", "2026-10-22T18:00/10-22T19:30 #2026-10-22T18:00", "2026-10-24T10:00/10-24T10:45 #2026-10-24T10:00", "2026-10-25T10:00/10-25T11:00 #2026-10-25T10:00"}, nil},
		{"only RDATE", ics(event("UID:p", start, "RDATE;TZID=America/Halifax:20261120T180000")), november,
			[]string{"2026-11-20T18:00 #2026-11-20T18:00"}, nil},
		{"EXRULE", ics(event("UID:p", start, "RRULE:FREQ=DAILY;COUNT=6", "EXRULE:FREQ=DAILY;INTERVAL=2")), Options{},
			[]string{"2026-10-21T18:00 #2026-10-21T18:00", "2026-10-23T18:00 #2026-10-23T18:00", "2026-10-25T18:00 #2026-10-25T18:00"}, nil},
		{"moved, by an instant in UTC and by a floating time", ics(
			event("UID:p", "RECURRENCE-ID:20261027T210000Z", "DTSTART;TZID=America/Halifax:20261028T070000", "SEQUENCE:1"),
			event("UID:p", "RECURRENCE-ID:20261103T180000", "DTSTART;TZID=America/Halifax:20261105T070000"),
			event("UID:p", start, end, "RRULE:FREQ=WEEKLY;COUNT=3")), Options{DefaultZone: zone(t, "Asia/Tokyo")},
			[]string{"2026-10-20T18:00/10-20T19:30 #2026-10-20T18:00", "2026-10-28T07:00 #2026-10-27T18:00", "2026-11-05T07:00 #2026-11-03T18:00"}, nil},
		{"two versions of a change", ics(event("UID:p", start, "RRULE:FREQ=WEEKLY;COUNT=2"),
			event("UID:p", "RECURRENCE-ID;TZID=America/Halifax:20261027T180000", "DTSTART;TZID=America/Halifax:20261028T070000", "SEQUENCE:2"),
			event("UID:p", "RECURRENCE-ID;TZID=America/Halifax:20261027T180000", "DTSTART;TZID=America/Halifax:20261029T070000", "SEQUENCE:1")), Options{},
			[]string{"2026-10-20T18:00 #2026-10-20T18:00", "2026-10-28T07:00 #2026-10-27T18:00"}, []string{"warning duplicate 15"}},
		{"a change of nothing", ics(event("UID:p", start, "RRULE:FREQ=WEEKLY;COUNT=2"),
			event("UID:p", "RECURRENCE-ID;TZID=America/Halifax:20261028T180000", "DTSTART;TZID=America/Halifax:20261028T070000")), Options{},
			[]string{"2026-10-20T18:00 #2026-10-20T18:00", "2026-10-27T18:00 #2026-10-27T18:00", "2026-10-28T07:00 #2026-10-28T18:00"}, []string{"warning override 9"}},
		{"a change without its series", ics(event("UID:p", "RECURRENCE-ID;TZID=America/Halifax:20261028T180000", "DTSTART;TZID=America/Halifax:20261028T070000")), Options{},
			[]string{"2026-10-28T07:00 #2026-10-28T18:00"}, []string{"warning override 4"}},
		{"moved into the span and out of it", ics(event("UID:p", start, "RRULE:FREQ=WEEKLY;COUNT=6"),
			event("UID:p", "RECURRENCE-ID;TZID=America/Halifax:20261020T180000", "DTSTART;TZID=America/Halifax:20261115T180000"),
			event("UID:p", "RECURRENCE-ID;TZID=America/Halifax:20261110T180000", "DTSTART;TZID=America/Halifax:20261215T180000")), november,
			[]string{"2026-11-03T18:00 #2026-11-03T18:00", "2026-11-15T18:00 #2026-10-20T18:00", "2026-11-17T18:00 #2026-11-17T18:00", "2026-11-24T18:00 #2026-11-24T18:00"}, nil},
		{"skipped and doubled", ics(event("UID:p", "DTSTART;TZID=America/Halifax:20260307T023000", "RRULE:FREQ=DAILY;COUNT=3")), Options{},
			[]string{"2026-03-07T02:30 #2026-03-07T02:30", "2026-03-08T02:30 #2026-03-08T02:30", "2026-03-09T02:30 #2026-03-09T02:30"}, []string{"warning time-skipped 6"}},
		{"exact length over a clock change", ics(event("UID:p", "DTSTART;TZID=America/Halifax:20261030T230000", "DTEND;TZID=America/Halifax:20261031T050000", "RRULE:FREQ=DAILY;COUNT=2")), Options{},
			[]string{"2026-10-30T23:00/10-31T05:00 #2026-10-30T23:00", "2026-10-31T23:00/11-01T04:00 #2026-10-31T23:00"}, nil},
		{"nominal length over a clock change", ics(event("UID:p", "DTSTART;TZID=America/Halifax:20261031T120000", "DURATION:P1DT1H")), Options{},
			[]string{"2026-10-31T12:00/11-01T13:00 "}, []string{"warning kind-assumed 4"}},
		{"no UID", ics(event(start, "RRULE:FREQ=WEEKLY;COUNT=2", "SUMMARY:Training"), event("DTSTART;TZID=America/Halifax:20261021T180000"), event("DTSTART;TZID=America/Halifax:20261021T180000")), Options{},
			[]string{"2026-10-20T18:00 game-kwuik5po2sjxvftk#2026-10-20T18:00", "2026-10-21T18:00 game-rlag3ctgwkrvybv3", "2026-10-27T18:00 game-kwuik5po2sjxvftk#2026-10-27T18:00"}, []string{"warning duplicate 12"}},
		{"cancelled by method", ics("METHOD:CANCEL", event("UID:p", start)), Options{}, []string{"2026-10-20T18:00 "}, nil},
		{"all day by a mark", ics(event("UID:p", "DTSTART;TZID=America/Halifax:20261020T000000", "DTEND;TZID=America/Halifax:20261022T000000", "X-MICROSOFT-CDO-ALLDAYEVENT:TRUE")), Options{DefaultZone: halifax},
			[]string{"2026-10-20/10-22T00:00 "}, []string{"warning kind-assumed 4"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			res, ps := read(t, tt.text, tt.opt)
			if d := cmp.Diff(tt.want, starts(res.Events)); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
			if d := cmp.Diff(tt.problems, brief(ps)); d != "" {
				t.Errorf("problems (-want +got):\n%s\n%v", d, ps)
			}
			if strings.Contains(tt.text, "METHOD:CANCEL") && res.Events[0].Active() {
				t.Error("still active")
			}
		})
	}
}

func TestSameUID(t *testing.T) {
	one := []string{"UID:p", "DTSTART;TZID=Europe/Berlin:20261020T180000", "SUMMARY:A"}
	other := []string{"UID:p", "DTSTART;TZID=Europe/Berlin:20261021T180000", "SUMMARY:B"}
	with := func(lines []string, more ...string) string {
		return event(append(lines[:len(lines):len(lines)], more...)...)
	}
	tests := []struct {
		name     string
		text     string
		want     []string
		problems []string
	}{
		{"higher sequence", ics(with(one, "SEQUENCE:2"), with(other, "SEQUENCE:1")), []string{"p A"}, []string{"warning duplicate 10"}},
		{"later stamp", ics(with(one, "DTSTAMP:20260101T000000Z"), event(other[0], other[1], one[2], "DTSTAMP:20260102T000000Z")), []string{"p A"}, []string{"warning duplicate 4"}},
		{"later stamp, another title", ics(with(one, "DTSTAMP:20260101T000000Z"), with(other, "DTSTAMP:20260102T000000Z")), []string{"p~ A", "p~ B"}, []string{"warning duplicate 4"}},
		{"the same twice", ics(with(one), with(one)), []string{"p A"}, []string{"warning duplicate 9"}},
		{"nothing tells", ics(with(one), with(other)), []string{"p~ A", "p~ B"}, []string{"warning duplicate 9"}},
		{"nothing tells, series", ics(with(one, "RRULE:FREQ=DAILY;COUNT=2"), with(other)), []string{"p~ A", "p~ B", "p~ A"}, []string{"warning duplicate 10"}},
		{"id of an occurrence", ics(with(one, "RRULE:FREQ=DAILY;COUNT=1"), event("UID:p#2026-10-20T18:00", other[1], other[2])), []string{"p#2026-10-20T18:00 A", "p#2026-10-20T18:00~2 B"}, []string{"warning duplicate 10"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			res, ps := read(t, tt.text, Options{})
			var got []string
			for _, e := range res.Events {
				id := e.ID
				if i := strings.Index(id, "~game-"); i >= 0 {
					id = id[:i+1]
				}
				got = append(got, id+" "+e.Title)
			}
			if d := cmp.Diff(tt.want, got); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
			if d := cmp.Diff(tt.problems, brief(ps)); d != "" {
				t.Errorf("problems (-want +got):\n%s", d)
			}
		})
	}
}

func TestKinds(t *testing.T) {
	byWords := func(d Description) (calendar.Kind, bool) {
		if strings.Contains(d.Summary, "training") && d.Location == "Hall; north" && len(d.Categories) == 1 {
			return calendar.Practice, true
		}
		return "nonsense", d.AllDay
	}
	text := ics(
		event("UID:a", berlinStart, "SUMMARY:training", "LOCATION:Hall\\; north", "CATEGORIES:U15"),
		event("UID:b", berlinStart, "CATEGORIES:skills,exam"),
		event("UID:c", berlinStart),
		event("UID:d", "DTSTART;VALUE=DATE:20261109"))
	for _, tt := range []struct {
		opt  Options
		want string
	}{
		{Options{}, "game skills game game"},
		{Options{DefaultKind: calendar.Busy}, "busy skills busy busy"},
		{Options{Classify: byWords, Team: "U15"}, "practice skills game game"},
	} {
		tt.opt.DefaultZone = zone(t, "Europe/Berlin")
		res, ps := read(t, text, tt.opt)
		var got []string
		for _, e := range res.Events {
			got = append(got, string(e.Kind))
			if e.Team != tt.opt.Team || !strings.HasPrefix(e.Source, "t.ics:") {
				t.Errorf("team %q, source %q", e.Team, e.Source)
			}
		}
		ps = slices.DeleteFunc(ps, func(p calendar.Problem) bool { return p.Code == CodeEnd && p.Class == calendar.ClassQuestion })
		if s := strings.Join(got, " "); s != tt.want || len(ps) != 1 || ps[0].Code != CodeTwice {
			t.Errorf("%s %v", s, ps)
		}
	}
}
