package load_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"example.org/weft/load"
)

func TestPublishedHeartRate(t *testing.T) {
	tanaka := paper{"Tanaka et al. 2001, JACC 37:153-156", secondaryDerived}
	for age, want := range map[load.Years]float64{15: 197.5, 20: 194, 30: 187, 40: 180} {
		r, ok := load.TanakaHeartRate.At(age)
		tanaka.near(t, fmt.Sprintf("age %v", age), float64(r), ok, want)
	}
	fox := paper{"Fox 1971", secondaryDerived}
	r, ok := load.FoxHeartRate.At(20)
	fox.near(t, "age 20", float64(r), ok, 200)
	r, ok = load.FoxHeartRate.At(40)
	fox.near(t, "age 40, equal to Tanaka", float64(r), ok, 180)
	low, high := load.MaxHeartRateSpread()
	exact(t, paper{"Fox 1971", secondary}, "standard deviation", fmt.Sprint(low, high), "10 12")
	gellish := paper{"Gellish et al. 2007, MSSE 39:822-829", secondaryDerived}
	r, ok = load.GellishHeartRate.At(30)
	gellish.near(t, "age 30", float64(r), ok, 186.8)

	karvonen := paper{"Karvonen", secondaryDerived}
	r, ok = load.AtReserve(60, 200, 70)
	karvonen.near(t, "60 and 200, 70 %", float64(r), ok, 158)
	r, ok = load.AtReserve(60, 200, 85)
	karvonen.near(t, "60 and 200, 85 %", float64(r), ok, 179)

	banister := paper{"Banister 1991", secondaryDerived}
	men, ok := load.TrainingImpulse(60, 60, 200, 150, load.TrimpMen)
	banister.near6(t, "60 min at 150, men", float64(men), ok, 84.8182)
	women, ok := load.TrainingImpulse(60, 60, 200, 150, load.TrimpWomen)
	banister.near6(t, "60 min at 150, women", float64(women), ok, 97.0533)

	low, high = load.RecoveryBand()
	exact(t, paper{"recovery ride", practice}, "beats a minute", fmt.Sprint(low, high), "130 145")
}

func TestPublishedResiduals(t *testing.T) {
	issurin := paper{"Issurin and Lustig 2004; Issurin 2010, Sports Med 40:189-206", secondary}
	for _, r := range []struct {
		q            load.Quality
		days, spread int
	}{
		{load.AerobicEndurance, 30, 5}, {load.MaximalStrength, 30, 5}, {load.GlycolyticEndurance, 18, 4},
		{load.StrengthEndurance, 15, 5}, {load.MaximalSpeed, 5, 3},
	} {
		d, s, ok := r.q.Residual()
		exact(t, issurin, r.q.String(), fmt.Sprint(d, s, ok), fmt.Sprint(r.days, r.spread, true))
	}
	dates := paper{issurin.source, derived}
	for _, r := range []struct {
		q                         load.Quality
		last, early, middle, late string
	}{
		{load.MaximalStrength, "2026-01-05", "2026-01-30", "2026-02-04", "2026-02-09"},
		{load.MaximalSpeed, "2026-01-05", "2026-01-07", "2026-01-10", "2026-01-13"},
		{load.GlycolyticEndurance, "2026-01-05", "2026-01-19", "2026-01-23", "2026-01-27"},
		{load.StrengthEndurance, "2026-01-05", "2026-01-15", "2026-01-20", "2026-01-25"},
		{load.MaximalStrength, "2026-08-26", "2026-09-20", "2026-09-25", "2026-09-30"},
	} {
		b, ok := r.q.ResidualAfter(day(t, r.last))
		name := fmt.Sprintf("%v after %s, ", r.q, r.last)
		exact(t, dates, name+"early", fmt.Sprint(b.Early, ok), r.early+" true")
		exact(t, dates, name+"middle", b.Middle.String(), r.middle)
		exact(t, dates, name+"late", b.Late.String(), r.late)
	}
	exact(t, dates, "2026-08-26 to 2026-11-01", int(day(t, "2026-11-01")-day(t, "2026-08-26")), 67)
	b, _ := load.MaximalStrength.ResidualAfter(day(t, "2026-08-26"))
	exact(t, dates, "67 days later", b.Phase(day(t, "2026-11-01")).String(), "band over")
}

