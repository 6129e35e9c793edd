package logbook

import "slices"

// joined lists the groups that corrections join to one, in either direction.
func (p *person) joined(g *group) []*group {
	seen := map[*group]bool{g: true}
	out := []*group{g}
	put := func(g *group) {
		if g != nil && !seen[g] {
			seen[g] = true
			out = append(out, g)
		}
	}
	for i := 0; i < len(out); i++ {
		for _, r := range out[i].records {
			put(p.groups[r.target()])
		}
		for _, r := range out[i].by {
			put(r.home)
		}
	}
	return out
}

// resolve finds what holds for groups that nothing outside them corrects.
func (p *person) resolve(part []*group) {
	for _, g := range part {
		g.found = false
		for _, r := range g.records {
			r.looped = r.target() != "" && p.loops(r)
			r.shown = false
		}
	}
	for _, g := range part {
		g.find()
	}
	for _, g := range part {
		if p.root(g) && g.state == stands && g.holds.What.Kind().Dated() {
			g.holds.shown = true
		}
	}
}

// root reports whether an id stands for itself, and does not only say what holds
// in place of another.
func (p *person) root(g *group) bool {
	return len(g.records) == 0 || slices.ContainsFunc(g.records, func(r *record) bool { return r.target() == "" || r.looped })
}

// loops reports whether what an entry corrects, and what that corrects, leads
// back to it, or on for more than MaxChain ids.
func (p *person) loops(r *record) bool {
	seen := map[*group]bool{}
	next := []*group{p.groups[r.target()]}
	for len(next) > 0 {
		g := next[0]
		next = next[1:]
		if g == nil || seen[g] {
			continue
		}
		if g == r.home || len(seen) == MaxChain {
			return true
		}
		seen[g] = true
		for _, o := range g.records {
			if t := o.target(); t != "" {
				next = append(next, p.groups[t])
			}
		}
	}
	return false
}

// find settles what holds for a group. Circles are cut, so that what it rests on
// can be found first, at most MaxChain deep.
func (g *group) find() {
	if g.found {
		return
	}
	g.found, g.holds = true, nil
	var outcomes []*record
	for _, r := range g.by {
		if r.looped {
			g.state = disputed
			return
		}
		switch r.home.find(); r.home.state {
		case disputed:
			g.state = disputed
			return
		case stands:
			outcomes = append(outcomes, r.home.holds)
		}
	}
	if len(outcomes) == 0 {
		switch len(g.records) {
		case 0:
			g.state = gone
		case 1:
			if g.state, g.holds = stands, g.records[0]; g.holds.looped {
				g.state = disputed
			}
		default:
			g.state = disputed
		}
		return
	}
	first := outcomes[0]
	for _, r := range outcomes[1:] {
		if !agree(&first.Entry, &r.Entry) {
			g.state = disputed
			return
		}
		if toldFirst(r, first) < 0 {
			first = r
		}
	}
	if g.state = stands; first.What.Kind() == OfVoid {
		g.state = gone
		return
	}
	g.holds = first
}

// agree reports whether two corrections say the same of what they correct.
func agree(a, b *Entry) bool {
	if a.What.Kind() == OfVoid || b.What.Kind() == OfVoid {
		return a.What.Kind() == b.What.Kind()
	}
	x := *b
	x.ID, x.Replaces = a.ID, a.Replaces
	return equalFacts(a, &x)
}
