package calendar_test

import (
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
)

// event writes an event from its start, "2026-11-08" for a date only, and end.
func event(t testing.TB, kind calendar.Kind, zoneName, start, end string) calendar.Event {
	t.Helper()
	e := calendar.Event{Kind: kind, Zone: zone(t, zoneName)}
	if len(start) == 10 {
		e.DateOnly, e.Start.Date = true, date(t, start)
	} else {
		e.Start = wall(t, start)
	}
	if end != "" {
		e.HasEnd, e.End = true, wall(t, end)
	}
	return e
}

func TestPlace(t *testing.T) {
	for _, c := range []struct {
		name        string
		event       calendar.Event
		start, end  string
		date        string
		assumed     bool
		fit, endFit calendar.Fit
	}{
		{"a game, end assumed", event(t, calendar.Game, "Europe/Berlin", "2026-11-14T19:45", ""),
			"2026-11-14T18:45:00Z", "2026-11-14T20:45:00Z", "2026-11-14", true, calendar.Exact, calendar.Unresolved},
		{"a game that ends after midnight belongs to the date it starts on", event(t, calendar.Game, "Europe/Berlin", "2026-11-14T22:30", "2026-11-15T00:40"),
			"2026-11-14T21:30:00Z", "2026-11-14T23:40:00Z", "2026-11-14", false, calendar.Exact, calendar.Exact},
		{"the date is that of the zone of the game", event(t, calendar.Game, "Pacific/Auckland", "2027-02-20T10:00", ""),
			"2027-02-19T21:00:00Z", "2027-02-19T23:00:00Z", "2027-02-20", true, calendar.Exact, calendar.Unresolved},
		{"a start at 24:00 is on the next date", event(t, calendar.Game, "UTC", "2026-11-14T24:00", ""),
			"2026-11-15T00:00:00Z", "2026-11-15T02:00:00Z", "2026-11-15", true, calendar.Exact, calendar.Unresolved},
		{"a game without a time", event(t, calendar.Game, "Europe/Berlin", "2026-11-14", ""),
			"2026-11-14T08:00:00Z", "2026-11-14T21:00:00Z", "2026-11-14", true, calendar.Exact, calendar.Exact},
		{"a closed date of 25 hours", event(t, calendar.Closure, "Europe/Berlin", "2026-10-25", ""),
			"2026-10-24T22:00:00Z", "2026-10-25T23:00:00Z", "2026-10-25", false, calendar.Exact, calendar.Exact},
		{"several dates; the end is the first date free again", event(t, calendar.Closure, "Europe/Berlin", "2026-12-24", "2027-01-02T00:00"),
			"2026-12-23T23:00:00Z", "2027-01-01T23:00:00Z", "2026-12-24", false, calendar.Exact, calendar.Exact},
		{"a skipped start uses the offset before the gap", event(t, calendar.Game, "America/New_York", "2026-03-08T02:30", ""),
			"2026-03-08T07:30:00Z", "2026-03-08T09:30:00Z", "2026-03-08", true, calendar.Skipped, calendar.Unresolved},
		{"a doubled start is the first, a doubled end too", event(t, calendar.Game, "Europe/Berlin", "2026-10-25T01:30", "2026-10-25T02:30"),
			"2026-10-24T23:30:00Z", "2026-10-25T00:30:00Z", "2026-10-25", false, calendar.Exact, calendar.Doubled},
		{"busy for no time", event(t, calendar.Busy, "UTC", "2026-11-14T19:45", "2026-11-14T19:45"),
			"2026-11-14T19:45:00Z", "2026-11-14T19:45:00Z", "2026-11-14", false, calendar.Exact, calendar.Exact},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := calendar.Place(c.event, calendar.Assumptions{})
			if err != nil {
				t.Fatal(err)
			}
			if !p.Span.Equal(calendar.Span{Start: instant(t, c.start), End: instant(t, c.end)}) {
				t.Errorf("span %v to %v", p.Span.Start, p.Span.End)
			}
			if p.Date.String() != c.date || p.EndAssumed != c.assumed || p.Fit != c.fit || p.EndFit != c.endFit {
				t.Errorf("date %s, assumed %v, fit %v and %v", p.Date, p.EndAssumed, p.Fit, p.EndFit)
			}
		})
	}
}

func TestPlaceActualEnd(t *testing.T) {
	e := event(t, calendar.Game, "Europe/Berlin", "2026-11-14T19:45", "2026-11-14T21:30")
	e.HasActualEnd, e.ActualEnd = true, wall(t, "2026-11-14T22:10")
	p, err := calendar.Place(e, calendar.Assumptions{})
	if err != nil || !p.Span.End.Equal(instant(t, "2026-11-14T21:10:00Z")) {
		t.Error(p.Span, err)
	}
	// A trip ends by the clock of where it ends.
	e = event(t, calendar.Travel, "Pacific/Auckland", "2027-02-20T16:00", "2027-02-20T07:00")
	e.EndZone = zone(t, "Pacific/Honolulu")
	p, err = calendar.Place(e, calendar.Assumptions{})
	if err != nil || p.Span.Duration() != 14*time.Hour {
		t.Error(p.Span.Duration(), err)
	}
}

