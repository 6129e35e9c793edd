package icalendar

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
)

const berlinStart = "DTSTART;TZID=Europe/Berlin:20261108T140000"

// The same calendar with every line end, with and without a byte order mark, read
// in pieces of every size.
func TestLineEnds(t *testing.T) {
	// The fold cuts the two octets of ö apart, and a tab folds too.
	text := ics(event("UID:g1", "SUMMARY:Sch\xc3", " \xb6ne G\r\n\tr\xc3\xbc\xc3\x9fe", berlinStart, "X-A:1"))
	want, ps := read(t, text, Options{})
	if len(ps) > 0 || len(want.Events) != 1 || want.Events[0].Title != "Schöne Grüße" {
		t.Fatalf("%v %v", ps, want.Events)
	}
	for name, s := range map[string]string{
		"LF":           strings.ReplaceAll(text, "\r\n", "\n"),
		"CR":           strings.ReplaceAll(text, "\r\n", "\r"),
		"doubled CR":   strings.ReplaceAll(text, "\r\n", "\r\r\n"),
		"empty lines":  strings.ReplaceAll(text, "\r\n", "\r\n\r\n"),
		"BOM":          "\xef\xbb\xbf" + text,
		"no last end":  strings.TrimSuffix(text, "\r\n"),
		"lower case":   strings.NewReplacer("BEGIN:VEVENT", "begin:vevent", "UID:", "uid:", "SUMMARY:", "summary:", "DTSTART;TZID", "dtstart;tzid").Replace(text),
		"space at end": strings.NewReplacer("BEGIN:VEVENT", "BEGIN:VEVENT ", "END:VEVENT", "END:VEVENT  ").Replace(text),
	} {
		for size, r := range map[string]io.Reader{
			"whole": strings.NewReader(s), "one": iotest.OneByteReader(strings.NewReader(s)),
			"half": iotest.HalfReader(strings.NewReader(s)), "data and error": iotest.DataErrReader(strings.NewReader(s)),
		} {
			got, ps, err := Read(r, "t.ics", Options{})
			if err != nil || len(ps) > 0 {
				t.Errorf("%s, %s: %v %v", name, size, err, ps)
			}
			for i := range got.Events { // lines are counted as they are
				got.Events[i].Source = want.Events[i].Source
			}
			if d := cmp.Diff(want.Events, got.Events, cmp.Comparer(calendar.Zone.Equal), cmp.Comparer(func(a, b calendar.Date) bool { return a == b })); d != "" {
				t.Errorf("%s, %s (-want +got):\n%s", name, size, d)
			}
		}
	}
}

func TestReaderError(t *testing.T) {
	boom := errors.New("boom")
	_, _, err := Read(io.MultiReader(strings.NewReader(ics()[:60]), iotest.ErrReader(boom)), "t.ics", Options{})
	if !errors.Is(err, boom) {
		t.Errorf("err = %v", err)
	}
}

func TestKeptProperties(t *testing.T) {
	res, ps := read(t, ics(event("UID:g1", berlinStart,
		`X-COACH;X-Lang="a:b;c,d",plain;X-CARET=^'q^' ^^ ^n ^x:raw\, value`,
		`DESCRIPTION:one\ntwo\; three`, "CATEGORIES:Away,Practice,Cup\\, round 2",
		"ATTENDEE;CN=Somebody:mailto:somebody@example.org", "ATTACH;ENCODING=BASE64;VALUE=BINARY:AAAA",
		"BEGIN:VALARM", "DESCRIPTION:not of the event", "TRIGGER:-PT15M", "END:VALARM", "PRIORITY:5")), Options{})
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	e := res.Events[0]
	want := []calendar.Property{
		{Name: "X-COACH", Value: `raw\, value`, Params: []calendar.Param{
			{Name: "X-LANG", Values: []string{"a:b;c,d", "plain"}}, {Name: "X-CARET", Values: []string{"\"q\" ^ \n ^x"}},
		}},
		{Name: "DESCRIPTION", Value: `one\ntwo\; three`},
		{Name: "CATEGORIES", Value: `Away,Cup\, round 2`},
		{Name: "PRIORITY", Value: "5"},
	}
	if d := cmp.Diff(want, e.Unknown); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if e.Kind != calendar.Practice {
		t.Errorf("kind %s", e.Kind)
	}
}

