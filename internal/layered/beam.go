package layered

import "sort"

// beamPlan is a plan found by the beam: an upper bound, never called optimal.
type beamPlan struct {
	cost   int64 // reduced, without the base
	groups []int32
	byRule []int64 // what each rule charged, base included; zero where composed
}

type beamNode struct {
	cost   int64
	guess  int64 // cost and the least that must follow
	node   int32 // of the graph
	parent int32 // index in the layer before
	group  int32
}

// beam walks the graph forward with the rules that are left beside it, keeping
// the most promising few nodes of each layer. It returns nil if all of them run
// into dead ends.
func (s *solver) beam(g *graph, left []int) (*beamPlan, error) {
	m := s.m
	k := len(left)
	width := s.set.beam()
	L := len(m.options)
	layers := make([][]beamNode, L+1)
	layers[0] = []beamNode{{guess: g.back[0][0]}}
	states := make([]int32, k)
	var next []beamNode
	var nextStates []int32
	var rows grouping
	row := make([]int32, k)
	var pick []int32
	for l := 0; l < L; l++ {
		next, nextStates = next[:0], nextStates[:0]
		w := m.width[l]
		work := 0
		for _, b := range layers[l] {
			work += int(g.start[l][b.node+1] - g.start[l][b.node])
		}
		rows.reset(work + 1)
		s.stats.BeamWork += int64(work)
		if err := s.pulse(int64(work * (k + 1))); err != nil {
			return nil, err
		}
		for bi, b := range layers[l] {
			from := states[bi*k : bi*k+k]
		edges:
			for e := g.start[l][b.node]; e < g.start[l][b.node+1]; e++ {
				grp := g.group[l][e]
				c := b.cost + g.cost[l][e]
				h := mix(14695981039346656037, uint64(g.to[l][e]), 0)
				for x, i := range left {
					t := &m.rules[i]
					at := int(from[x])*w + int(grp)
					a := t.next[l][at]
					if a < 0 {
						continue edges
					}
					c += t.cost[l][at]
					row[x] = a
					h = mix(h, uint64(a), uint64(x))
				}
				nb := beamNode{cost: c, guess: c + g.back[l+1][g.to[l][e]], node: g.to[l][e], parent: int32(bi), group: grp}
				j := rows.find(h, len(next), func(j int32) bool {
					if next[j].node != nb.node {
						return false
					}
					for x, a := range nextStates[int(j)*k : int(j)*k+k] {
						if row[x] != a {
							return false
						}
					}
					return true
				})
				if int(j) == len(next) {
					next = append(next, nb)
					nextStates = append(nextStates, row...)
				} else if nb.cost < next[j].cost {
					next[j] = nb
				}
			}
		}
		if len(next) == 0 {
			return nil, nil
		}
		pick = pick[:0]
		for i := range next {
			pick = append(pick, int32(i))
		}
		if len(pick) > width {
			sort.Slice(pick, func(a, b int) bool {
				x, y := &next[pick[a]], &next[pick[b]]
				if x.guess != y.guess {
					return x.guess < y.guess
				}
				return pick[a] < pick[b]
			})
			pick = pick[:width]
		}
		kept := make([]beamNode, len(pick))
		ks := make([]int32, len(pick)*k)
		for i, p := range pick {
			kept[i] = next[p]
			copy(ks[i*k:], nextStates[int(p)*k:int(p)*k+k])
		}
		layers[l+1], states = kept, ks
	}
	best := int32(0)
	for i, b := range layers[L] {
		if b.cost < layers[L][best].cost {
			best = int32(i)
		}
	}
	plan := &beamPlan{cost: layers[L][best].cost, groups: make([]int32, L), byRule: make([]int64, len(m.rules))}
	for l, at := L, best; l > 0; l-- {
		b := layers[l][at]
		plan.groups[l-1] = b.group
		at = b.parent
	}
	for _, i := range left {
		t := &m.rules[i]
		c, st := t.base, 0
		for l, grp := range plan.groups {
			x := st*m.width[l] + int(grp)
			c += t.cost[l][x]
			st = int(t.next[l][x])
		}
		plan.byRule[i] = c
	}
	return plan, nil
}