// An event between two equal hours: the end is never before the start.
func TestPlaceSecondHour(t *testing.T) {
	e := event(t, calendar.Busy, "UTC", "2026-10-25T01:05", "2026-10-25T02:20")
	e.EndZone = zone(t, "Europe/Berlin")
	p, err := calendar.Place(e, calendar.Assumptions{})
	if err != nil || p.Span.Duration() != 15*time.Minute {
		t.Error(p.Span, err)
	}
}

func TestPlaceRefused(t *testing.T) {
	good := event(t, calendar.Game, "Europe/Berlin", "2026-11-14T19:45", "2026-11-14T21:30")
	for _, c := range []struct {
		code  string
		event func(e *calendar.Event)
	}{
		{"zone-missing", func(e *calendar.Event) { e.Zone = calendar.Zone{} }},
		{"start-missing", func(e *calendar.Event) { e.Start.Date = calendar.Date{} }},
		{"start-missing", func(e *calendar.Event) { e.Start.Clock = -1 }},
		{"kind-unknown", func(e *calendar.Event) { e.Kind = "party" }},
		{"end-invalid", func(e *calendar.Event) { e.End = calendar.Wall{} }},
		{"end-before-start", func(e *calendar.Event) { e.End = wall(t, "2026-11-14T19:00") }},
		{"game-empty", func(e *calendar.Event) { e.End = e.Start }},
		{"game-long", func(e *calendar.Event) { e.End = wall(t, "2026-11-15T07:46") }},
		{"game-long", func(e *calendar.Event) { e.HasActualEnd, e.ActualEnd = true, wall(t, "2026-11-16T07:46") }},
		{"end-missing", func(e *calendar.Event) { e.Kind, e.HasEnd = calendar.Busy, false }},
		{"end-before-start", func(e *calendar.Event) { e.DateOnly, e.End = true, e.Start }},
		{"game-dates", func(e *calendar.Event) { e.DateOnly, e.End = true, wall(t, "2026-11-16T00:00") }},
	} {
		e := good
		c.event(&e)
		_, err := calendar.Place(e, calendar.Assumptions{})
		v, ok := err.(*calendar.ValueError)
		if !ok || v.Code != c.code || v.Remedy == "" {
			t.Errorf("want %s, got %v", c.code, err)
		}
	}
	good.End = wall(t, "2026-11-15T07:45")
	if _, err := calendar.Place(good, calendar.Assumptions{}); err != nil {
		t.Errorf("a game of exactly 12 h: %v", err)
	}
}

func TestAssumptions(t *testing.T) {
	a := calendar.Assumptions{GameMinutes: 105, PracticeMinutes: -3, DateOnlyFrom: 10 * 3600}
	s := a.Settled()
	if s.GameMinutes != 105 || s.PracticeMinutes != 90 || s.DateOnlyFrom.String() != "10:00" || s.DateOnlyTo.String() != "22:00" {
		t.Errorf("got %+v", s)
	}
	p := a.Check()
	if len(p) != 1 || p[0].Field != "practiceMinutes" || p[0].Value != "-3" {
		t.Errorf("got %v", p)
	}
	if p := (calendar.Assumptions{DateOnlyFrom: 23 * 3600}).Check(); len(p) != 1 || p[0].Field != "dateOnlyFrom" {
		t.Errorf("got %v", p)
	}
	if p := (calendar.Assumptions{}).Check(); len(p) > 0 {
		t.Errorf("got %v", p)
	}
	game := event(t, calendar.Game, "UTC", "2026-11-14T19:45", "")
	q, err := calendar.Place(game, a)
	if err != nil || q.Span.Duration() != 105*time.Minute {
		t.Error(q.Span, err)
	}
}

// Common practice, no source.
func TestBuffers(t *testing.T) {
	for _, c := range []struct {
		kind          calendar.Kind
		before, after time.Duration
	}{
		{calendar.Game, 45, 15}, {calendar.Practice, 15, 15}, {calendar.Skills, 15, 15}, {calendar.Travel, 0, 30},
		{calendar.Exam, 30, 0}, {calendar.Closure, 0, 0}, {calendar.Busy, 0, 0},
	} {
		p, err := calendar.Place(event(t, c.kind, "UTC", "2026-11-14T12:00", "2026-11-14T13:00"), calendar.Assumptions{})
		if err != nil {
			t.Fatal(err)
		}
		want := calendar.Span{Start: p.Span.Start.Add(-c.before * time.Minute), End: p.Span.End.Add(c.after * time.Minute)}
		if !p.Blocked(nil).Equal(want) || !p.Blocked(calendar.DefaultBuffers()).Equal(want) {
			t.Errorf("%s: %v", c.kind, p.Blocked(nil))
		}
		if !p.Blocked(calendar.Buffers{}).Equal(p.Span) {
			t.Errorf("%s: buffers out of nothing", c.kind)
		}
	}
}

