package load_test

import (
	"fmt"
	"testing"
	"time"

	"example.org/weft/load"
)

func TestPublishedPrilepin(t *testing.T) {
	p := paper{"Prilepin's table, 1970s", secondary}
	for _, r := range []struct {
		percent                                 load.Percent
		low, high, optimum, totalLow, totalHigh int
	}{
		{69.99, 3, 6, 24, 18, 30}, {70, 3, 6, 18, 12, 24}, {79.99, 3, 6, 18, 12, 24},
		{80, 2, 4, 15, 10, 20}, {89.99, 2, 4, 15, 10, 20}, {90, 1, 2, 7, 4, 10}, {100, 1, 2, 7, 4, 10},
	} {
		z, ok := load.Prilepin(r.percent)
		exact(t, p, fmt.Sprintf("%v %%", r.percent),
			fmt.Sprint(ok, z.RepsLow, z.RepsHigh, z.Optimum, z.TotalLow, z.TotalHigh),
			fmt.Sprint(true, r.low, r.high, r.optimum, r.totalLow, r.totalHigh))
	}
	fs, ok := load.CheckPrilepin(5, 5, 85)
	exact(t, p, "5 x 5 at 85 %", fmt.Sprint(ok, fs), "true [{reps-per-set-high 5 4} {total-reps-high 25 20}]")
	fs, ok = load.CheckPrilepin(5, 3, 85)
	exact(t, p, "5 x 3 at 85 % fits", fmt.Sprint(ok, len(fs)), "true 0")
}

func TestPublishedGoals(t *testing.T) {
	p := paper{"NSCA Essentials, goals", secondary}
	for _, r := range []struct {
		goal load.Goal
		want load.Dose
	}{
		{load.Strength, load.Dose{PercentLow: 85, PercentHigh: 100, RepsLow: 1, RepsHigh: 6, SetsLow: 2, SetsHigh: 6, RestLow: 2 * time.Minute, RestHigh: 5 * time.Minute}},
		{load.Power, load.Dose{PercentLow: 75, PercentHigh: 90, RepsLow: 1, RepsHigh: 5, SetsLow: 3, SetsHigh: 5, RestLow: 2 * time.Minute, RestHigh: 5 * time.Minute}},
		{load.Hypertrophy, load.Dose{PercentLow: 67, PercentHigh: 85, RepsLow: 6, RepsHigh: 12, SetsLow: 3, SetsHigh: 6, RestLow: 30 * time.Second, RestHigh: 90 * time.Second}},
		{load.MuscularEndurance, load.Dose{PercentLow: 0, PercentHigh: 67, RepsLow: 12, RepsHigh: 1000, SetsLow: 2, SetsHigh: 3, RestHigh: 30 * time.Second}},
	} {
		d, ok := r.goal.Dose()
		exact(t, p, r.goal.String(), fmt.Sprint(d, ok), fmt.Sprint(r.want, true))
	}
	for _, r := range []struct {
		goal       load.Goal
		sets, reps int
		percent    load.Percent
		rest       time.Duration
		want       string
	}{
		{load.Strength, 4, 5, 85, 3 * time.Minute, "[]"},
		{load.Strength, 4, 7, 84, 3 * time.Minute, "[{percent-low 84 85} {reps-per-set-high 7 6}]"},
		{load.Power, 2, 3, 80, 3 * time.Minute, "[{sets-low 2 3}]"},
		{load.Hypertrophy, 3, 10, 75, 2 * time.Minute, "[{rest-long 120 90}]"},
		{load.MuscularEndurance, 3, 11, 60, 30 * time.Second, "[{reps-per-set-low 11 12}]"},
	} {
		fs, ok := r.goal.Check(r.sets, r.reps, r.percent, r.rest)
		exact(t, p, fmt.Sprintf("%v, %d x %d at %v %%", r.goal, r.sets, r.reps, r.percent), fmt.Sprint(fs, ok), r.want+" true")
	}
	low, high := load.InSeasonFrequency()
	exact(t, paper{"NSCA Essentials, in-season frequency", memory}, "sessions a week", fmt.Sprint(low, high), "1 3")
}

