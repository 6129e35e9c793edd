package columns

import "context"

// Use is how much of a row a column takes.
type Use struct {
	Row int
	N   int64 // 1 or more
}

// Column is one thing a group can choose. Plan is for the caller and is handed
// back as it is.
type Column struct {
	Cost int64
	Uses []Use // by row, each row once
	Plan []int
}

// Fix is a demand on the columns of a group: that they use a row, or do not.
type Fix struct {
	Row int
	On  bool
}

// Answer is what a Pricer knows of a group: columns that are cheap at the prices,
// and a lower bound on cost plus price times use over all its columns. None says
// that no column meets the demands.
type Answer struct {
	Columns []Column
	Bound   int64
	None    bool
}

// Pricer answers for one group. It is called from several goroutines, for
// different groups at the same time and never for one. The answer must be a pure
// function of the arguments.
type Pricer func(ctx context.Context, group int, prices []int64, fixed []Fix) (Answer, error)

// Problem is the choice of one column from each group.
type Problem struct {
	Groups int
	Limits []int64 // of each row, 0 or more; NoLimit or more leaves it out
	// Decisive rows come first: which of them a column uses settles what it uses
	// of the others. Search branches on them.
	Decisive int
	// Unit is what the linear program counts as one; 0 is 1.
	Unit int64
	// Near is how close bound and linear program have to come at a node; 0 is a
	// thousandth of Unit.
	Near int64
	// Over is the cost of one more than a limit.
	Over  int64
	Price Pricer
	// Known are columns of each group to begin with, and Start prices; may be nil.
	Known [][]Column
	Start []int64
	// Enough reports whether a cost is proved well enough by a bound; nil asks for
	// equality.
	Enough func(cost, bound int64) bool
	// Workers is how many groups are priced at the same time; 0 is 1. It changes
	// no answer.
	Workers int
	// Nodes is the most nodes of the search, 0 is DefaultNodes; Rounds the most
	// rounds of pricing at the first of them, 0 is DefaultRounds.
	Nodes, Rounds int
	// Brief leaves out the repair of good choices piece by piece.
	Brief bool
	// Progress is told of each round of pricing; may be nil.
	Progress func(Stats, int64, int64)
}

// NoLimit is the limit of a row that never binds: the linear program has no such row.
const NoLimit = 1 << 52

// The work that is allowed if nothing else is said.
const (
	DefaultNodes  = 120
	DefaultRounds = 400
)

// Result is the best choice found.
type Result struct {
	Chosen []Column
	Cost   int64      // of the columns, without what is over
	Over   int64      // units above the limits
	Bound  int64      // no choice has a smaller cost plus Over
	Prices []int64    // of the best bound at the first node
	Pool   [][]Column // every column that was seen
	Proved bool       // Enough was satisfied
	Stats  Stats
}

// Stats count the work.
type Stats struct {
	Nodes, Rounds, Priced, Columns, Pivots int
}

func (p *Problem) unit() float64 { return float64(max(p.Unit, 1)) }

func (p *Problem) near() float64 {
	if p.Near > 0 {
		return float64(p.Near) / p.unit()
	}
	return 1e-3
}

func (p *Problem) enough(cost, bound int64) bool {
	if p.Enough == nil {
		return bound >= cost
	}
	return p.Enough(cost, bound)
}

// total is the cost of a choice, and the units above the limits.
func (p *Problem) total(chosen []*Column) (cost, over int64) {
	used := make([]int64, len(p.Limits))
	for _, c := range chosen {
		cost += c.Cost
		for _, u := range c.Uses {
			used[u.Row] += u.N
		}
	}
	for r, n := range used {
		over += max(0, n-p.Limits[r])
	}
	return cost, over
}

// uses returns how much of a row a column takes.
func (c *Column) uses(row int) int64 {
	for _, u := range c.Uses {
		if u.Row == row {
			return u.N
		}
	}
	return 0
}

// meets reports whether a column satisfies demands.
func (c *Column) meets(fixed []Fix) bool {
	for _, f := range fixed {
		if (c.uses(f.Row) > 0) != f.On {
			return false
		}
	}
	return true
}
