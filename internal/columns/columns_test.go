package columns

import (
	"context"
	"errors"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// listed is a problem whose columns are all written down.
type listed struct {
	limits []int64
	groups [][]Column
}

const unit, over = 1000, 1_000_000

func (l listed) problem() Problem {
	return Problem{
		Groups: len(l.groups), Limits: l.limits, Decisive: len(l.limits), Unit: unit, Over: over, Nodes: 100_000,
		Enough: func(cost, bound int64) bool { return bound > cost-unit }, // costs are whole units
		Price: func(_ context.Context, g int, prices []int64, fixed []Fix) (Answer, error) {
			best, low := -1, int64(math.MaxInt64)
			for i := range l.groups[g] {
				c := &l.groups[g][i]
				if !c.meets(fixed) {
					continue
				}
				n := c.Cost
				for _, u := range c.Uses {
					n += prices[u.Row] * u.N
				}
				if n < low {
					best, low = i, n
				}
			}
			if best < 0 {
				return Answer{None: true}, nil
			}
			return Answer{Columns: []Column{l.groups[g][best]}, Bound: low}, nil
		},
	}
}

// brute is the least cost of all choices.
func (l listed) brute() int64 {
	used := make([]int64, len(l.limits))
	best := int64(math.MaxInt64)
	var walk func(g int, cost int64)
	walk = func(g int, cost int64) {
		if g == len(l.groups) {
			for r, n := range used {
				cost += over * max(0, n-l.limits[r])
			}
			best = min(best, cost)
			return
		}
		for _, c := range l.groups[g] {
			for _, u := range c.Uses {
				used[u.Row] += u.N
			}
			walk(g+1, cost+c.Cost)
			for _, u := range c.Uses {
				used[u.Row] -= u.N
			}
		}
	}
	walk(0, 0)
	return best
}

func drawListed(t *rapid.T) listed {
	var l listed
	rows := rapid.IntRange(1, 5).Draw(t, "rows")
	for range rows {
		limit := int64(rapid.IntRange(0, 4).Draw(t, "limit"))
		if limit == 4 {
			limit = NoLimit
		}
		l.limits = append(l.limits, limit)
	}
	for range rapid.IntRange(1, 5).Draw(t, "groups") {
		var columns []Column
		for range rapid.IntRange(1, 7).Draw(t, "columns") {
			c := Column{Cost: unit * int64(rapid.IntRange(0, 30).Draw(t, "cost"))}
			for r := range rows {
				if rapid.IntRange(0, 2).Draw(t, "uses") > 0 {
					c.Uses = append(c.Uses, Use{r, int64(rapid.IntRange(1, 2).Draw(t, "n"))})
				}
			}
			columns = append(columns, c)
		}
		l.groups = append(l.groups, columns)
	}
	return l
}

func TestSolveAgainstEveryChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawListed(t)
		got, err := Solve(context.Background(), l.problem())
		if err != nil {
			t.Fatal(err)
		}
		want := l.brute()
		if cost := got.Cost + over*got.Over; cost != want || got.Bound > want || !got.Proved {
			t.Fatalf("cost %d bound %d proved %v, want %d", cost, got.Bound, got.Proved, want)
		}
	})
}

// TestBoundHoldsWhenCutShort: with next to no work allowed the bound is weak and
// still a bound.
func TestBoundHoldsWhenCutShort(t *testing.T) {
	short, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		all++
		l := drawListed(t)
		p := l.problem()
		p.Nodes, p.Rounds = 1, rapid.IntRange(1, 3).Draw(t, "rounds")
		got, err := Solve(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		want := l.brute()
		if got.Bound > want || got.Cost+over*got.Over < want || got.Proved != (got.Bound > got.Cost+over*got.Over-unit) {
			t.Fatalf("cost %d over %d bound %d proved %v, best %d", got.Cost, got.Over, got.Bound, got.Proved, want)
		}
		if !got.Proved {
			short++
		}
	})
	if all >= 50 && short == 0 {
		t.Error("no problem was cut short")
	}
}

func TestWorkersChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawListed(t)
		p := l.problem()
		want, err := Solve(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		for _, workers := range []int{2, 8} {
			p.Workers = workers
			got, err := Solve(context.Background(), p)
			if err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(got, want) {
				t.Fatalf("%d workers: %+v, one: %+v", workers, got, want)
			}
		}
	})
}

func TestSolveStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	l := listed{limits: []int64{1}, groups: [][]Column{{{Cost: unit, Uses: []Use{{0, 1}}}}}}
	if _, err := Solve(ctx, l.problem()); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	fault := errors.New("fault")
	p := l.problem()
	p.Price = func(context.Context, int, []int64, []Fix) (Answer, error) { return Answer{}, fault }
	if _, err := Solve(context.Background(), p); !errors.Is(err, fault) {
		t.Errorf("fault of the pricer: %v", err)
	}
	p.Price = func(context.Context, int, []int64, []Fix) (Answer, error) { return Answer{None: true}, nil }
	if _, err := Solve(context.Background(), p); err == nil {
		t.Error("a group without columns has no choice")
	}
}
