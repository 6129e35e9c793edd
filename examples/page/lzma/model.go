package lzma

const (
	literalBits = 4 // lc: bits of the byte before that choose the table of a literal

	minMatch = 2
	maxMatch = 273

	lowLengths = 8 // with pb=0 there is one tree each
	midLengths = 8

	slotsOfLengths = 4
	alignBits      = 4
	firstAligned   = 14 // slots from here on have direct bits
)

// lengths codes the length of a match, 2 to 273.
type lengths struct {
	choice   [2]prob
	low, mid [8]prob
	high     [256]prob
}

func (l *lengths) init() {
	fresh(l.choice[:])
	fresh(l.low[:])
	fresh(l.mid[:])
	fresh(l.high[:])
}

func (l *lengths) write(c *coder, n int) {
	v := uint32(n - minMatch)
	switch {
	case v < lowLengths:
		c.bit(&l.choice[0], 0)
		c.tree(l.low[:], v, 3)
	case v < lowLengths+midLengths:
		c.bit(&l.choice[0], 1)
		c.bit(&l.choice[1], 0)
		c.tree(l.mid[:], v-lowLengths, 3)
	default:
		c.bit(&l.choice[0], 1)
		c.bit(&l.choice[1], 1)
		c.tree(l.high[:], v-lowLengths-midLengths, 8)
	}
}

// model is all that is expected of what comes next, and what came.
type model struct {
	c *coder

	state   int
	reps    [4]int // distances of the last matches, 1 is the byte before
	literal [1 << literalBits][0x300]prob
	isMatch [12]prob
	isRep   [12]prob
	isRep0  [12]prob
	isLong  [12]prob // a match at the last distance longer than one byte
	isRep1  [12]prob
	isRep2  [12]prob
	match   lengths
	again   lengths
	slot    [slotsOfLengths][64]prob
	special [128]prob
	align   [16]prob
}

func newModel(c *coder) *model {
	m := &model{c: c, reps: [4]int{1, 1, 1, 1}}
	for i := range m.literal {
		fresh(m.literal[i][:])
	}
	for _, p := range [][]prob{m.isMatch[:], m.isRep[:], m.isRep0[:], m.isLong[:], m.isRep1[:], m.isRep2[:], m.special[:], m.align[:]} {
		fresh(p)
	}
	for i := range m.slot {
		fresh(m.slot[i][:])
	}
	m.match.init()
	m.again.init()
	return m
}

// one writes a byte as it is.
func (m *model) one(data []byte, at int) {
	m.c.bit(&m.isMatch[m.state], 0)
	var before byte
	if at > 0 {
		before = data[at-1]
	}
	p := m.literal[before>>(8-literalBits)][:]
	v := uint32(data[at]) | 1<<8
	if m.state < 7 {
		for s := uint32(1); s < 1<<8; {
			b := v >> 7 & 1
			m.c.bit(&p[s], b)
			s = s<<1 | b
			v <<= 1
		}
	} else { // what stands at the last distance is not what comes: say how it differs
		expected := uint32(data[at-m.reps[0]])
		offset, s := uint32(1<<8), uint32(1)
		for s < 1<<8 {
			expected <<= 1
			e, b := expected&offset, v>>7&1
			m.c.bit(&p[offset+e+s], b)
			s = s<<1 | b
			v <<= 1
			if b == 1 {
				offset &= e
			} else {
				offset &^= e
			}
		}
	}
	switch {
	case m.state < 4:
		m.state = 0
	case m.state < 10:
		m.state -= 3
	default:
		m.state -= 6
	}
}

func (m *model) after(early, late int) {
	if m.state < 7 {
		m.state = early
	} else {
		m.state = late
	}
}

// repeat writes a match at one of the last four distances.
func (m *model) repeat(which, n int) {
	m.c.bit(&m.isMatch[m.state], 1)
	m.c.bit(&m.isRep[m.state], 1)
	if which == 0 {
		m.c.bit(&m.isRep0[m.state], 0)
		if n == 1 {
			m.c.bit(&m.isLong[m.state], 0)
			m.after(9, 11)
			return
		}
		m.c.bit(&m.isLong[m.state], 1)
	} else {
		m.c.bit(&m.isRep0[m.state], 1)
		if which == 1 {
			m.c.bit(&m.isRep1[m.state], 0)
		} else {
			m.c.bit(&m.isRep1[m.state], 1)
			m.c.bit(&m.isRep2[m.state], uint32(which-2))
		}
		d := m.reps[which]
		copy(m.reps[1:which+1], m.reps[:which])
		m.reps[0] = d
	}
	m.again.write(m.c, n)
	m.after(8, 11)
}

// back writes a match at another distance.
func (m *model) back(distance, n int) {
	m.c.bit(&m.isMatch[m.state], 1)
	m.c.bit(&m.isRep[m.state], 0)
	m.match.write(m.c, n)
	d := uint32(distance - 1)
	slot := slotOf(d)
	m.c.tree(m.slot[min(n-minMatch, slotsOfLengths-1)][:], slot, 6)
	if d >= 4 {
		rest := int(slot>>1) - 1
		base := (2 | slot&1) << rest
		if slot < firstAligned {
			m.c.reverse(m.special[base-slot:], d-base, rest)
		} else {
			m.c.direct((d-base)>>alignBits, rest-alignBits)
			m.c.reverse(m.align[:], (d-base)&(1<<alignBits-1), alignBits)
		}
	}
	copy(m.reps[1:], m.reps[:3])
	m.reps[0] = distance
	m.after(7, 10)
}
