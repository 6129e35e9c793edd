package periodize_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// read reads the request of the examples: a week with two games.
func read() *season.Request {
	req, err := season.ReadRequest(strings.NewReader(request))
	if err != nil {
		panic(err)
	}
	return req
}

// quiet is the same week without the game of Wednesday.
func quiet() *season.Request {
	req, err := season.Apply(*read(), season.Cancel("g7"))
	if err != nil {
		panic(err)
	}
	return &req
}

func date(s string) calendar.Date {
	d, err := calendar.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d
}

func ExamplePlanner_Reuse() {
	planner := new(periodize.Planner).Reuse()
	for _, req := range []*season.Request{read(), quiet()} {
		plan, err := planner.Plan(context.Background(), req)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(len(plan.Sessions), "sessions,", plan.Cost.Points, "points")
	}
	// Output:
	// 5 sessions, 120 points
	// 5 sessions, 0 points
}

func ExamplePlanner_Plan() {
	var planner periodize.Planner
	plan, err := planner.Plan(context.Background(), read())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range plan.Sessions {
		fmt.Println(s.Start.Format("Mon 15:04"), s.Kind)
		for _, why := range s.Why {
			fmt.Println("  ", why.Code, why.Text)
		}
	}
	// Output:
	// Mon 17:00 full-body
	//    why-first-full-body first full-body session of the week, ends 49 h 35 before the next game
	// Tue 17:00 primer
	//    why-primer fresh for the game: ends 25 h 55 before it
	// Thu 17:00 recovery
	//    why-recovery-after recovery on the day after the game
	// Fri 17:00 primer
	//    why-primer fresh for the game: ends 24 h 25 before it
	// Sun 10:00 recovery
	//    why-recovery-after recovery on the day after the game
}

// Nothing may be planned while a hold is not cleared: an outcome, no error.
// Rules of the club's own come with the request, and cost or forbid as the
// table's do.
func ExamplePlanner_Plan_club() {
	req := read()
	req.Club = []season.ClubRule{{ID: "hall-let", Says: "the hall is let on Mondays", Shape: season.ClubForbid, Days: []time.Weekday{time.Monday}}}
	var planner periodize.Planner
	plan, err := planner.Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plan.Cost.Points, plan.RulesVersion)
	for _, m := range plan.Missed {
		if slices.Contains(m.InTheWay, season.InTheWay{Rule: "hall-let"}) {
			fmt.Println(m.Aim, m.Got, "of", m.Wanted)
		}
	}
	// Output:
	// 211 1+hall-let
	// second-full-body 1 of 2
	// recovery-count 1 of 2
}

func ExamplePlanner_Plan_refused() {
	req := read()
	req.Athlete.Holds = []season.Hold{{From: date("2026-11-08")}}
	var planner periodize.Planner
	plan, err := planner.Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plan.Outcome, len(plan.Sessions))
	for _, r := range plan.Refusals {
		fmt.Println(r.Class, r.Code, r.Text)
	}
	// Output:
	// refused 0
	// refusal refusal-hold on hold until a clinician clears it: no session is placed from 2026-11-09 on
}

// A request that cannot be planned gives every problem at once.
func ExamplePlanner_Plan_problems() {
	req := read()
	req.Period.To = req.Period.From.AddDays(-1)
	req.Athlete.Born.Month = 13
	var planner periodize.Planner
	_, err := planner.Plan(context.Background(), req)
	var input *season.InputError
	if errors.As(err, &input) {
		for _, p := range input.Problems {
			fmt.Println(p)
		}
	}
	// Output:
	// /period/to: error: "2026-11-08" - it ends before it begins on 2026-11-09; give a last date on or after the first
	// /athlete/born: error: "2001-13" - there is no such month; give year and month, such as 2007-03
}

// A counted limit on the work gives the same plan on every machine, with a bound
// instead of a proof.
func ExamplePlanner() {
	planner := periodize.Planner{MaxNodes: 1}
	plan, err := planner.Plan(context.Background(), read())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plan.Proof, plan.Cost.Points >= plan.Cost.Bound)
	// Output:
	// bounded true
}

