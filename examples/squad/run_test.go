package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

var update = flag.Bool("update", false, "write the golden file anew")

func call(t *testing.T, want int, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	if got := run(context.Background(), args, &out, &errs); got != want {
		t.Fatalf("%v: exit %d, want %d: %s", args, got, want, errs.String())
	}
	return out.String(), errs.String()
}

func TestClubIsWhatItsConstantsSay(t *testing.T) {
	r := club(8)
	for _, p := range r.Validate() {
		t.Error(p.Error())
	}
	if len(r.Athletes) != 30 || r.Period.Days() != dates {
		t.Errorf("%d athletes, %d dates", len(r.Athletes), r.Period.Days())
	}
	for _, x := range teams {
		for _, g := range x.games {
			if _, err := calendar.ParseWall(g); err != nil {
				t.Error(err)
			}
		}
	}
}

func TestText(t *testing.T) {
	got, line := call(t, exitDone)
	if !strings.Contains(line, "\r") || !strings.Contains(line, "rounds") {
		t.Errorf("no line that counts: %q", line)
	}
	if !strings.Contains(got, "Invented example") || !strings.Contains(got, "made up") {
		t.Error("it does not say that it is invented")
	}
	file := filepath.Join("testdata", "plan.txt")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the plan is not that of %s; -update writes it anew:\n%s", file, got)
	}
	for _, row := range strings.Split(got, "\n") {
		if len(row) > 150 || strings.TrimRight(row, " ") != row {
			t.Errorf("row %q", row)
		}
	}
}

func TestJSON(t *testing.T) {
	if testing.Short() {
		t.Skip("plans a squad several times")
	}
	one, _ := call(t, exitDone, "-format", "json", "-quiet", "-workers", "1")
	eight, _ := call(t, exitDone, "-format", "json", "-quiet", "-workers", "8")
	if one != eight {
		t.Error("eight workers write other bytes")
	}
	var p squad.Plan
	if err := json.Unmarshal([]byte(one), &p); err != nil {
		t.Fatal(err)
	}
	if len(p.Athletes) != 30 || p.Proof != season.Proved {
		t.Errorf("%d athletes, %s", len(p.Athletes), p.Proof)
	}
}

func TestReplanned(t *testing.T) {
	if testing.Short() {
		t.Skip("plans a squad several times")
	}
	got, _ := call(t, exitDone, "-quiet", "-broken", "1")
	if !strings.Contains(got, "Planned again from Mon 12 Oct with 7 places") || !strings.Contains(got, "  now ") {
		t.Error(got[strings.LastIndex(got, "Planned"):])
	}
}

func TestBadInput(t *testing.T) {
	for _, args := range [][]string{{"-places", "0"}, {"-format", "pdf"}, {"more"}, {"-no-such-flag"}, {"-broken", "8"}, {"-format", "json", "-worth"}} {
		if out, errs := call(t, exitInput, args...); out != "" || errs == "" {
			t.Errorf("%v: wrote %q, said %q", args, out, errs)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, errs bytes.Buffer
	if got := run(ctx, []string{"-quiet"}, &out, &errs); got != exitFault || out.Len() > 0 {
		t.Errorf("interrupted: exit %d, wrote %q", got, out.String())
	}
}

// TestRequest: the club as a file gives the plan of the club, and its plan handed back
// with a place less moves some people and says whom.
func TestRequest(t *testing.T) {
	if testing.Short() {
		t.Skip("plans a squad several times")
	}
	dir := t.TempDir()
	write := func(name string, v any) string {
		b, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, b, 0o644); err != nil {
			t.Fatal(err)
		}
		return file
	}
	r := club(8)
	r.Period.To = r.Period.From.AddDays(13)
	file, plan := write("club.json", r), filepath.Join(dir, "plan.json")
	call(t, exitDone, "-quiet", "-request", file, "-strict", "-format", "json", "-out", plan)
	text, _ := call(t, exitDone, "-quiet", "-request", file)
	if strings.Contains(text, "Invented") || strings.Contains(text, "made up") {
		t.Error("a squad of one's own is called invented")
	}
	r.Halls[0].Capacity = 7
	r.Now = r.Athletes[0].Season.Athlete.Zone.DayStart(r.Period.From.AddDays(2))
	less := write("less.json", r)
	text, _ = call(t, exitDone, "-quiet", "-request", less, "-issued", plan)
	if !strings.Contains(text, "Planned again from Wed 7 Oct with 7 places: ") || !strings.Contains(text, "  now ") {
		t.Error(text)
	}
	html, _ := call(t, exitDone, "-quiet", "-request", file, "-format", "html", "-hall", "hall")
	if strings.Contains(html, "Invented") || !strings.Contains(html, `class="slot"`) {
		t.Error("the chart of a squad of one's own")
	}
	call(t, exitInput, "-quiet", "-request", file, "-format", "html", "-hall", "cellar")
	bad := filepath.Join(dir, "bad.json")
	if err := os.WriteFile(bad, []byte(`{"schema": 1, "halls": [{"id": "h", "capacity": 0, "slotMinutes": 50, "hours": []}], "athletes": [], "colour": 3}`), 0o644); err != nil {
		t.Fatal(err)
	}
	_, errs := call(t, exitInput, "-quiet", "-request", bad)
	for _, path := range []string{"/period:", "/athletes:", "/halls/0/capacity:", "/halls/0/hours:", "/colour: warning"} {
		if !strings.Contains(errs, path) {
			t.Errorf("nothing about %s in\n%s", path, errs)
		}
	}
	call(t, exitInput, "-quiet", "-request", filepath.Join(dir, "none.json"))
	call(t, exitInput, "-quiet", "-request", file, "-places", "7")
	call(t, exitInput, "-quiet", "-issued", plan)
}
