package judge

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// on gives one session of the kind at 17:00 on each day, of a legal length.
func on(kind Kind, days ...int) []any {
	length := map[Kind]int{FullBody: 45, Trimmed: 45, Primer: 30, Recovery: 30, PostGame: 30, Eccentric: 45}
	var items []any
	for _, d := range days {
		items = append(items, ses(kind, d, 17, 0, length[kind]))
	}
	return items
}

func join(lists ...[]any) []any {
	var all []any
	for _, l := range lists {
		all = append(all, l...)
	}
	return all
}

func one(items ...any) []any { return items }

func TestLiftsIn7(t *testing.T) {
	// 14 on day 24, which is 2024-10-31.
	turns14 := edit(func(in *Input) { in.Athlete.BornYear, in.Athlete.BornMonth = 2010, 10 })
	// Games on days 0 and 8: an open week on days 1 to 7.
	open := one(game(0, 18, 0), game(8, 18, 0))
	short := one(game(0, 18, 0), game(7, 18, 0))
	long := one(game(0, 18, 0), game(14, 18, 0))
	testLimit(t, LiftsIn7, []limitCase{
		{"three", with(on(Primer, 9, 10, 15)...), nil},
		{"full before, not with it", with(on(Primer, 1, 1, 2, 2, 8)...), []int{3}},
		{"four in seven dates", with(on(Primer, 9, 10, 11, 15)...), []int{3}},
		{"four in eight dates", with(on(Primer, 9, 10, 11, 16)...), nil},
		{"week borders do not matter", with(on(Primer, 5, 6, 7, 8)...), []int{3}},
		{"five", with(on(Primer, 9, 10, 11, 12, 13)...), []int{3, 4}},
		{"recovery is no lift", with(join(on(Primer, 9, 10, 11), on(Recovery, 12, 13))...), nil},
		{"all other kinds are", with(join(on(FullBody, 9), on(Trimmed, 10), on(PostGame, 11), on(Eccentric, 12))...), []int{3}},
		{"history counts", with(join(one(from(12)), on(Primer, 9, 10, 11, 12))...), []int{3}},
		{"history is not judged", with(join(one(from(13)), on(Primer, 9, 10, 11, 12))...), nil},
		{"a later one does not taint the earlier", with(on(Primer, 15, 11, 10, 9)...), []int{0}},
		{"four across an open week", with(join(open, on(Primer, 1, 3, 5, 7))...), nil},
		{"four in six dates of an open week", with(join(open, on(Primer, 1, 3, 5, 6))...), []int{3}},
		{"four on its first dates", with(join(open, one(from(1)), on(Primer, 1, 2, 3, 4))...), []int{3}},
		{"four in a break", with(join(long, on(Primer, 4, 6, 8, 10))...), nil},
		{"five in a break", with(join(long, on(Primer, 4, 5, 6, 8, 10))...), []int{4}},
		{"the window that holds a game binds", with(join(long, on(Primer, 1, 3, 5, 6))...), []int{3}},
		{"the last four dates of a break", with(join(long, on(Primer, 8, 10, 12, 13))...), []int{3}},
		{"six free dates", with(join(short, on(Primer, 1, 2, 4, 6))...), []int{3}},
		{"before the first game nothing is known", with(join(one(game(20, 18, 0)), on(Primer, 4, 6, 8, 10))...), []int{3}},
		{"after the last game nothing is known", with(join(one(game(0, 18, 0)), on(Primer, 10, 12, 14, 16))...), []int{3}},
		{"a beginner's third", with(join(one(months(11)), on(Primer, 9, 12, 15))...), []int{2}},
		{"a year of training", with(join(one(months(12)), on(Primer, 9, 12, 15))...), nil},
		{"unknown training age", with(join(one(months(-1)), on(Primer, 9, 12, 15))...), []int{2}},
		{"13", with(join(one(born(13)), on(Primer, 9, 12, 15))...), []int{2}},
		{"14", with(join(one(born(14)), on(Primer, 9, 12, 15))...), nil},
		{"13 on the last date of the window", with(join(one(turns14), on(Primer, 17, 20, 23))...), []int{2}},
		{"14 on the last date of the window", with(join(one(turns14), on(Primer, 18, 21, 24))...), nil},
		{"a beginner in a break", with(join(long, one(months(0)), on(Primer, 4, 6, 8))...), []int{2}},
		{"unknown age is a beginner", with(join(one(ageless), on(Primer, 9, 12, 15))...), []int{2}},
	})
}

