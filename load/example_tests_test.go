package load_test

import (
	"fmt"
	"time"

	"example.org/weft/load"
)

func ExampleMaxHeartRate_At() {
	fmt.Println(load.TanakaHeartRate.At(15))
	fmt.Println(load.FoxHeartRate.At(15))
	// Output:
	// 197.5 true
	// 205 true
}

func ExampleMaxHeartRateSpread() {
	fmt.Println(load.MaxHeartRateSpread())
	// Output: 10 12
}

func ExampleAtReserve() {
	fmt.Println(load.AtReserve(60, 200, 70))
	// Output: 158 true
}

func ExampleReserveShare() {
	low, high := load.RecoveryBand()
	a, _ := load.ReserveShare(60, 200, low)
	b, ok := load.ReserveShare(60, 200, high)
	fmt.Printf("%.0f to %.0f %% %v\n", float64(a), float64(b), ok)
	// Output: 50 to 61 % true
}

func ExampleRecoveryBand() {
	fmt.Println(load.RecoveryBand())
	// Output: 130 145
}

func ExampleTrainingImpulse() {
	t, ok := load.TrainingImpulse(60, 60, 200, 150, load.TrimpMen)
	fmt.Printf("%.4f %v\n", float64(t), ok)
	// Output: 84.8182 true
}

func ExampleQuality_Residual() {
	fmt.Println(load.MaximalSpeed.Residual())
	// Output: 5 3 true
}

func ExampleQuality_ResidualAfter() {
	last, err := load.ParseDay("2026-01-05")
	if err != nil {
		fmt.Println(err)
		return
	}
	b, ok := load.MaximalStrength.ResidualAfter(last)
	fmt.Println(load.MaximalStrength.String(), b.Early, b.Middle, b.Late, ok)
	fmt.Println(b.Phase(last).String(), b.Phase(b.Middle), b.Phase(b.Late+1))
	// Output:
	// maximal strength 2026-01-30 2026-02-04 2026-02-09 true
	// retained fading band over
}

func ExampleTypicalError() {
	r, ok := load.TypicalError(
		[]load.Mass{100_000, 120_000, 90_000, 140_000},
		[]load.Mass{102_500, 117_500, 92_500, 145_000},
	)
	fmt.Println(r.Pairs, r.MeanChange, r.SDDifference, r.TypicalError, ok)
	fmt.Printf("%.1f %% %v\n", float64(r.CV), r.CVDefined)
	// Output:
	// 4 1.875 kg 3.146 kg 2.224 kg true
	// 1.8 % true
}

func ExampleErrorOf() {
	te, ok := load.ErrorOf(140*load.Kilogram, 4.2)
	mdc, ok2 := load.MinimalDetectableChange(te)
	fmt.Println(te, mdc, ok, ok2)
	// Output: 5.88 kg 16.299 kg true true
}

func ExampleMinimalDetectableChange() {
	cm, ok := load.MinimalDetectableChange(1.1)
	fmt.Printf("%.2f %v\n", cm, ok)
	// Output: 3.05 true
}

func ExampleSmallestWorthwhileChange() {
	sprint := []time.Duration{1710 * time.Millisecond, 1790 * time.Millisecond, 1830 * time.Millisecond, 1750 * time.Millisecond}
	swc, ok := load.SmallestWorthwhileChange(sprint)
	fmt.Println(swc.Round(time.Millisecond), ok)
	// Output: 10ms true
}

func ExampleCompareTests() {
	v, ok := load.CompareTests(34.1, 33.2, 1.1)
	fmt.Println(v.String(), ok)
	// Output: no clear change true
}

func ExampleChangeProbabilities() {
	c, ok := load.ChangeProbabilities(3.0, 1.0, 1.5, 1, 1)
	fmt.Printf("%.2f %.2f %.2f %v\n", float64(c.Higher), float64(c.Trivial), float64(c.Lower), ok)
	// Output: 82.71 14.32 2.97 true
}

func ExampleJumpHeight() {
	h, ok := load.JumpHeight(550 * time.Millisecond)
	fmt.Printf("%.4f m %v\n", float64(h), ok)
	// Output: 0.3708 m true
}

func ExampleHooper_Score() {
	s, ok := load.Hooper{Sleep: 2, Fatigue: 4, Stress: 3, Soreness: 5}.Score()
	fmt.Println(s, s.HigherIsWorse(), ok)
	// Output: 14 true true
}

func ExampleMcLean_Score() {
	s, ok := load.McLean{Fatigue: 3, Sleep: 4, Soreness: 2, Stress: 4, Mood: 5}.Score()
	fmt.Println(s, s.HigherIsWorse(), ok)
	// Output: 18 false true
}

func ExampleWellnessZ() {
	z, ok := load.WellnessZ([]load.McLeanScore{20, 18, 22}, 16)
	fmt.Println(z.Z, z.Worse(), ok)
	_, ok = load.WellnessZ([]load.McLeanScore{20, 20, 20}, 16)
	fmt.Println(ok)
	// Output:
	// -2 true true
	// false
}

func ExampleBaseline() {
	var b load.Baseline
	for _, x := range []float64{10, 12, 14} {
		b.Add(x)
	}
	fmt.Println(b.Days())
	fmt.Println(b.Mean())
	fmt.Println(b.SD())
	fmt.Println(b.Z(15))
	// Output:
	// 3
	// 12 true
	// 2 true
	// 1.5 true
}

func ExampleWeeklyBodyMass() {
	fmt.Println(load.WeeklyBodyMass([7]load.BodyMass{{Mass: 80_200, Known: true}, {Mass: 79_800, Known: true}}))
	// Output: 80 kg 2 true
}

func ExampleWithinHydration() {
	fmt.Println(load.WithinHydration(80*load.Kilogram, 78_400*load.Gram))
	// Output: true true
}

func ExampleVelocityCurve_Percent() {
	p, ok := load.BenchPressVelocity.Percent(0.50)
	fmt.Printf("%.2f %v\n", float64(p), ok)
	// Output: 77.69 true
}

func ExampleVelocityCurve_Velocity() {
	v, ok := load.FullSquatVelocity.Velocity(80)
	mean, sd, _ := load.FullSquatVelocity.AtMaximum()
	fmt.Printf("%.2f m/s %v, %v +/- %v at the maximum\n", float64(v), ok, mean, sd)
	// Output: 0.68 m/s true, 0.32 +/- 0.03 at the maximum
}

func ExampleFitVelocityLine() {
	l, ok := load.FitVelocityLine([]load.LoadVelocity{{40_000, 1.02}, {60_000, 0.77}, {80_000, 0.53}, {95_000, 0.34}})
	max, ok2 := l.OneRepMax(0.17)
	fmt.Printf("%.5f %.2f kg %v %v\n", l.Slope, max.Kilograms(), ok, ok2)
	// Output: -0.01232 108.93 kg true true
}

func ExampleTopics() {
	n := 0
	for _, t := range load.Topics() {
		n += len(load.Studies(t))
	}
	fmt.Println(len(load.Topics()), n)
	// Output: 9 42
}

func ExampleStudies() {
	for _, s := range load.Studies(load.Detraining)[:1] {
		fmt.Println(s.Result)
		fmt.Println(s.Measure, s.Value, s.Low, s.High)
		fmt.Println(s.Source, "-", s.Traced)
	}
	// Output:
	// maximal force falls when training stops
	// standardised mean difference -0.46 -0.54 -0.37
	// Bosquet et al. 2013, SJMSS 23:e140-149 - seen
}

func ExampleCongested() {
	fmt.Println(load.Congested(95*time.Hour + 59*time.Minute))
	// Output: true true
}
