package load

import (
	"math"
	"strconv"
	"strings"
)

// Curve relates repetitions to failure and percent of the one-repetition
// maximum (1RM): one handbook table and seven equations. The zero value is the
// table. Estimates name the curve they come from, since curves disagree.
type Curve uint8

// The curves. w is the load, r the repetitions to failure.
const (
	// Handbook is the table of the Essentials of Strength Training and
	// Conditioning (NSCA), via secondary text, 12 repetitions from memory.
	// Copies of it disagree at 11 and 12 repetitions; this one has 70 and 67 %.
	Handbook Curve = iota
	// Epley is w (1 + r/30): Epley 1985, via secondary text.
	Epley
	// Brzycki is 36 w/(37 - r): Brzycki 1993, JOPERD 64(1):88-90, via
	// secondary text.
	Brzycki
	// Lander is 100 w/(101.3 - 2.67123 r): Lander 1985, NSCA J 6:60-61, via
	// secondary text.
	Lander
	// Lombardi is w r^0.10: Lombardi 1989, via secondary text.
	Lombardi
	// Mayhew is 100 w/(52.2 + 41.9 e^(-0.055 r)): Mayhew et al. 1992, J Appl
	// Sport Sci Res 6:200-206, via secondary text.
	Mayhew
	// OConner is w (1 + 0.025 r): O'Conner et al. 1989, via secondary text.
	OConner
	// Wathan is 100 w/(48.8 + 53.8 e^(-0.075 r)): Wathan 1994, via secondary
	// text.
	Wathan

	curves = iota
)

// beyond12 marks a curve that was asked for more than 12 repetitions.
const beyond12 Curve = 1 << 7

// The limits of trust in estimates. Linear equations are good to 10
// repetitions (Reynolds et al. 2006, JSCR 20:584-592, seen).
const (
	doubtfulReps = 10 // an estimate from more is flagged
	refusedReps  = 12 // from more it must be asked for
	mostReps     = 36 // the pole of Brzycki's equation is at 37
)

var curveNames = [curves]string{"handbook", "epley", "brzycki", "lander", "lombardi", "mayhew", "oconner", "wathan"}

var curveSources = [curves]string{
	"Essentials of Strength Training and Conditioning (NSCA), table of %1RM and repetitions allowed",
	"Epley 1985",
	"Brzycki 1993, JOPERD 64(1):88-90",
	"Lander 1985, NSCA J 6:60-61",
	"Lombardi 1989",
	"Mayhew et al. 1992, J Appl Sport Sci Res 6:200-206",
	"O'Conner et al. 1989",
	"Wathan 1994",
}

const beyondSuffix = "-beyond-12"

// Curves lists the table and the seven equations.
func Curves() []Curve {
	all := make([]Curve, curves)
	for i := range all {
		all[i] = Curve(i)
	}
	return all
}

// Beyond12 is the same curve for more than 12 repetitions: up to 15 for the
// table, 36 for the equations. Such results are flagged as doubtful.
func (c Curve) Beyond12() Curve { return c | beyond12 }

func (c Curve) base() Curve { return c &^ beyond12 }

func (c Curve) known() bool { return c.base() < curves }

// String is the name: "epley", or "epley-beyond-12" when asked for that.
func (c Curve) String() string {
	if !c.known() {
		return "curve(" + strconv.Itoa(int(c)) + ")"
	}
	if c != c.base() {
		return curveNames[c.base()] + beyondSuffix
	}
	return curveNames[c]
}

// Source is the publication.
func (c Curve) Source() string {
	if !c.known() {
		return ""
	}
	return curveSources[c.base()]
}

// MarshalText writes the name.
func (c Curve) MarshalText() ([]byte, error) {
	if !c.known() {
		var ps problems
		ps.add("", c.String(), "no such curve", "use one of "+strings.Join(curveNames[:], ", "))
		return nil, ps.err()
	}
	return []byte(c.String()), nil
}

// UnmarshalText reads a name that String writes.
func (c *Curve) UnmarshalText(b []byte) error {
	name, beyond := strings.CutSuffix(string(b), beyondSuffix)
	for i, n := range curveNames {
		if n == name {
			*c = Curve(i)
			if beyond {
				*c = c.Beyond12()
			}
			return nil
		}
	}
	var ps problems
	ps.add("", quoted(string(b)), "no such curve", "use one of "+strings.Join(curveNames[:], ", "))
	return ps.err()
}

// limit is the most repetitions a percentage is given for.
func (c Curve) limit() Reps {
	switch {
	case c.base() == Handbook:
		return 15 // tabulated so far, never extrapolated
	case c != c.base():
		return mostReps
	}
	return refusedReps
}

// equation is the percentage of 1RM by formula, for r from 1.
func (c Curve) equation(r float64) float64 {
	switch c.base() {
	case Epley:
		return 3000 / (30 + r)
	case Brzycki:
		return 100 * (37 - r) / 36
	case Lander:
		return 101.3 - 2.67123*r
	case Lombardi:
		return 100 * math.Pow(r, -0.10)
	case Mayhew:
		return 52.2 + 41.9*math.Exp(-0.055*r)
	case OConner:
		return 100 / (1 + 0.025*r)
	case Wathan:
		return 48.8 + 53.8*math.Exp(-0.075*r)
	}
	return 0
}

// inverse solves equation(r) = p; callers keep p above the curve's limit.
func (c Curve) inverse(p float64) float64 {
	switch c.base() {
	case Epley:
		return 3000/p - 30
	case Brzycki:
		return 37 - 36*p/100
	case Lander:
		return (101.3 - p) / 2.67123
	case Lombardi:
		return math.Pow(p/100, -10)
	case Mayhew:
		return math.Log((p-52.2)/41.9) / -0.055
	case OConner:
		return (100/p - 1) / 0.025
	case Wathan:
		return math.Log((p-48.8)/53.8) / -0.075
	}
	return 0
}