func TestRawLines(t *testing.T) {
	tests := []struct {
		name, description string
		lines             []string
		problems          []string
	}{
		{"joined", `First\nbring water\n\n\nhttp://example.org/a\nNote: early\n19:45 sharp`,
			[]string{"DESCRIPTION:First", "bring water", "\\n", "http://example.org/a", "Note: early", "19:45 sharp"}, []string{"warning line-joined 8"}},
		{"looks like a property", `Hall\nLocation: gym two`, []string{"DESCRIPTION:Hall", "Location: gym two"}, []string{"warning line-joined 8"}},
		{"after a time", "", []string{"DTSTAMP:20260921T141320Z", "stray"}, []string{"warning line-joined 8"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			res, ps := read(t, ics(event(append([]string{"UID:g1", berlinStart}, tt.lines...)...)), Options{})
			if d := cmp.Diff(tt.problems, brief(ps)); d != "" {
				t.Error(d)
			}
			got := ""
			for _, p := range res.Events[0].Unknown {
				got += p.Value
			}
			if got != tt.description {
				t.Errorf("got %q, want %q", got, tt.description)
			}
		})
	}
}

func TestStructure(t *testing.T) {
	ev := event("UID:g1", berlinStart)
	tests := []struct {
		name, text string
		opt        Options
		want       []string
	}{
		{"nothing", "", Options{}, []string{"error file-not-calendar 1"}},
		{"a web page", "<!DOCTYPE html>\n<html>\n</html>\n", Options{}, []string{"warning structure 1", "error file-not-calendar 1"}},
		{"UTF-16", "\xff\xfeB\x00E\x00G\x00", Options{}, []string{"error encoding 1"}},
		{"no events", ics(), Options{}, []string{"warning empty"}},
		{"cut off", strings.TrimSuffix(ics(ev), "END:VEVENT\r\nEND:VCALENDAR\r\n"), Options{}, []string{"error file-truncated 6", "error file-truncated 6"}},
		{"cut in a line", ics(ev)[:40], Options{}, []string{"error file-truncated 3"}},
		{"two starts", ics(event("UID:g1", berlinStart, berlinStart)), Options{}, []string{"question property-twice 7"}},
		{"no start", ics(event("UID:g1")), Options{}, []string{"question property-missing 4"}},
		{"event in event", ics("BEGIN:VEVENT", ev, "END:VEVENT"), Options{}, []string{"question property-missing 4", "warning structure 5"}},
		{"end of nothing", ics(ev, "END:VTODO"), Options{}, []string{"warning structure 8"}},
		{"unclosed event", ics("BEGIN:VEVENT", "UID:g1", berlinStart), Options{}, []string{"question structure 7"}},
		{"event alone", ev, Options{}, []string{"warning structure 1"}},
		{"text around", "hello\r\n" + ics(ev) + "bye\r\n", Options{}, []string{"warning structure 1"}},
		{"not UTF-8, control", ics(event("UID:g1", berlinStart, "SUMMARY:S\xfc\x07d")), Options{}, []string{"warning encoding 7", "warning control-characters 7"}},
		{"broken quote", ics(event("UID:g1", `DTSTART;TZID="Europe/Berlin:20261108T140000`)), Options{}, []string{"error empty 4", "question line-malformed 6"}},
		{"broken quote, not needed", ics(event("UID:g1", berlinStart, `X-A;B="c:d`)), Options{}, []string{"warning line-malformed 7"}},
		{"parameter without =", ics(event("UID:g1", berlinStart, "X-A;B:c")), Options{}, []string{"warning line-malformed 7"}},
		{"not a day", ics(event("UID:g1", "DTSTART;TZID=Europe/Berlin:20260231T140000")), Options{}, []string{"question value 6"}},
		{"not a time", ics(event("UID:g1", "DTSTART;TZID=Europe/Berlin:20260228T250000")), Options{}, []string{"error empty 4", "question value 6"}},
		{"year", ics(event("UID:g1", "DTSTART;TZID=Europe/Berlin:18260228T250000"), event("UID:g2", "DTSTART:18260228T200000Z")), Options{}, []string{"question value 6", "warning value 10"}},
		{"year, by the clock of the zone", ics(event("UID:g1", "DTSTART:19000101T000000Z")), Options{DefaultZone: zone(t, "America/Halifax")}, []string{"warning value 4"}},
		{"date with time", ics(event("UID:g1", "DTSTART;VALUE=DATE:20260228T150000")), Options{}, []string{"question value 6", "error zone-missing 6"}},
		{"end before start", ics(event("UID:g1", berlinStart, "DTEND;TZID=Europe/Berlin:20261108T130000")), Options{}, []string{"question end 7"}},
		{"end at start", ics(event("UID:g1", berlinStart, "DTEND;TZID=Europe/Berlin:20261108T140000")), Options{}, []string{"warning end 7"}},
		{"end is a date", ics(event("UID:g1", berlinStart, "DTEND;VALUE=DATE:20261108")), Options{}, []string{"question end 7"}},
		{"negative duration", ics(event("UID:g1", berlinStart, "DURATION:-PT1H")), Options{}, []string{"question value 7"}},
		{"no duration", ics(event("UID:g1", berlinStart, "DURATION:2 h")), Options{}, []string{"question value 7"}},
		{"no end", ics(event("UID:g1", berlinStart, "DTEND:")), Options{}, []string{"question value 7"}},
		{"end in the year 9999", ics(event("UID:g1", berlinStart, "DTEND:99991231T235959Z")), Options{}, []string{"question value 7"}},
		{"many parameters of what is not read", ics(event("UID:g1", berlinStart, "X-A;"+strings.Repeat("B=1;", 80)+"C=2:d")), Options{}, []string{"warning line-malformed 7"}},
		{"end and duration", ics(event("UID:g1", berlinStart, "DTEND:20261108T150000Z", "DURATION:PT1H")), Options{DefaultZone: zone(t, "Europe/Berlin")}, []string{"warning property-twice 8"}},
		{"lines of a calendar", ics(event("UID:g1", berlinStart, "METHOD:CANCEL", "TZID:Europe/Berlin")), Options{}, []string{"warning structure 7", "warning structure 8"}},
		{"sequence", ics(event("UID:g1", berlinStart, "SEQUENCE:-1")), Options{}, []string{"warning value 7"}},
		{"this and future", ics(event("UID:g1", berlinStart, "RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=Europe/Berlin:20261108T140000")), Options{}, []string{"warning override 4", "question override 4"}},
		{"endless", ics(event("UID:g1", berlinStart, "RRULE:FREQ=WEEKLY")), Options{}, []string{"question rule-endless 7"}},
		{"half a span", ics(ev), Options{From: date(t, "2026-01-01")}, []string{"error options"}},
		{"kind", ics(ev), Options{DefaultKind: "match"}, []string{"error options"}},
		{"Hebrew", ics("CALSCALE:HEBREW", ev), Options{}, []string{"question value 4"}},
		{"all at once", ics(event("UID:a", "DTSTART:nonsense"), event("UID:b", "DTSTART;TZID=Nowhere/Atall:20261108T140000"), event("UID:c", "DTSTART:20261108T140000", "RRULE:FREQ=FORTNIGHTLY")), Options{},
			[]string{"question value 6", "error zone-unknown 10", "error zone-missing 14", "question rule 15"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			res, ps := read(t, tt.text, tt.opt)
			if d := cmp.Diff(tt.want, brief(ps)); d != "" {
				t.Errorf("(-want +got):\n%s\n%v", d, ps)
			}
			failed := false
			for _, p := range ps {
				failed = failed || p.Class == calendar.ClassError
				if p.Reason == "" || p.Remedy == "" || !strings.HasPrefix(p.Path, "t.ics") {
					t.Errorf("%+v lacks path, reason or remedy", p)
				}
			}
			if failed && res.Events != nil {
				t.Error("events despite errors")
			}
		})
	}
}

