package whatif

// Generator names the generator of random seasons. It is raised whenever the same
// seed may give other seasons.
const Generator = "splitmix64-2"

// source is the generator SplitMix64 of Steele, Lea and Flood (Fast splittable
// pseudorandom number generators, OOPSLA 2014): a counter in steps of the golden
// ratio, and a mixer of it. It is short, the same on every machine, and each seed
// has its own sequence.
type source struct{ state uint64 }

func (s *source) next() uint64 {
	s.state += 0x9e3779b97f4a7c15
	z := s.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// stream returns the source of one season: it depends on seed and number alone.
func stream(seed uint64, season int) *source {
	s := source{seed}
	s.state = s.next() ^ uint64(season)*0xd1342543de82ef95
	return &source{s.next()}
}

// below returns a number from 0 to n-1, each equally often; 0 if n is not
// positive. It draws again where the highest part of the range is not whole.
func (s *source) below(n int) int {
	if n <= 1 {
		return 0
	}
	m := uint64(n)
	rest := -m % m // 2^64 modulo n
	for {
		if x := s.next(); x >= rest {
			return int(x % m)
		}
	}
}

// odds is true as often as so many of a thousand.
func (s *source) odds(ofThousand int) bool { return s.below(1000) < ofThousand }
