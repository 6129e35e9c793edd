package logbook_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// held is an event of the calendar that takes 90 minutes.
func held(id string, kind calendar.Kind, start string) calendar.Placed {
	p, err := calendar.Place(calendar.Event{ID: id, Kind: kind, Zone: berlin(), Start: wall(start), End: wall(start).AddMinutes(90), HasEnd: true}, calendar.Assumptions{})
	if err != nil {
		panic(err)
	}
	return p
}

func TestLinked(t *testing.T) {
	full, missed := logbook.Session{Session: season.FullBody, State: logbook.Done}, logbook.Session{Session: season.FullBody, State: logbook.Missed}
	game, drill := logbook.Game{Minutes: logbook.Told(60)}, logbook.Practice{Minutes: logbook.Told(80)}
	plan := []season.Session{planned("f", season.FullBody, "2026-11-10"), planned("r", season.Recovery, "2026-11-10"), planned("p", season.Primer, "2026-11-13")}
	events := []calendar.Placed{held("g", calendar.Game, "2026-11-14T18:00"), held("a", calendar.Practice, "2026-11-12T09:00"), held("b", calendar.Skills, "2026-11-12T19:00")}
	for _, c := range []struct {
		name    string
		entries []logbook.Entry
		want    string
	}{
		{"by kind, at any hour", []logbook.Entry{entry("x", "2026-11-10T07:00", full)}, "x=f"},
		{"missed is told too", []logbook.Entry{entry("x", "2026-11-10T07:00", missed)}, "x=f"},
		{"on another date", []logbook.Entry{entry("x", "2026-11-11T17:00", full)}, ""},
		{"two of a kind, one planned", []logbook.Entry{entry("x", "2026-11-10T07:00", full), entry("y", "2026-11-10T17:00", full)}, ""},
		{"another kind at the time", []logbook.Entry{entry("x", "2026-11-13T18:20", full)}, "x=p"},
		{"another kind at another time", []logbook.Entry{entry("x", "2026-11-13T19:20", full)}, ""},
		{"what is named is told", []logbook.Entry{entry("x", "2026-11-10T07:00", logbook.Session{Planned: "f", Session: season.FullBody, State: logbook.Done}), entry("y", "2026-11-10T12:00", full)}, ""},
		{"a game without an hour", []logbook.Entry{entry("x", "2026-11-14", game)}, "x=g"},
		{"two practices in order", []logbook.Entry{entry("y", "2026-11-12T19:00", drill), entry("x", "2026-11-12T09:10", drill)}, "x=a y=b"},
		{"two practices without hours", []logbook.Entry{entry("y", "2026-11-12", drill), entry("x", "2026-11-12", drill)}, ""},
		{"one of two practices", []logbook.Entry{entry("y", "2026-11-12T19:00", drill)}, ""},
	} {
		v := newLog(t, c.entries...).View("")
		linked, links := v.Linked(plan, events)
		var got []string
		for _, l := range links {
			got = append(got, l.Entry+"="+l.To)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%s: %q, want %q", c.name, s, c.want)
		}
		if again, more := linked.Linked(plan, events); len(more) > 0 || shown(again) != shown(linked) {
			t.Errorf("%s: linked again: %v", c.name, more)
		}
	}
}

// A log without names says what the same log with names says, where a date has one
// session of a kind.
func TestNamesMakeNoDifference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := logbook.Setting{Today: day("2026-11-16")}
		var with, without []logbook.Entry
		for i := range rapid.IntRange(1, 14).Draw(t, "dates") {
			d := day("2026-11-02").AddDays(i).String()
			id := fmt.Sprint("p", i)
			kind := rapid.SampledFrom(season.Kinds()).Draw(t, "kind")
			s.Issued = append(s.Issued, planned(id, kind, d))
			if i%3 == 0 {
				s.Events = append(s.Events, held("g"+id, calendar.Game, d+"T19:30"))
			}
			if rapid.Bool().Draw(t, "told") {
				x := logbook.Session{Planned: id, Session: kind, State: rapid.SampledFrom(logbook.States()).Draw(t, "state")}
				with = append(with, entry(id, d+"T17:00", x))
				x.Planned = ""
				without = append(without, entry(id, d+"T17:00", x))
			}
			if i%3 == 0 && rapid.Bool().Draw(t, "played") {
				with = append(with, entry("g"+id, d, logbook.Game{Event: "g" + id, Minutes: drawCount(t, 0, 90)}))
				g := with[len(with)-1]
				g.What = logbook.Game{Minutes: g.What.(logbook.Game).Minutes}
				without = append(without, g)
			}
		}
		a := drawLog(t, with).View("")
		b, links := drawLog(t, without).View("").Linked(s.Issued, s.Events)
		if shown(a) != shown(b) || len(links) != len(with) {
			t.Fatalf("%d links of %d\n%s\n%s", len(links), len(with), shown(a), shown(b))
		}
	})
}

func ExampleView_Linked() {
	view := diary(entry("row-12", "2026-11-10T17:05", logbook.Session{Session: season.FullBody, State: logbook.Done}))
	_, links := view.Linked([]season.Session{planned("2026-11-10-full-body", season.FullBody, "2026-11-10")}, nil)
	for _, l := range links {
		fmt.Println(l.Kind, l.Entry, "is", l.To)
	}
	// Output: session row-12 is 2026-11-10-full-body
}
