package main

import (
	"fmt"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

var hostile = []string{
	"\x1b[2J\x1b[31mred", "a\r\nBEGIN:VEVENT", "\u202Egnp.exe", "<script>alert(1)</script>", "tab\tand\x00nul",
	strings.Repeat("long ", 400), strings.Repeat("x", 5000), "\xff\xfe broken", "\u2028line", "", "\u200b", "=cmd()", "%s%n", " around ",
}

func checkInert(t *testing.T, text string) {
	t.Helper()
	if !strings.HasSuffix(text, "\n") {
		t.Error("the text does not end with a line end")
	}
	for n, line := range strings.Split(text, "\n") {
		for _, r := range line {
			if r == utf8.RuneError || r != ' ' && !unicode.IsPrint(r) {
				t.Fatalf("line %d holds %q: %q", n+1, r, line)
			}
		}
		if k := utf8.RuneCountInString(line); k > width {
			t.Errorf("line %d is %d characters wide: %.150q", n+1, k, line)
		}
		if strings.HasSuffix(line, " ") {
			t.Errorf("line %d ends with a space: %q", n+1, line)
		}
	}
}

// hostilePlan is a plan full of a text that nobody should have to read.
func hostilePlan(r *season.Request, s string) *season.Plan {
	p := bare(r)
	z := r.Athlete.Zone
	start := z.DayStart(r.Period.From).AddDate(0, 0, 1).Add(17 * 3600e9).In(z.Location())
	note := season.Note{Code: s, Class: season.Why, Rule: s, Text: s, Subject: season.Subject{Event: s}, Values: season.Values{"event": season.Value{Text: s, IsText: true}}}
	p.ID, p.RulesVersion = s, s
	p.Sessions = []season.Session{{ID: s, Start: start, End: start.Add(3600e9), Date: r.Period.From.AddDays(1), Minutes: 60, Place: s, Kind: season.Kind(s), State: season.State(s), Why: []season.Note{note}}}
	p.Missed = []season.Missed{{Aim: s, From: r.Period.From, To: r.Period.To, Event: s, Text: s, InTheWay: []season.InTheWay{{Rule: s, Event: s}}}}
	p.Findings, p.Questions, p.Refusals, p.Warnings = []season.Note{note}, []season.Note{note}, []season.Note{note}, []season.Note{note}
	p.Changes = []season.Change{{Change: season.Dropped, Session: s + "-old", Kind: season.Kind(s), From: &start, Cause: []season.Note{note}}}
	return p
}

func hostileInput(t *testing.T, s string) *input {
	t.Helper()
	r := demo()
	r.Period.To = r.Period.From.AddDays(27)
	r.Athlete.ID = s
	for i := range r.Events {
		e := &r.Events[i]
		e.Title, e.Opponent, e.Competition, e.Round, e.Home = s, s, s, s, s
		if i == 0 {
			e.ID = s
		}
	}
	r.Places[0].ID = s
	in := &input{request: r, period: s}
	for _, e := range r.Events {
		p, err := calendar.Place(e, calendar.Assumptions{})
		if err != nil {
			t.Fatal(err)
		}
		in.placed = append(in.placed, p)
	}
	return in
}

func TestHostileNames(t *testing.T) {
	for _, s := range hostile {
		in := hostileInput(t, s)
		in.rules = defaultRules()
		plan := hostilePlan(in.request, s)
		for _, verbose := range []bool{false, true} {
			checkInert(t, string(text(in, plan, verbose)))
		}
		var b strings.Builder
		if err := writeCalendar(&b, in, plan); err != nil {
			t.Errorf("%q: %v", s, err)
		}
		if n := strings.Count(b.String(), "\r\nBEGIN:VEVENT\r\n"); n != 2 {
			t.Errorf("%q: %d events in the calendar", s, n)
		}
	}
}

func FuzzText(f *testing.F) {
	for _, s := range hostile {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		in := hostileInput(t, s)
		in.rules = defaultRules()
		plan := hostilePlan(in.request, s)
		checkInert(t, string(text(in, plan, true)))
		var b strings.Builder
		if err := writeCalendar(&b, in, plan); err != nil {
			t.Error(err)
		}
	})
}

// A printed demo keeps to its width too.
func TestDemoIsInert(t *testing.T) { checkInert(t, demoRun(t, "text").stdout) }

