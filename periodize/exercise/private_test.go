package exercise_test

import (
	"strings"
	"testing"

	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// TestReportsStayPrivate: no problem of a report shows what was reported.
func TestReportsStayPrivate(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	written, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	report := exercise.CheckIn{SleepMinutes: exercise.Read(7777), Energy: exercise.Read(-7777),
		Soreness: []exercise.Soreness{{Region: "zzplace", Side: "zzside", Level: 7777}},
		Pain:     []exercise.Complaint{{Region: "zzplace", Side: "zzside", Pain: -7777, SqueezeBelow: 7777}}}
	_, err = exercise.Builder{}.Today(in, written, report)
	if err == nil {
		t.Fatal("nothing wrong")
	}
	if n := strings.Count(err.Error(), "\n") + 1; n != 9 {
		t.Errorf("%d problems, want 9:\n%v", n, err)
	}
	if s := err.Error(); strings.Contains(s, "zz") || strings.Contains(s, "7777") {
		t.Errorf("private values in\n%s", s)
	}
}

// TestAnUnknownSignHolds: a word that is not known here is no reason to train.
func TestAnUnknownSignHolds(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	r, err := exercise.Builder{}.Today(in, exercise.Card{}, exercise.CheckIn{Signs: []exercise.Sign{"double vision"}})
	if h, ok := r.(exercise.Held); !ok || err != nil || !h.Clearance {
		t.Errorf("%v %v", r, err)
	}
}

// TestPoundsAreAsked: a value 2.2 times the last is a question however long ago
// that was, and used once it is confirmed.
func TestPoundsAreAsked(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	in.Profile.Avoid = append(avoidBut(t, exercise.Squat, "back-squat"), avoidBut(t, exercise.Hinge, "")...)
	in.History.Sets = []exercise.DoneSet{
		{Exercise: "back-squat", Date: day("2026-09-10"), Load: 60 * load.Kilogram, Reps: 6, Left: 2},
		{Exercise: "back-squat", Date: day("2026-11-05"), Load: 132 * load.Kilogram, Reps: 6, Left: 2},
	}
	for _, confirmed := range []bool{false, true} {
		in.History.Sets[1].Confirmed = confirmed
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		it, ok := item(c, "back-squat")
		if !ok || it.Exercise.Load == nil || (it.Exercise.Load.Grams > 100_000) != confirmed || hasNote(c.Notes, "question-jump") == confirmed {
			t.Errorf("confirmed %v: %+v\n%s", confirmed, it.Exercise, printed(c))
		}
	}
}

// TestTheOrderOfTheHistory: permuted lists of what was lifted and done make the
// same card.
func TestTheOrderOfTheHistory(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: club().Athlete, Kit: exercise.Gym()}
	for i, id := range []string{"back-squat", "bench-press", "back-squat", "pull-up", "romanian-deadlift"} {
		in.History.Sets = append(in.History.Sets, exercise.DoneSet{Exercise: id, Date: day("2026-10-20").AddDays(i), Load: load.Mass(50+i) * load.Kilogram, Reps: 5, Left: 2})
		in.History.Lifts = append(in.History.Lifts, day("2026-10-20").AddDays(i))
	}
	want, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	for i, j := 0, len(in.History.Sets)-1; i < j; i, j = i+1, j-1 {
		in.History.Sets[i], in.History.Sets[j] = in.History.Sets[j], in.History.Sets[i]
		in.History.Lifts[i], in.History.Lifts[j] = in.History.Lifts[j], in.History.Lifts[i]
	}
	got, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	if printed(got) != printed(want) {
		t.Errorf("got\n%s\nwant\n%s", printed(got), printed(want))
	}
}