func ExamplePlanner_Replan() {
	var planner periodize.Planner
	req := read()
	plan, err := planner.Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
		return
	}
	moved, err := season.Apply(*req, season.Move("g8", "2026-11-15T16:00"))
	if err != nil {
		fmt.Println(err)
		return
	}
	next, err := planner.Replan(context.Background(), &moved, plan)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("revision", plan.Revision, "then", next.Revision)
	for _, c := range next.Changes {
		if c.Change != season.Unchanged {
			fmt.Printf("%s: %s to %s, %s\n", c.Change, when(c.From), when(c.To), c.Kind)
		}
	}
	// Output:
	// revision 0 then 1
	// replaced: Fri 17:00 to Fri 17:00, recovery
	// added: nothing to Sat 10:00, primer
	// dropped: Sun 10:00 to nothing, recovery
}

func when(t *time.Time) string {
	if t == nil {
		return "nothing"
	}
	return t.Format("Mon 15:04")
}

func ExamplePlanner_Evaluate() {
	var planner periodize.Planner
	req := read()
	plan, err := planner.Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
		return
	}
	byHand := *plan
	byHand.Sessions = plan.Sessions[1:]
	verdict, err := planner.Evaluate(context.Background(), req, &byHand)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("legal:", verdict.Legal, "points:", verdict.Points)
	for _, m := range verdict.Missed {
		fmt.Println(m.Aim, m.Got, "of", m.Wanted)
	}
	// Output:
	// legal: true points: 1240
	// week-full-body 0 of 1
	// second-full-body 0 of 2
}

func ExampleEvaluation_Against() {
	var planner periodize.Planner
	ctx, req := context.Background(), read()
	plan, err := planner.Plan(ctx, req)
	if err != nil {
		fmt.Println(err)
		return
	}
	byHand := *plan
	byHand.Sessions = plan.Sessions[1:]
	best, err1 := planner.Evaluate(ctx, req, plan)
	other, err2 := planner.Evaluate(ctx, req, &byHand)
	if err := errors.Join(err1, err2); err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range other.Against(best) {
		fmt.Println(c.Rule, c.Points)
	}
	// Output:
	// week-full-body 1120
}

func ExamplePlanner_Equals() {
	var planner periodize.Planner
	n, err := planner.Equals(context.Background(), quiet())
	fmt.Println(n, err)
	// Output:
	// 15 <nil>
}

func ExamplePlanner_Explore() {
	var planner periodize.Planner
	x, err := planner.Explore(context.Background(), read())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("the plan:", x.Plan().Sessions[0].Kind, "and", x.Plan().Cost.Points, "points in all")
	others, err := x.OnDate(date("2026-11-09"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, a := range others {
		fmt.Printf("%q: %d points more, at least: %v\n", a.Kind, a.Price, a.AtLeast)
	}
	// Output:
	// the plan: full-body and 120 points in all
	// "trimmed-full-body": 1 points more, at least: false
	// "recovery": 51 points more, at least: true
	// "": 51 points more, at least: true
}

func ExampleExploration_WhyNot() {
	var planner periodize.Planner
	ctx := context.Background()
	x, err := planner.Explore(ctx, read())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, day := range []string{"2026-11-12", "2026-11-13"} {
		answer, err := x.WhyNot(ctx, date(day), season.FullBody, nil)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(day, answer.Possible, answer.Limits)
	}
	// Output:
	// 2026-11-12 false [{after-game-full g7} {full-before-game g8}]
	// 2026-11-13 false [{full-before-game g8} {heavy-before-game g8}]
}

func ExampleExploration_Elsewhere() {
	var planner periodize.Planner
	ctx := context.Background()
	x, err := planner.Explore(ctx, quiet())
	if err != nil {
		fmt.Println(err)
		return
	}
	others, err := x.Elsewhere(ctx, x.Plan().Sessions[0].ID)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, a := range others {
		fmt.Println(a.Start.Format("Mon 15:04"), a.Kind, a.Price)
	}
	// Output:
	// Tue 17:00 full-body 0
	// Thu 17:00 full-body 0
}

func ExampleExploration_Different() {
	var planner periodize.Planner
	ctx := context.Background()
	x, err := planner.Explore(ctx, quiet())
	if err != nil {
		fmt.Println(err)
		return
	}
	other, n, err := x.Different(ctx)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(n, "of", len(x.Plan().Sessions), "sessions differ,", other.Cost.Points-x.Plan().Cost.Points, "points dearer")
	// Output:
	// 4 of 5 sessions differ, 0 points dearer
}

func ExampleExploration_Obstacles() {
	var planner periodize.Planner
	ctx := context.Background()
	x, err := planner.Explore(ctx, read())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range x.Plan().Missed {
		way, err := x.Obstacles(ctx, m)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(m.Aim, way)
	}
	// Output:
	// second-full-body [{lifts-in-7 } {primer }]
}
