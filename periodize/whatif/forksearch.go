package whatif

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// The search is branch and bound. A node pins what stands on some dates before
// Known, a kind or nothing, on all branches, and plans each branch by itself: the
// sum of their bounds is a bound of every shared choice under these pins. Where
// the branches agree on all sessions before Known, the node is solved. Else the
// last date on which they differ is pinned in all ways: seven, of which each
// shared choice obeys at least one.
//
// A date that is pinned and still differs, in its start or in a second session,
// or that of Known itself, is not split: if no other date differs, the bound of
// the node stays in the answer.

// node is a set of pins with the plans of the branches under them.
type node struct {
	pins  []season.Pin
	plans []*season.Plan
	bound cost
}

// search improves the best choice and its bound until they meet, or the work is
// done.
func (w *forking) search(ctx context.Context) error {
	open := []*node{{plans: w.knowing, bound: w.boundOf(w.knowing)}}
	var left *cost // the least bound of what could not be split
	keep := func(c cost) {
		if left == nil || c.compare(*left) < 0 {
			left = &c
		}
	}
	for len(open) > 0 && w.plans < w.most {
		n := open[0]
		if n.bound.compare(w.best.cost) >= 0 {
			break
		}
		open = open[1:]
		dates := w.differ(n.plans)
		if len(dates) == 0 {
			w.offer(n.plans)
			continue
		}
		if err := w.candidates(ctx, n.plans); err != nil {
			return err
		}
		if n.bound.compare(w.best.cost) >= 0 {
			continue
		}
		// What is just before Known differs for a reason, what is long before it often
		// by chance: then it agrees once the reason is settled.
		at := slices.IndexFunc(dates, func(d calendar.Date) bool { return w.splits(n, d) })
		if at < 0 {
			keep(n.bound)
			continue
		}
		children, err := w.split(ctx, n, dates[at])
		if err != nil {
			return err
		}
		for _, c := range children {
			at, _ := slices.BinarySearchFunc(open, c, func(a, b *node) int {
				return cmp.Or(a.bound.compare(b.bound), -1) // behind its equals
			})
			open = slices.Insert(open, at, c)
		}
	}
	bound := w.best.cost
	if len(open) > 0 && open[0].bound.compare(bound) < 0 {
		bound = open[0].bound
	}
	if left != nil && left.compare(bound) < 0 {
		bound = *left
	}
	w.bound, w.proved = bound.points, bound.compare(w.best.cost) >= 0
	return nil
}

