package layered

import "errors"

var errNodes = errors.New("layered: node limit")

// maxEdges keeps edge numbers in 32 bits.
const maxEdges = 1 << 30

// ground is the graph of no rules at all: one node a layer, an edge for each
// group that some option can stand for. It reports false if a layer has none.
func (s *Solver) ground(g *graph) bool {
	L := len(s.m.options)
	g.reset()
	for l := 0; l < L; l++ {
		g.layer = append(g.layer, int32(l))
		g.edges = append(g.edges, int32(len(g.edge)))
		from := len(g.edge)
		for k, o := range s.rep[l] {
			if o >= 0 {
				g.edge = append(g.edge, edge{s.static[l][o], int32(l + 1), int32(k)})
			}
		}
		if len(g.edge) == from {
			return false
		}
	}
	g.layer = append(g.layer, int32(L), int32(L+1))
	g.edges = append(g.edges, int32(len(g.edge)), int32(len(g.edge)))
	g.fore = append(g.fore, make([]int64, L+1)...)
	g.back = append(g.back, make([]int64, L+1)...)
	for l := 0; l < L; l++ {
		low := Inf
		for _, e := range g.out(int32(l)) {
			low = min(low, e.cost)
		}
		g.fore[l+1] = g.fore[l] + low
	}
	for l := L - 1; l >= 0; l-- {
		low := Inf
		for _, e := range g.out(int32(l)) {
			low = min(low, e.cost)
		}
		g.back[l] = low + g.back[l+1]
	}
	return true
}

// compose multiplies g with one more rule into ng. A node is kept only if a plan
// through it may cost at most upper: what it cost to get there, and the exact
// cost from there on without this rule, never exceed the truth. The new graph
// gets exact backward costs of its own. It reports whether a plan is left.
func (s *Solver) compose(ng, g *graph, rule int, upper int64) (bool, error) {
	t := &s.m.rules[rule]
	L := len(s.m.options)
	ng.reset()
	ng.layer = append(ng.layer, 0)
	ng.fore = append(ng.fore, 0)
	s.coarse = append(s.coarse[:0], 0)
	s.state = append(s.state[:0], 0)
	large := s.unfoldedOf(rule)
	for l := 0; l < L; l++ {
		w := s.m.width[l]
		ns := t.states[l+1]
		base := g.layer[l+1]
		first, end := ng.layer[l], int32(len(ng.fore))
		ng.layer = append(ng.layer, end)
		var index []int32 // node of (node of g, state), plus one
		if large == nil {
			index = sized(s.index, int(g.layer[l+2]-base)*ns)
			s.index = index
			clear(index)
		} else {
			work := 0
			for i := first; i < end; i++ {
				work += len(g.out(s.coarse[i]))
			}
			s.work.rows.reset(work + 1)
		}
		tn, tc := t.next[l], t.cost[l]
		for i := first; i < end; i++ {
			ng.edges = append(ng.edges, int32(len(ng.edge)))
			row := int(s.state[i]) * w
			f := ng.fore[i]
			out := g.out(s.coarse[i])
			s.stats.Edges += int64(len(out))
			for _, e := range out {
				var a, j int32
				c := e.cost
				if large == nil {
					k := row + int(e.group)
					a = tn[k]
					c += tc[k]
				} else {
					var more int64
					a, more = large.step(l, s.state[i], e.group, w)
					c += more
				}
				nv := f + c
				if a < 0 || nv+g.back[e.to] > upper {
					continue
				}
				fresh := int32(len(ng.fore))
				if large == nil {
					at := int(e.to-base)*ns + int(a)
					if j = index[at] - 1; j < 0 {
						j = fresh
						index[at] = j + 1
					}
				} else {
					j = end + s.work.rows.find(mix(14695981039346656037, uint64(e.to), uint64(a)), int(fresh-end), func(k int32) bool {
						return s.coarse[end+k] == e.to && s.state[end+k] == a
					})
				}
				if j == fresh {
					ng.fore = append(ng.fore, nv)
					s.coarse, s.state = append(s.coarse, e.to), append(s.state, a)
				} else if nv < ng.fore[j] {
					ng.fore[j] = nv
				}
				ng.edge = append(ng.edge, edge{c, j, e.group})
			}
		}
		made := int64(len(ng.fore)) - int64(end)
		if made == 0 {
			return false, nil
		}
		s.stats.Nodes += made
		if s.stats.Nodes > s.set.maxNodes() || len(ng.edge) > maxEdges || (large != nil && large.full) {
			return false, errNodes
		}
		if err := s.pulse(int64(len(ng.edge)-int(ng.edges[first])) + made); err != nil {
			return false, err
		}
	}
	for len(ng.edges) <= len(ng.fore) {
		ng.edges = append(ng.edges, int32(len(ng.edge)))
	}
	ng.layer = append(ng.layer, int32(len(ng.fore)))
	var ok bool
	s.keep, ok = ng.trim(upper, s.keep)
	return ok, nil
}