func TestContentID(t *testing.T) {
	base := event(t, calendar.Game, "Europe/Berlin", "2026-11-14T19:45", "")
	base.Team, base.Opponent, base.Home, base.Title = "Rooks", "Otters", calendar.AtHome, "Cup"
	id := base.ContentID()
	if !strings.HasPrefix(id, "game-") || len(id) != 21 {
		t.Errorf("id %q", id)
	}
	for name, change := range map[string]func(e *calendar.Event){
		"status":     func(e *calendar.Event) { e.Status = calendar.Played },
		"importance": func(e *calendar.Event) { e.Importance = calendar.Important },
		"end":        func(e *calendar.Event) { e.HasEnd, e.End = true, wall(t, "2026-11-14T21:30") },
		"revision":   func(e *calendar.Event) { e.Revision = 4 },
		"source":     func(e *calendar.Event) { e.Source = "x:9" },
		"title":      func(e *calendar.Event) { e.Title = "League" },
		"round":      func(e *calendar.Event) { e.Round = "4" },
	} {
		e := base
		change(&e)
		if e.ContentID() != id {
			t.Errorf("%s changes the id", name)
		}
	}
	seen := map[string]string{id: "base"}
	for name, change := range map[string]func(e *calendar.Event){
		"kind":            func(e *calendar.Event) { e.Kind = calendar.Practice },
		"team":            func(e *calendar.Event) { e.Team = "Herons" },
		"opponent":        func(e *calendar.Event) { e.Opponent = "Herons" },
		"home":            func(e *calendar.Event) { e.Home = calendar.AtAway },
		"start":           func(e *calendar.Event) { e.Start.Clock++ },
		"zone":            func(e *calendar.Event) { e.Zone = zone(t, "Europe/Vienna") },
		"date only":       func(e *calendar.Event) { e.DateOnly, e.Start.Clock = true, 0 },
		"midnight":        func(e *calendar.Event) { e.Start.Clock = 0 },
		"title alone":     func(e *calendar.Event) { e.Opponent = "" },
		"shifted text":    func(e *calendar.Event) { e.Home, e.Opponent = "", "homeOtters" },
		"NUL in the text": func(e *calendar.Event) { e.Home, e.Opponent = "", "home\x00Otters" },
	} {
		e := base
		change(&e)
		if other, ok := seen[e.ContentID()]; ok {
			t.Errorf("%s and %s have one id", name, other)
		}
		seen[e.ContentID()] = name
	}
}

func TestWords(t *testing.T) {
	for _, s := range calendar.Statuses() {
		e := calendar.Event{Status: s}
		if off := s == calendar.Postponed || s == calendar.Cancelled; !s.Known() || e.Active() == off || s.Settled() != s {
			t.Errorf("status %s", s)
		}
	}
	if !(calendar.Event{}).Active() || calendar.Status("").Settled() != calendar.Confirmed || calendar.Status("x").Known() {
		t.Error("the empty status is not confirmed")
	}
	if calendar.Importance("").Settled() != calendar.ImportanceUnknown || calendar.Importance("x").Known() {
		t.Error("the empty importance is not unknown")
	}
	for _, k := range calendar.Kinds() {
		if !k.Known() {
			t.Errorf("kind %s", k)
		}
	}
	for _, i := range calendar.Importances() {
		if !i.Known() {
			t.Errorf("importance %s", i)
		}
	}
	if calendar.Kind("").Known() {
		t.Error("the empty kind is known")
	}
}

func TestInert(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Köln – 漢字", "Köln – 漢字"},
		{"a\x1b[31mb", `a\x1b[31mb`},
		{"a\u202eb", `a\u202eb`},
		{"a\xffb\n", `a\xffb\n`},
		{"a\ufffdb", `a\ufffdb`},
		{"<script>", "<script>"},
	} {
		if got := calendar.Inert(c.text); got != c.want {
			t.Errorf("%q: got %q, want %q", c.text, got, c.want)
		}
	}
	p := calendar.Problem{Class: calendar.ClassError, Path: "a\nb", Field: "x", Value: strings.Repeat("é", 100), Reason: "r"}
	if got := p.Error(); !strings.Contains(got, "(200 bytes)") || strings.Contains(got, "\n") || strings.Count(got, "é") != 80 {
		t.Errorf("got %q", got)
	}
}
