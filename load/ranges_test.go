package load_test

import (
	"math"
	"testing"
	"time"

	"example.org/weft/load"
)

// ok drops the value of a result.
func ok[T any](_ T, defined bool) bool { return defined }

func ok2[T, U any](_ T, _ U, defined bool) bool { return defined }

// Both sides of the edges that the comments state.
func TestStatedRanges(t *testing.T) {
	const hour, kilo = time.Hour, load.Kilogram
	nan := math.NaN()
	model := func(tau1, tau2 load.Days, k1, k2, p0 float64) bool {
		return ok(load.ImpulseModel{Tau1: tau1, Tau2: tau2, K1: k1, K2: k2, P0: p0}.After(nil))
	}
	body := func(m load.Mass) bool { return ok2(load.WeeklyBodyMass([7]load.BodyMass{3: {Mass: m, Known: true}})) }
	volume := func(sets, reps int, m load.Mass) bool {
		return ok(load.TotalVolumeLoad([]load.SetGroup{{Sets: sets, Reps: reps, Load: m}}))
	}
	relative := func(sets, reps int, p load.Percent) bool {
		return ok(load.TotalRelativeVolume([]load.RelativeGroup{{Sets: sets, Reps: reps, Percent: p}}))
	}
	weekly := func(sets int) bool { return ok(load.WeeklySets([]load.Work{{Sets: sets}})) }
	block := func(sets, reps int, tempo, rest time.Duration) bool {
		return ok(load.Block{Sets: sets, Reps: reps, Tempo: tempo, Rest: rest}.Duration())
	}
	line := func(a, b load.Mass, va, vb load.MetresPerSecond) bool {
		return ok(load.FitVelocityLine([]load.LoadVelocity{{a, va}, {b, vb}}))
	}
	steady := make([]load.DayLoad, 28)
	day := func(l load.AU) bool {
		for i := range steady {
			steady[i] = load.Known(l)
		}
		return ok(load.Coupled(steady)) && ok(load.Exponential(steady, load.Seed{})) && ok(load.Week([7]load.DayLoad(steady), load.Sample))
	}
	seed := func(a, c load.AU) bool {
		return ok(load.Exponential([]load.DayLoad{load.Known(1)}, load.Seed{Given: true, Acute: a, Chronic: c}))
	}

	for name, r := range map[string]struct{ in, out []bool }{
		"mass of an estimate": {
			[]bool{ok(load.Epley.OneRepMax(1, 2)), ok(load.Epley.OneRepMax(load.MaxMass, 1)), ok(load.KravitzSquat.OneRepMax(load.MaxMass, 1))},
			[]bool{ok(load.Epley.OneRepMax(0, 2)), ok(load.Epley.OneRepMax(-1, 2)), ok(load.Epley.OneRepMax(load.MaxMass+1, 1)), ok(load.Epley.OneRepMax(load.MaxMass, 2)), ok(load.KravitzSquat.OneRepMax(0, 5)), ok(load.ReynoldsLegPress.OneRepMax(load.MaxMass, 5))},
		},
		"repetitions of equations": {
			[]bool{ok(load.Wathan.Percent(1)), ok(load.Wathan.Percent(12)), ok(load.Wathan.Beyond12().Percent(36)), ok(load.KravitzSquat.OneRepMax(150*kilo, 12)), ok(load.KravitzSquat.Beyond12().OneRepMax(150*kilo, 36))},
			[]bool{ok(load.Wathan.Percent(0.99)), ok(load.Wathan.Percent(12.01)), ok(load.Wathan.Beyond12().Percent(36.01)), ok(load.Curve(8).Percent(5)), ok(load.KravitzSquat.OneRepMax(150*kilo, 12.5)), ok(load.KravitzSquat.Beyond12().OneRepMax(150*kilo, 37)), ok(load.KravitzSquat.OneRepMax(150*kilo, 0.5)), ok(load.Regression(5).OneRepMax(150*kilo, 5))},
		},
		"percent of a curve": {
			[]bool{ok(load.Handbook.Reps(100)), ok(load.Handbook.Reps(65)), ok(load.Brzycki.Reps(100 * 25.0 / 36))},
			[]bool{ok(load.Handbook.Reps(100.1)), ok(load.Handbook.Reps(64.9)), ok(load.Brzycki.Reps(69)), ok(load.Curve(8).Reps(80)), ok(load.Epley.Reps(load.Percent(nan)))},
		},
		"load for": {
			[]bool{ok(load.Handbook.LoadFor(load.MaxMass, 15))},
			[]bool{ok(load.Handbook.LoadFor(0, 5)), ok(load.Handbook.LoadFor(load.MaxMass+1, 5)), ok(load.Handbook.LoadFor(100*kilo, 15.5))},
		},
		"effort": {
			[]bool{ok(load.Effort(5).Reserve(load.TenMinus)), ok(load.Effort(10).Reserve(load.AsPublished)), ok(load.EffortLeaving(5)), ok(load.EffortLeaving(0)), ok(load.RaterError(0, false)), ok(load.RaterError(10, false)), ok(load.Epley.PercentAt(1, 10))},
			[]bool{ok(load.Effort(10.5).Reserve(load.TenMinus)), ok(load.Effort(8.3).Reserve(load.TenMinus)), ok(load.Effort(8).Reserve(2)), ok(load.EffortLeaving(5.5)), ok(load.EffortLeaving(-0.5)), ok(load.EffortLeaving(2.3)), ok2(load.Effort(6.5).ReserveBand()), ok(load.RaterError(-0.5, true)), ok(load.RaterError(10.5, false)), ok(load.Epley.PercentAt(0.5, 8)), ok(load.Epley.PercentAt(5, 4.5)), ok(load.Epley.LoadAt(100*kilo, 5, 11))},
		},
		"percent of a mass": {
			[]bool{ok(load.Percent(0).Of(100)), ok(load.Percent(200).Of(100)), ok(load.Percent(50).Of(0))},
			[]bool{ok(load.Percent(-1).Of(100)), ok(load.Percent(201).Of(100)), ok(load.Percent(50).Of(-1)), ok(load.Percent(101).Of(load.MaxMass))},
		},
		"zones": {
			[]bool{ok(load.Prilepin(0.1)), ok(load.Prilepin(109.9)), ok(load.CheckPrilepin(1, 1000, 80)), ok(load.Strength.Check(1000, 1, 110, 0))},
			[]bool{ok(load.Prilepin(0)), ok(load.Prilepin(110)), ok(load.Prilepin(load.Percent(nan))), ok(load.CheckPrilepin(0, 5, 80)), ok(load.CheckPrilepin(5, 1001, 80)), ok(load.Strength.Check(5, 5, 0, hour)), ok(load.Strength.Check(5, 5, 111, hour)), ok(load.Strength.Check(5, 5, 85, -1)), ok(load.Goal(4).Dose()), ok(load.Goal(4).Check(5, 5, 85, hour)), ok2(load.TrainingStatus(2).WeeklyFrequency()), ok2(load.Progression(0, 1)), ok2(load.Progression(100, 0.5)), ok2(load.Progression(load.MaxMass, 1))},
		},
		"volume": {
			[]bool{volume(0, 0, 0), volume(1000, 1000, load.MaxMass), relative(1000, 1, 110), weekly(0), weekly(1000), ok(load.Sets(0).Band())},
			[]bool{volume(-1, 1, 1), volume(1001, 1, 1), volume(1, -1, 1), volume(1, 1001, 1), volume(1, 1, -1), volume(1, 1, load.MaxMass+1), relative(1, 1, 111), relative(1, 1, -1), relative(-1, 1, 80), weekly(-1), weekly(1001), ok(load.Sets(-0.5).Band()), ok(load.Sets(math.Inf(1)).Band())},
		},
		"duration": {
			[]bool{block(0, 0, 0, 0), block(1000, 1, 0, 0), block(2, 3, 4*hour, 0), ok(load.Outline{WarmUp: 24 * hour, Change: 24 * hour}.Duration()), ok(load.Outline{Blocks: make([]load.Block, 1000)}.Duration()), ok(load.MinutesOf(0))},
			[]bool{block(-1, 1, 0, 0), block(1, 1001, 0, 0), block(1, 1, -1, 0), block(1, 1, 0, 25*hour), block(2, 3, 4*hour, 1), block(1000, 1000, 24*hour, 24*hour), ok(load.Outline{WarmUp: 24*hour + 1}.Duration()), ok(load.Outline{Change: -1}.Duration()), ok(load.Outline{Blocks: make([]load.Block, 1001)}.Duration()), ok(load.Outline{Blocks: []load.Block{{Sets: -1}}}.Duration()), ok(load.MinutesOf(-1))},
		},
		"session load": {
			[]bool{ok(load.SessionLoad(0, 0)), ok(load.SessionLoad(10, 1440)), day(0), day(load.MaxDayLoad), seed(0, load.MaxDayLoad)},
			[]bool{ok(load.SessionLoad(10.1, 60)), ok(load.SessionLoad(-1, 60)), ok(load.SessionLoad(5, 1441)), ok(load.SessionLoad(5, -1)), day(-1), day(load.MaxDayLoad * 1.01), day(load.AU(nan)), seed(-1, 0), seed(0, load.MaxDayLoad*1.01), ok(load.Week([7]load.DayLoad(make([]load.DayLoad, 7)), load.Sample)), ok(load.Exponential(nil, load.Seed{})), ok(load.Week(week(1, 2, 3, 4, 5, 6, 7), 2))},
		},
		"ratios": {
			[]bool{ok(load.CoupledFromUncoupled(0)), ok(load.UncoupledFromCoupled(0)), ok(load.UncoupledFromCoupled(3.99))},
			[]bool{ok(load.CoupledFromUncoupled(-0.1)), ok(load.CoupledFromUncoupled(math.MaxFloat64)), ok(load.UncoupledFromCoupled(4)), ok(load.UncoupledFromCoupled(-0.1))},
		},
		"impulse": {
			[]bool{model(3650, 0.1, 0, 0, 0), model(45, 15, 1e6, 1e6, 1e9), ok(load.DefaultImpulseModel().Response(0))},
			[]bool{model(3651, 15, 1, 2, 0), model(0, 15, 1, 2, 0), model(45, -1, 1, 2, 0), model(45, 15, -1, 2, 0), model(45, 15, 1, 1.1e6, 0), model(45, 15, 1, 2, 1.1e9), model(45, 15, 1, 2, nan), ok(load.DefaultImpulseModel().Response(-1)), ok(load.DefaultImpulseModel().Response(load.Days(math.Inf(1)))), ok(load.ImpulseModel{}.Response(1))},
		},
		"heart rate": {
			[]bool{ok(load.FoxHeartRate.At(10)), ok(load.FoxHeartRate.At(100)), ok(load.AtReserve(20, 250, 0)), ok(load.AtReserve(60, 200, 100)), ok(load.ReserveShare(60, 200, 60)), ok(load.ReserveShare(60, 200, 200)), ok(load.TrainingImpulse(1440, 60, 200, 150, load.TrimpMen))},
			[]bool{ok(load.FoxHeartRate.At(9)), ok(load.FoxHeartRate.At(101)), ok(load.MaxHeartRate(3).At(20)), ok(load.AtReserve(19, 200, 50)), ok(load.AtReserve(60, 251, 50)), ok(load.AtReserve(200, 200, 50)), ok(load.AtReserve(60, 200, 101)), ok(load.AtReserve(60, 200, -1)), ok(load.ReserveShare(60, 200, 59)), ok(load.ReserveShare(60, 200, 201)), ok(load.TrainingImpulse(1441, 60, 200, 150, load.TrimpMen)), ok(load.TrainingImpulse(60, 60, 200, 150, 2))},
		},
		"residual": {
			[]bool{ok(load.MaximalSpeed.ResidualAfter(2932888))},
			[]bool{ok(load.MaximalSpeed.ResidualAfter(2932889)), ok(load.Quality(5).ResidualAfter(0)), ok(load.MaximalSpeed.ResidualAfter(-719163))},
		},
		"change": {
			[]bool{ok(load.TypicalError([]float64{1, 2}, []float64{2, 1})), ok(load.SmallestWorthwhileChange([]float64{1, 1})), ok(load.ErrorOf(0.0, 0)), ok(load.ErrorOf(1.0, 100)), ok(load.MinimalDetectableChange(0.0)), ok(load.ChangeProbabilities(0.0, 0, 1, 1000, 1)), ok(load.CompareTests(1.0, 2, 0)), ok(load.TypicalError([]load.Mass{-1, 2}, []load.Mass{2, 1}))},
			[]bool{ok(load.TypicalError([]float64{1}, []float64{2})), ok(load.TypicalError([]float64{1, 2}, []float64{2, 1, 3})), ok(load.TypicalError([]float64{1, nan}, []float64{2, 1})), ok(load.TypicalError([]float64{1, -math.MaxFloat64}, []float64{1, math.MaxFloat64})), ok(load.SmallestWorthwhileChange([]float64{1})), ok(load.SmallestWorthwhileChange([]float64{1, math.Inf(1)})), ok(load.ErrorOf(-1.0, 5)), ok(load.ErrorOf(1.0, 101)), ok(load.MinimalDetectableChange(-1.0)), ok(load.MinimalDetectableChange(load.Mass(math.MaxInt64))), ok(load.ChangeProbabilities(0.0, -1, 1, 1, 1)), ok(load.ChangeProbabilities(0.0, 1, 0, 1, 1)), ok(load.ChangeProbabilities(0.0, 1, 1, 0, 1)), ok(load.ChangeProbabilities(0.0, 1, 1, 1, 1001)), ok(load.ChangeProbabilities(nan, 1, 1, 1, 1)), ok(load.CompareTests(1.0, nan, 1)), ok(load.CompareTests(1.0, 2, -1))},
		},
		"jump": {
			[]bool{ok(load.JumpHeight(1)), ok(load.JumpHeight(2 * time.Second))},
			[]bool{ok(load.JumpHeight(0)), ok(load.JumpHeight(2*time.Second + 1))},
		},
		"wellness": {
			[]bool{ok(load.Hooper{1, 7, 1, 7}.Score()), ok(load.McLean{1, 5, 1, 5, 1}.Score()), ok(load.WellnessZ([]load.HooperScore{1, 2}, 3))},
			[]bool{ok(load.Hooper{0, 7, 1, 7}.Score()), ok(load.Hooper{}.Score()), ok(load.McLean{1, 5, 0, 5, 1}.Score()), ok(load.WellnessZ([]load.HooperScore{1}, 3)), ok(load.WellnessZ([]load.HooperScore{1, 1_000_001}, 3)), ok(load.WellnessZ([]load.HooperScore{1, 2}, 1_000_001))},
		},
		"body mass": {
			[]bool{body(1), body(load.MaxMass), ok(load.WithinHydration(1, load.MaxMass))},
			[]bool{body(0), body(-1), body(load.MaxMass + 1), ok2(load.WeeklyBodyMass([7]load.BodyMass{})), ok(load.WithinHydration(0, 1)), ok(load.WithinHydration(1, 0))},
		},
		"velocity": {
			[]bool{ok(load.BenchPressVelocity.Percent(0.12)), ok(load.FullSquatVelocity.Percent(0.2901)), ok(load.BenchPressVelocity.Velocity(30)), ok(load.BenchPressVelocity.Velocity(100)), line(1, load.MaxMass, 10, 0.001), ok(load.VelocityLine{Intercept: 1, Slope: -0.01}.OneRepMax(0.2))},
			[]bool{ok(load.BenchPressVelocity.Percent(0.119)), ok(load.FullSquatVelocity.Percent(0.28)), ok(load.BenchPressVelocity.Percent(1.4)), ok(load.BenchPressVelocity.Percent(8)), ok(load.BenchPressVelocity.Velocity(29.9)), ok(load.BenchPressVelocity.Velocity(100.1)), ok(load.VelocityCurve(2).Velocity(80)), ok(load.VelocityCurve(2).Percent(0.5)), line(0, 2, 1, 0.5), line(1, load.MaxMass+1, 1, 0.5), line(1, 2, 10.1, 0.5), line(1, 2, 1, 0), line(5, 5, 1, 0.5), line(1, 2, 0.5, 0.5), line(1, 2, 0.5, 0.6), ok(load.FitVelocityLine([]load.LoadVelocity{{40_000, 1}})), ok(load.VelocityLine{Intercept: 1, Slope: -0.01}.OneRepMax(0)), ok(load.VelocityLine{Intercept: 1, Slope: -0.01}.OneRepMax(1)), ok(load.VelocityLine{Intercept: 1, Slope: -0.01}.OneRepMax(1.5)), ok(load.VelocityLine{Intercept: 1, Slope: 0.01}.OneRepMax(2)), ok(load.VelocityLine{Intercept: 1, Slope: -1e-9}.OneRepMax(0.2))},
		},
		"youth": {
			[]bool{ok(load.CoachesNeeded(0, 1)), ok(load.HoursOverAge(4, 0)), ok(load.HoursOverAge(18, 168*hour)), ok(load.Congested(0))},
			[]bool{ok(load.CoachesNeeded(-1, 10)), ok(load.CoachesNeeded(10, 0)), ok(load.HoursOverAge(3, 0)), ok(load.HoursOverAge(19, 0)), ok(load.HoursOverAge(12, -1)), ok(load.HoursOverAge(12, 168*hour+1)), ok(load.Congested(-1)), ok(load.SupervisionLevel(3).AthletesPerCoach()), ok(load.YouthStage(2).Dose())},
		},
		"fixed loads": {
			[]bool{ok(load.FixedAtMost(1, []load.Mass{1, 2}))},
			[]bool{ok(load.FixedAtMost(0, []load.Mass{1, 2})), ok(load.FixedAtMost(5, nil)), ok(load.FixedAtMost(5, []load.Mass{1, 0})), ok(load.FixedAtMost(5, []load.Mass{1, load.MaxMass + 1}))},
		},
	} {
		for i, defined := range r.in {
			if !defined {
				t.Errorf("%s: in-range case %d is undefined", name, i)
			}
		}
		for i, defined := range r.out {
			if defined {
				t.Errorf("%s: out-of-range case %d is defined", name, i)
			}
		}
	}
}

