package judge

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// brief is the part of a miss that the tables state; days count from monday.
type brief struct {
	From, To, Session, Event, Wanted, Got int
	Points                                int64
}

type aimCase struct {
	name string
	in   Input
	want []brief
}

func testAim(t *testing.T, aim string, cases []aimCase) {
	t.Helper()
	for _, c := range cases {
		t.Run(aim+"/"+c.name, func(t *testing.T) {
			v := judge(t, c.in)
			var got []brief
			var points int64
			for _, m := range missing(v, aim) {
				got = append(got, brief{m.From - monday, m.To - monday, m.Session, m.Event, m.Wanted, m.Got, m.Points})
				points += m.Points
			}
			if d := cmp.Diff(c.want, got, cmpopts.EquateEmpty()); d != "" {
				t.Error(d)
			}
			if pointsOf(v, aim) != points {
				t.Errorf("by rule %d points, misses %d", pointsOf(v, aim), points)
			}
		})
	}
}

func TestEmptyRun(t *testing.T) {
	beyond := func(start, end int) []brief { // misses of a run of empty days
		var all []brief
		for d := start + 3; d <= end; d++ {
			all = append(all, brief{start, d, -1, -1, 3, d - start + 1, 2240})
		}
		return all
	}
	week := one(until(6))
	testAim(t, EmptyRun, []aimCase{
		{"three", with(join(week, on(Recovery, 3))...), nil},
		{"four and none", with(join(week, on(Recovery, 4))...), beyond(0, 3)},
		{"all empty", with(week...), beyond(0, 6)},
		{"two runs", with(join(one(until(9)), on(Primer, 4, 5))...), append(beyond(0, 3), beyond(6, 9)...)},
		{"a game is not a session", with(join(week, one(game(2, 18, 0)), on(Recovery, 6))...), beyond(0, 5)},
		{"history ends no run and starts none", with(join(one(from(2), until(6)), on(Recovery, 1))...), beyond(2, 6)},
	})
}

func TestWeekAims(t *testing.T) {
	// The period holds the weeks from day 0 and day 7 in whole.
	two := one(until(15))
	type weeks = []aimCase
	testAim(t, WeekFullBody, weeks{
		{"none", with(two...), []brief{{0, 6, -1, -1, 1, 0, 1120}, {7, 13, -1, -1, 1, 0, 1120}}},
		{"trimmed, post-game and eccentric count", with(join(one(until(27)), on(Trimmed, 0), on(PostGame, 13), on(Eccentric, 14), on(FullBody, 27))...), nil},
		{"primer and recovery do not", with(join(two, on(Primer, 0, 8), on(Recovery, 1, 9))...), []brief{{0, 6, -1, -1, 1, 0, 1120}, {7, 13, -1, -1, 1, 0, 1120}}},
		{"a part of a week is not asked", with(join(one(from(1)), two, on(FullBody, 13))...), nil},
		{"nor is a period within a week", with(one(from(1), until(6))...), nil},
		{"a week from Sunday", with(one(until(15), func(in *Input) { in.FirstWeekday = 0 })...), []brief{{6, 12, -1, -1, 1, 0, 1120}}},
	})
	testAim(t, SecondLift, weeks{
		{"none", with(one(until(6))...), []brief{{0, 6, -1, -1, 2, 0, 560}}},
		{"one", with(join(one(until(6)), on(Primer, 6), on(Recovery, 1, 2))...), []brief{{0, 6, -1, -1, 2, 1, 560}}},
		{"two", with(join(one(until(6)), on(Primer, 0, 6))...), nil},
	})
	testAim(t, SecondFullBody, weeks{
		{"none", with(one(until(6))...), []brief{{0, 6, -1, -1, 2, 0, 120}}},
		{"one", with(join(one(until(6)), on(FullBody, 6), on(Primer, 1, 2))...), []brief{{0, 6, -1, -1, 2, 1, 120}}},
		{"two", with(join(one(until(6)), on(FullBody, 0), on(PostGame, 6))...), nil},
	})
	testAim(t, RecoveryCount, weeks{
		{"none", with(one(until(6))...), []brief{{0, 6, -1, -1, 2, 0, 60}}},
		{"one", with(join(one(until(6)), on(Recovery, 6))...), []brief{{0, 6, -1, -1, 2, 1, 30}}},
		{"one and one of the next week", with(join(one(until(7)), on(Recovery, 6, 7))...), []brief{{0, 6, -1, -1, 2, 1, 30}}},
		{"one and one on a game date", with(join(one(until(6), game(3, 10, 0)), on(Recovery, 3, 6))...), []brief{{0, 6, -1, -1, 2, 1, 30}}},
		{"two", with(join(one(until(6)), on(Recovery, 0, 6))...), nil},
		{"three", with(join(one(until(6)), on(Recovery, 0, 3, 6))...), nil},
		{"five", with(join(one(until(6)), on(Recovery, 0, 1, 3, 4, 6))...), []brief{{0, 6, -1, -1, 3, 5, 60}}},
		{"beginner", with(one(until(6), months(11))...), nil},
		{"13", with(one(until(6), born(13))...), nil},
		{"turns 14 within the week", with(one(from(21), until(34), func(in *Input) { // 2024-10-31 is day 24
			in.Athlete.BornYear, in.Athlete.BornMonth = 2010, 10
		})...), []brief{{28, 34, -1, -1, 2, 0, 60}}},
	})
}

