package squad

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// two is a request as people write it: everything a squad can say.
const two = `{
  "schema": 1,
  "period": {"from": "2026-11-16", "to": "2026-11-29"},
  "now": "2026-11-17T07:30:00+01:00",
  "athletes": [
    {"athlete": {"id": "k3", "born": "2011-02", "zone": "Europe/Oslo", "trainingAgeYears": 1.5, "role": "goalkeeper",
        "hours": [{"days": ["mon", "wed", "fri"], "from": "15:30", "to": "20:30"}]},
      "events": [{"id": "g1", "kind": "game", "start": "2026-11-21T13:30", "end": "2026-11-21T14:45"}],
      "places": [{"id": "home", "kit": ["dumbbells"]}],
      "log": [{"kind": "full-body", "start": "2026-11-11T16:00", "end": "2026-11-11T16:55"}],
      "pins": [{"date": "2026-11-18", "kind": "full-body", "place": "cellar"}],
      "played": [{"event": "g1", "minutes": 31}], "supervisedHome": true,
      "topUps": [{"event": "g0", "date": "2026-11-17", "minutes": 12}]},
    {"athlete": {"id": "b7", "born": "1999-08", "zone": "Europe/Oslo", "trainingAgeYears": 6}}],
  "halls": [{"id": "cellar", "hours": [{"days": ["wed", "sun"], "from": "16:10", "to": "18:35"}], "closed": [{"from": "2026-11-22", "to": "2026-11-22"}],
    "kit": ["rack", "barbell"], "capacity": 1, "slotMinutes": 50, "changeMinutes": 7}],
  "coaches": [{"id": "c1", "hall": "cellar", "hours": [{"days": ["wed"], "from": "16:00", "to": "19:00"}], "away": [{"from": "2026-11-25", "to": "2026-11-26"}]}],
  "ratios": [{"under": 18, "athletes": 6}, {"athletes": 12}],
  "homePoints": 4, "kindPoints": 2, "movePoints": 900, "affected": ["k3"]
}`

// alike compares requests and plans as values.
var alike = cmp.Options{cmpopts.EquateEmpty(), cmpopts.EquateComparable(calendar.Date{})}

func TestReadRequest(t *testing.T) {
	r, err := ReadRequest(strings.NewReader(two))
	if err != nil {
		t.Fatal(err)
	}
	zone := zoneOf("Europe/Oslo")
	want := &Request{
		Period: season.Period{From: date("2026-11-16"), To: date("2026-11-29")}, Now: time.Date(2026, 11, 17, 6, 30, 0, 0, time.UTC),
		Halls: []Hall{{Capacity: 1, SlotMinutes: 50, ChangeMinutes: 7, Place: season.Place{ID: "cellar", Kit: []string{"rack", "barbell"},
			Hours:  []season.Hours{{Days: []time.Weekday{time.Wednesday, time.Sunday}, From: clock(16, 10), To: clock(18, 35)}},
			Closed: []season.Period{{From: date("2026-11-22"), To: date("2026-11-22")}}}}},
		Coaches: []Coach{{ID: "c1", Hall: "cellar", Hours: []season.Hours{{Days: []time.Weekday{time.Wednesday}, From: clock(16, 0), To: clock(19, 0)}},
			Away: []season.Period{{From: date("2026-11-25"), To: date("2026-11-26")}}}},
		Ratios: []Ratio{{18, 6}, {0, 12}}, HomePoints: 4, KindPoints: 2, MovePoints: 900, Affected: []string{"k3"},
	}
	k, b := Athlete{SupervisedHome: true, Played: []Played{{"g1", 31}}, TopUps: []TopUp{{"g0", date("2026-11-17"), 12}}}, Athlete{}
	k.Season.Athlete = season.Athlete{ID: "k3", Born: season.YearMonth{Year: 2011, Month: 2}, Zone: zone, TrainingAgeMonths: 18, Role: "goalkeeper",
		Hours: []season.Hours{{Days: []time.Weekday{time.Monday, time.Wednesday, time.Friday}, From: clock(15, 30), To: clock(20, 30)}}}
	k.Season.Events = []calendar.Event{{ID: "g1", Kind: calendar.Game, Zone: zone, HasEnd: true,
		Start: calendar.Wall{Date: date("2026-11-21"), Clock: clock(13, 30)}, End: calendar.Wall{Date: date("2026-11-21"), Clock: clock(14, 45)}}}
	k.Season.Places = []season.Place{{ID: "home", Kit: []string{"dumbbells"}}}
	k.Season.Log = []season.Done{{Kind: season.FullBody, HasEnd: true,
		Start: calendar.Wall{Date: date("2026-11-11"), Clock: clock(16, 0)}, End: calendar.Wall{Date: date("2026-11-11"), Clock: clock(16, 55)}}}
	k.Season.Pins = []season.Pin{{Date: date("2026-11-18"), Kind: season.FullBody, Place: "cellar"}}
	b.Season.Athlete = season.Athlete{ID: "b7", Born: season.YearMonth{Year: 1999, Month: 8}, Zone: zone, TrainingAgeMonths: 72}
	want.Athletes = []Athlete{k, b}
	for i := range want.Athletes { // what all share stands in each
		s := &want.Athletes[i].Season
		s.Schema, s.Period, s.Now = season.Schema, want.Period, want.Now
	}
	if d := cmp.Diff(want, r, alike); d != "" {
		t.Error(d)
	}
	p := plan(t, r)
	if len(p.Athletes) != 2 || len(p.Slots) != 6 {
		t.Errorf("%d athletes, %d slots", len(p.Athletes), len(p.Slots))
	}
}

