package whatif

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"time"

	"example.org/weft/periodize/season"
)

// A policy is made from the first instant on: sessions that suggest themselves for
// the first group, judged on every branch; then, as somebody would at that instant,
// those of each group in it, of which the best by the plans after them is taken;
// and at last each branch's own plan.

// candidates makes policies of what suggests itself for the first group.
func (w *forking) candidates(ctx context.Context, plans []*season.Plan) error {
	none := make([][]season.Session, len(w.ends))
	list, err := w.suggest(ctx, w.root, none, plans, w.best == nil)
	if err != nil {
		return err
	}
	for _, sessions := range list {
		k := key(sessions)
		if w.tried[k] {
			continue
		}
		w.tried[k] = true
		s, err := w.policy(ctx, sessions)
		if err != nil {
			return err
		}
		if s != nil {
			w.take(s)
		}
	}
	return nil
}

// suggest lists sessions that a group might share: those of each branch's plan,
// those all of them have, and if all is true those of a plan that protects the
// games of all branches, and none but what people pinned, which is always allowed.
// fixed is what each branch has before.
func (w *forking) suggest(ctx context.Context, g *group, fixed [][]season.Session, plans []*season.Plan, all bool) ([][]season.Session, error) {
	var list [][]season.Session
	for _, i := range g.leaves {
		list = append(list, w.unpinned(between(plans[i], g.from, g.until)))
	}
	list = append(list, common(list))
	if all {
		p, err := w.protected(ctx, g, fixed)
		if err != nil {
			return nil, err
		}
		if p != nil {
			list = append(list, between(p, g.from, g.until))
		}
		list = append(list, pinned(between(w.first, g.from, g.until)))
	}
	var out [][]season.Session
	seen := map[string]bool{}
	for _, sessions := range list {
		if k := key(sessions); !seen[k] {
			seen[k] = true
			out = append(out, sessions)
		}
	}
	return out, nil
}

// unpinned takes the mark of a pin from sessions that no person pinned.
func (w *forking) unpinned(sessions []season.Session) []season.Session {
	for i := range sessions {
		s := &sessions[i]
		s.Pinned = s.Pinned && slices.ContainsFunc(w.base.Pins, func(p season.Pin) bool { return p.Date == s.Date })
	}
	return sessions
}

func pinned(sessions []season.Session) []season.Session {
	return slices.DeleteFunc(slices.Clone(sessions), func(s season.Session) bool { return !s.Pinned })
}

// common are the sessions that every list holds.
func common(lists [][]season.Session) []season.Session {
	count := map[string]int{}
	for _, list := range lists {
		for i := range list {
			count[key(list[i:i+1])]++
		}
	}
	var out []season.Session
	for i := range lists[0] {
		if count[key(lists[0][i:i+1])] == len(lists) {
			out = append(out, lists[0][i])
		}
	}
	return out
}

// protected plans a calendar that has the events of all branches of a group. If
// that makes no calendar there is no such plan.
func (w *forking) protected(ctx context.Context, g *group, fixed [][]season.Session) (*season.Plan, error) {
	req, ok := w.onward(&w.base, fixed[g.leaves[0]], g.from)
	if !ok {
		return nil, nil
	}
	req.Events = nil
	seen, ids := map[string]bool{}, map[string]bool{}
	for _, i := range g.leaves {
		for _, v := range w.reqs[i].Canonical().Events {
			if !v.Active() {
				continue
			}
			k := fmt.Sprintf("%q %s %s %s %v %s %v %v", v.ID, v.Kind, v.Start, v.End, v.DateOnly, v.Zone, v.Hard, v.Importance)
			if seen[k] {
				continue
			}
			seen[k] = true
			id := v.ID
			for n := 2; ids[v.ID]; n++ {
				v.ID = id + "-" + strconv.Itoa(n)
			}
			ids[v.ID] = true
			req.Events = append(req.Events, v)
		}
	}
	w.plans++
	p, err := w.planner.Plan(ctx, &req)
	if err != nil && ctx.Err() != nil {
		return nil, fmt.Errorf("whatif: fork not finished: %w", ctx.Err())
	}
	if err != nil {
		return nil, nil
	}
	return p, nil
}

// onward is a request at an instant, with sessions before it done; ok is false
// if no log can say them.
func (w *forking) onward(req *season.Request, sessions []season.Session, at time.Time) (season.Request, bool) {
	out := *req
	if !at.After(w.now) {
		return out, true
	}
	log, ok := done(sessions, w.zone)
	if !ok {
		return out, false
	}
	out.Log = append(slices.Clone(req.Log), log...)
	out.Now = at
	for i := range sessions { // one of them may still be going on
		out.Now = latest(sessions[i].End, out.Now)
	}
	return out, true
}

// after plans branches at an instant, each after its sessions before it. It returns
// nothing if no log can say them.
func (w *forking) after(ctx context.Context, branches []int, fixed [][]season.Session, at func(branch int) time.Time) ([]*season.Plan, error) {
	out := make([]*season.Plan, len(w.ends))
	var reqs []season.Request
	var which []int
	for _, i := range branches {
		if key(between(w.knowing[i], w.now, at(i))) == key(fixed[i]) {
			out[i] = w.knowing[i] // there is none better
			continue
		}
		req, ok := w.onward(&w.reqs[i], fixed[i], at(i))
		if !ok {
			return nil, nil
		}
		reqs = append(reqs, req)
		which = append(which, i)
	}
	made, err := w.each(ctx, reqs, which)
	if err != nil {
		return nil, err
	}
	for j, i := range which {
		out[i] = placed(made[j], fixed[i], at(i))
	}
	return out, nil
}

