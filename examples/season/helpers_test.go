package main

import (
	"bytes"
	"context"
	"flag"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

var update = flag.Bool("update", false, "write the golden files anew")

// fakePlanner answers with a plan made by a function, so that a test need not
// know what the engine would do.
type fakePlanner func(*season.Request) (*season.Plan, error)

func (f fakePlanner) Plan(_ context.Context, r *season.Request) (*season.Plan, error) { return f(r) }

// bare is a plan without sessions.
func bare(r *season.Request) *season.Plan {
	now := r.Now
	if now.IsZero() {
		now = r.Athlete.Zone.DayStart(r.Period.From)
	}
	return &season.Plan{
		Schema: 1, ID: "test", Engine: 1, Now: now, Outcome: season.Planned, Proof: season.Proved,
		Period: r.Period, Zone: r.Athlete.Zone.Name(), RulesVersion: "1",
	}
}

// outcome is what a run leaves behind.
type outcome struct {
	code           int
	stdout, stderr string
}

// files maps names to texts; "-" is standard input.
type files map[string]string

func runWith(t *testing.T, pl planner, in files, args ...string) outcome {
	t.Helper()
	var stdout, stderr bytes.Buffer
	p := program{
		planner: pl, stdin: strings.NewReader(in["-"]), stdout: &stdout, stderr: &stderr,
		open: func(name string) (io.ReadCloser, error) {
			text, ok := in[name]
			if !ok {
				return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
			}
			return io.NopCloser(strings.NewReader(text)), nil
		},
	}
	code := p.run(context.Background(), args)
	return outcome{code, stdout.String(), stderr.String()}
}

// run uses the library's planner.
func run(t *testing.T, in files, args ...string) outcome {
	t.Helper()
	return runWith(t, new(periodize.Planner), in, args...)
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v (go test -update writes it)", err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("%s differs (go test -update writes it anew, -want +got):\n%.4000s", name, diff)
	}
}

func mustDate(t *testing.T, s string) calendar.Date {
	t.Helper()
	d, err := calendar.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func at(t *testing.T, z calendar.Zone, s string) time.Time {
	t.Helper()
	w, err := calendar.ParseWall(s)
	if err != nil {
		t.Fatal(err)
	}
	return z.Resolve(w).Instant.In(z.Location())
}

const smallTable = `date,time,tz,end,kind,status,importance,home_away,opponent,team
2026-11-08,14:00,Europe/Amsterdam,15:40,game,confirmed,important,home,Velm,
2026-11-10,19:00,Europe/Amsterdam,20:30,practice,,,,,
2026-11-12,19:00,Europe/Amsterdam,20:30,practice,,,,,
2026-11-15,14:00,Europe/Amsterdam,15:40,game,played,,away,Oostdam,
2026-11-18,,Europe/Amsterdam,,game,provisional,,away,Hoek,
2026-11-21,19:45,Europe/London,21:25,game,if-necessary,,away,Saltmarsh,
`

const smallAthlete = `{"id":"a-19","born":"2005-03","zone":"Europe/Amsterdam","trainingAgeYears":3,
 "hours":[{"days":["mon","tue","wed","thu","fri","sat","sun"],"from":"07:00","to":"21:00"}]}`

func wallTime(t *testing.T, text string) calendar.Wall {
	t.Helper()
	w, err := calendar.ParseWall(text)
	if err != nil {
		t.Fatal(err)
	}
	return w
}
