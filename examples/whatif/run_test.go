package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
)

type ran struct {
	code        int
	out, errors string
}

func try(t *testing.T, stdin string, args ...string) ran {
	t.Helper()
	var out, errs bytes.Buffer
	code := run(context.Background(), args, strings.NewReader(stdin), &out, &errs)
	return ran{code, out.String(), errs.String()}
}

// figures are the last three of a line: hours, changed, points.
var figures = regexp.MustCompile(`(?m)\d\.\d\d +\d+ +\d+$`)

func TestDemo(t *testing.T) {
	file := filepath.Join(t.TempDir(), "out.csv")
	one := try(t, "", "-workers", "1", "-out", file)
	if one.code != exitDone || !strings.Contains(one.errors, "planned") || strings.Contains(one.out, "no plan") {
		t.Fatalf("exit %d\n%s\n%s", one.code, one.out, one.errors)
	}
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	table, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	if err != nil || len(table) != len(variants(demo()))+2 {
		t.Errorf("%d lines: %v", len(table), err)
	}
	if got := len(figures.FindAllString(one.out, -1)); got != len(table)-1 {
		t.Errorf("%d lines of figures, %d of CSV", got, len(table))
	}
	for _, line := range strings.Split(one.out, "\n") {
		if utf8.RuneCountInString(line) > 98 || strings.HasSuffix(line, " ") {
			t.Errorf("a line too long, or with a space at its end: %q", line)
		}
	}
	if two := try(t, "", "-workers", "2", "-quiet"); two.out != one.out || two.errors != "" {
		t.Errorf("two workers print otherwise, or are not quiet: %q\n%s", two.errors, two.out)
	}
}

func TestFixtures(t *testing.T) {
	const games = "date,time,tz,home,away\n2026-11-07,15:00,Europe/Stockholm,Granvik,Lerhamn\n2026-11-14,15:00,Europe/Stockholm,Kvarnby,Granvik\n2026-11-21,15:00,Europe/Stockholm,Granvik,Kvarnby\n"
	got := try(t, games, "-fixtures", "-", "-team", "Granvik", "-quiet")
	if got.code != exitDone || !strings.Contains(got.out, "2026-11-21 Kvarnby two days earlier") {
		t.Errorf("exit %d\n%s\n%s", got.code, got.out, got.errors)
	}
	for _, c := range []struct {
		name, stdin string
		args        []string
		want        string
	}{
		{"league without a team", games, []string{"-fixtures", "-"}, "Granvik"},
		{"no file", "", []string{"-fixtures", filepath.Join(t.TempDir(), "none.csv")}, "cannot be read"},
		{"no games", "date,time,tz,home_away,opponent\n", []string{"-fixtures", "-"}, "game"},
		{"bad zone", games, []string{"-fixtures", "-", "-zone", "Europe/Atlantis"}, "Atlantis"},
		{"bad flag", "", []string{"-speed", "9"}, "speed"},
		{"an argument", "", []string{"now"}, "now"},
	} {
		if got := try(t, c.stdin, c.args...); got.code != exitInput || got.out != "" || !strings.Contains(got.errors, c.want) {
			t.Errorf("%s: exit %d\n%s\n%s", c.name, got.code, got.out, got.errors)
		}
	}
}

// short is a month of fixtures, with a game that may not be needed.
const short = `date,time,end,tz,kind,home_away,opponent,title,status
2026-11-02,16:45,18:15,Europe/Stockholm,practice,,,practice,
2026-11-07,15:00,,Europe/Stockholm,game,home,Lerhamn,,
2026-11-09,16:45,18:15,Europe/Stockholm,practice,,,practice,
2026-11-14,15:00,,Europe/Stockholm,game,away,Kvarnby,,
2026-11-21,15:00,,Europe/Stockholm,game,home,Granvik,,
2026-11-28,15:00,,Europe/Stockholm,game,home,Granvik,,if-necessary
`

func TestCauses(t *testing.T) {
	file := filepath.Join(t.TempDir(), "causes.csv")
	plain, got := try(t, short, "-fixtures", "-", "-quiet"), try(t, short, "-fixtures", "-", "-quiet", "-causes", file)
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	table, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	if err != nil || len(table) < 10 || table[1][1] != "base" {
		t.Errorf("%d lines: %v", len(table), err)
	}
	// The figures are the same, with the rules beside them.
	if diff := cmp.Diff(figures.FindAllString(plain.out, -1), figures.FindAllString(got.out, -1)); diff != "" {
		t.Error(diff)
	}
	if !strings.Contains(got.out, "; most in the way: ") {
		t.Errorf("no rule is named in\n%s", got.out)
	}
}

