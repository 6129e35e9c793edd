package layered

// A graph holds every partial plan that may still be part of an answer, as the
// product of the rules composed so far. Nodes of one layer boundary stand for
// joint states; the edges of a node stand for joint groups of options.
//
// back[l][n] is exact for the composed rules: the least reduced cost from node n
// to the end. Since reduced costs of the rules left out are never negative, it
// is a lower bound for all rules together.
type graph struct {
	fore  [][]int64
	back  [][]int64
	start [][]int32 // [layer][node], one more than nodes
	group [][]int32 // [layer][edge]
	to    [][]int32
	cost  [][]int64
}

// low is the least cost of a plan in the graph, without the base.
func (g *graph) low() int64 { return g.back[0][0] }

func (g *graph) nodes() int {
	n := 0
	for _, b := range g.back {
		n += len(b)
	}
	return n
}

// first returns the best plan with the smallest options, layer by layer.
func (g *graph) first(rep [][]int32) []int {
	out := make([]int, len(g.start))
	n := int32(0)
	for l := range g.start {
		want := g.back[l][n]
		best, to := int32(-1), int32(-1)
		for e := g.start[l][n]; e < g.start[l][n+1]; e++ {
			if g.cost[l][e]+g.back[l+1][g.to[l][e]] != want {
				continue
			}
			if o := rep[l][g.group[l][e]]; best < 0 || o < best {
				best, to = o, g.to[l][e]
			}
		}
		out[l] = int(best)
		n = to
	}
	return out
}