// The rest behind the last set takes no time, and no sets take none at all.
func TestBlockDuration(t *testing.T) {
	for sets, want := range map[int]time.Duration{0: 0, 1: 20 * time.Second, 2: 130 * time.Second} {
		d, ok := load.Block{Sets: sets, Reps: 5, Tempo: 4 * time.Second, Rest: 90 * time.Second}.Duration()
		if d != want || !ok {
			t.Errorf("%d sets take %v", sets, d)
		}
	}
}

// Names in words, for every value and for one beyond.
func TestNamesInWords(t *testing.T) {
	for want, got := range map[string]string{
		"strength": load.Strength.String(), "power": load.Power.String(), "hypertrophy": load.Hypertrophy.String(),
		"muscular endurance": load.MuscularEndurance.String(), "unknown goal": load.Goal(9).String(),
		"below 5": load.FewSets.String(), "5 to 9": load.MediumSets.String(), "10 or more": load.ManySets.String(), "band 9": load.SetsBand(9).String(),
		"retained": load.Retained.String(), "fading": load.Fading.String(), "band over": load.BandOver.String(), "unknown phase": load.ResidualPhase(9).String(),
		"no clear change": load.NoClearChange.String(), "clearly higher": load.ClearlyHigher.String(), "clearly lower": load.ClearlyLower.String(), "unknown verdict": load.ChangeVerdict(9).String(),
		"unknown quality": load.Quality(9).String(), "aerobic endurance": load.AerobicEndurance.String(), "maximal speed": load.MaximalSpeed.String(),
		"regression(9)": load.Regression(9).String(), "": load.Regression(9).Source() + load.Curve(9).Source(),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	for after, want := range map[float64]load.ChangeVerdict{103.04: load.NoClearChange, 103.06: load.ClearlyHigher, 96.94: load.ClearlyLower, 96.96: load.NoClearChange} {
		if v, ok := load.CompareTests(100, after, 1.1); v != want || !ok {
			t.Errorf("100 to %v: %v", after, v)
		}
	}
	band := load.ResidualBand{Early: 10, Middle: 12, Late: 14}
	for on, want := range map[load.Day]load.ResidualPhase{9: load.Retained, 10: load.Fading, 14: load.Fading, 15: load.BandOver} {
		if got := band.Phase(on); got != want {
			t.Errorf("day %d: %v", on, got)
		}
	}
}
