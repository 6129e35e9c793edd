package judge

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

type limitCase struct {
	name string
	in   Input
	want []int // sessions in breach
}

func testLimit(t *testing.T, rule string, cases []limitCase) {
	t.Helper()
	for _, c := range cases {
		t.Run(rule+"/"+c.name, func(t *testing.T) {
			got := breaking(judge(t, c.in), rule)
			if d := cmp.Diff(c.want, got, cmpopts.EquateEmpty()); d != "" {
				t.Error(d)
			}
		})
	}
}

var first = []int{0}

func TestEventOverlap(t *testing.T) {
	testLimit(t, EventOverlap, []limitCase{
		{"ends as the buffer before a game starts", with(game(3, 18, 0), ses(Recovery, 3, 16, 30, 45)), nil},
		{"ends a minute into it", with(game(3, 18, 0), ses(Recovery, 3, 16, 31, 45)), first},
		{"starts as the buffer after ends", with(game(3, 18, 0), ses(Recovery, 3, 20, 15, 30)), nil},
		{"starts a minute earlier", with(game(3, 18, 0), ses(Recovery, 3, 20, 14, 30)), first},
		{"post-game in the buffer of its own game", with(game(3, 18, 0), ses(PostGame, 3, 20, 0, 30)), nil},
		{"post-game in the buffer of an older game", with(game(3, 14, 0), ev(Game, 3, 14, 30, 100), ses(PostGame, 3, 16, 14, 30)), first},
		{"practice before", with(ev(Practice, 3, 18, 0, 60), ses(Trimmed, 3, 17, 0, 45)), nil},
		{"practice before, a minute late", with(ev(Practice, 3, 18, 0, 60), ses(Trimmed, 3, 17, 1, 45)), first},
		{"practice after", with(ev(Practice, 3, 18, 0, 60), ses(Trimmed, 3, 19, 15, 45)), nil},
		{"practice after, a minute early", with(ev(Practice, 3, 18, 0, 60), ses(Trimmed, 3, 19, 14, 45)), first},
		{"skills after, a minute early", with(ev(Skills, 3, 18, 0, 60), ses(Trimmed, 3, 19, 14, 45)), first},
		{"skills before, a minute late", with(ev(Skills, 3, 18, 0, 60), ses(Trimmed, 3, 17, 1, 45)), first},
		{"travel before", with(ev(Travel, 3, 18, 0, 60), ses(Trimmed, 3, 17, 15, 45)), nil},
		{"travel after", with(ev(Travel, 3, 18, 0, 60), ses(Trimmed, 3, 19, 30, 45)), nil},
		{"travel after, a minute early", with(ev(Travel, 3, 18, 0, 60), ses(Trimmed, 3, 19, 29, 45)), first},
		{"exam before", with(ev(Exam, 3, 9, 0, 60), ses(Trimmed, 3, 8, 0, 30)), nil},
		{"exam before, a minute late", with(ev(Exam, 3, 9, 0, 60), ses(Trimmed, 3, 8, 1, 30)), first},
		{"exam after", with(ev(Exam, 3, 9, 0, 60), ses(Trimmed, 3, 10, 0, 30)), nil},
		{"closure touches", with(ev(Closure, 3, 18, 0, 60), ses(Trimmed, 3, 17, 15, 45), ses(Trimmed, 3, 19, 0, 45)), nil},
		{"closure a minute", with(ev(Closure, 3, 18, 0, 60), ses(Trimmed, 3, 17, 16, 45), ses(Trimmed, 3, 18, 59, 45)), []int{0, 1}},
		{"busy a minute", with(ev(Busy, 3, 18, 0, 60), ses(Trimmed, 3, 17, 16, 45), ses(Trimmed, 3, 19, 0, 45)), first},
		{"several events, one breach", with(ev(Busy, 3, 18, 0, 60), ev(Closure, 3, 18, 0, 60), ses(Trimmed, 3, 18, 0, 45)), first},
		{"an event without length", with(ev(Busy, 3, 18, 0, 0), ses(Trimmed, 3, 17, 45, 45)), nil},
	})
}

