package jsonread_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/weft/internal/jsonread"
	"github.com/google/go-cmp/cmp"
)

type remedied struct{ error }

func (remedied) Remedy() string { return "use\nyear-month-day" }

// readAll reads a small invented format with every accessor.
func readAll(d *jsonread.Document) {
	f := d.Root().Object()
	f.Required("id").String(1, 5)
	f.Required("when").Text("a date such as 2026-11-08", func(s string) error {
		switch {
		case len(s) != 10:
			return fmt.Errorf("%q is not a date", s)
		case s[4] != '-':
			return remedied{fmt.Errorf("%q is not a date", s)}
		}
		return nil
	})
	f.Optional("count").Int(1, 12)
	f.Optional("effort").Decimal(1, 0, 100)
	f.Optional("home").Bool()
	f.Optional("kind").Enum("game", "practice", "travel")
	f.Optional("secret").Enum("flu", "knee")
	list, _ := f.Optional("list").Array(3)
	for _, v := range list {
		v.Int(0, math.MaxInt64)
	}
	rules := f.Optional("rules").Object()
	members, _ := rules.Members(2)
	for _, m := range members {
		m.Value.Bool()
	}
	rules.Done()
	f.Optional("trainingAgeYears").Int(0, 99)
	f.Allow("$schema")
	f.Done()
}

