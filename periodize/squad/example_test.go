package squad_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

func date(s string) calendar.Date {
	d, err := calendar.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d
}

func clock(s string) calendar.Clock {
	c, err := calendar.ParseClock(s)
	if err != nil {
		panic(err)
	}
	return c
}

// three are invented athletes who share two places on two afternoons.
func three() *squad.Request {
	zone, err := calendar.LoadZone("Europe/Vienna")
	if err != nil {
		panic(err)
	}
	r := &squad.Request{Period: season.Period{From: date("2026-11-16"), To: date("2026-11-22")}}
	r.Halls = []squad.Hall{{Capacity: 2, SlotMinutes: 55, ChangeMinutes: 10, Place: season.Place{ID: "hall",
		Hours: []season.Hours{{Days: []time.Weekday{time.Monday, time.Thursday}, From: clock("16:00"), To: clock("17:00")}}}}}
	for i, id := range []string{"a4", "b9", "c2"} {
		r.Athletes = append(r.Athletes, squad.Athlete{Season: season.Request{
			Athlete: season.Athlete{ID: id, Born: season.YearMonth{Year: 1999 + i, Month: 6}, Zone: zone, TrainingAgeMonths: 50},
			Places:  []season.Place{{ID: "home"}}}})
	}
	return r
}

func ExamplePlanner_Plan() {
	plan, err := (&squad.Planner{}).Plan(context.Background(), three())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plan.Proof, plan.Points, "points, with the hall alone", plan.Alone)
	for _, s := range plan.Slots {
		fmt.Print(s.Start.Format("Mon 15:04"), ":")
		for _, seat := range s.Seats {
			fmt.Print(" ", seat.Athlete, " ", seat.Kind)
		}
		fmt.Println()
	}
	for _, x := range plan.LeftOut {
		fmt.Println(x.Athlete+":", x.Text)
	}
	for _, f := range plan.Findings {
		fmt.Println(f.Text)
	}
	// Output:
	// proved 12 points, with the hall alone 0
	// Mon 16:00: a4 full-body b9 full-body
	// Thu 16:00: a4 full-body b9 full-body
	// c2: no place in the hall for the full-body session of 2026-11-16: full-body at home on 2026-11-16
	// c2: no place in the hall for the full-body session of 2026-11-19: full-body at home on 2026-11-19
	// hall 2026-11-16: 3 want a place, 2 to a slot: 2 x 65 - 10 = 120 min needed, 60 open
	// hall 2026-11-19: 3 want a place, 2 to a slot: 2 x 65 - 10 = 120 min needed, 60 open
}

func ExampleDefaultRatios() {
	for _, r := range squad.DefaultRatios() {
		fmt.Println("under", r.Under, "one coach to", r.Athletes)
	}
	// Output:
	// under 14 one coach to 10
	// under 18 one coach to 15
	// under 0 one coach to 20
}

// A request says all that is wrong with it at once.
func ExampleRequest_Validate() {
	r := three()
	r.Halls[0].Capacity = 0
	r.Halls[0].Place.Hours[0].To = clock("15:00")
	r.Athletes[2].Season.Athlete.ID = "a4"
	r.Athletes[0].Season.Athlete.Born = season.YearMonth{Year: 2012, Month: 1}
	r.Athletes[0].Season.Athlete.TrainingAgeMonths = 20
	for _, p := range r.Validate() {
		fmt.Println(p.Error())
	}
	// Output:
	// /halls/0/capacity: error: "0" - outside 1 to 500; give how many athletes train at a time; leave out a hall that is closed
	// /halls/0/hours/0/to: error: "15:00" - it closes at or before it opens at 16:00; give a closing time after the opening, or two entries for a night
	// /athletes/2/athlete/id: error: "a4" - athlete 0 has the same id; give each athlete once
	// /ratios: question: minors: 1, and no supervision ratio: one coach to 10 athletes is assumed for all of them; give how many athletes one coach may watch, by age and by your local rules
	// /coaches: question: minors: 1, and no coach: one is assumed whenever a hall is open; give who is there and when: minors train only supervised
}

// small is a squad as JSON: two invented athletes, one place on one afternoon.
const small = `{
  "schema": 1,
  "period": {"from": "2026-11-16", "to": "2026-11-22"},
  "athletes": [
    {"athlete": {"id": "a4", "born": "1998-03", "zone": "Europe/Vienna", "trainingAgeYears": 4}, "places": [{"id": "home"}]},
    {"athlete": {"id": "b9", "born": "2001-10", "zone": "Europe/Vienna", "trainingAgeYears": 3}, "places": [{"id": "home"}],
      "log": [{"kind": "full-body", "start": "2026-11-13T17:00", "end": "2026-11-13T17:55"}]}],
  "halls": [{"id": "hall", "capacity": 1, "slotMinutes": 55, "changeMinutes": 10,
    "hours": [{"days": ["thu"], "from": "16:00", "to": "17:00"}]}]
}`