func TestOpenHours(t *testing.T) {
	hours := func(athlete, place []Span) edit {
		return func(in *Input) { in.AthleteOpen, in.PlaceOpen = athlete, [][]Span{nil, place} }
	}
	here := func(s Session) Session { s.Place = 1; return s }
	elsewhere := func(s Session, place int) Session { s.Place = place; return s }
	evening := []Span{{instant(3, 17, 0), instant(3, 18, 0)}}
	halves := []Span{{instant(3, 17, 0), instant(3, 17, 20)}, {instant(3, 17, 20), instant(3, 18, 0)}}
	always := []Span{{-far, far}}
	s := here(ses(FullBody, 3, 17, 0, 60))
	testLimit(t, OpenHours, []limitCase{
		{"fills both", with(hours(evening, evening), s), nil},
		{"opens late", with(hours(evening, always), here(ses(Trimmed, 3, 16, 59, 50))), first},
		{"closes early", with(hours(always, evening), here(ses(Trimmed, 3, 17, 20, 41))), first},
		{"two spans that touch are not one", with(hours(halves, always), s), first},
		{"post-game needs the place only", with(hours(nil, evening), here(ses(PostGame, 3, 17, 0, 30))), nil},
		{"post-game needs the place", with(hours(always, nil), here(ses(PostGame, 3, 17, 0, 30))), first},
		{"place without hours", with(hours(always, always), elsewhere(s, 0)), first},
		{"place that is not there", with(hours(always, always), elsewhere(s, 2), elsewhere(s, -1)), []int{0, 1}},
	})
}

func TestLatestEnd(t *testing.T) {
	testLimit(t, LatestEnd, []limitCase{
		{"adult", with(ses(Trimmed, 3, 21, 15, 45)), nil},
		{"adult late", with(ses(Trimmed, 3, 21, 16, 45)), first},
		{"past midnight", with(ses(Trimmed, 3, 23, 30, 45)), first},
		{"18", with(born(18), ses(Trimmed, 3, 21, 15, 45)), nil},
		{"17", with(born(17), ses(Trimmed, 3, 19, 45, 45)), nil},
		{"17 late", with(born(17), ses(Trimmed, 3, 19, 46, 45)), first},
		{"16 late", with(born(16), ses(Trimmed, 3, 19, 46, 45)), first},
		{"15", with(born(15), ses(Trimmed, 3, 19, 15, 45)), nil},
		{"15 late", with(born(15), ses(Trimmed, 3, 19, 16, 45)), first},
		{"unknown age is young", with(ageless, ses(Trimmed, 3, 19, 16, 45)), first},
	})
}

func TestAgeTurnsOnTheLastDayOfTheBirthMonth(t *testing.T) {
	day := func(date int) int { return date - monday }
	october := func(in *Input) { in.Athlete.BornYear, in.Athlete.BornMonth = 2006, 10 }
	s := func(date int) Session { return ses(Trimmed, day(date), 20, 0, 45) }
	testLimit(t, LatestEnd, []limitCase{
		{"2024-10-30", with(october, s(20026)), first},
		{"2024-10-31", with(october, s(20027)), nil},
	})
	for _, c := range []struct {
		year, month, date, want int
	}{
		{2006, 2, 19780, 17}, // 2024-02-27
		{2006, 2, 19781, 18}, // 2024-02-28, born 2006-02-28
		{2008, 2, 21242, 19}, // 2028-02-28
		{2008, 2, 21243, 20}, // 2028-02-29, born 2008-02-29
		{2012, 2, 21973, 17}, // 2030-02-28: born 2012-02-29
		{2012, 2, 21974, 18}, // 2030-03-01
		{2006, 12, 20087, 17},
		{2006, 12, 20088, 18}, // 2024-12-31
		{2000, 1, -1, -31},    // 1969-12-31, before birth
	} {
		s := newSeason(Input{Athlete: Athlete{BornYear: c.year, BornMonth: c.month, AgeKnown: true}}, Default())
		if got := s.age(c.date); got != c.want {
			t.Errorf("born %d-%d, date %d: age %d, want %d", c.year, c.month, c.date, got, c.want)
		}
	}
}

