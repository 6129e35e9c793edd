package whatif

import (
	"cmp"
	"context"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// The search is branch and bound. A node pins what stands on some dates, a kind or
// nothing, on all branches of a group that shares the date, and plans each branch
// by itself: the sum of their bounds is a bound of every shared choice under these
// pins. Where the branches of every group agree on all sessions they share, the
// node is solved. Else a date on which they differ is pinned in all ways: seven,
// of which each shared choice obeys at least one.
//
// A date that is pinned and still differs, in its start or in a second session,
// or that of the instant itself, is not split: if no other date differs, the bound
// of the node stays in the answer.

// node is a set of pins with the plans of the branches under them.
type node struct {
	pins  [][]season.Pin // of each branch
	plans []*season.Plan
	bound cost
}

// place is a date of a group.
type place struct {
	group *group
	date  calendar.Date
}

// search improves the best choice and its bound until they meet, or the work is
// done.
func (w *forking) search(ctx context.Context) error {
	if err := w.candidates(ctx, w.knowing); err != nil {
		return err
	}
	if w.best == nil {
		return &season.InputError{Problems: []calendar.Problem{{Code: season.CodeRange, Class: calendar.ClassError, Path: "/pins",
			Reason: "what is pinned before the branch is known is in the way of another pin, or in an hour that comes twice", Remedy: "pin it otherwise, or leave it out"}}}
	}
	open := []*node{{pins: make([][]season.Pin, len(w.ends)), plans: w.knowing, bound: w.boundOf(w.knowing)}}
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
		differ := w.differ(n.plans)
		if len(differ) == 0 {
			w.offer(n.plans)
			continue
		}
		if err := w.candidates(ctx, n.plans); err != nil {
			return err
		}
		if n.bound.compare(w.best.cost) >= 0 {
			continue
		}
		at := slices.IndexFunc(differ, func(p place) bool { return w.splits(n, p) })
		if at < 0 {
			keep(n.bound)
			continue
		}
		children, err := w.split(ctx, n, differ[at])
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
	w.bound, w.proved = min(bound.points, w.best.cost.points), bound.compare(w.best.cost) >= 0
	return nil
}

// boundOf is the sum of the plans' bounds.
func (w *forking) boundOf(plans []*season.Plan) cost {
	var c cost
	for _, i := range w.root.leaves {
		p := plans[i]
		c.broken += w.ends[i].weight * p.Cost.Broken
		if p.Outcome == season.Refused {
			c.points += w.ends[i].weight * w.alone[i] // nothing may be planned: there is no other cost
		} else {
			c.points += w.ends[i].weight * p.Cost.Bound
		}
	}
	return c
}

// differ lists the dates on which the branches of a group do not have the same
// sessions before it is known which it is. The groups that are told apart first
// come first, and of each the last date: what is just before the instant differs
// for a reason, what is long before it often by chance, and then it agrees once
// the reason is settled.
func (w *forking) differ(plans []*season.Plan) []place {
	var out []place
	for _, g := range w.groups {
		byDate := func(i int) map[calendar.Date]string {
			out := map[calendar.Date]string{}
			list := between(plans[i], g.from, g.until)
			for j := range list {
				out[list[j].Date] += key(list[j : j+1])
			}
			return out
		}
		one := byDate(g.leaves[0])
		var dates []calendar.Date
		for _, i := range g.leaves[1:] {
			other := byDate(i)
			for d, k := range other {
				if one[d] != k {
					dates = append(dates, d)
				}
			}
			for d := range one {
				if _, ok := other[d]; !ok {
					dates = append(dates, d)
				}
			}
		}
		slices.SortFunc(dates, func(a, b calendar.Date) int { return b.Compare(a) })
		for _, d := range slices.Compact(dates) {
			out = append(out, place{g, d})
		}
	}
	return out
}

// splits reports whether a date of a node can be pinned for a group: the branches
// share it to its end.
func (w *forking) splits(n *node, p place) bool {
	if !p.date.Before(calendar.DateOf(p.group.until, w.zone)) || p.date.Before(calendar.DateOf(w.now, w.zone)) {
		return false
	}
	on := func(x season.Pin) bool { return x.Date == p.date }
	return !slices.ContainsFunc(n.pins[p.group.leaves[0]], on) && !slices.ContainsFunc(w.base.Pins, on)
}

// split pins a date of a group in all ways.
func (w *forking) split(ctx context.Context, n *node, p place) ([]*node, error) {
	var children []*node
	var reqs []season.Request
	var branches []int
	for _, k := range append([]season.Kind{""}, season.Kinds()...) {
		c := &node{pins: slices.Clone(n.pins), plans: slices.Clone(n.plans)}
		children = append(children, c)
		for _, i := range p.group.leaves {
			c.pins[i] = append(slices.Clone(c.pins[i]), season.Pin{Date: p.date, Kind: k, None: k == ""})
			req := w.reqs[i]
			req.Pins = append(slices.Clone(req.Pins), c.pins[i]...)
			reqs = append(reqs, req)
			branches = append(branches, i)
		}
	}
	plans, err := w.each(ctx, reqs, branches)
	if err != nil {
		return nil, err
	}
	var out []*node
	for n, c := range children {
		legal := true
		for j, i := range p.group.leaves {
			c.plans[i] = plans[n*len(p.group.leaves)+j]
			// A pin that breaks a limit on some branch is no way.
			legal = legal && c.plans[i].Cost.Broken <= w.knowing[i].Cost.Broken
		}
		c.bound = w.boundOf(c.plans)
		if legal && c.bound.compare(w.best.cost) < 0 {
			out = append(out, c)
		}
	}
	return out, nil
}

// offer takes plans of which every group agrees.
func (w *forking) offer(plans []*season.Plan) {
	s := &shared{plans: plans, points: make([]int64, len(plans)), broken: make([]int64, len(plans))}
	for _, g := range w.groups {
		s.sessions = append(s.sessions, w.unpinned(between(plans[g.leaves[0]], g.from, g.until)))
	}
	for _, i := range w.root.leaves {
		s.points[i], s.broken[i] = plans[i].Cost.Points, plans[i].Cost.Broken
		s.cost.broken += w.ends[i].weight * s.broken[i]
		s.cost.points += w.ends[i].weight * s.points[i]
	}
	w.take(s)
}

func (w *forking) take(s *shared) {
	if w.best == nil || s.cost.compare(w.best.cost) < 0 {
		w.best = s
	}
}