// placed returns the plan with sessions at their places, which a log does not
// hold.
func placed(p *season.Plan, fixed []season.Session, until time.Time) *season.Plan {
	out := *p
	out.Sessions = slices.Clone(p.Sessions)
	for i := range out.Sessions {
		s := &out.Sessions[i]
		for j := range fixed {
			if x := &fixed[j]; s.Start.Equal(x.Start) && s.Kind == x.Kind && s.Start.Before(until) {
				s.Place, s.Pinned = x.Place, x.Pinned
			}
		}
	}
	return &out
}

// judge tells what a branch costs with sessions until an instant and a plan from
// then on; legal is false if these break a limit, or a pin that could be obeyed.
func (w *forking) judge(ctx context.Context, branch int, sessions []season.Session, p *season.Plan, at time.Time) (points, broken int64, legal bool, err error) {
	whole := season.Plan{Sessions: slices.Clone(sessions)}
	for _, x := range p.Sessions {
		if !x.Start.Before(at) {
			whole.Sessions = append(whole.Sessions, x)
		}
	}
	e, err := w.planner.Evaluate(ctx, &w.reqs[branch], &whole)
	if err != nil || !e.Legal {
		return 0, 0, false, err
	}
	for _, pin := range w.reqs[branch].Pins {
		if w.obeyed(pin, w.knowing[branch].Sessions) && !w.obeyed(pin, whole.Sessions) {
			return 0, 0, false, nil
		}
	}
	for _, r := range e.ByRule {
		broken += r.Broken
	}
	return e.Points, broken, true, nil
}

// obeyed reports whether sessions do what a pin says.
func (w *forking) obeyed(p season.Pin, sessions []season.Session) bool {
	for i := range sessions {
		s := &sessions[i]
		if s.Date != p.Date {
			continue
		}
		if p.None {
			return false
		}
		if s.Kind == p.Kind && (p.Start == nil || w.zone.Local(s.Start).Clock == *p.Start) {
			return true
		}
	}
	return p.None
}

// policy makes a policy whose first group shares these sessions. It returns nothing
// if they are not legal on every branch.
func (w *forking) policy(ctx context.Context, first []season.Session) (*shared, error) {
	s := &shared{sessions: make([][]season.Session, len(w.groups)), points: make([]int64, len(w.ends)), broken: make([]int64, len(w.ends))}
	fixed := make([][]season.Session, len(w.ends))
	s.sessions[0] = first
	for _, i := range w.root.leaves {
		fixed[i] = first
	}
	for _, g := range w.groups[1:] { // those that hold others first
		list, err := w.chosen(ctx, g, fixed)
		if err != nil || list == nil {
			return nil, err
		}
		s.sessions[g.number] = *list
		for _, i := range g.leaves {
			fixed[i] = append(slices.Clone(fixed[i]), *list...)
		}
	}
	var err error
	if s.plans, err = w.after(ctx, w.root.leaves, fixed, w.apart); err != nil || s.plans == nil {
		return nil, err
	}
	for _, i := range w.root.leaves {
		points, broken, legal, err := w.judge(ctx, i, fixed[i], s.plans[i], w.apart(i))
		if err != nil || !legal {
			return nil, err
		}
		s.points[i], s.broken[i] = points, broken
		s.cost.broken += w.ends[i].weight * broken
		s.cost.points += w.ends[i].weight * points
	}
	return s, nil
}

// chosen returns the sessions that a group shares after fixed ones, the best of
// those that suggest themselves by what its branches cost if all were known after
// them; nil if none is legal.
func (w *forking) chosen(ctx context.Context, g *group, fixed [][]season.Session) (*[]season.Session, error) {
	if !g.until.After(g.from) {
		return &[]season.Session{}, nil
	}
	plans, err := w.after(ctx, g.leaves, fixed, func(int) time.Time { return g.from })
	if err != nil || plans == nil {
		return nil, err
	}
	list, err := w.suggest(ctx, g, fixed, plans, true)
	if err != nil {
		return nil, err
	}
	var best *[]season.Session
	var least cost
	for x := range list {
		with := slices.Clone(fixed)
		for _, i := range g.leaves {
			with[i] = append(slices.Clone(fixed[i]), list[x]...)
		}
		plans, err := w.after(ctx, g.leaves, with, func(int) time.Time { return g.until })
		if err != nil {
			return nil, err
		}
		if plans == nil {
			continue
		}
		var sum cost
		good := true
		for _, i := range g.leaves {
			points, broken, legal, err := w.judge(ctx, i, with[i], plans[i], g.until)
			if err != nil {
				return nil, err
			}
			if good = good && legal; !good {
				break
			}
			sum.broken += w.ends[i].weight * broken
			sum.points += w.ends[i].weight * points
		}
		if good && (best == nil || sum.compare(least) < 0) {
			best, least = &list[x], sum
		}
	}
	return best, nil
}
