package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

const head = "date,time,tz,opponent\n"

// A rule without an end is followed for a year where no dates are asked for.
func TestEndlessRule(t *testing.T) {
	got := run(t, files{"f.ics": vcalendar(game("UID:u1", gameStart, gameEnd, "RRULE:FREQ=WEEKLY"))}, "-fixtures", "f.ics")
	if n := strings.Count(got.stdout, " GAME "); got.code != exitPlanned || n != 53 || !strings.Contains(got.stderr, "f.ics:8: question: RRULE") || !strings.Contains(got.stderr, "give -from and -to") {
		t.Errorf("exit %d, %d games: %s", got.code, n, got.stderr)
	}
}

// A calendar that names no zone is planned by its clock, with a question.
func TestNoZone(t *testing.T) {
	got := run(t, files{"f.ics": vcalendar(game("UID:u1", "DTSTART:20261114T180000"))}, "-fixtures", "f.ics")
	if got.code != exitPlanned || !strings.Contains(got.stdout, "18:00") || !strings.Contains(got.stderr, "f.ics:6: question") || !strings.Contains(got.stderr, "give -zone") {
		t.Errorf("exit %d: %s", got.code, got.stderr)
	}
}

// Of a calendar of several years the last season is planned, with a question.
func TestLastSeason(t *testing.T) {
	games := head
	for _, d := range []string{"2025-01-08", "2025-03-08", "2026-10-03", "2026-11-08", "2027-01-02"} {
		games += d + ",14:00,Europe/Berlin,A\n"
	}
	got := run(t, files{"f.csv": games}, "-fixtures", "f.csv")
	if got.code != exitPlanned || !strings.Contains(got.stdout, "Mon 28 Sep 2026 to Sun 3 Jan 2027") || !strings.Contains(got.stderr, `-from: question: "2026-09-28"`) {
		t.Errorf("exit %d: %s%.300s", got.code, got.stderr, got.stdout)
	}
	// Games all the year round: no more than the limit.
	games = head
	for d := mustDate(t, "2024-01-01"); d.Before(mustDate(t, "2027-01-04")); d = d.AddDays(5) {
		games += d.String() + ",14:00,Europe/Berlin,A\n"
	}
	got = run(t, files{"f.csv": games}, "-fixtures", "f.csv")
	if got.code != exitPlanned || !strings.Contains(got.stdout, "Mon 1 Dec 2025 to Sun 3 Jan 2027, 399 dates") {
		t.Errorf("exit %d: %s%.300s", got.code, got.stderr, got.stdout)
	}
	// With one end given, the other has to be given too.
	got = run(t, files{"f.csv": games}, "-fixtures", "f.csv", "-from", "2024-01-01")
	if got.code != exitInput || !strings.Contains(got.stderr, "the limit is 400") {
		t.Errorf("exit %d: %s", got.code, got.stderr)
	}
}