// TestReadBadRequest: what is wrong with a text, by code and path.
func TestReadBadRequest(t *testing.T) {
	for _, x := range []struct {
		name, old, new string
		class          calendar.Class
		code, path     string
	}{
		{"not JSON", `"ratios": [`, `"ratios": [[`, calendar.ClassError, "syntax", "/ratios"},
		{"a newer schema", `"schema": 1`, `"schema": 2`, calendar.ClassError, season.CodeSchemaNewer, "/schema"},
		{"no schema", `"schema": 1,`, ``, calendar.ClassWarning, season.CodeSchemaMissing, "/schema"},
		{"a list for the whole", two, `[]`, calendar.ClassError, "kind", ""},
		{"no athletes", `"athletes": [`, `"nobody": [`, calendar.ClassError, CodeMissing, "/athletes"},
		{"no athlete in it", `"born": "1999-08", "zone": "Europe/Oslo", "trainingAgeYears": 6}}`, `"born": "1999-08", "zone": "Europe/Oslo"}}, {"played": []}`, calendar.ClassError, CodeMissing, "/athletes/2/athlete"},
		{"an athlete that is a number", `"ratios"`, `"ratioss": 1, "ratios"`, calendar.ClassWarning, "unknown", "/ratioss"},
		{"a date", `"to": "2026-11-29"`, `"to": "2026-11-31"`, calendar.ClassError, season.CodeDate, "/period/to"},
		{"now without an offset", `07:30:00+01:00`, `07:30:00`, calendar.ClassError, season.CodeInstant, "/now"},
		{"capacity 0", `"capacity": 1`, `"capacity": 0`, calendar.ClassError, CodeRange, "/halls/0/capacity"},
		{"capacity of a half", `"capacity": 1`, `"capacity": 1.5`, calendar.ClassError, "number", "/halls/0/capacity"},
		{"no capacity", `"capacity": 1, `, ``, calendar.ClassError, CodeMissing, "/halls/0/capacity"},
		{"null for capacity", `"capacity": 1`, `"capacity": null`, calendar.ClassError, "null", "/halls/0/capacity"},
		{"a day of no week", `["wed", "sun"]`, `["wed", "son"]`, calendar.ClassError, "choice", "/halls/0/hours/0/days/1"},
		{"closes before it opens", `"from": "16:10", "to": "18:35"`, `"from": "16:10", "to": "08:35"`, calendar.ClassError, CodeClosing, "/halls/0/hours/0/to"},
		{"an event of an athlete", `"end": "2026-11-21T14:45"`, `"end": "2026-11-21T12:45"`, calendar.ClassError, season.CodeEnd, "/athletes/0/events/0/end"},
		{"an athlete's zone", `"id": "b7", "born": "1999-08", "zone": "Europe/Oslo"`, `"id": "b7", "born": "1999-08", "zone": "Europe/Olso"`, calendar.ClassError, season.CodeZone, "/athletes/1/athlete/zone"},
		{"an athlete without an id", `"id": "b7", `, ``, calendar.ClassError, CodeMissing, "/athletes/1/athlete/id"},
		{"an athlete twice", `"id": "b7"`, `"id": "k3"`, calendar.ClassError, CodeTwice, "/athletes/1/athlete/id"},
		{"a period of its own", `"supervisedHome": true,`, `"supervisedHome": true, "period": {"from": "2026-11-16", "to": "2026-11-17"},`, calendar.ClassWarning, "unknown", "/athletes/0/period"},
		{"a pin in no place", `"place": "cellar"}]`, `"place": "attic"}]`, calendar.ClassError, season.CodeUnknownPlace, "/athletes/0/pins/0/place"},
		{"a name in another case", `"supervisedHome"`, `"supervisedhome"`, calendar.ClassError, "wrong-case", "/athletes/0/supervisedhome"},
		{"a name twice", `"homePoints": 4`, `"homePoints": 4, "homePoints": 5`, calendar.ClassError, "duplicate", "/homePoints"},
		{"a name twice within", `"role": "goalkeeper"`, `"role": "goalkeeper", "role": "back"`, calendar.ClassError, "duplicate", "/athletes/0/athlete/role"},
		{"minutes below 0", `"minutes": 31`, `"minutes": -31`, calendar.ClassError, "range", "/athletes/0/played/0/minutes"},
		{"too many minutes", `"minutes": 31`, `"minutes": 310`, calendar.ClassError, CodeRange, "/athletes/0/played/0/minutes"},
		{"too many minutes of a top-up", `"minutes": 12`, `"minutes": 5000`, calendar.ClassError, CodeRange, "/athletes/0/topUps/0/minutes"},
		{"affected and unknown", `"affected": ["k3"]`, `"affected": ["k4"]`, calendar.ClassError, CodeUnknownAthlete, "/affected/0"},
		{"an issued plan of nothing", `"affected": ["k3"]`, `"issued": {}`, calendar.ClassError, CodeMissing, "/issued/athletes"},
		{"a target of nothing", `"supervisedHome": true`, `"target": {"schema": 1}`, calendar.ClassError, CodeMissing, "/athletes/0/target/id"},
	} {
		t.Run(x.name, func(t *testing.T) {
			text := strings.Replace(two, x.old, x.new, 1)
			if text == two {
				t.Fatal("nothing was replaced")
			}
			_, list, err := RequestReader{}.Read(strings.NewReader(text))
			var bad *season.InputError
			if errors.As(err, &bad) {
				list = bad.Problems
			}
			n := 0
			for _, p := range list {
				if p.Code == x.code && p.Path == x.path && p.Class == x.class && p.Reason != "" && p.Remedy != "" {
					n++
				}
			}
			if n != 1 || (err != nil) != (x.class == calendar.ClassError) {
				t.Errorf("found %d times, error %v: %v", n, err, list)
			}
			if x.code == "unknown" {
				if _, _, err := (RequestReader{Strict: true}).Read(strings.NewReader(text)); err == nil {
					t.Error("a strict reader lets it pass")
				}
			}
		})
	}
}

