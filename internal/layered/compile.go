package layered

import (
	"fmt"
)

// A table is one rule compiled: per layer a dense matrix of states by joint
// option groups, minimised.
//
// Costs are reduced: with p(s) the least the rule can still charge from state
// s, a transition s -> t of cost c is stored as c + p(t) - p(s), which is never
// negative, and zero along a cheapest continuation. What is taken out adds up
// to p of the initial state, kept as base. Reduced costs make states equal that
// differ only by a constant, and let a rule that is not yet composed count as
// zero in a lower bound.
type table struct {
	base   int64
	states []int     // states of each layer boundary, len(layers)+1
	width  []int     // groups of each layer
	next   [][]int32 // [layer][state*width+group], -1 forbidden
	cost   [][]int64 // [layer][state*width+group], reduced
	group  [][]int32 // [layer][option] -> group, as this rule sees options
}

// compile enumerates the reachable states of a rule, then minimises.
func compile(options []int, r Rule, maxStates int) (*table, error) {
	L := len(options)
	t := &table{
		states: make([]int, L+1),
		width:  make([]int, L),
		next:   make([][]int32, L),
		cost:   make([][]int64, L),
		group:  make([][]int32, L),
	}
	grouper, _ := r.(Grouper)
	cur := []uint64{r.Init()}
	t.states[0] = 1
	index := make(map[uint64]int32, 64)
	byGroup := make(map[uint64]int32, 64)
	var reps []int
	for l := 0; l < L; l++ {
		group := make([]int32, options[l])
		reps = reps[:0]
		if grouper == nil {
			for o := range group {
				group[o] = int32(o)
				reps = append(reps, o)
			}
		} else {
			clear(byGroup)
			for o := range group {
				key := grouper.Group(l, o)
				g, ok := byGroup[key]
				if !ok {
					g = int32(len(reps))
					byGroup[key] = g
					reps = append(reps, o)
				}
				group[o] = g
			}
		}
		t.group[l] = group
		w := len(reps)
		t.width[l] = w
		next := make([]int32, len(cur)*w)
		cost := make([]int64, len(cur)*w)
		var after []uint64
		clear(index)
		for i, s := range cur {
			for g, o := range reps {
				to, c := r.Step(l, o, s)
				if c >= Inf {
					next[i*w+g], cost[i*w+g] = -1, Inf
					continue
				}
				if c > MaxCost || c < -MaxCost {
					return nil, fmt.Errorf("layered: a rule charges %d in layer %d, at most %d either way", c, l, MaxCost)
				}
				j, ok := index[to]
				if !ok {
					if len(after) >= maxStates {
						return nil, fmt.Errorf("%w: more than %d after layer %d", ErrStates, maxStates, l)
					}
					j = int32(len(after))
					index[to] = j
					after = append(after, to)
				}
				next[i*w+g], cost[i*w+g] = j, c
			}
		}
		t.next[l], t.cost[l] = next, cost
		cur = after
		t.states[l+1] = len(cur)
	}
	t.minimise()
	return t, nil
}