func TestOpenWeekAllowsFourInItsOnlyWindow(t *testing.T) {
	// With seven free dates one window is free, and each lift also lies in a
	// window with a game: four fit only if the first and last are six apart,
	// so that no other window holds all of them.
	open := one(game(0, 18, 0), game(8, 18, 0))
	s := newSeason(with(open...), Default())
	for w, want := range map[int]int{0: 3, 1: 4, 2: 3} {
		if got := s.liftLimit(monday + w); got != want {
			t.Errorf("limit from day %d: %d, want %d", w, got, want)
		}
	}
}

func TestHeavyGap(t *testing.T) {
	cases := []limitCase{
		{"40 h", with(ses(FullBody, 3, 20, 15, 45), ses(FullBody, 5, 13, 0, 45)), nil},
		{"a minute less", with(ses(FullBody, 3, 20, 15, 45), ses(FullBody, 5, 12, 59, 45)), []int{1}},
		{"next date", with(on(FullBody, 3, 4)...), []int{1}},
		{"next date after 40 h by another clock", with(ses(FullBody, 3, 0, 0, 45), func(in *Input) {
			s := ses(FullBody, 5, 17, 0, 45)
			s.Date = monday + 4
			in.Sessions = append(in.Sessions, s)
		}), []int{1}},
		{"same date", with(ses(FullBody, 3, 8, 0, 45), ses(FullBody, 3, 18, 0, 45)), []int{1}},
		{"a primer between", with(join(on(FullBody, 3), on(Primer, 4), on(FullBody, 5))...), nil},
		{"history", with(join(one(from(4)), on(FullBody, 3, 4))...), []int{1}},
	}
	for _, k := range []Kind{Trimmed, PostGame, Eccentric} {
		cases = append(cases, limitCase{"heavy kinds", with(join(on(k, 3), on(FullBody, 4))...), []int{1}})
		cases = append(cases, limitCase{"heavy kinds", with(join(on(FullBody, 3), on(k, 4))...), []int{1}})
	}
	for _, k := range []Kind{Primer, Recovery} {
		cases = append(cases, limitCase{"light kinds", with(join(on(k, 3), on(FullBody, 4), on(k, 5))...), nil})
	}
	testLimit(t, HeavyGap, cases)
}

func TestMinorLiftDates(t *testing.T) {
	testLimit(t, MinorLiftDates, []limitCase{
		{"next date", with(join(one(born(17)), on(Primer, 3, 4))...), []int{1}},
		{"same date", with(born(17), ses(Primer, 3, 8, 0, 30), ses(FullBody, 3, 17, 0, 45)), []int{1}},
		{"two dates on", with(join(one(born(17)), on(Primer, 3, 5))...), nil},
		{"recovery between", with(join(one(born(17)), on(Primer, 3, 5), on(Recovery, 4))...), nil},
		{"adult", with(on(Primer, 3, 4)...), nil},
	})
}

func TestSessionsADate(t *testing.T) {
	long := one(game(0, 18, 0), game(14, 18, 0))   // 13 free dates
	ten := one(game(0, 18, 0), game(11, 18, 0))    // 10
	nine := one(game(0, 18, 0), game(10, 18, 0))   // 9
	early := one(ses(Recovery, 5, 9, 0, 30))       // ends 9:30
	late := one(ses(Primer, 5, 15, 30, 30))        // 6 h on
	soon := one(ses(Primer, 5, 15, 29, 30))        // a minute less
	clipped := one(game(0, 18, 0), game(28, 1, 0)) // games outside bound a run too
	testLimit(t, SessionsADate, []limitCase{
		{"one", with(early...), nil},
		{"two", with(join(early, late)...), []int{1}},
		{"two in a break", with(join(long, early, late)...), nil},
		{"two in a break, too near", with(join(long, early, soon)...), []int{1}},
		{"three in a break", with(join(long, early, late, one(ses(Primer, 5, 22, 0, 30)))...), []int{2}},
		{"four in a break", with(join(long, one(ses(Primer, 5, 1, 0, 30)), early, late, one(ses(Primer, 5, 22, 0, 30)))...), []int{2, 3}},
		{"ten dates are a break", with(join(ten, early, late)...), nil},
		{"nine are not", with(join(nine, early, late)...), []int{1}},
		{"the game after the period is known", with(join(clipped, early, late)...), nil},
		{"a run is cut to the period", with(join(clipped, one(until(9)), early, late)...), []int{1}},
		{"cut to ten dates", with(join(clipped, one(until(10)), early, late)...), nil},
		{"cut at the start", with(join(ten, one(from(2)), early, late)...), []int{1}},
		{"given in any order", with(join(late, early)...), []int{0}},
	})
}

