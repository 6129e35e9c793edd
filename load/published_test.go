package load_test

import (
	"math"
	"testing"

	"example.org/weft/load"
)

// traced says how far a published value was followed.
type traced string

const (
	seen      traced = "seen in source"
	secondary traced = "via secondary text"
	memory    traced = "from memory"
	derived   traced = "derived"
	practice  traced = "common practice, no source"
	// A published equation, with a value computed from it.
	secondaryDerived traced = "equation via secondary text, value derived"
	memoryDerived    traced = "equation from memory, value derived"
	seenDerived      traced = "equation seen in source, value derived"
)

// paper is where expected values come from; each of its checks is a subtest
// that names it.
type paper struct {
	source string
	traced traced
}

func (p paper) run(t *testing.T, name string, f func(t *testing.T)) {
	t.Helper()
	t.Run(p.source+" ("+string(p.traced)+"): "+name, f)
}

// near checks a value published with four digits.
func (p paper) near(t *testing.T, name string, got float64, ok bool, want float64) {
	t.Helper()
	p.within(t, name, got, ok, want, 5e-4)
}

// near6 checks a value published with six digits.
func (p paper) near6(t *testing.T, name string, got float64, ok bool, want float64) {
	t.Helper()
	p.within(t, name, got, ok, want, 5e-6)
}

func (p paper) within(t *testing.T, name string, got float64, ok bool, want, tolerance float64) {
	t.Helper()
	p.run(t, name, func(t *testing.T) {
		t.Helper()
		if !ok {
			t.Fatalf("undefined, want %v", want)
		}
		if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
			t.Errorf("got %v, want %v within %v", got, want, tolerance)
		}
	})
}

// exact checks a count, a date or a text.
func exact[T comparable](t *testing.T, p paper, name string, got, want T) {
	t.Helper()
	p.run(t, name, func(t *testing.T) {
		t.Helper()
		if got != want {
			t.Errorf("got %v, want %v", got, want)
		}
	})
}

func (p paper) undefined(t *testing.T, name string, ok bool) {
	t.Helper()
	exact(t, p, name+" is undefined", ok, false)
}

func kg(t testing.TB, x float64) load.Mass {
	t.Helper()
	m, err := load.Kilograms(x)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func day(t testing.TB, s string) load.Day {
	t.Helper()
	d, err := load.ParseDay(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func known(loads ...float64) []load.DayLoad {
	days := make([]load.DayLoad, len(loads))
	for i, l := range loads {
		days[i] = load.Known(load.AU(l))
	}
	return days
}

func week(loads ...float64) [7]load.DayLoad { return [7]load.DayLoad(known(loads...)) }
