package main

import (
	"strings"
	"testing"
)

// game is an event of a calendar, with further lines; "" leaves a line out.
func game(lines ...string) string {
	out := "BEGIN:VEVENT\r\n"
	for _, l := range lines {
		if l != "" {
			out += l + "\r\n"
		}
	}
	return out + "END:VEVENT\r\n"
}

func vcalendar(body ...string) string {
	return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Invented//Table//EN\r\n" + strings.Join(body, "") + "END:VCALENDAR\r\n"
}

const (
	gameStart = "DTSTART;TZID=Europe/Berlin:20261114T180000"
	gameEnd   = "DTEND;TZID=Europe/Berlin:20261114T194500"
	rules     = "BEGIN:STANDARD\r\nDTSTART:16010101T030000\r\nRRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU\r\nTZOFFSETFROM:+0200\r\nTZOFFSETTO:+0100\r\nEND:STANDARD\r\n" +
		"BEGIN:DAYLIGHT\r\nDTSTART:16010101T020000\r\nRRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0200\r\nEND:DAYLIGHT\r\n"
)

func vtimezone(id string) string {
	return "BEGIN:VTIMEZONE\r\nTZID:" + id + "\r\n" + rules + "END:VTIMEZONE\r\n"
}

// Calendars as they are found: whatever is wrong with one, it is read, with what
// was assumed, or refused, with the line. All games are on 2026-11-14 at 18:00 in
// Berlin unless a row says otherwise; the number is that of games in the plan.
func TestFoundCalendars(t *testing.T) {
	plain := game("UID:u1", gameStart, gameEnd, "SUMMARY:Rooks v Otters")
	at := func(start string) string { return vcalendar(game("UID:u1", start, "SUMMARY:Rooks v Otters")) }
	with := func(lines ...string) string {
		return vcalendar(game(append([]string{"UID:u1", gameStart, gameEnd, "SUMMARY:Rooks v Otters"}, lines...)...))
	}
	long := "SUMMARY:Größe der Spielstätte in Überlingen"
	cut := strings.Index(long, "ß") + 1
	utf16 := "\xff\xfe"
	for _, c := range vcalendar(plain) {
		utf16 += string([]byte{byte(c), 0})
	}
	for _, c := range []struct {
		name, text string
		games      int
		said       string // of a line; "" nothing
	}{
		{"plain", vcalendar(plain), 1, ""},
		{"byte order mark", "\xef\xbb\xbf" + vcalendar(plain), 1, ""},
		{"line feeds", strings.ReplaceAll(vcalendar(plain), "\r\n", "\n"), 1, ""},
		{"carriage returns", strings.ReplaceAll(vcalendar(plain), "\r\n", "\r"), 1, ""},
		{"doubled carriage returns", strings.ReplaceAll(vcalendar(plain), "\r\n", "\r\r\n"), 1, ""},
		{"folded within a letter", vcalendar(game("UID:u1", gameStart, long[:cut]+"\r\n "+long[cut:])), 1, ""},
		{"empty lines", strings.ReplaceAll(vcalendar(plain), "SUMMARY", "\r\nSUMMARY"), 1, ""},
		{"not whole", strings.TrimSuffix(vcalendar(plain), "END:VCALENDAR\r\n"), -1, "c.ics:9: error: END"},
		{"an event without its end", strings.Replace(vcalendar(plain), "END:VEVENT\r\n", "", 1), 1, "c.ics:9: question: END"},
		{"closed twice", vcalendar(plain) + "END:VCALENDAR\r\n", 1, "c.ics:11: warning: END"},
		{"a script's notice before it", "Notice: undefined index on line 12\n" + vcalendar(plain), 1, "c.ics:1: warning"},
		{"a host's comment behind it", vcalendar(plain) + "<!-- host 7 -->\r\n", 1, "c.ics:11: warning"},
		{"several calendars", vcalendar(plain) + vcalendar(game("UID:u2", "DTSTART:20261121T170000Z")), 2, ""},
		{"a web page", "<!DOCTYPE html>\n<html></html>\n", -1, "c.ics:1: error: no BEGIN:VCALENDAR"},
		{"nothing", "", -1, "c.ics:1: error: no BEGIN:VCALENDAR"},
		{"UTF-16", utf16, -1, "c.ics:1: error: the file is UTF-16"},
		{"Latin-1", with("LOCATION:M\xfcnchen"), 1, "c.ics:9: warning"},
		{"control characters", with("LOCATION:Hall\x00\x1b[31m"), 1, "c.ics:9: warning"},
		{"tasks alone", vcalendar("BEGIN:VTODO\r\nUID:t\r\nEND:VTODO\r\n"), 0, "c.ics: warning: the calendar has no events"},
		{"cancelled as a whole", "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nMETHOD:CANCEL\r\n" + plain + "END:VCALENDAR\r\n", 0, ""},
		{"no version, no product", "BEGIN:VCALENDAR\r\n" + plain + "END:VCALENDAR\r\n", 1, ""},
		{"one id twice", vcalendar(plain, game("UID:u1", "DTSTART:20261121T170000Z")), 2, "c.ics:10: warning: UID"},
		{"no id", vcalendar(game(gameStart)), 1, ""},
		{"a date with a zone", at("DTSTART;VALUE=DATE;TZID=Europe/Berlin:20261114"), 1, ""},
		{"a date that does not say so", at("DTSTART:20261114"), 1, ""},
		{"floating", at("DTSTART:20261114T180000"), 1, ""},
		{"an empty zone", at("DTSTART;TZID=:20261114T180000"), 1, ""},
		{"a desktop's zone", at("DTSTART;TZID=W. Europe Standard Time:20261114T180000"), 1, ""},
		{"a zone at the end of a path", at("DTSTART;TZID=/invented.example/20260101/Europe/Berlin:20261114T180000"), 1, ""},
		{"a zone in quotes", vcalendar(vtimezone("(UTC+01:00) Bern, Rom"), game("UID:u1", `DTSTART;TZID="(UTC+01:00) Bern, Rom":20261114T180000`)), 1, ""},
		{"a zone of its own, defined after it", vcalendar(game("UID:u1", "DTSTART;TZID=Customized Time Zone:20261114T180000"), vtimezone("Customized Time Zone")), 1, ""},
		{"a zone of its own, not defined", at("DTSTART;TZID=Customized Time Zone:20261114T180000"), 1, "c.ics:6: question: TZID"},
		{"a zone of its own, badly defined", vcalendar("BEGIN:VTIMEZONE\r\nTZID:Hall\r\nEND:VTIMEZONE\r\n", game("UID:u1", "DTSTART;TZID=Hall:20261114T180000")), 1, "c.ics:9: question: TZID"},
		{"a fixed offset", at("DTSTART;TZID=GMT+0100:20261114T180000"), 1, "c.ics:6: question: TZID"},
		{"a zone in small letters", at("DTSTART;TZID=europe/berlin:20261114T180000"), 1, "c.ics:6: warning: TZID"},
		{"no start", vcalendar(game("UID:u1", gameEnd)), 0, "c.ics:4: question: DTSTART"},
		{"a start of a form's", at("DTSTART:2026-11-14T18:00:00"), 1, "c.ics:6: question: DTSTART"},
		{"a start that is none, alone", at("DTSTART:next week"), -1, "c.ics:4: error"},
		{"a start that is none, among others", vcalendar(plain, game("UID:u2", "DTSTART:next week")), 1, "c.ics:12: question: DTSTART"},
		{"no such day", at("DTSTART:20261031T180000Z") + at("DTSTART:20261131T180000Z"), 0, "c.ics:15: question: DTSTART"},
		{"the year 1", vcalendar(plain, game("UID:u2", "DTSTART:00010101T000000Z")), 1, "c.ics:12: warning: DTSTART"},
		{"it ends before it starts", vcalendar(game("UID:u1", gameStart, "DTEND:20261114T100000Z")), 1, "c.ics:7: question: DTEND"},
		{"it ends when it starts", vcalendar(game("UID:u1", gameStart, "DTEND:20261114T170000Z")), 1, "c.ics:7: warning: DTEND"},
		{"an empty end", vcalendar(game("UID:u1", gameStart, "DTEND:")), 1, "c.ics:7: question: DTEND"},
		{"it ends on a date", vcalendar(game("UID:u1", gameStart, "DTEND;VALUE=DATE:20261115")), 1, "c.ics:7: question: DTEND"},
		{"it lasts less than nothing", vcalendar(game("UID:u1", gameStart, "DURATION:-PT1H")), 1, "c.ics:7: question: DURATION"},
		{"end and duration", with("DURATION:PT2H"), 1, "c.ics:9: warning: DURATION"},
		{"two starts", with("DTSTART:20261115T170000Z"), 1, "c.ics:9: question: DTSTART"},
		{"without end", with("RRULE:FREQ=WEEKLY"), 3, ""},
		{"count and until", with("RRULE:FREQ=WEEKLY;COUNT=2;UNTIL=20270101T000000Z"), 2, "c.ics:9: warning: RRULE"},
		{"every second", with("RRULE:FREQ=SECONDLY", "CATEGORIES:busy"), 0, "c.ics:9: question: RRULE"},
		{"every hour, without end", vcalendar(plain, game("UID:u2", gameStart, "RRULE:FREQ=HOURLY")), 1, "c.ics:10: question: RRULE"},
		{"a weekday of three letters", with("RRULE:FREQ=WEEKLY;BYDAY=SAT"), 1, "c.ics:9: question: RRULE"},
		{"this and all after", with("RRULE:FREQ=WEEKLY;COUNT=3") + vcalendar(game("UID:u1", "DTSTART:20261122T170000Z", "RECURRENCE-ID;RANGE=THISANDFUTURE:20261121T170000Z")), 3, ""},
		{"periods", with("RDATE;VALUE=PERIOD:20261121T170000Z/PT2H,20261128T170000Z/20261128T184500Z"), 3, ""},
		{"a date among times", with("RDATE;VALUE=DATE:20261121"), 2, "c.ics:9: question: RDATE"},
		{"a sequence that is none", with("SEQUENCE:abc"), 1, "c.ics:9: warning: SEQUENCE"},
		{"an odd status", with("STATUS:POSTPONED"), 1, "c.ics:9: warning: STATUS"},
		{"a raw line in a text", with("DESCRIPTION:One", "A second line", "LOCATION:Hall"), 1, "c.ics:10: warning: DESCRIPTION"},
		{"a name that is not quoted", with("ORGANIZER;CN=Rooks, Otters; Herons:mailto:a@example.org"), 1, "c.ics:9: warning: ORGANIZER"},
		{"a quote left open", with(`ATTENDEE;CN="open:mailto:a@example.org`), 1, "c.ics:9: warning: ATTENDEE"},
		{"a hundred parameters", with("ATTENDEE;" + strings.Repeat("X-A=1;", 100) + "X-B=2:mailto:a@example.org"), 1, "c.ics:9: warning: ATTENDEE"},
		{"a line of 300,000 bytes", with("DESCRIPTION:" + strings.Repeat("x", 300_000)), 1, "c.ics:9: warning: DESCRIPTION"},
		{"an alarm left open", with("BEGIN:VALARM", "TRIGGER:-PT30M"), 1, "c.ics:11: question: END"},
		{"components without end", vcalendar(strings.Repeat("BEGIN:X-A\r\n", 3000)), -1, "c.ics:19: error: BEGIN"},
		{"an event in a calendar in a calendar", vcalendar(vcalendar(plain)), 1, "c.ics:4: warning: BEGIN"},
		{"events in no calendar", plain, 1, "c.ics:1: warning: BEGIN"},
		{"a calendar that closes itself wrongly", strings.Replace(vcalendar(plain), "END:VCALENDAR", "END:VCALENDARD", 1), 1, "c.ics:10: warning: END"},
		{"a meeting of two names", vcalendar(plain, "BEGIN:X-A\r\n"+game("UID:u2", "DTSTART:20261121T170000Z")+"END:X-A\r\n"), 2, "c.ics:11: warning: BEGIN"},
		{"a Hebrew calendar", "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nCALSCALE:HEBREW\r\n" + plain + "END:VCALENDAR\r\n", 1, "c.ics:3: question: CALSCALE"},
		{"two series of one id", vcalendar(plain, game("UID:u1", gameStart, gameEnd, "SUMMARY:Rooks v Herons", "RRULE:FREQ=WEEKLY;COUNT=2")), 3, "c.ics:10: warning: UID"},
		{"an id of 3,000 bytes", vcalendar(game("UID:"+strings.Repeat("u", 3000), gameStart, gameEnd)), 1, "c.ics:4: warning: UID"},
		{"script tags", with("LOCATION:<script>alert(1)</script>"), 1, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := run(t, files{"c.ics": c.text, "a.json": `{"id": "a", "born": "2000-03", "zone": "Europe/Berlin", "trainingAgeYears": 4}`},
				"-fixtures", "c.ics", "-athlete", "a.json", "-from", "2026-11-09", "-to", "2026-11-29")
			switch n := strings.Count(got.stdout, " GAME "); {
			case c.games < 0 && (got.code != exitInput || got.stdout != ""):
				t.Errorf("exit %d: %s", got.code, got.stderr)
			case c.games >= 0 && (got.code != exitPlanned || n != c.games):
				t.Errorf("exit %d, %d games, want %d: %s", got.code, n, c.games, got.stderr)
			case !strings.Contains(got.stderr, c.said) || c.said == "" && strings.Contains(got.stderr, "c.ics"):
				t.Errorf("said %q, want %q", got.stderr, c.said)
			}
		})
	}
}
