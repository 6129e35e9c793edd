package layered

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// everyPlan lists all plans with their costs, by walking them.
func everyPlan(p Problem, static [][]int64) []Plan {
	var out []Plan
	states := make([]uint64, len(p.Rules))
	for i, r := range p.Rules {
		states[i] = r.Init()
	}
	var walk func(l int, cost int64, states []uint64, plan []int)
	walk = func(l int, cost int64, states []uint64, plan []int) {
		if l == len(p.Options) {
			out = append(out, Plan{slices.Clone(plan), cost})
			return
		}
		for o := 0; o < p.Options[l]; o++ {
			c := add(cost, static[l][o])
			after := make([]uint64, len(states))
			for i, r := range p.Rules {
				n, rc := r.Step(l, o, states[i])
				after[i] = n
				c = add(c, rc)
			}
			if c < Inf {
				walk(l+1, c, after, append(plan, o))
			}
		}
	}
	walk(0, 0, states, nil)
	return out
}

func TestQueriesAgainstEveryPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, static := drawProblem(t, 5, 4, 3)
		plans := everyPlan(p, static)
		m, err := Compile(p, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		slack := rapid.Int64Range(0, 9).Draw(t, "slack")
		e, err := m.Explore(context.Background(), static, Settings{Slack: slack, Beam: rapid.IntRange(1, 4).Draw(t, "beam")})
		if len(plans) == 0 {
			if err != ErrInfeasible {
				t.Fatalf("error %v, want infeasible", err)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		slices.SortStableFunc(plans, func(a, b Plan) int {
			if a.Cost != b.Cost {
				return int(a.Cost - b.Cost)
			}
			return slices.Compare(a.Options, b.Options)
		})
		low := plans[0].Cost
		var within []Plan
		best := uint64(0)
		for _, x := range plans {
			if x.Cost == low {
				best++
			}
			if x.Cost <= low+slack {
				within = append(within, x)
			}
		}
		if got := e.Count(); got != best {
			t.Fatalf("count %d, want %d", got, best)
		}
		for l, n := range p.Options {
			extra, exact := e.Prices(l)
			for o := 0; o < n; o++ {
				want := Inf
				for _, x := range plans {
					if x.Options[l] == o {
						want = min(want, x.Cost-low)
					}
				}
				if exact[o] != (want <= slack) || (exact[o] && extra[o] != want) || (!exact[o] && extra[o] > want) {
					t.Fatalf("layer %d option %d: price %d exact %v, want %d", l, o, extra[o], exact[o], want)
				}
				if through, ok := e.Through(l, o); ok != (want <= slack) || (ok && (through.Options[l] != o || planCost(p, static, through.Options) != through.Cost || through.Cost-low != want)) {
					t.Fatalf("layer %d option %d: plan through it %v %v, want %d", l, o, through, ok, want)
				}
				forced, err := m.Force(context.Background(), static, Settings{}, l, o)
				if err != nil {
					t.Fatal(err)
				}
				if (want >= Inf) != (forced.Status == Infeasible) || (want < Inf && forced.Cost-low != want) {
					t.Fatalf("layer %d option %d: forced %d, want %d", l, o, forced.Cost-low, want)
				}
			}
		}
		k := rapid.IntRange(1, 12).Draw(t, "k")
		got := e.Cheapest(k)
		want := within[:min(k, len(within))]
		if len(got) != len(want) {
			t.Fatalf("%d plans, want %d", len(got), len(want))
		}
		for i := range got {
			if got[i].Cost != want[i].Cost || !slices.Equal(got[i].Options, want[i].Options) {
				t.Fatalf("plan %d: %v, want %v", i, got[i], want[i])
			}
		}
		differ := func(l, o int) int {
			if o == plans[0].Options[l] {
				return 0
			}
			return 1 + o%2
		}
		apart, cost := -1, Inf
		for _, x := range within {
			d := 0
			for l, o := range x.Options {
				d += differ(l, o)
			}
			if d > apart || (d == apart && x.Cost < cost) {
				apart, cost = d, x.Cost
			}
		}
		other, d := e.Different(differ)
		if d != apart || other.Cost != cost {
			t.Fatalf("most different: %d apart at %d, want %d at %d", d, other.Cost, apart, cost)
		}
	})
}

// planCost adds up one plan from the definitions.
func planCost(p Problem, static [][]int64, options []int) int64 {
	var c int64
	for l, o := range options {
		c = add(c, static[l][o])
	}
	for _, r := range p.Rules {
		s := r.Init()
		for l, o := range options {
			n, rc := r.Step(l, o, s)
			s, c = n, add(c, rc)
		}
	}
	return c
}

// wrongGroups says that all options are the same.
type wrongGroups struct{ randomRule }

func (wrongGroups) Group(int, int) uint64 { return 0 }

func TestCheckGroupsFindsAFalseHint(t *testing.T) {
	r := wrongGroups{randomRule{states: 1, next: map[[3]int]int{}, cost: map[[3]int]int64{{1, 1, 0}: 3}}}
	if err := CheckGroups([]int{2, 2}, r, 10); err == nil {
		t.Error("options of different cost in one group were let through")
	}
	if err := CheckGroups([]int{2, 1}, r, 10); err != nil {
		t.Error(err)
	}
}