func TestPublishedChange(t *testing.T) {
	hopkins := paper{"Hopkins 2000, Sports Med 30:1-15", seenDerived}
	first := []float64{38.2, 41.0, 35.5, 44.1, 39.7, 36.8, 42.4, 40.3}
	second := []float64{38.9, 40.1, 36.4, 43.2, 40.8, 36.1, 43.3, 39.9}
	r, ok := load.TypicalError(first, second)
	hopkins.near(t, "SD of differences", r.SDDifference, ok, 0.8887)
	hopkins.near(t, "typical error", r.TypicalError, ok, 0.6284)
	mdc, ok := load.MinimalDetectableChange(r.TypicalError)
	hopkins.near(t, "minimal detectable change", mdc, ok, 1.742)
	factor, ok := load.MinimalDetectableChange(1.0)
	hopkins.near(t, "factor of the typical error", factor, ok, 2.7719)
	swc, ok := load.SmallestWorthwhileChange([]float64{1, 2, 3, 4, 5, 6})
	paper{"Hopkins 2004, Sportscience 8:1-7", seenDerived}.near(t, "0.2 of the SD of 1 to 6", swc, ok, 0.3742)

	c, ok := load.ChangeProbabilities(3.0, 1.0, 1.5, 1, 1)
	hopkins.near(t, "+3.0, SWC 1.0, TE 1.5 higher", float64(c.Higher), ok, 82.71)
	hopkins.near(t, "+3.0, SWC 1.0, TE 1.5 trivial", float64(c.Trivial), ok, 14.32)
	hopkins.near(t, "+3.0, SWC 1.0, TE 1.5 lower", float64(c.Lower), ok, 2.967)
	c, ok = load.ChangeProbabilities(1.3, 1.3, 0.7, 1, 1)
	exact(t, hopkins, "a change equal to the SWC", fmt.Sprint(c.Higher, ok), "50 true")

	limit, ok := load.MinimalDetectableChange(1.1)
	hopkins.near(t, "limit of a jump, TE 1.1", limit, ok, 3.05)
	verdict, ok := load.CompareTests(34.1, 33.2, 1.1)
	exact(t, hopkins, "34.1 to 33.2 cm, TE 1.1", fmt.Sprint(verdict, ok), "no clear change true")

	te, ok := load.ErrorOf(kg(t, 140), 4.2)
	mdcMass, ok2 := load.MinimalDetectableChange(te)
	hopkins.near(t, "140 kg at CV 4.2 %", mdcMass.Kilograms(), ok && ok2, 16.30)

	h, ok := load.JumpHeight(550 * time.Millisecond)
	// Five digits are given.
	paper{"g t^2 / 8, g = 9.80665", derived}.within(t, "0.550 s", float64(h), ok, 0.37081, 2e-5)
}

func TestPublishedWellness(t *testing.T) {
	hooper := paper{"Hooper and Mackinnon 1995, Sports Med 20:321-327", secondary}
	low, ok := load.Hooper{Sleep: 1, Fatigue: 1, Stress: 1, Soreness: 1}.Score()
	exact(t, hooper, "lowest sum", fmt.Sprint(low, ok), "4 true")
	high, ok := load.Hooper{Sleep: 7, Fatigue: 7, Stress: 7, Soreness: 7}.Score()
	exact(t, hooper, "highest sum", fmt.Sprint(high, ok), "28 true")
	exact(t, hooper, "high is worse", high.HigherIsWorse(), true)
	_, ok = load.Hooper{Sleep: 8, Fatigue: 1, Stress: 1, Soreness: 1}.Score()
	hooper.undefined(t, "a rating of 8", ok)
	mclean := paper{"McLean et al. 2010, IJSPP 5:367-383", secondary}
	best, ok := load.McLean{Fatigue: 5, Sleep: 5, Soreness: 5, Stress: 5, Mood: 5}.Score()
	exact(t, mclean, "highest sum", fmt.Sprint(best, ok), "25 true")
	exact(t, mclean, "high is better", best.HigherIsWorse(), false)
	_, ok = load.McLean{Fatigue: 6, Sleep: 5, Soreness: 5, Stress: 5, Mood: 5}.Score()
	mclean.undefined(t, "a rating of 6", ok)

	z, ok := load.WellnessZ([]load.HooperScore{10, 12, 14}, 16)
	exact(t, paper{"standard score", derived}, "10, 12, 14, then 16", fmt.Sprint(z.Z, z.Worse(), ok), "2 true true")
	_, ok = load.WellnessZ([]load.HooperScore{10, 10, 10}, 16)
	paper{"standard score", derived}.undefined(t, "of equal days", ok)

	acsm := paper{"ACSM 2007, MSSE 39:377-390", seen}
	for today, want := range map[load.Mass]bool{78_400: true, 78_399: false, 81_600: true, 81_601: false} {
		in, ok := load.WithinHydration(80*load.Kilogram, today)
		exact(t, acsm, fmt.Sprintf("80 kg to %v", today), fmt.Sprint(in, ok), fmt.Sprint(want, true))
	}
}

