package layered

// A graph holds every partial plan that may still be part of an answer, as the
// product of the rules composed so far. Nodes stand for joint states after so
// many layers, edges for joint groups of options.
//
// All nodes lie in one flat list, layer boundary after layer boundary, and so do
// the edges, in the order of the nodes they leave. Lists are reused from one
// solve to the next, so that a warm solve allocates next to nothing.
//
// back is exact for the composed rules: the least reduced cost from a node to
// the end. Since reduced costs of the rules left out are never negative, it is a
// lower bound for all rules together.
type graph struct {
	layer []int32 // first node of each layer boundary, and the end
	fore  []int64
	back  []int64
	edges []int32 // first edge of each node, and the end
	edge  []edge
}

type edge struct {
	cost  int64
	to    int32
	group int32
}

func (g *graph) reset() {
	g.layer, g.fore, g.back, g.edges, g.edge = g.layer[:0], g.fore[:0], g.back[:0], g.edges[:0], g.edge[:0]
}

// layers is the number of layers, one less than the layer boundaries.
func (g *graph) layers() int { return len(g.layer) - 2 }

// low is the least cost of a plan in the graph, without the base.
func (g *graph) low() int64 { return g.back[0] }

// out returns the edges of a node.
func (g *graph) out(n int32) []edge { return g.edge[g.edges[n]:g.edges[n+1]] }

// clone copies the graph out of the reused lists.
func (g *graph) clone() *graph {
	return &graph{
		layer: append([]int32(nil), g.layer...),
		fore:  append([]int64(nil), g.fore...),
		back:  append([]int64(nil), g.back...),
		edges: append([]int32(nil), g.edges...),
		edge:  append([]edge(nil), g.edge...),
	}
}

// path returns the joint groups of the best plan with the smallest options,
// layer by layer, in the memory given.
func (g *graph) path(rep [][]int32, out []int32) []int32 {
	out = out[:0]
	n := int32(0)
	for l := 0; l < g.layers(); l++ {
		want := g.back[n]
		var best edge
		low := int32(-1)
		for _, e := range g.out(n) {
			if e.cost+g.back[e.to] != want {
				continue
			}
			if o := rep[l][e.group]; low < 0 || o < low {
				low, best = o, e
			}
		}
		out = append(out, best.group)
		n = best.to
	}
	return out
}

// first returns the best plan with the smallest options, layer by layer.
func (g *graph) first(rep [][]int32, groups []int32) []int {
	out := make([]int, len(groups))
	for l, k := range groups {
		out[l] = int(rep[l][k])
	}
	return out
}

// trim computes the exact backward costs and drops what lies on no plan of at
// most upper. It reports whether a plan is left.
func (g *graph) trim(upper int64, keep []int32) ([]int32, bool) {
	n := len(g.fore)
	if cap(keep) < n {
		keep = make([]int32, n)
	}
	keep = keep[:n]
	if cap(g.back) < n {
		g.back = make([]int64, n)
	}
	g.back = g.back[:n]
	last := g.layer[len(g.layer)-2]
	for i := n - 1; i >= 0; i-- {
		if int32(i) >= last {
			g.back[i], keep[i] = 0, 1
			continue
		}
		low := Inf
		for _, e := range g.edge[g.edges[i]:g.edges[i+1]] {
			low = min(low, e.cost+g.back[e.to])
		}
		g.back[i], keep[i] = low, 0
		if g.fore[i]+low <= upper {
			keep[i] = 1
		}
	}
	if keep[0] == 0 {
		return keep, false
	}
	// Move what is kept to the front. New numbers never exceed old ones, so the
	// lists can be rewritten in place.
	kn := int32(0)
	for i := range keep {
		if keep[i] == 0 {
			keep[i] = -1
			continue
		}
		keep[i] = kn
		kn++
	}
	ke := int32(0)
	b := 0 // layer boundary being rewritten
	for i := 0; i < n; i++ {
		for b < len(g.layer)-1 && int(g.layer[b]) == i {
			// The first kept node of the boundary is the next number given out.
			g.layer[b] = nextKept(keep, i, kn)
			b++
		}
		from, end := g.edges[i], g.edges[i+1]
		if keep[i] < 0 {
			continue
		}
		f := g.fore[i]
		g.edges[keep[i]] = ke
		for x := from; x < end; x++ {
			e := g.edge[x]
			if keep[e.to] < 0 || f+e.cost+g.back[e.to] > upper {
				continue
			}
			// back is still by old numbers here: it is moved below.
			e.to = keep[e.to]
			g.edge[ke] = e
			ke++
		}
	}
	g.layer[len(g.layer)-1] = kn
	for i := 0; i < n; i++ {
		if k := keep[i]; k >= 0 {
			g.fore[k], g.back[k] = g.fore[i], g.back[i]
		}
	}
	g.edges[kn] = ke
	g.edges, g.edge = g.edges[:kn+1], g.edge[:ke]
	g.fore, g.back = g.fore[:kn], g.back[:kn]
	return keep, true
}

func nextKept(keep []int32, i int, end int32) int32 {
	for ; i < len(keep); i++ {
		if keep[i] >= 0 {
			return keep[i]
		}
	}
	return end
}
