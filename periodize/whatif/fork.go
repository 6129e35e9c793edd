package whatif

import (
	"context"
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// Fork plans for several calendars of which one comes true, and nobody knows
// which until an instant: games of a series that may not be needed, a knock-out,
// two possible kick-offs.
//
// Until that instant all branches share their sessions, which must be legal on
// every one of them; after it each branch goes its own way. Wanted are the shared
// sessions for which the sum of the branches' points, each times its weight, is
// least. A primer or post-game session needs its game, so before the instant
// there is none for a game that is not on every branch.
//
// Sessions of plans issued before that are past are taken as done; no changes
// against those plans are counted.
type Fork struct {
	Known    time.Time // the instant at which the branch is known
	Branches []Branch  // at least one
	// Planner makes the plans; nil is one that leaves out what stood in the way of
	// missed aims.
	Planner *periodize.Planner
	// Workers is how many plans are made at the same time; 0 is one for each
	// processor that may be used. It changes no result.
	Workers int
	// MaxPlans bounds the work: the plans made for one answer; 0 is 400. What is
	// begun with the last of them is finished.
	MaxPlans int
}

// Branch is one of the calendars that may come true.
type Branch struct {
	Name   string
	Change Change // to the base request; nil changes nothing
	Weight int    // how much it counts against the others, 1 to 10,000; 0 is 1
}

// Forked is the plan of a fork.
type Forked struct {
	Known    time.Time        `json:"known"`
	Shared   []season.Session `json:"shared"` // of all branches, from now to Known
	Branches []BranchPlan     `json:"branches"`
	Weight   int64            `json:"weight"` // of all branches together
	// Points are those of the branches, each times its weight; no plan that shares
	// its sessions until Known has fewer than Bound.
	Points int64 `json:"points"`
	Bound  int64 `json:"bound"`
	// Price is what not knowing costs: Points less those of plans that knew the
	// branch from the start. It is never negative. Divided by Weight it is the mean.
	// If Proof is bounded it is the price of the shared sessions found, and the
	// least price may be lower by up to Points - Bound.
	Price int64 `json:"price"`
	// Proof is proved if no plan that shares its sessions until Known is better.
	Proof season.Proof `json:"proof"`
	Plans int          `json:"plans"` // made for this answer
}

// BranchPlan is one branch of a fork.
type BranchPlan struct {
	Name   string `json:"name"`
	Weight int64  `json:"weight"`
	// Plan holds the shared sessions and those of the branch after Known. Where it
	// differs from Knowing it is made at Known, and the shared sessions are done.
	Plan   *season.Plan `json:"plan"`
	Points int64        `json:"points"` // of Plan, as judged before Known
	// Knowing is the plan made by somebody who knew the branch from the start.
	Knowing       *season.Plan `json:"knowing"`
	KnowingPoints int64        `json:"knowingPoints"`
	Price         int64        `json:"price"` // Points - KnowingPoints, never negative
	// Broken are the limits that pins break in Plan beyond those in Knowing. Where
	// there are any, Price may be too low.
	Broken int64 `json:"broken,omitempty"`
}

const (
	maxBranches     = 64
	defaultMaxPlans = 400
	maxWeight       = 10_000
)

// Run plans the fork. The error is a [season.InputError] for a fork that makes
// no sense, a [VariantError] for a branch that cannot be planned, or the
// context's.
func (f *Fork) Run(ctx context.Context, base *season.Request) (*Forked, error) {
	w := newForking(f.Planner, f.Workers, f.MaxPlans)
	if base == nil {
		_, err := w.planner.Plan(ctx, nil)
		return nil, err
	}
	if err := f.check(); err != nil {
		return nil, err
	}
	for i := range f.Branches {
		b := &f.Branches[i]
		w.ends = append(w.ends, end{b.name(i), b.Change, int64(max(b.Weight, 1))})
	}
	if err := w.begin(ctx, base); err != nil {
		return nil, err
	}
	root := &group{from: w.now, until: latest(f.Known, w.now)}
	for i := range w.ends {
		root.leaves = append(root.leaves, i)
	}
	w.share(root)
	if err := w.search(ctx); err != nil {
		return nil, err
	}
	out := &Forked{Known: w.at(root.until), Shared: notNil(w.best.sessions[0]), Points: w.best.cost.points, Bound: w.bound, Proof: w.proof(), Plans: w.plans}
	out.Branches, out.Weight, out.Price = w.branches()
	return out, nil
}

func (b *Branch) name(i int) string {
	if b.Name != "" {
		return b.Name
	}
	return fmt.Sprintf("branch %d", i+1)
}

func (f *Fork) check() error {
	var problems []calendar.Problem
	bad := func(path, value, reason, remedy string) {
		problems = append(problems, calendar.Problem{Code: season.CodeRange, Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy})
	}
	if n := len(f.Branches); n < 1 || n > maxBranches {
		bad("/branches", fmt.Sprint(n), fmt.Sprintf("a fork has 1 to %d branches", maxBranches), "give the calendars that may come true, or put the likest together")
	}
	for i := range f.Branches {
		if n := f.Branches[i].Weight; n < 0 || n > maxWeight {
			bad(fmt.Sprintf("/branches/%d/weight", i), fmt.Sprint(n), fmt.Sprintf("a weight is 1 to %d", maxWeight), "give how likely it is, in percent for instance")
		}
	}
	if !inCalendar(f.Known) {
		bad("/known", f.Known.String(), "nothing is known at this instant", "give the instant at which the branch is decided")
	}
	if len(problems) > 0 {
		return &season.InputError{Problems: problems}
	}
	return nil
}

func inCalendar(t time.Time) bool {
	return t.Year() >= calendar.FirstYear && t.Year() <= calendar.LastYear
}

func notNil(list []season.Session) []season.Session {
	if list == nil {
		return []season.Session{}
	}
	return list
}
