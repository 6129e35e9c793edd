package season_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// An invented week.
const week = `{
  "schema": 1,
  "period": {"from": "2026-11-09", "to": "2026-11-15"},
  "now": "2026-11-09T00:00:00+01:00",
  "athlete": {
    "id": "a7", "born": "2007-03", "zone": "Europe/Berlin", "trainingAgeYears": 2.5,
    "hours": [{"days": ["mon", "tue", "wed", "thu", "fri"], "from": "16:00", "to": "20:30"}],
    "maxima": [{"exercise": "squat", "load": "225 lb", "kind": "tested", "date": "2026-09-14"}]
  },
  "events": [
    {"id": "g2", "kind": "game", "start": "2026-11-14T18:00", "end": "2026-11-14T20:00", "importance": "important"},
    {"id": "p1", "kind": "practice", "start": "2026-11-10T19:00", "end": "2026-11-10T20:30", "zone": "Europe/Berlin"}
  ]
}`

func ExampleReadRequest() {
	req, err := season.ReadRequest(strings.NewReader(week))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(req.Period.Days(), "dates,", len(req.Events), "events,", req.Athlete.Maxima[0].Grams, "g")
	fmt.Println(req.Events[0].Start, req.Events[0].Zone)
	// Output:
	// 7 dates, 2 events, 102058 g
	// 2026-11-14T18:00 Europe/Berlin
}

func ExampleReadRequest_problems() {
	_, err := season.ReadRequest(strings.NewReader(`{
	  "schema": 1,
	  "period": {"from": "2027-03-22", "to": "2027-03-28"},
	  "athlete": {"born": "2007-03", "zone": "Europe/Berln", "trainingAgeYears": 3},
	  "events": [{"id": "g1", "kind": "match", "start": "2027-03-28T02:30", "zone": "Europe/Berlin"}]
	}`))
	fmt.Println(err)
	// Output:
	// /athlete/zone: error: "Europe/Berln" - unknown time zone; did you mean Europe/Berlin?
	// /events/0/kind: error: "match" - the word is not known here; write one of: game, practice, skills, travel, exam, closure, busy
	// /events/0/start: error: "2027-03-28T02:30" - the clock in Europe/Berlin jumps over this time; give 2027-03-28T01:59 or 2027-03-28T03:00
}

func ExampleRequestReader_Read() {
	reader := season.RequestReader{Strict: false}
	_, problems, err := reader.Read(strings.NewReader(`{
	  "schema": 1,
	  "period": {"from": "2026-11-09", "to": "2026-11-15"},
	  "athlete": {"zone": "Europe/Berlin", "trainingAgeYears": 3, "rolle": "keeper"}
	}`))
	fmt.Println(err)
	for _, p := range problems {
		fmt.Println(p)
	}
	// Output:
	// <nil>
	// /athlete/born: question: the age is not known: the safeguards of a 13- to 15-year-old beginner are used; give the month of birth, such as "2007-03"
	// /athlete/rolle: warning: the field is not known and is not read; did you mean "role"?
}

func ExampleRequest_Validate() {
	berlin, _ := calendar.LoadZone("Europe/Berlin")
	from, _ := calendar.NewDate(2026, 11, 9)
	req := season.Request{
		Period:  season.Period{From: from, To: from.AddDays(-1)},
		Athlete: season.Athlete{Zone: berlin, Born: season.YearMonth{Year: 2007, Month: 3}},
	}
	for _, p := range req.Validate() {
		fmt.Println(p)
	}
	// Output:
	// /period/to: error: "2026-11-08" - it ends before it begins on 2026-11-09; give a last date on or after the first
}

func ExampleRequest_Canonical() {
	req, err := season.ReadRequest(strings.NewReader(week))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range req.Canonical().Events {
		fmt.Println(e.Start, e.ID)
	}
	// Output:
	// 2026-11-10T19:00 p1
	// 2026-11-14T18:00 g2
}

func ExampleRequest_Digest() {
	req, err := season.ReadRequest(strings.NewReader(week))
	if err != nil {
		fmt.Println(err)
		return
	}
	before := req.Digest()
	req.Events[0], req.Events[1] = req.Events[1], req.Events[0]
	fmt.Println("other order:", req.Digest() == before)
	req.Athlete.TrainingAgeMonths++
	fmt.Println("other content:", req.Digest() == before)
	// Output:
	// other order: true
	// other content: false
}

func ExampleEventsDigest() {
	req, err := season.ReadRequest(strings.NewReader(week))
	if err != nil {
		fmt.Println(err)
		return
	}
	before := season.EventsDigest(req.Events, req.Period)
	req.Events[0].Importance = calendar.Normal
	for i, d := range season.EventsDigest(req.Events, req.Period) {
		fmt.Println(d.Date, d == before[i])
	}
	// Output:
	// 2026-11-10 true
	// 2026-11-14 false
}

func ExampleRequest_MarshalJSON() {
	berlin, _ := calendar.LoadZone("Europe/Berlin")
	from, _ := calendar.NewDate(2026, 11, 9)
	b, err := json.Marshal(season.Request{
		Period:  season.Period{From: from, To: from.AddDays(6)},
		Athlete: season.Athlete{Zone: berlin, TrainingAgeMonths: 30, OptIns: []season.OptIn{season.OptPostGame}},
	})
	fmt.Println(string(b), err)
	// Output:
	// {"schema":1,"period":{"from":"2026-11-09","to":"2026-11-15"},"athlete":{"zone":"Europe/Berlin","trainingAgeYears":2.5,"optIns":["post-game"]}} <nil>
}