var asked = []struct {
	name, text string
	strict     bool
	want       []string
}{
	{name: "good", text: `{"id": "g7", "when": "2026-11-08", "count": 12, "effort": 7.50, "home": true, "kind": "game", "secret": "flu",
		"list": [0, -0, 9223372036854775807], "rules": {"a": true}, "$schema": null}`},
	{name: "missing", text: "\n{}", want: []string{
		`2:1: error: /id: the field is missing; add it`,
		`2:1: error: /when: the field is missing; add it`,
	}},
	{name: "no object", text: `[]`, want: []string{`1:1: error: […] of 0: an object is wanted, not an array; give an object`}},
	{name: "null", text: `null`, want: []string{`1:1: error: null: null stands for no value; give a value`}},
	{name: "nulls", text: `{"id": null, "when": null, "count": null, "list": [null], "rules": {"a": null}}`, want: []string{
		`1:8: error: /id: null: null stands for no value; give a value`,
		`1:22: error: /when: null: null stands for no value; give a value`,
		`1:37: error: /count: null: null stands for no value; leave the field out`,
		`1:52: error: /list/0: null: null stands for no value; leave the element out`,
		`1:74: error: /rules/a: null: null stands for no value; leave the field out`,
	}},
	{name: "kinds", text: `{"id": 7, "when": {}, "count": "7", "effort": "x", "home": "true", "kind": [1], "list": 1, "rules": "\""}`, want: []string{
		`1:8: error: /id: 7: a string is wanted, not a number; put it in double quotes`,
		`1:19: error: /when: {…} of 0: a string is wanted, not an object; give a string`,
		`1:32: error: /count: "7": a number is wanted, not a string; write the number without quotes`,
		`1:47: error: /effort: "x": a number is wanted, not a string; give a number`,
		`1:60: error: /home: "true": true or false is wanted, not a string; write true or false, without quotes`,
		`1:76: error: /kind: […] of 1: a string is wanted, not an array; give a string`,
		`1:89: error: /list: 1: an array is wanted, not a number; put it in brackets: [ ]`,
		`1:101: error: /rules: "\"": an object is wanted, not a string; give an object`,
	}},
	{name: "contents", text: `{"id": "", "when": "3 \u001b<b>", "count": 13, "effort": 7.55, "kind": "gane", "list": [1.0, 1e3, 9223372036854775808, -1], "rules": {"a": true, "b": true, "c": 1}}`, want: []string{
		`1:8: error: /id: "": the string is empty; give a text, or leave the field out where it may be left out`,
		`1:20: error: /when: "3 \u001b\u003cb\u003e": "3 \\x1b\u003cb\u003e" is not a date; write a date such as 2026-11-08`,
		`1:23: warning: /when: \u001b: the string holds a character that controls how text is shown; remove it if it is not meant`,
		`1:44: error: /count: 13: the number is out of range; give a number from 1 to 12`,
		`1:58: error: /effort: 7.55: the number has more than 1 decimal; give a number from 0 to 10 with at most 1 decimal`,
		`1:72: error: /kind: "gane": the word is not known here; did you mean "game"? It is one of: game, practice, travel`,
		`1:88: error: /list: […] of 4: the array has more than 3 elements; leave some out, or split the text`,
		`1:89: error: /list/0: 1.0: a whole number is wanted; write it without a decimal point`,
		`1:94: error: /list/1: 1e3: the number has an exponent; write it out in digits`,
		`1:99: error: /list/2: 9223372036854775808: the number is out of range; give a number from 0 to 9223372036854775807`,
		`1:134: error: /rules: {…} of 3: the object has more than 2 fields; leave some out, or split the text`,
	}},
	{name: "remedy of the caller", text: `{"id": "abcdef", "when": "08/11/2026", "effort": 10.1, "kind": "Game"}`, want: []string{
		`1:8: error: /id: "abcdef": the string has more than 5 characters; shorten it`,
		`1:26: error: /when: "08/11/2026": "08/11/2026" is not a date; use\nyear-month-day`,
		`1:50: error: /effort: 10.1: the number is out of range; give a number from 0 to 10 with at most 1 decimal`,
		`1:64: error: /kind: "Game": capital and small letters differ; write "game"`,
	}},
	{name: "unknown", text: `{"ID": "g7", "when": "2026-11-08", "cuont": 1, "training_age_years": 2, "zzz": 1, "Home": true, "rules": {"b": true, "B": true}}`, want: []string{
		`1:2: error: /ID: capital and small letters differ in names; write "id"`,
		`1:36: warning: /cuont: the field is not known and is not read; did you mean "count"?`,
		`1:48: warning: /training_age_years: the field is not known and is not read; did you mean "trainingAgeYears"?`,
		`1:73: warning: /zzz: the field is not known and is not read; remove it`,
		`1:83: error: /Home: capital and small letters differ in names; write "home"`,
	}},
	{name: "unknown, strict", text: `{"id": "g7", "when": "2026-11-08", "cuont": 1, "id": "g8"}`, strict: true, want: []string{
		`1:36: error: /cuont: the field is not known and is not read; did you mean "count"?`,
		`1:48: error: /id: the field is given twice, first at 1:2; keep one of the two`,
	}},
	{name: "one fault, one problem", text: `{"id": NaN, "when": "\x", "count": 01, "li\u0000st": 1}`, want: []string{
		`1:8: error: /id: NaN: this is not a number in JSON; give a finite number, or leave the field out`,
		`1:22: error: /when: a backslash starts no known escape here; write the backslash itself as \\; the escapes are \" \\ \/ \b \f \n \r \t and \u with four hexadecimal digits`,
		`1:36: error: /count: 01: a number has no leading zero in JSON; leave the leading zero out, or put text such as a date in double quotes`,
		`1:43: error: /li\u0000st: U+0000: the string holds the character NUL; remove it`,
	}},
	{name: "the first of two counts", text: `{"id": "g7", "when": "2026-11-08", "rules": {"a": true, "a": 1}, "count": 3, "count": 99}`, want: []string{
		`1:57: error: /rules/a: the field is given twice, first at 1:46; keep one of the two`,
		`1:78: error: /count: the field is given twice, first at 1:66; keep one of the two`,
	}},
	{name: "private, in other letters", text: `{"id": "g7", "when": "2026-11-08", "secret": "Flu"}`, want: []string{
		`1:46: error: /secret: (private): the word is not known here; write one of: flu, knee`,
	}},
	{name: "private, nearly right", text: `{"id": "g7", "when": "2026-11-08", "secret": "knees"}`, want: []string{
		`1:46: error: /secret: (private): the word is not known here; write one of: flu, knee`,
	}},
	{name: "private", text: `{"id": "g7", "when": "2026-11-08", "secret": "asthma", "Secrets": NaN, "secret": {"asthma": TRUE, "asthma": "\u0000"}}`, want: []string{
		`1:46: error: /secret: (private): the word is not known here; write one of: flu, knee`,
		`1:56: warning: /Secrets: the field is not known and is not read; did you mean "secret"?`,
		`1:67: error: /Secrets: (private): this is not a JSON value; put text in double quotes`,
		`1:72: error: /secret: the field is given twice, first at 1:36; keep one of the two`,
		`1:93: error: /secret: (private): this is not a JSON value; put text in double quotes`,
		`1:99: error: /secret: the field is given twice, first at 1:83; keep one of the two`,
		`1:110: error: /secret: (private): the string holds the character NUL; remove it`,
	}},
	{name: "long", text: `{"id": "` + strings.Repeat("é", 500) + `", "when": "2026-11-08", "` + strings.Repeat("n", 200) + `": ` + strings.Repeat("9", 99) + "x}", want: []string{
		`1:8: error: /id: "` + strings.Repeat("é", 60) + `…": the string has more than 5 characters; shorten it`,
		`1:534: warning: /` + strings.Repeat("n", 64) + `…: the field is not known and is not read; remove it`,
		`1:738: error: /` + strings.Repeat("n", 64) + `…: ` + strings.Repeat("9", 60) + `…: this is not a JSON value; put text in double quotes`,
	}},
}