func TestPrimerAims(t *testing.T) {
	g, big := game(10, 18, 0), important(game(10, 18, 0))
	miss := brief{9, 9, -1, 0, 1, 0, 240}
	missBig := brief{9, 9, -1, 0, 1, 0, 320}
	testAim(t, PrimerAim, []aimCase{
		{"none", with(g), []brief{miss}},
		{"primer on the date before", with(join(one(g), on(Primer, 9))...), nil},
		{"another date or kind", with(join(one(g), on(Primer, 8), on(FullBody, 9))...), []brief{miss}},
		{"important is another aim", with(big), nil},
		{"second of a back-to-back", with(g, game(9, 18, 0)), []brief{{8, 8, -1, 1, 1, 0, 240}}},
		{"a date between two games", with(g, game(8, 18, 0)), []brief{{7, 7, -1, 1, 1, 0, 240}}},
		{"a game three dates before", with(g, game(7, 18, 0)), []brief{{6, 6, -1, 1, 1, 0, 240}, miss}},
		{"once for two games of a date", with(game(10, 20, 30), g), []brief{{9, 9, -1, 1, 1, 0, 240}}},
		{"the earliest game of a date decides", with(important(game(10, 20, 30)), g), []brief{{9, 9, -1, 1, 1, 0, 240}}},
		{"beginner", with(g, months(11)), nil},
		{"13", with(g, born(13)), nil},
		{"date before the period", with(g, from(10)), nil},
		{"first date of the period", with(g, from(9)), []brief{miss}},
		{"game after the period", with(g, until(9)), []brief{miss}},
		{"last date before it", with(g, until(8)), nil},
	})
	testAim(t, PrimerImportant, []aimCase{
		{"none", with(big), []brief{missBig}},
		{"primer on the date before", with(join(one(big), on(Primer, 9))...), nil},
		{"second of a back-to-back", with(big, game(9, 18, 0)), nil},
		{"a date between two games", with(big, game(8, 18, 0)), []brief{missBig}},
		{"earliest of its date", with(big, game(10, 20, 30)), []brief{missBig}},
		{"at the same hour the important one counts", with(game(10, 18, 0), big), []brief{{9, 9, -1, 1, 1, 0, 320}}},
		{"other games are another aim", with(g), nil},
	})
}

func TestRecoveryAfter(t *testing.T) {
	g := game(10, 18, 0)
	miss := brief{11, 11, -1, 0, 1, 0, 60}
	two := one(game(10, 10, 0), game(10, 18, 0))
	testAim(t, RecoveryAfter, []aimCase{
		{"none", with(g), []brief{miss}},
		{"there", with(join(one(g), on(Recovery, 11))...), nil},
		{"on the game date or later", with(join(one(g), on(Recovery, 10, 12), on(Primer, 11))...), []brief{miss}},
		{"the second of a back-to-back", with(g, game(9, 18, 0)), []brief{miss}},
		{"a primer is due", with(g, important(game(12, 18, 0))), []brief{{13, 13, -1, 1, 1, 0, 60}}},
		{"no primer is due", with(g, game(12, 18, 0)), []brief{miss, {13, 13, -1, 1, 1, 0, 60}}},
		{"the important one is not the earliest", with(g, game(12, 10, 0), important(game(12, 18, 0))), []brief{miss, {13, 13, -1, 2, 1, 0, 60}}},
		{"beginner", with(g, months(11)), nil},
		{"two games, minor", with(append(two, born(17))...), nil},
		{"two games, adult", with(two...), []brief{{11, 11, -1, 1, 1, 0, 60}}},
		{"game before the period", with(g, from(11)), []brief{miss}},
		{"date after the period", with(g, until(10)), nil},
	})
}

