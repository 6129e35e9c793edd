package whatif

import (
	"cmp"
	"context"
	"fmt"
	"slices"
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
	w, err := f.begin(ctx, base)
	if err != nil {
		return nil, err
	}
	if err := w.candidates(ctx, w.knowing); err != nil {
		return nil, err
	}
	if err := w.search(ctx); err != nil {
		return nil, err
	}
	return w.answer(), nil
}

// cost is the planner's measure of several plans: limits broken by pins or the
// past first.
type cost struct{ broken, points int64 }

func (a cost) compare(b cost) int {
	return cmp.Or(cmp.Compare(a.broken, b.broken), cmp.Compare(a.points, b.points))
}

// forking is a fork at work.
type forking struct {
	fork    *Fork
	planner *periodize.Planner
	workers int
	most    int
	now     time.Time
	known   time.Time
	zone    calendar.Zone
	base    season.Request
	reqs    []season.Request // of the branches
	weights []int64
	first   *season.Plan   // of the base
	knowing []*season.Plan // of the branches
	alone   []int64        // points of these
	plans   int

	tried  map[string]bool // shared sessions looked at
	best   *shared
	bound  int64 // in points
	proved bool
}

// shared is a choice of shared sessions with the plans of the branches.
type shared struct {
	sessions []season.Session
	plans    []*season.Plan
	points   []int64
	broken   []int64
	cost     cost
}

func (f *Fork) begin(ctx context.Context, base *season.Request) (*forking, error) {
	w := &forking{fork: f, most: f.MaxPlans, tried: map[string]bool{}, known: f.Known}
	sweep := Sweep{Planner: f.Planner, Workers: f.Workers}
	w.planner, w.workers = sweep.planner(), sweep.workers()
	if w.most <= 0 {
		w.most = defaultMaxPlans
	}
	if base == nil {
		_, err := w.planner.Plan(ctx, nil)
		return nil, err
	}
	if err := f.check(); err != nil {
		return nil, err
	}
	// One plan of the base finds its problems, and what is past.
	w.plans++
	plan, err := w.planner.Plan(ctx, base)
	if err != nil {
		return nil, err
	}
	w.now, w.zone, w.first = plan.Now, base.Athlete.Zone, plan
	if w.known.Before(w.now) {
		w.known = w.now
	}
	w.base = lived(base, plan, w.now)
	for i := range f.Branches {
		b := &f.Branches[i]
		req, _, err := Apply(w.base, b.Change)
		if err != nil {
			return nil, &VariantError{i, b.name(i), err}
		}
		w.reqs = append(w.reqs, req)
		w.weights = append(w.weights, int64(max(b.Weight, 1)))
	}
	if w.knowing, err = w.each(ctx, w.reqs); err != nil {
		return nil, err
	}
	return w, w.costs(ctx)
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
	if y := f.Known.Year(); y < calendar.FirstYear || y > calendar.LastYear {
		bad("/known", f.Known.String(), "nothing is known at this instant", "give the instant at which the branch is decided")
	}
	if len(problems) > 0 {
		return &season.InputError{Problems: problems}
	}
	return nil
}

// lived returns the request with what is past of the issued plans in its log,
// and without these plans.
func lived(base *season.Request, plan *season.Plan, now time.Time) season.Request {
	req := *base
	if len(base.Issued) == 0 {
		return req
	}
	req.Issued = nil
	known := map[string]bool{}
	for _, d := range base.Log {
		if d.Session != "" {
			known[d.Session] = true
		}
	}
	last := base.Issued[len(base.Issued)-1]
	var past []season.Session
	for i := range last.Sessions { // those of the period, and those before it
		if s := last.Sessions[i]; s.Start.Before(now) && !known[s.ID] {
			past = append(past, s)
		}
	}
	log, ok := done(past, base.Athlete.Zone)
	if !ok {
		return *base
	}
	req.Log = append(slices.Clone(base.Log), log...)
	if !req.Now.IsZero() {
		for _, s := range past { // one of them may still be going on
			if s.End.After(req.Now) {
				req.Now = s.End
			}
		}
	}
	return req
}

// done makes entries of a log of sessions; ok is false if a start or an end
// stands in the second of two equal hours, which no wall time can say.
func done(sessions []season.Session, zone calendar.Zone) (log []season.Done, ok bool) {
	for i := range sessions {
		s := &sessions[i]
		d := season.Done{ID: "shared-" + s.ID, Session: s.ID, Kind: s.Kind, Start: zone.Local(s.Start), End: zone.Local(s.End), HasEnd: true, Zone: zone}
		if !zone.Resolve(d.Start).Instant.Equal(s.Start) || !zone.Resolve(d.End).Instant.Equal(s.End) {
			return nil, false
		}
		log = append(log, d)
	}
	return log, true
}

// each plans requests on the workers, in order. The first error of the list is
// returned.
func (w *forking) each(ctx context.Context, reqs []season.Request) ([]*season.Plan, error) {
	type made struct {
		plan *season.Plan
		err  error
	}
	w.plans += len(reqs)
	out := make([]*season.Plan, 0, len(reqs))
	for m := range ordered(ctx, w.workers, slices.Values(reqs), func(ctx context.Context, r season.Request) made {
		p, err := w.planner.Plan(ctx, &r)
		return made{p, err}
	}) {
		if m.err != nil {
			i := len(out) % len(w.reqs)
			return nil, &VariantError{i, w.fork.Branches[i].name(i), m.err}
		}
		out = append(out, m.plan)
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("whatif: fork not finished: %w", err)
	}
	return out, nil
}

// prefix returns the sessions of a plan from now to Known.
func (w *forking) prefix(p *season.Plan) []season.Session {
	var out []season.Session
	for i := range p.Sessions {
		if s := p.Sessions[i]; !s.Start.Before(w.now) && s.Start.Before(w.known) && s.State != season.DoneState {
			out = append(out, s)
		}
	}
	return out
}

// key names sessions by all that the planner chooses.
func key(sessions []season.Session) string {
	var b []byte
	for i := range sessions {
		s := &sessions[i]
		b = fmt.Appendf(b, "%d %d %s %q\n", s.Start.Unix(), s.End.Unix(), s.Kind, s.Place)
	}
	return string(b)
}

// answer puts the result together.
func (w *forking) answer() *Forked {
	out := &Forked{Known: w.known.In(w.zone.Location()), Shared: w.best.sessions, Points: w.best.cost.points, Plans: w.plans, Proof: season.Bounded}
	if out.Shared == nil {
		out.Shared = []season.Session{}
	}
	out.Bound = min(w.bound, out.Points)
	if w.proved {
		out.Proof = season.Proved
	}
	for i := range w.reqs {
		b := BranchPlan{Name: w.fork.Branches[i].name(i), Weight: w.weights[i], Plan: w.best.plans[i], Points: w.best.points[i],
			Knowing: w.knowing[i], KnowingPoints: w.alone[i]}
		b.Broken = w.best.broken[i] - b.Knowing.Cost.Broken
		if b.Points < b.KnowingPoints && b.Broken <= 0 {
			// Shared sessions may stand at starts that the branch alone does not consider.
			b.Knowing, b.KnowingPoints, b.Broken = b.Plan, b.Points, 0
		}
		b.Price = max(0, b.Points-b.KnowingPoints)
		out.Price += b.Price * b.Weight
		out.Weight += b.Weight
		out.Branches = append(out.Branches, b)
	}
	return out
}
