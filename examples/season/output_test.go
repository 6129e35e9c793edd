package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"example.org/weft/periodize/season"
)

func TestExitCodes(t *testing.T) {
	refused := fakePlanner(func(r *season.Request) (*season.Plan, error) {
		p := bare(r)
		p.Outcome = season.Refused
		p.Refusals = []season.Note{season.NewNote("refusal-under-12", season.Subject{}, "", nil)}
		return p, nil
	})
	got := runWith(t, refused, nil)
	if got.code != exitRefused || !strings.Contains(got.stdout, "NOTHING MAY BE PLANNED") || !strings.Contains(got.stderr, "refusal: under 12") {
		t.Errorf("refused: exit %d\n%s\n%s", got.code, got.stderr, got.stdout)
	}
	if got := runWith(t, refused, nil, "-format", "ics"); got.code != exitRefused || !strings.HasPrefix(got.stdout, "BEGIN:VCALENDAR") || strings.Contains(got.stdout, "VEVENT") {
		t.Errorf("refused calendar: exit %d\n%s", got.code, got.stdout)
	}
	// By the library itself: under 12, and on hold.
	for name, athlete := range map[string]string{
		"under 12": `{"zone":"Europe/Berlin","born":"2016-05"}`,
		"hold":     `{"zone":"Europe/Berlin","born":"2000-05","trainingAgeYears":2,"holds":[{"from":"2026-10-01"}]}`,
	} {
		got := run(t, files{"a.json": athlete, "f.csv": smallTable}, "-fixtures", "f.csv", "-athlete", "a.json")
		if got.code != exitRefused || !strings.Contains(got.stdout, "refused") {
			t.Errorf("%s: exit %d\n%s\n%s", name, got.code, got.stderr, got.stdout)
		}
	}
	got = runWith(t, fakePlanner(func(*season.Request) (*season.Plan, error) { return nil, errors.New("a gear \x1b[31mslipped") }), nil)
	if got.code != exitFault || got.stdout != "" || strings.Contains(got.stderr, "\x1b") || !strings.Contains(got.stderr, "a gear") {
		t.Errorf("fault: exit %d, %q", got.code, got.stderr)
	}
}

func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	var stdout, stderr bytes.Buffer
	p := program{
		planner: fakePlanner(func(*season.Request) (*season.Plan, error) { cancel(); return nil, ctx.Err() }),
		stdin:   strings.NewReader(""), stdout: &stdout, stderr: &stderr, open: openFile,
	}
	if code := p.run(ctx, nil); code != exitFault || stdout.Len() > 0 || !strings.Contains(stderr.String(), "interrupted") {
		t.Errorf("exit %d, %q, %q", code, stdout.String(), stderr.String())
	}
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, errors.New("broken pipe") }

func TestWriteFails(t *testing.T) {
	var stderr bytes.Buffer
	p := program{planner: fakePlanner(func(r *season.Request) (*season.Plan, error) { return bare(r), nil }), stdout: brokenPipe{}, stderr: &stderr}
	if code := p.run(context.Background(), nil); code != exitFault || !strings.Contains(stderr.String(), "broken pipe") {
		t.Errorf("exit %d, %q", code, stderr.String())
	}
}

func TestOut(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "plan.txt")
	planned := fakePlanner(func(r *season.Request) (*season.Plan, error) { return bare(r), nil })
	if got := runWith(t, planned, nil, "-out", name); got.code != exitPlanned || got.stdout != "" {
		t.Fatalf("exit %d: %s", got.code, got.stderr)
	}
	first, err := os.ReadFile(name)
	if err != nil || !bytes.HasPrefix(first, []byte("SEASON PLAN")) {
		t.Fatal(err, string(first))
	}
	if info, err := os.Stat(name); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Error(err, info.Mode())
	}
	// Bad input and faults leave the file as it was.
	for _, args := range [][]string{{"-from", "x", "-out", name}, {"-format", "odt", "-out", name}} {
		if got := runWith(t, planned, nil, args...); got.code != exitInput {
			t.Errorf("exit %d", got.code)
		}
	}
	runWith(t, fakePlanner(func(*season.Request) (*season.Plan, error) { return nil, errors.New("fault") }), nil, "-out", name)
	if now, _ := os.ReadFile(name); !bytes.Equal(now, first) {
		t.Error("a failed run changed the file")
	}
	// A file is replaced as a whole and keeps its permissions.
	if err := os.Chmod(name, 0o640); err != nil {
		t.Fatal(err)
	}
	if err := writeFile(name, []byte("new")); err != nil {
		t.Fatal(err)
	}
	if now, _ := os.ReadFile(name); string(now) != "new" {
		t.Errorf("%q", now)
	}
	if info, err := os.Stat(name); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o640 {
		t.Error(err, info.Mode())
	}
	if got := runWith(t, planned, nil, "-out", filepath.Join(dir, "no", "such", "plan.txt")); got.code != exitFault {
		t.Errorf("no folder: exit %d", got.code)
	}
	// What cannot take the name is left as it was, and nothing stays behind.
	if err := os.Mkdir(filepath.Join(dir, "taken"), 0o755); err != nil {
		t.Fatal(err)
	}
	if got := runWith(t, planned, nil, "-out", filepath.Join(dir, "taken")); got.code != exitFault {
		t.Errorf("a folder: exit %d", got.code)
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 2 {
		t.Errorf("left behind: %v %v", left, err)
	}
}