func TestPublishedVelocity(t *testing.T) {
	bench := paper{"Gonzalez-Badillo and Sanchez-Medina 2010, IJSM 31:347-352", seen}
	squat := paper{"Sanchez-Medina et al. 2017, SMIO 1:E80-E88", seen}
	m, sd, ok := load.BenchPressVelocity.AtMaximum()
	exact(t, bench, "velocity at 1RM", fmt.Sprint(m, sd, ok), "0.16 0.04 true")
	m, sd, ok = load.FullSquatVelocity.AtMaximum()
	exact(t, squat, "velocity at 1RM", fmt.Sprint(m, sd, ok), "0.32 0.03 true")
	p, ok := load.BenchPressVelocity.Percent(0.50)
	paper{bench.source, memoryDerived}.near(t, "0.50 m/s", float64(p), ok, 77.69)
	p, ok = load.FullSquatVelocity.Percent(0.70)
	paper{squat.source, memoryDerived}.near(t, "0.70 m/s", float64(p), ok, 78.58)

	line := paper{"least squares", derived}
	l, ok := load.FitVelocityLine([]load.LoadVelocity{{40_000, 1.02}, {60_000, 0.77}, {80_000, 0.53}, {95_000, 0.34}})
	line.near(t, "slope", l.Slope, ok, -0.01232)
	max, ok := l.OneRepMax(0.17)
	line.near(t, "1RM at 0.17 m/s", max.Kilograms(), ok, 108.93)
	_, ok = load.FitVelocityLine([]load.LoadVelocity{{40_000, 0.5}, {60_000, 0.6}})
	line.undefined(t, "a rising slope", ok)
}