func TestSessionLength(t *testing.T) {
	exam := ev(Exam, 3, 8, 0, 60)
	back := []any{game(2, 20, 0), game(3, 20, 0)} // 22 h, end to start
	var cases []limitCase
	for _, r := range []struct {
		name     string
		kind     Kind
		min, max int
	}{
		{"full-body", FullBody, 35, 60}, {"trimmed", Trimmed, 35, 50}, {"primer", Primer, 30, 40},
		{"recovery", Recovery, 30, 45}, {"post-game", PostGame, 30, 30}, {"eccentric", Eccentric, 45, 60},
	} {
		cases = append(cases,
			limitCase{r.name + " shortest and longest", with(ses(r.kind, 3, 17, 0, r.min), ses(r.kind, 4, 17, 0, r.max)), nil},
			limitCase{r.name + " too short and too long", with(ses(r.kind, 3, 17, 0, r.min-1), ses(r.kind, 4, 17, 0, r.max+1)), []int{0, 1}})
	}
	for _, k := range []Kind{Trimmed, Primer, Recovery, PostGame} {
		cases = append(cases,
			limitCase{"exam date", with(exam, ses(k, 3, 11, 0, 20), ses(k, 3, 17, 0, 30)), nil},
			limitCase{"exam date too short and too long", with(exam, ses(k, 3, 11, 0, 19), ses(k, 3, 17, 0, 31)), []int{0, 1}})
	}
	for _, k := range []Kind{FullBody, Eccentric} {
		cases = append(cases, limitCase{"full-size on an exam date", with(exam, ses(k, 3, 11, 0, 30), ses(k, 3, 17, 0, 45)), []int{0, 1}})
	}
	cases = append(cases,
		limitCase{"between close games", with(append(back, ses(Recovery, 3, 11, 0, 20), ses(Recovery, 3, 12, 0, 30))...), nil},
		limitCase{"between close games, too short and too long", with(append(back, ses(Recovery, 3, 11, 0, 19), ses(Recovery, 3, 12, 0, 31))...), []int{0, 1}},
		limitCase{"between games a day apart", with(game(2, 20, 0), game(3, 22, 0), ses(Recovery, 3, 12, 0, 31)), nil},
		limitCase{"only recovery is cut", with(append(back, ses(Primer, 3, 12, 0, 31))...), nil},
	)
	testLimit(t, SessionLength, cases)
}

func TestBeforeGame(t *testing.T) {
	g := game(10, 18, 0)
	for _, c := range []struct {
		rule  string
		hours int
		kinds []Kind
		free  []Kind
	}{
		{HeavyBeforeGame, 24, []Kind{FullBody, Trimmed, PostGame, Eccentric}, []Kind{Primer, Recovery}},
		{FullBeforeGame, 48, []Kind{FullBody, Eccentric}, []Kind{Trimmed, PostGame, Primer, Recovery}},
		{EccentricBeforeGame, 72, []Kind{Eccentric}, []Kind{FullBody, Trimmed, PostGame, Primer, Recovery}},
	} {
		day := 10 - c.hours/24
		for _, k := range c.kinds {
			testLimit(t, c.rule, []limitCase{
				{"in time", with(g, ses(k, day, 17, 10, 50)), nil},
				{"a minute late", with(g, ses(k, day, 17, 11, 50)), first},
				{"during", with(g, ses(k, 10, 17, 59, 50)), first},
				{"as it starts", with(g, ses(k, 10, 18, 0, 50)), nil},
				{"the nearest game counts", with(game(20, 18, 0), g, ses(k, day, 17, 11, 50)), first},
			})
		}
		for _, k := range c.free {
			testLimit(t, c.rule, []limitCase{{"another kind", with(g, ses(k, 10, 17, 0, 30)), nil}})
		}
	}
}

