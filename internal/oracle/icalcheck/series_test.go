package icalcheck

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
	"example.org/weft/calendar/icalendar"
)

// seriesText makes series with changes to one occurrence and to all later ones,
// and series that repeat within the day, in each zone over its clock changes.
// BYHOUR comes without INTERVAL: ical.js 2.2.1 then forgets the interval.
func seriesText() string {
	var b strings.Builder
	n := 0
	event := func(uid string, lines ...string) {
		fmt.Fprintf(&b, "BEGIN:VEVENT\r\nUID:%s\r\n%s\r\nEND:VEVENT\r\n", uid, strings.Join(lines, "\r\n"))
	}
	for _, zone := range zoneNames {
		at := func(name, when string) string { return name + ";TZID=" + zone + ":" + when }
		next := func() string { n++; return fmt.Sprintf("%d@example.org", n) }
		for _, moved := range []string{"20260217T193000", "20260216T073000", "20260219T000000"} {
			uid := next()
			event(uid, at("DTSTART", "20260203T180000"), "DURATION:PT1H30M", "RRULE:FREQ=WEEKLY;COUNT=60", at("EXDATE", "20260317T180000"))
			event(uid, at("RECURRENCE-ID;RANGE=THISANDFUTURE", "20260217T180000"), at("DTSTART", moved), "DURATION:PT2H")
			event(uid, at("RECURRENCE-ID;RANGE=THISANDFUTURE", "20260915T180000"), at("DTSTART", "20260915T170000"), "DURATION:PT45M")
			event(uid, at("RECURRENCE-ID", "20260922T180000"), at("DTSTART", "20260924T100000"), "DURATION:PT1H")
		}
		for _, rule := range []string{"FREQ=HOURLY;INTERVAL=7;COUNT=200", "FREQ=HOURLY;BYHOUR=10,14,19;COUNT=90", "FREQ=MINUTELY;INTERVAL=95;COUNT=200", "FREQ=MINUTELY;INTERVAL=25;BYDAY=SA,SU;COUNT=150", "FREQ=SECONDLY;INTERVAL=5400;COUNT=200"} {
			event(next(), at("DTSTART", "20260203T101500"), "DURATION:PT10M", "CATEGORIES:skills", "RRULE:"+rule)
		}
	}
	return b.String()
}

// ical.js finds the same occurrences of such series. Times that a clock change
// skips or doubles are left out of the comparison: the readers differ there, as
// they may.
func TestSeriesICALJS(t *testing.T) {
	path := node(t, "ical.js")
	// The zones with their VTIMEZONE, from the other test.
	c, _ := entries(false)
	_, zones := write(t, c, false)
	head := zones[:strings.Index(zones, "BEGIN:VEVENT")]
	text := head + seriesText() + "END:VCALENDAR\r\n"
	file := filepath.Join(t.TempDir(), "s.ics")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(path, "read.mjs", "ical.js", file, "series").Output()
	if err != nil {
		t.Fatal(err)
	}
	var theirs map[string][]string
	if err := json.Unmarshal(out, &theirs); err != nil {
		t.Fatal(err)
	}
	res, problems, err := icalendar.Read(strings.NewReader(text), "s.ics", icalendar.Options{})
	if err != nil || res.Events == nil {
		t.Fatal(err, problems)
	}
	ours := map[string][]string{}
	near := map[string]bool{} // an hour and a half around a change, by the minute
	for _, name := range zoneNames {
		z := must(calendar.LoadZone(name))
		first := must(calendar.NewDate(2026, 1, 1))
		for _, change := range z.Transitions(calendar.Span{Start: z.DayStart(first), End: z.DayStart(first.AddDays(730))}) {
			for m := -90; m <= 90; m++ {
				near[show(change.At.Add(time.Duration(m)*time.Minute))] = true
			}
		}
	}
	for _, e := range res.Events {
		uid, _, _ := strings.Cut(e.ID, "#")
		end := e.EndZone
		if end.IsZero() {
			end = e.Zone
		}
		ours[uid] = append(ours[uid], show(e.Zone.Resolve(e.Start).Instant)+" "+show(end.Resolve(e.End).Instant))
	}
	compared := 0
	for uid, want := range theirs {
		clear := func(list []string) []string {
			list = slices.DeleteFunc(list, func(s string) bool {
				start, end, _ := strings.Cut(s, " ")
				return near[start] || near[end]
			})
			slices.Sort(list)
			return list
		}
		want, got := clear(want), clear(ours[uid])
		compared += len(want)
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s (-ical.js +ours):\n%s", uid, d)
		}
	}
	if compared < 4000 {
		t.Errorf("only %d occurrences compared", compared)
	}
}