func ExampleReadPlan() {
	from, _ := calendar.NewDate(2026, 11, 9)
	plan := season.Plan{
		Schema: season.Schema, ID: "p1", Now: time.Unix(1762642800, 0).UTC(), Outcome: season.Planned,
		Period: season.Period{From: from, To: from.AddDays(6)}, Zone: "Europe/Berlin",
	}
	b, _ := json.Marshal(plan)
	back, err := season.ReadPlan(strings.NewReader(string(b)))
	fmt.Println(back.ID, back.Period.Days(), err)

	_, err = season.ReadPlan(strings.NewReader(strings.Replace(string(b), "planned", "guessed", 1)))
	fmt.Println(err)
	// Output:
	// p1 7 <nil>
	// /outcome: error: "guessed" - the word is not known here; write one of: planned, refused
}

func ExampleApply() {
	req, err := season.ReadRequest(strings.NewReader(week))
	if err != nil {
		fmt.Println(err)
		return
	}
	next, err := season.Apply(*req, season.Move("g2", "2026-11-13T19:45"), season.Cancel("p1"))
	fmt.Println(next.Events[0].Start, next.Events[0].End, next.Events[1].Status, err)

	_, err = season.Apply(*req, season.Move("g3", "2026-11-13T19:45"), season.Postpone("p1"))
	fmt.Println(err)
	// Output:
	// 2026-11-13T19:45 2026-11-13T21:45 cancelled <nil>
	// /edits/0: error: "g3" - there is no event of this id; use one of: g2, p1
}

func ExampleAdd() {
	req, err := season.ReadRequest(strings.NewReader(week))
	if err != nil {
		fmt.Println(err)
		return
	}
	wall, _ := calendar.ParseWall("2026-11-12T18:00")
	next, err := season.Apply(*req, season.Add(calendar.Event{Kind: calendar.Game, Start: wall, Opponent: "Tarn Ottermark"}))
	fmt.Println(len(req.Events), len(next.Events), next.Events[2].ID, next.Events[2].Zone, err)
	// Output:
	// 2 3 game-uswvtnqgeodtb43t Europe/Berlin <nil>
}

func ExampleMove() {
	req, err := season.ReadRequest(strings.NewReader(week))
	if err != nil {
		fmt.Println(err)
		return
	}
	next, err := season.Apply(*req, season.Move("g2", "2026-11-15"))
	fmt.Println(next.Events[0].Start.Date, next.Events[0].DateOnly, err)
	// Output: 2026-11-15 true <nil>
}

func ExamplePostpone() {
	req, err := season.ReadRequest(strings.NewReader(week))
	if err != nil {
		fmt.Println(err)
		return
	}
	next, err := season.Apply(*req, season.Postpone("g2"))
	fmt.Println(next.Events[0].Active(), err)
	next, err = season.Apply(next, season.Confirm("g2"))
	fmt.Println(next.Events[0].Active(), next.Events[0].Revision, err)
	// Output:
	// false <nil>
	// true 2 <nil>
}

func ExampleCancel() {
	req, err := season.ReadRequest(strings.NewReader(week))
	if err != nil {
		fmt.Println(err)
		return
	}
	next, err := season.Apply(*req, season.Cancel("g2"))
	fmt.Println(next.Events[0].Status, err)
	// Output: cancelled <nil>
}

func ExampleConfirm() {
	req, err := season.ReadRequest(strings.NewReader(week))
	if err != nil {
		fmt.Println(err)
		return
	}
	next, err := season.Apply(*req, season.Confirm("g2"))
	fmt.Printf("%q then %q, %v\n", req.Events[0].Status, next.Events[0].Status, err)
	// Output: "" then "confirmed", <nil>
}

func ExampleInputError() {
	_, err := season.ReadPlan(strings.NewReader(`{"schema": 1}`))
	var input *season.InputError
	if errors.As(err, &input) {
		for _, p := range input.Problems[:3] {
			fmt.Println(p.Code, p.Path, "-", p.Reason)
		}
	}
	fmt.Println(errors.Is(err, season.ErrInput))
	// Output:
	// missing /id - the field is missing
	// missing /now - the field is missing
	// missing /outcome - the field is missing
	// true
}

func ExamplePlan_Validate() {
	for _, p := range (season.Plan{Schema: 7}).Validate() {
		fmt.Println(p)
	}
	// Output:
	// /schema: error: "7" - this version knows schema 1; hand back a plan of this version
}

func ExampleDone_ContentID() {
	start, _ := calendar.ParseWall("2026-11-03T17:00")
	done := season.Done{Kind: season.Primer, Start: start}
	id := done.ContentID()
	done.Missed = true
	fmt.Println(id, id == done.ContentID())
	// Output: log-zovvrjo2kquv3stz true
}

func ExampleProblemCodes() {
	codes := season.ProblemCodes()
	fmt.Println(codes[0], codes[len(codes)-1])
	// Output: age-missing zone
}

func ExampleEventPath() {
	fmt.Println(season.EventPath(3))
	// Output: /events/3
}

func ExampleKinds() {
	for _, k := range season.Kinds() {
		fmt.Println(k, k.Lift(), k.HeavyLowerBody())
	}
	// Output:
	// full-body true true
	// trimmed-full-body true true
	// primer true false
	// recovery false false
	// post-game true true
	// eccentric true true
}
