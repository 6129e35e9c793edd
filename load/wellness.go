package load

import "math"

// HooperScore is the sum of four ratings, 4 to 28. High is worse.
type HooperScore int

// HigherIsWorse is true.
func (HooperScore) HigherIsWorse() bool { return true }

// Hooper is four ratings from 1 to 7, 7 the worst.
type Hooper struct {
	Sleep, Fatigue, Stress, Soreness int
}

// Score is the sum. Undefined if a rating is outside 1 to 7.
//
// Source: Hooper and Mackinnon 1995, Sports Med 20:321-327, via secondary text.
func (h Hooper) Score() (HooperScore, bool) {
	sum, ok := ratings(7, h.Sleep, h.Fatigue, h.Stress, h.Soreness)
	return HooperScore(sum), ok
}

// McLeanScore is the sum of five ratings, 5 to 25. High is better.
type McLeanScore int

// HigherIsWorse is false.
func (McLeanScore) HigherIsWorse() bool { return false }

// McLean is five ratings from 1 to 5, 5 the best.
type McLean struct {
	Fatigue, Sleep, Soreness, Stress, Mood int
}

// Score is the sum. Undefined if a rating is outside 1 to 5.
//
// Source: McLean et al. 2010, IJSPP 5:367-383, via secondary text.
func (m McLean) Score() (McLeanScore, bool) {
	sum, ok := ratings(5, m.Fatigue, m.Sleep, m.Soreness, m.Stress, m.Mood)
	return McLeanScore(sum), ok
}

func ratings(most int, rs ...int) (sum int, ok bool) {
	for _, r := range rs {
		if r < 1 || r > most {
			return 0, false
		}
		sum += r
	}
	return sum, true
}

// WellnessScore is a sum that knows its direction.
type WellnessScore interface {
	~int
	HigherIsWorse() bool
}

// ZScore is how many standard deviations today is from the earlier days.
type ZScore struct {
	Z             float64
	HigherIsWorse bool
}

// Worse reports whether today is on the bad side of the earlier days' mean.
func (z ZScore) Worse() bool {
	if z.HigherIsWorse {
		return z.Z > 0
	}
	return z.Z < 0
}

// WellnessZ is (today - mean)/sample standard deviation of the earlier days,
// not rounded. Undefined for fewer than two earlier days, if they are all equal,
// and for scores beyond a million.
//
// Source: derived from the definition of a standard score.
func WellnessZ[S WellnessScore](earlier []S, today S) (ZScore, bool) {
	var b Baseline
	for _, s := range earlier {
		if !b.Add(float64(s)) {
			return ZScore{}, false
		}
	}
	z, ok := b.Z(float64(today))
	return ZScore{z, today.HigherIsWorse()}, ok
}

// Baseline is the mean and sample standard deviation of earlier days, a day at
// a time. The zero value has no days.
type Baseline struct {
	n             int
	mean, squares float64
}

// baselineMost bounds the values of a baseline, so that squares stay finite.
const baselineMost = 1e6

// Add appends a day's value and reports whether it counts: a number from -1e6
// to 1e6. It allocates nothing.
func (b *Baseline) Add(x float64) bool {
	if !within(x, -baselineMost, baselineMost) {
		return false
	}
	b.n++
	d := x - b.mean
	if b.n == 1 {
		b.mean = x // exactly, so that equal values have no spread
		return true
	}
	b.mean += d / float64(b.n)
	b.squares += d * (x - b.mean)
	return true
}

// Days is how many values were added.
func (b *Baseline) Days() int { return b.n }

// Mean is the mean of the values. Undefined without any.
func (b *Baseline) Mean() (float64, bool) { return b.mean, b.n > 0 }

// SD is their sample standard deviation. Undefined for fewer than two.
func (b *Baseline) SD() (float64, bool) {
	if b.n < 2 {
		return 0, false
	}
	return math.Sqrt(b.squares / float64(b.n-1)), true
}

// Z is the standard score of a value against the earlier ones. Undefined for
// fewer than two of them, if they are all equal, and for a value outside -1e6 to
// 1e6.
//
// Source: derived from the definition of a standard score.
func (b *Baseline) Z(x float64) (float64, bool) {
	sd, ok := b.SD()
	if !ok || !(sd > 0) || !within(x, -baselineMost, baselineMost) {
		return 0, false
	}
	z := (x - b.mean) / sd
	return z, finite(z)
}
