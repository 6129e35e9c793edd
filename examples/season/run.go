package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// Exit codes.
const (
	exitPlanned = 0
	exitFault   = 1 // ours, or interrupted
	exitInput   = 2
	exitRefused = 3
)

type planner interface {
	Plan(context.Context, *season.Request) (*season.Plan, error)
}

// program is the command with all it touches.
type program struct {
	planner        planner
	stdin          io.Reader
	stdout, stderr io.Writer
	open           func(name string) (io.ReadCloser, error)
}

func openFile(name string) (io.ReadCloser, error) { return os.Open(name) }

func (p *program) run(ctx context.Context, args []string) int {
	opt, err := parseFlags(args, p.stderr)
	if errors.Is(err, flag.ErrHelp) {
		return exitPlanned
	}
	if err != nil {
		return exitInput
	}
	in, problems := p.load(opt)
	if failed(problems) {
		list(p.stderr, problems)
		return exitInput
	}
	more, err := p.remember(ctx, opt, in)
	if problems = append(problems, more...); failed(problems) {
		list(p.stderr, problems)
		return exitInput
	}
	var out []byte
	var plan *season.Plan
	if err == nil {
		out, plan, err = p.answer(ctx, opt, in)
	}
	var bad *season.InputError
	switch {
	case errors.As(err, &bad):
		list(p.stderr, in.places(bad.Problems, in.request.Canonical().Events)) // the planner sorts first
		return exitInput
	case ctx.Err() != nil:
		fmt.Fprintln(p.stderr, "interrupted: no plan")
		return exitFault
	case err != nil:
		fmt.Fprintln(p.stderr, "season: "+calendar.Inert(err.Error()))
		return exitFault
	}
	if err := p.write(opt.out, out); err != nil {
		fmt.Fprintln(p.stderr, "season: "+calendar.Inert(err.Error()))
		return exitFault
	}
	list(p.stderr, problems)
	p.notices(opt, problems, plan)
	if plan.Outcome == season.Refused {
		return exitRefused
	}
	return exitPlanned
}

// answer plans, and writes the plan or what was asked of it.
func (p *program) answer(ctx context.Context, opt *options, in *input) (out []byte, plan *season.Plan, err error) {
	if in.why.IsZero() {
		if plan, err = p.planner.Plan(ctx, in.request); err != nil {
			return nil, nil, err
		}
		plan.Questions = append(plan.Questions, in.asked...)
		switch {
		case opt.report:
			out, err = report(in, plan, func(r season.ClubRule) (*season.Plan, error) {
				req := *in.request
				req.Club = append(slices.Clone(req.Club), r)
				return p.planner.Plan(ctx, &req)
			})
		case !in.card.IsZero():
			out, err = p.cards(ctx, in, plan, in.card)
		case opt.cards:
			var filled season.Plan
			var cards []exercise.Card
			if filled, cards, err = fill(in, plan); err == nil {
				in.lifts = lifts(cards)
				out, err = render(opt, in, &filled)
			}
		default:
			out, err = render(opt, in, plan)
		}
		return out, plan, err
	}
	e, ok := p.planner.(explorer)
	if !ok {
		return nil, nil, errors.New("this planner answers no questions")
	}
	x, err := e.Explore(ctx, in.request)
	if err != nil {
		return nil, nil, err
	}
	out, err = p.explain(ctx, in, x, in.why)
	return out, x.Plan(), err
}

// notices prints what a reader of the output might miss: warnings, why nothing
// was planned, and questions where the format has no place for them.
func (p *program) notices(opt *options, shown []calendar.Problem, plan *season.Plan) {
	said := map[string]bool{}
	for _, x := range shown {
		said[x.Error()], said[askedText(x)] = true, true
	}
	say := func(notes []season.Note) {
		for _, n := range notes {
			if !said[n.Text] {
				fmt.Fprintf(p.stderr, "%s: %s\n", n.Class, calendar.Inert(n.Text))
			}
		}
	}
	say(plan.Refusals)
	if opt.format == "ics" {
		say(plan.Questions)
	}
	for _, n := range plan.Warnings {
		// Those of the library begin with their place and class themselves.
		if !said[n.Text] {
			fmt.Fprintln(p.stderr, calendar.Inert(n.Text))
		}
	}
}
