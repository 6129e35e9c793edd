package logbook_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"example.org/weft/calendar"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
)

func reader(t testing.TB) logbook.Reader {
	return logbook.Reader{Athlete: "a7", Zone: zone(t, "Europe/Berlin"), Recorded: instant("2026-11-20T08:00:00Z"),
		Source: logbook.FromCoach, Now: instant("2026-11-20T09:00:00Z")}
}

// told lists problems as "class code path field".
func told(list []calendar.Problem) (out []string) {
	for _, p := range list {
		out = append(out, strings.TrimSpace(fmt.Sprintf("%s %s %s %s", p.Class, p.Code, p.Path, p.Field)))
	}
	return out
}

func problemsOf(err error) []calendar.Problem {
	var bad *season.InputError
	if errors.As(err, &bad) {
		return bad.Problems
	}
	return nil
}

// everything is one entry of each kind, the same in both forms.
const everythingJSON = `{"schema": 1, "athlete": "a7", "zone": "Europe/Berlin", "recorded": "2026-11-20T09:00:00+01:00", "source": "coach", "entries": [
 {"id": "s1", "kind": "session", "start": "2026-11-10T17:00", "end": "2026-11-10T17:55", "planned": "p1", "session": "full-body", "state": "done", "rating": 7.5, "minutes": 55,
  "sets": [{"exercise": "back-squat", "load": "60 kg", "reps": 8, "ramp": true}, {"exercise": "back-squat", "load": "135 lb", "reps": 5, "left": 2, "effort": 8},
   {"exercise": "Push-up, feet up", "reps": 12, "failed": true}]},
 {"id": "s2", "kind": "session", "start": "2026-11-12T17:00", "planned": "p2", "session": "primer", "state": "missed", "source": "athlete"},
 {"id": "g1", "kind": "game", "start": "2026-11-14T19:30", "event": "g7", "minutes": 0},
 {"id": "t1", "kind": "practice", "start": "2026-11-16T23:30", "end": "2026-11-17T00:40", "rating": 4, "minutes": 70, "sprinted": false, "zone": "Europe/Lisbon"},
 {"id": "w1", "kind": "wellness", "start": "2026-11-17", "scale": "hooper", "sleep": 3, "soreness": 6},
 {"id": "b1", "kind": "body-mass", "start": "2026-11-17", "bodyMass": "71.35 kg"},
 {"id": "j1", "kind": "test", "start": "2026-11-18", "name": "countermovement jump", "protocol": "hands on hips", "unit": "cm", "value": 38.2, "trials": [37.9, 38.2, 36]},
 {"id": "n1", "kind": "note", "start": "2026-11-19", "text": "flat, \"heavy legs\"; twice", "session": "primer", "days": ["thu", "mon"]},
 {"id": "x1", "kind": "session", "start": "2026-11-10T18:00", "replaces": "s9", "session": "recovery", "state": "unknown"},
 {"id": "v1", "kind": "void", "of": "s3", "reason": "typed twice"},
 {"id": "c1", "kind": "confirm", "of": "s1", "recorded": "2026-11-20T08:30:00Z"}]}`

const everythingCSV = `kind,ID,date,time,tz,end,recorded,source,replaces,of,reason,planned,session,state,rating,minutes,exercise,load,reps,left,effort,failed,ramp,event,sprinted,scale,sleep,soreness,Body mass,name,protocol,unit,value,trials,text,days
session,s1,2026-11-10,17:00,,17:55,,,,,,p1,full-body,,7.5,55,,,,,,,,,,,,,,,,,,,,
set,,,,,,,,,s1,,,,,,,back-squat,60 kg,8,,,,yes,,,,,,,,,,,,,
set,,,,,,,,,s1,,,,,,,back-squat,135 lb,5,2,8,,,,,,,,,,,,,,,
set,,,,,,,,,s1,,,,,,,"Push-up, feet up",,12,,,yes,,,,,,,,,,,,,,
session,s2,2026-11-12,17:00,,,,athlete,,,,p2,primer,missed,,,,,,,,,,,,,,,,,,,,,,
game,g1,2026-11-14,19:30,,,,,,,,,,,,0,,,,,,,,g7,,,,,,,,,,,,
practice,t1,2026-11-16,23:30,Europe/Lisbon,00:40,,,,,,,,,4,70,,,,,,,,,no,,,,,,,,,,,
wellness,w1,2026-11-17,,,,,,,,,,,,,,,,,,,,,,,hooper,3,6,,,,,,,,
body-mass,b1,2026-11-17,,,,,,,,,,,,,,,,,,,,,,,,,,71.35 kg,,,,,,,
test,j1,2026-11-18,,,,,,,,,,,,,,,,,,,,,,,,,,,countermovement jump,hands on hips,cm,38.2,37.9 38.2 36,,
note,n1,2026-11-19,,,,,,,,,,primer,,,,,,,,,,,,,,,,,,,,,,"flat, ""heavy legs""; twice",thu mon
session,x1,2026-11-10,18:00,,,,,s9,,,,recovery,unknown,,,,,,,,,,,,,,,,,,,,,,
void,v1,,,,,,,,s3,typed twice,,,,,,,,,,,,,,,,,,,,,,,,,
confirm,c1,,,,,2026-11-20T08:30:00Z,,,s1,,,,,,,,,,,,,,,,,,,,,,,,,,
`

