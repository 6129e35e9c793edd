package load

import (
	"cmp"
	"math/bits"
	"slices"
)

// Disc is a kind of disc and the pairs of it there are.
type Disc struct {
	Mass  Mass
	Pairs int
}

// Plenty is more pairs than any bar holds.
const Plenty = 1 << 20

// IWFDiscs is plenty of each competition disc: 25, 20, 15, 10, 5, 2.5, 2, 1.5, 1
// and 0.5 kg.
//
// Source: IWF equipment rules, seen.
func IWFDiscs() []Disc {
	return plentyOf(25_000, 20_000, 15_000, 10_000, 5000, 2500, 2000, 1500, 1000, 500)
}

// GymDiscs is plenty of each disc of an ordinary gym: 25, 20, 15, 10, 5, 2.5
// and 1.25 kg.
//
// Source: common practice, no source.
func GymDiscs() []Disc {
	return plentyOf(25_000, 20_000, 15_000, 10_000, 5000, 2500, 1250)
}

func plentyOf(ms ...Mass) []Disc {
	ds := make([]Disc, len(ms))
	for i, m := range ms {
		ds[i] = Disc{m, Plenty}
	}
	return ds
}

// Loading is a loaded bar.
type Loading struct {
	Total   Mass   `json:"total"`
	Bar     Mass   `json:"bar"`
	PerSide []Mass `json:"perSide"` // heaviest first, the same on both sides
}

// Rack is a bar and the discs there are for it. It knows every load that they
// build, so that no search is needed later. It never changes.
type Rack struct {
	bar   Mass
	discs []Disc // heaviest first
	unit  Mass   // every disc is a multiple of it
	// suffix[i] holds the loads of one side, in units, that the discs from the
	// i-th on build.
	suffix []bitset
}

// Limits of a rack.
const (
	maxSide  = 500 * Kilogram // on one side of the bar
	maxDisc  = 100 * Kilogram
	maxBar   = 500 * Kilogram
	maxKinds = 64
)

// NewRack takes a bar, collars included if they are used, and discs in any
// order; two entries of the same mass add up. Loads of up to 500 kg a side are
// kept. Refused, all at once: a bar not above 0 and at most 500 kg, a disc not
// above 0 and at most 100 kg, negative pairs, more than 64 entries.
func NewRack(bar Mass, discs []Disc) (*Rack, error) {
	var ps problems
	if bar <= 0 || bar > maxBar {
		ps.add("bar", bar.String(), "not above 0 and at most 500 kg", "give the mass of the empty bar")
	}
	if len(discs) > maxKinds {
		ps.add("discs", itoa(len(discs)), "more than 64 entries", "give each kind of disc once, with its pairs")
	}
	for i, d := range discs {
		path := "discs[" + itoa(i) + "]"
		if d.Mass <= 0 || d.Mass > maxDisc {
			ps.add(path+".mass", d.Mass.String(), "not above 0 and at most 100 kg", "give the mass of one disc")
		}
		if d.Pairs < 0 {
			ps.add(path+".pairs", itoa(d.Pairs), "fewer than none", "give the pairs there are, or Plenty")
		}
	}
	if len(ps) > 0 {
		return nil, ps.err()
	}
	r := &Rack{bar: bar}
	r.discs = mergeDiscs(discs)
	for _, d := range r.discs {
		r.unit = gcd(r.unit, d.Mass)
	}
	if r.unit == 0 {
		r.unit = maxSide // no discs: the bar alone
	}
	size := int(maxSide/r.unit) + 1
	r.suffix = make([]bitset, len(r.discs)+1)
	r.suffix[len(r.discs)] = newBitset(size)
	r.suffix[len(r.discs)].set(0)
	for i := len(r.discs) - 1; i >= 0; i-- {
		r.suffix[i] = r.suffix[i+1].clone()
		w := int(r.discs[i].Mass / r.unit)
		// Doubling steps reach every number of pairs from none to all.
		for left, step := min(r.discs[i].Pairs, (size-1)/w), 1; left > 0; step *= 2 {
			step = min(step, left)
			r.suffix[i].orShifted(step * w)
			left -= step
		}
	}
	return r, nil
}

