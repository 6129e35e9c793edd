package main

import (
	"strings"
	"testing"

	"example.org/weft/periodize/season"
)

// A plan written as JSON comes back with -issued: nothing changed, nothing
// changes; a game moved, the calendar cancels what is gone.
func TestReplan(t *testing.T) {
	table := "date,time,tz,end,id\n2026-11-14,15:00,Europe/London,16:40,g1\n2026-11-21,15:00,Europe/London,16:40,g2\n"
	athlete := strings.Replace(smallAthlete, "Europe/Amsterdam", "Europe/London", 1)
	in := files{"f.csv": table, "a.json": athlete}
	first := run(t, in, "-fixtures", "f.csv", "-athlete", "a.json", "-format", "json")
	if first.code != exitPlanned {
		t.Fatalf("exit %d: %s", first.code, first.stderr)
	}
	in["p.json"] = first.stdout
	args := []string{"-fixtures", "f.csv", "-athlete", "a.json", "-issued", "p.json"}
	same := run(t, in, args...)
	if same.code != exitPlanned || !strings.Contains(same.stdout, "CHANGES") {
		t.Fatalf("exit %d: %s", same.code, same.stderr)
	}
	for _, w := range []string{"  moved ", "  added ", "  dropped ", "  replaced "} {
		if strings.Contains(same.stdout, w) {
			t.Errorf("nothing changed, and yet: %s", w)
		}
	}
	in["f.csv"] = strings.Replace(table, "2026-11-14,15:00,Europe/London,16:40", "2026-11-12,19:45,Europe/London,21:25", 1)
	moved := run(t, in, append(args, "-now", "2026-11-10T10:00:00Z")...)
	if moved.code != exitPlanned || !strings.Contains(moved.stdout, "As of") || !strings.Contains(moved.stdout, "g1 moved from") {
		t.Errorf("exit %d: %s\n%s", moved.code, moved.stderr, moved.stdout)
	}
	if got := run(t, in, append(args, "-format", "ics")...); got.code != exitPlanned || !strings.Contains(got.stdout, "SEQUENCE:1") {
		t.Errorf("exit %d: %s", got.code, got.stderr)
	}
}

func TestDroppedSessionsAreCancelled(t *testing.T) {
	in := hostileInput(t, "x")
	z := in.request.Athlete.Zone
	plan := bare(in.request)
	plan.Revision = 4
	// The second 02:30 of the night on which the clocks go back.
	second := z.Resolve(wallTime(t, "2026-10-25T02:30")).Later
	plan.Sessions = []season.Session{{ID: "night", Start: second, End: second.Add(1800e9), Kind: season.Recovery}}
	from := at(t, z, "2026-11-02T17:00")
	in.request.Issued = []season.Plan{{Sessions: []season.Session{{ID: "old", Start: from, End: from.Add(3300e9)}}}}
	plan.Changes = []season.Change{{Change: season.Dropped, Session: "old", Kind: season.FullBody, From: &from}}
	var b strings.Builder
	if err := writeCalendar(&b, in, plan); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"UID:old.", "STATUS:CANCELLED", "SEQUENCE:4", "DTSTART;TZID=Europe/Copenhagen:20261102T170000", "DTEND;TZID=Europe/Copenhagen:20261102T175500", "DTSTART:20261025T013000Z"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("the calendar lacks %q:\n%s", want, b.String())
		}
	}
}
