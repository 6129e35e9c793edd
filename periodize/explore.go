package periodize

import (
	"context"
	"errors"

	"example.org/weft/internal/judge"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// Slack is how many points dearer than the plan a choice may be for its price to
// be known at once and exactly. Dearer ones are priced by a solve of their own
// where a single one is asked for.
const Slack = 50

// Exploration holds a plan and every other plan that costs at most Slack points
// more, and answers questions about them. Many questions cost one solve. It is
// safe for concurrent use.
type Exploration struct {
	w       *work
	graph   *layered.Graph // nil if refused or bounded
	plan    *season.Plan
	verdict judge.Verdict
}

// ErrNoExploration says that a question has no answer because nothing was
// planned, or not all plans could be looked at.
var ErrNoExploration = errors.New("periodize: the plan was refused or only bounded: there is nothing to compare with")

// Explore plans as Plan does, and keeps what is needed to answer questions.
func (p *Planner) Explore(ctx context.Context, req *season.Request) (*Exploration, error) {
	w, err := p.prepare(req)
	if err != nil {
		return nil, err
	}
	x := &Exploration{w: w}
	if w.refused() {
		x.plan = w.refusal()
		return x, nil
	}
	if err := w.compile(); err != nil {
		return nil, err
	}
	set := w.settings()
	set.Slack = (Slack+1)*starts.Point - 1
	x.graph, err = w.compiled.Explore(ctx, w.static, set)
	switch {
	case errors.Is(err, layered.ErrBounded):
		x.graph = nil
		if err := w.solve(ctx); err != nil {
			return nil, err
		}
	case errors.Is(err, layered.ErrInfeasible):
		return nil, errNoRest
	case err != nil:
		return nil, engineError(err)
	default:
		best := x.graph.Best()
		w.solution = &best
		w.slots = w.chosen(best.Options)
	}
	if x.plan, err = w.plan(ctx); err != nil {
		return nil, err
	}
	x.verdict, err = verdictOf(w.model, w.slots)
	if err != nil {
		return nil, &FaultError{err.Error()}
	}
	return x, nil
}

// Plan returns the plan. It is shared: do not change it.
func (x *Exploration) Plan() *season.Plan { return x.plan }

// layer returns the layer of a date, if it lies in the period.
func (w *work) layer(day int) (int, bool) {
	at, ok := w.model.Index(day)
	return at - w.model.From, ok && at >= w.model.From && at < w.model.To
}

// pointsOf returns the points of an engine cost.
func pointsOf(cost int64) int64 {
	_, p := split(cost)
	return p
}

// difference lists the rules that cost another number of points in b than in a,
// sorted by id: what b costs more.
func difference(a, b judge.Verdict) []season.RuleCost {
	out := []season.RuleCost{}
	i, j := 0, 0
	for i < len(a.ByRule) || j < len(b.ByRule) {
		switch {
		case j == len(b.ByRule) || (i < len(a.ByRule) && a.ByRule[i].Rule < b.ByRule[j].Rule):
			out = append(out, season.RuleCost{Rule: a.ByRule[i].Rule, Points: -a.ByRule[i].Points, Broken: -a.ByRule[i].Broken - a.ByRule[i].Illegal})
			i++
		case i == len(a.ByRule) || b.ByRule[j].Rule < a.ByRule[i].Rule:
			out = append(out, season.RuleCost{Rule: b.ByRule[j].Rule, Points: b.ByRule[j].Points, Broken: b.ByRule[j].Broken + b.ByRule[j].Illegal})
			j++
		default:
			d := season.RuleCost{Rule: a.ByRule[i].Rule, Points: b.ByRule[j].Points - a.ByRule[i].Points,
				Broken: b.ByRule[j].Broken + b.ByRule[j].Illegal - a.ByRule[i].Broken - a.ByRule[i].Illegal}
			if d.Points != 0 || d.Broken != 0 {
				out = append(out, d)
			}
			i++
			j++
		}
	}
	return out
}
