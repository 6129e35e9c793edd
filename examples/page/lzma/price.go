package lzma

import "math/bits"

// Prices are in 16ths of a bit.
const (
	priceBits = 4
	bitPrice  = 1 << priceBits
)

// priced is what a bit costs that comes with a probability, in steps of 16.
var priced = func() (t [1 << probBits >> priceBits]uint32) {
	for i := range t {
		// The logarithm by squaring: each time the value overflows is half as much.
		w, count := uint64(i)<<priceBits+1<<priceBits>>1, uint32(0)
		for range priceBits {
			w *= w
			count <<= 1
			for w >= 1<<16 {
				w >>= 1
				count++
			}
		}
		t[i] = probBits<<priceBits - 15 - count
	}
	return t
}()

func zero(p prob) uint32 { return priced[p>>priceBits] }
func one(p prob) uint32  { return priced[(1<<probBits-p)&(1<<probBits-1)>>priceBits] }

func bitOf(p prob, b uint32) uint32 {
	if b == 0 {
		return zero(p)
	}
	return one(p)
}

// prices are what lengths and distances cost by what the model expects now.
type prices struct {
	matchLengths, againLengths [maxMatch + 1]uint32
	slots                      [slotsOfLengths][64]uint32
	near                       [slotsOfLengths][128]uint32 // whole distances below 128
	aligned                    [1 << alignBits]uint32
}

// learn reads the prices from a model.
func (p *prices) learn(m *model) {
	lengthPrices(&p.matchLengths, &m.match)
	lengthPrices(&p.againLengths, &m.again)
	for i := range p.slots {
		for s := range uint32(64) {
			p.slots[i][s] = treePrice(m.slot[i][:], s, 6)
		}
		for d := range uint32(128) {
			slot := slotOf(d)
			p.near[i][d] = p.slots[i][slot]
			if slot >= 4 {
				rest := int(slot>>1) - 1
				base := (2 | slot&1) << rest
				p.near[i][d] += reversePrice(m.special[base-slot:], d-base, rest)
			}
		}
	}
	for a := range p.aligned {
		p.aligned[a] = reversePrice(m.align[:], uint32(a), alignBits)
	}
}

func lengthPrices(t *[maxMatch + 1]uint32, l *lengths) {
	short, long := zero(l.choice[0]), one(l.choice[0])
	for n := minMatch; n <= maxMatch; n++ {
		switch v := uint32(n - minMatch); {
		case v < lowLengths:
			t[n] = short + treePrice(l.low[:], v, 3)
		case v < lowLengths+midLengths:
			t[n] = long + zero(l.choice[1]) + treePrice(l.mid[:], v-lowLengths, 3)
		default:
			t[n] = long + one(l.choice[1]) + treePrice(l.high[:], v-lowLengths-midLengths, 8)
		}
	}
}

func treePrice(p []prob, v uint32, n int) (sum uint32) {
	m := uint32(1)
	for n--; n >= 0; n-- {
		b := v >> n & 1
		sum += bitOf(p[m], b)
		m = m<<1 | b
	}
	return sum
}

func reversePrice(p []prob, v uint32, n int) (sum uint32) {
	m := uint32(1)
	for range n {
		b := v & 1
		v >>= 1
		sum += bitOf(p[m], b)
		m = m<<1 | b
	}
	return sum
}

// slotOf is the slot of a distance less one: its highest two bits and their place.
func slotOf(d uint32) uint32 {
	if d < 4 {
		return d
	}
	top := bits.Len32(d) - 1
	return uint32(top)<<1 | d>>(top-1)&1
}

func (p *prices) distancePrice(length, distance int) uint32 {
	d := uint32(distance - 1)
	i := min(length-minMatch, slotsOfLengths-1)
	if d < 128 {
		return p.near[i][d]
	}
	slot := slotOf(d)
	return p.slots[i][slot] + (slot>>1-1-alignBits)*bitPrice + p.aligned[d&(1<<alignBits-1)]
}

// repPrice is what it costs to say which known distance it is.
func (m *model) repPrice(state, which int) uint32 {
	if which == 0 {
		return zero(m.isRep0[state]) + one(m.isLong[state])
	}
	p := one(m.isRep0[state])
	if which == 1 {
		return p + zero(m.isRep1[state])
	}
	return p + one(m.isRep1[state]) + bitOf(m.isRep2[state], uint32(which-2))
}

// literalPrice is what a byte costs as it is.
func (m *model) literalPrice(data []byte, at, state, distance int) (sum uint32) {
	var before byte
	if at > 0 {
		before = data[at-1]
	}
	p := m.literal[before>>(8-literalBits)][:]
	v := uint32(data[at])
	if state < 7 {
		return treePrice(p, v, 8)
	}
	expected := uint32(data[at-distance])
	offset, s := uint32(1<<8), uint32(1)
	for n := 7; n >= 0; n-- {
		e := expected << 1 << (7 - n) & offset
		b := v >> n & 1
		sum += bitOf(p[offset+e+s], b)
		s = s<<1 | b
		if b == 1 {
			offset &= e
		} else {
			offset &^= e
		}
	}
	return sum
}
