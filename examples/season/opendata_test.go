package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Real seasons, where they are at hand: whole leagues and single teams.
func TestOpenData(t *testing.T) {
	dir := os.Getenv("OPEN_DATA")
	if dir == "" {
		t.Skip("OPEN_DATA names no folder of fixture lists")
	}
	for _, c := range []struct{ file, team string }{
		{"football-team-before.csv", ""},
		{"football-team-after.csv", ""},
		{"football-winter-break-team.csv", ""},
		{"volleyball-team.csv", ""},
		{"football-season.csv", "T07"},
		{"volleyball-season.csv", "T05"},
	} {
		t.Run(c.file, func(t *testing.T) {
			b, err := os.ReadFile(filepath.Join(dir, c.file))
			if err != nil {
				t.Fatal(err)
			}
			in := files{"f.csv": string(b), "a.json": `{"id":"a","born":"1994-02","zone":"Europe/Berlin","trainingAgeYears":4}`}
			args := []string{"-fixtures", "f.csv", "-athlete", "a.json"}
			if c.team != "" {
				if got := run(t, in, args...); got.code != exitInput || !strings.Contains(got.stderr, c.team) {
					t.Errorf("without a team: exit %d: %s", got.code, got.stderr)
				}
				args = append(args, "-team", c.team)
			}
			got := run(t, in, args...)
			if got.code != exitPlanned {
				t.Fatalf("exit %d: %s", got.code, got.stderr)
			}
			checkInert(t, got.stdout)
			if !strings.Contains(got.stdout, "planned, and proved") {
				t.Error("not proved")
			}
			want := 0
			for _, line := range strings.Split(strings.TrimSpace(string(b)), "\n")[1:] {
				if c.team == "" || strings.Contains(line, ","+c.team+",") {
					want++
				}
			}
			if n := strings.Count(got.stdout, " GAME "); n != want || n < 20 {
				t.Errorf("%d games printed, want %d", n, want)
			}
		})
	}
}
