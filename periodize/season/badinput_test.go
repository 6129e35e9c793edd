package season_test

import (
	"errors"
	"os"
	"strings"
	"testing"

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
	{"no text", "", nil},
	{"not JSON", `{"schema": 1, "period": }`, nil},
	{"a list", `[]`, nil},
	{"nothing given", `{"schema": 1}`, nil},
	{"no schema", strings.Replace(doc("", ""), `"schema": 1, `, "", 1), nil},
	{"newer schema", strings.Replace(doc("", `, "whatever": 1`), `"schema": 1`, `"schema": 2`, 1), nil},
	{"schema as text", strings.Replace(doc("", ""), `"schema": 1`, `"schema": "1"`, 1), nil},
	{"unknown field", doc("", `, "event": [], "colour": "red"`), nil},
	{"wrong-case field", strings.Replace(doc("", ""), `"zone"`, `"Zone"`, 1), nil},
	{"a field twice", doc("", `, "pins": [], "pins": []`), nil},
	{"null", doc("", `, "events": null`), nil},
	{"now without offset", strings.Replace(doc("", ""), `08:00:00+01:00`, `08:00:00`, 1), nil},
	{"now as a date", strings.Replace(doc("", ""), `T08:00:00+01:00`, ``, 1), nil},
	{"now after the period", strings.Replace(doc("", ""), `"now": "2026-11-09`, `"now": "2026-11-19`, 1), nil},
	{"period back to front", strings.Replace(doc("", ""), `"to": "2026-11-15"`, `"to": "2026-11-05"`, 1), nil},
	{"period too long", strings.Replace(doc("", ""), `"to": "2026-11-15"`, `"to": "2027-12-15"`, 1), nil},
	{"a date of two readings", strings.Replace(doc("", ""), `"to": "2026-11-15"`, `"to": "03/04/2027"`, 1), nil},
	{"no such date", strings.Replace(doc("", ""), `"to": "2026-11-15"`, `"to": "2026-11-31"`, 1), nil},
	{"zone missing", strings.Replace(events(`{"kind": "game", "start": "2026-11-14T14:00", "end": "2026-11-14T16:00"}`), `"zone": "Europe/Berlin", `, "", 1), nil},
	{"zone misspelt", strings.Replace(doc("", ""), `Europe/Berlin`, `Europe/Berln`, 1), nil},
	{"zone of an offset", strings.Replace(doc("", ""), `Europe/Berlin`, `+01:00`, 1), nil},
	{"zone of the machine", strings.Replace(doc("", ""), `Europe/Berlin`, `Local`, 1), nil},
	{"zone empty", strings.Replace(doc("", ""), `Europe/Berlin`, ``, 1), nil},
	{"event in an unknown zone", events(`{"kind": "game", "start": "2026-11-14T14:00", "end": "2026-11-14T12:00", "zone": "Europa/Berlin"}`), nil},
	{"start with an offset", events(`{"kind": "game", "start": "2026-11-14T14:00+01:00"}`), nil},
	{"start with a blank", events(`{"kind": "game", "start": "2026-11-14 14:00"}`), nil},
	{"no start", events(`{"kind": "game"}`), nil},
	{"skipped start", events(`{"kind": "practice", "start": "2026-03-29T02:30", "end": "2026-03-29T04:00"}`), nil},
	{"skipped end", events(`{"kind": "practice", "start": "2026-03-29T01:30", "end": "2026-03-29T02:15"}`), nil},
	{"doubled start", events(`{"kind": "practice", "start": "2026-10-25T02:30", "end": "2026-10-25T04:00"}`), nil},
	{"end before start", events(`{"kind": "practice", "start": "2026-11-14T14:00", "end": "2026-11-14T12:00"}`), nil},
	{"end in an earlier zone", events(`{"kind": "travel", "start": "2026-11-14T14:00", "end": "2026-11-14T14:30", "endZone": "America/New_York"}, {"kind": "travel", "start": "2026-11-14T14:00", "zone": "America/New_York", "end": "2026-11-14T14:30", "endZone": "Europe/Berlin"}`), nil},
	{"game of no length", events(`{"kind": "game", "start": "2026-11-14T14:00", "end": "2026-11-14T14:00"}`), nil},
	{"game over 12 h", events(`{"kind": "game", "start": "2026-11-14T14:00", "end": "2026-11-15T02:01"}`), nil},
	{"actual end before start", events(`{"kind": "game", "start": "2026-11-07T14:00", "end": "2026-11-07T16:00", "actualEnd": "2026-11-07T13:00", "status": "played"}`), nil},
	{"planned end before start", events(`{"kind": "game", "start": "2026-11-07T14:00", "end": "2026-11-07T13:00", "actualEnd": "2026-11-07T16:00", "status": "played"}`), nil},
	{"practice over 12 h", events(`{"kind": "practice", "start": "2026-11-14T14:00", "end": "2026-11-15T14:00"}`), nil},
	{"closure without an end", events(`{"kind": "closure", "start": "2026-11-14T14:00"}`), nil},
	{"games without a start", events(`{"id": "g1", "kind": "game", "start": "2026-11-12"}, {"id": "g2", "kind": "game", "start": "2026-11-14"}`), nil},
	{"games without an end", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00"}, {"id": "g2", "kind": "game", "start": "2026-11-14T18:00"}`), nil},
	{"start with a time and end without", events(`{"kind": "game", "start": "2026-11-14T14:00", "end": "2026-11-14"}`), nil},
	{"dates back to front", events(`{"kind": "closure", "start": "2026-11-14", "end": "2026-11-13"}`), nil},
	{"game of two dates", events(`{"kind": "game", "start": "2026-11-13", "end": "2026-11-14"}`), nil},
	{"actual end without a start", events(`{"id": "p", "kind": "practice", "start": "2026-11-07", "actualEnd": "2026-11-07T16:00"}`), nil},
	{"an id twice", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}, {"id": "g1", "kind": "game", "start": "2026-11-14T18:00", "end": "2026-11-14T20:00"}`), nil},
	{"the same twice", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}, {"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00", "status": "confirmed"}`), nil},
	{"the same from two calendars", events(`{"id": "x9", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}, {"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}`), nil},
	{"almost the same from two calendars", events(`{"id": "g1", "kind": "practice", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}, {"id": "x9", "kind": "practice", "start": "2026-11-12T18:00", "end": "2026-11-12T19:30"}`), nil},
	{"two games at once", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00", "team": "school"}, {"id": "g2", "kind": "game", "start": "2026-11-12T19:30", "end": "2026-11-12T21:00", "team": "club"}`), nil},
	{"older revision after newer", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00", "revision": 2}, {"id": "g1", "kind": "game", "start": "2026-11-13T18:00", "end": "2026-11-13T20:00", "revision": 1}`), nil},
	{"newer revision after older", events(`{"id": "g1", "kind": "game", "start": "2026-11-13T18:00", "end": "2026-11-13T20:00"}, {"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00", "revision": 1}`), nil},
	{"words of events", events(`{"kind": "Game", "start": "2026-11-12T18:00", "status": "canceled", "importance": "high", "home": "yes", "revision": -1}`), nil},
	{"control characters and tags", events(`{"id": "p1", "kind": "practice", "start": "2026-11-12T18:00", "title": "\u001b[31m<script>alert(1)</script>"}`), nil},
	{"NUL in a name", events(`{"id": "p1", "kind": "practice", "start": "2026-11-12T18:00", "title": "a\u0000b"}`), nil},
	{"empty id", events(`{"id": "", "kind": "practice", "start": "2026-11-12T18:00"}`), nil},
	{"age missing", strings.Replace(doc("", ""), `"born": "2007-03", `, ``, 1), nil},
	{"age 9", strings.Replace(doc("", ""), `2007-03`, `2017-03`, 1), nil},
	{"age 130", strings.Replace(doc("", ""), `2007-03`, `1906-03`, 1), nil},
	{"age 101", strings.Replace(doc("", ""), `2007-03`, `1925-03`, 1), nil},
	{"not born yet", strings.Replace(doc("", ""), `2007-03`, `2027-03`, 1), nil},
	{"full date of birth", strings.Replace(doc("", ""), `2007-03`, `2007-03-17`, 1), nil},
	{"born in no month", strings.Replace(doc("", ""), `2007-03`, `2007-13`, 1), nil},
	{"training age missing", strings.Replace(doc("", ""), `, "trainingAgeYears": 3`, ``, 1), nil},
	{"training age negative", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": -3`, 1), nil},
	{"training age NaN", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": NaN`, 1), nil},
	{"training age infinite", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": 1e999`, 1), nil},
	{"more training than life", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": 30`, 1), nil},
	{"closing before opening", doc(`, "hours": [{"days": ["mon"], "from": "20:00", "to": "18:00"}, {"days": [], "from": "9:00", "to": "10:00"}, {"days": ["mon", "monday", "mon"], "from": "09:00", "to": "09:00"}]`, ""), nil},
	{"preferred start", doc(`, "prefer": [{"days": ["tue"], "start": "25:00"}]`, ""), nil},
	{"loads", doc(`, "maxima": [{"exercise": "squat", "load": "100", "kind": "tested", "date": "2026-09-14"}, {"exercise": "squat", "load": 100, "kind": "tested", "date": "2026-09-14"}, {"exercise": "squat", "load": "-5 kg", "kind": "guessed", "date": "2026-11-10"}, {"exercise": "squat", "load": "0 kg", "kind": "tested", "date": "2026-09-14"}, {"exercise": "squat", "load": {"grams": 100000}, "kind": "tested", "date": "2026-09-14"}]`, ""), nil},
	{"restrictions are private", doc(`, "restrictions": [{"region": "left groin", "side": "lefft", "from": "03/04/2026", "by": "physio"}, {"region": "knee", "from": "2026-10-02", "to": "2026-10-01", "pain": 7}]`, ""), nil},
	{"holds are private", doc(`, "holds": [{"from": "2026-10-03", "until": "2026-10-02"}, {"from": "2026-10-04", "clearedBy": "team doctor"}, {"from": "2026-10-05", "clearedOn": "2026-10-09"}, {"from": "2026-10-06", "clearedBy": "team doctor", "clearedOn": "2026-10-01"}, {"from": "2026-10-07", "clearedBy": "team doctor", "clearedOn": "2026-11-10"}]`, ""), nil},
	{"wellness is private", doc(`, "wellness": {"sleep": "bad"}`, ""), nil},
	{"opt-ins", doc(`, "optIns": ["postgame", "post-game"]`, ""), nil},
	{"an opt-in twice", doc(`, "optIns": ["post-game", "post-game"]`, ""), nil},
	{"places", doc("", `, "places": [{"id": "gym", "hours": [{"days": ["sun"], "from": "18:00", "to": "10:00"}], "closed": [{"from": "2026-12-24", "to": "2026-12-20"}]}, {"id": "home"}, {"id": "gym"}, {"id": "home"}]`), nil},
	{"overrides", doc("", `, "rules": [{"rule": "a"}, {"rule": "b", "value": 3}, {"rule": "b", "value": 4}, {"rule": "c", "off": true, "points": 2}, {"rule": "d", "value": -1}, {"rule": "e", "value": 2.5}, {"rule": "f", "off": true}, {"rule": "f", "off": true}]`), nil},
	{"log in the future", doc("", `, "log": [{"kind": "primer", "start": "2026-11-09T09:00"}, {"kind": "primer", "start": "2026-11-09T07:30", "end": "2026-11-09T08:30"}]`), nil},
	{"log entries", doc("", `, "log": [{"id": "a", "kind": "primer", "start": "2026-11-02T09:00", "end": "2026-11-02T08:00"}, {"id": "a", "kind": "recovery", "start": "2026-11-03T09:00"}, {"kind": "full body", "start": "2026-11-02"}, {"kind": "primer", "start": "2026-11-04T09:00", "end": "2026-11-05T09:00"}, {"kind": "primer", "start": "2026-11-06T09:00", "zone": "Europe/Berlin"}, {"kind": "primer", "start": "2026-11-06T09:00"}]`), nil},
	{"pins", doc("", `, "places": [{"id": "gym"}], "pins": [{"date": "2026-11-10", "none": true}, {"date": "2026-11-10", "kind": "primer"}, {"date": "2026-11-11", "none": true, "start": "10:00"}, {"date": "2026-11-12"}, {"date": "2026-11-13", "kind": "primer", "start": "10:00"}, {"date": "2026-11-13", "kind": "recovery", "start": "10:00"}, {"date": "2026-11-14", "kind": "recovery", "place": "gyn"}, {"date": "2026-11-20", "kind": "recovery"}, {"date": "2026-11-14", "kind": "stretching"}, {"date": "2026-11-13", "kind": "primer", "start": "10:00"}, {"date": "2026-11-08", "kind": "recovery"}]`), nil},
	{"issued plans", doc("", `, "issued": [{"schema": 1, "id": "a", "now": "2026-11-01T00:00:00", "outcome": "planned", "period": {"from": "2026-11-09", "to": "2026-11-02"}, "zone": "Mars/Base", "sessions": [{"id": "s", "start": "2026-11-09T10:00:00Z", "end": "2026-11-09T09:00:00Z", "date": "2026-11-19", "kind": "nap"}, {"id": "s", "start": "2026-11-09T10:00:00Z", "end": "2026-11-09T11:00:00Z", "date": "2026-11-09", "kind": "primer"}]}]`), nil},
	{"everything at once", `{"schema": 1, "period": {"from": "2026-11-09"}, "now": 5, "athlete": {"zone": "CET+1", "born": 2007}, "events": [{}, 3], "log": {}}`, nil},
	{"doubled end", events(`{"kind": "practice", "start": "2026-10-25T01:30", "end": "2026-10-25T02:15"}`), nil},
	{"athlete of another kind", strings.Replace(doc("", ""), `"athlete": {`, `"athlete": [], "extra": {`, 1), nil},
	{"events of another kind", doc("", `, "events": {"id": "g1"}`), nil},
	{"misspelt field of an event", events(`{"kind": "practice", "start": "2026-11-12T18:00", "tema": "U18"}`), nil},
	{"a pin in a skipped hour", doc("", `, "pins": [{"date": "2027-03-28", "kind": "primer", "start": "02:30"}]`), nil},
	{"days as numbers", doc(`, "hours": [{"days": [1], "from": "09:00", "to": "10:00"}]`, ""), nil},
	{"hard in one calendar", events(`{"id": "p1", "kind": "practice", "start": "2026-11-12T18:00", "hard": true}, {"id": "p1", "kind": "practice", "start": "2026-11-12T18:00"}`), nil},
	{"as much training as life", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": 20`, 1), nil},
	{"a little more training than life", strings.Replace(doc("", ""), `"trainingAgeYears": 3`, `"trainingAgeYears": 20.09`, 1), nil},
	{"a session of no length", doc("", `, "log": [{"kind": "primer", "start": "2026-11-02T09:00", "end": "2026-11-02T09:00"}]`), nil},
	{"two games played at once", events(`{"id": "g1", "kind": "game", "start": "2026-11-07T18:00", "end": "2026-11-07T20:00", "status": "played"}, {"id": "g2", "kind": "game", "start": "2026-11-07T19:30", "end": "2026-11-07T21:00", "status": "played"}`), nil},
	{"games outside the period without a start", events(`{"id": "g1", "kind": "game", "start": "2026-10-12"}, {"id": "g2", "kind": "game", "start": "2026-12-14T18:00"}`), nil},
	{"a cancelled clash", events(`{"id": "g1", "kind": "game", "start": "2026-11-12T18:00", "end": "2026-11-12T20:00"}, {"id": "g2", "kind": "game", "start": "2026-11-12T19:30", "status": "cancelled"}`), nil},
}

func TestBadInput(t *testing.T) {
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := read(t, season.RequestReader{}, c.text)
			if os.Getenv("SHOW") != "" {
				t.Logf("\n@@%s\n%s\n@@end", c.name, strings.Join(got, "\n"))
			}
		})
	}
}
