package main

import (
	"encoding/json"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/calendar/icalendar"
	"example.org/weft/periodize/season"
)

func TestDemo(t *testing.T) {
	for _, format := range []string{"text", "json", "ics"} {
		t.Run(format, func(t *testing.T) {
			got := demoRun(t, format)
			if got.code != exitPlanned {
				t.Fatalf("exit %d: %s", got.code, got.stderr)
			}
			golden(t, "demo."+format, got.stdout)
		})
	}
	if again := run(t, nil, "-format", "json"); again.stdout != demoRun(t, "json").stdout {
		t.Error("the same input gave other bytes")
	}
}

var demoRuns = map[string]outcome{}

// demoRun plans the demo once for each format.
func demoRun(t *testing.T, format string) outcome {
	t.Helper()
	got, ok := demoRuns[format]
	if !ok {
		got = run(t, nil, "-format", format)
		demoRuns[format] = got
	}
	return got
}

// The facts printed for the demo are those its list was made for.
func TestDemoFacts(t *testing.T) {
	in := &input{request: demo(), demo: true}
	var problems []calendar.Problem
	p := program{}
	in, problems = p.load(&options{format: "text"})
	if failed(problems) {
		t.Fatal(problems)
	}
	f := calendar.FactsOf(in.placed, in.request.Period.From, in.request.Period.To)
	breaks := 0
	for _, r := range f.Runs {
		if r.Class == calendar.Break {
			breaks++
			if r.Days != 21 || r.From != mustDate(t, "2026-12-19") {
				t.Errorf("break %v", r)
			}
		}
	}
	if breaks != 1 || len(f.BackToBack) != 2 || len(f.ThreeInSeven) < 3 || len(f.ClockChanges) != 2 || len(f.Under72) < 8 {
		t.Errorf("breaks %d, back to back %d, 3 in 7 %d, clocks %d, under 72 h %d", breaks, len(f.BackToBack), len(f.ThreeInSeven), len(f.ClockChanges), len(f.Under72))
	}
}

func TestCalendarReadsBack(t *testing.T) {
	var plan season.Plan
	if err := json.Unmarshal([]byte(demoRun(t, "json").stdout), &plan); err != nil {
		t.Fatal(err)
	}
	ics := demoRun(t, "ics")
	res, problems, err := icalendar.Read(strings.NewReader(ics.stdout), "out.ics", icalendar.Options{})
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	if len(res.Events) != len(plan.Sessions) || len(plan.Sessions) < 100 {
		t.Fatalf("%d events for %d sessions", len(res.Events), len(plan.Sessions))
	}
	for i, e := range res.Events {
		p, err := calendar.Place(e, calendar.Assumptions{})
		if err != nil {
			t.Fatal(err)
		}
		s := plan.Sessions[i]
		if !p.Span.Start.Equal(s.Start) || !p.Span.End.Equal(s.End) || !strings.HasPrefix(e.ID, s.ID+".") {
			t.Errorf("session %s %v-%v came back as %s %v", s.ID, s.Start, s.End, e.ID, p.Span)
		}
	}
	if strings.Contains(ics.stdout, "demo-17") {
		t.Error("the calendar names the athlete")
	}
}

func TestFixtures(t *testing.T) {
	in := files{"games.csv": smallTable, "a.json": smallAthlete}
	got := run(t, in, "-fixtures", "games.csv", "-athlete", "a.json")
	if got.code != exitPlanned {
		t.Fatalf("exit %d: %s", got.code, got.stderr)
	}
	golden(t, "fixtures.text", got.stdout)
	golden(t, "fixtures-reasons.text", run(t, in, "-fixtures", "games.csv", "-athlete", "a.json", "-v").stdout)
	unknown := run(t, in, "-fixtures", "games.csv")
	golden(t, "no-athlete.text", unknown.stdout)
	if !strings.Contains(unknown.stdout, "NOT KNOWN") {
		t.Error("an unknown age is not said at the top")
	}
	young := strings.Replace(smallAthlete, "2005-03", "2013-02", 1)
	young = strings.Replace(young, `"trainingAgeYears":3`, `"trainingAgeYears":0`, 1)
	minor := run(t, files{"games.csv": smallTable, "a.json": young}, "-fixtures", "games.csv", "-athlete", "a.json")
	if minor.code != exitPlanned {
		t.Fatalf("exit %d: %s", minor.code, minor.stderr)
	}
	golden(t, "minor.text", minor.stdout)
}

func TestPermutedRows(t *testing.T) {
	lines := strings.Split(strings.TrimSuffix(smallTable, "\n"), "\n")
	permuted := lines[0] + "\n"
	for i := len(lines) - 1; i > 0; i-- {
		permuted += lines[i] + "\n"
	}
	for _, format := range []string{"text", "json", "ics"} {
		args := []string{"-fixtures", "games.csv", "-athlete", "a.json", "-format", format}
		a := run(t, files{"games.csv": smallTable, "a.json": smallAthlete}, args...)
		b := run(t, files{"games.csv": permuted, "a.json": smallAthlete}, args...)
		if a.code != exitPlanned || a != b {
			t.Errorf("%s: permuted rows gave another result (exit %d, %d)", format, a.code, b.code)
		}
	}
	// Split over two files, in either order.
	head, rest := strings.Join(lines[:3], "\n")+"\n", lines[0]+"\n"+strings.Join(lines[3:], "\n")+"\n"
	one := run(t, files{"a.csv": head, "b.csv": rest}, "-fixtures", "a.csv", "-fixtures", "b.csv", "-format", "json")
	two := run(t, files{"a.csv": head, "b.csv": rest}, "-fixtures", "b.csv", "-fixtures", "a.csv", "-format", "json")
	if one.code != exitPlanned || one.stdout != two.stdout {
		t.Errorf("the order of the files shows (exit %d, %d)", one.code, two.code)
	}
}
