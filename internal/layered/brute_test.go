package layered

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// randomRule is an arbitrary small automaton given by a table.
type randomRule struct {
	states int
	next   map[[3]int]int
	cost   map[[3]int]int64
}

func (r randomRule) Init() uint64 { return 0 }

func (r randomRule) Step(l, o int, s uint64) (uint64, int64) {
	k := [3]int{l, o, int(s)}
	return uint64(r.next[k]), r.cost[k]
}

// largeRule is a rule that is not compiled.
type largeRule struct{ randomRule }

func (largeRule) Large()                {}
func (largeRule) Group(_, o int) uint64 { return uint64(o) }

func drawProblem(t *rapid.T, maxLayers, maxOptions, maxRules int) (Problem, [][]int64) {
	L := rapid.IntRange(1, maxLayers).Draw(t, "layers")
	var p Problem
	static := make([][]int64, L)
	for l := 0; l < L; l++ {
		n := rapid.IntRange(1, maxOptions).Draw(t, "options")
		p.Options = append(p.Options, n)
		for o := 0; o < n; o++ {
			c := rapid.Int64Range(-6, 12).Draw(t, "static")
			if c > 10 && o > 0 {
				c = Inf
			}
			static[l] = append(static[l], c)
		}
	}
	for i := rapid.IntRange(0, maxRules).Draw(t, "rules"); i > 0; i-- {
		r := randomRule{states: rapid.IntRange(1, 4).Draw(t, "states"), next: map[[3]int]int{}, cost: map[[3]int]int64{}}
		for l, n := range p.Options {
			for o := 0; o < n; o++ {
				for s := 0; s < r.states; s++ {
					k := [3]int{l, o, s}
					r.next[k] = rapid.IntRange(0, r.states-1).Draw(t, "next")
					c := rapid.Int64Range(-5, 14).Draw(t, "cost")
					if c > 11 && o > 0 {
						c = Inf
					}
					r.cost[k] = c
				}
			}
		}
		if rapid.IntRange(0, 2).Draw(t, "large") == 0 {
			for k, c := range r.cost {
				r.cost[k] = max(c, 0)
			}
			p.Rules = append(p.Rules, largeRule{r})
			continue
		}
		p.Rules = append(p.Rules, r)
	}
	return p, static
}

// bruteForce is the definition the engine is held against: the least cost of all
// plans, and those that have it, the smallest options first.
func bruteForce(p Problem, static [][]int64) (best int64, plans []Plan) {
	best = Inf
	for _, x := range everyPlan(p, static) {
		switch {
		case x.Cost < best:
			best, plans = x.Cost, []Plan{x}
		case x.Cost == best:
			plans = append(plans, x)
		}
	}
	return best, plans
}

func TestSolveAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, static := drawProblem(t, 6, 4, 4)
		want, plans := bruteForce(p, static)
		m, err := Compile(p, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		set := Settings{Beam: rapid.IntRange(1, 5).Draw(t, "beam"), Slack: rapid.Int64Range(0, 4).Draw(t, "slack")}
		got, err := m.Solve(context.Background(), static, set)
		if err != nil {
			t.Fatal(err)
		}
		if want >= Inf {
			if got.Status != Infeasible {
				t.Fatalf("status %d, want infeasible", got.Status)
			}
			return
		}
		if got.Status != Proved || got.Cost != want || got.Bound != want {
			t.Fatalf("status %d cost %d bound %d, want %d", got.Status, got.Cost, got.Bound, want)
		}
		for l, o := range plans[0].Options { // the walk finds the smallest plan first
			if got.Options[l] != o {
				t.Fatalf("options %v, want %v", got.Options, plans[0].Options)
			}
		}
	})
}

// One solver that compiles and solves problem after problem in the same memory
// gives the answers of a fresh one.
func TestSolverForgetsTheLastProblem(t *testing.T) {
	var kept Solver
	rapid.Check(t, func(t *rapid.T) {
		p, static := drawProblem(t, 6, 4, 4)
		fresh, err := Compile(p, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		want, err := fresh.Solve(context.Background(), static, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if rapid.Bool().Draw(t, "forget") {
			kept.Forget(rapid.IntRange(0, 4000).Draw(t, "bytes"))
		}
		m, err := kept.Compile(p, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if got := m.States(); !slices.Equal(got, fresh.States()) {
			t.Fatalf("states %v, want %v", got, fresh.States())
		}
		for range 2 { // a model may be solved more than once
			got, err := kept.Solve(context.Background(), m, static, Settings{})
			if err != nil {
				t.Fatal(err)
			}
			if fmt.Sprintf("%+v", got) != fmt.Sprintf("%+v", want) {
				t.Fatalf("%+v\nwant %+v", got, want)
			}
		}
	})
}

// Where the counted work runs out the answer says so: the plan is a real one of
// its cost, and the bound is none that a better plan could go below.
func TestBoundedNeverLies(t *testing.T) {
	bounded, proved := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p, static := drawProblem(t, 7, 4, 5)
		want, _ := bruteForce(p, static)
		m, err := Compile(p, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		set := Settings{Beam: 1, MaxNodes: rapid.Int64Range(1, 60).Draw(t, "nodes")}
		got, err := m.Solve(context.Background(), static, set)
		if err != nil {
			if errors.Is(err, errNoPlan) {
				return
			}
			t.Fatal(err)
		}
		switch got.Status {
		case Infeasible:
			if want < Inf {
				t.Fatalf("infeasible, but a plan costs %d", want)
			}
			return
		case Proved:
			proved++
			if got.Cost != want {
				t.Fatalf("proved %d, want %d", got.Cost, want)
			}
		case Bounded:
			bounded++
			if got.Bound > want || got.Cost < want || got.Bound >= got.Cost {
				t.Fatalf("bound %d, cost %d, the best costs %d", got.Bound, got.Cost, want)
			}
		}
		if c := planCost(p, static, got.Options); c != got.Cost {
			t.Fatalf("the plan costs %d, stated %d", c, got.Cost)
		}
	})
	t.Logf("%d bounded, %d proved", bounded, proved)
}
