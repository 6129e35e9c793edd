package load

import (
	"strconv"
	"strings"
)

// Regression is an equation fitted to one exercise and one group of lifters.
// It holds for people like them and has no inverse.
type Regression uint8

// The regressions, in kilograms: W is the load, R the repetitions to failure.
const (
	// ReynoldsChestPress is 1.1307 W + 0.6999 at five repetitions: Reynolds
	// et al. 2006, JSCR 20:584-592, seen.
	ReynoldsChestPress Regression = iota
	// ReynoldsLegPress is 1.0970 W + 14.2546 at five repetitions: Reynolds
	// et al. 2006, JSCR 20:584-592, seen.
	ReynoldsLegPress
	// KravitzSquat is 159.9 + 0.103 R W - 11.552 R, standard error 5.06 kg:
	// Kravitz et al. 2003, JSCR 17:167-172, seen; 18 high-school power lifters
	// at 70 % of their maximum.
	KravitzSquat
	// KravitzBenchPress is 90.66 + 0.085 R W - 5.306 R, standard error
	// 2.69 kg: Kravitz et al. 2003, seen; at 70 %.
	KravitzBenchPress
	// KravitzDeadlift is 156.08 + 0.098 R W - 12.106 R, standard error
	// 4.97 kg: Kravitz et al. 2003, seen; at 80 %.
	KravitzDeadlift

	regressions = iota
)

const regressionBeyond12 Regression = 1 << 7

var regressionNames = [regressions]string{
	"reynolds-chest-press", "reynolds-leg-press", "kravitz-squat", "kravitz-bench-press", "kravitz-deadlift",
}

// Regressions lists them.
func Regressions() []Regression {
	all := make([]Regression, regressions)
	for i := range all {
		all[i] = Regression(i)
	}
	return all
}

// Beyond12 is the same regression for more than 12 and up to 36 repetitions;
// such results are flagged as doubtful. It makes no difference to those that
// take five repetitions alone.
func (g Regression) Beyond12() Regression { return g | regressionBeyond12 }

func (g Regression) base() Regression { return g &^ regressionBeyond12 }

func (g Regression) known() bool { return g.base() < regressions }

// String is the name: "kravitz-squat", with "-beyond-12" when asked for that.
func (g Regression) String() string {
	if !g.known() {
		return "regression(" + strconv.Itoa(int(g)) + ")"
	}
	if g != g.base() {
		return regressionNames[g.base()] + beyondSuffix
	}
	return regressionNames[g]
}

// Source is the publication.
func (g Regression) Source() string {
	switch {
	case !g.known():
		return ""
	case g.base() <= ReynoldsLegPress:
		return "Reynolds et al. 2006, JSCR 20:584-592"
	}
	return "Kravitz et al. 2003, JSCR 17:167-172"
}

// MarshalText writes the name.
func (g Regression) MarshalText() ([]byte, error) {
	if !g.known() {
		var ps problems
		ps.add("", g.String(), "no such regression", "use one of "+strings.Join(regressionNames[:], ", "))
		return nil, ps.err()
	}
	return []byte(g.String()), nil
}

// OneRepMax estimates the one-repetition maximum, rounded to the nearest gram,
// ties down. One repetition gives the load itself. Reynolds' regressions take
// five repetitions only. Flags and refusals are those of [Curve.OneRepMax].
// Undefined too where the estimate is below the load that was lifted, as it is
// far from the loads a regression was fitted to (derived).
//
// Source: see the [Regression].
func (g Regression) OneRepMax(w Mass, reps Reps) (Estimate, bool) {
	limit := Reps(refusedReps)
	if g != g.base() {
		limit = mostReps
	}
	if !g.known() || !w.positive() || !within(float64(reps), 1, float64(limit)) {
		return Estimate{}, false
	}
	e := Estimate{Load: w, Method: g, Reps: reps, Doubtful: reps > doubtfulReps}
	if reps == 1 {
		return e, true
	}
	kg, r := w.Kilograms(), float64(reps)
	var max float64
	switch g.base() {
	case ReynoldsChestPress:
		max = 1.1307*kg + 0.6999
	case ReynoldsLegPress:
		max = 1.0970*kg + 14.2546
	case KravitzSquat:
		max = 159.9 + 0.103*r*kg - 11.552*r
	case KravitzBenchPress:
		max = 90.66 + 0.085*r*kg - 5.306*r
	case KravitzDeadlift:
		max = 156.08 + 0.098*r*kg - 12.106*r
	}
	if g.base() <= ReynoldsLegPress && reps != 5 {
		return Estimate{}, false
	}
	load, ok := roundGrams(max * 1000)
	if !ok || load < w {
		return Estimate{}, false
	}
	e.Load = load
	return e, true
}