func TestPublishedStudies(t *testing.T) {
	for _, r := range []struct {
		topic  load.Topic
		source string
		nth    int // among that source's results
		value  float64
		band   [2]float64
	}{
		{load.Detraining, "Bosquet et al. 2013, SJMSS 23:e140-149", 0, -0.46, [2]float64{-0.54, -0.37}},
		{load.Detraining, "Bosquet et al. 2013, SJMSS 23:e140-149", 1, -0.20, [2]float64{}},
		{load.Detraining, "Mujika and Padilla 2000, 2001", 0, 4, [2]float64{}},
		{load.Detraining, "McMaster et al. 2013, Sports Med 43:367-384", 0, 3, [2]float64{}},
		{load.Maintenance, "Ronnestad et al. 2011, JSCR 25:2653-2660", 0, 1, [2]float64{}},
		{load.Maintenance, "Ronnestad et al. 2011, JSCR 25:2653-2660", 1, 0.5, [2]float64{}},
		{load.Maintenance, "Graves et al. 1988, IJSM 9:316-319", 0, 1, [2]float64{1, 2}},
		{load.Maintenance, "Graves et al. 1988, IJSM 9:316-319", 1, 68, [2]float64{}},
		{load.Maintenance, "Spiering et al. 2021, JSCR 35:1449-1458", 0, 1, [2]float64{}},
		{load.Maintenance, "Bickel et al. 2011, MSSE 43:1177-1187", 0, 0, [2]float64{}},
		{load.AfterLifting, "Thomas et al. 2018, MSSE 50:2526-2535", 0, 48, [2]float64{}},
		{load.AfterLifting, "Thomas et al. 2018, MSSE 50:2526-2535", 1, 72, [2]float64{}},
		{load.AfterLifting, "Helland et al. 2020, PeerJ 8:e10044", 0, 48, [2]float64{24, 48}},
		{load.AfterLifting, "Helland et al. 2020, PeerJ 8:e10044", 1, 48, [2]float64{}},
		{load.AfterGames, "McLean et al. 2010, IJSPP 5:367-383", 0, 48, [2]float64{}},
		{load.AfterGames, "McLean et al. 2010, IJSPP 5:367-383", 1, 4, [2]float64{}},
		{load.AfterGames, "West et al. 2014, JSCR 28:194-200", 0, -6.9, [2]float64{}},
		{load.AfterGames, "West et al. 2014, JSCR 28:194-200", 1, -5.6, [2]float64{}},
		{load.AfterGames, "West et al. 2014, JSCR 28:194-200", 2, 60, [2]float64{}},
		{load.AfterGames, "Julian et al. 2021, Sports Med 51:255-273", 0, 96, [2]float64{}},
		{load.Priming, "Harrison et al. 2019, Sports Med 49:1501-1514", 0, 48, [2]float64{1, 48}},
		{load.Priming, "Cook et al. 2014, JSAMS 17:317-321", 0, 6, [2]float64{}},
		{load.Priming, "Holmberg et al. 2022, SCJ 44:188-206", 0, 0, [2]float64{}},
		{load.MicroDosing, "Cuthbert et al. 2024, SCJ 46:180-201", 0, 0, [2]float64{}},
		{load.Injuries, "Lauersen et al. 2014, BJSM 48:871-877", 0, 0.315, [2]float64{0.207, 0.480}},
		{load.Injuries, "Lauersen et al. 2014, BJSM 48:871-877", 1, 0.527, [2]float64{0.373, 0.746}},
		{load.Injuries, "Lauersen et al. 2018, BJSM 52:1557-1563", 0, 0.338, [2]float64{0.238, 0.480}},
		{load.Injuries, "Haroy et al. 2019, BJSM", 0, 0.59, [2]float64{0.40, 0.86}},
		{load.Injuries, "van Dyk et al. 2019, BJSM 53:1362-1370", 0, 0.49, [2]float64{0.32, 0.74}},
		{load.Injuries, "Tyler et al. 2001, AJSM 29:124-128", 0, 17, [2]float64{}},
		{load.Injuries, "Tyler et al. 2002, AJSM 30:680-683", 0, 3.2, [2]float64{}},
		{load.Injuries, "Tyler et al. 2002, AJSM 30:680-683", 1, 0.71, [2]float64{}},
		{load.Reliability, "Grgic et al. 2020", 0, 4.2, [2]float64{0.5, 12.1}},
		{load.Reliability, "Moir et al. 2004, JSCR 18:276-280", 0, 2.6, [2]float64{1.9, 2.6}},
		{load.Reliability, "Alves Souza et al. 2020, Int J Exerc Sci 13(4):6-17", 0, 5.8, [2]float64{}},
		{load.Reliability, "Mayhew et al. 1995, J Sports Med Phys Fitness 35:108-113", 0, 0.98, [2]float64{0.82, 0.98}},
		{load.Reliability, "LeSuer et al. 1997, JSCR 11:211-213", 0, 0, [2]float64{}},
		{load.Reliability, "Hackett et al. 2017", 0, 1, [2]float64{}},
		{load.Reliability, "Hackett et al. 2017", 1, 2, [2]float64{}},
		{load.YouthSafety, "Lloyd et al. 2014, BJSM 48:498-505", 0, 0, [2]float64{}},
		{load.YouthSafety, "AAP 2020, Pediatrics 145(6):e20201011", 0, 0, [2]float64{}},
		{load.YouthSafety, "Faigenbaum et al. 2009, JSCR 23(5 Suppl):S60-S79", 0, 0, [2]float64{}},
	} {
		var found []load.Study
		for _, s := range load.Studies(r.topic) {
			if s.Source == r.source {
				found = append(found, s)
			}
		}
		if r.nth >= len(found) {
			t.Errorf("%s: %d results, want more than %d", r.source, len(found), r.nth)
			continue
		}
		s := found[r.nth]
		exact(t, paper{r.source, traced(s.Traced)}, s.Result,
			fmt.Sprint(s.Value, s.Low, s.High, s.Interval),
			fmt.Sprint(r.value, r.band[0], r.band[1], r.band != [2]float64{}))
	}
	julian := paper{"Julian et al. 2021, Sports Med 51:255-273", seen}
	c, ok := load.Congested(96 * time.Hour)
	exact(t, julian, "96.00 h", fmt.Sprint(c, ok), "false true")
	c, ok = load.Congested(96*time.Hour - time.Second)
	exact(t, julian, "a second less", fmt.Sprint(c, ok), "true true")
}

// The topics are complete, and every study says where it is from.
func TestStudiesAreSourced(t *testing.T) {
	all := load.Topics()
	for _, topic := range all {
		if len(load.Studies(topic)) == 0 {
			t.Errorf("topic %d has no studies", topic)
		}
		for _, s := range load.Studies(topic) {
			if s.Topic != topic || s.Result == "" || s.Source == "" || s.Traced == "" || (s.Measure == "") != (s.Value == 0) || math.IsNaN(s.Value) {
				t.Errorf("incomplete: %+v", s)
			}
		}
	}
	if load.Studies(load.Topic(len(all))) != nil {
		t.Error("a topic is missing from Topics")
	}
}
