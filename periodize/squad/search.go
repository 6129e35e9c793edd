package squad

import (
	"context"

	"example.org/weft/internal/columns"
	"example.org/weft/internal/starts"
)

// overPoints is what one athlete above a limit costs in the search. Nothing but a
// pin can make it worth that.
const overPoints = 100_000

// search finds the best choice of a plan for each athlete.
func (w *work) search(ctx context.Context) error {
	known := make([][]columns.Column, len(w.members))
	for i := range w.alone {
		known[i] = []columns.Column{w.alone[i]}
	}
	nodes := w.planner.Nodes
	if nodes <= 0 {
		nodes = DefaultNodes
	}
	set := w.settings()
	var err error
	w.result, err = columns.Solve(ctx, columns.Problem{
		Groups: len(w.members), Limits: w.limits, Decisive: len(w.grid.slots),
		Unit: starts.Point, Over: overPoints * starts.Point,
		Known: known, Enough: enough, Workers: w.planner.Workers, Nodes: nodes,
		Price: func(ctx context.Context, g int, prices []int64, fixed []columns.Fix) (columns.Answer, error) {
			return w.members[g].ask(ctx, prices, fixed, set)
		},
		Progress: w.progress,
	})
	if err != nil {
		return engineError(err)
	}
	return nil
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
