package layered

// Large marks a rule with many states, such as a sum over two weeks, that never
// charges less than nothing, nor more than MaxCost/MaxLayers at a time (more
// counts as that). It is not compiled: its states are found as a solve
// needs them, and it is composed when no other rule has anything to say. Since
// its charges are not pushed to the front, it counts as zero in a bound until
// then, which is less but still valid.
type Large interface {
	Rule
	Grouper
	Large()
}

// largeTable groups the options of a large rule and enumerates nothing.
func largeTable(m *lent, options []int, r Large) *table {
	L := len(options)
	t := &table{large: r, states: m.ints.take(L + 1), width: m.ints.take(L),
		next: m.smalls.take(L), cost: m.larges.take(L), group: m.smalls.take(L)}
	var keys []uint64
	for l, n := range options {
		keys = keys[:0]
		t.group[l] = m.small.take(n)
		for o := range t.group[l] {
			key := r.Group(l, o)
			g := 0
			for g < len(keys) && keys[g] != key {
				g++
			}
			if g == len(keys) {
				keys = append(keys, key)
			}
			t.group[l][o] = int32(g)
		}
		t.width[l], t.states[l] = len(keys), 1
	}
	t.states[L] = 1
	return t
}

// unfolded is what a solver knows of a large rule so far: for each layer the
// states met, and what became of those that were asked.
type unfolded struct {
	rule  *rule
	layer []unfoldedLayer
	most  int // states a layer may have
	full  bool
}

type unfoldedLayer struct {
	keys []uint64
	slot []int32 // hash table of keys, number plus one
	next []int32 // [state*width+group]; unasked where not yet known
	cost []int64
}

const unasked = -2

// unfold prepares for a rule, keeping the memory of another.
func (u *unfolded) unfold(r *rule, layers, most int) {
	u.rule, u.most, u.full = r, most, false
	if cap(u.layer) < layers+1 {
		u.layer = make([]unfoldedLayer, layers+1)
	}
	u.layer = u.layer[:layers+1]
	for l := range u.layer {
		x := &u.layer[l]
		x.keys, x.next, x.cost = x.keys[:0], x.next[:0], x.cost[:0]
		clear(x.slot)
	}
	u.layer[0].number(r.large.Init())
}

// number returns the number of a state of the layer, entering it if it is new.
func (x *unfoldedLayer) number(key uint64) int32 {
	if 2*len(x.keys) >= len(x.slot) {
		size := max(16, 2*len(x.slot))
		x.slot = make([]int32, size)
		for i, k := range x.keys {
			at := mix(14695981039346656037, k, 0) & uint64(size-1)
			for x.slot[at] != 0 {
				at = (at + 1) & uint64(size-1)
			}
			x.slot[at] = int32(i + 1)
		}
	}
	mask := uint64(len(x.slot) - 1)
	at := mix(14695981039346656037, key, 0) & mask
	for ; x.slot[at] != 0; at = (at + 1) & mask {
		if i := x.slot[at] - 1; x.keys[i] == key {
			return i
		}
	}
	x.keys = append(x.keys, key)
	x.slot[at] = int32(len(x.keys))
	return int32(len(x.keys) - 1)
}

// step returns the state after a group of options, -1 if it is forbidden, and
// what it costs.
func (u *unfolded) step(l int, state, group int32, width int) (int32, int64) {
	x := &u.layer[l]
	at := int(state)*width + int(group)
	for len(x.next) <= at {
		x.next, x.cost = append(x.next, unasked), append(x.cost, 0)
	}
	if x.next[at] == unasked {
		to, c := u.rule.large.Step(l, int(u.rule.first[l][group]), x.keys[state])
		if c >= Inf {
			x.next[at], x.cost[at] = -1, Inf
			return -1, Inf
		}
		n := u.layer[l+1].number(to)
		if len(u.layer[l+1].keys) > u.most {
			u.full = true
		}
		x.next[at], x.cost[at] = n, max(min(c, MaxCost/MaxLayers), 0)
	}
	return x.next[at], x.cost[at]
}