func TestPrimerWindow(t *testing.T) {
	g := game(10, 18, 0)
	early := game(10, 9, 0)
	testLimit(t, PrimerWindow, []limitCase{
		{"36 h", with(g, ses(Primer, 9, 5, 30, 30)), nil},
		{"a minute more", with(g, ses(Primer, 9, 5, 29, 30)), first},
		{"12 h", with(early, ses(Primer, 9, 20, 30, 30)), nil},
		{"a minute less", with(early, ses(Primer, 9, 20, 31, 30)), first},
		{"on the date of the game", with(game(10, 23, 0), ses(Primer, 10, 8, 0, 30)), first},
		{"no game", with(ses(Primer, 9, 17, 0, 30)), first},
		{"another game is nearer than 12 h", with(g, game(9, 20, 0), ses(Primer, 9, 10, 0, 30)), first},
		{"another game is 12 h off", with(g, game(9, 22, 0), ses(Primer, 9, 9, 30, 30)), nil},
		{"a game that starts with it is not ahead", with(game(9, 8, 0), game(10, 9, 0), ses(Primer, 9, 8, 0, 30)), nil},
		{"a past game does no harm", with(g, game(9, 10, 0), ses(Primer, 9, 17, 0, 30)), nil},
		{"other kinds", with(ses(Recovery, 9, 17, 0, 30)), nil},
	})
}

func TestGameDate(t *testing.T) {
	g := game(10, 18, 0)
	back := []any{game(9, 20, 0), game(10, 21, 59)} // 23 h 59 min, end to start
	apart := []any{game(9, 20, 0), game(10, 22, 0)}
	both := []any{game(10, 10, 0), game(10, 18, 0)}
	testLimit(t, GameDate, []limitCase{
		{"recovery before", with(g, ses(Recovery, 10, 10, 0, 30)), first},
		{"primer before", with(g, ses(Primer, 10, 10, 0, 30)), first},
		{"recovery after", with(g, ses(Recovery, 10, 20, 30, 30)), nil},
		{"post-game after", with(g, ses(PostGame, 10, 20, 0, 30)), nil},
		{"trimmed after", with(g, ses(Trimmed, 10, 21, 0, 35)), first},
		{"primer after", with(g, ses(Primer, 10, 21, 0, 30)), first},
		{"starts with the game", with(g, ses(Recovery, 10, 18, 0, 30)), nil},
		{"short recovery between close games", with(append(back, ses(Recovery, 10, 11, 0, 30))...), nil},
		{"a minute long", with(append(back, ses(Recovery, 10, 11, 0, 31))...), first},
		{"a primer there", with(append(back, ses(Primer, 10, 11, 0, 30))...), first},
		{"games a day apart", with(append(apart, ses(Recovery, 10, 11, 0, 30))...), first},
		{"between two games of a date", with(append(both, ses(Recovery, 10, 14, 0, 30))...), nil},
		{"post-game between two games of a date", with(append(both, ses(PostGame, 10, 12, 0, 30))...), first},
		{"a game past midnight counts for its date", with(ev(Game, 9, 23, 0, 120), ses(Recovery, 10, 10, 0, 30)), nil},
	})
}

func TestBetweenGames(t *testing.T) {
	near := []any{game(9, 20, 0), game(10, 21, 59)}
	apart := []any{game(9, 20, 0), game(10, 22, 0)}
	testLimit(t, BetweenGames, []limitCase{
		{"recovery of 30", with(append(near, ses(Recovery, 10, 11, 0, 30))...), nil},
		{"recovery of 31", with(append(near, ses(Recovery, 10, 11, 0, 31))...), first},
		{"primer", with(append(near, ses(Primer, 10, 11, 0, 30))...), first},
		{"post-game after the first", with(append(near, ses(PostGame, 9, 22, 0, 30))...), first},
		{"a day apart", with(append(apart, ses(Primer, 10, 11, 0, 30))...), nil},
		{"before both", with(append(near, ses(Primer, 9, 8, 0, 30))...), nil},
		{"starts inside the first", with(append(near, ses(Primer, 9, 21, 59, 30))...), nil},
		{"after both", with(append(near, ses(Primer, 11, 8, 0, 30))...), nil},
		{"runs into the second", with(append(near, ses(Recovery, 10, 21, 40, 31))...), first},
	})
}