func TestLimits(t *testing.T) {
	ev := event("UID:g1", berlinStart)
	deep := strings.Repeat("BEGIN:X-A\r\n", 20) + strings.Repeat("END:X-A\r\n", 20)
	tests := []struct {
		name, text string
		lim        Limits
		want       []string
	}{
		{"bytes", ics(ev), Limits{Bytes: 50}, []string{"error limit 1"}},
		{"bytes, just", ics(ev), Limits{Bytes: int64(len(ics(ev)))}, nil},
		{"line", ics(event("UID:g1", "DTSTART;TZID=Europe/Berlin"+strings.Repeat("x", 100)+":20261108T140000")), Limits{Line: 80}, []string{"error empty 4", "question line-malformed 6"}},
		{"long text", ics(event("UID:g1", berlinStart, "DESCRIPTION:"+strings.Repeat("x", 1000))), Limits{Line: 100}, []string{"warning limit 7"}},
		{"long attachment", ics(event("UID:g1", berlinStart, "ATTACH:"+strings.Repeat("x", 1000))), Limits{Line: 100}, nil},
		{"parameters", ics(event("UID:g1", berlinStart, "DTEND;B=1,2,3;C=4:20261108T150000Z")), Limits{Params: 3}, []string{"question line-malformed 7"}},
		{"depth", ics(strings.TrimSpace(deep), ev), Limits{}, []string{"error limit 19"}},
		{"components", ics(ev, ev, ev), Limits{Components: 3}, []string{"error limit 12", "warning duplicate 8"}},
		{"events", ics(ev, ev, ev), Limits{Events: 2}, []string{"error limit 12", "warning duplicate 8"}},
		{"occurrences", ics(event("UID:g1", berlinStart, "RRULE:FREQ=DAILY;COUNT=11")), Limits{Events: 10}, []string{"error limit 4"}},
		{"zones", ics(event("UID:g1", berlinStart), event("UID:g2", "DTSTART;TZID=Europe/Paris:20261108T140000")), Limits{Zones: 1}, []string{"error limit 10"}},
		{"dates", ics(event("UID:g1", berlinStart, "RDATE;TZID=Europe/Berlin:20261109T140000,20261110T140000,20261111T140000")), Limits{Dates: 2}, []string{"error limit 7"}},
		{"properties", ics(event("UID:g1", berlinStart, "X-A:1", "X-B:2", "X-C:3", "X-D:4")), Limits{Properties: 2}, []string{"warning limit 9"}},
		{"work", ics(event("UID:g1", berlinStart, "RRULE:FREQ=DAILY;COUNT=100")), Limits{Work: 50}, []string{"question limit 7"}},
		{"problems", ics(event("UID:g1", "DTSTART:a"), event("UID:g2", "DTSTART:b"), event("UID:g3", "DTSTART:c")), Limits{Problems: 1}, []string{"error empty 4", "question value 6", "question more-problems 10"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, ps := read(t, tt.text, Options{Limits: tt.lim})
			got, want := brief(ps), tt.want
			if d := cmp.Diff(sortedStrings(want), sortedStrings(got)); d != "" {
				t.Errorf("(-want +got):\n%s\n%v", d, ps)
			}
		})
	}
}