func TestLiftsADate(t *testing.T) {
	long := one(game(0, 18, 0), game(14, 18, 0))
	early, late := ses(Primer, 5, 9, 0, 30), ses(FullBody, 5, 17, 0, 45)
	testLimit(t, LiftsADate, []limitCase{
		{"two in a break", with(join(long, one(early, late))...), []int{1}},
		{"given in any order", with(join(long, one(late, early))...), []int{0}},
		{"with recovery", with(join(long, one(ses(Recovery, 5, 9, 0, 30), late))...), nil},
		{"recovery after", with(join(long, one(early, ses(Recovery, 5, 17, 0, 30)))...), nil},
		{"two dates", with(join(long, on(Primer, 5, 6))...), nil},
	})
}

func TestFreeDate(t *testing.T) {
	// Practices on all dates of two weeks but the named ones.
	busyBut := func(free ...int) []any {
		var items []any
	days:
		for d := -7; d <= 34; d++ {
			for _, f := range free {
				if d == f {
					continue days
				}
			}
			items = append(items, ev(Practice, d, 9, 0, 60))
		}
		return items
	}
	minor := one(born(17))
	testLimit(t, FreeDate, []limitCase{
		{"the only free date", with(join(minor, busyBut(10), on(Recovery, 10))...), first},
		{"a date with practice", with(join(minor, busyBut(10), on(Recovery, 9))...), nil},
		{"adult", with(join(busyBut(10), on(Recovery, 10))...), nil},
		{"two of two", with(join(minor, busyBut(10, 12), on(Recovery, 12, 10))...), []int{0, 1}},
		{"all dates free, six sessions in seven dates", with(join(minor, on(Recovery, 8, 9, 10, 11, 12, 13))...), nil},
		{"seven in seven", with(join(minor, on(Recovery, 7, 8, 9, 10, 11, 12, 13))...), []int{6}},
		{"eight in eight", with(join(minor, on(Recovery, 6, 7, 8, 9, 10, 11, 12, 13))...), []int{6, 7}},
		{"history counts", with(join(minor, one(from(13)), on(Recovery, 7, 8, 9, 10, 11, 12, 13))...), []int{6}},
		{"an empty history is free", with(join(minor, one(from(13)), on(Recovery, 8, 9, 10, 11, 12, 13))...), nil},
		{"games and skills take dates", with(join(minor, one(game(9, 9, 0), ev(Skills, 11, 9, 0, 60)), on(Recovery, 7, 8, 10, 12, 13))...), []int{4}},
		{"travel, exams and closures do not", with(join(minor, one(ev(Travel, 9, 9, 0, 60), ev(Exam, 10, 9, 0, 60), ev(Closure, 11, 9, 0, 60), ev(Busy, 12, 9, 0, 60)), on(Recovery, 7, 8, 13))...), nil},
		{"the calendar after the period counts", with(join(minor, one(until(10)), busyBut(10, 17), on(Recovery, 10))...), first},
		{"free dates after the period", with(join(minor, one(until(10)), on(Recovery, 5, 6, 7, 8, 9, 10))...), nil},
	})
	var spread []any
	for _, d := range []int{10, 17} { // each window holds one of them
		spread = append(spread, on(Recovery, d)...)
	}
	testLimit(t, FreeDate, []limitCase{{"a week apart", with(join(minor, busyBut(10, 17), spread)...), []int{0, 1}}})
}

func TestNoFreeDate(t *testing.T) {
	var busy []any
	for d := 5; d <= 11; d++ {
		busy = append(busy, ev(Practice, d, 9, 0, 60))
	}
	minor := one(born(17))
	testLimit(t, NoFreeDate, []limitCase{
		{"two", with(join(minor, busy, on(Recovery, 5, 11))...), nil},
		{"three", with(join(minor, busy, on(Recovery, 5, 8, 11))...), []int{2}},
		{"four", with(join(minor, busy, on(Recovery, 5, 6, 8, 11))...), []int{2, 3}},
		{"one of them outside", with(join(minor, busy, on(Recovery, 4, 8, 11))...), nil},
		{"three on its first date", with(join(minor, busy, on(Recovery, 5, 5, 5))...), []int{2}},
		{"adult", with(join(busy, on(Recovery, 5, 8, 11))...), nil},
		{"a free date", with(join(minor, busy[1:], on(Recovery, 6, 8, 11))...), nil},
		{"history counts", with(join(minor, busy, one(from(11)), on(Recovery, 5, 8, 11))...), []int{2}},
	})
}