func TestAfterGame(t *testing.T) {
	g := ev(Game, 9, 8, 0, 120)
	late := ev(Game, 8, 20, 0, 120)
	testLimit(t, AfterGame, []limitCase{
		{"full-body after 24 h", with(g, ses(FullBody, 10, 10, 0, 45)), nil},
		{"a minute less", with(g, ses(FullBody, 10, 9, 59, 45)), first},
		{"eccentric after 24 h", with(g, ses(Eccentric, 10, 10, 0, 45)), nil},
		{"eccentric a minute less", with(g, ses(Eccentric, 10, 9, 59, 45)), first},
		{"trimmed after 12 h", with(late, ses(Trimmed, 9, 10, 0, 45)), nil},
		{"trimmed a minute less", with(late, ses(Trimmed, 9, 9, 59, 45)), first},
		{"others", with(g, ses(Primer, 9, 10, 30, 30), ses(Recovery, 9, 11, 0, 30), ses(PostGame, 9, 10, 0, 30)), nil},
		{"the latest end counts", with(g, game(1, 8, 0), ses(FullBody, 10, 9, 59, 45)), first},
		{"no game before", with(game(20, 8, 0), ses(FullBody, 10, 9, 59, 45)), nil},
	})
}

func TestPostGame(t *testing.T) {
	g := game(9, 18, 0)
	s := ses(PostGame, 9, 20, 0, 30)
	testLimit(t, PostGameLimit, []limitCase{
		{"at once", with(optedIn, g, s), nil},
		{"not opted in", with(g, s), first},
		{"after 60 min", with(optedIn, g, ses(PostGame, 9, 21, 0, 30)), nil},
		{"after 61 min", with(optedIn, g, ses(PostGame, 9, 21, 1, 30)), first},
		{"no game", with(optedIn, s), first},
		{"16", with(optedIn, born(16), g, s), nil},
		{"15", with(optedIn, born(15), g, s), first},
		{"unknown age", with(optedIn, ageless, g, s), first},
		{"date only", with(optedIn, dateOnly(9), ses(PostGame, 9, 22, 0, 30)), first},
		{"game on the next date", with(optedIn, g, game(10, 23, 0), s), first},
		{"next game after 36 h", with(optedIn, g, game(11, 8, 30), s), nil},
		{"a minute less", with(optedIn, g, game(11, 8, 29), s), first},
		{"game past midnight", with(optedIn, ev(Game, 9, 22, 0, 120), ses(PostGame, 10, 0, 0, 30)), first},
		{"the game that ended last is its own", with(optedIn, g, ev(Game, 9, 10, 0, 120), s), nil},
		{"other kinds", with(ses(Recovery, 9, 20, 0, 30)), nil},
	})
}

func TestSleep(t *testing.T) {
	overnight := ev(Travel, 9, 22, 0, 600)
	testLimit(t, Sleep, []limitCase{
		{"practice to 21:00", with(ev(Practice, 9, 20, 0, 60), ses(Recovery, 10, 6, 0, 30)), nil},
		{"practice to 21:01, 9 h", with(ev(Practice, 9, 20, 0, 61), ses(Recovery, 10, 6, 16, 30)), nil},
		{"a minute less", with(ev(Practice, 9, 20, 0, 61), ses(Recovery, 10, 6, 15, 30)), first},
		{"minor, 10 h", with(born(17), ev(Practice, 9, 20, 0, 61), ses(Recovery, 10, 7, 16, 30)), nil},
		{"minor, a minute less", with(born(17), ev(Practice, 9, 20, 0, 61), ses(Recovery, 10, 7, 15, 30)), first},
		{"game", with(game(9, 20, 0), ses(Recovery, 10, 7, 15, 30)), nil},
		{"game, a minute less", with(game(9, 20, 0), ses(Recovery, 10, 7, 14, 30)), first},
		{"skills", with(ev(Skills, 9, 20, 0, 61), ses(Recovery, 10, 6, 15, 30)), first},
		{"travel past midnight", with(overnight, ses(Recovery, 10, 17, 30, 30)), nil},
		{"travel past midnight, a minute less", with(overnight, ses(Recovery, 10, 17, 29, 30)), first},
		{"date-only game ends at 22:00", with(dateOnly(9), ses(Recovery, 10, 7, 14, 30)), first},
		{"busy, exams and closures do not count", with(ev(Busy, 9, 21, 0, 60), ev(Exam, 9, 21, 0, 60), ev(Closure, 9, 21, 0, 60), ses(Recovery, 10, 5, 0, 30)), nil},
		{"post-game after its own game", with(game(9, 19, 30), ses(PostGame, 9, 21, 30, 30)), nil},
		{"recovery after a late game", with(game(9, 19, 30), ses(Recovery, 9, 21, 45, 30)), first},
		{"as it ends", with(ev(Practice, 9, 20, 0, 61), ses(Recovery, 9, 21, 1, 30)), first},
		{"still going on", with(ev(Travel, 9, 20, 0, 600), ses(Recovery, 10, 5, 59, 30)), nil},
	})
}