func TestNearGames(t *testing.T) {
	g, big := game(10, 18, 0), important(game(10, 18, 0))
	at := func(k Kind, day, minute int) Session { return ses(k, day, 17, minute, 50) }
	miss := func(points int64) []brief { return []brief{{8, 8, 0, 0, 0, 1, points}} }
	for _, k := range []Kind{Trimmed, PostGame} {
		testAim(t, Important48h, []aimCase{
			{"48 h", with(big, at(k, 8, 10)), nil},
			{"a minute less", with(big, at(k, 8, 11)), miss(2500)},
			{"behind another game", with(big, at(k, 8, 11), game(9, 20, 0)), miss(2500)},
			{"not important", with(g, at(k, 8, 11)), nil},
		})
		testAim(t, NearGame, []aimCase{
			{"48 h", with(g, at(k, 8, 10)), nil},
			{"a minute less", with(g, at(k, 8, 11)), miss(1)},
			{"an important one is near too", with(g, important(game(9, 20, 0)), at(k, 8, 11)), nil},
			{"an important one is far", with(g, important(game(12, 20, 0)), at(k, 8, 11)), miss(1)},
			{"important", with(big, at(k, 8, 11)), nil},
		})
	}
	for _, k := range []Kind{FullBody, Eccentric, Primer, Recovery} {
		testAim(t, Important48h, []aimCase{{"other kinds", with(big, at(k, 8, 11)), nil}})
		testAim(t, NearGame, []aimCase{{"other kinds", with(g, at(k, 8, 11)), nil}})
	}
	history := with(big, at(Trimmed, 8, 11), from(9))
	testAim(t, Important48h, []aimCase{{"history", history, nil}})
}

func TestPrimerTiming(t *testing.T) {
	g := game(10, 18, 0)
	testAim(t, PrimerTiming, []aimCase{
		{"24 h", with(g, ses(Primer, 9, 17, 30, 30)), nil},
		{"a minute less", with(g, ses(Primer, 9, 17, 31, 30)), []brief{{9, 9, 0, 0, 0, 1, 1}}},
		{"no game", with(ses(Primer, 9, 17, 31, 30)), nil},
		{"other kinds", with(g, ses(Recovery, 9, 17, 31, 30)), nil},
	})
}

func TestSize(t *testing.T) {
	long := one(game(0, 18, 0), game(14, 18, 0)) // a break
	testAim(t, Size, []aimCase{
		{"trimmed", with(on(Trimmed, 3)...), []brief{{3, 3, 0, -1, 0, 1, 1}}},
		{"post-game", with(on(PostGame, 3)...), []brief{{3, 3, 0, -1, 0, 1, 2}}},
		{"full-body", with(on(FullBody, 3)...), nil},
		{"full-body in a break", with(join(long, on(FullBody, 7))...), nil},
		{"others", with(join(long, on(Eccentric, 2), on(Primer, 3), on(Recovery, 4))...), nil},
	})
}

func TestStartTime(t *testing.T) {
	miss := func(day int) []brief { return []brief{{day, day, 0, -1, 0, 1, 1}} }
	testAim(t, StartTime, []aimCase{
		{"90 min before", with(ses(Primer, 4, 15, 30, 30)), nil},
		{"a minute more", with(ses(Primer, 4, 15, 29, 30)), miss(4)},
		{"90 min after", with(ses(Primer, 4, 18, 30, 30)), nil},
		{"a minute more after", with(ses(Primer, 4, 18, 31, 30)), miss(4)},
		{"Saturday", with(ses(Recovery, 5, 11, 30, 30)), nil},
		{"Saturday evening", with(ses(Recovery, 5, 17, 0, 30)), miss(5)},
		{"Sunday", with(ses(Recovery, 6, 8, 30, 30)), nil},
		{"Sunday early", with(ses(Recovery, 6, 8, 29, 30)), miss(6)},
		{"named", with(prefer(-1, 8*60), ses(Primer, 1, 9, 30, 30)), nil},
		{"named, late", with(prefer(-1, 8*60), ses(Primer, 1, 9, 31, 30)), miss(1)},
		{"not named", with(prefer(-1, 8*60), ses(Primer, 0, 18, 31, 30)), miss(0)},
		{"midnight is a name", with(prefer(0), ses(Primer, 0, 1, 30, 30)), nil},
		{"post-game", with(ses(PostGame, 4, 21, 0, 30)), nil},
	})
}

