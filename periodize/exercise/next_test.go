package exercise_test

import (
	"strings"
	"testing"

	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// squatting is an adult's full-body session whose main lift is the back squat, with
// a next load of 110 kg for five repetitions with two left after 107.5 kg.
func squatting(t *testing.T) exercise.Input {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	in.Profile.Avoid = append(avoidBut(t, exercise.Squat, "back-squat"), avoidBut(t, exercise.Hinge, "")...)
	in.History.Next = []exercise.NextLoad{{Exercise: "Back squat", Date: day("2026-11-05"), Last: 107_500, Load: 110_000, Reps: 5, Left: 2,
		Why: season.Note{Code: "progress-advance", Class: season.Why, Text: "all sets with more left than asked for"}}}
	return in
}

// TestTheNextLoad: a card takes the load that the log says comes next, with what it
// rests on, and turns it into today's repetitions. The kilograms are by Epley's
// equation (references: 1RM = w (1 + r/30)), derived:
//
//	110 kg for 5 with 2 left is 110 (1 + 7/30) = 135.67 kg
//	4 with 2 left of it are 135.67/(1 + 6/30) = 113.06 kg, 112.5 from plates
//	5 with 2 left less 5 % are 104.5 kg, 102.5 from plates
//	6 with 2 left are 135.67/(1 + 8/30) = 107.11 kg, 105 from plates
func TestTheNextLoad(t *testing.T) {
	for _, x := range []struct {
		name   string
		change func(*exercise.Input)
		want   load.Mass
		code   string
	}{
		{"the same repetitions", func(*exercise.Input) {}, 110_000, "progress-advance"},
		{"fewer repetitions today", func(in *exercise.Input) {
			in.Athlete.TrainingAgeMonths, in.Athlete.OptIns = 50, []season.OptIn{season.OptLowRepSets}
		}, 112_500, "load-next-other"},
		{"somebody of 16", func(in *exercise.Input) { in.Athlete.Born = season.YearMonth{Year: 2010, Month: 5} }, 105_000, "load-next-other"},
		{"ten dates without a lift: no progress is credited", func(in *exercise.Input) {
			in.History.Lifts = append(in.History.Lifts, day("2026-10-30"))
		}, 107_500, "load-next"},
		{"back from illness", func(in *exercise.Input) {
			in.History.Illness = []exercise.Illness{{From: day("2026-11-06"), To: day("2026-11-08")}}
		}, 97_500, "load-next"}, // 99 kg
		{"tested since", func(in *exercise.Input) {
			in.Athlete.Maxima = []season.Maximum{{Exercise: "back-squat", Grams: 120_000, Kind: "tested", Date: day("2026-11-06")}}
		}, 95_000, "load-tested"}, // 120/(1 + 7/30) = 97.30 kg
		{"tested before", func(in *exercise.Input) {
			in.Athlete.Maxima = []season.Maximum{{Exercise: "back-squat", Grams: 120_000, Kind: "tested", Date: day("2026-11-04")}}
		}, 110_000, "progress-advance"},
		{"too long ago", func(in *exercise.Input) { in.History.Next[0].Date = day("2026-08-01") }, 0, "load-none"},
		{"too heavy, nothing lighter", func(in *exercise.Input) { in.History.Next[0].Load = 0 }, 0, "progress-advance"},
		{"what was asked for is not known", func(in *exercise.Input) { in.History.Next[0].Reps = 0 }, 0, "load-none"},
		{"a beginner asked for the same", func(in *exercise.Input) {
			in.Athlete.TrainingAgeMonths = 11
			in.Profile.Avoid = append(avoidBut(t, exercise.Squat, "box-squat"), avoidBut(t, exercise.Hinge, "")...)
			in.History.Next[0].Exercise, in.History.Next[0].Reps, in.History.Next[0].Left = "box-squat", 8, 3
		}, 110_000, "progress-advance"},
		{"a beginner asked for something else", func(in *exercise.Input) {
			in.Athlete.TrainingAgeMonths = 11
			in.Profile.Avoid = append(avoidBut(t, exercise.Squat, "box-squat"), avoidBut(t, exercise.Hinge, "")...)
			in.History.Next[0].Exercise = "box-squat"
		}, 0, "load-learning"},
	} {
		in := squatting(t)
		x.change(&in)
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(x.name, err)
		}
		it, ok := mainOf(c)
		if !ok {
			t.Fatalf("%s: no main lift\n%s", x.name, printed(c))
		}
		got := load.Mass(0)
		if it.Load != nil {
			got = load.Mass(it.Load.Grams)
		}
		if it.Evidence == nil || got != x.want || it.Evidence.Code != x.code {
			t.Errorf("%s: %s by %+v, want %s by %s\n%s", x.name, got, it.Evidence, x.want, x.code, printed(c))
		}
	}
}

// TestEasedFromTheNextLoad: a tired day takes its share off what comes next too.
func TestEasedFromTheNextLoad(t *testing.T) {
	in := squatting(t)
	written, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	r, err := exercise.Builder{}.Today(in, written, exercise.CheckIn{Energy: exercise.Read(2)})
	if err != nil {
		t.Fatal(err)
	}
	for _, it := range itemsOf(r) {
		if it.Slot == "main lower" && (it.Exercise.Load == nil || it.Exercise.Load.Grams != 102_500) {
			t.Errorf("%+v by %+v", it.Exercise.Load, it.Exercise.Evidence)
		}
	}
}

func TestBadNextLoads(t *testing.T) {
	in := squatting(t)
	in.History.Next = append(in.History.Next, exercise.NextLoad{Exercise: "back squad", Date: day("2026-11-05"), Last: 1000, Reps: 5},
		exercise.NextLoad{Exercise: "back-squat", Last: -1, Reps: 2000})
	_, err := exercise.Builder{}.Session(in)
	if err == nil || !strings.Contains(err.Error(), "/history/next/1/exercise") || !strings.Contains(err.Error(), "/history/next/2") || strings.Contains(err.Error(), "/history/next/0") {
		t.Error(err)
	}
}
