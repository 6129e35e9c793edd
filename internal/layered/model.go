package layered

import "fmt"

// A Table is one rule compiled for a list of layers: its reachable states,
// minimised. Tables are immutable and may be part of many models.
type Table struct{ *table }

// CompileRule enumerates and minimises one rule. A rule with more than
// settings.MaxStates states in one layer is refused with ErrStates.
func CompileRule(options []int, r Rule, settings Settings) (Table, error) {
	if err := (Problem{Options: options}).check(); err != nil {
		return Table{}, err
	}
	if large, ok := r.(Large); ok {
		return Table{largeTable(new(lent), options, large)}, nil
	}
	t, err := compile(options, r, settings.maxStates())
	return Table{t}, err
}

// Forbids reports whether the rule forbids anything that can be reached, or may
// do so if it is a large one.
func (t Table) Forbids() bool {
	if t.large != nil {
		return true // it is not known
	}
	for _, row := range t.next {
		for _, n := range row {
			if n < 0 {
				return true
			}
		}
	}
	return false
}

// free reports whether no reduced cost is left and nothing is forbidden.
func (t Table) free() bool {
	if t.base >= Inf || t.Forbids() {
		return false
	}
	for _, row := range t.cost {
		for _, c := range row {
			if c != 0 {
				return false
			}
		}
	}
	return true
}

// Model is a compiled problem: every rule minimised, and the options of each
// layer gathered into joint groups, so that two options of one group are the
// same to every rule and differ in their static cost alone. A Model is
// immutable and may serve many solves at once, each with its own static costs.
type Model struct {
	options []int
	width   []int     // joint groups of each layer
	joint   [][]int32 // [layer][option] -> joint group
	rules   []rule
	base    int64 // what the rules charge at least, together
	most    int64 // what they can charge at most
}

// rule is a table as a model reads it: by joint groups.
type rule struct {
	base   int64
	states []int
	next   [][]int32 // [layer][state*width+joint group], -1 forbidden
	cost   [][]int64
	size   int  // states of all layers
	free   bool // never charges nor forbids
	large  Large
	first  [][]int32 // of a large rule: an option of each joint group
}

// Compile compiles every rule of the problem and joins them.
func Compile(p Problem, settings Settings) (*Model, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	c := compilers.Get().(*compiler)
	defer compilers.Put(c)
	return c.model(new(lent), p, settings)
}

// Compile is [Compile] in the memory of the solver: the model it returns may be
// used until the solver compiles the next.
func (s *Solver) Compile(p Problem, settings Settings) (*Model, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	s.memory.takeBack()
	return s.compiler.model(&s.memory, p, settings)
}

// model compiles the rules and joins them in the memory given.
func (c *compiler) model(memory *lent, p Problem, settings Settings) (*Model, error) {
	defer c.takeBack()
	tables := make([]Table, len(p.Rules))
	for i, r := range p.Rules {
		if large, ok := r.(Large); ok {
			tables[i] = Table{largeTable(&c.lent, p.Options, large)}
			continue
		}
		t, err := c.compile(&c.lent, p.Options, r, settings.maxStates())
		if err != nil {
			return nil, fmt.Errorf("rule %d: %w", i, err)
		}
		tables[i] = Table{t}
	}
	return join(memory, p.Options, tables)
}

// Join makes a model of compiled rules, all of them for the same options.
func Join(options []int, tables ...Table) (*Model, error) {
	return join(new(lent), options, tables)
}

// join makes a model in the memory given. Nothing of it lies in that of the
// tables.
func join(memory *lent, options []int, tables []Table) (*Model, error) {
	if err := (Problem{Options: options, Rules: make([]Rule, len(tables))}).check(); err != nil {
		return nil, err
	}
	m := &Model{options: memory.ints.copyOf(options)}
	for i, t := range tables {
		if t.table == nil || len(t.next) != len(options) {
			return nil, fmt.Errorf("layered: table %d was compiled for other layers", i)
		}
		for l := range options {
			if len(t.group[l]) != options[l] {
				return nil, fmt.Errorf("layered: table %d was compiled for %d options in layer %d, not %d", i, len(t.group[l]), l, options[l])
			}
		}
		m.base = add(m.base, t.base)
		if m.most += t.most; m.most > MaxCost {
			return nil, ErrCosts
		}
	}
	m.joinGroups(memory, tables)
	return m, nil
}

func (m *Model) joinGroups(memory *lent, tables []Table) {
	L := len(m.options)
	m.width = memory.ints.take(L)
	m.joint = memory.smalls.take(L)
	m.rules = make([]rule, len(tables))
	for i, t := range tables {
		r := &m.rules[i]
		r.base, r.states = t.base, memory.ints.copyOf(t.states)
		r.next, r.cost = memory.smalls.take(L), memory.larges.take(L)
		for _, n := range t.states {
			r.size += n
		}
		r.free = t.free()
		if r.large = t.large; r.large != nil {
			r.first, r.size = memory.smalls.take(L), 1<<30
		}
	}
	var rows grouping
	var first, firsts []int32
	cells, total := 0, 0
	for l := 0; l < L; l++ {
		total += m.options[l]
	}
	joints := memory.small.take(total)
	for l := 0; l < L; l++ {
		n := m.options[l]
		rows.reset(n)
		joint := joints[:n:n]
		joints = joints[n:]
		first = first[:0]
		for o := 0; o < n; o++ {
			h := uint64(14695981039346656037)
			for _, t := range tables {
				h = mix(h, uint64(t.group[l][o]), 0)
			}
			k := rows.find(h, len(first), func(k int32) bool {
				for _, t := range tables {
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
		nw := len(first)
		m.joint[l], m.width[l] = joint, nw
		for _, t := range tables {
			if t.large == nil {
				cells += t.states[l] * nw
			}
		}
		firsts = append(firsts, first...)
	}
	next, cost := memory.small.take(cells), memory.large.take(cells)
	for l := 0; l < L; l++ {
		nw := m.width[l]
		first := firsts[:nw:nw]
		firsts = firsts[nw:]
		for i, t := range tables {
			if t.large != nil {
				m.rules[i].first[l] = first
				continue
			}
			w, n := t.width[l], t.states[l]
			rn, rc := next[:n*nw:n*nw], cost[:n*nw:n*nw]
			next, cost = next[n*nw:], cost[n*nw:]
			group := t.group[l]
			for k, o := range first {
				g := int(group[o])
				for to, from := k, g; to < n*nw; to, from = to+nw, from+w {
					rn[to], rc[to] = t.next[l][from], t.cost[l][from]
				}
			}
			m.rules[i].next[l], m.rules[i].cost[l] = rn, rc
		}
	}
}

// States returns the number of states of each rule after minimising, summed
// over the layers; 0 for large ones.
func (m *Model) States() []int {
	out := make([]int, len(m.rules))
	for i := range m.rules {
		if m.rules[i].large == nil {
			out[i] = m.rules[i].size
		}
	}
	return out
}
