package load

import (
	"math"
	"time"
)

// Percent runs from 0 to 100: 80 % is Percent(80), never 0.8.
type Percent float64

// Reps counts repetitions. Half repetitions occur where a reserve is rated in
// halves.
type Reps float64

// Sets counts sets. Halves occur where indirect sets count half.
type Sets float64

// Minutes is a length of time in minutes.
type Minutes float64

// AU is an internal load in arbitrary units: rating times minutes.
type AU float64

// Trimp is a training impulse by heart rate, in its own arbitrary units.
type Trimp float64

// BPM is a heart rate in beats per minute.
type BPM float64

// Years is an age or a training age in years.
type Years float64

// Days is a length of time in days.
type Days float64

// Metres is a length, such as a jump height.
type Metres float64

// MetresPerSecond is a velocity, such as that of a bar.
type MetresPerSecond float64

// Of is the percentage of a mass, rounded down to the gram, as prescribed
// loads are. Undefined for a percentage outside 0-200, for a mass that is
// negative or over [MaxMass], and where the result is over MaxMass.
func (p Percent) Of(m Mass) (Mass, bool) {
	if !within(float64(p), 0, 200) || !m.valid() {
		return 0, false
	}
	return floorGrams(float64(m) * float64(p) / 100)
}

// MinutesOf converts a duration. Undefined if it is negative.
func MinutesOf(d time.Duration) (Minutes, bool) {
	if d < 0 {
		return 0, false
	}
	return Minutes(d.Minutes()), true
}

// within reports whether x is a number from lo to hi; NaN never is.
func within(x, lo, hi float64) bool { return x >= lo && x <= hi }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// quotient is a/b where that is a finite number and b is positive.
func quotient(a, b float64) (float64, bool) {
	if !(b > 0) {
		return 0, false
	}
	q := a / b
	return q, finite(q)
}

// nearestTiesDown is the rounding of every conversion and estimate.
func nearestTiesDown(x float64) float64 { return math.Ceil(x - 0.5) }
