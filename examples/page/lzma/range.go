package lzma

// prob is the probability that a bit is 0, in 2048ths.
type prob = uint16

const (
	probBits = 11
	probInit = 1 << (probBits - 1)
	moveBits = 5 // how fast a probability follows what was seen
	topValue = 1 << 24
)

func fresh(p []prob) {
	for i := range p {
		p[i] = probInit
	}
}

// coder is a range coder: it narrows a range by each bit in proportion to how
// likely the bit was.
type coder struct {
	out    []byte
	low    uint64
	width  uint32
	cache  byte
	behind int // bytes that a carry may still change
}

func newCoder(out []byte) *coder { return &coder{out: out, width: 0xFFFFFFFF, behind: 1} }

func (c *coder) shift() {
	if uint32(c.low) < 0xFF000000 || c.low>>32 != 0 {
		carry := byte(c.low >> 32)
		for b := c.cache; c.behind > 0; c.behind-- {
			c.out = append(c.out, b+carry)
			b = 0xFF
		}
		c.cache = byte(c.low >> 24)
	}
	c.behind++
	c.low = uint64(uint32(c.low) << 8)
}

func (c *coder) bit(p *prob, b uint32) {
	bound := c.width >> probBits * uint32(*p)
	if b == 0 {
		c.width = bound
		*p += (1<<probBits - *p) >> moveBits
	} else {
		c.low += uint64(bound)
		c.width -= bound
		*p -= *p >> moveBits
	}
	for c.width < topValue {
		c.width <<= 8
		c.shift()
	}
}

// direct writes bits of which nothing is expected.
func (c *coder) direct(v uint32, n int) {
	for n--; n >= 0; n-- {
		c.width >>= 1
		if v>>n&1 == 1 {
			c.low += uint64(c.width)
		}
		for c.width < topValue {
			c.width <<= 8
			c.shift()
		}
	}
}

// tree writes n bits, the highest first, each with a probability of its own for
// what stands before it.
func (c *coder) tree(p []prob, v uint32, n int) {
	m := uint32(1)
	for n--; n >= 0; n-- {
		b := v >> n & 1
		c.bit(&p[m], b)
		m = m<<1 | b
	}
}

// reverse is tree with the lowest bit first.
func (c *coder) reverse(p []prob, v uint32, n int) {
	m := uint32(1)
	for range n {
		b := v & 1
		v >>= 1
		c.bit(&p[m], b)
		m = m<<1 | b
	}
}

func (c *coder) flush() []byte {
	for range 5 {
		c.shift()
	}
	return c.out
}