func TestPublishedPositionStand(t *testing.T) {
	p := paper{"ACSM position stand 2009, MSSE 41:687-708", seen}
	low, high, ok := load.Novice.WeeklyFrequency()
	exact(t, p, "novice days a week", fmt.Sprint(low, high, ok), "2 3 true")
	low, high, ok = load.Intermediate.WeeklyFrequency()
	exact(t, p, "intermediate days a week", fmt.Sprint(low, high, ok), "3 4 true")
	from, to := load.NoviceLoad()
	exact(t, p, "novice repetition maximum", fmt.Sprint(from, to), "8 12")
	a, b, ok := load.Progression(100*load.Kilogram, 1)
	exact(t, p, "100 kg, one over the target", fmt.Sprint(a, b, ok), "102 kg 110 kg true")
	_, _, ok = load.Progression(100*load.Kilogram, 0)
	p.undefined(t, "100 kg, on target", ok)

	taper := load.BestTaper()
	exact(t, paper{"Bosquet et al. 2007, MSSE 39:1358-1365", seen}, "length and volume",
		fmt.Sprint(taper.Length, taper.VolumeReductionLow, taper.VolumeReductionHigh, taper.KeepIntensity, taper.KeepFrequency), "14 41 60 true true")
}

func TestPublishedVolume(t *testing.T) {
	v, ok := load.TotalVolumeLoad([]load.SetGroup{
		{Sets: 4, Reps: 5, Load: 120 * load.Kilogram},
		{Sets: 3, Reps: 8, Load: 60 * load.Kilogram},
		{Sets: 3, Reps: 6, Load: 100 * load.Kilogram},
	})
	exact(t, paper{"definition of volume load", derived}, "4 x 5 x 120 + 3 x 8 x 60 + 3 x 6 x 100", fmt.Sprint(v, ok), "5640 kg true")

	sets, ok := load.WeeklySets([]load.Work{
		{Sets: 3, Direct: []load.Pattern{"push"}},
		{Sets: 4, Direct: []load.Pattern{"trunk"}, Indirect: []load.Pattern{"push"}},
		{Sets: 3, Direct: []load.Pattern{"pull"}, Indirect: []load.Pattern{"push"}},
	})
	pelland := paper{"Pelland et al. 2024, preprint", seenDerived}
	exact(t, pelland, "3 direct + 4 + 3 indirect", fmt.Sprint(sets[1], ok), "{push 3 7 6.5} true")

	r, ok := load.TotalRelativeVolume([]load.RelativeGroup{{Sets: 5, Reps: 5, Percent: 80}, {Sets: 3, Reps: 3, Percent: 90}})
	paper{"McMaster et al. 2013, Sports Med 43:367-384", seenDerived}.near(t, "5 x 5 at 80 % and 3 x 3 at 90 %", float64(r), ok, 28.1)

	schoenfeld := paper{"Schoenfeld et al. 2017, J Sports Sci 35:1073-1082", seen}
	for _, b := range []struct {
		sets load.Sets
		want string
	}{{4.5, "below 5"}, {5, "5 to 9"}, {9.5, "5 to 9"}, {10, "10 or more"}} {
		band, ok := b.sets.Band()
		exact(t, schoenfeld, fmt.Sprintf("%v weekly sets", b.sets), fmt.Sprint(band, ok), b.want+" true")
	}
}

func TestPublishedDuration(t *testing.T) {
	d, ok := load.Outline{
		WarmUp: 600 * time.Second,
		Blocks: []load.Block{
			{Sets: 4, Reps: 5, Tempo: 4 * time.Second, Rest: 180 * time.Second},
			{Sets: 3, Reps: 8, Tempo: 4 * time.Second, Rest: 90 * time.Second},
			{Sets: 3, Reps: 10, Tempo: 3 * time.Second, Rest: 60 * time.Second},
		},
		Change: 120 * time.Second,
	}.Duration()
	exact(t, paper{"session minutes", derived}, "three exercises", fmt.Sprint(d.Seconds(), ok), "1946 true")
}