// TestBothForms: JSON and CSV say the same, with any line ends, separators and
// byte order mark.
func TestBothForms(t *testing.T) {
	rd := reader(t)
	rd.Strict = true
	a, problems, err := logbook.Reader{Strict: true, Now: rd.Now}.JSON(strings.NewReader(everythingJSON))
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	if a.Len() != 11 {
		t.Fatal(a.Len())
	}
	semicolons := strings.NewReplacer(`"Push-up, feet up"`, `Push-up, feet up`, `"flat, ""heavy legs""; twice"`, `"flat, ""heavy legs""; twice"`)
	for name, text := range map[string]string{
		"plain":      everythingCSV,
		"CRLF, BOM":  "\xef\xbb\xbf" + strings.ReplaceAll(everythingCSV, "\n", "\r\n"),
		"blank rows": strings.ReplaceAll(everythingCSV, "\nset", "\n,,\n\nset"),
		"tabs":       strings.NewReplacer(",", "\t", "\x00", ",").Replace(strings.NewReplacer("Push-up, feet", "Push-up\x00 feet", "flat, ", "flat\x00 ").Replace(everythingCSV)),
		"semicolons": "sep=;\r\n" + strings.NewReplacer(",", ";", "\x00", ",").Replace(strings.NewReplacer("Push-up, feet", "Push-up\x00 feet", "flat, ", "flat\x00 ").Replace(semicolons.Replace(everythingCSV))),
		"no end":     strings.TrimSuffix(everythingCSV, "\n"),
	} {
		b, problems, err := rd.CSV(strings.NewReader(text), "log.csv")
		if err != nil || len(problems) > 0 {
			t.Errorf("%s: %v %v", name, err, problems)
			continue
		}
		if d := cmp.Diff(written(t, a), written(t, b)); d != "" {
			t.Errorf("%s: %s", name, d)
		}
	}
}

