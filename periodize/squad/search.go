package squad

import (
	"context"

	"example.org/weft/internal/columns"
	"example.org/weft/internal/starts"
)

// overPoints is what one athlete above a limit costs in the search. Nothing but a
// pin can make it worth that.
const overPoints = 100_000

// The work allowed for what decides among plans with equal points.
const (
	polishNodes  = 2
	polishRounds = 60
)

// search finds the best choice of a plan for each athlete: first by points, with a
// proof, then again among what is as good, with each slot labelled for one kind.
func (w *work) search(ctx context.Context) error {
	p := w.problem()
	p.Known = make([][]columns.Column, len(w.members))
	for i := range w.alone {
		p.Known[i] = []columns.Column{w.alone[i]}
	}
	if p.Nodes = w.planner.Nodes; p.Nodes <= 0 {
		p.Nodes = DefaultNodes
		if w.req.Issued != nil {
			p.Nodes = ReplanNodes
		}
	}
	first, err := columns.Solve(ctx, p)
	if err != nil {
		return engineError(err)
	}
	w.result, w.prices = first, first.Prices
	return w.polish(ctx, first)
}

// polish solves again with labels.
func (w *work) polish(ctx context.Context, first *columns.Result) error {
	p := w.problem()
	p.Nodes, p.Rounds, p.Start, p.Near, p.Brief = polishNodes, polishRounds, first.Prices, nearTies, true
	p.Enough = func(cost, bound int64) bool { return cost-bound <= nearTies }
	x := w.labelsFor(first.Chosen)
	p.Known = make([][]columns.Column, len(w.members))
	for i, m := range w.members {
		p.Known[i] = m.wear(x, first.Pool[i])
	}
	var was int64 // what the first choice costs with labels
	for i, m := range w.members {
		was += first.Chosen[i].Cost
		for l, o := range first.Chosen[i].Plan {
			was += x.cost(m, l, o)
		}
	}
	next, err := columns.Solve(ctx, p)
	if err != nil {
		return engineError(err)
	}
	switch {
	case next.Over > first.Over:
		return nil
	case w.req.KindPoints == 0 && points(next) > points(first):
		return nil
	case w.req.KindPoints > 0 && next.Cost > was:
		return nil
	}
	next.Bound = first.Bound
	next.Stats.Nodes += first.Stats.Nodes
	next.Stats.Rounds += first.Stats.Rounds
	w.result = next
	return nil
}

// nearTies is when ties are proved well enough: less than a step of the line.
const nearTies = 4

func (w *work) problem() columns.Problem {
	set := w.settings()
	return columns.Problem{
		Groups: len(w.members), Limits: w.binding(), Decisive: len(w.grid.slots),
		Unit: starts.Point, Over: overPoints * starts.Point, Enough: enough, Workers: w.planner.Workers,
		Price: func(ctx context.Context, g int, prices []int64, fixed []columns.Fix) (columns.Answer, error) {
			return w.members[g].ask(ctx, prices, fixed, set)
		},
		Progress: w.progress,
	}
}

// enough reports whether no choice has fewer points: ties weigh less than half a
// point together.
func enough(cost, bound int64) bool { return boundPoints(bound) >= cost/starts.Point }

// boundPoints is the least number of points of a choice whose cost with ties is
// at least a bound: the points are whole, and at least the bound less all ties.
func boundPoints(bound int64) int64 {
	bound -= tieBudget + labelBudget
	if bound < 0 {
		return 0
	}
	return (bound + starts.Point - 1) / starts.Point
}

func (w *work) progress(s columns.Stats, cost, bound int64) {
	if w.planner.Progress == nil {
		return
	}
	p := Progress{Rounds: s.Rounds, Nodes: s.Nodes, Bound: boundPoints(bound)}
	if cost < overPoints*starts.Point {
		p.Points = cost / starts.Point
	}
	w.planner.Progress(p)
}
