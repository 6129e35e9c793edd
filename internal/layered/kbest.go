package layered

import (
	"cmp"
	"slices"
)

// Plan is one plan of a graph.
type Plan struct {
	Options []int
	Cost    int64
}

// tail is one of the cheapest ways from a node to the end.
type tail struct {
	cost   int64
	option int32
	to     int32
	rank   int32 // which of the ways of the next node
}

// Cheapest returns up to k plans of the graph, the cheapest first, and among
// equals those with smaller options first. Only plans within the slack are there.
func (e *Graph) Cheapest(k int) []Plan {
	if k < 1 {
		return nil
	}
	g := e.g
	byGroup := e.optionsByGroup()
	ways := make([][]tail, len(g.fore))
	for i := int(g.layer[len(g.layer)-2]); i < len(ways); i++ {
		ways[i] = []tail{{option: -1}}
	}
	var all []tail
	for l := g.layers() - 1; l >= 0; l-- {
		for i := g.layer[l]; i < g.layer[l+1]; i++ {
			all = all[:0]
			for _, x := range g.out(i) {
				for _, o := range byGroup[l][x.group] {
					for rank, t := range ways[x.to] {
						c := x.cost + e.over(l, int(o)) + t.cost
						if g.fore[i]+c > g.low()+e.slack {
							break
						}
						all = append(all, tail{c, o, x.to, int32(rank)})
					}
				}
			}
			// The ways of a node are in order of cost, then options, so rank
			// orders what follows the option.
			slices.SortFunc(all, func(a, b tail) int {
				if c := cmp.Compare(a.cost, b.cost); c != 0 {
					return c
				}
				if c := cmp.Compare(a.option, b.option); c != 0 {
					return c
				}
				return cmp.Compare(a.rank, b.rank)
			})
			ways[i] = append([]tail(nil), all[:min(k, len(all))]...)
		}
	}
	var out []Plan
	for rank, t := range ways[0] {
		p := Plan{Cost: t.cost + e.m.base, Options: make([]int, g.layers())}
		n, r := int32(0), int32(rank)
		for l := range p.Options {
			t := ways[n][r]
			p.Options[l] = int(t.option)
			n, r = t.to, t.rank
		}
		out = append(out, p)
	}
	return out
}

func (e *Graph) optionsByGroup() [][][]int32 {
	out := make([][][]int32, len(e.m.options))
	for l, n := range e.m.options {
		out[l] = make([][]int32, e.m.width[l])
		for o := 0; o < n; o++ {
			k := e.m.joint[l][o]
			if e.rep[l][k] >= 0 && e.over(l, o) < Inf {
				out[l][k] = append(out[l][k], int32(o))
			}
		}
	}
	return out
}