// TestBadJSON: all problems of a text at once, none twice.
func TestBadJSON(t *testing.T) {
	const head = `{"schema": 1, "athlete": "a7", "zone": "Europe/Berlin", "recorded": "2026-11-20T08:00:00Z", "entries": [`
	session := func(rest string) string {
		return `{"kind": "session", "start": "2026-11-10T17:00", "session": "full-body", "state": "done"` + rest + `}`
	}
	for name, c := range map[string]struct {
		entries string
		want    []string
	}{
		"kinds": {`{"kind": "sesion"}, {}, 7, {"kind": "Session"}`, []string{
			"error choice /entries/0/kind", "error missing /entries/1/kind", "error kind /entries/2", "error wrong-case /entries/3/kind"}},
		"sets": {session(`, "sets": [{"exercise": "x", "load": 100, "effort": 11, "reps": 2.5}, {"load": "100", "left": -1, "reps": 0}, {"exercise": "y", "reps": 5, "left": 3, "failed": true}]`), []string{
			"error mass /entries/0/sets/0/load", "error range /entries/0/sets/0/effort", "error number /entries/0/sets/0/reps",
			"error mass /entries/0/sets/1/load", "error range /entries/0/sets/1/left", "error missing /entries/0/sets/1/exercise",
			"error contradiction /entries/0/sets/1/reps", "error contradiction /entries/0/sets/2/left"}},
		"numbers": {session(`, "rating": 10.5, "minutes": -3`) + `, ` + session(`, "rating": NaN`) + `, ` + session(`, "rating": 7.25, "minutes": 1e3`), []string{
			"error range /entries/0/rating", "error range /entries/0/minutes", "error syntax /entries/1/rating",
			"error number /entries/2/rating", "error number /entries/2/minutes"}},
		"effort between halves": {session(`, "sets": [{"exercise": "x", "effort": 8.2}]`), []string{"error range /entries/0/sets/0/effort"}},
		"times": {`{"kind": "session", "start": "2026-11-10", "session": "full-body", "state": "done"},
			{"kind": "game", "start": "2026-10-25T02:30", "minutes": 301},
			{"kind": "game", "start": "2026-03-29T02:30"},
			{"kind": "practice", "start": "2026-11-10T18:00", "end": "2026-11-10T17:00"},
			{"kind": "game", "start": "10.11.2026", "zone": "+01:00"},
			{"kind": "wellness", "start": "2026-11-10", "end": "2026-11-10T17:00", "scale": "hooper", "sleep": 1}`, []string{
			"error missing /entries/0/start", "error range /entries/1/minutes", "error time-skipped /entries/2/start", "error end /entries/3/end",
			"error wall /entries/4/start", "error zone /entries/4/zone", "error end /entries/5/end", "question time-doubled /entries/1/start"}},
		"future": {`{"kind": "session", "start": "2026-11-21T17:00", "session": "full-body", "state": "done"},
			{"kind": "session", "start": "2026-11-20T08:30", "end": "2026-11-20T09:30", "session": "full-body", "state": "done"},
			{"kind": "confirm", "of": "s1", "recorded": "2026-11-20T09:00:01Z"},
			{"kind": "confirm", "of": "s1", "recorded": "2026-11-20T09:00:00"}`, []string{
			"error future /entries/0/start", "error future /entries/1/end", "error future /entries/2/recorded", "error instant /entries/3/recorded"}},
		"missed, and done": {`{"kind": "session", "start": "2026-11-10T17:00", "session": "full-body", "state": "missed", "minutes": 55}, {"kind": "session", "start": "2026-11-10T17:00"}`, []string{
			"error contradiction /entries/0/state", "error missing /entries/1/session", "error missing /entries/1/state"}},
		"health": {`{"kind": "wellness", "start": "2026-11-10", "scale": "mclean", "sleep": 6, "mood": 9}, {"kind": "body-mass", "start": "2026-11-10", "bodyMass": "7135 kg"},
			{"kind": "body-mass", "start": "2026-11-10", "bodyMass": "7135"}, {"kind": "wellness", "start": "2026-11-10", "scale": "hooper", "mood": 3},
			{"kind": "wellness", "start": "2026-11-10", "scale": "zzz"}, {"kind": "wellness", "start": "2026-11-10", "scale": "hooper"}`, []string{
			"error range /entries/0/sleep", "error range /entries/0/mood", "error range /entries/1/bodyMass", "error mass /entries/2/bodyMass",
			"error contradiction /entries/3/mood", "error choice /entries/4/scale", "error missing /entries/5/scale"}},
		"tests": {`{"kind": "test", "start": "2026-11-10", "unit": "inch", "value": 1.2345, "trials": ["3"]}, {"kind": "test", "name": "x", "start": "2026-11-10", "unit": "cm"}`, []string{
			"error choice /entries/0/unit", "error number /entries/0/value", "error kind /entries/0/trials/0", "error missing /entries/0/name", "error missing /entries/1/value"}},
		"about": {`{"kind": "void", "id": "v", "of": "v"}, {"kind": "confirm"}, {"kind": "note", "start": "2026-11-10"}, {"kind": "game", "id": "g", "replaces": "g", "start": "2026-11-10"}`, []string{
			"error contradiction /entries/0/of", "error missing /entries/1/of", "error missing /entries/2/text", "error contradiction /entries/3/replaces"}},
		"null, twice, unknown": {`{"kind": "game", "kind": "game", "start": null, "loud": true, "Minutes": 3}`, []string{
			"error duplicate /entries/0/kind", "error null /entries/0/start", "error wrong-case /entries/0/Minutes", "warning unknown /entries/0/loud"}},
		"ids": {`{"kind": "confirm", "of": "s1", "id": "a"}, {"kind": "confirm", "of": "s2", "id": "a"}, {"kind": "confirm", "of": "s2", "id": "a"}, {"kind": "game", "start": "2026-11-10", "id": ""}`, []string{
			"error length /entries/3/id"}},
	} {
		_, _, err := reader(t).JSON(strings.NewReader(head + c.entries + "]}"))
		got := told(problemsOf(err))
		slices.Sort(got)
		slices.Sort(c.want)
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: %s\n%v", name, d, err)
		}
		for _, p := range problemsOf(err) {
			if p.Reason == "" || p.Remedy == "" {
				t.Errorf("%s: %+v", name, p)
			}
		}
	}
}

