package season_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.org/weft/periodize/season"
)

// planDoc is a plan of one invented week with more fields.
func planDoc(rest string) string {
	return `{"schema": 1, "id": "p1", "now": "2026-11-09T08:00:00+01:00", "outcome": "planned", "proof": "proved",
	"period": {"from": "2026-11-09", "to": "2026-11-15"}, "zone": "Europe/Berlin"` + rest + `}`
}

const goodSession = `{"id": "s1", "start": "2026-11-10T17:00:00+01:00", "end": "2026-11-10T17:55:00+01:00", "date": "2026-11-10", "kind": "full-body"`

var planCases = []struct {
	name, text string
	want       []string
}{
	{"nothing wrong", planDoc(`, "sessions": [` + goodSession + `}]`), nil},
	{"unknown fields are passed over", planDoc(`, "colour": "red"`), nil},
	{"no text", "", []string{
		`empty error: there is no value in the text (line 1, column 1); give one JSON value`,
	}},
	{"no plan", `[]`, []string{
		`kind error: "[…] of 0" - an object is wanted, not an array; give an object`,
	}},
	{"newer schema", strings.Replace(planDoc(`, "colour": "red"`), `"schema": 1`, `"schema": 9`, 1), []string{
		`schema-newer /schema: error: "9" - the text is of schema 9, this version reads up to 1; update the library, or write the text for the older schema`,
	}},
	{"no schema", strings.Replace(planDoc(""), `"schema": 1, `, "", 1), []string{
		`missing /schema: error: the field is missing; add it`,
	}},
	{"other words", strings.Replace(strings.Replace(planDoc(""), "planned", "plan", 1), "proved", "maybe", 1), []string{
		`choice /outcome: error: "plan" - the word is not known here; write one of: planned, refused`,
		`choice /proof: error: "maybe" - the word is not known here; write one of: proved, bounded`,
	}},
	{"period too long", strings.Replace(planDoc(""), "2026-11-15", "2028-11-15", 1), []string{
		`limit /period/to: error: "2028-11-15" - the period has 738 dates, the limit is 400; plan a shorter period`,
	}},
	{"zone of an offset", strings.Replace(planDoc(""), "Europe/Berlin", "Etc/GMT-1", 1), []string{
		`zone /zone: error: "Etc/GMT-1" - a fixed offset knows no clock changes; name the place, such as Europe/Berlin`,
	}},
	{"instants", planDoc(`, "sessions": [{"id": "s1", "start": "2026-11-10T17:00:00", "end": "2026-11-10", "date": "2026-11-10", "kind": "full-body"}]`), []string{
		`instant /sessions/0/start: error: "2026-11-10T17:00:00" - an instant without its offset from UTC; write date, time and offset, such as 2026-11-08T14:00:00+01:00`,
		`instant /sessions/0/end: error: "2026-11-10" - this is not an instant; write date, time and offset, such as 2026-11-08T14:00:00+01:00`,
	}},
	{"years", planDoc(`, "sessions": [{"id": "s1", "start": "0026-11-10T17:00:00Z", "end": "3026-11-10T17:00:00Z", "date": "2026-11-10", "kind": "full-body"}]`), []string{
		`instant /sessions/0/start: error: "0026-11-10T17:00:00Z" - the year is outside 1900 to 2199; check the year`,
		`instant /sessions/0/end: error: "3026-11-10T17:00:00Z" - the year is outside 1900 to 2199; check the year`,
	}},
	{"a session of a day", planDoc(`, "sessions": [{"id": "s1", "start": "2026-11-10T17:00:00Z", "end": "2026-11-11T17:00:00Z", "date": "2026-11-10", "kind": "full-body"}]`), []string{
		`end /sessions/0/end: error: "2026-11-11T17:00:00Z" - it lasts 24 h 00, more than 12 h 00; check date and time of start and end`,
	}},
	{"an id twice", planDoc(`, "sessions": [` + goodSession + `}, ` + goodSession + `}]`), []string{
		`id-twice /sessions/1/id: error: "s1" - the session at /sessions/0 has the same id; give each session an id of its own`,
	}},
	{"numbers", planDoc(`, "revision": -1, "engine": 1.5, "cost": {"points": 1e3, "broken": 99999999999999999}, "sessions": [` + goodSession + `, "minutes": NaN, "sessionLoad": -4}]`), []string{
		`range /revision: error: "-1" - the number is out of range; give a number from 0 to 1000000000`,
		`number /engine: error: "1.5" - a whole number is wanted; write it without a decimal point`,
		`number /cost/points: error: "1e3" - the number has an exponent; write it out in digits`,
		`range /cost/broken: error: "99999999999999999" - the number is out of range; give a number from -9007199254740992 to 9007199254740992`,
		`syntax /sessions/0/minutes: error: "NaN" - this is not a number in JSON (line 2, column 320); give a finite number, or leave the field out`,
		`range /sessions/0/sessionLoad: error: "-4" - the number is out of range; give a number from 0 to 1000000000`,
	}},
	{"exercises", planDoc(`, "sessions": [` + goodSession + `, "parts": [{"name": "main", "minutes": 40, "exercises": [{"name": "squat", "sets": -1, "load": {"grams": 10000001}}, {"load": "60 kg"}]}]}]`), []string{
		`range /sessions/0/parts/0/exercises/0/sets: error: "-1" - the number is out of range; give a number from 0 to 1000000000`,
		`range /sessions/0/parts/0/exercises/0/load/grams: error: "10000001" - the number is out of range; give a number from 0 to 10000000`,
		`missing /sessions/0/parts/0/exercises/1/name: error: the field is missing; add it`,
		`kind /sessions/0/parts/0/exercises/1/load: error: "60 kg" - an object is wanted, not a string; give an object`,
	}},
	{"games", planDoc(`, "games": [{"id": "g1", "start": "2026-11-14T14:00:00Z", "end": "2026-11-14T13:00:00Z", "date": "2026-11-24", "importance": "final", "status": "on"}]`), []string{
		`choice /games/0/importance: error: "final" - the word is not known here; write one of: important, normal, unknown`,
		`choice /games/0/status: error: "on" - the word is not known here; write one of: confirmed, provisional, if-necessary, postponed, cancelled, played`,
		`end /games/0/end: error: "2026-11-14T13:00:00Z" - it ends at or before its start at 2026-11-14T14:00:00Z; give an end after the start`,
		`contradiction /games/0/date: error: "2026-11-24" - it is not the date of the start at 2026-11-14T14:00:00Z; give the local date of the start`,
	}},
	{"notes", planDoc(`, "findings": [{"code": "x", "class": "rumour", "values": {"n": 1.5, "s": "ok", "b": true}, "subject": {"dates": ["2026-11-31"]}}]`), []string{
		`choice /findings/0/class: error: "rumour" - the word is not known here; write one of: why, finding, question, warning, refusal`,
		`number /findings/0/values/n: error: "1.5" - a whole number is wanted; write it without a decimal point`,
		`kind /findings/0/values/b: error: "true" - a number is wanted, not true or false; give a number`,
		`date /findings/0/subject/dates/0: error: "2026-11-31" - November 2026 has no day 31; give a day that exists, from 1900-01-01 to 2199-12-31`,
	}},
	{"missed aims", planDoc(`, "missed": [{"aim": "primer", "from": "2026-11-14", "to": "2026-11-13", "wanted": -1}, {"aim": "size", "from": "", "to": ""}, {"from": "soon"}]`), []string{
		`range /missed/0/wanted: error: "-1" - the number is out of range; give a number from 0 to 1000000000`,
		`missing /missed/2/aim: error: the field is missing; add it`,
		`date /missed/2/from: error: "soon" - not a date as ISO 8601 writes it; write dates as YYYY-MM-DD, such as 2026-11-08`,
		`span /missed/0/to: error: "2026-11-13" - it ends before it begins on 2026-11-14; give a last date on or after the first`,
	}},
	{"changes", planDoc(`, "changes": [{"change": "lost", "session": "s1", "kind": "nap", "oldKind": "rest", "from": "2026-11-14"}]`), []string{
		`choice /changes/0/change: error: "lost" - the word is not known here; write one of: moved, added, dropped, unchanged, replaced`,
		`choice /changes/0/kind: error: "nap" - the word is not known here; write one of: full-body, trimmed-full-body, primer, recovery, post-game, eccentric`,
		`choice /changes/0/oldKind: error: "rest" - the word is not known here; write one of: full-body, trimmed-full-body, primer, recovery, post-game, eccentric`,
		`instant /changes/0/from: error: "2026-11-14" - this is not an instant; write date, time and offset, such as 2026-11-08T14:00:00+01:00`,
	}},
}

func TestBadPlan(t *testing.T) {
	for _, c := range planCases {
		t.Run(c.name, func(t *testing.T) {
			plan, err := season.ReadPlan(strings.NewReader(c.text))
			var got []string
			if err != nil {
				var bad *season.InputError
				if !errors.As(err, &bad) || plan != nil {
					t.Fatalf("plan %v, error of type %T", plan, err)
				}
				got = lines(bad.Problems)
			}
			if diff := cmp.Diff(c.want, got, cmpopts.EquateEmpty()); diff != "" {
				t.Error(diff)
			}
		})
	}
}