// Everything wrong is listed at once, with its place, and nothing is written.
func TestBadInput(t *testing.T) {
	long := strings.Repeat(" ", maxAthleteBytes+1)
	for _, c := range []struct {
		name string
		in   files
		args []string
		want []string
	}{
		{"no such file", nil, []string{"-fixtures", "gone.csv", "-athlete", "gone.json"},
			[]string{"gone.csv: error", "gone.json: error", "there is no such file", "2 problems: nothing was planned"}},
		{"every flag's value", nil, []string{"-from", "3/4/2027", "-to", "2027-02-30", "-now", "yesterday"},
			[]string{"-from: error", "-to: error", "-now: error", "3 problems"}},
		{"now without offset", nil, []string{"-now", "2026-11-03T10:00:00"}, []string{"-now: error", "offset"}},
		{"zone", files{"f.csv": "date,time\n2026-11-08,14:00\n"}, []string{"-fixtures", "f.csv", "-zone", "Europe/Berln"},
			[]string{"-zone: error", "Europe/Berlin"}},
		{"no zone", files{"f.csv": "date,time\n2026-11-08,14:00\n"}, []string{"-fixtures", "f.csv"}, []string{"f.csv:", "give -zone"}},
		{"local zone", files{"f.csv": head + "2026-11-08,14:00,Local,A\n"}, []string{"-fixtures", "f.csv"}, []string{"f.csv:2: error", "Local"}},
		{"three rows", files{"f.csv": head + "2026-13-08,14:00,Europe/Berlin,A\n2026-11-08,25:00,Europe/Berlin,B\n2027-03-28,02:30,Europe/Berlin,C\n"},
			[]string{"-fixtures", "f.csv"}, []string{"f.csv:2: error", "f.csv:3: error", "f.csv:4: error"}},
		{"league without team", files{"f.csv": "date,time,tz,home,away\n2026-11-08,14:00,Europe/Berlin,A,B\n2026-11-09,14:00,Europe/Berlin,C,D\n"},
			[]string{"-fixtures", "f.csv"}, []string{"choose one with -team"}},
		{"league, other team", files{"f.csv": "date,time,tz,home,away\n2026-11-08,14:00,Europe/Berlin,A,B\n2026-11-09,14:00,Europe/Berlin,C,D\n"},
			[]string{"-fixtures", "f.csv", "-team", "Z"}, []string{"f.csv"}},
		{"id twice", files{"f.csv": "date,time,tz,id\n2026-11-08,14:00,Europe/Berlin,g1\n", "g.csv": "date,time,tz,id\n2026-11-09,14:00,Europe/Berlin,g1\n"},
			[]string{"-fixtures", "f.csv", "-fixtures", "g.csv"}, []string{"g1", "error"}},
		{"no games", files{"f.csv": head}, []string{"-fixtures", "f.csv"}, []string{"give -from and -to"}},
		{"no zone anywhere", files{"f.csv": head}, []string{"-fixtures", "f.csv", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"give -zone"}},
		{"first date after the games", files{"f.csv": smallTable}, []string{"-fixtures", "f.csv", "-from", "2027-01-04"}, []string{"-from: error", "give -to as well"}},
		{"last before first", files{"f.csv": smallTable}, []string{"-fixtures", "f.csv", "-from", "2026-11-08", "-to", "2026-11-02"}, []string{"-to: error"}},
		{"too long", files{"f.csv": smallTable}, []string{"-fixtures", "f.csv", "-from", "2026-01-01", "-to", "2027-12-31"}, []string{"-to: error", "the limit is 400"}},
		{"calendar cut short", files{"f.ics": "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n"}, []string{"-fixtures", "f.ics"}, []string{"f.ics", "error"}},
		{"fixtures and athlete", files{"f.csv": head + "2026-11-31,14:00,Europe/Berlin,A\n", "a.json": `{"zone":"Europe/Berlin","born":"2040"}`},
			[]string{"-fixtures", "f.csv", "-athlete", "a.json", "-from", "x"}, []string{"-from: error", "f.csv:2: error", "a.json /born: error", "3 problems"}},
		{"athlete syntax", files{"a.json": "{\n \"zone\": \"Europe/Berlin\",\n}"}, []string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"a.json: error", "line 2, column 25", "1 problem:"}},
		{"athlete first line", files{"a.json": `{"zone":"Europe/Berlin","id":"x","id":"y"}`}, []string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"a.json /id", "line 1, column 34", "first at 1:25"}},
		{"athlete first line, whole", files{"a.json": `{"athlete":{"id":"x","id":"y"}}`}, []string{"-athlete", "a.json", "-zone", "Europe/Berlin", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"a.json /athlete/id", "line 1, column 22", "first at 1:13"}},
		{"athlete no object", files{"a.json": "[1]"}, []string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"a.json", "error"}},
		{"athlete empty", files{"a.json": ""}, []string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"a.json", "error"}},
		{"athlete too long", files{"a.json": long}, []string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"a.json: error", "longer than"}},
		{"athlete lines", files{"a.json": "{\"athlete\":{\"zone\":\"Europe/Berlin\",\n\"id\":\"x\",\"id\":\"y\"}}"},
			[]string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"a.json /athlete/id", "line 2"}},
		{"athlete zone", files{"a.json": `{"zone":"Europe/Berln"}`}, []string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"a.json /zone: error", "Europe/Berlin"}},
		{"athlete no zone", files{"a.json": `{}`}, []string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"a.json /zone: error"}},
		{"places and rules", files{"a.json": `{"athlete":{"zone":"Europe/Berlin"},"places":[{"id":"gym","hours":[{"days":["mon"],"from":"20:00","to":"08:00"}]}],"rules":[{"rule":"lifts-a-week","value":3}]}`},
			[]string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"/places/0/hours/0/to", "a.json /rules/0", "lifts-a-week"}},
		{"a request as athlete", files{"a.json": `{"period":{"from":"2026-11-02","to":"2026-11-08"},"athlete":{"zone":"Europe/Berlin"}}`},
			[]string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08"}, []string{"give it as -request"}},
		{"unknown field, strict", files{"a.json": `{"zone":"Europe/Berlin","tranining":3}`},
			[]string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08", "-strict"}, []string{"a.json", "tranining", "error"}},
		{"wrong-case field", files{"a.json": `{"zone":"Europe/Berlin","Born":"2001-02"}`},
			[]string{"-athlete", "a.json", "-from", "2026-11-02", "-to", "2026-11-08", "-strict"}, []string{"born"}},
		{"request", files{"r.json": `{"schema":1,"period":{"from":"2026-11-02","to":"2026-11-01"},"athlete":{"zone":"Local","hours":[{"days":["mon"],"from":"9","to":"12:00"}]},"rules":[{"rule":"nap"}]}`},
			[]string{"-request", "r.json"}, []string{"r.json /athlete/zone: error", "r.json /athlete/hours/0/from: error", "r.json /period/to: error", "r.json /rules/0"}},
		{"request newer", files{"r.json": `{"schema":9}`}, []string{"-request", "r.json"}, []string{"schema"}},
		{"request rules only", files{"r.json": `{"schema":1,"period":{"from":"2026-11-02","to":"2026-11-08"},"athlete":{"zone":"Europe/Berlin"},"rules":[{"rule":"nap","value":1}]}`},
			[]string{"-request", "r.json"}, []string{"r.json /rules/0", "nap"}},
		{"issued", files{"p.json": `{"schema":1}`}, []string{"-issued", "p.json"}, []string{"p.json /id: error", "p.json /period: error"}},
		{"issued gone", nil, []string{"-issued", "p.json"}, []string{"p.json: error"}},
		{"period of a request", files{"-": `{"schema":1,"period":{"from":"2026-11-02","to":"2026-11-08"},"athlete":{"zone":"Europe/Berlin"}}`},
			[]string{"-request", "-", "-to", "2026-10-01"}, []string{"standard input /period/to"}},
		{"standard input", files{"-": "date,time\n2026-02-31,10:00\n"}, []string{"-fixtures", "-", "-zone", "Europe/Berlin"}, []string{"standard input:2: error"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := run(t, c.in, c.args...)
			if got.code != exitInput || got.stdout != "" {
				t.Errorf("exit %d with %d bytes on standard output, want %d and none", got.code, len(got.stdout), exitInput)
			}
			for _, w := range c.want {
				if !strings.Contains(got.stderr, w) {
					t.Errorf("standard error lacks %q:\n%s", w, got.stderr)
				}
			}
			if strings.Contains(got.stderr, "Options.") {
				t.Errorf("a remedy speaks of the library:\n%s", got.stderr)
			}
		})
	}
}