// TestReadAllAtOnce: faults of the text, of an athlete and of the hall in one answer,
// each once.
func TestReadAllAtOnce(t *testing.T) {
	text := strings.NewReplacer(`"to": "2026-11-29"`, `"to": "soon"`, `"end": "2026-11-21T14:45"`, `"end": "2026-11-21"`, `"capacity": 1`, `"capacity": 0`,
		`"trainingAgeYears": 6`, `"trainingAgeYears": "six"`).Replace(two)
	_, err := ReadRequest(strings.NewReader(text))
	var bad *season.InputError
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	var got []string
	for _, p := range bad.Problems {
		if p.Class == calendar.ClassError {
			got = append(got, p.Path)
		}
	}
	slices.Sort(got)
	want := []string{"/athletes/0/events/0/end", "/athletes/1/athlete/trainingAgeYears", "/halls/0/capacity", "/period/to"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

// TestReadLimits: whatever is longer than a limit is refused by name.
func TestReadLimits(t *testing.T) {
	many := func(n int, one string) string { return strings.Repeat(one+",", n-1) + one }
	athlete := func(i int) string {
		return fmt.Sprintf(`{"athlete": {"id": "a%d", "born": "1999-08", "zone": "Europe/Oslo", "trainingAgeYears": 6}}`, i)
	}
	var all []string
	for i := range MaxAthletes + 1 {
		all = append(all, athlete(i))
	}
	frame := func(athletes, hours string) string {
		return `{"schema": 1, "period": {"from": "2026-11-16", "to": "2026-11-17"}, "athletes": [` + athletes + `], "halls": [{"id": "h", "capacity": 1, "slotMinutes": 60, "hours": [` + hours + `]}]}`
	}
	hour := `{"days": ["mon"], "from": "16:00", "to": "17:00"}`
	if _, err := ReadRequest(strings.NewReader(frame(strings.Join(all[1:], ","), many(season.MaxHours, hour)))); err != nil {
		t.Error(err)
	}
	for path, text := range map[string]string{
		"/athletes":          frame(strings.Join(all, ","), hour),
		"/halls/0/hours":     frame(all[0], many(season.MaxHours+1, hour)),
		"/athletes/0/places": frame(strings.TrimSuffix(all[0], "}")+`, "places": [`+many(season.MaxPlaces, `{"id": "p"}`)+`]}`, hour),
	} {
		_, err := ReadRequest(strings.NewReader(text))
		var bad *season.InputError
		if !errors.As(err, &bad) || !slices.ContainsFunc(bad.Problems, func(p calendar.Problem) bool { return p.Path == path }) {
			t.Errorf("%s: %v", path, err)
		}
	}
	if _, _, err := (RequestReader{Limits: season.Limits{Bytes: 200}}).Read(strings.NewReader(two)); err == nil {
		t.Error("more bytes than allowed were read")
	}
	if _, _, err := (RequestReader{Limits: season.Limits{PeriodDays: 13}}).Read(strings.NewReader(two)); err == nil || !strings.Contains(err.Error(), "the limit of a squad is 13") {
		t.Error(err)
	}
}

// TestHealthIsPrivate: what is known of an athlete's health shows in no problem.
func TestHealthIsPrivate(t *testing.T) {
	text := strings.Replace(two, `"role": "goalkeeper",`, `"role": "goalkeeper", "restrictions": [{"region": "left knee", "from": "gout"}],`, 1)
	_, err := ReadRequest(strings.NewReader(text))
	if err == nil || strings.Contains(err.Error(), "gout") || strings.Contains(err.Error(), "knee") {
		t.Error(err)
	}
}

// TestRoundTrip: a request, the plan made for it and a request with both come back as
// they were written, and the one that was read gets the same plan.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := draw(t)
		first, err := (&Planner{}).Plan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		back := reread(t, r)
		again, err := (&Planner{}).Plan(context.Background(), back)
		if err != nil {
			t.Fatal(err)
		}
		if a, b := text(t, first), text(t, again); a != b {
			t.Fatalf("the request that was read has another plan:\n%s\n%s", a, b)
		}
		p := rereadPlan(t, first)
		if d := cmp.Diff(first.Slots, p.Slots, alike, cmp.Comparer(time.Time.Equal)); d != "" {
			t.Fatal(d)
		}
		r.Issued, r.Halls[0].Capacity = first, r.Halls[0].Capacity+1
		r.Athletes[0].Target = first.Athletes[0].Plan
		r.Athletes[0].Played = []Played{{"g5", 17}}
		if rapid.Bool().Draw(t, "later") {
			r.Now = r.Athletes[0].Season.Athlete.Zone.DayStart(r.Period.From.AddDays(1))
		}
		back = reread(t, r)
		moved, err := (&Planner{}).Plan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		again, err = (&Planner{}).Plan(context.Background(), back)
		if err != nil {
			t.Fatal(err)
		}
		if a, b := text(t, moved), text(t, again); a != b {
			t.Fatalf("planned again from what was read, another plan:\n%s\n%s", a, b)
		}
		rereadPlan(t, moved)
	})
}