// minimise goes backward: it pushes costs to the front, and merges states whose
// rows are equal, then groups whose columns are equal. On a layered graph one
// backward pass finds the smallest automaton.
func (t *table) minimise() {
	L := len(t.next)
	pot := make([]int64, t.states[L]) // all zero
	// Every state after the last layer is the same state.
	merged := make([]int32, t.states[L])
	if t.states[L] > 1 {
		t.states[L] = 1
	}
	var rows grouping
	for l := L - 1; l >= 0; l-- {
		n, w := t.states[l], t.width[l]
		next, cost := t.next[l], t.cost[l]
		p := make([]int64, n)
		for i := 0; i < n; i++ {
			best := Inf
			row := i * w
			for g := 0; g < w; g++ {
				if next[row+g] < 0 {
					continue
				}
				j := next[row+g]
				c := add(cost[row+g], pot[j])
				next[row+g] = merged[j]
				if c >= Inf { // a dead end behind it
					next[row+g] = -1
				}
				cost[row+g] = c
				if c < best {
					best = c
				}
			}
			p[i] = best
			for g := 0; g < w; g++ {
				if next[row+g] < 0 {
					cost[row+g] = Inf
				} else {
					cost[row+g] -= best
				}
			}
		}
		// Merge equal rows.
		rows.reset(n)
		m := make([]int32, n)
		keep := 0
		for i := 0; i < n; i++ {
			row := i * w
			h := uint64(14695981039346656037)
			for g := 0; g < w; g++ {
				h = mix(h, uint64(uint32(next[row+g])), uint64(cost[row+g]))
			}
			k := rows.find(h, keep, func(k int32) bool {
				other := int(k) * w
				for g := 0; g < w; g++ {
					if next[other+g] != next[row+g] || cost[other+g] != cost[row+g] {
						return false
					}
				}
				return true
			})
			if int(k) == keep {
				copy(next[keep*w:(keep+1)*w], next[row:row+w])
				copy(cost[keep*w:(keep+1)*w], cost[row:row+w])
				keep++
			}
			m[i] = k
		}
		t.states[l] = keep
		t.next[l], t.cost[l] = next[:keep*w], cost[:keep*w]
		merged, pot = m, p
		t.mergeColumns(l)
	}
	t.base = pot[0]
}

func (t *table) mergeColumns(l int) {
	n, w := t.states[l], t.width[l]
	next, cost := t.next[l], t.cost[l]
	var cols grouping
	cols.reset(w)
	to := make([]int32, w)
	var first []int32
	for g := 0; g < w; g++ {
		h := uint64(14695981039346656037)
		for i := 0; i < n; i++ {
			h = mix(h, uint64(uint32(next[i*w+g])), uint64(cost[i*w+g]))
		}
		k := cols.find(h, len(first), func(k int32) bool {
			o := int(first[k])
			for i := 0; i < n; i++ {
				if next[i*w+o] != next[i*w+g] || cost[i*w+o] != cost[i*w+g] {
					return false
				}
			}
			return true
		})
		if int(k) == len(first) {
			first = append(first, int32(g))
		}
		to[g] = k
	}
	if len(first) == w {
		return
	}
	nw := len(first)
	next2, cost2 := make([]int32, n*nw), make([]int64, n*nw)
	for i := 0; i < n; i++ {
		for k, g := range first {
			next2[i*nw+k] = next[i*w+int(g)]
			cost2[i*nw+k] = cost[i*w+int(g)]
		}
	}
	t.next[l], t.cost[l], t.width[l] = next2, cost2, nw
	for o, g := range t.group[l] {
		t.group[l][o] = to[g]
	}
}

// mix folds two words into a hash.
func mix(h, a, b uint64) uint64 {
	h = (h ^ a) * 0x9e3779b97f4a7c15
	h ^= h >> 29
	h = (h ^ b) * 0xbf58476d1ce4e5b9
	h ^= h >> 32
	return h
}

// grouping is a small open hash table from row hashes to group numbers.
type grouping struct {
	slot []int32
	hash []uint64
	mask uint64
}

func (g *grouping) reset(n int) {
	size := 8
	for size < 2*n {
		size *= 2
	}
	if len(g.slot) < size {
		g.slot = make([]int32, size)
		g.hash = make([]uint64, size)
	}
	size = len(g.slot)
	for i := range g.slot {
		g.slot[i] = -1
	}
	g.mask = uint64(size - 1)
}

// find returns the group of a row, or enters it as group fresh.
func (g *grouping) find(h uint64, fresh int, equal func(int32) bool) int32 {
	for i := h & g.mask; ; i = (i + 1) & g.mask {
		k := g.slot[i]
		if k < 0 {
			g.slot[i], g.hash[i] = int32(fresh), h
			return int32(fresh)
		}
		if g.hash[i] == h && equal(k) {
			return k
		}
	}
}
