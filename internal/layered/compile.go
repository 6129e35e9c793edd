package layered

import (
	"fmt"
	"slices"
	"sync"
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
	most   int64     // the largest costs of all layers, added up
	large  Large     // not compiled: see Large
}

// compiler is the memory of a compilation, reused for the next.
type compiler struct {
	next   []int32 // raw rows of all layers
	cost   []int64
	offset []int // of each layer in next and cost
	states []int
	width  []int
	group  []int32
	cur    []uint64
	after  []uint64
	keys   []uint64
	most   int64
	reps   []int32
	pot    []int64
	potOf  []int64
	merged []int32
	into   []int32
	cols   []int32
	first  []int32
	rows   grouping
	// Minimised rows, last layer first.
	mnext   []int32
	mcost   []int64
	moffset []int
	// Memory of finished tables, where these are joined and then forgotten.
	lent
}

// lent hands out memory that is taken back all at once. Lists of lists come
// empty, numbers as they were left. The zero value is ready.
type lent struct {
	ints   chunk[int]
	small  chunk[int32]
	large  chunk[int64]
	smalls chunk[[]int32]
	larges chunk[[]int64]
}

func (m *lent) takeBack() {
	m.ints.used, m.small.used, m.large.used = 0, 0, 0
	clear(m.smalls.all) // so that a larger chunk given up can be collected
	clear(m.larges.all)
	m.smalls.used, m.larges.used = 0, 0
}

// chunk is memory of one type. A chunk that is too small is left to those that
// have parts of it, and one twice as large is begun.
type chunk[T any] struct {
	all  []T
	used int
}

// take returns n elements.
func (c *chunk[T]) take(n int) []T {
	if c.used+n > len(c.all) {
		c.all, c.used = make([]T, max(n, 2*len(c.all))), 0
	}
	out := c.all[c.used : c.used+n : c.used+n]
	c.used += n
	return out
}

func (c *chunk[T]) copyOf(s []T) []T {
	out := c.take(len(s))
	copy(out, s)
	return out
}

var compilers = sync.Pool{New: func() any { return new(compiler) }}

// compile enumerates the reachable states of a rule, then minimises.
func compile(options []int, r Rule, maxStates int) (*table, error) {
	c := compilers.Get().(*compiler)
	defer compilers.Put(c)
	return c.compile(new(lent), options, r, maxStates)
}

// compile writes the table into the memory given.
func (c *compiler) compile(m *lent, options []int, r Rule, maxStates int) (*table, error) {
	if err := c.enumerate(options, r, maxStates); err != nil {
		return nil, err
	}
	t := &table{}
	c.minimise(m, t, options)
	return t, nil
}

// enumerate walks the layers forward and writes a row of every reachable state.
func (c *compiler) enumerate(options []int, r Rule, maxStates int) error {
	total := 0
	for _, n := range options {
		total += n
	}
	c.next, c.cost = c.next[:0], c.cost[:0]
	c.offset, c.states, c.width = c.offset[:0], append(c.states[:0], 1), c.width[:0]
	c.group = sized(c.group, total)[:0]
	grouper, _ := r.(Grouper)
	c.cur = append(c.cur[:0], r.Init())
	c.most = 0
	for l, n := range options {
		c.reps, c.keys = c.reps[:0], c.keys[:0]
		for o := 0; o < n; o++ {
			if grouper == nil {
				c.group = append(c.group, int32(o))
				c.reps = append(c.reps, int32(o))
				continue
			}
			// Groups are few: a walk over them is faster than a table.
			key := grouper.Group(l, o)
			g := slices.Index(c.keys, key)
			if g < 0 {
				g = len(c.keys)
				c.keys, c.reps = append(c.keys, key), append(c.reps, int32(o))
			}
			c.group = append(c.group, int32(g))
		}
		w := len(c.reps)
		c.width = append(c.width, w)
		c.offset = append(c.offset, len(c.next))
		c.after = c.after[:0]
		most := int64(0)
		c.rows.reset(min(len(c.cur)*w, maxStates) + 1)
		for _, s := range c.cur {
			for _, o := range c.reps {
				to, cost := r.Step(l, int(o), s)
				if cost >= Inf {
					c.next, c.cost = append(c.next, -1), append(c.cost, Inf)
					continue
				}
				if cost > MaxCost || cost < -MaxCost {
					return fmt.Errorf("layered: a rule charges %d in layer %d, at most %d either way", cost, l, MaxCost)
				}
				most = max(most, cost, -cost)
				j := c.rows.find(mix(14695981039346656037, to, 0), len(c.after), func(k int32) bool { return c.after[k] == to })
				if int(j) == len(c.after) {
					if len(c.after) >= maxStates {
						return fmt.Errorf("%w: more than %d after layer %d", ErrStates, maxStates, l)
					}
					c.after = append(c.after, to)
				}
				c.next, c.cost = append(c.next, j), append(c.cost, cost)
			}
		}
		if c.most += most; c.most > MaxCost {
			return ErrCosts
		}
		c.cur, c.after = c.after, c.cur
		c.states = append(c.states, len(c.cur))
	}
	return nil
}

