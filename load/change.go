package load

import "math"

// Quantity is a measured value in its unit: kilograms as [Mass], metres,
// seconds as time.Duration, or a plain number. Results in whole units (grams,
// nanoseconds) are rounded to the nearest, ties down.
type Quantity interface {
	~float64 | ~int64
}

// Retest is how well a test repeats, from two trials of the same athletes
// without a change between them.
type Retest[T Quantity] struct {
	Pairs        int
	MeanChange   T // second trial minus first
	SDDifference T // sample standard deviation of the differences
	TypicalError T // SDDifference / sqrt 2
	// CV is the typical error as a coefficient of variation, from the logarithms
	// of the trials: 100 (e^s - 1). Undefined if a value is not above 0.
	CV        Percent
	CVDefined bool
}

// TypicalError compares two trials pair by pair. Undefined for fewer than two
// pairs, unequal lengths, values that are not finite, and results that do not
// fit their unit.
//
// Source: Hopkins 2000, Sports Med 30:1-15, seen.
func TypicalError[T Quantity](first, second []T) (Retest[T], bool) {
	n := len(first)
	if n < 2 || n != len(second) || !allFinite(first) || !allFinite(second) {
		return Retest[T]{}, false
	}
	difference := func(i int) float64 { return float64(second[i]) - float64(first[i]) }
	mean := meanOf(n, difference)
	sd := sdOf(n, n-1, mean, difference)
	r := Retest[T]{Pairs: n}
	var ok [3]bool
	r.MeanChange, ok[0] = quantity[T](mean)
	r.SDDifference, ok[1] = quantity[T](sd)
	r.TypicalError, ok[2] = quantity[T](sd / math.Sqrt2)
	if ok != [3]bool{true, true, true} {
		return Retest[T]{}, false
	}
	r.CV, r.CVDefined = retestCV(first, second)
	return r, true
}

func retestCV[T Quantity](first, second []T) (Percent, bool) {
	for i := range first {
		if first[i] <= 0 || second[i] <= 0 {
			return 0, false
		}
	}
	ratio := func(i int) float64 { return math.Log(float64(second[i])) - math.Log(float64(first[i])) }
	n := len(first)
	s := sdOf(n, n-1, meanOf(n, ratio), ratio) / math.Sqrt2
	cv := 100 * math.Expm1(s)
	return Percent(cv), finite(cv)
}

// ErrorOf is the typical error of a value at a coefficient of variation.
// Undefined for a value that is negative or not finite and a percentage outside
// 0 to 100.
//
// Source: Hopkins 2000, Sports Med 30:1-15, seen.
func ErrorOf[T Quantity](value T, cv Percent) (T, bool) {
	if !(value >= 0) || !within(float64(cv), 0, 100) {
		return 0, false
	}
	return quantity[T](float64(value) * float64(cv) / 100)
}

// MinimalDetectableChange is the change that 95 % of unchanged athletes stay
// within: 1.96 sqrt 2 = 2.7719 typical errors. Undefined for a typical error
// that is negative or not finite.
//
// Source: Hopkins 2000, Sports Med 30:1-15, seen.
func MinimalDetectableChange[T Quantity](typicalError T) (T, bool) {
	if !(typicalError >= 0) {
		return 0, false
	}
	return quantity[T](1.96 * math.Sqrt2 * float64(typicalError))
}

// SmallestWorthwhileChange is 0.2 of the sample standard deviation between
// athletes. Undefined for fewer than two athletes and values that are not
// finite.
//
// Source: Hopkins 2004, Sportscience 8:1-7, seen.
func SmallestWorthwhileChange[T Quantity](athletes []T) (T, bool) {
	n := len(athletes)
	if n < 2 || !allFinite(athletes) {
		return 0, false
	}
	at := func(i int) float64 { return float64(athletes[i]) }
	return quantity[T](0.2 * sdOf(n, n-1, meanOf(n, at), at))
}

// ChangeVerdict is what a single retest says.
type ChangeVerdict uint8

// The verdicts.
const (
	NoClearChange ChangeVerdict = iota
	ClearlyHigher
	ClearlyLower
)

// String is the verdict in words.
func (v ChangeVerdict) String() string {
	switch v {
	case NoClearChange:
		return "no clear change"
	case ClearlyHigher:
		return "clearly higher"
	case ClearlyLower:
		return "clearly lower"
	}
	return "unknown verdict"
}

// CompareTests says whether a test has changed by more than its minimal
// detectable change. Undefined where that is, and for values that are not
// finite.
//
// Source: Hopkins 2000, Sports Med 30:1-15, seen.
func CompareTests[T Quantity](before, after, typicalError T) (ChangeVerdict, bool) {
	mdc, ok := MinimalDetectableChange(float64(typicalError))
	d := float64(after) - float64(before)
	if !ok || !finite(d) {
		return NoClearChange, false
	}
	switch {
	case d > mdc:
		return ClearlyHigher, true
	case d < -mdc:
		return ClearlyLower, true
	}
	return NoClearChange, true
}

// ChangeChances is how likely a true change is higher than the smallest
// worthwhile one, trivial, or lower. They sum to 100.
type ChangeChances struct {
	Higher, Trivial, Lower Percent
}

// ChangeProbabilities weighs an observed change against the smallest worthwhile
// one, under a flat prior: higher is Phi((d - SWC)/(TE sqrt(1/n1 + 1/n2))), for
// n1 trials before and n2 after. Not rounded. Undefined for a typical error that
// is not above 0, a negative smallest worthwhile change, trials outside 1 to
// 1000, and values that are not finite.
//
// Source: Hopkins 2004, Sportscience 8:1-7, seen.
func ChangeProbabilities[T Quantity](change, swc, typicalError T, n1, n2 int) (ChangeChances, bool) {
	d, s, te := float64(change), float64(swc), float64(typicalError)
	if !finite(d) || !finite(s) || !finite(te) || !(te > 0) || s < 0 || !counted(n1) || !counted(n2) {
		return ChangeChances{}, false
	}
	scale := te * math.Sqrt(1/float64(n1)+1/float64(n2))
	up, down := (d-s)/scale, (-s-d)/scale
	if math.IsNaN(up) || math.IsNaN(down) {
		return ChangeChances{}, false
	}
	higher, lower := normal(up), normal(down)
	// The middle as what is left sums to 100, and may not be below 0.
	trivial := math.Max(0, 1-higher-lower)
	return ChangeChances{Percent(100 * higher), Percent(100 * trivial), Percent(100 * lower)}, true
}

func allFinite[T Quantity](xs []T) bool {
	for _, x := range xs {
		if !finite(float64(x)) {
			return false
		}
	}
	return true
}

// quantity turns a computed number back into its unit.
func quantity[T Quantity](x float64) (T, bool) {
	if !finite(x) {
		return 0, false
	}
	half := 0.5
	if T(half) != 0 { // a fraction survives: T is a float
		return T(x), true
	}
	x = nearestTiesDown(x)
	if !within(x, -1<<62, 1<<62) {
		return 0, false
	}
	return T(x), true
}