func ExampleReadRequest() {
	req, err := squad.ReadRequest(strings.NewReader(small))
	if err != nil {
		fmt.Println(err) // every problem, each with path, value and remedy
		return
	}
	plan, err := (&squad.Planner{}).Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range plan.Slots {
		for _, seat := range s.Seats {
			fmt.Println(s.Start.Format("Mon 15:04"), seat.Athlete, seat.Kind)
		}
	}
	for _, x := range plan.LeftOut {
		fmt.Println(x.Athlete+":", x.Text)
	}
	// Output:
	// Thu 16:00 a4 full-body
	// b9: no place in the hall for the full-body session of 2026-11-19: full-body at home on 2026-11-19
}

// A reader can be strict, and its limits tighter.
func ExampleRequestReader_Read() {
	rr := squad.RequestReader{Strict: true, Limits: season.Limits{PeriodDays: 5}}
	_, _, err := rr.Read(strings.NewReader(strings.Replace(small, `"capacity": 1`, `"capacity": 0, "height": 3`, 1)))
	fmt.Println(err)
	// Output:
	// /halls/0/height: error: the field is not known and is not read (line 8, column 43); remove it
	// /period/to: error: "2026-11-22" - the period has 7 dates, the limit of a squad is 5; plan four to eight weeks and roll on: the plan issued last is the start of the next
	// /halls/0/capacity: error: "0" - outside 1 to 500; give how many athletes train at a time; leave out a hall that is closed
}

// What was planned is handed back as JSON: with a new request it is the plan issued
// last.
func ExampleReadPlan() {
	req, err := squad.ReadRequest(strings.NewReader(small))
	if err != nil {
		fmt.Println(err)
		return
	}
	first, err := (&squad.Planner{}).Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
		return
	}
	text, err := json.Marshal(first)
	if err != nil {
		fmt.Println(err)
		return
	}
	issued, err := squad.ReadPlan(bytes.NewReader(text))
	if err != nil {
		fmt.Println(err)
		return
	}
	next, err := (&squad.Planner{}).Replan(context.Background(), req, issued)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(next.Moved), "moved")
	// Output:
	// 0 moved
}

// A request is written with what ReadRequest reads.
func ExampleRequest_MarshalJSON() {
	req := three()
	req.Athletes = req.Athletes[:1]
	text, err := json.MarshalIndent(req, "", " ")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(string(text))
	// Output:
	// {
	//  "schema": 1,
	//  "period": {
	//   "from": "2026-11-16",
	//   "to": "2026-11-22"
	//  },
	//  "athletes": [
	//   {
	//    "athlete": {
	//     "id": "a4",
	//     "born": "1999-06",
	//     "zone": "Europe/Vienna",
	//     "trainingAgeYears": 4.17
	//    },
	//    "places": [
	//     {
	//      "id": "home"
	//     }
	//    ]
	//   }
	//  ],
	//  "halls": [
	//   {
	//    "id": "hall",
	//    "hours": [
	//     {
	//      "days": [
	//       "mon",
	//       "thu"
	//      ],
	//      "from": "16:00",
	//      "to": "17:00"
	//     }
	//    ],
	//    "capacity": 2,
	//    "slotMinutes": 55,
	//    "changeMinutes": 10
	//   }
	//  ]
	// }
}

func ExampleRequest_UnmarshalJSON() {
	var both struct {
		Club  string        `json:"club"`
		Squad squad.Request `json:"squad"`
	}
	if err := json.Unmarshal([]byte(`{"club": "invented", "squad": `+small+`}`), &both); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(both.Club, len(both.Squad.Athletes), "athletes", both.Squad.Halls[0].Capacity, "place")
	// Output:
	// invented 2 athletes 1 place
}

// Lists of a plan are written even if they are empty.
func ExamplePlan_MarshalJSON() {
	text, err := json.Marshal(squad.Plan{Schema: squad.Schema, Zone: "Europe/Vienna", Proof: season.Proved})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(string(text))
	// Output:
	// {"schema":1,"engine":0,"period":{"from":"","to":""},"now":"0001-01-01T00:00:00Z","zone":"Europe/Vienna","proof":"proved","points":0,"bound":0,"gap":0,"alone":0,"mixed":0,"athletes":[],"slots":[],"leftOut":[],"moved":[],"findings":[],"assumed":[],"work":{"nodes":0,"rounds":0,"columns":0}}
}

func ExamplePlan_UnmarshalJSON() {
	var p squad.Plan
	err := json.Unmarshal([]byte(`{"schema": 1, "zone": "Europe/Vienna", "now": "2026-11-16T00:00:00+01:00", "proof": "proved",
		"period": {"from": "2026-11-16", "to": "2026-11-22"}, "athletes": [{"athlete": "a4"}]}`), &p)
	fmt.Println(err)
	// Output:
	// /athletes/0/plan: error: the field is missing (line 2, column 70); add it
}

// A program that writes its own language finds here what there is to say.
func ExampleCodes() {
	for _, c := range squad.Codes() {
		fmt.Println(c.Code, c.Params)
	}
	// Output:
	// squad-hall-narrow [hall date wanted room slots each change needed open]
	// squad-over-capacity [hall date start athletes places]
}

func ExampleProblemCodes() {
	for _, c := range squad.ProblemCodes() {
		if strings.HasSuffix(c, "-missing") {
			fmt.Println(c)
		}
	}
	// Output:
	// age-missing
	// by-missing
	// coach-missing
	// minutes-missing
	// ratio-missing
	// schema-missing
	// side-missing
	// training-missing
}
