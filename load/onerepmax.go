package load

// Method is what an estimate of a one-repetition maximum rests on: a [Curve]
// or a [Regression].
type Method interface {
	String() string
	Source() string
	method()
}

func (Curve) method()      {}
func (Regression) method() {}

// Estimate is an estimated one-repetition maximum and what it rests on.
type Estimate struct {
	Load         Mass   `json:"load"`
	Method       Method `json:"method"`
	Reps         Reps   `json:"reps"`         // to failure, those left in reserve included
	Interpolated bool   `json:"interpolated"` // between two rows of a table
	Doubtful     bool   `json:"doubtful"`     // from more than 10 repetitions
}

// OneRepMax estimates the one-repetition maximum from a load lifted to
// failure, rounded to the nearest gram, ties down. One repetition gives the
// load itself, whatever the equation says there. More than 10 repetitions are
// flagged (linear equations are good to 10: Reynolds et al. 2006, JSCR
// 20:584-592, seen). Undefined below 1 and above 12 repetitions (above 15 or 36
// with [Curve.Beyond12]), and for a load that is not above 0 and at most
// [MaxMass].
//
// Source: see the [Curve]. Accuracy: r = 0.82 to 0.98 against the lifted
// maximum (Mayhew et al. 1995, J Sports Med Phys Fitness 35:108-113, seen).
func (c Curve) OneRepMax(w Mass, reps Reps) (Estimate, bool) {
	if reps > refusedReps && c == c.base() || !w.positive() {
		return Estimate{}, false
	}
	i, ok := c.Percent(reps)
	if !ok {
		return Estimate{}, false
	}
	max, ok := roundGrams(float64(w) * 100 / float64(i.Percent))
	if !ok {
		return Estimate{}, false
	}
	return Estimate{Load: max, Method: c, Reps: reps, Interpolated: i.Interpolated, Doubtful: i.Doubtful}, true
}