// A table with names and dates of its own.
func TestColumnsAndDates(t *testing.T) {
	var got *season.Request
	take := fakePlanner(func(r *season.Request) (*season.Plan, error) { got = r; return bare(r), nil })
	in := files{"f.csv": "Spieltag;Kick-off;Gegner;H/A\n6.3.2027;7:30 pm;Otters;A\n14.3.2027;TBC;Rooks;H\n"}
	out := runWith(t, take, in, "-fixtures", "f.csv", "-zone", "Europe/Berlin", "-columns", "date=Spieltag, opponent=Gegner", "-dates", "dmy")
	if out.code != exitPlanned || !strings.Contains(out.stderr, "Kick-off - the column is read as time; name another one in -columns") {
		t.Fatalf("exit %d: %s", out.code, out.stderr)
	}
	var lines []string
	for _, e := range got.Events {
		lines = append(lines, e.Start.String()+" "+e.Home+" "+e.Opponent)
	}
	if want := []string{"2027-03-06T19:30 away Otters", "2027-03-14T00:00 home Rooks"}; !slices.Equal(lines, want) {
		t.Errorf("%v, want %v", lines, want)
	}
}

// What reading leaves open stands with the plan too, for whoever does not see how
// it was made.
func TestLeftOpen(t *testing.T) {
	take := fakePlanner(func(r *season.Request) (*season.Plan, error) { return bare(r), nil })
	entry := func(n int, start string) string {
		return fmt.Sprintf("BEGIN:VEVENT\r\nUID:u%d\r\nDTSTAMP:20260101T000000Z\r\nDTSTART:%s\r\nSUMMARY:Velm v Torp\r\nEND:VEVENT\r\n", n, start)
	}
	calendarOf := func(bad int) files {
		body := entry(0, "20261114T140000Z")
		for i := 1; i <= bad; i++ {
			body += entry(i, "yesterday")
		}
		return files{"f.ics": "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\n" + body + "END:VCALENDAR\r\n"}
	}
	for _, c := range []struct {
		bad, lines int
		more       string
	}{{0, 0, ""}, {1, 1, ""}, {5, 5, ""}, {8, 5, "3 more questions of the files that were read"}} {
		got := runWith(t, take, calendarOf(c.bad), "-fixtures", "f.ics", "-zone", "Europe/Oslo")
		if got.code != exitPlanned || strings.Count(got.stdout, "the event is left out") != c.lines || !strings.Contains(got.stdout, c.more) {
			t.Errorf("%d entries without a start: exit %d\n%s", c.bad, got.code, got.stdout)
		}
		if n := strings.Count(got.stderr, "the event is left out"); n != c.bad {
			t.Errorf("%d of %d told on standard error", n, c.bad)
		}
	}
	// A calendar has no place for questions: they are told once.
	got := runWith(t, take, calendarOf(2), "-fixtures", "f.ics", "-zone", "Europe/Oslo", "-format", "ics")
	if n := strings.Count(got.stderr, "the event is left out"); got.code != exitPlanned || n != 2 {
		t.Errorf("exit %d, told %d times:\n%s", got.code, n, got.stderr)
	}
}

