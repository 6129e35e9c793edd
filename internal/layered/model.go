package layered

import "fmt"

// Model is a compiled problem: every rule minimised, and the options of each
// layer gathered into joint groups, so that two options of one group are the
// same to every rule and differ in their static cost alone. A Model is
// immutable and may serve many solves at once, each with its own static costs.
type Model struct {
	options []int
	width   []int     // joint groups of each layer
	joint   [][]int32 // [layer][option] -> joint group
	tables  []*table  // re-indexed by joint groups
	base    int64     // what the rules charge at least, together
}

// Compile enumerates and minimises every rule of the problem. A rule with more
// than settings.MaxStates states in one layer is refused with ErrStates.
func Compile(p Problem, settings Settings) (*Model, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	m := &Model{options: append([]int(nil), p.Options...)}
	for i, r := range p.Rules {
		t, err := compile(m.options, r, settings.maxStates())
		if err != nil {
			return nil, fmt.Errorf("rule %d: %w", i, err)
		}
		m.tables = append(m.tables, t)
		m.base = add(m.base, t.base)
	}
	m.joinGroups()
	return m, nil
}

func (m *Model) joinGroups() {
	L := len(m.options)
	m.width = make([]int, L)
	m.joint = make([][]int32, L)
	var rows grouping
	for l := 0; l < L; l++ {
		n := m.options[l]
		rows.reset(n)
		joint := make([]int32, n)
		var first []int32
		for o := 0; o < n; o++ {
			h := uint64(14695981039346656037)
			for _, t := range m.tables {
				h = mix(h, uint64(t.group[l][o]), 0)
			}
			k := rows.find(h, len(first), func(k int32) bool {
				for _, t := range m.tables {
					if t.group[l][first[k]] != t.group[l][o] {
						return false
					}
				}
				return true
			})
			if int(k) == len(first) {
				first = append(first, int32(o))
			}
			joint[o] = k
		}
		m.joint[l], m.width[l] = joint, len(first)
		for _, t := range m.tables {
			w, nw := t.width[l], len(first)
			next := make([]int32, t.states[l]*nw)
			cost := make([]int64, t.states[l]*nw)
			for s := 0; s < t.states[l]; s++ {
				for k, o := range first {
					g := int(t.group[l][o])
					next[s*nw+k] = t.next[l][s*w+g]
					cost[s*nw+k] = t.cost[l][s*w+g]
				}
			}
			t.next[l], t.cost[l] = next, cost
		}
	}
	for _, t := range m.tables {
		t.group, t.width = nil, nil
	}
}

// States returns the number of states of each rule after minimising, summed
// over the layers.
func (m *Model) States() []int {
	out := make([]int, len(m.tables))
	for i, t := range m.tables {
		for _, n := range t.states {
			out[i] += n
		}
	}
	return out
}
