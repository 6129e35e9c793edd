package judge_test

import (
	"fmt"

	"example.org/weft/internal/judge"
)

// A Monday-to-Sunday week with a game on Saturday evening: full-body work on
// Friday is too near, and nobody recovers on Sunday.
func ExampleJudge() {
	const monday = 20003 // 2024-10-07
	at := func(day, clock int) int64 { return int64(monday+day)*1440 + int64(clock) }
	session := func(kind judge.Kind, day, clock, length int) judge.Session {
		return judge.Session{
			Kind: kind, Start: at(day, clock), End: at(day, clock+length),
			Date: monday + day, StartClock: clock, EndClock: clock + length,
		}
	}
	always := []judge.Span{{Start: at(0, 0), End: at(7, 0)}}
	in := judge.Input{
		From: monday, To: monday + 6, FirstWeekday: 1,
		Athlete: judge.Athlete{BornYear: 1998, BornMonth: 3, AgeKnown: true, TrainingAgeMonths: 36},
		Events: []judge.Event{{
			ID: "final", Kind: judge.Game, Important: true, Start: at(5, 18*60), End: at(5, 20*60),
			Date: monday + 5, StartClock: 18 * 60, EndClock: 20 * 60,
		}},
		Sessions: []judge.Session{
			session(judge.FullBody, 1, 17*60, 45),
			session(judge.Recovery, 2, 17*60, 30),
			session(judge.FullBody, 4, 17*60+30, 45),
		},
		AthleteOpen: always,
		PlaceOpen:   [][]judge.Span{always},
	}
	v, err := judge.Judge(in, judge.Default())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range v.Illegal {
		fmt.Printf("session %d breaks %s\n", b.Session, b.Rule)
	}
	for _, m := range v.Misses {
		fmt.Printf("day %d to %d: %s, %d of %d, %d points\n", m.From-monday, m.To-monday, m.Aim, m.Got, m.Wanted, m.Points)
	}
	fmt.Println(v.Points, "points")
	// Output:
	// session 2 breaks heavy-before-game
	// session 2 breaks full-before-game
	// day 4 to 4: primer-important, 0 of 1, 320 points
	// day 6 to 6: recovery-after, 0 of 1, 60 points
	// day 0 to 6: recovery-count, 1 of 2, 30 points
	// 410 points
}

// Every number can be changed and every rule switched off by its id.
func ExampleDefault() {
	p := judge.Default()
	p.Sleep = 8 * 60
	p.Disabled = []string{judge.StartTime}
	fmt.Println(p.Points[judge.EmptyRun], p.Points[judge.Change])
	// Output: 2240 5
}

// All problems of an input come at once.
func ExampleCheck() {
	p := judge.Default()
	p.Disabled = []string{"slepe"}
	for _, problem := range judge.Check(judge.Input{From: 20003, To: 20000, FirstWeekday: 9}, p) {
		fmt.Println(problem.Path, problem.Value, problem.Reason)
	}
	// Output:
	// To 20000 before From
	// FirstWeekday 9 out of range
	// Parameters.Disabled[0] "slepe" unknown rule
}

func ExampleLimits() {
	fmt.Println(judge.Limits()[0], len(judge.Limits()))
	// Output: event-overlap 27
}

func ExampleAims() {
	fmt.Println(judge.Aims()[0], len(judge.Aims()))
	// Output: empty-run 22
}