func TestWholeTexts(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"newer":      {`{"schema": 2, "entries": "other"}`, []string{"error schema-newer /schema"}},
		"no schema":  {`{"entries": [{"kind": "game"}]}`, []string{"error missing /entries/0/start", "warning schema-missing /schema"}},
		"no entries": {`{"schema": 1}`, []string{"error missing /entries"}},
		"a list":     {`[]`, []string{"error kind"}},
		"empty":      {``, []string{"error empty"}},
		"cut":        {`{"schema": 1, "entries": [`, []string{"error syntax /entries"}},
	} {
		_, _, err := reader(t).JSON(strings.NewReader(c.text))
		if d := cmp.Diff(c.want, told(problemsOf(err))); d != "" {
			t.Errorf("%s: %s\n%v", name, d, err)
		}
	}
	_, _, err := reader(t).CSV(iotest.ErrReader(io.ErrUnexpectedEOF), "log.csv")
	if !errors.Is(err, io.ErrUnexpectedEOF) {
		t.Error(err)
	}
}

// TestBadCSV: problems come by line and name the column.
func TestBadCSV(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"empty":     {"", []string{"error missing log.csv"}},
		"no kind":   {"date,time\n2026-11-10,17:00\n", []string{"error column log.csv:1 kind"}},
		"columns":   {"kind,date,Date,loud\n", []string{"error column log.csv:1 date", "warning column log.csv:1"}},
		"UTF-16":    {"\xff\xfek\x00", []string{"error encoding log.csv:1"}},
		"quotes":    {"kind,id,of\nconfirm,a,s\"1\n\nconfirm,b,\n", []string{"error table log.csv:2", "error missing log.csv:4 of"}},
		"no quote":  {"kind,id,of\nconfirm,\"a,b\nconfirm,c,\n", []string{"error table log.csv:2"}},
		"long rows": {"kind,id,of\nconfirm,a,s1,,\nconfirm,b,s1,x\n", []string{"error table log.csv:3"}},
		"words": {"kind,date,time,session,state,scale,sleep\nsessoin,,,,,,\n,2026-11-10,,,,,\nsession,2026-11-10,17:00,fullbody,did,,\nwellness,2026-11-10,,,,hoper,3\n", []string{
			"error choice log.csv:2 kind", "error missing log.csv:3 kind", "error choice log.csv:4 session", "error choice log.csv:4 state", "error choice log.csv:5 scale"}},
		"sets": {"kind,id,date,time,session,of,exercise,load,reps,left,effort,failed\n" +
			"set,,,,,s1,back-squat,100,5,,,\n" +
			"session,s1,2026-11-10,17:00,full-body,,,,,,,\n" +
			"set,,,,,s1,back-squat,\"102,5 kg\",five,-1,11,maybe\n" +
			"set,,,,,s1,,102.5 kg,0,,7.3,\n" +
			"set,,,,,s1,x,Inf kg,NaN,1.5,8;5,no\n" +
			"set,,,,,s7,x,,,,,\nset,,,,,,x,,,,,\n", []string{
			"error mass log.csv:2 load", "error mass log.csv:4 load", "error number log.csv:4 reps", "error number log.csv:4 left", "error number log.csv:4 effort", "error choice log.csv:4 failed",
			"error contradiction log.csv:5 reps", "error missing log.csv:5 exercise", "error range log.csv:5 effort",
			"error mass log.csv:6 load", "error number log.csv:6 reps", "error number log.csv:6 left", "error number log.csv:6 effort",
			"error set-of log.csv:7 of", "error set-of log.csv:8 of"}},
		"times": {"kind,date,time,tz,end,session,recorded\n" +
			"session,2026-11-21,17:00,,,full-body,\n" +
			"session,2026-11-10,,,,full-body,\n" +
			"session,03/04/2026,5pm,Berlin,,full-body,yesterday\n" +
			"practice,2026-11-10,17:00,,04:59,,\n" +
			"practice,2026-11-10,17:00,,05:01,,\n", []string{
			"error future log.csv:2 date", "error missing log.csv:3 time", "error date log.csv:4 date", "error clock log.csv:4 time", "error zone log.csv:4 tz", "error instant log.csv:4 recorded",
			"error end log.csv:6 end"}},
		"unused cells": {"kind,date,of,body_mass,minutes\ngame,2026-11-10,s1,71 kg,\nbody-mass,2026-11-10,,71,5\n", []string{
			"error mass log.csv:3 body_mass", "warning column-unused log.csv:2 of", "warning column-unused log.csv:2 body_mass", "warning column-unused log.csv:3 minutes"}},
	} {
		_, problems, err := reader(t).CSV(strings.NewReader(c.text), "log.csv")
		got := told(append(problems, problemsOf(err)...))
		byText := slices.Clone(got)
		slices.Sort(byText)
		slices.Sort(c.want)
		if d := cmp.Diff(c.want, byText); d != "" {
			t.Errorf("%s: %s\n%v", name, d, err)
		}
	}
}

