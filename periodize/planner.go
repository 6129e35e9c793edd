package periodize

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"

	"example.org/weft/calendar"
	"example.org/weft/internal/history"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Engine is raised whenever the same request may give another plan.
const Engine = 1

// Planner makes plans. The zero value is ready: default rules, limits and
// catalogue. It holds no state, but memory after Reuse, and is safe for concurrent
// use.
type Planner struct {
	// MaxNodes bounds the counted work of one solve; 0 is 20 million nodes. A
	// plan that needs more is returned with proof "bounded".
	MaxNodes int64
	// Brief leaves out what stood in the way of each missed aim: for many plans
	// of which only the figures are read.
	Brief bool
	// Progress, if there is one, is told while a plan explains itself, which takes
	// longer than the plan: of how many missed aims it is known so far what stood in
	// the way. It is called between them by whoever plans, so that it delays that,
	// and by several at once if several plan. Brief plans have nothing to tell.
	Progress func(done, of int)
	// Rules are rules of your own, planned with as exactly as the built-in ones.
	// They look at the dates of the period.
	Rules []rule.Custom
	// Slots are the times of places that are shared; other places are open by
	// their hours.
	Slots []PlaceSlots

	shelf *shelf // see Reuse
}

// Plan fits sessions into what the request's calendar leaves. The request is
// not changed.
//
// The error is a *season.InputError for a request that cannot be planned, the
// context's error if it was cancelled, or a *FaultError. That no session fits is
// not an error but a plan that says why; that none may be planned is the outcome
// "refused".
func (p *Planner) Plan(ctx context.Context, req *season.Request) (*season.Plan, error) {
	w, err := p.prepare(req)
	if err != nil {
		return nil, err
	}
	if w.refused() {
		return w.refusal(), nil
	}
	w.engine = p.shelf.take()
	defer p.shelf.put(w.engine) // a plan keeps nothing of its memory
	if err := w.solve(ctx); err != nil {
		return nil, err
	}
	return w.plan(ctx)
}

// work is one request on its way to a plan.
type work struct {
	planner   *Planner
	req       season.Request // canonical
	notes     []calendar.Problem
	set       *rule.Set
	custom    []rule.Custom // of the request and of the planner
	model     *starts.Model
	reference *season.Plan
	rules     []history.Named
	engine    *layered.Solver // memory for this plan; nil if more than a plan is asked
	compiled  *layered.Model
	static    [][]int64
	solution  *layered.Solution
	slots     []starts.Slot
	states    [][]uint64 // of each rule along the plan, see track
	rest      [][]int64
	last      *stretch
	points    map[string]int64 // of the plan, by rule
	mu        sync.Mutex       // guards last, for questions
}

func (p *Planner) prepare(req *season.Request) (*work, error) {
	if req == nil {
		return nil, &season.InputError{Problems: []calendar.Problem{{Code: "request-missing", Class: calendar.ClassError,
			Reason: "there is no request", Remedy: "pass a request"}}}
	}
	w := &work{planner: p, req: req.Canonical()}
	var bad []calendar.Problem
	for _, x := range w.req.Validate() {
		if x.Class == calendar.ClassError || x.Class == calendar.ClassRefusal {
			bad = append(bad, x)
		} else {
			w.notes = append(w.notes, x)
		}
	}
	w.notes = append(w.notes, dropped(req)...)
	set, problems := rule.New(w.req.Rules)
	bad = append(bad, problems...)
	if len(bad) > 0 {
		return nil, &season.InputError{Problems: bad}
	}
	w.set = set
	newest, reference := issued(&w.req)
	w.reference = reference
	w.custom = append(rule.Club(w.req.Club), p.Rules...)
	if problems = rule.CheckCustom(w.custom); len(problems) > 0 {
		return nil, &season.InputError{Problems: problems}
	}
	w.model, problems = starts.BuildPart(&w.req, set, newest, reference, starts.Part{To: w.req.Period.Days() - 1, Custom: w.custom, Slots: timesOf(p.Slots)})
	if len(problems) == 0 {
		problems = w.model.Crowded()
	}
	if len(problems) > 0 {
		return nil, &season.InputError{Problems: problems}
	}
	return w, nil
}

// dropped says what the canonical request leaves out. The notes carry ids and no
// positions, so that they do not depend on the order of the input.
func dropped(req *season.Request) []calendar.Problem {
	var out []calendar.Problem
	for _, x := range req.Validate() {
		switch x.Code {
		case season.CodeRepeated:
			x.Path, x.Reason = "", "given more than once, used once"
		case season.CodeRevisionOld:
			x.Path, x.Reason = "", "an older revision is left out"
		case season.CodeReplaced:
			x.Path, x.Reason = "", "a newer revision is used"
		default:
			continue
		}
		out = append(out, x)
	}
	slices.SortFunc(out, func(a, b calendar.Problem) int { return cmp.Compare(a.Error(), b.Error()) })
	return slices.Compact(out)
}

// settings are the engine's limits.
func (w *work) settings() layered.Settings {
	return layered.Settings{MaxNodes: w.planner.MaxNodes}
}

func (w *work) compile() error {
	prob := layered.Problem{}
	for i := range w.model.Choices {
		prob.Options = append(prob.Options, len(w.model.Choices[i].Options))
	}
	w.rules = append(history.Rules(w.model), memories(w.model)...)
	for _, r := range w.rules {
		prob.Rules = append(prob.Rules, r.Rule)
	}
	compile := layered.Compile
	if w.engine != nil {
		compile = w.engine.Compile
	}
	var err error
	w.compiled, err = compile(prob, w.settings())
	if errors.Is(err, layered.ErrStates) {
		return tooManyStates(err)
	}
	if err != nil {
		return &FaultError{err.Error()}
	}
	w.static = w.model.Static()
	return nil
}

func (w *work) solve(ctx context.Context) error {
	if err := w.compile(); err != nil {
		return err
	}
	solve := w.compiled.Solve
	if w.engine != nil {
		solve = func(ctx context.Context, static [][]int64, set layered.Settings) (*layered.Solution, error) {
			return w.engine.Solve(ctx, w.compiled, static, set)
		}
	}
	s, err := solve(ctx, w.static, w.settings())
	if err != nil {
		return engineError(err)
	}
	if s.Status == layered.Infeasible {
		return errNoRest
	}
	w.solution = s
	w.slots = w.chosen(s.Options)
	return nil
}

var errNoRest = &FaultError{"no plan at all, though resting is always possible"}

// engineError tells cancelling from faults.
func engineError(err error) error {
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return fmt.Errorf("periodize: no plan: %w", err)
	}
	return &FaultError{err.Error()}
}

// chosen returns the slots of the options, in order of start.
func (w *work) chosen(options []int) []starts.Slot {
	var out []starts.Slot
	for i, o := range options {
		c := &w.model.Choices[i]
		for _, s := range c.Options[o] {
			out = append(out, c.Slots[s])
		}
	}
	return out
}

// split takes the engine's cost apart.
func split(cost int64) (broken, points int64) {
	broken = cost / starts.Broken
	return broken, (cost % starts.Broken) / starts.Point
}
