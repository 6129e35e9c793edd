package load

import "math"

// MaxHeartRate is an equation for the maximal heart rate by age. A measured
// maximum is better than any of them.
type MaxHeartRate uint8

// The equations.
const (
	// TanakaHeartRate is 208 - 0.7 age: Tanaka et al. 2001, JACC 37:153-156,
	// via secondary text.
	TanakaHeartRate MaxHeartRate = iota
	// FoxHeartRate is 220 - age: Fox 1971, via secondary text; standard
	// deviation 10 to 12 beats.
	FoxHeartRate
	// GellishHeartRate is 206.9 - 0.67 age: Gellish et al. 2007, MSSE
	// 39:822-829, via the commentary printed with it.
	GellishHeartRate
)

// At is the estimate for an age, not rounded. Undefined outside 10 to 100
// years and for an unknown equation. The equations come from adults.
//
// Source: see the [MaxHeartRate].
func (e MaxHeartRate) At(age Years) (BPM, bool) {
	if !within(float64(age), 10, 100) {
		return 0, false
	}
	switch e {
	case TanakaHeartRate:
		return BPM(208 - 0.7*age), true
	case FoxHeartRate:
		return BPM(220 - age), true
	case GellishHeartRate:
		return BPM(206.9 - 0.67*age), true
	}
	return 0, false
}

// MaxHeartRateSpread is the standard deviation of measured maxima about 220 -
// age: 10 to 12 beats.
//
// Source: Fox 1971, via secondary text.
func MaxHeartRateSpread() (low, high BPM) { return 10, 12 }

// heartRates reports whether a resting and a maximal heart rate make sense.
func heartRates(rest, max BPM) bool {
	return within(float64(rest), 20, 250) && within(float64(max), 20, 250) && rest < max
}

// AtReserve is the heart rate at a percentage of the heart-rate reserve:
// rest + p (max - rest). Not rounded. Undefined for heart rates outside 20 to
// 250, a rest not below the maximum, and percentages outside 0 to 100.
//
// Source: Karvonen's method, via secondary text.
func AtReserve(rest, max BPM, p Percent) (BPM, bool) {
	if !heartRates(rest, max) || !within(float64(p), 0, 100) {
		return 0, false
	}
	return rest + BPM(p)/100*(max-rest), true
}

// ReserveShare is the percentage of the heart-rate reserve that a heart rate
// uses, the inverse of [AtReserve]. Not rounded. Undefined as there, and for a
// heart rate outside rest to max.
//
// Source: Karvonen's method, via secondary text.
func ReserveShare(rest, max, rate BPM) (Percent, bool) {
	if !heartRates(rest, max) || !(rate >= rest && rate <= max) {
		return 0, false
	}
	return Percent((rate - rest) / (max - rest) * 100), true
}

// TrimpWeights is the set of constants of the training impulse.
type TrimpWeights uint8

// The sets, a e^(b x) for the share x of the heart-rate reserve.
const (
	TrimpMen   TrimpWeights = iota // a 0.64, b 1.92
	TrimpWomen                     // a 0.86, b 1.67
)

// TrainingImpulse is minutes x share of the reserve x a e^(b share), not
// rounded. Undefined for minutes outside 0 to 1440, where [ReserveShare] is, and
// for unknown weights.
//
// Source: Banister 1991, via secondary text.
func TrainingImpulse(m Minutes, rest, max, mean BPM, w TrimpWeights) (Trimp, bool) {
	share, ok := ReserveShare(rest, max, mean)
	if !ok || !within(float64(m), 0, 1440) {
		return 0, false
	}
	x := float64(share) / 100
	switch w {
	case TrimpMen:
		return Trimp(float64(m) * x * 0.64 * math.Exp(1.92*x)), true
	case TrimpWomen:
		return Trimp(float64(m) * x * 0.86 * math.Exp(1.67*x)), true
	}
	return 0, false
}

// RecoveryBand is the heart rate of an easy recovery ride, 130 to 145 a minute.
// It fits no one athlete: offer [ReserveShare] of it, or a talk test, beside
// it.
//
// Source: common practice, no source.
func RecoveryBand() (low, high BPM) { return 130, 145 }