func ics(body string) string {
	return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\n" + body + "\r\nUID:u1\r\nDTSTAMP:20260101T000000Z\r\nSUMMARY:Velm\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
}

// What the flags leave open comes from the input, as the program says it does.
func TestSettled(t *testing.T) {
	var got *season.Request
	take := fakePlanner(func(r *season.Request) (*season.Plan, error) { got = r; return bare(r), nil })
	table := "date,time,opponent\n2026-11-08,14:00,A\n2026-11-18,19:00,B\n"
	for _, c := range []struct {
		name           string
		in             files
		args           []string
		zone, from, to string
		now            string // RFC 3339 in UTC; "" unset
		events         int
	}{
		{"zone of the first game", files{"f.csv": smallTable}, []string{"-fixtures", "f.csv"}, "Europe/Amsterdam", "2026-11-02", "2026-11-22", "", 6},
		{"zone given", files{"f.csv": table}, []string{"-fixtures", "f.csv", "-zone", "Asia/Kathmandu"}, "Asia/Kathmandu", "2026-11-02", "2026-11-22", "", 2},
		{"zone of the athlete", files{"f.csv": table, "a.json": `{"zone":"America/Halifax"}`}, []string{"-fixtures", "f.csv", "-athlete", "a.json"}, "America/Halifax", "2026-11-02", "2026-11-22", "", 2},
		{"zone for an athlete without", files{"f.csv": smallTable, "a.json": `{"athlete":{}}`}, []string{"-fixtures", "f.csv", "-athlete", "a.json"}, "Europe/Amsterdam", "2026-11-02", "2026-11-22", "", 6},
		{"zone against the athlete", files{"f.csv": table, "a.json": `{"zone":"America/Halifax"}`}, []string{"-fixtures", "f.csv", "-athlete", "a.json", "-zone", "Europe/Rome"}, "Europe/Rome", "2026-11-02", "2026-11-22", "", 2},
		{"week of the club", files{"f.csv": table, "a.json": `{"athlete":{"zone":"Europe/Rome"},"rules":[{"rule":"week-start","value":3}]}`}, []string{"-fixtures", "f.csv", "-athlete", "a.json"}, "Europe/Rome", "2026-11-04", "2026-11-24", "", 2},
		{"from", files{"f.csv": table}, []string{"-fixtures", "f.csv", "-zone", "Europe/Rome", "-from", "2026-11-05"}, "Europe/Rome", "2026-11-05", "2026-11-22", "", 2},
		{"to and now", files{"f.csv": table}, []string{"-fixtures", "f.csv", "-zone", "Europe/Rome", "-to", "2026-11-30", "-now", "2026-11-10T08:00:00+01:00"}, "Europe/Rome", "2026-11-02", "2026-11-30", "2026-11-10T07:00:00Z", 2},
		{"postponed games set no period", files{"f.csv": "date,time,tz,status\n2026-11-08,14:00,Europe/Rome,\n2027-05-08,14:00,Europe/Rome,postponed\n"}, []string{"-fixtures", "f.csv"}, "Europe/Rome", "2026-11-02", "2026-11-08", "", 2},
		{"calendar by its content", files{"-": ics("DTSTART;TZID=Europe/Berlin:20261108T140000\r\nDTEND;TZID=Europe/Berlin:20261108T160000")}, []string{"-fixtures", "-"}, "Europe/Berlin", "2026-11-02", "2026-11-08", "", 1},
		{"rule within the period", files{"f.ics": ics("DTSTART;TZID=Europe/Berlin:20261108T140000\r\nRRULE:FREQ=WEEKLY")}, []string{"-fixtures", "f.ics", "-from", "2026-11-02", "-to", "2026-11-29"}, "Europe/Berlin", "2026-11-02", "2026-11-29", "", 4},
		{"athlete alone", files{"a.json": `{"zone":"Europe/Rome"}`}, []string{"-athlete", "a.json", "-from", "2026-06-01", "-to", "2026-06-28"}, "Europe/Rome", "2026-06-01", "2026-06-28", "", 0},
		{"byte order mark", files{"a.json": "\xEF\xBB\xBF" + `{"zone":"Europe/Rome"}`}, []string{"-athlete", "a.json", "-from", "2026-06-01", "-to", "2026-06-28"}, "Europe/Rome", "2026-06-01", "2026-06-28", "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := runWith(t, take, c.in, c.args...)
			if out.code != exitPlanned {
				t.Fatalf("exit %d: %s", out.code, out.stderr)
			}
			if z := got.Athlete.Zone.Name(); z != c.zone {
				t.Errorf("zone %s, want %s", z, c.zone)
			}
			if got.Period.From.String() != c.from || got.Period.To.String() != c.to {
				t.Errorf("period %v, want %s to %s", got.Period, c.from, c.to)
			}
			if c.now == "" && !got.Now.IsZero() || c.now != "" && got.Now.UTC().Format("2006-01-02T15:04:05Z") != c.now {
				t.Errorf("now %v, want %q", got.Now, c.now)
			}
			if len(got.Events) != c.events {
				t.Errorf("%d events, want %d", len(got.Events), c.events)
			}
		})
	}
}

