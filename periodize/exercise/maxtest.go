package exercise

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// TestOrder asks for a test of strength: the heaviest load for so many
// repetitions.
type TestOrder struct {
	Exercise string
	Reps     int // 1 to 10; 3 for a three-repetition maximum
	// By and Reason are the adult who answers for testing a beginner and why.
	// Both are printed on the card. Without them a beginner is not tested.
	By, Reason string
}

// Limits of tests. Common practice, no source.
const (
	testGap      = 28 // dates from one test of an exercise to the next
	mostTestReps = 10
	testRest     = 180

	testBeforeGame = 48 * time.Hour // from its end to the start of the game
)

// testSteps are the sets of a test: percent of the load that is expected to be
// the answer, and the rest after them in seconds.
var testSteps = []struct{ percent, rest int }{{50, 90}, {70, 120}, {85, 150}, {95, testRest}, {100, testRest}}

// Test makes the card of a test instead of a session: warm-up, rising sets, the
// expected load, and further ones while all repetitions are done well. The error
// is a *season.InputError: besides faults of the input, a refusal for a beginner
// whom no named adult answers for, if it ends less than 48 h before the next game
// (see [Input.NextGame]) or is on the date of a game or the one after it, within
// 28 dates of the last test, and for what the body or a hold rules out.
func (b Builder) Test(in Input, order TestOrder) (Card, error) {
	a, err := b.ask(&in)
	if err != nil {
		return Card{}, err
	}
	e := a.c.find(order.Exercise)
	if problems := a.testProblems(e, order); len(problems) > 0 {
		return Card{}, &season.InputError{Problems: problems}
	}
	s := &in.Session
	card := Card{Session: s.ID, Date: s.Date, Kind: s.Kind, State: season.AsWritten}
	test := a.testBlock(e, order)
	warm := min(a.warmMinutes(), s.Minutes-test.Minutes)
	left := s.Minutes - test.Minutes - warm
	more := min(left, mostWarm-warm)
	card.Blocks = append(card.Blocks, a.warmUp(warm+more, nil), test)
	if left -= more; left > 0 {
		card.Blocks = append(card.Blocks, a.ending(min(left, mostClose), left))
	}
	card.Minutes = s.Minutes
	a.say("card-test", "exercise", e.Name, "reps", order.Reps)
	if a.beginner {
		a.say("card-test-override", "by", calendar.Inert(order.By), "reason", calendar.Inert(order.Reason))
	}
	card.Notes = a.notes
	return card, nil
}

// testProblems are the reasons against a test.
func (a *asked) testProblems(e *entry, order TestOrder) []calendar.Problem {
	var f faults
	refuse := func(code, path, value, reason, remedy string) {
		f.list = append(f.list, calendar.Problem{Code: code, Class: calendar.ClassRefusal, Path: path, Value: value, Reason: reason, Remedy: remedy})
	}
	if order.Reps < 1 || order.Reps > mostTestReps {
		f.add("test-reps", "/test/reps", fmt.Sprint(order.Reps), "a test has 1 to 10 repetitions", "ask for 3, say")
	}
	if e == nil {
		f.add("exercise-unknown", "/test/exercise", order.Exercise, "no such exercise in the catalogue", a.c.suggest(order.Exercise))
		return f.list
	}
	if e.Role != Main || e.Load == Body || e.Load == Untracked {
		f.add("test-exercise", "/test/exercise", order.Exercise, "only a main lift with a load that is told can be tested", "name one, such as back-squat")
	} else if !a.kit.fits(e) {
		f.add("test-kit", "/test/exercise", order.Exercise, "the kit for it is not there", "test where it is")
	} else if side, ok := a.bar.allows(e); !ok || side != "" {
		refuse("test-body", "/test/exercise", order.Exercise, "a restriction or an open complaint rules it out", "test when it is clear")
	}
	if a.beginner && (order.By == "" || order.Reason == "") {
		refuse("test-beginner", "/test", "", "no maximal testing for beginners", "let repetitions rise; or name the adult who answers for it, and why")
	}
	if reason := a.nearGame(); reason != "" {
		refuse("test-near-game", "/session", a.in.Session.Date.String(), reason, "test so that it ends 48 h or more before a game, and not on the date after one")
	}
	for _, m := range a.in.Athlete.Maxima {
		if x := a.c.find(m.Exercise); x == e && m.Kind == "tested" && !m.Date.After(a.in.Session.Date) {
			if n := a.in.Session.Date.DaysSince(m.Date); n < testGap {
				refuse("test-soon", "/session", a.in.Session.Date.String(), fmt.Sprintf("it was tested %d days ago", n), "test every 4 to 8 weeks")
				break
			}
		}
	}
	if len(f.list) == 0 {
		if need := a.testBlock(e, order).Minutes + 5; need > a.in.Session.Minutes {
			f.add("minutes-range", "/session/minutes", fmt.Sprint(a.in.Session.Minutes), fmt.Sprintf("the test and five minutes of warm-up take %d", need), "give it more time")
		}
	}
	return f.list
}

