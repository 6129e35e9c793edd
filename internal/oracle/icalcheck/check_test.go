package icalcheck

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"
	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
	"example.org/weft/calendar/icalendar"
)

// found is what a reader says about an event.
type found struct {
	Start       string `json:"start"`
	End         string `json:"end"`
	Summary     string `json:"summary"`
	Description string `json:"description"`
	Status      string `json:"status"`
	Sequence    int    `json:"sequence"`
}

// Zones with odd changes: half an hour, a summer time that the law calls normal,
// Ramadan, one hour west, 45 minutes off, the south.
var zoneNames = []string{
	"Australia/Lord_Howe", "Europe/Dublin", "Africa/Casablanca",
	"America/Halifax", "Pacific/Chatham", "America/Santiago",
}

var stamp = time.Unix(1_790_000_000, 0)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func show(t time.Time) string { return t.UTC().Format("2006-01-02T15:04:05.000Z") }

// entries cover two years of each zone: twice every fifth day, and every quarter
// of an hour within three hours of each clock change. With all, times that a change
// skips or doubles are among them. What each reader must find comes along.
func entries(all bool) (icalendar.Calendar, map[string]found) {
	c := icalendar.Calendar{Name: "Invented"}
	want := map[string]found{}
	add := func(z calendar.Zone, w calendar.Wall, minutes int) {
		r := z.Resolve(w)
		if r.Fit != calendar.Exact && !all {
			return
		}
		n := len(c.Entries)
		e := icalendar.Entry{
			UID: fmt.Sprintf("%d@example.org", n), Start: w, Zone: z, Stamp: stamp, Sequence: n % 5,
			Summary:     fmt.Sprintf("Größe %d, \"heavy\"; für %s \\ 日本語の長い名前がここにあり、折り返される", n, z.Name()),
			Description: "one\ntwo; three, four",
			Cancelled:   n%7 == 3, Provisional: n%7 == 4,
		}
		f := found{Start: show(r.Instant), Summary: e.Summary, Description: e.Description, Status: "CONFIRMED", Sequence: e.Sequence}
		switch {
		case e.Cancelled:
			f.Status = "CANCELLED"
		case e.Provisional:
			f.Status = "TENTATIVE"
		}
		end := z.Local(r.Instant.Add(time.Duration(minutes) * time.Minute))
		if er := z.Resolve(end); er.Fit == calendar.Exact && er.Instant.After(r.Instant) {
			e.End, f.End = end, show(er.Instant)
		} else {
			return
		}
		c.Entries = append(c.Entries, e)
		want[e.UID] = f
	}
	first := must(calendar.NewDate(2026, 1, 1))
	for _, name := range zoneNames {
		z := must(calendar.LoadZone(name))
		span := calendar.Span{Start: z.DayStart(first), End: z.DayStart(first.AddDays(730))}
		for n := 0; n < 2*146; n++ {
			add(z, calendar.Wall{Date: first.AddDays(n / 2 * 5), Clock: calendar.Clock(n%2*12*3600 + 3*3600)}, 75)
		}
		for _, change := range z.Transitions(span) {
			near := z.Local(change.At)
			near.Clock -= near.Clock % 900
			for q := -12; q <= 12; q++ {
				add(z, near.AddMinutes(15*q), 90)
			}
		}
	}
	for n := 0; n < 20; n++ {
		e := icalendar.Entry{
			UID: fmt.Sprintf("day%d@example.org", n), Start: calendar.Wall{Date: first.AddDays(37 * n)}, AllDay: true,
			Zone: must(calendar.LoadZone("Europe/Dublin")), Stamp: stamp, End: calendar.Wall{Date: first.AddDays(37*n + 1 + n%3)},
		}
		c.Entries = append(c.Entries, e)
		want[e.UID] = found{Start: e.Start.Date.String(), End: e.End.Date.String(), Status: "CONFIRMED"}
	}
	return c, want
}

// write returns a file with the calendar; with unnamed, its zones have names that
// only its own VTIMEZONE explain.
func write(t *testing.T, c icalendar.Calendar, unnamed bool) (path, text string) {
	t.Helper()
	var b bytes.Buffer
	if err := icalendar.Write(&b, c); err != nil {
		t.Fatal(err)
	}
	text = b.String()
	if unnamed {
		for _, n := range zoneNames {
			text = strings.ReplaceAll(text, "TZID:"+n+"\r\n", "TZID:Club-"+strings.ReplaceAll(n, "/", "-")+"\r\n")
			text = strings.ReplaceAll(text, "TZID="+n+":", "TZID=Club-"+strings.ReplaceAll(n, "/", "-")+":")
		}
	}
	path = filepath.Join(t.TempDir(), "c.ics")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path, text
}

// missing skips the test, or fails it where the readers must be there.
func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("WEFT_EXTERNAL") == "1" {
		t.Fatalf("%s, and WEFT_EXTERNAL=1 wants it", what)
	}
	t.Skipf("%s: not compared", what)
}