// reread writes a request and reads it again.
func reread(t interface{ Fatalf(string, ...any) }, r *Request) *Request {
	b, err := json.Marshal(r)
	if err != nil {
		t.Fatalf("not written: %v", err)
	}
	back, err := ReadRequest(bytes.NewReader(b))
	if err != nil {
		t.Fatalf("written and not read: %v\n%s", err, b)
	}
	again, err := json.Marshal(back)
	if err != nil || !bytes.Equal(again, b) {
		t.Fatalf("read and written otherwise: %v\n%s\n%s", err, b, again)
	}
	return back
}

// rereadPlan writes a plan and reads it again.
func rereadPlan(t interface{ Fatalf(string, ...any) }, p *Plan) *Plan {
	b, err := json.Marshal(p)
	if err != nil {
		t.Fatalf("not written: %v", err)
	}
	back, err := ReadPlan(bytes.NewReader(b))
	if err != nil {
		t.Fatalf("written and not read: %v\n%s", err, b)
	}
	again, err := json.Marshal(back)
	if err != nil || !bytes.Equal(again, b) {
		t.Fatalf("read and written otherwise: %v\n%s\n%s", err, b, again)
	}
	return back
}

func TestReadBadPlan(t *testing.T) {
	r, err := ReadRequest(strings.NewReader(two))
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(plan(t, r))
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct{ old, new, code, path string }{
		{`{"schema":1`, `{"schema":9`, season.CodeSchemaNewer, "/schema"},
		{`"proof":"proved","points"`, `"proof":"sure","points"`, "choice", "/proof"},
		{`{"athlete":"b7"`, `{"athlete":"k3"`, CodeTwice, "/athletes/1/athlete"},
		{`"line":2`, `"line":-2`, "range", "/athletes/1/line"},
		{`"hall":"cellar","date":"2026-11-18"`, `"hall":"cellar","date":"2026-13-18"`, season.CodeDate, "/slots/0/date"},
		{`"zone":"Europe/Oslo"`, `"zone":"Europe/Elsewhere"`, season.CodeZone, "/zone"},
		{`"findings":[`, `"findings":[{"code":"x","class":"rumour"}`, "choice", "/findings/0/class"},
		{`"moved":[]`, `"moved":[{"athlete":"k3","changes":[{"session":"s"}]}]`, CodeMissing, "/moved/0/changes/0/kind"},
	} {
		text := strings.Replace(string(b), x.old, x.new, 1)
		if x.path == "/findings/0/class" { // it is the squad's list, the last of that name
			i := strings.LastIndex(string(b), x.old)
			text = string(b[:i]) + x.new + string(b[i+len(x.old):])
			if b[i+len(x.old)] != ']' {
				text = strings.Replace(text, `"rumour"}{`, `"rumour"},{`, 1)
			}
		}
		if text == string(b) {
			t.Errorf("%s: nothing was replaced in %s", x.old, b)
			continue
		}
		_, err := ReadPlan(strings.NewReader(text))
		var bad *season.InputError
		if !errors.As(err, &bad) || !slices.ContainsFunc(bad.Problems, func(p calendar.Problem) bool { return p.Code == x.code && p.Path == x.path }) {
			t.Errorf("%s at %s: %v", x.code, x.path, err)
		}
	}
}