func TestEccentric(t *testing.T) {
	thirteen := one(game(0, 18, 0), game(14, 18, 0)) // days 1-13, first half 1-7
	ten := one(game(0, 18, 0), game(11, 18, 0))      // days 1-10, first half 1-5
	nine := one(game(0, 18, 0), game(10, 18, 0))
	testLimit(t, EccentricPlace, []limitCase{
		{"first half of 13", with(join(thirteen, on(Eccentric, 1, 7))...), nil},
		{"second half of 13", with(join(thirteen, on(Eccentric, 8))...), first},
		{"first half of 10", with(join(ten, on(Eccentric, 1, 5))...), nil},
		{"second half of 10", with(join(ten, on(Eccentric, 6))...), first},
		{"open week", with(join(nine, on(Eccentric, 3))...), first},
		{"no run", with(on(Eccentric, 3)...), first},
		{"the half is of what the period holds", with(join(thirteen, one(until(11)), on(Eccentric, 6, 7))...), []int{1}},
		{"minor", with(join(thirteen, one(born(17)), on(Eccentric, 3))...), first},
		{"two years of training", with(join(thirteen, one(months(24)), on(Eccentric, 3))...), nil},
		{"less", with(join(thirteen, one(months(23)), on(Eccentric, 3))...), first},
		{"other kinds", with(on(FullBody, 3)...), nil},
	})
	testLimit(t, EccentricCount, []limitCase{
		{"two a week", with(on(Eccentric, 0, 3, 7)...), nil},
		{"the third", with(on(Eccentric, 0, 3, 6, 7)...), []int{2}},
		{"history counts", with(join(one(from(5)), on(Eccentric, 0, 3, 6))...), []int{2}},
	})
}

// A breach names the first window that is full, or the dates that are too near.
func TestBreachWindows(t *testing.T) {
	exams := one(ev(Exam, 7, 8, 0, 60), ev(Exam, 9, 8, 0, 60), ev(Exam, 13, 8, 0, 60))
	var busy []any
	for d := 5; d <= 11; d++ {
		busy = append(busy, ev(Practice, d, 9, 0, 60))
	}
	minor := one(born(17))
	for _, c := range []struct {
		rule                     string
		in                       Input
		session, event, from, to int // event -1: none
	}{
		{EventOverlap, with(join(on(Primer, 9), one(ev(Busy, 8, 9, 0, 60), ev(Busy, 9, 17, 0, 60)))...), 0, 1, 9, 9},
		{ExamCount, with(join(exams, on(Recovery, 7, 9, 13))...), 2, -1, 7, 13},
		{DoubleFixture, with(join(minor, one(game(9, 10, 0), game(9, 16, 0)), on(Recovery, 10))...), 0, 1, 9, 10},
		{LiftsIn7, with(on(Primer, 9, 10, 11, 14)...), 3, -1, 8, 14},
		{HeavyGap, with(on(FullBody, 9, 10)...), 1, -1, 9, 10},
		{MinorLiftDates, with(join(minor, on(Primer, 9, 10))...), 1, -1, 9, 10},
		{FreeDate, with(join(minor, on(Recovery, 7, 8, 9, 10, 11, 12, 13))...), 6, -1, 7, 13},
		{NoFreeDate, with(join(minor, busy, on(Recovery, 5, 8, 11))...), 2, -1, 5, 11},
		{EccentricCount, with(on(Eccentric, 7, 10, 13)...), 2, -1, 7, 13},
		{PostGameLimit, with(optedIn, game(9, 18, 0), game(10, 23, 0), ses(PostGame, 9, 20, 0, 30)), 0, 1, 9, 10},
	} {
		var got []Breach
		for _, b := range judge(t, c.in).Illegal {
			if b.Rule == c.rule {
				got = append(got, b)
			}
		}
		want := []Breach{{c.rule, c.session, c.event, monday + c.from, monday + c.to}}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s: %s", c.rule, d)
		}
	}
}
