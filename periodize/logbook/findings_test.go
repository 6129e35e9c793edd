package logbook_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

var grown = season.Athlete{Born: season.YearMonth{Year: 2001, Month: 3}, TrainingAgeMonths: 48}

func attention(t testing.TB, today string) logbook.Attention {
	t.Helper()
	a := grown
	a.Zone = berlin()
	return logbook.Attention{Setting: logbook.Setting{Today: day(today), Athlete: a}}
}

func codesOf(t testing.TB, v logbook.View, a logbook.Attention) string {
	t.Helper()
	list, err := v.Findings(a)
	if err != nil {
		t.Fatal(err)
	}
	out := []string{}
	for i, f := range list {
		out = append(out, f.Note.Code)
		if f.Rank != i+1 || f.Todo.Code == "" || f.Todo.Text == "" || strings.Contains(f.Note.Text, "{") {
			t.Errorf("%+v", f)
		}
	}
	return strings.Join(out, " ")
}

// planned is a session of a plan that takes an hour from 17:00.
func planned(id string, kind season.Kind, date string) season.Session {
	start := berlin().Resolve(wall(date + "T17:00")).Instant
	return season.Session{ID: id, Kind: kind, Date: day(date), Minutes: 60, Start: start, End: start.Add(time.Hour)}
}

