package main

import (
	"strings"
	"testing"
)

// A rugby game of Saturday is pulled forward to Thursday. Invented.
const heronsTable = `date,time,tz,end,id,opponent,kind
2026-10-31,15:00,Europe/London,16:40,g0,Fenwick,game
2026-11-07,15:00,Europe/London,16:40,g1,Marram,game
2026-11-14,15:00,Europe/London,16:40,g2,Tidewell,game
2026-11-10,19:00,Europe/London,20:30,p1,,practice
`

const heronsAthlete = `{"athlete":{"id":"a-3","born":"2000-06","zone":"Europe/London","trainingAgeYears":5,
 "hours":[{"days":["mon","tue","wed","thu","fri","sat","sun"],"from":"09:00","to":"21:00"}]},
 "places":[{"id":"gym"},{"id":"hall"}]}`

// herons are the files after the news, and the flags to read them.
func herons(t *testing.T) (files, []string) {
	t.Helper()
	in := files{"f.csv": heronsTable, "a.json": heronsAthlete}
	args := []string{"-fixtures", "f.csv", "-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-15"}
	first := run(t, in, append(args, "-format", "json")...)
	if first.code != exitPlanned {
		t.Fatalf("exit %d: %s", first.code, first.stderr)
	}
	in["p.json"] = first.stdout
	in["f.csv"] = strings.Replace(heronsTable, "2026-11-07,15:00,Europe/London,16:40", "2026-11-05,19:45,Europe/London,21:25", 1)
	return in, append(args, "-issued", "p.json", "-now", "2026-11-03T10:00:00Z")
}

// slipOf is the slip of an output.
func slipOf(t *testing.T, text string) string {
	t.Helper()
	i := strings.Index(text, "CHANGES")
	if i < 0 || i > strings.Index(text, "THE SEASON") {
		t.Fatalf("no slip at the top:\n%s", text)
	}
	slip, _, _ := strings.Cut(text[i:], "\n\n")
	return slip + "\n"
}

func TestSlip(t *testing.T) {
	in, args := herons(t)
	short, long := run(t, in, args...), run(t, in, append(args, "-v")...)
	if short.code != exitPlanned || long.code != exitPlanned {
		t.Fatalf("exit %d %d: %s", short.code, long.code, short.stderr)
	}
	golden(t, "slip.text", slipOf(t, short.stdout)+"\n"+slipOf(t, long.stdout))
	for _, w := range []string{"Marram moved from Sat 7 Nov 2026 15:00 to Thu 5 Nov 2026 19:45", "Tell       the athlete", "gym: "} {
		if !strings.Contains(short.stdout, w) {
			t.Errorf("the slip lacks %q", w)
		}
	}
}

// A list without ids: the game is gone on one date and new on another.
func TestSlipWithoutIDs(t *testing.T) {
	in, args := herons(t)
	strip := func(text string) string {
		out := strings.Replace(text, "end,id,", "end,", 1)
		for _, id := range []string{"g0", "g1", "g2", "p1"} {
			out = strings.Replace(out, ","+id+",", ",", 1)
		}
		return out
	}
	moved := in["f.csv"]
	in["f.csv"] = strip(heronsTable)
	first := run(t, in, append(args[:8:8], "-format", "json")...)
	in["p.json"], in["f.csv"] = first.stdout, strip(moved)
	got := run(t, in, args...)
	if got.code != exitPlanned || !strings.Contains(got.stdout, "  News       Marram moved from Sat 7 Nov 2026 15:00 to Thu 5 Nov 2026 19:45\n  ") {
		t.Errorf("exit %d: %s\n%s", got.code, got.stderr, slipOf(t, got.stdout))
	}
	if strings.Contains(slipOf(t, got.stdout), "is off") || strings.Contains(slipOf(t, got.stdout), "is new") {
		t.Error(slipOf(t, got.stdout))
	}
	in["f.csv"] = strings.Replace(strip(heronsTable), "2026-11-14,15:00,Europe/London,16:40,Tidewell,game\n", "2026-11-13,,Europe/London,,Ostrey,game\n", 1)
	got = run(t, in, args...)
	for _, w := range []string{"Tidewell of Sat 14 Nov 2026 15:00 is off", "Ostrey on Fri 13 Nov 2026 is new"} {
		if !strings.Contains(got.stdout, w) {
			t.Errorf("the slip lacks %q:\n%s", w, slipOf(t, got.stdout))
		}
	}
}

// Another room at the same time, or a shorter session, is told though the
// session starts as it did.
func TestSlipPlace(t *testing.T) {
	in, args := herons(t)
	in["f.csv"] = heronsTable
	in["a.json"] = strings.Replace(heronsAthlete, `{"id":"gym"}`, `{"id":"gym","closed":[{"from":"2026-11-04","to":"2026-11-12"}]}`, 1)
	got := run(t, in, args...)
	if got.code != exitPlanned {
		t.Fatalf("exit %d: %s", got.code, got.stderr)
	}
	golden(t, "slip-place.text", slipOf(t, got.stdout))
	if slip := slipOf(t, got.stdout); !strings.Contains(slip, "at hall instead of gym") || !strings.Contains(slip, "hall: now") {
		t.Error(slip)
	}
}

// Nothing changed: nobody has to be told.
func TestSlipOfNothing(t *testing.T) {
	in, args := herons(t)
	in["f.csv"] = heronsTable
	got := slipOf(t, run(t, in, args...).stdout)
	if strings.Contains(got, "Tell") || strings.Contains(got, "News") || !strings.Contains(got, "sessions unchanged") {
		t.Error(got)
	}
}
