package bridge

import (
	"context"
	"encoding/json"
	"errors"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// Desk is what the page works on. It is for one caller at a time. The zero value
// has no request yet.
type Desk struct {
	planner  periodize.Planner
	req      *season.Request
	invented bool
	plan     *season.Plan // of req, without what stood in the way
	notes    []calendar.Problem
	draft    *draft
	days     []DayMark // what became of sessions on their day

	explored *periodize.Exploration // of req, once somebody asked
	cards    []exercise.Card        // of plan, once somebody asked
}

// draft is a changed request that nobody has accepted yet.
type draft struct {
	req  *season.Request
	plan *season.Plan
	day  *DayMark // what a report of the day led to, nil of another change
}

// Reply is the answer to a call: a result, or what is wrong with the input.
type Reply struct {
	Result   any       `json:"result,omitempty"`
	Problems []Problem `json:"problems,omitempty"`
	Fault    string    `json:"fault,omitempty"` // ours, never of the input
}

// Problem is one thing wrong with an input.
type Problem struct {
	Class  string `json:"class"`
	Where  string `json:"where"`
	Value  string `json:"value,omitempty"`
	Reason string `json:"reason"`
	Remedy string `json:"remedy,omitempty"`
}

// MaxArguments bounds the text of one call, in bytes.
const MaxArguments = 96 << 20

// errNothing says that a question came before there was a plan.
var errNothing = &season.InputError{Problems: []calendar.Problem{{Code: "nothing", Class: calendar.ClassError,
	Reason: "there is no plan yet", Remedy: "open a file or the example first"}}}

// Stage is told what is being done, and how much of it is done, of 0 where nobody
// can say.
type Stage func(what string, done, of int)

// Call does what name says, with arguments as JSON, and returns a [Reply] as
// JSON. stage may be nil. It never panics on its
// arguments: what is unknown or malformed comes back as a problem.
func (d *Desk) Call(ctx context.Context, name string, args []byte, stage Stage) []byte {
	if stage == nil {
		stage = func(string, int, int) {}
	}
	result, err := d.call(ctx, name, args, stage)
	var bad *season.InputError
	var r Reply
	switch {
	case errors.As(err, &bad):
		r.Problems = problemsOf(bad.Problems)
	case err != nil:
		r.Fault = calendar.Inert(err.Error())
	default:
		r.Result = result
	}
	text, err := json.Marshal(r)
	if err != nil {
		text, _ = json.Marshal(Reply{Fault: calendar.Inert(err.Error())})
	}
	return text
}

func (d *Desk) call(ctx context.Context, name string, args []byte, stage Stage) (any, error) {
	if len(args) > MaxArguments {
		return nil, wrong("", "", "more than 96 MB at once", "give a smaller file")
	}
	switch name {
	case "demo":
		return d.demo(ctx, stage)
	case "restore":
		return with(args, func(a restoreArgs) (any, error) { return d.restore(ctx, a, stage) })
	case "open":
		return with(args, func(a openArgs) (any, error) { return d.open(ctx, a, stage) })
	case "set":
		return with(args, func(a Settings) (any, error) { return d.set(ctx, a, stage) })
	case "choices":
		return with(args, func(Empty) (any, error) { return choicesOf(), nil })
	}
	if d.plan == nil {
		return nil, errNothing
	}
	switch name {
	case "explain":
		return d.explain(ctx, stage)
	case "date":
		return with(args, func(a dateArgs) (any, error) { return d.date(ctx, a, stage) })
	case "session":
		return with(args, func(a sessionArgs) (any, error) { return d.session(ctx, a, stage) })
	case "move":
		return with(args, func(a moveArgs) (any, error) { return d.move(ctx, a, stage) })
	case "pin":
		return with(args, func(a pinArgs) (any, error) { return d.pin(ctx, a, stage) })
	case "unpin":
		return with(args, func(a unpinArgs) (any, error) { return d.unpin(ctx, a, stage) })
	case "accept":
		return d.accept()
	case "discard":
		d.draft = nil
		return Empty{}, nil
	case "report":
		return with(args, func(a reportArgs) (any, error) { return d.report(ctx, a, stage) })
	case "sheet":
		return with(args, d.sheet)
	case "save":
		return d.save()
	case "plan":
		return d.planText(ctx, stage)
	}
	return nil, wrong("", name, "no such call", "reload the page")
}

// Empty stands for no arguments and no result.
type Empty struct{}

// with reads arguments and calls a function with them.
func with[T any](args []byte, f func(T) (any, error)) (any, error) {
	var a T
	if len(args) > 0 {
		if err := json.Unmarshal(args, &a); err != nil {
			return nil, wrong("", "", "the page sent what cannot be read: "+err.Error(), "reload the page")
		}
	}
	return f(a)
}

// wrong is an error with one problem.
func wrong(where, value, reason, remedy string) error {
	return &season.InputError{Problems: []calendar.Problem{{Code: "page", Class: calendar.ClassError, Path: where, Value: value, Reason: reason, Remedy: remedy}}}
}

func problemsOf(list []calendar.Problem) []Problem {
	out := make([]Problem, 0, len(list))
	for i, p := range list {
		if i == mostProblems {
			out = append(out, Problem{Class: string(calendar.ClassWarning), Reason: say.Count(len(list)-i, "more problem"), Remedy: "mend those above first"})
			break
		}
		where := p.Path
		if p.Field != "" {
			where += " " + p.Field
		}
		out = append(out, Problem{Class: string(p.Class), Where: calendar.Inert(where), Value: calendar.Inert(p.Value),
			Reason: calendar.Inert(p.Reason), Remedy: calendar.Inert(p.Remedy)})
	}
	return out
}

// mostProblems is how many problems are shown at once.
const mostProblems = 100

// settle makes a request the one on the desk, with its plan.
func (d *Desk) settle(req *season.Request, plan *season.Plan, invented bool) {
	d.req, d.plan, d.invented = req, plan, invented
	d.draft, d.explored, d.cards = nil, nil, nil
}

// replace plans for another request; the one on the desk stays if that fails.
func (d *Desk) replace(ctx context.Context, req *season.Request, invented bool, stage Stage) (any, error) {
	return d.begin(ctx, req, invented, d.days, stage)
}

// begin is replace with what became of sessions on their day.
func (d *Desk) begin(ctx context.Context, req *season.Request, invented bool, days []DayMark, stage Stage) (any, error) {
	plan, err := d.quick(ctx, req, stage)
	if err != nil {
		return nil, err
	}
	d.days = keepDays(days, plan.Period)
	d.settle(req, plan, invented)
	return d.view(), nil
}

// quick plans without asking what stood in the way of missed aims, which takes
// longer than planning and is asked for once the plan is seen.
func (d *Desk) quick(ctx context.Context, req *season.Request, stage Stage) (*season.Plan, error) {
	stage("planning", 0, 0)
	p := d.planner
	p.Brief = true
	return p.Plan(ctx, req)
}

// explore plans in full, once.
func (d *Desk) explore(ctx context.Context, stage Stage) (*periodize.Exploration, error) {
	if d.explored == nil {
		stage("looking at other plans", 0, 0)
		p := d.planner
		p.Progress = func(done, of int) { stage("finding what stood in the way", done, of) }
		x, err := p.Explore(ctx, d.req)
		if err != nil {
			return nil, err
		}
		d.explored = x
	}
	return d.explored, nil
}