// boundOf is the sum of the plans' bounds.
func (w *forking) boundOf(plans []*season.Plan) cost {
	var c cost
	for i, p := range plans {
		c.broken += w.weights[i] * p.Cost.Broken
		if p.Outcome == season.Refused {
			c.points += w.weights[i] * w.alone[i] // nothing may be planned: there is no other cost
		} else {
			c.points += w.weights[i] * p.Cost.Bound
		}
	}
	return c
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

// differ lists the dates before Known on which the branches' sessions are not the
// same, the last one first.
func (w *forking) differ(plans []*season.Plan) []calendar.Date {
	byDate := func(p *season.Plan) map[calendar.Date]string {
		out := map[calendar.Date]string{}
		list := w.prefix(p)
		for i := range list {
			out[list[i].Date] += key(list[i : i+1])
		}
		return out
	}
	one := byDate(plans[0])
	var out []calendar.Date
	for _, p := range plans[1:] {
		other := byDate(p)
		for d, k := range other {
			if one[d] != k {
				out = append(out, d)
			}
		}
		for d := range one {
			if _, ok := other[d]; !ok {
				out = append(out, d)
			}
		}
	}
	slices.SortFunc(out, func(a, b calendar.Date) int { return b.Compare(a) })
	return slices.Compact(out)
}

// splits reports whether a date of a node can be pinned.
func (w *forking) splits(n *node, date calendar.Date) bool {
	if !date.Before(calendar.DateOf(w.known, w.zone)) || date.Before(calendar.DateOf(w.now, w.zone)) {
		return false
	}
	on := func(p season.Pin) bool { return p.Date == date }
	return !slices.ContainsFunc(n.pins, on) && !slices.ContainsFunc(w.base.Pins, on)
}

// split pins a date of a node in all ways.
func (w *forking) split(ctx context.Context, n *node, date calendar.Date) ([]*node, error) {
	var children []*node
	var reqs []season.Request
	for _, k := range append([]season.Kind{""}, season.Kinds()...) {
		c := &node{pins: append(slices.Clone(n.pins), season.Pin{Date: date, Kind: k, None: k == ""})}
		children = append(children, c)
		for _, req := range w.reqs {
			req.Pins = append(slices.Clone(req.Pins), c.pins...)
			reqs = append(reqs, req)
		}
	}
	plans, err := w.each(ctx, reqs)
	if err != nil {
		return nil, err
	}
	var out []*node
	for i, c := range children {
		c.plans = plans[i*len(w.reqs) : (i+1)*len(w.reqs)]
		c.bound = w.boundOf(c.plans)
		legal := true
		for j, p := range c.plans { // a pin that breaks a limit on some branch
			legal = legal && p.Cost.Broken <= w.knowing[j].Cost.Broken
		}
		if legal && c.bound.compare(w.best.cost) < 0 {
			out = append(out, c)
		}
	}
	return out, nil
}

// offer takes plans that agree until Known.
func (w *forking) offer(plans []*season.Plan) {
	s := &shared{sessions: unpinned(w.prefix(plans[0]), w.base.Pins), plans: plans}
	for i, p := range plans {
		s.points, s.broken = append(s.points, p.Cost.Points), append(s.broken, p.Cost.Broken)
		s.cost.broken += w.weights[i] * p.Cost.Broken
		s.cost.points += w.weights[i] * p.Cost.Points
	}
	w.take(s)
}

func (w *forking) take(s *shared) {
	if w.best == nil || s.cost.compare(w.best.cost) < 0 {
		w.best = s
	}
}

// unpinned takes the mark of a pin from sessions that no person pinned.
func unpinned(sessions []season.Session, pins []season.Pin) []season.Session {
	for i := range sessions {
		s := &sessions[i]
		s.Pinned = s.Pinned && slices.ContainsFunc(pins, func(p season.Pin) bool { return p.Date == s.Date })
	}
	return sessions
}

// candidates looks at shared sessions that suggest themselves: those of each
// branch's plan, those all of them have, those of a plan that protects the games
// of all branches, and none but what people pinned, which is always allowed.
func (w *forking) candidates(ctx context.Context, plans []*season.Plan) error {
	var list [][]season.Session
	for _, p := range plans {
		list = append(list, unpinned(w.prefix(p), w.base.Pins))
	}
	list = append(list, common(list))
	if w.best == nil {
		if p, ok := w.protected(ctx); ok {
			list = append(list, w.prefix(p))
		}
		list = append(list, pinned(w.prefix(w.first)))
	}
	for _, sessions := range list {
		k := key(sessions)
		if w.tried[k] {
			continue
		}
		w.tried[k] = true
		s, err := w.with(ctx, sessions, plans)
		if err != nil {
			return err
		}
		if s != nil {
			w.take(s)
		}
	}
	return nil
}

func pinned(sessions []season.Session) []season.Session {
	return slices.DeleteFunc(slices.Clone(sessions), func(s season.Session) bool { return !s.Pinned })
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

// protected plans a calendar that has the events of all branches. If that makes
// no calendar there is no such plan.
func (w *forking) protected(ctx context.Context) (*season.Plan, bool) {
	req := w.base
	req.Events = nil
	seen, ids := map[string]bool{}, map[string]bool{}
	for i := range w.reqs {
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
	return p, err == nil
}

// with plans the branches after shared sessions. It returns nothing if these are
// not legal on every branch.
func (w *forking) with(ctx context.Context, sessions []season.Session, plans []*season.Plan) (*shared, error) {
	log, ok := done(sessions, w.zone)
	if !ok {
		return nil, nil
	}
	s := &shared{sessions: sessions, plans: make([]*season.Plan, len(w.reqs)), points: make([]int64, len(w.reqs)), broken: make([]int64, len(w.reqs))}
	var reqs []season.Request
	var which []int
	for i := range w.reqs {
		if key(w.prefix(w.knowing[i])) == key(sessions) {
			s.plans[i] = w.knowing[i] // there is none better
			continue
		}
		req := w.reqs[i]
		req.Log = append(slices.Clone(req.Log), log...)
		req.Now = w.known
		for j := range sessions {
			if sessions[j].End.After(req.Now) {
				req.Now = sessions[j].End
			}
		}
		reqs = append(reqs, req)
		which = append(which, i)
	}
	made, err := w.each(ctx, reqs)
	if err != nil {
		return nil, err
	}
	for j, i := range which {
		s.plans[i] = w.placed(made[j], sessions)
	}
	for i, p := range s.plans {
		whole := season.Plan{Sessions: slices.Clone(sessions)}
		for _, x := range p.Sessions {
			if !x.Start.Before(w.known) {
				whole.Sessions = append(whole.Sessions, x)
			}
		}
		e, err := w.planner.Evaluate(ctx, &w.reqs[i], &whole)
		if err != nil {
			return nil, err
		}
		if !e.Legal {
			return nil, nil
		}
		for _, pin := range w.reqs[i].Pins {
			if w.obeyed(pin, w.knowing[i].Sessions) && !w.obeyed(pin, whole.Sessions) {
				return nil, nil
			}
		}
		s.points[i] = e.Points
		for _, r := range e.ByRule {
			s.broken[i] += r.Broken
		}
		s.cost.broken += w.weights[i] * s.broken[i]
		s.cost.points += w.weights[i] * e.Points
	}
	return s, nil
}

// placed returns the plan with shared sessions at their places, which a log does
// not hold.
func (w *forking) placed(p *season.Plan, shared []season.Session) *season.Plan {
	out := *p
	out.Sessions = slices.Clone(p.Sessions)
	for i := range out.Sessions {
		s := &out.Sessions[i]
		for j := range shared {
			if x := &shared[j]; s.Start.Equal(x.Start) && s.Kind == x.Kind && s.Start.Before(w.known) {
				s.Place, s.Pinned = x.Place, x.Pinned
			}
		}
	}
	return &out
}
