package main

import (
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/calendar/icalendar"
)

// The kind of an event by its title, where no category says it.
func TestKindByTitle(t *testing.T) {
	for title, want := range map[string]calendar.Kind{
		"County practice": calendar.Practice, "TRAINING (hall 2)": calendar.Practice, "Träning": calendar.Practice,
		"Training match v Otters": "", "Otters": "", "": "", "Cup final": "", "Bus to Otters": calendar.Travel, "Maths exam": calendar.Exam,
		"Skills": calendar.Skills, "Practical first aid": "", "Travel, then practice": calendar.Travel,
	} {
		k, ok := byTitle(icalendar.Description{Summary: title})
		if k != want || ok != (want != "") {
			t.Errorf("%q is %q %v, want %q", title, k, ok, want)
		}
	}
}

// Three sources of one athlete: a game that two of them have is counted once, an
// older revision is left out, a clash is asked about, each with file and line; what
// the adults must see stands in the plan.
func TestSeveralTeams(t *testing.T) {
	got := run(t, files{
		"club.csv": "id,date,time,tz,end,kind,status,opponent,team,revision\n" +
			"c1,2026-11-09,18:00,Europe/Dublin,20:00,practice,,,Club,\n" +
			"c2,2026-11-11,18:00,Europe/Dublin,20:00,practice,,,Club,\n" +
			"c3,2026-11-14,15:00,Europe/Dublin,16:40,game,,Rooks,Club,2\n" +
			"c3,2026-11-13,15:00,Europe/Dublin,16:40,game,,Rooks,Club,1\n" +
			"c4,2026-11-21,15:00,Europe/Dublin,16:40,game,postponed,Herons,Club,1\n" +
			"c4,2026-11-21,16:00,Europe/Dublin,17:40,game,confirmed,Herons,Club,2\n" +
			"c5,2026-11-18,19:00,Europe/Dublin,20:40,game,cancelled,Otters,Club,\n",
		"school.csv": "date;time;end;kind;opponent;team\n" +
			"2026-11-10;15:30;17:30;practice;;School\n" +
			"2026-11-13;15:30;17:30;practice;;School\n" +
			"2026-11-14;10:00;11:30;game;Fernhill;School\n" +
			"2026-11-14;15:00;16:40;game;Rooks;\n",
		"county.ics": "BEGIN:VCALENDAR\nVERSION:2.0\n" +
			"BEGIN:VEVENT\nUID:n1\nDTSTART;TZID=Europe/Dublin:20261112T180000\nDURATION:PT2H\nSUMMARY:County training\nEND:VEVENT\n" +
			"BEGIN:VEVENT\nUID:n2\nDTSTART;TZID=Europe/Dublin:20261115T100000\nDURATION:PT2H30M\nSUMMARY:County practice\nEND:VEVENT\n" +
			"BEGIN:VEVENT\nUID:n3\nDTSTART;TZID=Europe/Dublin:20261114T110000\nDURATION:PT1H30M\nSUMMARY:County v Larch\nEND:VEVENT\n" +
			"END:VCALENDAR\n",
		"a.json": `{"id": "z6", "born": "2012-03", "zone": "Europe/Dublin", "trainingAgeYears": 2}`,
	}, "-fixtures", "club.csv", "-fixtures", "school.csv", "-fixtures", "county.ics", "-athlete", "a.json", "-from", "2026-11-09", "-to", "2026-11-22")
	if got.code != exitPlanned {
		t.Fatalf("exit %d: %s", got.code, got.stderr)
	}
	for _, want := range []string{
		`club.csv:5: warning: id "c3" - revision 1 is not used, line 4 has revision 2`,
		`club.csv:6: warning: id "c4" - revision 1 is not used, line 7 has revision 2`,
		`club.csv:4, event c3: question: start "2026-11-14T15:00" - the same event from another list, school.csv:5, event game-`,
		`county.ics:15, event n3: question: start "2026-11-14T11:00" - it overlaps with a game, school.csv:4, event game-`,
		"county.ics: warning: 2 events without a category",
	} {
		if !strings.Contains(got.stderr, want) {
			t.Errorf("not said: %s\n%s", want, got.stderr)
		}
	}
	text := strings.Join(strings.Fields(got.stdout), " ")
	for _, want := range []string{
		"Fernhill on Sat 14 Nov and County v Larch on Sat 14 Nov overlap: both are kept free.",
		"two games on Sat 14 Nov", "18 h 40 organised hours in the week from Mon 9 Nov, more than the age of 14 years",
		"no date without game or practice from Mon 9 Nov to Sun 15 Nov", "Sat 21 Nov GAME 16:00-17:40 Herons", "Wed 18 Nov recovery",
		"cancelled Otters",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("not printed: %s", want)
		}
	}
	if strings.Count(text, "Rooks") == 0 || strings.Count(text, "GAME 15:00-16:40 Rooks") != 1 {
		t.Errorf("the game in two lists:\n%s", got.stdout)
	}
}

// A long list is cut to the asked dates, what lies around them, and the games next
// to that.
func TestNear(t *testing.T) {
	day := func(s string) calendar.Date {
		d, err := calendar.ParseDate(s)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	var events []calendar.Event
	add := func(id, date string, k calendar.Kind) {
		events = append(events, calendar.Event{ID: id, Kind: k, Start: calendar.Wall{Date: day(date)}})
	}
	add("early", "2020-01-01", calendar.Game)
	add("last before", "2026-05-30", calendar.Game)
	add("practice before", "2026-06-30", calendar.Practice)
	add("around", "2026-08-28", calendar.Practice)
	add("inside", "2026-11-14", calendar.Game)
	add("first after", "2027-06-01", calendar.Game)
	add("late", "2028-01-01", calendar.Game)
	if got := near(events, day("2026-11-01"), day("2026-12-15")); len(got) != len(events) {
		t.Errorf("a short list is cut to %d", len(got))
	}
	for len(events) < manyEvents {
		events = append(events, calendar.Event{ID: "x", Kind: calendar.Practice, Start: calendar.Wall{Date: day("2021-03-03")}})
	}
	var got []string
	for _, e := range near(events, day("2026-11-01"), day("2026-12-15")) {
		got = append(got, e.ID)
	}
	if s := strings.Join(got, ", "); s != "around, inside, last before, first after" {
		t.Errorf("kept %s", s)
	}
	if got := near(events, calendar.Date{}, calendar.Date{}); len(got) != len(events) {
		t.Errorf("without dates cut to %d", len(got))
	}
}