// TestHealthIsNotShown: no problem shows a rating, a body mass or a person's own
// words, in either form.
func TestHealthIsNotShown(t *testing.T) {
	const secret = "7391"
	rd := reader(t)
	for _, text := range []string{
		`{"schema":1,"entries":[{"kind":"wellness","start":"2026-11-10","scale":"hooper","sleep":` + secret + `,"mood":"` + secret + `","fatigue":"` + secret + `"},
		 {"kind":"body-mass","start":"2026-11-10","bodyMass":"` + secret + ` kg"},{"kind":"body-mass","start":"2026-11-10","bodyMass":"` + secret + `"},
		 {"kind":"body-mass","start":"2026-11-10","bodyMass":` + secret + `},
		 {"kind":"void","of":"s1","reason":"` + secret + `\u202e"},
		 {"kind":"note","start":"2026-11-10","text":"` + secret + strings.Repeat("x", 2000) + `"}]}`,
		"kind,date,scale,sleep,mood,body_mass,text\nwellness,2026-11-10,hooper," + secret + "," + secret + ",,\nbody-mass,2026-11-10,,,," + secret + " kg,\n" +
			"body-mass,2026-11-10,,,," + secret + ",\nnote,2026-11-10,,,,,\"" + secret + strings.Repeat("x", 2000) + "\"\ngame,2026-11-10,," + secret + ",," + secret + "," + secret + "\n",
	} {
		_, _, err := rd.JSON(strings.NewReader(text))
		if text[0] != '{' {
			_, _, err = rd.CSV(strings.NewReader(text), "log.csv")
		}
		if n := len(problemsOf(err)); n < 5 {
			t.Errorf("%d problems: %v", n, err)
		}
		if strings.Contains(err.Error(), secret) {
			t.Error(err)
		}
		for _, p := range problemsOf(err) {
			if strings.Contains(fmt.Sprintf("%+v", p), secret) {
				t.Errorf("%+v", p)
			}
		}
	}
}

func TestLimits(t *testing.T) {
	rd := reader(t)
	rd.Limits = logbook.Limits{Bytes: 400, Entries: 2, Rows: 3}
	confirm := `{"kind":"confirm","of":"s1"},`
	for name, c := range map[string]struct{ text, want string }{
		"entries":   {`{"schema":1,"entries":[` + strings.Repeat(confirm, 2) + `{"kind":"confirm","of":"s3"}]}`, "error too-many /entries"},
		"bytes":     {`{"schema":1,"entries":[` + strings.Repeat(confirm, 20) + `{"kind":"confirm","of":"s3"}]}`, "error too-large"},
		"rows":      {"kind,of\n" + strings.Repeat("confirm,s1\n", 4), "error limit log.csv:5"},
		"table":     {"kind,of\n" + strings.Repeat("confirm,s1\n", 40), "error limit log.csv"},
		"of table":  {"kind,of\nconfirm,s1\nconfirm,s2\nconfirm,s3\n", "error limit log.csv:4"},
		"wide":      {"kind,of" + strings.Repeat(",", 100) + "\n", "error limit log.csv:1"},
		"long cell": {"", "error length log.csv:2"},
	} {
		rd := rd
		if name == "long cell" {
			rd.Limits = logbook.Limits{}
			c.text = "kind,of\nconfirm," + strings.Repeat("x", logbook.MaxCell+1)
		}
		var err error
		if strings.HasPrefix(c.text, "{") {
			_, _, err = rd.JSON(strings.NewReader(c.text))
		} else {
			_, _, err = rd.CSV(strings.NewReader(c.text), "log.csv")
		}
		if got := told(problemsOf(err)); !slices.Contains(got, c.want) {
			t.Errorf("%s: %q", name, got)
		}
	}
	// A thousand problems are listed, and the rest is counted.
	many := "kind\n" + strings.Repeat("x\n", 9_000)
	_, _, err := reader(t).CSV(strings.NewReader(many), "log.csv")
	list := problemsOf(err)
	if n := len(list); n != 1001 || list[n-1].Code != logbook.CodeMore || !strings.Contains(list[n-1].Reason, "8000") {
		t.Errorf("%d problems, the last %v", n, list[len(list)-1])
	}
}