func run(t *testing.T, name string, args ...string) map[string]found {
	t.Helper()
	cmd := exec.Command(name, args...)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, stderr.String())
	}
	var got map[string]found
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatalf("%v: %.300s", err, out)
	}
	return got
}

func compare(t *testing.T, want, got map[string]found) {
	t.Helper()
	if len(want) < 2000 {
		t.Fatalf("only %d events", len(want))
	}
	bad := 0
	for uid, w := range want {
		if d := cmp.Diff(w, got[uid]); d != "" {
			if bad++; bad <= 5 {
				t.Errorf("%s (-want +got):\n%s", uid, d)
			}
		}
	}
	if bad > 0 || len(want) != len(got) {
		t.Errorf("%d of %d events differ; %d found", bad, len(want), len(got))
	}
}

func node(t *testing.T, library string) string {
	t.Helper()
	path, err := exec.LookPath("node")
	if err != nil {
		missing(t, "node is not installed")
	}
	if _, err := os.Stat(filepath.Join("node_modules", library)); err != nil {
		missing(t, library+" is not installed (run npm ci in internal/oracle/icalcheck)")
	}
	return path
}

// ical.js takes zones from the VTIMEZONE of the file.
func TestICALJS(t *testing.T) {
	path := node(t, "ical.js")
	for _, unnamed := range []bool{false, true} {
		c, want := entries(false)
		file, _ := write(t, c, unnamed)
		compare(t, want, run(t, path, "read.mjs", "ical.js", file))
	}
}

// node-ical takes zones from the data of moment-timezone, by their names.
func TestNodeICAL(t *testing.T) {
	path := node(t, "node-ical")
	c, want := entries(false)
	file, _ := write(t, c, false)
	compare(t, want, run(t, path, "read.mjs", "node-ical", file))
}

func TestPython(t *testing.T) {
	python := ""
	for _, p := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(p, "-c", "import icalendar").Run() == nil {
			python = p
			break
		}
	}
	if python == "" {
		missing(t, "no python3 with the module icalendar (Debian: python3-icalendar)")
	}
	// By the names of the zones, and by their VTIMEZONE alone.
	for _, unnamed := range []bool{false, true} {
		c, want := entries(false)
		file, _ := write(t, c, unnamed)
		compare(t, want, run(t, python, "read.py", file))
	}
}

// golang-ical takes zones from the Go data, by their names.
func TestGolangICAL(t *testing.T) {
	c, want := entries(false)
	_, text := write(t, c, false)
	cal, err := ics.ParseCalendar(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	value := func(e *ics.VEvent, p ics.ComponentProperty) string {
		if v := e.GetProperty(p); v != nil {
			return ics.FromText(v.Value)
		}
		return ""
	}
	got := map[string]found{}
	for _, e := range cal.Events() {
		f := found{Summary: value(e, ics.ComponentPropertySummary), Description: value(e, ics.ComponentPropertyDescription), Status: value(e, ics.ComponentPropertyStatus)}
		fmt.Sscan(value(e, ics.ComponentPropertySequence), &f.Sequence)
		start, err := e.GetStartAt()
		if err != nil {
			t.Fatal(err)
		}
		end, err := e.GetEndAt()
		if err != nil {
			t.Fatal(err)
		}
		f.Start, f.End = show(start), show(end)
		if e.GetProperty(ics.ComponentPropertyDtStart).ICalParameters["VALUE"] != nil {
			f.Start, f.End = start.Format("2006-01-02"), end.Format("2006-01-02")
		}
		got[e.Id()] = f
	}
	compare(t, want, got)
}

// Our own reader finds the same, also where a clock change skips or doubles a
// time, by the names of the zones and by their VTIMEZONE alone.
func TestOwn(t *testing.T) {
	for _, unnamed := range []bool{false, true} {
		c, want := entries(true)
		_, text := write(t, c, unnamed)
		opt := icalendar.Options{DefaultZone: must(calendar.LoadZone("Europe/Dublin"))}
		res, problems, err := icalendar.Read(strings.NewReader(text), "c.ics", opt)
		if err != nil || res.Events == nil {
			t.Fatal(err, problems)
		}
		got := map[string]found{}
		for _, e := range res.Events {
			f := found{Summary: e.Title, Status: map[calendar.Status]string{calendar.Confirmed: "CONFIRMED", calendar.Provisional: "TENTATIVE", calendar.Cancelled: "CANCELLED"}[e.Status], Sequence: e.Revision}
			if e.DateOnly {
				f.Start, f.End = e.Start.Date.String(), e.Start.Date.AddDays(1).String()
				if e.HasEnd {
					f.End = e.End.Date.String()
				}
			} else {
				f.Start, f.End = show(e.Zone.Resolve(e.Start).Instant), show(e.Zone.Resolve(e.End).Instant)
			}
			for _, p := range e.Unknown {
				if p.Name == "DESCRIPTION" {
					f.Description = "one\ntwo; three, four"
					if p.Value != `one\ntwo\; three\, four` {
						f.Description = p.Value
					}
				}
			}
			got[e.ID] = f
		}
		compare(t, want, got)
	}
}