func TestPracticeOrder(t *testing.T) {
	p := ev(Practice, 4, 13, 0, 60)
	miss := []brief{{4, 4, 0, 0, 0, 1, 1}}
	testAim(t, PracticeOrder, []aimCase{
		{"3 h", with(p, ses(Primer, 4, 17, 0, 30)), nil},
		{"a minute less", with(p, ses(Primer, 4, 16, 59, 30)), miss},
		{"as it ends", with(p, ses(Primer, 4, 14, 0, 30)), miss},
		{"lift first", with(p, ses(Primer, 4, 12, 0, 30)), nil},
		{"skills", with(ev(Skills, 4, 13, 0, 60), ses(Primer, 4, 16, 59, 30)), miss},
		{"once", with(p, ev(Skills, 4, 14, 30, 60), ses(Primer, 4, 16, 0, 30)), miss},
		{"recovery", with(p, ses(Recovery, 4, 16, 59, 30)), nil},
		{"a practice of the date before", with(ev(Practice, 3, 23, 0, 120), ses(Primer, 4, 3, 0, 30)), nil},
		{"busy", with(ev(Busy, 4, 13, 0, 60), ses(Primer, 4, 16, 59, 30)), nil},
	})
}

func TestHardDay(t *testing.T) {
	hard := ev(Practice, 4, 20, 0, 60)
	hard.Hard = true
	skills := hard
	skills.Kind = Skills
	miss := []brief{{4, 4, 0, 0, 0, 1, 2}}
	testAim(t, HardDay, []aimCase{
		{"full-body", with(join(one(hard), on(FullBody, 4))...), miss},
		{"eccentric", with(join(one(hard), on(Eccentric, 4))...), miss},
		{"others", with(join(one(hard), on(Trimmed, 4), on(Primer, 4), on(Recovery, 4), on(PostGame, 4))...), nil},
		{"another date", with(join(one(hard), on(FullBody, 3, 5))...), nil},
		{"not hard", with(join(one(ev(Practice, 4, 20, 0, 60)), on(FullBody, 4))...), nil},
		{"skills", with(join(one(skills), on(FullBody, 4))...), nil},
	})
}

func TestLiftRun(t *testing.T) {
	testAim(t, LiftRun, []aimCase{
		{"three", with(join(one(until(6)), on(Primer, 3))...), nil},
		{"recovery is no lift", with(join(one(until(5)), on(Recovery, 3), on(Primer, 5))...), []brief{
			{0, 3, -1, -1, 3, 4, 1}, {0, 4, -1, -1, 3, 5, 1}}},
		{"history", with(join(one(from(2), until(5)), on(Primer, 1))...), []brief{{2, 5, -1, -1, 3, 4, 1}}},
	})
}

func TestBreakSession(t *testing.T) {
	long := one(game(6, 18, 0), game(21, 18, 0)) // days 7 to 20, two whole weeks
	near := one(game(6, 18, 0), game(14, 18, 0)) // an open week
	late := one(game(7, 18, 0), game(21, 18, 0)) // only the second week is whole
	miss := func(week, got int) brief { return brief{week, week + 6, -1, -1, 3, got, 3} }
	testAim(t, BreakSession, []aimCase{
		{"none", with(long...), []brief{miss(7, 0), miss(14, 0)}},
		{"two and three", with(join(long, on(FullBody, 7, 9, 14, 16), on(Trimmed, 18), on(Primer, 11))...), []brief{miss(7, 2)}},
		{"open week", with(near...), nil},
		{"a week that holds a game", with(late...), []brief{miss(14, 0)}},
	})
}