func mergeDiscs(discs []Disc) []Disc {
	sorted := slices.Clone(discs)
	slices.SortFunc(sorted, func(a, b Disc) int { return cmp.Compare(b.Mass, a.Mass) })
	var merged []Disc
	for _, d := range sorted {
		d.Pairs = min(d.Pairs, Plenty)
		if n := len(merged); n > 0 && merged[n-1].Mass == d.Mass {
			merged[n-1].Pairs = min(merged[n-1].Pairs+d.Pairs, Plenty)
			continue
		}
		merged = append(merged, d)
	}
	return merged
}

// AtMost is the heaviest load that can be built and is not over the target. Of
// the ways to build it, it takes the one with the most of the heaviest disc,
// then of the next. Exact over a limited stock: one pair of 25 and two of 20
// give 40 a side as 20 and 20. Undefined for a target below the bar, and on a
// nil or zero Rack.
func (r *Rack) AtMost(target Mass) (Loading, bool) {
	if r == nil || len(r.suffix) == 0 || target < r.bar {
		return Loading{}, false
	}
	side := min((target-r.bar)/2, maxSide) / r.unit
	return r.build(r.suffix[0].last(int(side))), true
}

// Above is the lightest load that can be built and is over the given one, the
// next step up. Undefined if there is none, and on a nil or zero Rack.
func (r *Rack) Above(load Mass) (Loading, bool) {
	if r == nil || len(r.suffix) == 0 {
		return Loading{}, false
	}
	if load < r.bar {
		return r.build(0), true
	}
	if load >= r.bar+2*maxSide {
		return Loading{}, false
	}
	v, ok := r.suffix[0].next(int((load-r.bar)/2/r.unit) + 1)
	if !ok {
		return Loading{}, false
	}
	return r.build(v), true
}

// build takes a load of one side that is known to be reachable apart.
func (r *Rack) build(v int) Loading {
	l := Loading{Total: r.bar + 2*Mass(v)*r.unit, Bar: r.bar, PerSide: []Mass{}}
	for i, d := range r.discs {
		w := int(d.Mass / r.unit)
		k := min(d.Pairs, v/w)
		for !r.suffix[i+1].has(v - k*w) {
			k--
		}
		for range k {
			l.PerSide = append(l.PerSide, d.Mass)
		}
		v -= k * w
	}
	return l
}

// FixedAtMost is the heaviest of the fixed loads, such as dumbbells, that is
// not over the target. Undefined if all are, and if a load is not above 0 and at
// most [MaxMass].
func FixedAtMost(target Mass, loads []Mass) (Mass, bool) {
	var best Mass
	for _, m := range loads {
		if !m.positive() {
			return 0, false
		}
		if m <= target {
			best = max(best, m)
		}
	}
	return best, best > 0
}

func gcd(a, b Mass) Mass {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// bitset holds small numbers; bits from size on stay 0.
type bitset struct {
	words []uint64
	size  int
}

func newBitset(size int) bitset { return bitset{make([]uint64, (size+63)/64), size} }

func (b bitset) clone() bitset { return bitset{slices.Clone(b.words), b.size} }

func (b bitset) set(i int) { b.words[i/64] |= 1 << (i % 64) }

func (b bitset) has(i int) bool { return b.words[i/64]>>(i%64)&1 == 1 }

// orShifted adds every member plus n. It works downwards, so that it reads each
// word before it is changed.
func (b bitset) orShifted(n int) {
	skip, by := n/64, n%64
	for i := len(b.words) - 1; i >= skip; i-- {
		w := b.words[i-skip] << by
		if by > 0 && i > skip {
			w |= b.words[i-skip-1] >> (64 - by)
		}
		b.words[i] |= w
	}
	if tail := b.size % 64; tail > 0 {
		b.words[len(b.words)-1] &= 1<<tail - 1
	}
}

// last is the largest member up to i; 0 is always one.
func (b bitset) last(i int) int {
	w := b.words[i/64] << (63 - i%64)
	if w != 0 {
		return i - bits.LeadingZeros64(w)
	}
	for k := i/64 - 1; k >= 0; k-- {
		if b.words[k] != 0 {
			return k*64 + 63 - bits.LeadingZeros64(b.words[k])
		}
	}
	return 0
}

// next is the smallest member from i on.
func (b bitset) next(i int) (int, bool) {
	if i >= b.size {
		return 0, false
	}
	if w := b.words[i/64] >> (i % 64); w != 0 {
		return i + bits.TrailingZeros64(w), true
	}
	for k := i/64 + 1; k < len(b.words); k++ {
		if b.words[k] != 0 {
			return k*64 + bits.TrailingZeros64(b.words[k]), true
		}
	}
	return 0, false
}