func TestFields(t *testing.T) {
	for _, c := range asked {
		t.Run(c.name, func(t *testing.T) {
			d := jsonread.Read(strings.NewReader(c.text), jsonread.Options{Strict: c.strict, Private: []string{"secret"}})
			readAll(d)
			readAll(d) // a second reading finds nothing new
			got := lines(d)
			if c.name == "missing" {
				got = got[:len(got)/2] // but for what is not there to be marked
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestEveryCodeIsFound(t *testing.T) {
	found := map[string]bool{jsonread.CodeUnreadable: true} // TestReadersThatFail
	note := func(d *jsonread.Document) {
		for _, p := range d.Problems() {
			found[p.Code] = true
		}
	}
	for _, c := range parsed {
		note(jsonread.Read(strings.NewReader(c.text), jsonread.Options{Limits: c.limits, Problems: 4}))
	}
	for _, c := range asked {
		d := jsonread.Read(strings.NewReader(c.text), jsonread.Options{})
		readAll(d)
		note(d)
	}
	for _, code := range jsonread.Codes() {
		if !found[code] {
			t.Errorf("no text of the tables gives %s", code)
		}
		delete(found, code)
	}
	for code := range found {
		t.Errorf("%s is not in Codes", code)
	}
}

func TestReport(t *testing.T) {
	text := "{\"start\": \"14:00\",\n \"end\": \"13:00\", \"holds\": \"flu\"}"
	d := jsonread.Read(strings.NewReader(text), jsonread.Options{Private: []string{"holds"}})
	f := d.Root().Object()
	f.Optional("end").Report(jsonread.Error, "order", "the end\nis before the start", "give a later end")
	f.Optional("place").Report(jsonread.Warning, "place", "no place is given", "name one")
	f.Optional("holds").Report(jsonread.Warning, "open", "the hold has no end", "")
	f.Value().Report(jsonread.Warning, "odd", "this is odd", "")
	jsonread.Value{}.Report(jsonread.Error, "none", "nowhere", "")
	want := []string{
		`1:1: warning: /place: no place is given; name one`,
		`1:1: warning: {…} of 3: this is odd`,
		`2:9: error: /end: "13:00": the end\nis before the start; give a later end`,
		`2:27: warning: /holds: (private): the hold has no end`,
	}
	if diff := cmp.Diff(want, lines(d)); diff != "" {
		t.Error(diff)
	}
	if line, col := f.Optional("end").Position(); line != 2 || col != 9 {
		t.Errorf("end at %d:%d", line, col)
	}
	if p := f.Optional("place").Pointer(); p != "/place" {
		t.Error(p)
	}

	broken := jsonread.Read(strings.NewReader("{"), jsonread.Options{})
	broken.Root().Report(jsonread.Error, "none", "there is no request", "")
	if n := len(broken.Problems()); n != 2 {
		t.Errorf("%d problems of a broken text", n)
	}
}

// The zero values are silent, so that a caller reads on without asking.
func TestAbsent(t *testing.T) {
	d := jsonread.Read(strings.NewReader("{"), jsonread.Options{})
	for _, v := range []jsonread.Value{{}, d.Root(), jsonread.Value{}.Object().Required("x"), d.Root().Object().Required("x").Object().Optional("y")} {
		_, okInt := v.Int(0, 1)
		_, okString := v.String(0, 1)
		_, okBool := v.Bool()
		_, okEnum := v.Enum("a")
		_, okArray := v.Array(1)
		_, okRaw := v.Raw()
		_, okMembers := v.Object().Members(1)
		okText := v.Text("a", func(string) error { return nil })
		if okInt || okString || okBool || okEnum || okArray || okRaw || okMembers || okText || v.Object().OK() || v.Present() || v.Kind() != jsonread.Invalid {
			t.Error("an absent value gave something")
		}
		v.Object().Allow("a")
		v.Object().Done()
		_ = v.Pointer()
	}
	if n := len(d.Problems()); n != 1 {
		t.Errorf("%d problems", n)
	}
}

// TestUnknownInPrivate: a field that nobody reads, inside a private one, is told by
// its place and by the known name that was likely meant. Its own name might tell
// what is private.
func TestUnknownInPrivate(t *testing.T) {
	const text = `{"pain": [{"regoin": "groin", "region": "knee", "asthma": true}]}`
	d := jsonread.Read(strings.NewReader(text), jsonread.Options{Private: []string{"pain"}})
	f := d.Root().Object()
	list, _ := f.Optional("pain").Array(3)
	for _, v := range list {
		o := v.Object()
		o.Required("region").String(1, 20)
		o.Optional("since").String(1, 20)
		o.Done()
	}
	f.Done()
	want := []string{
		`1:12: warning: /pain/0: a field in it, at 1:12, is not known and is not read; did you mean "region"?`,
		`1:49: warning: /pain/0: a field in it, at 1:49, is not known and is not read; remove it`,
	}
	var got []string
	for _, p := range d.Problems() {
		got = append(got, p.String())
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}
