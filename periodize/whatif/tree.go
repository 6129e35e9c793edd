package whatif

import (
	"context"
	"fmt"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// Tree plans for decisions that fall one after the other: each game of a series
// that may not be needed is known after the game before, each round of a knock-out
// after the round before, a kick-off some days ahead.
//
// Until the first decision is known all branches share their sessions; after it
// those share theirs that the next decision will part, and so on: what is planned
// before an instant is legal on every branch that is possible then. Wanted are the
// shared sessions for which the sum of the branches' points, each times its weight,
// is least. A [Fork] is the tree of one decision, and what it says holds here.
type Tree struct {
	First *Decision
	// Planner makes the plans; nil is one that leaves out what stood in the way of
	// missed aims.
	Planner *periodize.Planner
	// Workers is how many plans are made at the same time; 0 is one for each
	// processor that may be used. It changes no result.
	Workers int
	// MaxPlans bounds the work: the plans made for the tree, and as many again for
	// the price of each decision; 0 is 400. What is begun with the last of them is
	// finished.
	MaxPlans int
}

// Decision is what nobody knows until an instant: one of its outcomes.
type Decision struct {
	Known    time.Time // not before that of the decision before
	Outcomes []Outcome // at least one
}

// Outcome is a way in which a decision may fall. Its weight counts against the
// other outcomes of the decision alone, its change is made after those of the
// outcomes that lead to it.
type Outcome struct {
	Branch
	Then *Decision // what is unknown still; nil if nothing is
}

// TreePlan is the plan of a tree.
type TreePlan struct {
	Stages []Stage `json:"stages"` // one a decision; those that lead to others first
	// Branches are the ends of the tree, named by the outcomes that lead to them.
	// Their plans hold all shared sessions, as those of a fork do.
	Branches []BranchPlan `json:"branches"`
	Weight   int64        `json:"weight"` // of all branches together
	// Points are those of the branches, each times its weight; no plan that shares
	// its sessions as long as the branches cannot be told apart has fewer than Bound.
	Points int64 `json:"points"`
	Bound  int64 `json:"bound"`
	// Price is what it costs not to know the branch from the start, never negative;
	// divided by Weight it is the mean. If Proof is bounded the least price may be
	// lower by up to Points - Bound.
	Price int64        `json:"price"`
	Proof season.Proof `json:"proof"`
	Plans int          `json:"plans"` // made for this answer
}

// Stage is what is shared until a decision is known.
type Stage struct {
	Path     []string         `json:"path"`     // the outcomes that lead to it
	From     time.Time        `json:"from"`     // when the decision before is known; now for the first
	Known    time.Time        `json:"known"`    // when this one is
	Shared   []season.Session `json:"shared"`   // that start from From until Known
	Branches []int            `json:"branches"` // that share them, as indices
	Weight   int64            `json:"weight"`   // of these
	// Price is what it costs not to know this decision together with the one before
	// it, the first one at once, if all others are known when they are: points times
	// the weights of its branches. It is never negative, and never more than that of
	// the tree. The prices of decisions do not add up to that of the tree.
	Price int64 `json:"price"`
	// Proof is bounded if the price may be another, since not all plans could be
	// looked at.
	Proof season.Proof `json:"proof"`
}

const (
	maxDepth = 32
	maxSum   = 1_000_000_000 // of the weights of a tree
)

// Run plans the tree. The error is a [season.InputError] for a tree that makes no
// sense, a [VariantError] for a branch that cannot be planned, or the context's.
func (t *Tree) Run(ctx context.Context, base *season.Request) (*TreePlan, error) {
	w := newForking(t.Planner, t.Workers, t.MaxPlans)
	if base == nil {
		_, err := w.planner.Plan(ctx, nil)
		return nil, err
	}
	g, err := t.grow(w)
	if err != nil {
		return nil, err
	}
	if err := w.begin(ctx, base); err != nil {
		return nil, err
	}
	root := g.root(w.now)
	w.share(root)
	if err := w.search(ctx); err != nil {
		return nil, err
	}
	out := &TreePlan{Points: w.best.cost.points, Bound: w.bound, Proof: w.proof()}
	out.Branches, out.Weight, out.Price = w.branches()
	for _, x := range w.groups {
		s := Stage{Path: g.paths[x.number], From: w.at(x.from), Known: w.at(x.until), Shared: notNil(w.best.sessions[x.number]), Branches: x.leaves}
		for _, i := range x.leaves {
			s.Weight += w.ends[i].weight
		}
		out.Stages = append(out.Stages, s)
	}
	if err := w.prices(ctx, out); err != nil {
		return nil, err
	}
	out.Plans = w.plans
	return out, nil
}

// grower walks over the decisions of a tree.
type grower struct {
	first    *group
	paths    [][]string // of the groups, by number
	problems []calendar.Problem
	shares   []ratio // of the branches
	ends     []end
}

// ratio is a share of the whole, in lowest terms.
type ratio struct{ n, of int64 }

// grow makes groups and branches of the tree.
func (t *Tree) grow(w *forking) (*grower, error) {
	g := &grower{}
	if t.First == nil {
		g.bad("/first", "", "there is no decision", "give the first one")
	} else {
		g.first, _ = g.decide("/first", t.First, nil, nil, ratio{1, 1}, time.Time{}, 1)
	}
	if n := len(g.ends); len(g.problems) == 0 && n > maxBranches {
		g.bad("/first", fmt.Sprint(n), fmt.Sprintf("a tree has 1 to %d branches", maxBranches), "put the likest together")
	}
	if len(g.problems) == 0 && !g.weigh() {
		g.bad("/first", "", fmt.Sprintf("the weights of all branches together have no common measure below %d", maxSum), "give rounder weights, as 1 to 1 or 30 to 70")
	}
	if len(g.problems) > 0 {
		return nil, &season.InputError{Problems: g.problems}
	}
	w.ends = g.ends
	return g, nil
}

func (g *grower) bad(path, value, reason, remedy string) {
	g.problems = append(g.problems, calendar.Problem{Code: season.CodeRange, Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy})
}

// decide enters a decision. It returns its group, and its branches; the group is
// entered before those in it.
func (g *grower) decide(path string, d *Decision, names []string, changes []Change, share ratio, before time.Time, depth int) (*group, []int) {
	if depth > maxDepth {
		g.bad(path, fmt.Sprint(depth), fmt.Sprintf("a tree is at most %d decisions deep", maxDepth), "leave out what lies far ahead, or a decision that leads to itself")
		return &group{}, nil
	}
	switch {
	case !inCalendar(d.Known):
		g.bad(path+"/known", d.Known.String(), "nothing is known at this instant", "give the instant at which it is decided")
	case d.Known.Before(before):
		g.bad(path+"/known", d.Known.String(), "it is known before the decision that leads to it", "give that decision's instant or a later one")
	}
	if n := len(d.Outcomes); n < 1 || n > maxBranches {
		g.bad(path+"/outcomes", fmt.Sprint(n), fmt.Sprintf("a decision has 1 to %d outcomes", maxBranches), "give the ways in which it may fall")
		return &group{}, nil
	}
	out := &group{number: len(g.paths), until: d.Known}
	g.paths = append(g.paths, append([]string{}, names...))
	sum := int64(0)
	for i := range d.Outcomes {
		n := d.Outcomes[i].Weight
		if n < 0 || n > maxWeight {
			g.bad(fmt.Sprintf("%s/outcomes/%d/weight", path, i), fmt.Sprint(n), fmt.Sprintf("a weight is 1 to %d", maxWeight), "give how likely it is, in percent for instance")
			n = 1
		}
		sum += int64(max(n, 1))
	}
	for i := range d.Outcomes {
		if len(g.ends) > maxBranches || len(g.problems) > maxBranches {
			break // said once
		}
		o := &d.Outcomes[i]
		called := append(append([]string{}, names...), o.name(i))
		made := append(append([]Change{}, changes...), o.Change)
		part := share.times(int64(min(max(o.Weight, 1), maxWeight)), sum)
		if o.Then == nil {
			out.leaves = append(out.leaves, len(g.ends))
			g.ends = append(g.ends, end{name: strings.Join(called, ", "), change: Compose("", made...)})
			g.shares = append(g.shares, part)
			continue
		}
		kid, leaves := g.decide(fmt.Sprintf("%s/outcomes/%d/then", path, i), o.Then, called, made, part, d.Known, depth+1)
		out.leaves = append(out.leaves, leaves...)
		out.kids = append(out.kids, kid)
	}
	return out, out.leaves
}

// times multiplies a ratio. Where the numbers grow too large for any use the
// share is zero, which weigh finds.
func (r ratio) times(n, of int64) ratio {
	d := divisor(n, of)
	n, of = n/d, of/d
	d = divisor(r.n, of)
	r.n, of = r.n/d, of/d
	d = divisor(n, r.of)
	n, r.of = n/d, r.of/d
	if r.of > maxSum/of {
		return ratio{0, 1}
	}
	return ratio{r.n * n, r.of * of}
}

// divisor is the greatest one of two numbers, 1 at least.
func divisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, 1)
}

// weigh gives the branches whole weights in the proportion of their shares. It
// reports false if these would be too large.
func (g *grower) weigh() bool {
	whole := int64(1)
	for _, r := range g.shares {
		whole = whole / divisor(whole, r.of) * r.of
		if r.n == 0 || whole > maxSum {
			return false
		}
	}
	all := int64(0)
	for i, r := range g.shares {
		g.ends[i].weight = r.n * (whole / r.of)
		all = divisor(all, g.ends[i].weight)
	}
	for i := range g.ends {
		g.ends[i].weight /= all
	}
	return true
}

// root returns the first group of the tree as it is at an instant.
func (g *grower) root(now time.Time) *group {
	var settle func(x *group, from time.Time)
	settle = func(x *group, from time.Time) {
		x.from, x.until = from, latest(x.until, from)
		for _, k := range x.kids {
			settle(k, x.until)
		}
	}
	settle(g.first, now)
	return g.first
}