// What has been played counts as still to come, unless the season is under way.
func TestPlayed(t *testing.T) {
	played := strings.ReplaceAll(short, "home,Granvik,,\n", "home,Granvik,,played\n")
	got := try(t, played, "-fixtures", "-", "-quiet", "-fragile")
	if want := try(t, short, "-fixtures", "-", "-quiet", "-fragile"); got.code != exitDone || got.out != want.out || !strings.Contains(got.errors, "still to come") {
		t.Errorf("exit %d: %s\n%s\nwant\n%s", got.code, got.errors, got.out, want.out)
	}
	now := try(t, strings.ReplaceAll(short, "home,Lerhamn,,\n", "home,Lerhamn,,played\n"), "-fixtures", "-", "-quiet", "-fragile", "-now", "2026-11-09T08:00:00+01:00")
	if now.code != exitDone || now.errors != "" || strings.Contains(now.out, "\n  2026-11-02 ") {
		t.Errorf("exit %d: %s\n%s", now.code, now.errors, now.out)
	}
}

func TestMore(t *testing.T) {
	args := []string{"-fixtures", "-", "-fragile", "-branches", "-seasons", "3", "-seed", "4", "-quiet"}
	one, two := try(t, short, append(args, "-workers", "1")...), try(t, short, append(args, "-workers", "2")...)
	if one.code != exitDone || one.out != two.out {
		t.Fatalf("exit %d, the same with two workers: %v\n%s", one.code, one.out == two.out, one.errors)
	}
	for _, want := range []string{"FRAGILE WEEKS", "moves that are free", "whatever comes, until Sat 2026-11-21", "not knowing costs", "3 SEASONS AT RANDOM", "one practice less"} {
		if !strings.Contains(one.out, want) {
			t.Errorf("no %q in\n%s", want, one.out)
		}
	}
	file := filepath.Join(t.TempDir(), "moves.csv")
	if got := try(t, short, "-fixtures", "-", "-moves", file, "-quiet"); got.code != exitDone || !strings.Contains(got.out, "FRAGILE WEEKS") {
		t.Errorf("exit %d: %s", got.code, got.errors)
	}
	b, err := os.ReadFile(file)
	if n := strings.Count(string(b), "\r\n"); err != nil || n != 1+4*4 { // four games, each moved four times
		t.Errorf("%d lines: %v", n, err)
	}
	if bad := try(t, short, "-fixtures", "-", "-seasons", "-1", "-quiet"); bad.code != exitInput || !strings.Contains(bad.errors, "seasons") {
		t.Errorf("exit %d: %s", bad.code, bad.errors)
	}
	games := "date,time,tz,home_away,opponent\n2026-11-07,15:00,Europe/Stockholm,home,Lerhamn\n"
	if none := try(t, games, "-fixtures", "-", "-branches", "-quiet"); none.code != exitDone || !strings.Contains(none.out, "no game is played only if") {
		t.Errorf("exit %d: %s %s", none.code, none.out, none.errors)
	}
}

func TestInterrupt(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, errs bytes.Buffer
	if code := run(ctx, []string{"-quiet"}, strings.NewReader(""), &out, &errs); code != exitFault || out.Len() != 0 || !strings.Contains(errs.String(), "interrupted") {
		t.Errorf("exit %d: %q %q", code, out.String(), errs.String())
	}
}

// Open lists of fixtures, in the folder that OPEN_DATA names.
func TestOpenData(t *testing.T) {
	dir := os.Getenv("OPEN_DATA")
	if dir == "" {
		t.Skip("OPEN_DATA names no folder of fixture lists")
	}
	for _, name := range []string{"football-team-before.csv", "football-team-after.csv", "football-winter-break-team.csv", "volleyball-team.csv"} {
		got := try(t, "", "-quiet", "-fixtures", filepath.Join(dir, name))
		if got.code != exitDone || strings.Contains(got.out, "bounded") {
			t.Errorf("%s: exit %d\n%s\n%s", name, got.code, got.out, got.errors)
		}
		t.Logf("%s\n%s", name, got.out)
	}
}
