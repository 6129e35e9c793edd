package main

import (
	"strings"
	"testing"

	"example.org/weft/periodize/season"
)

func TestWhy(t *testing.T) {
	in, args := herons(t)
	out := ""
	for _, date := range []string{"2026-11-02", "2026-11-04", "2026-11-05", "2026-11-09"} {
		got := run(t, in, append(args, "-why", date)...)
		if got.code != exitPlanned {
			t.Fatalf("exit %d: %s", got.code, got.stderr)
		}
		out += got.stdout + "\n"
	}
	golden(t, "why.text", out)
	for _, w := range []string{"too near the game for a full-size session (Marram 5 Nov)", "as good", "the date of a game (Marram 5 Nov)", "The date is past"} {
		if !strings.Contains(out, w) {
			t.Errorf("the answers lack %q", w)
		}
	}
}

func TestWhyRefusals(t *testing.T) {
	in := files{"f.csv": smallTable, "a.json": smallAthlete}
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"no date", []string{"-why", "tomorrow"}, "-why"},
		{"outside", []string{"-why", "2027-11-02"}, "no date of the period"},
		{"json", []string{"-why", "2026-11-10", "-format", "json"}, "-why is for -format text"},
	} {
		got := run(t, in, append([]string{"-fixtures", "f.csv", "-athlete", "a.json"}, c.args...)...)
		if got.code != exitInput || got.stdout != "" || !strings.Contains(got.stderr, c.want) {
			t.Errorf("%s: exit %d, %q", c.name, got.code, got.stderr)
		}
	}
	held := strings.Replace(smallAthlete, `"hours"`, `"holds":[{"from":"2026-10-01"}],"hours"`, 1)
	got := run(t, files{"f.csv": smallTable, "a.json": held}, "-fixtures", "f.csv", "-athlete", "a.json", "-why", "2026-11-10")
	if got.code != exitRefused || !strings.Contains(got.stdout, "NOTHING MAY BE PLANNED") {
		t.Errorf("exit %d: %s%s", got.code, got.stdout, got.stderr)
	}
	plain := fakePlanner(func(r *season.Request) (*season.Plan, error) { return bare(r), nil })
	if got := runWith(t, plain, nil, "-why", "2026-11-10"); got.code != exitFault {
		t.Errorf("exit %d", got.code)
	}
}