func TestFindings(t *testing.T) {
	missed := func(id, date string) logbook.Entry {
		return entry("log-"+id, date+"T17:00", logbook.Session{Planned: id, Session: season.FullBody, State: logbook.Missed})
	}
	jumped := func(id, date string, cm logbook.Milli) logbook.Entry {
		return entry(id, date, logbook.Test{Name: "jump", Unit: logbook.InCm, Value: cm})
	}
	sprint := func(id, date string, s logbook.Milli) logbook.Entry {
		return entry(id, date, logbook.Test{Name: "sprint", Unit: logbook.InSeconds, Value: s})
	}
	// The log goes on, with a practice missed, which keeps nothing.
	goesOn := entry("m", "2026-11-15", logbook.Practice{Minutes: logbook.Told(0)})
	noise := logbook.TestOptions{Noise: []logbook.Noise{{Name: "jump", Unit: logbook.InCm, Error: 800, Source: "the club"}, {Name: "sprint", Unit: logbook.InSeconds, Error: 20, Source: "the club"}}}
	for _, c := range []struct {
		name    string
		entries []logbook.Entry
		change  func(*logbook.Attention)
		want    string
	}{
		{"nothing known", nil, nil, ""},
		{"all well", []logbook.Entry{entry("s", "2026-11-12T17:00", done(season.FullBody)), entry("p", "2026-11-14T10:00", done(season.Primer))}, nil, ""},
		{"strength fades", []logbook.Entry{goesOn, entry("s", "2026-10-20T17:00", done(season.Trimmed))}, nil, "kept-fading"},
		{"strength of a newcomer within its band", []logbook.Entry{goesOn, entry("s", "2026-10-20T17:00", done(season.Trimmed))}, func(a *logbook.Attention) { a.Athlete.TrainingAgeMonths = 8 }, ""},
		{"strength of the young beyond its band", []logbook.Entry{goesOn, entry("s", "2026-10-10T17:00", done(season.Trimmed))}, func(a *logbook.Attention) { a.Athlete.Born.Year = 2011 }, "kept-fading"},
		{"speed of the young", []logbook.Entry{goesOn, entry("p", "2026-11-06T17:00", done(season.Primer))}, func(a *logbook.Attention) { a.Athlete.Born.Year = 2011 }, ""},
		{"a weighing of an adult", []logbook.Entry{entry("b1", "2026-11-10", logbook.BodyMass{Mass: 80_000}), entry("b2", "2026-11-12", logbook.BodyMass{Mass: 177_000})}, nil, "ask-entries"},
		{"a weighing of a minor", []logbook.Entry{entry("b1", "2026-11-10", logbook.BodyMass{Mass: 50_000}), entry("b2", "2026-11-12", logbook.BodyMass{Mass: 110_000})}, func(a *logbook.Attention) { a.Athlete.Born.Year = 2011 }, ""},
		{"a silent log", []logbook.Entry{entry("s", "2026-10-20T17:00", done(season.Trimmed))}, nil, "ask-silent"},
		{"silent for a fortnight", []logbook.Entry{entry("s", "2026-11-02T17:00", done(season.Trimmed))}, nil, ""},
		{"it may have been kept", []logbook.Entry{entry("s", "2026-10-20T17:00", done(season.Trimmed)), entry("u", "2026-11-10T17:00", logbook.Session{Session: season.Trimmed, State: logbook.Unknown})}, nil, ""},
		{"speed within its band", []logbook.Entry{entry("p", "2026-11-11T17:00", done(season.Primer))}, nil, ""},
		{"speed beyond its band", []logbook.Entry{entry("p", "2026-11-06T17:00", done(season.Primer))}, nil, "kept-fading"},
		{"strength endurance within its band", []logbook.Entry{goesOn, entry("s", "2026-10-28T17:00", done(season.FullBody))}, nil, ""},
		{"the plan lets it fade", []logbook.Entry{goesOn, entry("s", "2026-11-01T17:00", done(season.Trimmed))},
			func(a *logbook.Attention) { a.Plan = &season.Plan{Period: season.Period{To: day("2027-01-31")}} }, "kept-ahead"},
		{"the plan keeps it", []logbook.Entry{goesOn, entry("s", "2026-11-01T17:00", done(season.Trimmed))}, func(a *logbook.Attention) {
			a.Plan = &season.Plan{Period: season.Period{To: day("2027-01-31")}, Sessions: []season.Session{planned("p1", season.FullBody, "2026-11-24")}}
		}, ""},
		{"a clash is asked about", []logbook.Entry{entry("x", "2026-11-12T17:00", done(season.FullBody)), entry("x", "2026-11-12T18:00", done(season.FullBody))}, nil, "ask-entries"},
		{"unlogged is asked about once", nil, func(a *logbook.Attention) {
			a.Issued = []season.Session{planned("p1", season.FullBody, "2026-11-10"), planned("p2", season.Primer, "2026-11-13")}
		}, "ask-unlogged"},
		{"half of the lifts missed", []logbook.Entry{missed("p1", "2026-11-04"), missed("p3", "2026-11-11"), entry("d", "2026-11-13T17:00", logbook.Session{Planned: "p4", Session: season.FullBody, State: logbook.Done}),
			entry("e", "2026-11-09T17:00", logbook.Session{Planned: "p2", Session: season.FullBody, State: logbook.Done})}, func(a *logbook.Attention) {
			for i, d := range []string{"2026-11-04", "2026-11-09", "2026-11-11", "2026-11-13"} {
				a.Issued = append(a.Issued, planned(fmt.Sprint("p", i+1), season.FullBody, d))
			}
		}, "lifts-missed"},
		{"a test fell", []logbook.Entry{jumped("a", "2026-10-01", 38_200), jumped("b", "2026-11-12", 34_900), sprint("c", "2026-10-01", 1_800), sprint("d", "2026-11-12", 1_700)},
			func(a *logbook.Attention) { a.Tests = noise }, "test-lower"},
		{"a sprint got slower", []logbook.Entry{sprint("c", "2026-10-01", 1_700), sprint("d", "2026-11-12", 1_790)},
			func(a *logbook.Attention) { a.Tests = noise }, "test-higher"},
		{"old news", []logbook.Entry{jumped("a", "2026-08-01", 38_200), jumped("b", "2026-09-12", 34_900)},
			func(a *logbook.Attention) { a.Tests = noise }, ""},
		{"body mass", append(weeks(80_000, 80_000, 80_000, 80_000, 78_100, 78_300), entry("p", "2026-11-14T10:00", done(season.Primer))),
			func(a *logbook.Attention) { a.Off = season.Period{From: day("2026-07-06"), To: day("2026-08-02")} }, "mass-below"},
		{"body mass of a minor", weeks(50_000, 50_000, 50_000, 50_000, 48_100, 48_300), func(a *logbook.Attention) {
			a.Off = season.Period{From: day("2026-07-06"), To: day("2026-08-02")}
			a.Athlete.Born = season.YearMonth{Year: 2010, Month: 2}
		}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := attention(t, "2026-11-16")
			if c.change != nil {
				c.change(&a)
			}
			if got := codesOf(t, newLog(t, c.entries...).View(""), a); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}

func TestMonotonousWeek(t *testing.T) {
	var list []logbook.Entry
	for i := range 28 {
		minutes := 30 + 20*(i%4)
		if i >= 21 {
			minutes = 80 + i%2
		}
		d := day("2026-10-19").AddDays(i).String()
		list = append(list, entry(d, d, practice(minutes, 6)))
	}
	if got := codesOf(t, newLog(t, list...).View(""), attention(t, "2026-11-16")); got != "load-monotony" {
		t.Errorf("%q", got)
	}
	gap := slices.Delete(slices.Clone(list), 24, 25)
	if got := codesOf(t, newLog(t, gap...).View(""), attention(t, "2026-11-16")); got != "" {
		t.Errorf("with a date missing: %q", got)
	}
}

func TestTheListIsShort(t *testing.T) {
	var list []logbook.Entry
	for i, q := range []season.Kind{season.FullBody, season.Primer} {
		list = append(list, entry(fmt.Sprint(i), "2026-09-01T17:00", done(q)))
	}
	list = append(list, entry("g", "2026-09-01", logbook.Game{Minutes: logbook.Told(60)}), entry("m", "2026-11-15", logbook.Practice{Minutes: logbook.Told(0)}))
	a := attention(t, "2026-11-16")
	if got := codesOf(t, newLog(t, list...).View(""), a); strings.Count(got, "kept-fading") != 5 {
		t.Errorf("%q", got)
	}
	a.Most = 2
	if got := codesOf(t, newLog(t, list...).View(""), a); got != "kept-fading kept-fading" {
		t.Errorf("%q", got)
	}
}

// A note becomes a rule that a request can carry, and ends with the note.
func TestNotesBecomePreferences(t *testing.T) {
	words := "flat after Thursday primers"
	told := entry("n 1", "2026-11-12", logbook.Remark{Text: words, Session: season.Primer, Days: []time.Weekday{time.Thursday, time.Tuesday}})
	told.Source = logbook.FromAthlete
	vague := entry("n2", "2026-11-13", logbook.Remark{Text: words})
	l := newLog(t, told, vague)
	list, unplaced := l.View("").Preferences()
	if len(list) != 1 || len(unplaced) != 1 || list[0].Source != logbook.FromAthlete || list[0].Entry != "n 1" {
		t.Fatalf("%+v %v", list, unplaced)
	}
	r := list[0].Rule
	if want := "note of the athlete of 2026-11-12: rather no primer on Tuesday Thursday; void the note to end it"; r.Says != want {
		t.Errorf("%q", r.Says)
	}
	req := season.Request{Period: season.Period{From: day("2026-11-16"), To: day("2026-11-29")}, Club: []season.ClubRule{r},
		Athlete: season.Athlete{ID: "a7", Born: grown.Born, TrainingAgeMonths: 48, Zone: berlin()}}
	if problems := req.Validate(); len(problems) != 0 {
		t.Errorf("%v", problems)
	}
	if strings.Contains(fmt.Sprint(list, unplaced), "flat") {
		t.Error("the words of a note are repeated")
	}
	gone := logbook.Merge(l, newLog(t, logbook.Entry{ID: "v", Recorded: instant("2026-11-20T09:00:00Z"), What: logbook.Void{Of: "n 1"}}))
	if list, _ := gone.View("").Preferences(); len(list) != 0 {
		t.Errorf("after it was voided: %+v", list)
	}
}

func ExampleView_Findings() {
	view := diary(entry("s1", "2026-10-20T17:00", logbook.Session{Session: season.FullBody, State: logbook.Done}),
		entry("t1", "2026-11-13", logbook.Practice{Minutes: logbook.Told(0)}))
	berlin, err := calendar.LoadZone("Europe/Berlin")
	if err != nil {
		fmt.Println(err)
		return
	}
	list, err := view.Findings(logbook.Attention{Setting: logbook.Setting{Today: day("2026-11-16"),
		Athlete: season.Athlete{Zone: berlin, Born: season.YearMonth{Year: 2001, Month: 3}, TrainingAgeMonths: 48}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range list {
		fmt.Println(f.Rank, f.Note.Text)
		fmt.Println("  ", f.Evidence[0].Text)
		fmt.Println("  ", f.Todo.Text)
	}
	// Output:
	// 1 maximal strength was last trained enough 27 days ago, on 2026-10-20: it fades between 2026-11-14 and 2026-11-24
	//    nothing is planned that trains it
	//    keep the next session that trains it; where there is none, plan one. One session with the usual load is enough, nothing is made up
	// 2 strength endurance was last trained enough 27 days ago, on 2026-10-20: it fades between 2026-10-30 and 2026-11-09
	//    nothing is planned that trains it
	//    keep the next session that trains it; where there is none, plan one. One session with the usual load is enough, nothing is made up
}

func ExampleView_Preferences() {
	n := entry("n1", "2026-11-12", logbook.Remark{Text: "flat after Thursday primers", Session: season.Primer, Days: []time.Weekday{time.Thursday}})
	n.Source = logbook.FromAthlete
	list, _ := diary(n).Preferences()
	fmt.Println(list[0].Rule.Points, list[0].Rule.Says)
	// Output: 15 note of the athlete of 2026-11-12: rather no primer on Thursday; void the note to end it
}
