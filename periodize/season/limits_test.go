package season_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

func hasCode(list []string, code, path string) bool {
	for _, l := range list {
		if strings.HasPrefix(l, code+" "+path+":") {
			return true
		}
	}
	return false
}

func TestReaderLimits(t *testing.T) {
	text := doc("", `, "events": [{"kind": "exam", "start": "2026-11-10T09:00"}, {"kind": "exam", "start": "2026-11-11T09:00"}],
		"log": [{"kind": "primer", "start": "2026-11-02T09:00"}, {"kind": "primer", "start": "2026-11-03T09:00"}],
		"issued": [`+planDoc("")+`, `+planDoc("")+`]`)
	if got := read(t, season.RequestReader{}, text); len(got) != 0 {
		t.Fatal(got)
	}
	for _, c := range []struct {
		limits     season.Limits
		code, path string
	}{
		{season.Limits{Events: 1}, "too-many", "/events"},
		{season.Limits{Log: 1}, "too-many", "/log"},
		{season.Limits{Issued: 1}, "too-many", "/issued"},
		{season.Limits{PeriodDays: 6}, "limit", "/period/to"},
	} {
		if got := read(t, season.RequestReader{Limits: c.limits}, text); len(got) == 0 || !hasCode(got, c.code, c.path) {
			t.Errorf("%+v: %q", c.limits, got)
		}
	}
	if got := read(t, season.RequestReader{Limits: season.Limits{Bytes: 100}}, text); len(got) != 1 || !strings.HasPrefix(got[0], "too-large ") {
		t.Error(got)
	}
	if got := read(t, season.RequestReader{Limits: season.Limits{Events: -1, Bytes: 1 << 60}}, text); len(got) != 0 {
		t.Error(got)
	}
}

type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	return len(p), nil
}

func TestEndlessText(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 64 MB")
	}
	_, err := season.ReadRequest(io.MultiReader(strings.NewReader("{"), endless{}))
	if err == nil || !strings.Contains(err.Error(), "longer than") {
		t.Error(err)
	}
}

func TestStrict(t *testing.T) {
	got := read(t, season.RequestReader{Strict: true}, doc(`, "rolle": "keeper"`, ""))
	want := `unknown /athlete/rolle: error: the field is not known and is not read; did you mean "role"?`
	if len(got) != 1 || got[0] != want {
		t.Error(got)
	}
}

// A request with a fault in each of many events lists some and counts the rest.
func TestManyProblems(t *testing.T) {
	rows := make([]string, 3000)
	for i := range rows {
		rows[i] = fmt.Sprintf(`{"id": "p%d", "kind": "practise", "start": "2026-11-10T09:00", "end": "2026-11-10T08:00"}`, i)
	}
	got := read(t, season.RequestReader{}, events(strings.Join(rows, ",")))
	last := got[len(got)-1]
	if len(got) != season.MaxProblems+1 || !strings.HasPrefix(last, "more ") || !strings.Contains(last, "and 2000 more problems, 3000 errors") {
		t.Error(len(got), last)
	}

	req := manyExams(2500)
	for i := range req.Events {
		req.Events[i].HasEnd = true
	}
	list := req.Validate()
	if end := list[len(list)-1]; len(list) != season.MaxProblems+1 || end.Code != season.CodeMore || !strings.Contains(end.Reason, "1500 more") {
		t.Error(len(list), end)
	}
}

func manyExams(n int) season.Request {
	req := season.Request{
		Period:  season.Period{From: day("2026-11-09"), To: day("2026-11-15")},
		Athlete: season.Athlete{Zone: zoneOf("Europe/Berlin"), Born: season.YearMonth{Year: 2000, Month: 1}},
	}
	for i := range n {
		req.Events = append(req.Events, calendar.Event{
			ID: fmt.Sprint("e", i), Kind: calendar.Exam, Start: wall("2026-11-10T09:00").AddMinutes(i),
		})
	}
	return req
}

