package load

import "math"

// VelocityCurve is a general relation of mean propulsive bar velocity and
// percent of the one-repetition maximum, for one exercise.
type VelocityCurve uint8

// The curves; coefficients from memory.
const (
	// BenchPressVelocity is 8.4326 v^2 - 73.501 v + 112.33: Gonzalez-Badillo
	// and Sanchez-Medina 2010, IJSM 31:347-352.
	BenchPressVelocity VelocityCurve = iota
	// FullSquatVelocity is -5.961 v^2 - 50.71 v + 117.0: Sanchez-Medina et al.
	// 2017, SMIO 1:E80-E88.
	FullSquatVelocity
)

// AtMaximum is the velocity at the one-repetition maximum, as mean and standard
// deviation between lifters: bench press 0.16 +/- 0.04, full squat 0.32 +/- 0.03.
// Undefined for an unknown curve.
//
// Source: Gonzalez-Badillo and Sanchez-Medina 2010, IJSM 31:347-352, seen;
// Sanchez-Medina et al. 2017, SMIO 1:E80-E88, seen.
func (c VelocityCurve) AtMaximum() (mean, sd MetresPerSecond, ok bool) {
	switch c {
	case BenchPressVelocity:
		return 0.16, 0.04, true
	case FullSquatVelocity:
		return 0.32, 0.03, true
	}
	return 0, 0, false
}

func (c VelocityCurve) coefficients() (a, b, k float64) {
	if c == BenchPressVelocity {
		return 8.4326, -73.501, 112.33
	}
	return -5.961, -50.71, 117.0
}

// lightest is the lowest percentage that the general relations are used for.
const lightest = 30

// Percent is the percentage of the one-repetition maximum lifted at a velocity,
// not rounded; a little over 100 is possible near the maximum. Undefined for
// velocities more than a standard deviation below that at the maximum, and
// where the result is below 30 %.
//
// Source: see the [VelocityCurve]; the range of 30 % is from memory.
func (c VelocityCurve) Percent(v MetresPerSecond) (Percent, bool) {
	mean, sd, ok := c.AtMaximum()
	if !ok || !(v >= mean-sd) || v > 5 {
		return 0, false
	}
	a, b, k := c.coefficients()
	x := float64(v)
	p := a*x*x + b*x + k
	if !(p >= lightest) || 2*a*x+b >= 0 {
		return 0, false
	}
	return Percent(p), true
}

// Velocity is the velocity that belongs to a percentage, the inverse of
// [VelocityCurve.Percent]. Not rounded. Undefined outside 30 to 100 % and for an
// unknown curve.
//
// Source: derived.
func (c VelocityCurve) Velocity(p Percent) (MetresPerSecond, bool) {
	if _, _, ok := c.AtMaximum(); !ok || !within(float64(p), lightest, 100) {
		return 0, false
	}
	a, b, k := c.coefficients()
	// The root on the falling branch, in the form that does not cancel.
	root := math.Sqrt(b*b - 4*a*(k-float64(p)))
	return MetresPerSecond(2 * (k - float64(p)) / (-b + root)), true
}

// LoadVelocity is one lift: its load and mean velocity.
type LoadVelocity struct {
	Load     Mass
	Velocity MetresPerSecond
}

// VelocityLine is an athlete's own line, velocity = Intercept + Slope x load in
// kilograms.
type VelocityLine struct {
	Intercept MetresPerSecond
	Slope     float64 // metres per second per kilogram, below 0
	Points    int
	RSquared  float64 // share of the spread that the line explains
}

// FitVelocityLine is the least-squares line through an athlete's lifts. Not
// rounded. Undefined for fewer than two different loads, loads not above 0 and
// at most [MaxMass], velocities not above 0 and at most 10 m/s, and a line that
// does not fall.
//
// Source: derived (least squares).
func FitVelocityLine(lifts []LoadVelocity) (VelocityLine, bool) {
	n := len(lifts)
	if n < 2 {
		return VelocityLine{}, false
	}
	for _, l := range lifts {
		if !l.Load.positive() || !(l.Velocity > 0 && l.Velocity <= 10) {
			return VelocityLine{}, false
		}
	}
	kg := func(i int) float64 { return lifts[i].Load.Kilograms() }
	v := func(i int) float64 { return float64(lifts[i].Velocity) }
	meanKg, meanV := meanOf(n, kg), meanOf(n, v)
	var xx, xy, yy float64
	for i := range lifts {
		dx, dy := kg(i)-meanKg, v(i)-meanV
		xx += dx * dx
		xy += dx * dy
		yy += dy * dy
	}
	if !(xx > 0) || !(xy < 0) || !(yy > 0) {
		return VelocityLine{}, false
	}
	slope := xy / xx
	return VelocityLine{
		Intercept: MetresPerSecond(meanV - slope*meanKg),
		Slope:     slope,
		Points:    n,
		RSquared:  min(1, xy*xy/(xx*yy)),
	}, true
}

// OneRepMax is the load at which the line meets the velocity of a maximum, to
// the nearest gram, ties down. Undefined for a line that does not fall, a
// velocity not above 0 and at most 10 m/s, and a load not above 0 and at most
// [MaxMass].
//
// Source: derived.
func (l VelocityLine) OneRepMax(atMaximum MetresPerSecond) (Mass, bool) {
	if !(l.Slope < 0) || !(atMaximum > 0 && atMaximum <= 10) {
		return 0, false
	}
	m, ok := roundGrams((float64(atMaximum) - float64(l.Intercept)) / l.Slope * 1000)
	return m, ok && m > 0
}
