package lzma

import "encoding/binary"

// MaxBytes is the most that Encode takes.
const MaxBytes = 1 << 28

// Encode returns data as an "LZMA alone" stream: a byte of properties, four of the
// dictionary's size, eight of the size of data, and the packed bytes.
func Encode(data []byte) []byte {
	dictionary := uint32(1 << 12)
	for int(dictionary) < len(data) && dictionary < MaxBytes {
		dictionary <<= 1
	}
	head := append(make([]byte, 0, len(data)/4+64), literalBits) // pb*45 + lp*9 + lc
	head = binary.LittleEndian.AppendUint32(head, dictionary)
	head = binary.LittleEndian.AppendUint64(head, uint64(len(data)))
	c := newCoder(head)
	e := encoder{model: newModel(c), finder: newFinder(data), prices: new(prices), nodes: make([]node, window+maxMatch+1)}
	for at := 0; at < len(data); {
		at += e.block(at)
	}
	return c.flush()
}

// encoder chooses what to write: within a window the cheapest way, by what the
// model expects at its beginning.
type encoder struct {
	*model
	*finder
	*prices
	nodes []node
	found []match
	until int // from here on prices are read anew
}

const (
	window = 2048
	nice   = 96 // a match this long is taken as it is
)

// node is the cheapest known way to a position of the window.
type node struct {
	cost  uint32
	from  int32 // the node before
	what  int32 // a literal, a known distance by its place, or another distance
	state uint8
	reps  [4]int32
}

// What leads to a node. Known distances are 0 to 3, others are themselves + 4.
const (
	asIs    = -1
	another = 4
)

const unreached = ^uint32(0)

// block writes the cheapest way through a window, and returns how far it goes.
func (e *encoder) block(at int) int {
	if at >= e.until {
		e.learn(e.model)
		e.until = at + window/8
	}
	most := min(window, len(e.data)-at)
	for i := range e.nodes[:min(len(e.nodes), most+maxMatch+1)] {
		e.nodes[i].cost = unreached
	}
	first := &e.nodes[0]
	*first = node{from: -1, state: uint8(e.state)}
	for i, d := range e.reps {
		first.reps[i] = int32(d)
	}
	end, i := 0, 0
	for ; i < most && (i == 0 || i < end); i++ {
		if n := e.from(at, i, &end); n > 0 { // one that is good enough ends the window
			end = i + n
			break
		}
	}
	if i == most && end > most {
		end = most
	}
	e.write(at, end)
	e.skip(at, at+end)
	return end
}

// from looks at all that can follow a node. A match that is good enough is put
// down alone, and its length returned.
func (e *encoder) from(at, i int, end *int) int {
	n := &e.nodes[i]
	pos := at + i
	d := e.data
	reach := func(l int, cost uint32, what int32) {
		if t := &e.nodes[i+l]; cost < t.cost {
			t.cost, t.from, t.what = cost, int32(i), what
			t.state, t.reps = after(n.state, n.reps, what, l)
		}
		*end = max(*end, i+l)
	}
	s := int(n.state)
	reach(1, n.cost+zero(e.isMatch[s])+e.literalPrice(d, pos, s, int(n.reps[0])), asIs)
	some := n.cost + one(e.isMatch[s])
	again := some + one(e.isRep[s])
	longest := 0
	for k, r := range n.reps {
		l := e.same(pos, int(r))
		if k == 0 && l > 0 {
			reach(1, again+zero(e.isRep0[s])+zero(e.isLong[s]), 0)
		}
		if l < minMatch {
			continue
		}
		price := again + e.repPrice(s, k)
		if l >= nice {
			e.cut(i, l)
			reach(l, price+e.againLengths[l], int32(k))
			return l
		}
		longest = max(longest, l)
		for ; l >= minMatch; l-- {
			reach(l, price+e.againLengths[l], int32(k))
		}
	}
	e.found = e.matches(pos, e.found[:0])
	if len(e.found) == 0 {
		return 0
	}
	other := some + zero(e.isRep[s])
	if m := e.found[len(e.found)-1]; m.length >= nice {
		e.cut(i, m.length)
		reach(m.length, other+e.matchLengths[m.length]+e.distancePrice(m.length, m.distance), int32(m.distance)+another)
		return m.length
	}
	l := minMatch
	for _, m := range e.found {
		for ; l <= m.length; l++ {
			reach(l, other+e.matchLengths[l]+e.distancePrice(l, m.distance), int32(m.distance)+another)
		}
	}
	return 0
}

// cut forgets the way to a node, so that the one to come is taken.
func (e *encoder) cut(i, l int) { e.nodes[i+l].cost = unreached }

// after is what state and distances are behind a step.
func after(state uint8, reps [4]int32, what int32, l int) (uint8, [4]int32) {
	early := state < 7
	pick := func(a, b uint8) uint8 {
		if early {
			return a
		}
		return b
	}
	switch {
	case what == asIs:
		switch {
		case state < 4:
			return 0, reps
		case state < 10:
			return state - 3, reps
		}
		return state - 6, reps
	case what < another:
		if what == 0 && l == 1 {
			return pick(9, 11), reps
		}
		r := reps[what]
		copy(reps[1:what+1], reps[:what])
		reps[0] = r
		return pick(8, 11), reps
	}
	copy(reps[1:], reps[:3])
	reps[0] = what - another
	return pick(7, 10), reps
}

// write writes the way to a node.
func (e *encoder) write(at, end int) {
	next := int32(-1)
	for i := int32(end); i >= 0; { // turn the way round
		n := &e.nodes[i]
		before := n.from
		n.from, next = next, i
		i = before
	}
	for i := int32(0); i < int32(end); {
		to := e.nodes[i].from
		n := &e.nodes[to]
		switch l := int(to - i); {
		case n.what == asIs:
			e.one(e.data, at+int(i))
		case n.what < another:
			e.repeat(int(n.what), l)
		default:
			e.back(int(n.what-another), l)
		}
		i = to
	}
}

// same is how many bytes are as those at a distance.
func (e *encoder) same(at, distance int) int {
	if distance > at {
		return 0
	}
	most := min(maxMatch, len(e.data)-at)
	n := 0
	for n < most && e.data[at+n] == e.data[at+n-distance] {
		n++
	}
	return n
}
