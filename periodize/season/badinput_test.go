package season_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// doc is a request of one invented week with more fields of the athlete and of
// the request itself.
func doc(athlete, rest string) string {
	return `{"schema": 1, "period": {"from": "2026-11-09", "to": "2026-11-15"}, "now": "2026-11-09T08:00:00+01:00",
	"athlete": {"born": "2007-03", "zone": "Europe/Berlin", "trainingAgeYears": 3` + athlete + `}` + rest + `}`
}

func events(list string) string { return doc("", `, "events": [`+list+`]`) }

func lines(problems []calendar.Problem) []string {
	out := make([]string, len(problems))
	for i, p := range problems {
		out[i] = p.Code + " " + p.Error()
	}
	return out
}

// read returns the code and line of every problem of a text.
func read(t *testing.T, reader season.RequestReader, text string) []string {
	t.Helper()
	req, problems, err := reader.Read(strings.NewReader(text))
	if err == nil {
		if req == nil {
			t.Fatal("neither a request nor an error")
		}
		return lines(problems)
	}
	var bad *season.InputError
	if !errors.As(err, &bad) || !errors.Is(err, season.ErrInput) {
		t.Fatalf("error of type %T", err)
	}
	if req != nil {
		t.Error("a request beside an error")
	}
	return lines(bad.Problems)
}

