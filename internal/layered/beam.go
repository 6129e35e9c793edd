package layered

import (
	"cmp"
	"slices"
)

// beamPlan is a plan found by the beam: an upper bound, never called optimal.
type beamPlan struct {
	cost   int64 // reduced, without the base
	groups []int32
}

type beamNode struct {
	cost   int64
	guess  int64 // cost and the least that must follow
	node   int32 // of the graph
	parent int32 // index among the kept nodes
	group  int32
}

// beamWork is what a beam reuses.
type beamWork struct {
	kept   []beamNode // of all layers
	first  []int32    // of each layer boundary in kept
	next   []beamNode
	after  []int32 // states of next
	states []int32 // states of the kept nodes of the last layer
	row    []int32
	pick   []int32
	rows   grouping
}

// before orders the candidates of a layer: by guess, then as they were found.
func (b *beamWork) before(x, y int32) bool {
	if gx, gy := b.next[x].guess, b.next[y].guess; gx != gy {
		return gx < gy
	}
	return x < y
}

// choose moves the best n candidates to the front of pick, in no order, by
// partition around a middle one until n is a border.
func (b *beamWork) choose(n int) {
	lo, hi := 0, len(b.pick)
	for hi-lo > 1 {
		p := b.pick
		mid := p[(lo+hi)/2]
		i, j := lo, hi-1
		for i <= j {
			for b.before(p[i], mid) {
				i++
			}
			for b.before(mid, p[j]) {
				j--
			}
			if i <= j {
				p[i], p[j] = p[j], p[i]
				i++
				j--
			}
		}
		switch {
		case n <= j:
			hi = j + 1
		case n >= i:
			lo = i
		default:
			return
		}
	}
}

// beam walks the graph forward with the rules that are left beside it, keeping
// the most promising few nodes of each layer. It reports false if all of them
// run into dead ends; else plan is filled.
//
// What cannot cost less than upper is not followed.
func (s *Solver) beam(g *graph, left []int, upper int64, plan *beamPlan) (bool, error) {
	m := s.m
	k := len(left)
	width := s.set.beam()
	L := len(m.options)
	b := &s.work
	b.kept = append(b.kept[:0], beamNode{guess: g.back[0]})
	b.first = append(b.first[:0], 0)
	b.states = append(b.states[:0], make([]int32, k)...)
	if cap(b.row) < k {
		b.row = make([]int32, k)
	}
	row := b.row[:k]
	for l := 0; l < L; l++ {
		b.next, b.after = b.next[:0], b.after[:0]
		w := m.width[l]
		layer := b.kept[b.first[l]:]
		work := 0
		for i := range layer {
			work += len(g.out(layer[i].node))
		}
		b.rows.reset(work + 1)
		s.stats.BeamWork += int64(work)
		if err := s.pulse(int64(work * (k + 1))); err != nil {
			return false, err
		}
		for bi := range layer {
			n := layer[bi]
			from := b.states[bi*k : bi*k+k]
		edges:
			for _, e := range g.out(n.node) {
				c := n.cost + e.cost
				room := upper - g.back[e.to]
				if c >= room {
					continue
				}
				h := mix(14695981039346656037, uint64(e.to), 0)
				for x, i := range left {
					t := &m.rules[i]
					var a int32
					var more int64
					if t.large == nil {
						at := int(from[x])*w + int(e.group)
						a, more = t.next[l][at], t.cost[l][at]
					} else {
						a, more = s.unfoldedOf(i).step(l, from[x], e.group, w)
					}
					if c += more; a < 0 || c >= room {
						continue edges
					}
					row[x] = a
					h = mix(h, uint64(a), uint64(x))
				}
				nb := beamNode{cost: c, guess: c + g.back[e.to], node: e.to, parent: b.first[l] + int32(bi), group: e.group}
				j := b.rows.find(h, len(b.next), func(j int32) bool {
					if b.next[j].node != nb.node {
						return false
					}
					return slices.Equal(row, b.after[int(j)*k:int(j)*k+k])
				})
				if int(j) == len(b.next) {
					b.next = append(b.next, nb)
					b.after = append(b.after, row...)
				} else if nb.cost < b.next[j].cost {
					b.next[j] = nb
				}
			}
		}
		if len(b.next) == 0 {
			return false, nil
		}
		b.pick = b.pick[:0]
		for i := range b.next {
			b.pick = append(b.pick, int32(i))
		}
		if len(b.pick) > width {
			b.choose(width)
			b.pick = b.pick[:width]
			slices.SortFunc(b.pick, func(x, y int32) int {
				if c := cmp.Compare(b.next[x].guess, b.next[y].guess); c != 0 {
					return c
				}
				return cmp.Compare(x, y)
			})
		}
		b.first = append(b.first, int32(len(b.kept)))
		b.states = b.states[:0]
		for _, p := range b.pick {
			b.kept = append(b.kept, b.next[p])
			b.states = append(b.states, b.after[int(p)*k:int(p)*k+k]...)
		}
	}
	best := b.first[L]
	for i := int(best); i < len(b.kept); i++ {
		if b.kept[i].cost < b.kept[best].cost {
			best = int32(i)
		}
	}
	plan.cost = b.kept[best].cost
	plan.groups = append(plan.groups[:0], make([]int32, L)...)
	for l := L; l > 0; l-- {
		plan.groups[l-1] = b.kept[best].group
		best = b.kept[best].parent
	}
	return true, nil
}
