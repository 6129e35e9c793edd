package oracle

// Source is a stream of random numbers that is the same on every machine:
// splitmix64 (Steele, Lea, Flood 2014, OOPSLA, from memory).
type Source struct{ state uint64 }

// NewSource starts a stream.
func NewSource(seed uint64) *Source { return &Source{seed} }

// Uint64 returns the next number.
func (s *Source) Uint64() uint64 {
	s.state += 0x9e3779b97f4a7c15
	z := s.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Int returns a number from lo to hi, both included.
func (s *Source) Int(lo, hi int) int { return lo + int(s.Uint64()%uint64(hi-lo+1)) }

// Odds is true once in n draws.
func (s *Source) Odds(n int) bool { return s.Int(1, n) == 1 }

func pick[T any](s *Source, from ...T) T { return from[s.Int(0, len(from)-1)] }
