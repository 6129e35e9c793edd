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
	e := encoder{model: newModel(c), finder: newFinder(data), data: data}
	for at := 0; at < len(data); {
		at += e.step(at)
	}
	return c.flush()
}

// encoder chooses what to write. It looks one byte ahead, and no further.
type encoder struct {
	*model
	*finder
	data  []byte
	known candidate // of the position after the last, if it was looked at already
	have  bool
}

// candidate is the best match at another distance, and the best at a known one.
type candidate struct {
	length, distance int
	repLength, rep   int
}

func (e *encoder) look(at int) candidate {
	var c candidate
	for i, d := range e.reps {
		if n := e.same(at, d); n > c.repLength {
			c.repLength, c.rep = n, i
		}
	}
	c.length, c.distance = e.longest(at)
	return c
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

// dear reports whether a match is so far off that a shorter one costs less.
func dear(distance int) int {
	switch {
	case distance >= 1<<17:
		return 2
	case distance >= 1<<9:
		return 1
	}
	return 0
}

// step writes what stands at a position, and returns how far that reaches.
func (e *encoder) step(at int) int {
	c := e.known
	if !e.have {
		c = e.look(at)
	}
	e.have = false
	useful := c.length >= minMatch+dear(c.distance)
	if c.repLength >= minMatch && (!useful || c.repLength+1 >= c.length || c.repLength+2 >= c.length && c.distance >= 1<<9 || c.repLength+3 >= c.length && c.distance >= 1<<15) {
		e.repeat(c.rep, c.repLength)
		e.skip(at+1, at+c.repLength)
		return c.repLength
	}
	if useful && at+1 < len(e.data) {
		// A byte as it is, if a better match begins behind it.
		next := e.look(at + 1)
		better := next.length > c.length+1 ||
			next.length == c.length+1 && !(next.distance>>7 > c.distance) ||
			next.length >= c.length && next.distance < c.distance ||
			next.length+1 == c.length && c.length >= 3 && c.distance>>7 > next.distance
		if better || next.repLength >= minMatch && next.repLength+1 >= c.length {
			e.known, e.have = next, true
			e.single(at)
			return 1
		}
		e.back(c.distance, c.length)
		e.skip(at+2, at+c.length)
		return c.length
	}
	e.single(at)
	return 1
}

// single writes one byte: as at the last distance if it is the same, else as it
// is.
func (e *encoder) single(at int) {
	if e.reps[0] <= at && e.data[at] == e.data[at-e.reps[0]] && e.state >= 7 {
		e.repeat(0, 1)
		return
	}
	e.one(e.data, at)
}
