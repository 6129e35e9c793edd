package layered

import "math"

// Count returns the number of plans that cost no more than the best one. It
// saturates at math.MaxUint64, which then means at least as many.
func (e *Graph) Count() uint64 {
	g := e.g
	// How many options are as cheap as the one that stands for their group.
	same := make([][]uint64, len(e.m.options))
	for l, n := range e.m.options {
		same[l] = make([]uint64, e.m.width[l])
		for o := 0; o < n; o++ {
			if e.rep[l][e.m.joint[l][o]] >= 0 && e.over(l, o) == 0 {
				same[l][e.m.joint[l][o]]++
			}
		}
	}
	ways := make([]uint64, len(g.fore))
	for i := int(g.layer[len(g.layer)-2]); i < len(ways); i++ {
		ways[i] = 1
	}
	for l := g.layers() - 1; l >= 0; l-- {
		for i := g.layer[l]; i < g.layer[l+1]; i++ {
			var n uint64
			for _, x := range g.out(i) {
				if x.cost+g.back[x.to] == g.back[i] {
					n = addUint(n, mulUint(ways[x.to], same[l][x.group]))
				}
			}
			ways[i] = n
		}
	}
	return ways[0]
}

func addUint(a, b uint64) uint64 {
	if a > math.MaxUint64-b {
		return math.MaxUint64
	}
	return a + b
}

func mulUint(a, b uint64) uint64 {
	if a != 0 && b > math.MaxUint64/a {
		return math.MaxUint64
	}
	return a * b
}
