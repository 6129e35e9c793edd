package load

import (
	"math"
	"strconv"
	"strings"
)

// Mass is a mass in whole grams. Loads are not negative; the result of a
// subtraction may be.
type Mass int64

// The units of mass that are a whole number of grams. The pound is not one:
// see [Pounds].
const (
	Gram     Mass = 1
	Kilogram Mass = 1000
)

// MaxMass is the largest mass that is read, taken or returned: 10,000 kg.
const MaxMass = 10_000 * Kilogram

// The bars of competition (IWF equipment rules, seen).
const (
	MensBar   = 20 * Kilogram
	WomensBar = 15 * Kilogram
)

// gramsPerPound is exact: 1 lb = 0.45359237 kg (international agreement of
// 1959, via secondary text).
const gramsPerPound = 453.59237

// Unit is a unit in which a mass is written.
type Unit uint8

// The units of [Mass.Text].
const (
	InKilograms Unit = iota
	InPounds
)

// Kilograms is the mass of x kg, to the nearest gram, ties down. NaN,
// infinities, negative values and values over [MaxMass] are refused.
func Kilograms(x float64) (Mass, error) { return massOf(x, 1000, "kg") }

// Pounds is the mass of x lb of 0.45359237 kg, to the nearest gram, ties
// down. NaN, infinities, negative values and values over [MaxMass] are
// refused. Text is converted exactly by [ParseMass]; a float64 carries its own
// rounding.
func Pounds(x float64) (Mass, error) { return massOf(x, gramsPerPound, "lb") }

func massOf(x, grams float64, unit string) (Mass, error) {
	var ps problems
	value := strconv.FormatFloat(x, 'g', -1, 64) + " " + unit
	switch {
	case !finite(x):
		ps.add("", value, "not a finite number", "give a load from 0 to 10000 kg")
	case x < 0:
		ps.add("", value, "a load is not negative", "give a load from 0 to 10000 kg")
	case nearestTiesDown(x*grams) > float64(MaxMass):
		ps.add("", value, "over 10000 kg", "check the unit and the number")
	}
	if len(ps) > 0 {
		return 0, ps.err()
	}
	// Ceil of a small negative is -0, which converts to 0.
	return Mass(nearestTiesDown(x * grams)), nil
}

// Kilograms is the mass in kilograms.
func (m Mass) Kilograms() float64 { return float64(m) / 1000 }

// Pounds is the mass in pounds of 0.45359237 kg, not rounded.
func (m Mass) Pounds() float64 { return float64(m) / gramsPerPound }

// String is the mass in kilograms, exact to the gram: "102.5 kg".
func (m Mass) String() string { return thousandths(int64(m)) + " kg" }

// Text is the mass in a unit: exact in kilograms, to two decimals in pounds,
// trailing zeros left out. Pounds with two decimals survive [ParseMass] and
// Text unchanged. An unknown unit is written in kilograms.
func (m Mass) Text(u Unit) string {
	if u != InPounds {
		return m.String()
	}
	s := strconv.FormatFloat(m.Pounds(), 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		s = "0"
	}
	return s + " lb"
}

func (m Mass) valid() bool { return m >= 0 && m <= MaxMass }

func (m Mass) positive() bool { return m > 0 && m <= MaxMass }

// thousandths writes n/1000 without a float, so that it is exact.
func thousandths(n int64) string {
	sign := ""
	u := uint64(n)
	if n < 0 {
		sign, u = "-", -u
	}
	s := sign + strconv.FormatUint(u/1000, 10)
	if f := u % 1000; f != 0 {
		s += strings.TrimRight("."+strconv.FormatUint(1000+f, 10)[1:], "0")
	}
	return s
}

// roundGrams is an estimate as a mass: nearest gram, ties down.
func roundGrams(g float64) (Mass, bool) {
	if !within(g, 0, float64(MaxMass)) {
		return 0, false
	}
	return Mass(nearestTiesDown(g)), true
}

// floorGrams is a prescription as a mass: down to the gram. A millionth of a
// gram is forgiven, so that 75 % of 100 kg is not a gram short.
func floorGrams(g float64) (Mass, bool) {
	if !within(g, 0, float64(MaxMass)) {
		return 0, false
	}
	return Mass(math.Floor(g + 1e-6)), true
}