func TestPublishedYouth(t *testing.T) {
	aap := paper{"AAP 2007, Pediatrics 119:1242-1245", secondary}
	rest := load.RestOfYouth()
	exact(t, aap, "days off a week", rest.DaysOffAWeek, 1)
	exact(t, aap, "days a week of one sport", rest.DaysAWeekOfOneSport, 5)
	exact(t, aap, "months away", fmt.Sprint(rest.MonthsAwayLow, rest.MonthsAwayHigh), "2 3")

	jayanthi := paper{"Jayanthi et al. 2015, AJSM 43:794-801", secondary}
	over, ok := load.HoursOverAge(12, 12*time.Hour)
	exact(t, jayanthi, "age 12, 12.0 h", fmt.Sprint(over, ok), "false true")
	over, ok = load.HoursOverAge(12, 12*time.Hour+30*time.Minute)
	exact(t, jayanthi, "age 12, 12.5 h", fmt.Sprint(over, ok), "true true")

	start, ok := load.YouthStart.Dose()
	lloyd := paper{"Lloyd et al. 2014, BJSM 48:498-505", memory}
	exact(t, lloyd, "start", fmt.Sprint(start.SetsLow, start.SetsHigh, start.PercentHigh, ok), "1 2 60 true")
	progress, ok := load.YouthProgress.Dose()
	exact(t, lloyd, "progress", fmt.Sprint(progress.SetsLow, progress.SetsHigh, progress.RepsLow, progress.RepsHigh, progress.PercentHigh, ok), "2 4 6 12 80 true")
	exact(t, paper{lloyd.source, secondary}, "days a week", fmt.Sprint(start.DaysAWeekLow, progress.DaysAWeekHigh), "2 3")

	nsca := paper{"NSCA professional standards", memory}
	for level, want := range map[load.SupervisionLevel]int{load.MiddleSchool: 10, load.SecondarySchool: 15, load.Adults: 20} {
		n, ok := level.AthletesPerCoach()
		exact(t, nsca, fmt.Sprintf("athletes a coach, level %d", level), fmt.Sprint(n, ok), fmt.Sprint(want, true))
	}
	for _, r := range []struct{ athletes, ratio, want int }{{30, 15, 2}, {31, 15, 3}, {21, 10, 3}, {0, 10, 0}} {
		n, ok := load.CoachesNeeded(r.athletes, r.ratio)
		exact(t, paper{nsca.source, derived}, fmt.Sprintf("%d athletes at %d", r.athletes, r.ratio), fmt.Sprint(n, ok), fmt.Sprint(r.want, true))
	}
}

func TestPublishedPlates(t *testing.T) {
	iwf := paper{"IWF equipment rules", seen}
	exact(t, iwf, "bars", fmt.Sprint(load.MensBar, load.WomensBar), "20 kg 15 kg")
	var discs []load.Mass
	for _, d := range load.IWFDiscs() {
		discs = append(discs, d.Mass)
	}
	exact(t, iwf, "discs", fmt.Sprint(discs), "[25 kg 20 kg 15 kg 10 kg 5 kg 2.5 kg 2 kg 1.5 kg 1 kg 0.5 kg]")

	p := paper{"plates of a 20 kg bar", derived}
	rack, err := load.NewRack(load.MensBar, append(load.IWFDiscs(), load.Disc{Mass: 1250, Pairs: load.Plenty}))
	if err != nil {
		t.Fatal(err)
	}
	gym, err := load.NewRack(load.MensBar, load.GymDiscs())
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []struct {
		kg   float64
		want string
	}{{102.5, "[25 kg 15 kg 1.25 kg]"}, {142.5, "[25 kg 25 kg 10 kg 1.25 kg]"}, {20, "[]"}} {
		for name, rack := range map[string]*load.Rack{"competition discs and 1.25": rack, "gym discs": gym} {
			l, ok := rack.AtMost(kg(t, r.kg))
			exact(t, p, fmt.Sprintf("%v kg a side, %s", r.kg, name), fmt.Sprint(l.PerSide, l.Total == kg(t, r.kg), ok), r.want+" true true")
		}
	}
	limited, err := load.NewRack(load.MensBar, []load.Disc{{Mass: 25_000, Pairs: 1}, {Mass: 20_000, Pairs: 2}})
	if err != nil {
		t.Fatal(err)
	}
	l, ok := limited.AtMost(kg(t, 100))
	exact(t, p, "40 a side from one pair of 25 and two of 20", fmt.Sprint(l.PerSide, l.Total, ok), "[20 kg 20 kg] 100 kg true")
	_, ok = gym.AtMost(kg(t, 19.999))
	p.undefined(t, "a target below the bar", ok)
	l, ok = gym.AtMost(kg(t, 61.62))
	exact(t, p, "61.62 kg rounds down to", fmt.Sprint(l.Total, ok), "60 kg true")
}

func TestPublishedPound(t *testing.T) {
	p := paper{"international agreement of 1959, 1 lb = 0.45359237 kg", secondary}
	for _, r := range []struct {
		text string
		want load.Mass
	}{
		{"1 lb", 454},           // 453.59237
		{"225 lb", 102_058},     // 102058.28325
		{"100000000 g", 0},      // over the limit
		{"10000 lb", 4_535_924}, // 4535923.7
		{"0.5 g", 0},            // a tie rounds down
		{"1.5 g", 1},            // and again
		{"1.500000001 g", 2},    // above it up
		{"2.5 lb", 1134},        // 1133.98
		{"100 kg", 100_000},
		{"102.5 kg", 102_500},
	} {
		m, err := load.ParseMass(r.text)
		if r.text == "100000000 g" {
			exact(t, p, "a hundred tonnes is refused", err != nil, true)
			continue
		}
		exact(t, p, r.text, fmt.Sprint(int64(m), err), fmt.Sprint(int64(r.want), nil))
	}
}
