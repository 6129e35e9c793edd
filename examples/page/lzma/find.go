package lzma

// finder finds earlier places with the same bytes: chains of positions that begin
// with the same four bytes, and the last one with the same two and three.
type finder struct {
	data  []byte
	heads []int32 // by hash of four bytes
	chain []int32 // the position before with the same hash
	two   []int32
	three []int32
	at    int // positions before this one are in the chains
}

const (
	headBits  = 20
	threeBits = 16
	depth     = 48 // positions looked at in a chain
)

func newFinder(data []byte) *finder {
	f := &finder{data: data, heads: make([]int32, 1<<headBits), chain: make([]int32, len(data)), two: make([]int32, 1<<16), three: make([]int32, 1<<threeBits)}
	for _, t := range [][]int32{f.heads, f.two, f.three} {
		for i := range t {
			t[i] = -1
		}
	}
	return f
}

func (f *finder) hash(at int) (two, three, four uint32) {
	d := f.data[at:]
	two = uint32(d[0]) | uint32(d[1])<<8
	v := two | uint32(d[2])<<16
	three = v * 2654435761 >> (32 - threeBits)
	four = (v | uint32(d[3])<<24) * 2654435761 >> (32 - headBits)
	return two, three, four
}

// insert puts a position into the chains.
func (f *finder) insert(at int) {
	if at+4 > len(f.data) {
		return
	}
	a, b, c := f.hash(at)
	f.two[a], f.three[b] = int32(at), int32(at)
	f.chain[at] = f.heads[c]
	f.heads[c] = int32(at)
}

// skip puts positions that are not looked at into the chains.
func (f *finder) skip(from, to int) {
	for at := max(from, f.at); at < to; at++ {
		f.insert(at)
	}
	f.at = max(f.at, to)
}

// match is an earlier place with the same bytes.
type match struct{ length, distance int }

// matches appends the matches at a position, each longer than the one before and
// the nearest of its length.
func (f *finder) matches(at int, out []match) []match {
	f.skip(f.at, at)
	if at < f.at || at+4 > len(f.data) {
		return out
	}
	a, b, c := f.hash(at)
	most, longest := min(maxMatch, len(f.data)-at), 1
	try := func(p int32) {
		if p < 0 || longest >= most || f.data[int(p)+longest] != f.data[at+longest] {
			return
		}
		n := 0
		for n < most && f.data[int(p)+n] == f.data[at+n] {
			n++
		}
		if n > longest {
			longest = n
			out = append(out, match{n, at - int(p)})
		}
	}
	try(f.two[a])
	try(f.three[b])
	p := f.heads[c]
	for i := 0; i < depth && p >= 0 && longest < nice; i++ {
		try(p)
		p = f.chain[p]
	}
	f.insert(at)
	f.at = at + 1
	return out
}
