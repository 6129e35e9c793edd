package exercise_test

import (
	"errors"
	"strings"
	"testing"

	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// TestTestsOfStrength: who is tested, when, and with what.
func TestTestsOfStrength(t *testing.T) {
	learner := season.Athlete{ID: "b", Born: season.YearMonth{Year: 2013, Month: 4}}
	named := exercise.TestOrder{Exercise: "goblet-squat", Reps: 3, By: "head coach", Reason: "the club's own table asks for it"}
	unnamed := exercise.TestOrder{Exercise: "goblet-squat", Reps: 3}
	squat := exercise.TestOrder{Exercise: "Back squat", Reps: 3}
	near := func(days int) season.Session {
		s := session(season.FullBody, 55, "2026-11-10")
		s.GameDay = []season.GameOffset{{Event: "g", Days: days}}
		return s
	}
	for _, x := range []struct {
		name    string
		session season.Session
		who     season.Athlete
		order   exercise.TestOrder
		codes   string
	}{
		{"a beginner", near(-4), learner, unnamed, "test-beginner"},
		{"a reason without a name", near(-4), learner, exercise.TestOrder{Exercise: "goblet-squat", Reps: 3, Reason: "so"}, "test-beginner"},
		{"a beginner, somebody answers", near(-4), learner, named, ""},
		{"an adult", near(-4), adult(), squat, ""},
		{"two dates before a game", near(-2), adult(), squat, "test-near-game"},
		{"the date after one", near(1), adult(), squat, "test-near-game"},
		{"three dates before one", near(-3), adult(), squat, ""},
		{"no test for this", near(-4), adult(), exercise.TestOrder{Exercise: "push-up", Reps: 30}, "test-reps test-exercise"},
		{"unknown", near(-4), adult(), exercise.TestOrder{Exercise: "back squad", Reps: 3}, "exercise-unknown"},
		{"short", session(season.FullBody, 15, "2026-11-10"), adult(), squat, "minutes-range"},
	} {
		in := exercise.Input{Session: x.session, Athlete: x.who, Kit: exercise.Gym()}
		c, err := exercise.Builder{}.Test(in, x.order)
		var bad *season.InputError
		var codes []string
		if errors.As(err, &bad) {
			for _, p := range bad.Problems {
				codes = append(codes, p.Code)
			}
		}
		if got := strings.Join(codes, " "); got != x.codes || (err == nil) != (x.codes == "") {
			t.Errorf("%s: %q, want %q", x.name, got, x.codes)
			continue
		}
		if err != nil {
			continue
		}
		sum := 0
		for _, b := range c.Blocks {
			sum += b.Minutes
		}
		if sum != 55 || c.Minutes != 55 {
			t.Errorf("%s: %d minutes\n%s", x.name, sum, printed(c))
		}
		if x.who.ID == "b" && !strings.Contains(printed(c), "head coach answers for it: the club's own table") {
			t.Errorf("the override is not printed:\n%s", printed(c))
		}
	}
	// Hours win over dates where they are told: 48 h before a game and no less.
	for _, x := range []struct {
		end  string
		hour int
		want string
	}{{"2026-11-10", 20, "47 h 59"}, {"2026-11-10", 19, ""}, {"2026-11-11", 8, "35 h 59"}} {
		in := exercise.Input{Session: near(-2), Athlete: adult(), Kit: exercise.Gym(), NextGame: at("2026-11-12", 19, 59)}
		in.Session.End = at(x.end, x.hour, 0)
		if x.hour == 19 {
			in.Session.End = at(x.end, 19, 59)
		}
		_, err := exercise.Builder{}.Test(in, squat)
		if (err == nil) != (x.want == "") || err != nil && !strings.Contains(err.Error(), x.want) {
			t.Errorf("ends on %s at %d: %v, want %q", x.end, x.hour, err, x.want)
		}
	}
	who := adult()
	who.Maxima = []season.Maximum{{Exercise: "back-squat", Grams: 140_000, Kind: "tested", Date: day("2026-10-20")}}
	in := exercise.Input{Session: near(-4), Athlete: who, Kit: exercise.Gym()}
	if _, err := (exercise.Builder{}).Test(in, squat); err == nil || !strings.Contains(err.Error(), "21 days ago") {
		t.Errorf("21 days after the last one: %v", err)
	}
	// 140 kg / (1 + 3/30) = 127.27 kg by Epley (derived): half of it rounds down
	// to 62.5, 70 % to 87.5, 85 % to 107.5, 95 % to 120, all of it to 125.
	in.Athlete.Maxima[0].Date = day("2026-10-12")
	c, err := exercise.Builder{}.Test(in, squat)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, it := range c.Blocks[1].Items {
		got = append(got, load.Mass(it.Exercise.Load.Grams).String())
	}
	if s := strings.Join(got, ", "); s != "62.5 kg, 87.5 kg, 107.5 kg, 120 kg, 125 kg" {
		t.Errorf("%s\n%s", s, printed(c))
	}
	in.Athlete.Restrictions = []season.Restriction{{Region: "knee", Side: "left", From: day("2026-11-01"), By: "physiotherapist"}}
	if _, err := (exercise.Builder{}).Test(in, squat); err == nil || !strings.Contains(err.Error(), "restriction") {
		t.Errorf("against a restriction: %v", err)
	}
}