func TestRepeatedAndClashing(t *testing.T) {
	text := `{"schema":1,"recorded":"2026-11-20T08:00:00Z","entries":[
		{"kind":"confirm","of":"s1","id":"a"},{"kind":"confirm","of":"s2","id":"a"},{"kind":"confirm","of":"s1","id":"a","recorded":"2026-11-20T07:00:00Z"}]}`
	l, problems, err := reader(t).JSON(strings.NewReader(text))
	want := []string{"question id-twice /entries/1/id", "warning repeated /entries/2/id"}
	if d := cmp.Diff(want, told(problems)); d != "" || err != nil || l.Len() != 2 {
		t.Fatal(d, err, l.Len())
	}
	clashes := l.Clashes()
	if len(clashes) != 1 || clashes[0].ID != "a" || len(clashes[0].Entries) != 2 || !clashes[0].Entries[0].Recorded.Equal(instant("2026-11-20T07:00:00Z")) {
		t.Errorf("%+v", clashes)
	}
}

// TestColumnsRenamed: a table with names of its own.
func TestColumnsRenamed(t *testing.T) {
	rd := reader(t)
	rd.Columns = map[string]string{"kind": "Art", "of": "zu"}
	l, problems, err := rd.CSV(strings.NewReader("Art;ZU\nconfirm;s1\n"), "log.csv")
	if err != nil || len(problems) > 0 || l.Len() != 1 {
		t.Fatal(l.Len(), problems, err)
	}
	rd.Columns = map[string]string{"kind": "Art", "off": "zu", "state": "nirgends"}
	_, _, err = rd.CSV(strings.NewReader("Art;zu\nconfirm;s1\n"), "log.csv")
	if d := cmp.Diff([]string{"error column log.csv Columns", "error column log.csv:1 state", "warning column log.csv:1"}, told(problemsOf(err))); d != "" {
		t.Error(d)
	}
}

func FuzzJSON(f *testing.F) {
	f.Add([]byte(everythingJSON))
	f.Add([]byte(`{"schema":1,"entries":[{"kind":"session","rating":NaN,"sets":[{"load":100,"effort":11}]}]}`))
	f.Add([]byte("\xef\xbb\xbf{\"entries\":[{\"kind\":\"void\",\"of\":\"\\u0000\"},{\"kind\":\"note\",\"text\":\"\\u202e<script>\"}]}"))
	rd := reader(f)
	rd.Limits = logbook.Limits{Bytes: 1 << 16}
	f.Fuzz(func(t *testing.T, text []byte) {
		l, _, err := rd.JSON(bytes.NewReader(text))
		again(t, rd, l, err)
	})
}

func FuzzCSV(f *testing.F) {
	f.Add([]byte(everythingCSV))
	f.Add([]byte("kind;of;load\nset;;x\n\"confirm\";\"s\"\"1\"\n"))
	f.Add([]byte("sep=\t\r\nkind\tid\r\nsession\t\"a\nb\"\r\n"))
	rd := reader(f)
	rd.Limits = logbook.Limits{Bytes: 1 << 16}
	f.Fuzz(func(t *testing.T, text []byte) {
		l, _, err := rd.CSV(bytes.NewReader(text), "log.csv")
		again(t, rd, l, err)
	})
}

// again checks that what was read is written and read back as it was, and folds.
func again(t *testing.T, rd logbook.Reader, l logbook.Log, err error) {
	if err != nil {
		if len(problemsOf(err)) == 0 {
			t.Fatal(err)
		}
		for _, p := range problemsOf(err) {
			if strings.ContainsAny(p.Error(), "\x1b\x00\u202e\n") {
				t.Fatalf("a problem that steers a terminal: %q", p.Error())
			}
		}
		return
	}
	text := written(t, l)
	m, _, err := logbook.Reader{Strict: true, Now: rd.Now}.JSON(strings.NewReader(text))
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	if d := cmp.Diff(text, written(t, m)); d != "" {
		t.Fatal(d)
	}
	againAsTable(t, rd, l)
	for _, a := range l.Athletes() {
		v := l.View(a)
		if _, _, err := v.Progress(logbook.Given{}); err != nil {
			t.Fatal(err)
		}
	}
}
