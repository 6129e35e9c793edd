package layered

import "errors"

var errNodes = errors.New("layered: node limit")

// ground is the graph of no rules at all: one node a layer, an edge for each
// group that some option can stand for. It is nil if a layer has none.
func (s *solver) ground() *graph {
	L := len(s.m.options)
	g := newGraph(L)
	g.fore[0] = []int64{0}
	for l := 0; l < L; l++ {
		var group, to []int32
		var cost []int64
		low := Inf
		for k, o := range s.rep[l] {
			if o < 0 {
				continue
			}
			c := s.static[l][o]
			group, to, cost = append(group, int32(k)), append(to, 0), append(cost, c)
			low = min(low, c)
		}
		if len(group) == 0 {
			return nil
		}
		g.group[l], g.to[l], g.cost[l] = group, to, cost
		g.start[l] = []int32{0, int32(len(group))}
		g.fore[l+1] = []int64{g.fore[l][0] + low}
	}
	g.back[L] = []int64{0}
	for l := L - 1; l >= 0; l-- {
		low := Inf
		for _, c := range g.cost[l] {
			low = min(low, c)
		}
		g.back[l] = []int64{low + g.back[l+1][0]}
	}
	return g
}

func newGraph(L int) *graph {
	return &graph{
		fore: make([][]int64, L+1), back: make([][]int64, L+1),
		start: make([][]int32, L), group: make([][]int32, L),
		to: make([][]int32, L), cost: make([][]int64, L),
	}
}

// compose multiplies the graph with one more rule. A node is kept only if a
// plan through it may cost at most upper: what it cost to get there, and the
// exact cost from there on without this rule, never exceed the truth. The new
// graph gets exact backward costs of its own. It is nil if nothing is left.
func (s *solver) compose(g *graph, rule int, upper int64) (*graph, error) {
	t := &s.m.rules[rule]
	L := len(s.m.options)
	ng := newGraph(L)
	ng.fore[0] = []int64{0}
	coarse := []int32{0} // node of g
	state := []int32{0}  // state of the rule
	var index []int32
	for l := 0; l < L; l++ {
		w := s.m.width[l]
		ns := t.states[l+1]
		need := len(g.back[l+1]) * ns
		if cap(index) < need {
			index = make([]int32, need)
		}
		index = index[:need]
		for i := range index {
			index[i] = -1
		}
		n := len(coarse)
		start := make([]int32, n+1)
		var group, to []int32
		var cost []int64
		var nc, nst []int32
		var nf []int64
		fore := ng.fore[l]
		gs, gg, gt, gc, gb := g.start[l], g.group[l], g.to[l], g.cost[l], g.back[l+1]
		tn, tc := t.next[l], t.cost[l]
		for i := 0; i < n; i++ {
			start[i] = int32(len(group))
			row := int(state[i]) * w
			f := fore[i]
			from, end := gs[coarse[i]], gs[coarse[i]+1]
			s.stats.Edges += int64(end - from)
			for e := from; e < end; e++ {
				k := row + int(gg[e])
				a := tn[k]
				if a < 0 {
					continue
				}
				c := gc[e] + tc[k]
				v := gt[e]
				nv := f + c
				if nv+gb[v] > upper {
					continue
				}
				at := int(v)*ns + int(a)
				j := index[at]
				if j < 0 {
					j = int32(len(nc))
					index[at] = j
					nc, nst, nf = append(nc, v), append(nst, a), append(nf, nv)
				} else if nv < nf[j] {
					nf[j] = nv
				}
				group, to, cost = append(group, gg[e]), append(to, j), append(cost, c)
			}
		}
		start[n] = int32(len(group))
		if len(nc) == 0 {
			return nil, nil
		}
		s.stats.Nodes += int64(len(nc))
		if s.stats.Nodes > s.set.maxNodes() {
			return nil, errNodes
		}
		if err := s.pulse(int64(len(group) + n)); err != nil {
			return nil, err
		}
		ng.start[l], ng.group[l], ng.to[l], ng.cost[l] = start, group, to, cost
		ng.fore[l+1] = nf
		coarse, state = nc, nst
	}
	if !ng.trim(upper) {
		return nil, nil
	}
	return ng, nil
}

// trim computes the exact backward costs and drops what lies on no plan of at
// most upper. It reports whether a plan is left.
func (g *graph) trim(upper int64) bool {
	L := len(g.start)
	back := make([]int64, len(g.fore[L]))
	g.back[L] = back
	remap := make([]int32, len(back))
	keep := int32(0)
	for i := range back {
		if g.fore[L][i] <= upper {
			remap[i] = keep
			g.fore[L][keep] = g.fore[L][i]
			keep++
		} else {
			remap[i] = -1
		}
	}
	g.fore[L], g.back[L] = g.fore[L][:keep], g.back[L][:keep]
	for l := L - 1; l >= 0; l-- {
		n := len(g.fore[l])
		nm := make([]int32, n)
		nb := make([]int64, 0, n)
		start, group, to, cost := g.start[l], g.group[l], g.to[l], g.cost[l]
		after := g.back[l+1]
		kn, ke := int32(0), int32(0)
		for i := 0; i < n; i++ {
			low := Inf
			f := g.fore[l][i]
			first := ke
			from, end := start[i], start[i+1]
			for e := from; e < end; e++ {
				j := remap[to[e]]
				if j < 0 {
					continue
				}
				c := cost[e] + after[j]
				if f+c > upper {
					continue
				}
				low = min(low, c)
				group[ke], to[ke], cost[ke] = group[e], j, cost[e]
				ke++
			}
			if ke == first {
				nm[i] = -1
				continue
			}
			nm[i] = kn
			start[kn] = first
			g.fore[l][kn] = f
			nb = append(nb, low)
			kn++
		}
		// kn <= i and ke <= e hold throughout, so rewriting in place is safe.
		start[kn] = ke
		g.start[l] = start[:kn+1]
		g.group[l], g.to[l], g.cost[l] = group[:ke], to[:ke], cost[:ke]
		g.fore[l] = g.fore[l][:kn]
		g.back[l] = nb
		remap = nm
	}
	return len(g.back[0]) > 0
}