func TestExams(t *testing.T) {
	exam := ev(Exam, 3, 9, 0, 60)
	testLimit(t, ExamDate, []limitCase{
		{"as the exam ends", with(exam, ses(Primer, 3, 10, 0, 30)), nil},
		{"before it ends", with(exam, ses(Primer, 3, 9, 59, 30)), first},
		{"before the last of two ends", with(exam, ev(Exam, 3, 14, 0, 60), ses(Primer, 3, 14, 59, 30)), first},
		{"after the last of two", with(ev(Exam, 3, 14, 0, 60), exam, ses(Primer, 3, 15, 0, 30)), nil},
		{"ends at 19:30", with(exam, ses(Primer, 3, 19, 0, 30)), nil},
		{"ends a minute later", with(exam, ses(Primer, 3, 19, 1, 30)), first},
		{"another date", with(exam, ses(Primer, 4, 19, 1, 30)), nil},
	})
	week := []any{ev(Exam, 0, 8, 0, 60), ev(Exam, 2, 8, 0, 60), ev(Exam, 6, 8, 0, 60), ev(Exam, 7, 8, 0, 60)}
	s := func(days ...int) []any {
		var items []any
		for _, d := range days {
			items = append(items, ses(Recovery, d, 10, 0, 30))
		}
		return append(items, week...)
	}
	testLimit(t, ExamCount, []limitCase{
		{"two", with(s(0, 2, 7)...), nil},
		{"the third", with(s(0, 2, 6, 7)...), []int{2}},
		{"other dates do not count", with(s(0, 1, 2, 3, 4)...), nil},
		{"history counts", with(append(s(0, 2, 6), from(1))...), []int{2}},
		{"a club week from Sunday", with(append(s(0, 2, 6, 7), func(in *Input) { in.FirstWeekday = 0 })...), nil},
		{"given in any order", with(s(6, 2, 0)...), []int{0}},
	})
}

func TestDoubleFixture(t *testing.T) {
	two := []any{game(9, 10, 0), game(9, 16, 0)}
	s := ses(Recovery, 10, 17, 0, 30)
	testLimit(t, DoubleFixture, []limitCase{
		{"minor", with(append(two, born(17), s)...), first},
		{"adult", with(append(two, s)...), nil},
		{"one game", with(game(9, 10, 0), born(17), s), nil},
		{"two dates later", with(append(two, born(17), ses(Recovery, 11, 17, 0, 30))...), nil},
	})
}

func TestLongHaul(t *testing.T) {
	trip := ev(Travel, 9, 8, 0, 600)
	trip.LongHaul = true
	short := trip
	short.LongHaul = false
	testLimit(t, LongHaul, []limitCase{
		{"after 24 h", with(trip, ses(FullBody, 10, 18, 0, 45)), nil},
		{"a minute less", with(trip, ses(FullBody, 10, 17, 59, 45)), first},
		{"on arrival", with(trip, ses(FullBody, 9, 18, 0, 45)), first},
		{"trimmed", with(trip, ses(Trimmed, 10, 17, 0, 45)), nil},
		{"a short trip", with(short, ses(FullBody, 10, 17, 0, 45)), nil},
		{"before", with(trip, ses(FullBody, 9, 6, 0, 45)), nil},
	})
}

func TestHold(t *testing.T) {
	held := func(spans ...DateSpan) edit { return func(in *Input) { in.Athlete.Holds = spans } }
	week := []any{ses(Recovery, 2, 17, 0, 30), ses(Recovery, 3, 17, 0, 30), ses(Recovery, 4, 17, 0, 30), ses(Recovery, 5, 17, 0, 30)}
	testLimit(t, Hold, []limitCase{
		{"both ends", with(append(week, held(DateSpan{From: monday + 3, To: monday + 4}))...), []int{1, 2}},
		{"endless", with(append(week, held(DateSpan{From: monday + 4, Endless: true}))...), []int{2, 3}},
	})
}
