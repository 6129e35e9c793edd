package load_test

import (
	"fmt"

	"example.org/weft/load"
)

func ExampleCurves() {
	for _, c := range load.Curves() {
		e, ok := c.OneRepMax(100*load.Kilogram, 5)
		fmt.Printf("%-9s %6.1f kg %v, %s\n", c, e.Load.Kilograms(), ok, c.Source())
	}
	// Output:
	// handbook   114.9 kg true, Essentials of Strength Training and Conditioning (NSCA), table of %1RM and repetitions allowed
	// epley      116.7 kg true, Epley 1985
	// brzycki    112.5 kg true, Brzycki 1993, JOPERD 64(1):88-90
	// lander     113.7 kg true, Lander 1985, NSCA J 6:60-61
	// lombardi   117.5 kg true, Lombardi 1989
	// mayhew     119.0 kg true, Mayhew et al. 1992, J Appl Sport Sci Res 6:200-206
	// oconner    112.5 kg true, O'Conner et al. 1989
	// wathan     116.6 kg true, Wathan 1994
}

func ExampleCurve_OneRepMax() {
	e, ok := load.Brzycki.OneRepMax(102*load.Kilogram+500*load.Gram, 4)
	fmt.Println(e.Load, e.Method, ok)

	e, ok = load.Brzycki.OneRepMax(60*load.Kilogram, 11)
	fmt.Println(e.Load, e.Doubtful, ok)

	_, ok = load.Brzycki.OneRepMax(60*load.Kilogram, 14)
	fmt.Println(ok)
	e, ok = load.Brzycki.Beyond12().OneRepMax(60*load.Kilogram, 14)
	fmt.Println(e.Load, e.Method, e.Doubtful, ok)
	// Output:
	// 111.818 kg brzycki true
	// 83.077 kg true true
	// false
	// 93.913 kg brzycki-beyond-12 true true
}

func ExampleCurve_Percent() {
	i, ok := load.Handbook.Percent(13)
	fmt.Printf("%.2f %% of %v, interpolated %v, doubtful %v, %v\n", float64(i.Percent), i.Curve, i.Interpolated, i.Doubtful, ok)
	_, ok = load.Handbook.Percent(16)
	fmt.Println(ok)
	// Output:
	// 66.33 % of handbook, interpolated true, doubtful true, true
	// false
}

func ExampleCurve_Reps() {
	i, ok := load.Epley.Reps(80)
	fmt.Println(i.Reps, ok)
	// Output: 7.5 true
}

func ExampleCurve_LoadFor() {
	fmt.Println(load.Handbook.LoadFor(152*load.Kilogram, 15))
	// Output: 98.8 kg true
}

func ExampleCurve_MarshalText() {
	b, err := load.Wathan.Beyond12().MarshalText()
	fmt.Println(string(b), err)
	var c load.Curve
	err = c.UnmarshalText(b)
	fmt.Println(c.String(), err)
	// Output:
	// wathan-beyond-12 <nil>
	// wathan-beyond-12 <nil>
}

func ExampleRegressions() {
	for _, g := range load.Regressions() {
		e, ok := g.OneRepMax(130*load.Kilogram, 5)
		fmt.Println(g, e.Load, ok, "-", g.Source())
	}
	// Output:
	// reynolds-chest-press 147.691 kg true - Reynolds et al. 2006, JSCR 20:584-592
	// reynolds-leg-press 156.865 kg true - Reynolds et al. 2006, JSCR 20:584-592
	// kravitz-squat 169.09 kg true - Kravitz et al. 2003, JSCR 17:167-172
	// kravitz-bench-press 0 kg false - Kravitz et al. 2003, JSCR 17:167-172
	// kravitz-deadlift 159.25 kg true - Kravitz et al. 2003, JSCR 17:167-172
}

func ExampleRegression_OneRepMax() {
	e, ok := load.KravitzSquat.OneRepMax(120*load.Kilogram, 10)
	fmt.Println(e.Load, e.Method.String(), e.Doubtful, ok)

	_, ok = load.KravitzSquat.OneRepMax(120*load.Kilogram, 13)
	fmt.Println(ok)
	g := load.KravitzSquat.Beyond12()
	e, ok = g.OneRepMax(120*load.Kilogram, 13)
	b, err := g.MarshalText()
	fmt.Println(e.Load, string(b), e.Doubtful, ok, err)
	// Output:
	// 167.98 kg kravitz-squat false true
	// false
	// 170.404 kg kravitz-squat-beyond-12 true true <nil>
}

func ExampleEffort_Reserve() {
	fmt.Println(load.Effort(8).Reserve(load.TenMinus))
	fmt.Println(load.Effort(9.5).Reserve(load.AsPublished))
	fmt.Println(load.Effort(4).Reserve(load.TenMinus))
	// Output:
	// 2 true
	// 0 true
	// 0 false
}

func ExampleEffort_ReserveBand() {
	fmt.Println(load.Effort(8.5).ReserveBand())
	fmt.Println(load.Effort(5).ReserveBand())
	// Output:
	// 1 2 true
	// 4 6 true
}

func ExampleEffortLeaving() {
	fmt.Println(load.EffortLeaving(2))
	// Output: 8 true
}

func ExampleRaterError() {
	fmt.Println(load.RaterError(2, false))
	fmt.Println(load.RaterError(2, true))
	// Output:
	// 1 true
	// 2 true
}

func ExampleCurve_PercentAt() {
	i, ok := load.Handbook.PercentAt(3, 8.5)
	fmt.Println(i.Percent, i.Reps, i.Interpolated, ok)
	// Output: 88.5 4.5 true true
}

func ExampleCurve_OneRepMaxAt() {
	e, ok := load.Epley.OneRepMaxAt(120*load.Kilogram, 5, 8)
	fmt.Println(e.Load, e.Reps, ok)
	// Output: 148 kg 7 true
}

func ExampleCurve_LoadAt() {
	fmt.Println(load.Epley.LoadAt(76*load.Kilogram, 5, 8))
	// Output: 61.621 kg true
}