func TestWarningsGoToStandardError(t *testing.T) {
	got := runWith(t, fakePlanner(func(r *season.Request) (*season.Plan, error) {
		p := bare(r)
		p.Warnings = []season.Note{season.NewNote("warning-input", season.Subject{}, "", season.Values{"text": season.Str("/pins/0: warning: past")})}
		return p, nil
	}), files{"f.csv": "date,time,tz,mascot\n2026-11-08,14:00,Europe/Berlin,owl\n", "a.json": `{"zone":"Europe/Berlin","shoe":46}`},
		"-fixtures", "f.csv", "-athlete", "a.json", "-format", "json")
	if got.code != exitPlanned {
		t.Fatalf("exit %d: %s", got.code, got.stderr)
	}
	for _, w := range []string{"f.csv:1: warning: mascot", "a.json /shoe: warning", "/pins/0: warning: past"} {
		if !strings.Contains(got.stderr, w) {
			t.Errorf("standard error lacks %q:\n%s", w, got.stderr)
		}
	}
	if strings.Contains(got.stderr, "nothing was planned") {
		t.Error("a plan that was made is called not made")
	}
}

// Problems the planner finds are told by table and event, not by position.
func TestPlannersProblems(t *testing.T) {
	got := runWith(t, fakePlanner(func(r *season.Request) (*season.Plan, error) {
		return nil, &season.InputError{Problems: []calendar.Problem{wrong("x", season.EventPath(0)+"/start", "v", "why", "do")}}
	}), files{"f.csv": smallTable}, "-fixtures", "f.csv")
	if got.code != exitInput || got.stdout != "" || !strings.Contains(got.stderr, "f.csv:2, event ") || !strings.Contains(got.stderr, "2026-11-08") {
		t.Errorf("exit %d: %s", got.code, got.stderr)
	}
}