// Every kind of line a week can hold, without the engine.
func TestWeeks(t *testing.T) {
	berlin, err := calendar.LoadZone("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	tokyo, err := calendar.LoadZone("Asia/Tokyo")
	if err != nil {
		t.Fatal(err)
	}
	w := func(s string) calendar.Wall {
		x, err := calendar.ParseWall(s)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	game := func(id, start, end string, z calendar.Zone) calendar.Event {
		return calendar.Event{ID: id, Kind: calendar.Game, Start: w(start), End: w(end), HasEnd: true, Zone: z, Opponent: "Team " + id}
	}
	late := game("late", "2026-10-16T22:30", "2026-10-17T00:20", berlin)
	far := game("far", "2026-10-20T03:00", "2026-10-20T05:00", tokyo)
	gone := game("gone", "2026-10-21T19:00", "2026-10-21T21:00", berlin)
	gone.Status = calendar.Cancelled
	trip := calendar.Event{ID: "trip", Kind: calendar.Travel, Start: w("2026-10-17T20:00"), End: w("2026-10-19T06:30"), HasEnd: true, Zone: berlin}
	shut := calendar.Event{ID: "shut", Kind: calendar.Closure, Title: "holiday", DateOnly: true, Start: w("2026-10-22T00:00"), End: w("2026-10-24T00:00"), HasEnd: true, Zone: berlin}
	r := &season.Request{Period: season.Period{From: mustDate(t, "2026-10-15"), To: mustDate(t, "2026-10-26")}, Athlete: season.Athlete{ID: "x", Zone: berlin},
		Events: []calendar.Event{shut, trip, gone, far, late},
		Places: []season.Place{{ID: "gym"}, {ID: "home", Closed: []season.Period{{From: mustDate(t, "2026-10-25"), To: mustDate(t, "2026-12-01")}}}}}
	session := func(id, start, end, place string, kind season.Kind, codes ...string) season.Session {
		s := season.Session{ID: id, Start: at(t, berlin, start), End: at(t, berlin, end), Date: mustDate(t, start[:10]), Place: place, Kind: kind, State: season.AsWritten}
		s.Minutes = int(s.End.Sub(s.Start).Minutes())
		for _, c := range codes {
			s.Why = append(s.Why, season.NewNote(c, season.Subject{}, "", season.Values{"hours": season.Str("5 h"), "minutes": season.Int(30)}))
		}
		return s
	}
	got := runWith(t, fakePlanner(func(r *season.Request) (*season.Plan, error) {
		p := bare(r)
		p.Proof, p.Cost = season.Bounded, season.Cost{Broken: 1, Points: 90, Bound: 60}
		p.Sessions = []season.Session{
			session("a", "2026-10-15T17:00", "2026-10-15T17:45", "gym", season.Trimmed, "why-first-full-body", "why-trimmed"),
			session("b", "2026-10-19T08:00", "2026-10-19T08:40", "home", season.Recovery, "why-pinned", "why-recovery-count"),
			session("c", "2026-10-24T10:00", "2026-10-24T10:55", "gym", season.FullBody, "why-full-body-open"),
			session("d", "2026-10-26T17:00", "2026-10-26T17:30", "gym", season.Primer, "why-done"),
		}
		p.Sessions[3].State = season.DoneState
		from := p.Sessions[0].Start.AddDate(0, 0, -1)
		p.Changes = []season.Change{
			{Change: season.Moved, Session: "a", Kind: season.Trimmed, OldKind: season.FullBody, From: &from, To: &p.Sessions[0].Start, Cause: []season.Note{season.NewNote("cause-other", season.Subject{}, "", nil)}},
			{Change: season.Added, Session: "b", Kind: season.Recovery, To: &p.Sessions[1].Start},
			{Change: season.Unchanged, Session: "c", Kind: season.FullBody, From: &p.Sessions[2].Start, To: &p.Sessions[2].Start},
		}
		d := r.Period.From
		p.Missed = []season.Missed{
			{Aim: "second-full-body", From: d, To: d.AddDays(3), Wanted: 2, Got: 1, Points: 120, InTheWay: []season.InTheWay{{Rule: "heavy-before-game", Event: "late"}, {Rule: "lifts-in-7"}, {Rule: "primer", Event: "far"}}},
			{Aim: "empty-run", From: d.AddDays(5), To: d.AddDays(8), Wanted: 3, Got: 4, Points: 2240, InTheWay: []season.InTheWay{{Rule: "event-overlap", Event: "shut"}}},
			{Aim: "size", From: d, To: d, Session: "a", Points: 1, InTheWay: []season.InTheWay{{Rule: "size"}}},
		}
		p.Findings = []season.Note{season.NewNote("finding-no-full-body-7", season.Subject{}, "", season.Values{"from": season.Str("2026-10-16"), "to": season.Str("2026-10-23"), "days": season.Int(8)})}
		return p, nil
	}), files{"r.json": requestText(t, r)}, "-request", "r.json")
	if got.code != exitPlanned {
		t.Fatalf("exit %d: %s", got.code, got.stderr)
	}
	golden(t, "weeks.text", got.stdout)
}

func requestText(t *testing.T, r *season.Request) string {
	t.Helper()
	b, err := r.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// Every code has words, so that none shows as a code.
func TestWords(t *testing.T) {
	codes := map[string]bool{}
	for _, c := range season.Codes() {
		codes[c.Code] = true
	}
	for c := range shortWhy {
		if !codes[c] {
			t.Errorf("%s is no code", c)
		}
	}
	for id := range aimWords {
		if !isAim(id) {
			t.Errorf("%s is no aim", id)
		}
	}
	for id := range limitWords {
		if ruleKnown(id) == "" {
			t.Errorf("%s is no limit", id)
		}
	}
	for _, want := range []string{"important-48h", "recovery-count"} {
		if convenience(want) {
			t.Errorf("%s is called a convenience", want)
		}
	}
	if !convenience("size") || convenience("lifts-in-7") {
		t.Error("conveniences are not told apart")
	}
	if n := fmt.Sprint(telling["why-pinned"] < telling["why-trimmed"]); n != "true" {
		t.Error("a pin must be told first")
	}
}