// sized returns a slice of n elements, in the memory of s if it is large enough.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

// minimise goes backward: it pushes costs to the front, and merges states whose
// rows are equal, then groups whose columns are equal. On a layered graph one
// backward pass finds the smallest automaton.
func (c *compiler) minimise(m *lent, t *table, options []int) {
	L := len(options)
	// Every state after the last layer is the same state.
	c.pot = sized(c.pot, c.states[L])
	clear(c.pot)
	c.merged = sized(c.merged, c.states[L])
	clear(c.merged)
	c.states[L] = min(c.states[L], 1)
	c.mnext, c.mcost, c.moffset = c.mnext[:0], c.mcost[:0], sized(c.moffset, L)
	goff := 0
	for _, n := range options {
		goff += n
	}
	for l := L - 1; l >= 0; l-- {
		goff -= options[l]
		n, w := c.states[l], c.width[l]
		next, cost := c.next[c.offset[l]:c.offset[l]+n*w], c.cost[c.offset[l]:c.offset[l]+n*w]
		c.potOf = sized(c.potOf, n)
		for i := 0; i < n; i++ {
			best := Inf
			row := next[i*w : i*w+w]
			costs := cost[i*w : i*w+w]
			for g, j := range row {
				if j < 0 {
					continue
				}
				v := add(costs[g], c.pot[j])
				if v >= Inf { // a dead end behind it
					row[g] = -1
				} else {
					row[g] = c.merged[j]
					best = min(best, v)
				}
				costs[g] = v
			}
			c.potOf[i] = best
			for g := range row {
				if row[g] < 0 {
					costs[g] = Inf
				} else {
					costs[g] -= best
				}
			}
		}
		keep := c.mergeRows(next, cost, n, w)
		c.states[l] = keep
		c.merged, c.into = c.into, c.merged
		c.pot, c.potOf = c.potOf, c.pot
		c.moffset[l] = len(c.mnext)
		c.mergeColumns(next, cost, keep, l, c.group[goff:goff+options[l]])
	}
	t.base, t.most = c.pot[0], c.most
	t.states, t.width = m.ints.copyOf(c.states), m.ints.copyOf(c.width)
	allNext, allCost := m.small.copyOf(c.mnext), m.large.copyOf(c.mcost)
	groups := m.small.copyOf(c.group)
	t.next, t.cost, t.group = m.smalls.take(L), m.larges.take(L), m.smalls.take(L)
	for l := 0; l < L; l++ {
		from, size := c.moffset[l], t.states[l]*t.width[l]
		t.next[l], t.cost[l] = allNext[from:from+size:from+size], allCost[from:from+size:from+size]
		t.group[l], groups = groups[:options[l]:options[l]], groups[options[l]:]
	}
}

// mergeRows moves rows that differ from all before them to the front and returns
// how many there are; into says where each went.
func (c *compiler) mergeRows(next []int32, cost []int64, n, w int) int {
	c.rows.reset(n)
	c.into = sized(c.into, n)
	keep := 0
	for i := 0; i < n; i++ {
		row, costs := next[i*w:i*w+w], cost[i*w:i*w+w]
		h := uint64(14695981039346656037)
		for g := range row {
			h = mix(h, uint64(uint32(row[g])), uint64(costs[g]))
		}
		k := c.rows.find(h, keep, func(k int32) bool {
			o := int(k) * w
			return slices.Equal(next[o:o+w], row) && slices.Equal(cost[o:o+w], costs)
		})
		if int(k) == keep {
			copy(next[keep*w:], row)
			copy(cost[keep*w:], costs)
			keep++
		}
		c.into[i] = k
	}
	return keep
}

// mergeColumns writes the rows of a layer with one column for each group that
// differs from the others.
func (c *compiler) mergeColumns(next []int32, cost []int64, n, l int, group []int32) {
	w := c.width[l]
	c.rows.reset(w)
	c.cols = sized(c.cols, w)
	c.first = c.first[:0]
	for g := 0; g < w; g++ {
		h := uint64(14695981039346656037)
		for at := g; at < n*w; at += w {
			h = mix(h, uint64(uint32(next[at])), uint64(cost[at]))
		}
		k := c.rows.find(h, len(c.first), func(k int32) bool {
			for at, to := g, int(c.first[k]); at < n*w; at, to = at+w, to+w {
				if next[to] != next[at] || cost[to] != cost[at] {
					return false
				}
			}
			return true
		})
		if int(k) == len(c.first) {
			c.first = append(c.first, int32(g))
		}
		c.cols[g] = k
	}
	c.width[l] = len(c.first)
	for i := 0; i < n; i++ {
		for _, g := range c.first {
			c.mnext = append(c.mnext, next[i*w+int(g)])
			c.mcost = append(c.mcost, cost[i*w+int(g)])
		}
	}
	for o, g := range group {
		group[o] = c.cols[g]
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
	if cap(g.slot) < size {
		g.slot = make([]int32, size)
		g.hash = make([]uint64, size)
	}
	g.slot, g.hash = g.slot[:size], g.hash[:size]
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