var cases = []struct {
	name, text string
	want       []string
}{
	{"nothing wrong", doc("", ""), nil},
	{"an empty calendar", doc("", `, "events": []`), nil},
	{"no text", "", []string{
		`empty error: there is no value in the text (line 1, column 1); give one JSON value`,
	}},
	{"not JSON", `{"schema": 1, "period": }`, []string{
		`syntax /period: error: "}" - a value is wanted (line 1, column 25); add it, or remove this character`,
	}},
	{"a list", `[]`, []string{
		`kind error: "[…] of 0" - an object is wanted, not an array; give an object`,
	}},
	{"nothing given", `{"schema": 1}`, []string{
		`missing /period: error: the field is missing; add it`,
		`missing /athlete: error: the field is missing; add it`,
	}},
	{"no schema", strings.Replace(doc("", ""), `"schema": 1, `, "", 1), []string{
		`schema-missing /schema: warning: no schema is given: taken as 1; add "schema": 1`,
	}},
	{"newer schema", strings.Replace(doc("", `, "whatever": 1`), `"schema": 1`, `"schema": 2`, 1), []string{
		`schema-newer /schema: error: "2" - the text is of schema 2, this version reads up to 1; update the library, or write the text for the older schema`,
	}},
	{"schema as text", strings.Replace(doc("", ""), `"schema": 1`, `"schema": "1"`, 1), []string{
		`kind /schema: error: "1" - a number is wanted, not a string; write the number without quotes`,
	}},
	{"unknown field", doc("", `, "event": [], "colour": "red"`), []string{
		`unknown /event: warning: the field is not known and is not read; did you mean "events"?`,
		`unknown /colour: warning: the field is not known and is not read; remove it`,
	}},
	{"wrong-case field", strings.Replace(doc("", ""), `"zone"`, `"Zone"`, 1), []string{
		`wrong-case /athlete/Zone: error: capital and small letters differ in names; write "zone"`,
	}},
	{"a field twice", doc("", `, "pins": [], "pins": []`), []string{
		`duplicate /pins: error: the field is given twice, first at 2:82 (line 2, column 94); keep one of the two`,
	}},
	{"null", doc("", `, "events": null`), []string{
		`null /events: error: "null" - null stands for no value; leave the field out`,
	}},
	{"now without offset", strings.Replace(doc("", ""), `08:00:00+01:00`, `08:00:00`, 1), []string{
		`instant /now: error: "2026-11-09T08:00:00" - an instant without its offset from UTC; write date, time and offset, such as 2026-11-08T14:00:00+01:00`,
	}},
	{"now as a date", strings.Replace(doc("", ""), `T08:00:00+01:00`, ``, 1), []string{
		`instant /now: error: "2026-11-09" - this is not an instant; write date, time and offset, such as 2026-11-08T14:00:00+01:00`,
	}},
	{"now after the period", strings.Replace(doc("", ""), `"now": "2026-11-09`, `"now": "2026-11-19`, 1), []string{
		`now-after-period /now: warning: "2026-11-19" - the period ended on 2026-11-15: nothing is left to plan; check now and the period`,
	}},
	{"period back to front", strings.Replace(doc("", ""), `"to": "2026-11-15"`, `"to": "2026-11-05"`, 1), []string{
		`span /period/to: error: "2026-11-05" - it ends before it begins on 2026-11-09; give a last date on or after the first`,
	}},
	{"period too long", strings.Replace(doc("", ""), `"to": "2026-11-15"`, `"to": "2027-12-15"`, 1), []string{
		`limit /period/to: error: "2027-12-15" - the period has 402 dates, the limit is 400; plan a shorter period`,
	}},
	{"a date of two readings", strings.Replace(doc("", ""), `"to": "2026-11-15"`, `"to": "03/04/2027"`, 1), []string{
		`date /period/to: error: "03/04/2027" - day and month cannot be told apart; write 2027-04-03 if the day comes first, 2027-03-04 if the month does`,
	}},
	{"no such date", strings.Replace(doc("", ""), `"to": "2026-11-15"`, `"to": "2026-11-31"`, 1), []string{
		`date /period/to: error: "2026-11-31" - November 2026 has no day 31; give a day that exists, from 1900-01-01 to 2199-12-31`,
	}},
	{"zone missing", strings.Replace(events(`{"kind": "game", "start": "2026-11-14T14:00", "end": "2026-11-14T16:00"}`), `"zone": "Europe/Berlin", `, "", 1), []string{
		`missing /athlete/zone: error: the field is missing; add it`,
	}},
	{"zone misspelt", strings.Replace(doc("", ""), `Europe/Berlin`, `Europe/Berln`, 1), []string{
		`zone /athlete/zone: error: "Europe/Berln" - unknown time zone; did you mean Europe/Berlin?`,
	}},
	{"zone of an offset", strings.Replace(doc("", ""), `Europe/Berlin`, `+01:00`, 1), []string{
		`zone /athlete/zone: error: "+01:00" - a fixed offset knows no clock changes; name the place, such as Europe/Berlin`,
	}},
	{"zone of the machine", strings.Replace(doc("", ""), `Europe/Berlin`, `Local`, 1), []string{
		`zone /athlete/zone: error: "Local" - the zone of a machine is not the zone of a fixture; name the place, such as Europe/Berlin`,
	}},
	{"zone empty", strings.Replace(doc("", ""), `Europe/Berlin`, ``, 1), []string{
		`length /athlete/zone: error: the string is empty; give a text, or leave the field out where it may be left out`,
	}},
	{"event in an unknown zone", events(`{"kind": "game", "start": "2026-11-14T14:00", "end": "2026-11-14T12:00", "zone": "Europa/Berlin"}`), []string{
		`zone /events/0/zone: error: "Europa/Berlin" - unknown time zone; did you mean Europe/Berlin?`,
	}},
	{"start with an offset", events(`{"kind": "game", "start": "2026-11-14T14:00+01:00"}`), []string{
		`wall /events/0/start: error: "2026-11-14T14:00+01:00" - an offset behind the time; write the local time alone, and the zone in its own field`,
	}},
	{"start with a blank", events(`{"kind": "game", "start": "2026-11-14 14:00"}`), []string{
		`wall /events/0/start: error: "2026-11-14 14:00" - not a date and a time joined by T; write 2026-11-08T14:00`,
	}},
	{"no start", events(`{"kind": "game"}`), []string{
		`missing /events/0/start: error: the field is missing; add it`,
	}},
	{"skipped start", events(`{"kind": "practice", "start": "2026-03-29T02:30", "end": "2026-03-29T04:00"}`), []string{
		`time-skipped /events/0/start: error: "2026-03-29T02:30" - the clock in Europe/Berlin jumps over this time; give 2026-03-29T01:59 or 2026-03-29T03:00`,
	}},
	{"skipped end", events(`{"kind": "practice", "start": "2026-03-29T01:30", "end": "2026-03-29T02:15"}`), []string{
		`time-skipped /events/0/end: error: "2026-03-29T02:15" - the clock in Europe/Berlin jumps over this time; give 2026-03-29T01:59 or 2026-03-29T03:00`,
	}},
	{"doubled start", events(`{"kind": "practice", "start": "2026-10-25T02:30", "end": "2026-10-25T04:00"}`), []string{
		`time-doubled /events/0/start: question: "2026-10-25T02:30" - the clock in Europe/Berlin shows this time twice: the first is used; move it by an hour if the second is meant`,
	}},
	{"end before start", events(`{"kind": "practice", "start": "2026-11-14T14:00", "end": "2026-11-14T12:00"}`), []string{
		`end /events/0/end: error: "2026-11-14T12:00" - it ends before it starts at 2026-11-14T14:00; give an end after the start`,
	}},
	{"end in an earlier zone", events(`{"kind": "travel", "start": "2026-11-14T14:00", "end": "2026-11-14T14:30", "endZone": "America/New_York"}, {"kind": "travel", "start": "2026-11-14T14:00", "zone": "America/New_York", "end": "2026-11-14T14:30", "endZone": "Europe/Berlin"}`), []string{
		`end /events/1/end: error: "2026-11-14T14:30" - it ends before it starts at 2026-11-14T14:00; give an end after the start`,
	}},
	{"game of no length", events(`{"kind": "game", "start": "2026-11-14T14:00", "end": "2026-11-14T14:00"}`), []string{
		`end /events/0/end: error: "2026-11-14T14:00" - the game ends when it starts; give an end after the start, or none`,
	}},
	{"game over 12 h", events(`{"kind": "game", "start": "2026-11-14T14:00", "end": "2026-11-15T02:01"}`), []string{
		`game-long /events/0/end: error: "2026-11-15T02:01" - the game lasts 12h1m0s, more than 12 h; check date and time of start and end`,
	}},
	{"actual end before start", events(`{"kind": "game", "start": "2026-11-07T14:00", "end": "2026-11-07T16:00", "actualEnd": "2026-11-07T13:00", "status": "played"}`), []string{
		`end /events/0/actualEnd: error: "2026-11-07T13:00" - it ends before it starts at 2026-11-07T14:00; give an end after the start`,
	}},
	{"planned end before start", events(`{"kind": "game", "start": "2026-11-07T14:00", "end": "2026-11-07T13:00", "actualEnd": "2026-11-07T16:00", "status": "played"}`), []string{
		`end /events/0/end: error: "2026-11-07T13:00" - it ends before it starts at 2026-11-07T14:00; give an end after the start`,
	}},
	{"practice over 12 h", events(`{"kind": "practice", "start": "2026-11-14T14:00", "end": "2026-11-15T14:00"}`), []string{
		`event-long /events/0/end: warning: "2026-11-15T14:00" - the practice lasts 24 h 00, more than 12 h; check date and time of start and end`,
	}},
	{"closure without an end", events(`{"kind": "closure", "start": "2026-11-14T14:00"}`), []string{
		`missing /events/0/end: error: a closure has no usual length; give its end`,
	}},
	{"games without a start", events(`{"id": "g1", "kind": "game", "start": "2026-11-12"}, {"id": "g2", "kind": "game", "start": "2026-11-14"}`), []string{
		`date-only /events/0/start: question: "2026-11-12" - 2 of the games have no start: they take 09:00 to 22:00 of their date; when do they start?`,
	}},
	{"games without an end", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00"}, {"id": "g2", "kind": "game", "start": "2026-11-14T18:00"}`), []string{
		`game-end /events/0/end: question: 2 of the games have no end: 120 minutes are assumed; how long do the games take?`,
	}},
	{"start with a time and end without", events(`{"kind": "game", "start": "2026-11-14T14:00", "end": "2026-11-14"}`), []string{
		`end /events/0/end: error: "2026-11-14" - one of start and end has a time of day, the other has none; give both with a time, such as 2026-11-08T14:00, or both without`,
	}},
	{"dates back to front", events(`{"kind": "closure", "start": "2026-11-14", "end": "2026-11-13"}`), []string{
		`end /events/0/end: error: "2026-11-13" - it ends before it starts on 2026-11-14; give a last date on or after the first`,
	}},
	{"game of two dates", events(`{"kind": "game", "start": "2026-11-13", "end": "2026-11-14"}`), []string{
		`end /events/0/end: error: "2026-11-14" - a game of several dates; give each game its own date`,
	}},
	{"actual end without a start", events(`{"id": "p", "kind": "practice", "start": "2026-11-07", "actualEnd": "2026-11-07T16:00"}`), []string{
		`end-unused /events/0/actualEnd: warning: "2026-11-07T16:00" - an actual end is not used where the start has no time of day; give the time of the start`,
	}},
	{"an id twice", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}, {"id": "g1", "kind": "game", "start": "2026-11-14T18:00", "end": "2026-11-14T20:00"}`), []string{
		`id-twice /events/1/id: error: "g1" - the event at /events/0 has the same id and other content; give each event an id of its own, or the newer one a higher revision`,
	}},
	{"kit that is not there", doc("", `, "places": [{"id": "hall", "kit": []}, {"id": "gym"}, {"id": "home", "kit": ["floor"]}]`), []string{
		`kit-empty /places/0/kit: warning: nothing is named: there is nothing but a floor, own weight only; name what is there, or leave it out for an ordinary gym`,
	}},
	{"the same twice", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}, {"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00", "status": "confirmed"}`), []string{
		`repeated /events/1/id: warning: "g1" - the same event stands at /events/0: it is used once; leave one out`,
	}},
	{"the same from two calendars", events(`{"id": "x9", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}, {"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}`), []string{
		`event-twice /events/0/id: warning: "x9" - the event g1 at /events/1 has the same content: g1 is used; leave one out`,
	}},
	{"almost the same from two calendars", events(`{"id": "g1", "kind": "practice", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}, {"id": "x9", "kind": "practice", "start": "2026-11-12T18:00", "end": "2026-11-12T19:30"}`), []string{
		`event-twice /events/1/id: question: "x9" - the event g1 at /events/0 looks like the same occasion, with another end, status or importance: both are kept free; which one is right?`,
	}},
	{"two games at once", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00", "team": "school"}, {"id": "g2", "kind": "game", "start": "2026-11-12T19:30", "end": "2026-11-12T21:00", "team": "club"}`), []string{
		`games-overlap /events/1/start: question: "2026-11-12T19:30" - the game g2 overlaps the game g1: both are kept free; which one is played?`,
	}},
	{"older revision after newer", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00", "revision": 2}, {"id": "g1", "kind": "game", "start": "2026-11-13T18:00", "end": "2026-11-13T20:00", "revision": 1}`), []string{
		`revision-old /events/1/id: warning: "g1" - revision 1 after revision 2 at /events/0: it is not used; leave the older one out`,
	}},
	{"newer revision after older", events(`{"id": "g1", "kind": "game", "start": "2026-11-13T18:00", "end": "2026-11-13T20:00"}, {"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00", "revision": 1}`), []string{
		`replaced /events/0/id: warning: "g1" - revision 1 at /events/1 replaces it; leave the older one out`,
	}},
	{"words of events", events(`{"kind": "Game", "start": "2026-11-12T18:00", "status": "canceled", "importance": "high", "home": "yes", "revision": -1}`), []string{
		`wrong-case /events/0/kind: error: "Game" - capital and small letters differ; write "game"`,
		`choice /events/0/status: error: "canceled" - the word is not known here; did you mean "cancelled"? It is one of: confirmed, provisional, if-necessary, postponed, cancelled, played`,
		`choice /events/0/importance: error: "high" - the word is not known here; write one of: important, normal, unknown`,
		`choice /events/0/home: error: "yes" - the word is not known here; write one of: home, away, neutral`,
		`range /events/0/revision: error: "-1" - the number is out of range; give a number from 0 to 1000000000`,
	}},
	{"control characters and tags", events(`{"id": "p1", "kind": "practice", "start": "2026-11-12T18:00", "title": "\u001b[31m<script>alert(1)</script>"}`), []string{
		`control /events/0/title: warning: "\x1b" - the string holds a character that controls how text is shown; remove it if it is not meant`,
	}},
	{"NUL in a name", events(`{"id": "p1", "kind": "practice", "start": "2026-11-12T18:00", "title": "a\u0000b"}`), []string{
		`nul /events/0/title: error: "U+0000" - the string holds the character NUL (line 2, column 166); remove it`,
	}},
	{"empty id", events(`{"id": "", "kind": "practice", "start": "2026-11-12T18:00"}`), []string{
		`length /events/0/id: error: the string is empty; give a text, or leave the field out where it may be left out`,
	}},
	{"age missing", strings.Replace(doc("", ""), `"born": "2007-03", `, ``, 1), []string{
		`age-missing /athlete/born: question: the age is not known: the safeguards of a 13- to 15-year-old beginner are used; give the month of birth, such as "2007-03"`,
	}},
	{"age 9", strings.Replace(doc("", ""), `2007-03`, `2017-03`, 1), nil},
	{"age 130", strings.Replace(doc("", ""), `2007-03`, `1906-03`, 1), []string{
		`born /athlete/born: error: "1906-03" - an age of 120 years; check the year`,
	}},
	{"age 101", strings.Replace(doc("", ""), `2007-03`, `1925-03`, 1), []string{
		`born /athlete/born: error: "1925-03" - an age of 101 years; check the year`,
	}},
	{"not born yet", strings.Replace(doc("", ""), `2007-03`, `2027-03`, 1), []string{
		`born /athlete/born: error: "2027-03" - born after 2026-11-09; check the year`,
	}},
	{"full date of birth", strings.Replace(doc("", ""), `2007-03`, `2007-03-17`, 1), []string{
		`month /athlete/born: error: "2007-03-17" - a full date of birth is not needed; leave the day out: 2007-03`,
	}},
	{"born in no month", strings.Replace(doc("", ""), `2007-03`, `2007-13`, 1), []string{
		`month /athlete/born: error: "2007-13" - not a month as year and month; write 2007-03 for March 2007`,
	}},
	{"training age missing", strings.Replace(doc("", ""), `, "trainingAgeYears": 3`, ``, 1), []string{
		`training-missing /athlete/trainingAgeYears: question: the training age is not known: a beginner's rules are used; give the years of regular supervised strength training, such as 2.5`,
	}},
	{"training age negative", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": -3`, 1), []string{
		`range /athlete/trainingAgeYears: error: "-3" - the number is out of range; give a number from 0 to 80 with at most 2 decimals`,
	}},
	{"training age NaN", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": NaN`, 1), []string{
		`syntax /athlete/trainingAgeYears: error: "NaN" - this is not a number in JSON (line 2, column 78); give a finite number, or leave the field out`,
	}},
	{"training age infinite", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": 1e999`, 1), []string{
		`number /athlete/trainingAgeYears: error: "1e999" - the number has an exponent; write it out in digits`,
	}},
	{"more training than life", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": 30`, 1), []string{
		`training-age /athlete/trainingAgeYears: error: "30" - more years of training than of life: the age is 19; check both`,
	}},
	{"closing before opening", doc(`, "hours": [{"days": ["mon"], "from": "20:00", "to": "18:00"}, {"days": [], "from": "9:00", "to": "10:00"}, {"days": ["mon", "monday", "mon"], "from": "09:00", "to": "09:00"}]`, ""), []string{
		`clock /athlete/hours/1/from: error: "9:00" - not a time on the 24-hour clock as HH:MM; write 09:00 if that is meant`,
		`choice /athlete/hours/2/days/1: error: "monday" - the word is not known here; write one of: mon, tue, wed, thu, fri, sat, sun`,
		`closing /athlete/hours/0/to: error: "18:00" - it closes at or before it opens at 20:00; give hours past midnight as two entries, one to 24:00 and one from 00:00`,
		`missing /athlete/hours/1/days: error: there are no days; give days such as mon and thu`,
		`closing /athlete/hours/2/to: error: "09:00" - it closes at or before it opens at 09:00; give a later end`,
		`repeated /athlete/hours/2/days/2: warning: "mon" - the day is named twice; leave one out`,
	}},
	{"preferred start", doc(`, "prefer": [{"days": ["tue"], "start": "25:00"}]`, ""), []string{
		`clock /athlete/prefer/0/start: error: "25:00" - there is no such time of day; give a time from 00:00 to 24:00`,
	}},
	{"loads", doc(`, "maxima": [{"exercise": "squat", "load": "100", "kind": "tested", "date": "2026-09-14"}, {"exercise": "squat", "load": 100, "kind": "tested", "date": "2026-09-14"}, {"exercise": "squat", "load": "-5 kg", "kind": "guessed", "date": "2026-11-10"}, {"exercise": "squat", "load": "0 kg", "kind": "tested", "date": "2026-09-14"}, {"exercise": "squat", "load": {"grams": 100000}, "kind": "tested", "date": "2026-09-14"}]`, ""), []string{
		`mass /athlete/maxima/0/load: error: "100" - a load without a unit; add kg, g or lb`,
		`mass /athlete/maxima/1/load: error: "100" - a load without a unit; write it as text with its unit, such as "100 kg"`,
		`mass /athlete/maxima/2/load: error: "-5 kg" - a load is not negative; give a load from 0 to 10000 kg`,
		`choice /athlete/maxima/2/kind: error: "guessed" - the word is not known here; write one of: tested, estimated`,
		`future /athlete/maxima/2/date: error: "2026-11-10" - dated after now, 2026-11-09; give the date on which it was lifted`,
		`range /athlete/maxima/3/load: error: "0 kg" - a best of nothing; give the load, or leave the entry out`,
	}},
	{"restrictions are private", doc(`, "restrictions": [{"region": "left groin", "side": "lefft", "from": "03/04/2026", "by": "physio"}, {"region": "knee", "from": "2026-10-02", "to": "2026-10-01", "pain": 7}]`, ""), []string{
		`choice /athlete/restrictions/0/side: error: "(private)" - the word is not known here; write one of: left, right, both`,
		`date /athlete/restrictions/0/from: error: "(private)" - this is not a date such as 2026-11-08; write a date such as 2026-11-08`,
		`span /athlete/restrictions/1/to: error: "(private)" - it ends before it begins; give a last date on or after the first, or none`,
		`side-missing /athlete/restrictions/1/side: question: no side is given: both are taken; say left, right or both`,
		`unknown /athlete/restrictions/1: warning: a field in it, at 2:240, is not known and is not read; remove it`,
		`by-missing /athlete/restrictions/1/by: warning: nobody is named for this instruction; give the role of who set it, such as physiotherapist`,
	}},
	{"holds are private", doc(`, "holds": [{"from": "2026-10-03", "until": "2026-10-02"}, {"from": "2026-10-04", "clearedBy": "team doctor"}, {"from": "2026-10-05", "clearedOn": "2026-10-09"}, {"from": "2026-10-06", "clearedBy": "team doctor", "clearedOn": "2026-10-01"}, {"from": "2026-10-07", "clearedBy": "team doctor", "clearedOn": "2026-11-10"}]`, ""), []string{
		`span /athlete/holds/0/until: error: "(private)" - it ends before it begins; give a date on or after the first, or none`,
		`contradiction /athlete/holds/1/clearedOn: error: cleared on no date; give the date of clearance, or leave clearedBy out`,
		`contradiction /athlete/holds/2/clearedBy: error: a date of clearance, and nobody who cleared; give the role of the clinician who cleared the athlete, or leave the date out`,
		`contradiction /athlete/holds/3/clearedOn: error: "(private)" - cleared before the hold began; check both dates`,
		`future /athlete/holds/4/clearedOn: error: "(private)" - dated after now; a clearance counts once it is given: leave it out until then`,
	}},
	{"wellness is private", doc(`, "wellness": {"sleep": "bad"}`, ""), []string{
		`unknown /athlete/wellness: warning: the field is not known and is not read; remove it`,
	}},
	{"opt-ins", doc(`, "optIns": ["postgame", "post-game"]`, ""), []string{
		`choice /athlete/optIns/0: error: "postgame" - the word is not known here; did you mean "post-game"? It is one of: post-game, low-repetition-sets`,
	}},
	{"an opt-in twice", doc(`, "optIns": ["post-game", "post-game"]`, ""), []string{
		`repeated /athlete/optIns/1: warning: "post-game" - it is named twice; leave one out`,
	}},
	{"places", doc("", `, "places": [{"id": "gym", "hours": [{"days": ["sun"], "from": "18:00", "to": "10:00"}], "closed": [{"from": "2026-12-24", "to": "2026-12-20"}]}, {"id": "home"}, {"id": "gym"}, {"id": "home"}]`), []string{
		`closing /places/0/hours/0/to: error: "10:00" - it closes at or before it opens at 18:00; give hours past midnight as two entries, one to 24:00 and one from 00:00`,
		`span /places/0/closed/0/to: error: "2026-12-20" - it ends before it begins on 2026-12-24; give a last date on or after the first`,
		`id-twice /places/2/id: error: "gym" - the place at /places/0 has the same id and other content; give each place an id of its own`,
		`repeated /places/3/id: warning: "home" - the same place stands at /places/1: it is used once; leave one out`,
	}},
	{"overrides", doc("", `, "rules": [{"rule": "a"}, {"rule": "b", "value": 3}, {"rule": "b", "value": 4}, {"rule": "c", "off": true, "points": 2}, {"rule": "d", "value": -1}, {"rule": "e", "value": 2.5}, {"rule": "f", "off": true}, {"rule": "f", "off": true}]`), []string{
		`range /rules/4/value: error: "-1" - the number is out of range; give a number from 0 to 1000000000`,
		`number /rules/5/value: error: "2.5" - a whole number is wanted; write it without a decimal point`,
		`missing /rules/0/value: error: the entry changes nothing; give a value, points or off`,
		`contradiction /rules/2/rule: error: "b" - the entry at /rules/1 changes the same rule in another way; keep one of them`,
		`contradiction /rules/3/off: error: "true" - a rule that is off, and has a value; leave one of them out`,
		`repeated /rules/7/rule: warning: "f" - the same entry stands at /rules/6; leave one out`,
	}},
	{"log in the future", doc("", `, "log": [{"kind": "primer", "start": "2026-11-09T09:00"}, {"kind": "primer", "start": "2026-11-09T07:30", "end": "2026-11-09T08:30"}]`), []string{
		`future /log/0/start: error: "2026-11-09T09:00" - dated after now: work that is not done yet is no log; check the date, or give the now at which it was logged`,
		`future /log/1/end: error: "2026-11-09T08:30" - dated after now: work that is not done yet is no log; check the date, or give the now at which it was logged`,
	}},
	{"log entries", doc("", `, "log": [{"id": "a", "kind": "primer", "start": "2026-11-02T09:00", "end": "2026-11-02T08:00"}, {"id": "a", "kind": "recovery", "start": "2026-11-03T09:00"}, {"kind": "full body", "start": "2026-11-02"}, {"kind": "primer", "start": "2026-11-04T09:00", "end": "2026-11-05T09:00"}, {"kind": "primer", "start": "2026-11-06T09:00", "zone": "Europe/Berlin"}, {"kind": "primer", "start": "2026-11-06T09:00"}]`), []string{
		`choice /log/2/kind: error: "full body" - the word is not known here; did you mean "full-body"? It is one of: full-body, trimmed-full-body, primer, recovery, post-game, eccentric`,
		`wall /log/2/start: error: "2026-11-02" - not a date and a time joined by T; write 2026-11-08T14:00`,
		`end /log/0/end: error: "2026-11-02T08:00" - it ends at or before its start at 2026-11-02T09:00; give an end after the start, or none`,
		`id-twice /log/1/id: error: "a" - the entry at /log/0 has the same id and other content; give each entry an id of its own`,
		`end /log/3/end: error: "2026-11-05T09:00" - the session lasts 24 h 00, more than 12 h; check date and time of start and end`,
		`repeated /log/5/id: warning: "log-j73zcyqz4c3uhqrw" - the same entry stands at /log/4: it is used once; leave one out`,
	}},
	{"pins", doc("", `, "places": [{"id": "gym"}], "pins": [{"date": "2026-11-10", "none": true}, {"date": "2026-11-10", "kind": "primer"}, {"date": "2026-11-11", "none": true, "start": "10:00"}, {"date": "2026-11-12"}, {"date": "2026-11-13", "kind": "primer", "start": "10:00"}, {"date": "2026-11-13", "kind": "recovery", "start": "10:00"}, {"date": "2026-11-14", "kind": "recovery", "place": "gyn"}, {"date": "2026-11-20", "kind": "recovery"}, {"date": "2026-11-14", "kind": "stretching"}, {"date": "2026-11-13", "kind": "primer", "start": "10:00"}, {"date": "2026-11-08", "kind": "recovery"}]`), []string{
		`choice /pins/8/kind: error: "stretching" - the word is not known here; write one of: full-body, trimmed-full-body, primer, recovery, post-game, eccentric`,
		`contradiction /pins/1/date: error: "2026-11-10" - the pin at /pins/0 says the opposite of the same date; keep one of them`,
		`contradiction /pins/2/none: error: "true" - a pin that keeps the date free, and names a session; leave one of them out`,
		`missing /pins/3/kind: error: the pin names no kind of session; give a kind, or "none": true to keep the date free`,
		`contradiction /pins/5/start: error: "10:00" - the pin at /pins/4 has another session at the same time; keep one of them`,
		`place-unknown /pins/6/place: error: "gyn" - there is no such place in the request; did you mean gym?`,
		`pin-unused /pins/7/date: warning: "2026-11-20" - outside the period: the pin is not used; leave it out, or plan that date`,
		`repeated /pins/9: warning: "2026-11-13" - the same pin stands at /pins/4; leave one out`,
		`pin-unused /pins/10/date: warning: "2026-11-08" - outside the period: the pin is not used; leave it out, or plan that date`,
	}},
	{"issued plans", doc("", `, "issued": [{"schema": 1, "id": "a", "now": "2026-11-01T00:00:00", "outcome": "planned", "period": {"from": "2026-11-09", "to": "2026-11-02"}, "zone": "Mars/Base", "sessions": [{"id": "s", "start": "2026-11-09T10:00:00Z", "end": "2026-11-09T09:00:00Z", "date": "2026-11-19", "kind": "nap"}, {"id": "s", "start": "2026-11-09T10:00:00Z", "end": "2026-11-09T11:00:00Z", "date": "2026-11-09", "kind": "primer"}]}]`), []string{
		`instant /issued/0/now: error: "2026-11-01T00:00:00" - an instant without its offset from UTC; write date, time and offset, such as 2026-11-08T14:00:00+01:00`,
		`choice /issued/0/sessions/0/kind: error: "nap" - the word is not known here; write one of: full-body, trimmed-full-body, primer, recovery, post-game, eccentric`,
		`span /issued/0/period/to: error: "2026-11-02" - it ends before it begins on 2026-11-09; give a last date on or after the first`,
		`zone /issued/0/zone: error: "Mars/Base" - unknown time zone; name the place, such as Europe/Berlin`,
		`end /issued/0/sessions/0/end: error: "2026-11-09T09:00:00Z" - it ends at or before its start at 2026-11-09T10:00:00Z; give an end after the start`,
		`contradiction /issued/0/sessions/0/date: error: "2026-11-19" - it is not the date of the start at 2026-11-09T10:00:00Z; give the local date of the start`,
		`id-twice /issued/0/sessions/1/id: error: "s" - the session at /issued/0/sessions/0 has the same id; give each session an id of its own`,
	}},
	{"everything at once", `{"schema": 1, "period": {"from": "2026-11-09"}, "now": 5, "athlete": {"zone": "CET+1", "born": 2007}, "events": [{}, 3], "log": {}}`, []string{
		`missing /period/to: error: the field is missing; add it`,
		`kind /now: error: "5" - a string is wanted, not a number; put it in double quotes`,
		`zone /athlete/zone: error: "CET+1" - unknown time zone; name the place, such as Europe/Berlin`,
		`kind /athlete/born: error: "2007" - a string is wanted, not a number; put it in double quotes`,
		`missing /events/0/kind: error: the field is missing; add it`,
		`missing /events/0/start: error: the field is missing; add it`,
		`kind /events/1: error: "3" - an object is wanted, not a number; give an object`,
		`kind /log: error: "{…} of 0" - an array is wanted, not an object; put it in brackets: [ ]`,
		`training-missing /athlete/trainingAgeYears: question: the training age is not known: a beginner's rules are used; give the years of regular supervised strength training, such as 2.5`,
	}},
	{"doubled end", events(`{"kind": "practice", "start": "2026-10-25T01:30", "end": "2026-10-25T02:15"}`), []string{
		`time-doubled /events/0/end: question: "2026-10-25T02:15" - the clock in Europe/Berlin shows this time twice: the first after the start is used; move it by an hour if the second is meant`,
	}},
	{"athlete of another kind", strings.Replace(doc("", ""), `"athlete": {`, `"athlete": [], "extra": {`, 1), []string{
		`kind /athlete: error: "[…] of 0" - an object is wanted, not an array; give an object`,
		`unknown /extra: warning: the field is not known and is not read; remove it`,
	}},
	{"events of another kind", doc("", `, "events": {"id": "g1"}`), []string{
		`kind /events: error: "{…} of 1" - an array is wanted, not an object; put it in brackets: [ ]`,
	}},
	{"misspelt field of an event", events(`{"kind": "practice", "start": "2026-11-12T18:00", "tema": "U18"}`), []string{
		`unknown /events/0/tema: warning: the field is not known and is not read; did you mean "team"?`,
	}},
	{"a pin in a skipped hour", doc("", `, "pins": [{"date": "2027-03-28", "kind": "primer", "start": "02:30"}]`), []string{
		`time-skipped /pins/0/start: error: "2027-03-28T02:30" - the clock in Europe/Berlin jumps over this time; give 2027-03-28T01:59 or 2027-03-28T03:00`,
		`pin-unused /pins/0/date: warning: "2027-03-28" - outside the period: the pin is not used; leave it out, or plan that date`,
	}},
	{"days as numbers", doc(`, "hours": [{"days": [1], "from": "09:00", "to": "10:00"}]`, ""), []string{
		`kind /athlete/hours/0/days/0: error: "1" - a string is wanted, not a number; put it in double quotes`,
	}},
	{"hard in one calendar", events(`{"id": "p1", "kind": "practice", "start": "2026-11-12T18:00", "hard": true}, {"id": "p1", "kind": "practice", "start": "2026-11-12T18:00"}`), []string{
		`id-twice /events/1/id: error: "p1" - the event at /events/0 has the same id and other content; give each event an id of its own, or the newer one a higher revision`,
	}},
	{"as much training as life", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": 20`, 1), nil},
	{"a little more training than life", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": 20.09`, 1), []string{
		`training-age /athlete/trainingAgeYears: error: "20.09" - more years of training than of life: the age is 19; check both`,
	}},
	{"a session of no length", doc("", `, "log": [{"kind": "primer", "start": "2026-11-02T09:00", "end": "2026-11-02T09:00"}]`), []string{
		`end /log/0/end: error: "2026-11-02T09:00" - it ends at or before its start at 2026-11-02T09:00; give an end after the start, or none`,
	}},
	{"two games played at once", events(`{"id": "g1", "kind": "game", "start": "2026-11-07T18:00", "end": "2026-11-07T20:00", "status": "played"}, {"id": "g2", "kind": "game", "start": "2026-11-07T19:30", "end": "2026-11-07T21:00", "status": "played"}`), nil},
	{"games outside the period without a start", events(`{"id": "g1", "kind": "game", "start": "2026-10-12"}, {"id": "g2", "kind": "game", "start": "2026-12-14T18:00"}`), nil},
	{"rules of the club", doc("", `, "club": [{"id": "a", "shape": "forbid", "points": 3}, {"id": "b", "shape": "cost"},
		{"id": "c", "shape": "after", "minutes": 1441}, {"id": "c", "shape": "at-best"}, {"id": "e", "shape": "at-most", "most": 7, "dates": 3},
		{"id": "f", "shape": "apart", "minutes": 60, "event": {"title": "x"}, "from": "18:00", "to": "02:00"}]`), []string{
		`choice /club/3/shape: error: "at-best" - the word is not known here; did you mean "at-most"? It is one of: forbid, cost, after, at-most, apart, at-least`,
		`range /club/4/most: error: "7" - the number is out of range; give a number from 0 to 6`,
		`contradiction /club/0/points: error: "3" - a rule of the shape forbid has no points; leave it out, or choose another shape`,
		`range /club/1/points: error: "0" - outside 1 to 10000; give a number in between`,
		`range /club/2/minutes: error: "1441" - outside 1 to 1440; give a number in between`,
		`missing /club/2/event: error: no event is named; give {"kind": ...}, {"title": ...} or both`,
		`id-twice /club/3/id: error: "c" - the rule at /club/2 has the same id and other content; give each rule an id of its own`,
		`contradiction /club/5/event: error: "x" - a rule of the shape apart has no event; leave it out, or choose the shape after`,
		`closing /club/5/to: error: "02:00" - it ends at or before it begins at 18:00; give hours past midnight as two rules, one to 24:00 and one from 00:00`,
	}},
	{"rules of the club that ask for sessions", doc("", `, "club": [{"id": "a", "shape": "at-least"}, {"id": "b", "shape": "at-least", "least": 3, "dates": 29, "points": 5},
		{"id": "c", "shape": "at-least", "least": 4, "dates": 61, "points": 10001, "most": 0}, {"id": "d", "shape": "at-most", "most": 1, "dates": 11, "least": 1, "before": ["2026-11-01"]},
		{"id": "e", "shape": "at-least", "least": 1, "dates": 1, "points": 5, "before": ["2026-11-31", "2026-11-30", 3]},
		{"id": "f", "shape": "at-least", "least": 2, "dates": 60, "points": 5, "event": {"kind": "game"}, "before": ["2026-11-01", "2026-10-14"]}]`), []string{
		`range /club/2/least: error: "4" - the number is out of range; give a number from 0 to 3`,
		`range /club/2/dates: error: "61" - the number is out of range; give a number from 0 to 60`,
		`range /club/2/points: error: "10001" - the number is out of range; give a number from 0 to 10000`,
		`date /club/4/before/0: error: "2026-11-31" - November 2026 has no day 31; give a day that exists, from 1900-01-01 to 2199-12-31`,
		`kind /club/4/before/2: error: "3" - a string is wanted, not a number; put it in double quotes`,
		`range /club/0/points: error: "0" - outside 1 to 10000; give a number in between`,
		`range /club/0/least: error: "0" - outside 1 to 3; give a number in between`,
		`range /club/0/dates: error: "0" - outside 2 to 60; give a number in between`,
		`range /club/1/dates: error: "29" - outside 2 to 28; give a number in between`,
		`contradiction /club/3/least: error: "1" - a rule of the shape at-most has no least; leave it out, or choose another shape`,
		`range /club/3/dates: error: "11" - outside 1 to 10; give a number in between`,
		`contradiction /club/3/before: error: a rule of the shape at-most has no dates before; leave them out, or choose the shape at-least`,
		`range /club/4/dates: error: "1" - outside 2 to 60; give a number in between`,
		`before-unused /club/4/before/1: warning: "2026-11-30" - it is not before the period, whose sessions count by themselves: it is not used; leave it out, or log the session`,
	}},
	{"a cancelled clash", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}, {"id": "g2", "kind": "game", "start": "2026-11-12T19:30", "status": "cancelled"}`), nil},
}

func TestBadInput(t *testing.T) {
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := read(t, season.RequestReader{}, c.text)
			if diff := cmp.Diff(c.want, got, cmpopts.EquateEmpty()); diff != "" {
				t.Error(diff)
			}
		})
	}
}