// nearGame says why a game is too near for a test, "" if none is. Where the hours
// are not known two dates before a game are too near.
func (a *asked) nearGame() string {
	s := &a.in.Session
	hours := !a.in.NextGame.IsZero() && !s.End.IsZero()
	if gap := a.in.NextGame.Sub(s.End); hours && gap < testBeforeGame {
		return fmt.Sprintf("a game begins %d h %02d after it", int(max(gap, 0).Hours()), int(max(gap, 0).Minutes())%60)
	}
	for _, g := range s.GameDay {
		switch {
		case g.Days == 0:
			return "a game is on its date"
		case g.Days == 1:
			return "a game was on the date before"
		case !hours && (g.Days == -1 || g.Days == -2):
			return "a game is within two dates, and its hour is not told"
		}
	}
	return ""
}

// testBlock is the rising sets, with loads where a value is known.
func (a *asked) testBlock(e *entry, order TestOrder) Block {
	b := Block{Name: "Test", Rounds: 1}
	expected := a.expected(e, order.Reps)
	seconds := changePlace
	for _, step := range testSteps {
		x := season.Exercise{Name: e.Name, Pattern: string(e.Pattern), Sets: 1, Reps: dose{reps: order.Reps}.text(&entry{}), Rest: step.rest,
			Effort: "stop before the form goes; the last load done well counts"}
		if step.percent < 95 {
			x.Name, x.Effort = e.Name+", lighter", "easy and quick"
		}
		n := note("load-test", "percent", step.percent)
		if expected == 0 {
			n = note("load-none", "left", 1)
		} else if m, ok := a.kit.atMost(e, expected*load.Mass(step.percent)/100); ok {
			x.Load = &season.Grams{Grams: int64(m)}
		}
		x.Evidence = &n
		if e.Sided {
			x.Side = "each"
		}
		it := Item{ID: e.ID, Slot: slotTest, Exercise: x, Seconds: order.Reps * e.Seconds, Reps: order.Reps, Left: -1, Why: note("pick-test")}
		if e.Sided {
			it.Seconds = 2*it.Seconds + changeSides
		}
		seconds += it.Seconds + step.rest
		b.Items = append(b.Items, it)
	}
	b.Minutes = minutesOf(seconds)
	return b
}

// expected is the load that is likely to be the answer, 0 if nothing is known.
func (a *asked) expected(e *entry, reps int) load.Mass {
	list := a.records[e.at]
	for i := len(list) - 1; i >= 0; i-- {
		r := list[i]
		if r.date.After(a.in.Session.Date) || r.max == 0 {
			continue
		}
		if m, ok := a.curve.LoadAt(r.max, load.Reps(reps), 10); ok {
			return m
		}
	}
	return 0
}
