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

// cost is the planner's measure of several plans: limits broken by pins or the
// past first.
type cost struct{ broken, points int64 }

func (a cost) compare(b cost) int {
	return cmp.Or(cmp.Compare(a.broken, b.broken), cmp.Compare(a.points, b.points))
}

// end is a branch: one calendar that may come true.
type end struct {
	name   string
	change Change
	weight int64
}

// group is a set of two branches or more that nobody can tell apart until an
// instant: what starts before it they share.
type group struct {
	number int       // among all groups, those that hold others first
	leaves []int     // the branches
	from   time.Time // when it was known that it is one of these
	until  time.Time
	kids   []*group
}

// forking is a fork or a tree at work.
type forking struct {
	planner *periodize.Planner
	workers int
	most    int
	now     time.Time
	zone    calendar.Zone
	base    season.Request
	ends    []end
	reqs    []season.Request // of the branches
	first   *season.Plan     // of the base
	knowing []*season.Plan   // of the branches
	alone   []int64          // points of these
	plans   int

	root   *group
	groups []*group   // all of them, by number
	path   [][]*group // that hold a branch, the largest first

	tried  map[string]bool // sessions of the first group looked at
	best   *shared
	bound  int64 // in points
	proved bool
}

// shared is a choice of shared sessions with the plans of the branches.
type shared struct {
	sessions [][]season.Session // of the groups
	plans    []*season.Plan
	points   []int64
	broken   []int64
	cost     cost
}

func newForking(planner *periodize.Planner, workers, most int) *forking {
	sweep := Sweep{Planner: planner, Workers: workers}
	w := &forking{planner: sweep.planner(), workers: sweep.workers(), most: most}
	if w.most <= 0 {
		w.most = defaultMaxPlans
	}
	return w
}

// begin plans the base, which finds its problems and what is past, and each
// branch as somebody would who knew it.
func (w *forking) begin(ctx context.Context, base *season.Request) error {
	w.plans++
	plan, err := w.planner.Plan(ctx, base)
	if err != nil {
		return err
	}
	w.now, w.zone, w.first = plan.Now, base.Athlete.Zone, plan
	w.base = lived(base, plan, w.now)
	for i, e := range w.ends {
		req, _, err := Apply(w.base, e.change)
		if err != nil {
			return &VariantError{i, e.name, err}
		}
		w.reqs = append(w.reqs, req)
	}
	all := make([]int, len(w.ends))
	for i := range all {
		all[i] = i
	}
	if w.knowing, err = w.each(ctx, w.reqs, all); err != nil {
		return err
	}
	return w.costs(ctx)
}

// share says which branches share sessions, and forgets what was found before.
func (w *forking) share(root *group) {
	w.root, w.groups, w.path = root, nil, make([][]*group, len(w.ends))
	w.tried, w.best, w.bound, w.proved = map[string]bool{}, nil, 0, false
	var enter func(g *group)
	enter = func(g *group) {
		g.number = len(w.groups)
		w.groups = append(w.groups, g)
		for _, i := range g.leaves {
			w.path[i] = append(w.path[i], g)
		}
		for _, k := range g.kids {
			enter(k)
		}
	}
	enter(root)
}

// apart is when a branch is told from all others.
func (w *forking) apart(branch int) time.Time {
	path := w.path[branch]
	return path[len(path)-1].until
}

func (w *forking) at(t time.Time) time.Time { return t.In(w.zone.Location()) }

func latest(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
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

// each plans requests of branches on the workers, in order. The first error of
// the list is returned.
func (w *forking) each(ctx context.Context, reqs []season.Request, branches []int) ([]*season.Plan, error) {
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
			i := branches[len(out)]
			return nil, &VariantError{i, w.ends[i].name, m.err}
		}
		out = append(out, m.plan)
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("whatif: fork not finished: %w", err)
	}
	return out, nil
}

// costs is what each branch's plan costs whoever knows the branch.
func (w *forking) costs(ctx context.Context) error {
	for i, p := range w.knowing {
		w.alone = append(w.alone, p.Cost.Points)
		if p.Outcome == season.Refused {
			e, err := w.planner.Evaluate(ctx, &w.reqs[i], p)
			if err != nil {
				return err
			}
			w.alone[i] = e.Points
		}
	}
	return nil
}

// between returns the sessions that a plan has from one instant to another,
// without those done.
func between(p *season.Plan, from, until time.Time) []season.Session {
	var out []season.Session
	for i := range p.Sessions {
		if s := p.Sessions[i]; !s.Start.Before(from) && s.Start.Before(until) && s.State != season.DoneState {
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

func (w *forking) proof() season.Proof {
	if w.proved {
		return season.Proved
	}
	return season.Bounded
}

// branches puts the branches of the best choice together, with their weight and
// what not knowing costs them in all.
func (w *forking) branches() (out []BranchPlan, weight, price int64) {
	for i, e := range w.ends {
		b := BranchPlan{Name: e.name, Weight: e.weight, Plan: w.best.plans[i], Points: w.best.points[i],
			Knowing: w.knowing[i], KnowingPoints: w.alone[i]}
		b.Broken = w.best.broken[i] - b.Knowing.Cost.Broken
		if b.Points < b.KnowingPoints && b.Broken <= 0 {
			// Shared sessions may stand at starts that the branch alone does not consider.
			b.Knowing, b.KnowingPoints, b.Broken = b.Plan, b.Points, 0
		}
		b.Price = max(0, b.Points-b.KnowingPoints)
		price += b.Price * b.Weight
		weight += b.Weight
		out = append(out, b)
	}
	return out, weight, price
}