func TestGoLimits(t *testing.T) {
	for name, c := range map[string]struct {
		path   string
		change func(*season.Request)
	}{
		"events":       {"/events", func(r *season.Request) { r.Events = make([]calendar.Event, season.MaxEvents+1) }},
		"log":          {"/log", func(r *season.Request) { r.Log = make([]season.Done, season.MaxLog+1) }},
		"issued":       {"/issued", func(r *season.Request) { r.Issued = make([]season.Plan, season.MaxIssued+1) }},
		"places":       {"/places", func(r *season.Request) { r.Places = make([]season.Place, season.MaxPlaces+1) }},
		"rules":        {"/rules", func(r *season.Request) { r.Rules = make([]season.Override, season.MaxOverrides+1) }},
		"pins":         {"/pins", func(r *season.Request) { r.Pins = make([]season.Pin, season.MaxPins+1) }},
		"hours":        {"/athlete/hours", func(r *season.Request) { r.Athlete.Hours = make([]season.Hours, season.MaxHours+1) }},
		"prefer":       {"/athlete/prefer", func(r *season.Request) { r.Athlete.Prefer = make([]season.Prefer, season.MaxHours+1) }},
		"maxima":       {"/athlete/maxima", func(r *season.Request) { r.Athlete.Maxima = make([]season.Maximum, season.MaxMaxima+1) }},
		"restrictions": {"/athlete/restrictions", func(r *season.Request) { r.Athlete.Restrictions = make([]season.Restriction, season.MaxRestrictions+1) }},
		"holds":        {"/athlete/holds", func(r *season.Request) { r.Athlete.Holds = make([]season.Hold, season.MaxHolds+1) }},
		"opt-ins":      {"/athlete/optIns", func(r *season.Request) { r.Athlete.OptIns = make([]season.OptIn, season.MaxOptIns+1) }},
		"closed": {"/places/0/closed", func(r *season.Request) {
			r.Places = []season.Place{{ID: "gym", Closed: make([]season.Period, season.MaxClosed+1)}}
		}},
		"kit": {"/places/0/kit", func(r *season.Request) { r.Places = []season.Place{{ID: "gym", Kit: make([]string, season.MaxKit+1)}} }},
	} {
		req := manyExams(1)
		c.change(&req)
		list := req.Validate()
		if len(list) != 1 || list[0].Code != season.CodeLimit || list[0].Path != c.path {
			t.Errorf("%s: %v", name, list)
		}
	}
}

// Zero and hostile values are checked, sorted and digested without a panic.
func TestHostileGoValues(t *testing.T) {
	far := day("2199-12-31").AddDays(100_000)
	req := season.Request{
		Schema: -1,
		Period: season.Period{From: far, To: far},
		Athlete: season.Athlete{
			Born: season.YearMonth{Year: -5, Month: 99}, TrainingAgeMonths: -7,
			Hours:  []season.Hours{{}, {Days: nil, From: -1, To: 1 << 30}},
			Prefer: []season.Prefer{{Start: -1}}, OptIns: []season.OptIn{"x"},
			Maxima: []season.Maximum{{}, {Exercise: "\xff", Grams: -1 << 63, Date: far}},
		},
		Events: []calendar.Event{{}, {}, {Kind: "x", Start: calendar.Wall{Date: far, Clock: -5}, HasEnd: true, HasActualEnd: true, Revision: -3, Status: "x", Importance: "x", Home: "x"}},
		Places: []season.Place{{}, {}}, Rules: []season.Override{{}, {}}, Log: []season.Done{{}, {}},
		Issued: []season.Plan{{}}, Pins: []season.Pin{{}, {None: true, Kind: "x"}},
	}
	for _, schema := range []int{-1, 0, 2} {
		req.Schema = schema
		list := req.Validate()
		if usable(list) {
			t.Errorf("schema %d: no error in %v", schema, list)
		}
		for _, p := range list {
			if p.Reason == "" || p.Remedy == "" {
				t.Errorf("%+v", p)
			}
		}
		if d := req.Digest(); len(d) != 16 || d != req.Canonical().Digest() {
			t.Errorf("digest %q", d)
		}
		// A clock before midnight belongs to the date before.
		if got := season.EventsDigest(req.Events, season.Period{}); len(got) != 1 || got[0].Date != far.AddDays(-1) {
			t.Error(got)
		}
		if got := season.EventsDigest(req.Events, req.Period); len(got) != 0 {
			t.Error(got)
		}
	}
	if _, err := req.MarshalJSON(); err == nil {
		t.Error("written, though it cannot be read back")
	}
	if list := (season.Request{}).Validate(); usable(list) {
		t.Error(list)
	}
	if list := (season.Plan{}).Validate(); usable(list) {
		t.Error(list)
	}
}

// bench: the largest calendar a request may hold.
func BenchmarkCanonicalMaxEvents(b *testing.B) {
	req := manyExams(season.MaxEvents)
	b.ResetTimer()
	for range b.N {
		req.Canonical()
	}
}

func BenchmarkReadMaxEvents(b *testing.B) {
	text := string(marshal(b, manyExams(season.MaxEvents)))
	b.SetBytes(int64(len(text)))
	b.ResetTimer()
	for range b.N {
		if _, err := season.ReadRequest(strings.NewReader(text)); err != nil {
			b.Fatal(err)
		}
	}
}