// TestUnwritable: what could not be read back is not written.
func TestUnwritable(t *testing.T) {
	r := club(2, 7, 2)
	r.Period.To = date("2199-12-31").AddDays(1)
	r.Halls[0].Place.Hours[0].To = calendar.Clock(90_000)
	r.Athletes[1].Season.Events[0].Start.Clock = -4
	_, err := json.Marshal(r)
	var bad *season.InputError
	if !errors.As(err, &bad) || len(bad.Problems) != 3 {
		t.Fatal(err)
	}
	for i, want := range []string{"/period", "/halls/0/hours/0", "/athletes/1/events/0/start"} {
		if bad.Problems[i].Path != want {
			t.Errorf("%q, want %q", bad.Problems[i].Path, want)
		}
	}
}

// brief is a plan of few dates as text: long ones slow the search for inputs down.
func brief(f *testing.F) string {
	r, err := ReadRequest(strings.NewReader(two))
	if err != nil {
		f.Fatal(err)
	}
	r.Period.To = r.Period.From.AddDays(2)
	r.Athletes = r.Athletes[:1]
	p, err := (&Planner{}).Plan(context.Background(), r)
	if err != nil {
		f.Fatal(err)
	}
	b, err := json.Marshal(p)
	if err != nil {
		f.Fatal(err)
	}
	return string(b)
}

