package load_test

import (
	"fmt"
	"time"

	"example.org/weft/load"
)

func ExamplePrilepin() {
	z, ok := load.Prilepin(80)
	fmt.Println(z.RepsLow, z.RepsHigh, z.Optimum, z.TotalLow, z.TotalHigh, ok)
	// Output: 2 4 15 10 20 true
}

func ExampleCheckPrilepin() {
	fs, ok := load.CheckPrilepin(5, 5, 85)
	for _, f := range fs {
		fmt.Println(f.Code, f.Got, f.Limit)
	}
	fmt.Println(ok)
	// Output:
	// reps-per-set-high 5 4
	// total-reps-high 25 20
	// true
}

func ExampleGoal_Dose() {
	d, ok := load.Strength.Dose()
	fmt.Println(load.Strength.String(), d.PercentLow, d.RepsHigh, d.SetsLow, d.SetsHigh, d.RestLow, d.RestHigh, ok)
	// Output: strength 85 6 2 6 2m0s 5m0s true
}

func ExampleGoal_Check() {
	fs, ok := load.Power.Check(3, 3, 95, 3*time.Minute)
	fmt.Println(fs, ok)
	// Output: [{percent-high 95 90}] true
}

func ExampleInSeasonFrequency() {
	fmt.Println(load.InSeasonFrequency())
	// Output: 1 3
}

func ExampleTrainingStatus_WeeklyFrequency() {
	fmt.Println(load.Intermediate.WeeklyFrequency())
	// Output: 3 4 true
}

func ExampleNoviceLoad() {
	fmt.Println(load.NoviceLoad())
	// Output: 8 12
}

func ExampleProgression() {
	fmt.Println(load.Progression(80*load.Kilogram, 2))
	// Output: 81.6 kg 88 kg true
}

func ExampleBestTaper() {
	t := load.BestTaper()
	fmt.Println(t.Length, t.VolumeReductionLow, t.VolumeReductionHigh, t.KeepIntensity, t.Source)
	// Output: 14 41 60 true Bosquet et al. 2007, MSSE 39:1358-1365
}

func ExampleTotalVolumeLoad() {
	v, ok := load.TotalVolumeLoad([]load.SetGroup{
		{Sets: 4, Reps: 5, Load: 120 * load.Kilogram},
		{Sets: 3, Reps: 8, Load: 60 * load.Kilogram},
		{Sets: 3, Reps: 6, Load: 100 * load.Kilogram},
	})
	fmt.Println(v.String(), v.Kilograms(), ok)
	// Output: 5640 kg 5640 true
}

func ExampleTotalRelativeVolume() {
	fmt.Println(load.TotalRelativeVolume([]load.RelativeGroup{{Sets: 2, Reps: 5, Percent: 80}}))
	// Output: 8 true
}

func ExampleWeeklySets() {
	rows, ok := load.WeeklySets([]load.Work{
		{Sets: 3, Direct: []load.Pattern{"push"}},
		{Sets: 4, Direct: []load.Pattern{"trunk"}, Indirect: []load.Pattern{"push"}},
		{Sets: 3, Direct: []load.Pattern{"pull"}, Indirect: []load.Pattern{"push"}},
	})
	for _, r := range rows {
		band, _ := r.Total.Band()
		fmt.Println(r.Pattern, r.Direct, r.Indirect, r.Total, band.String())
	}
	fmt.Println(ok)
	// Output:
	// pull 3 0 3 below 5
	// push 3 7 6.5 5 to 9
	// trunk 4 0 4 below 5
	// true
}

func ExampleOutline_Duration() {
	squat := load.Block{Sets: 4, Reps: 5, Tempo: 4 * time.Second, Rest: 3 * time.Minute}
	row := load.Block{Sets: 3, Reps: 8, Tempo: 4 * time.Second, Rest: 90 * time.Second}
	fmt.Println(squat.Duration())
	o := load.Outline{WarmUp: 10 * time.Minute, Blocks: []load.Block{squat, row}, Change: 2 * time.Minute}
	d, ok := o.Duration()
	minutes, _ := load.MinutesOf(d)
	fmt.Printf("%v %.1f %v\n", d, float64(minutes), ok)
	// Output:
	// 10m20s true
	// 26m56s 26.9 true
}

func ExampleMinutesOf() {
	fmt.Println(load.MinutesOf(90 * time.Second))
	// Output: 1.5 true
}

func ExampleNewRack() {
	rack, err := load.NewRack(load.MensBar, []load.Disc{
		{Mass: 25 * load.Kilogram, Pairs: 1},
		{Mass: 20 * load.Kilogram, Pairs: 2},
		{Mass: 1250 * load.Gram, Pairs: 1},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	l, ok := rack.AtMost(100 * load.Kilogram)
	fmt.Println(l.Total, l.PerSide, ok)
	l, ok = rack.Above(100 * load.Kilogram)
	fmt.Println(l.Total, l.PerSide, ok)
	_, ok = rack.AtMost(15 * load.Kilogram)
	fmt.Println(ok)
	// Output:
	// 100 kg [20 kg 20 kg] true
	// 102.5 kg [20 kg 20 kg 1.25 kg] true
	// false
}

func ExampleGymDiscs() {
	rack, err := load.NewRack(load.WomensBar, load.GymDiscs())
	if err != nil {
		fmt.Println(err)
		return
	}
	l, ok := rack.AtMost(61_620 * load.Gram)
	fmt.Println(l.Total, l.PerSide, ok)
	// Output: 60 kg [20 kg 2.5 kg] true
}

func ExampleIWFDiscs() {
	rack, err := load.NewRack(load.MensBar, load.IWFDiscs())
	if err != nil {
		fmt.Println(err)
		return
	}
	l, ok := rack.AtMost(123_400 * load.Gram)
	fmt.Println(l.Total, l.PerSide, ok)
	// Output: 123 kg [25 kg 25 kg 1.5 kg] true
}

func ExampleFixedAtMost() {
	dumbbells := []load.Mass{10_000, 12_500, 15_000, 17_500}
	fmt.Println(load.FixedAtMost(16*load.Kilogram, dumbbells))
	fmt.Println(load.FixedAtMost(8*load.Kilogram, dumbbells))
	// Output:
	// 15 kg true
	// 0 kg false
}

func ExampleSupervisionLevel_AthletesPerCoach() {
	fmt.Println(load.SecondarySchool.AthletesPerCoach())
	// Output: 15 true
}

func ExampleCoachesNeeded() {
	fmt.Println(load.CoachesNeeded(31, 15))
	// Output: 3 true
}

func ExampleHoursOverAge() {
	fmt.Println(load.HoursOverAge(12, 12*time.Hour))
	fmt.Println(load.HoursOverAge(12, 12*time.Hour+30*time.Minute))
	// Output:
	// false true
	// true true
}

func ExampleRestOfYouth() {
	r := load.RestOfYouth()
	fmt.Println(r.DaysOffAWeek, r.DaysAWeekOfOneSport, r.MonthsAwayLow, r.MonthsAwayHigh)
	// Output: 1 5 2 3
}

func ExampleYouthStage_Dose() {
	d, ok := load.YouthStart.Dose()
	fmt.Println(d.SetsLow, d.SetsHigh, d.PercentHigh, d.DaysAWeekLow, d.DaysAWeekHigh, ok)
	// Output: 1 2 60 2 3 true
}

func ExampleConsecutiveDays() {
	monday := load.Day(20_458)
	fmt.Println(load.ConsecutiveDays([]load.Day{monday + 3, monday, monday + 1}))
	// Output: [[2026-01-05 2026-01-06]]
}