func TestDuration(t *testing.T) {
	for s, want := range map[string]duration{
		"PT2H": {0, 7200}, "PT1H30M": {0, 5400}, "P1D": {1, 0}, "P2W": {14, 0}, "P1DT12H": {1, 43200},
		"PT90S": {0, 90}, "+PT5M": {0, 300}, "-P1D": {-1, 0}, "pt1h": {0, 3600}, "P15DT5H0M20S": {15, 18020}, "PT0S": {},
	} {
		if got, err := parseDuration(s); err != nil || got != want {
			t.Errorf("%s: %v %v", s, got, err)
		}
	}
	for _, s := range []string{"", "P", "PT", "T1H", "P1H", "PT1D", "P1", "1D", "PT1H1H", "PT1M1H", "PTT1H", "P99999D", "PT9999999999H", "P1DT", "--P1D", "P-1D", "P1.5D"} {
		if got, err := parseDuration(s); err == nil {
			t.Errorf("%s: %v, want an error", s, got)
		}
	}
}

func TestOffset(t *testing.T) {
	for s, want := range map[string]int{"+0100": 3600, "-0330": -12600, "+053730": 20250, "-0000": 0, "+1400": 50400} {
		if got, err := parseOffset(s); err != nil || got != want {
			t.Errorf("%s: %v %v", s, got, err)
		}
		if want != 0 && offsetText(want) != s {
			t.Errorf("%d written %s", want, offsetText(want))
		}
	}
	for _, s := range []string{"", "0100", "+1", "+01:00", "+2400", "+0160", "+01000", "x0100"} {
		if got, err := parseOffset(s); err == nil {
			t.Errorf("%s: %v, want an error", s, got)
		}
	}
}

func TestCivil(t *testing.T) {
	if n := dayNumber(1970, 1, 1); n != 0 {
		t.Errorf("the epoch is day %d", n)
	}
	y, m, d := 1, 1, 1
	for n := dayNumber(1, 1, 1); n < dayNumber(2201, 1, 1); n++ {
		if y2, m2, d2 := ymd(n); y2 != y || m2 != m || d2 != d || dayNumber(y, m, d) != n {
			t.Fatalf("day %d is %d-%d-%d, got %d-%d-%d", n, y, m, d, y2, m2, d2)
		}
		if d++; d > daysIn(y, m) {
			if d, m = 1, m+1; m > 12 {
				y, m = y+1, 1
			}
		}
	}
}