func FuzzReadRequest(f *testing.F) {
	f.Add(two)
	f.Add(strings.Replace(two, `"affected"`, `"issued": {"schema": 1}, "affected"`, 1))
	f.Add(strings.Replace(two, `"hours"`, `"Hours"`, 2))
	for i := range 3 {
		b, err := json.Marshal(rapid.Custom(draw).Example(i))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(b))
	}
	f.Add(strings.Replace(two, `"affected"`, `"issued": `+brief(f)+`, "affected"`, 1))
	f.Fuzz(func(t *testing.T, text string) {
		r, list, err := RequestReader{}.Read(strings.NewReader(text))
		var bad *season.InputError
		if err != nil {
			if r != nil || !errors.As(err, &bad) || !stops(bad.Problems) {
				t.Fatalf("%v: %v", r, err)
			}
			for _, p := range bad.Problems {
				if line := p.Error(); p.Code == "" || p.Reason == "" || p.Remedy == "" || calendar.Inert(line) != line {
					t.Fatalf("%+v", p)
				}
			}
			return
		}
		if stops(list) || stops(r.Validate()) {
			t.Fatalf("an error among the warnings: %v, %v", list, r.Validate())
		}
		reread(t, r)
	})
}

func FuzzReadPlan(f *testing.F) {
	f.Add(brief(f))
	f.Add(strings.Replace(brief(f), `"moved":[]`, `"moved":[{"athlete":"k3","affected":true,"changes":[],"places":[{"session":"s","start":"2026-11-18T16:10:00+01:00","from":"cellar","to":"home"}]}]`, 1))
	f.Fuzz(func(t *testing.T, text string) {
		p, err := ReadPlan(strings.NewReader(text))
		var bad *season.InputError
		switch {
		case err == nil:
			rereadPlan(t, p)
		case p != nil || !errors.As(err, &bad) || !stops(bad.Problems):
			t.Fatalf("%v: %v", p, err)
		}
	})
}

// TestEmptyKit: a hall with nothing in it is not an ordinary gym.
func TestEmptyKit(t *testing.T) {
	const kit = `"kit": ["rack", "barbell"]`
	for text, empty := range map[string]bool{strings.Replace(two, kit, `"kit": []`, 1): true, strings.Replace(two, kit+", ", "", 1): false} {
		for range 2 { // as written, and as written back
			r, err := ReadRequest(strings.NewReader(text))
			if err != nil || text == two {
				t.Fatal(err)
			}
			if k := r.Halls[0].Place.Kit; len(k) != 0 || (k != nil) != empty {
				t.Errorf("%#v, empty %v", k, empty)
			}
			b, err := json.Marshal(r)
			if err != nil {
				t.Fatal(err)
			}
			text = string(b)
		}
	}
}
