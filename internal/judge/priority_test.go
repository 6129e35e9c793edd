package judge

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// mostConvenience is what the convenience aims of one club week cost at most in
// a plan without a breach and with at most three recovery sessions in the week.
// It is the 20 of the published table.
const mostConvenience = 20

func convenience() []string {
	return []string{NearGame, PrimerTiming, Size, StartTime, PracticeOrder, HardDay, LiftRun, BreakSession}
}

// One miss of an earlier aim costs more than one miss of each later aim in the
// same week together. The two primer aims are one aim at two prices; an ordinary
// price stands only before games that are not important.
func TestPriority(t *testing.T) {
	p := Default().Points
	order := []string{EmptyRun, WeekFullBody, SecondLift, PrimerImportant, SecondFullBody, RecoveryAfter, RecoveryCount}
	for i, id := range order {
		later := mostConvenience + p[Change]
		for _, l := range order[i+1:] {
			later += p[l]
		}
		if p[id] <= later {
			t.Errorf("%s costs %d, all after it %d", id, p[id], later)
		}
		if id == PrimerImportant && (p[PrimerAim] <= later || p[PrimerAim] >= p[PrimerImportant]) {
			t.Errorf("primer costs %d, all after it %d, before an important game %d", p[PrimerAim], later, p[id])
		}
	}
	if mostConvenience <= p[Change] {
		t.Errorf("a change costs %d, a week of inconvenience %d", p[Change], mostConvenience)
	}
	if p[Important48h] <= p[EmptyRun] {
		t.Errorf("48 h before an important game cost %d, an empty date %d", p[Important48h], p[EmptyRun])
	}
}

// A session of each kind with every convenience against it.
func TestDearestSessions(t *testing.T) {
	hard := ev(Practice, 7, 9, 0, 60)
	hard.Hard = true
	long := one(game(3, 9, 0), game(20, 18, 0))
	for _, c := range []struct {
		name string
		in   Input
		want int64
	}{
		{"full-body", with(join(long, one(hard, ses(FullBody, 7, 12, 0, 45)))...), 4},
		{"eccentric", with(join(long, one(hard, ses(Eccentric, 7, 12, 0, 45)))...), 4},
		{"trimmed", with(game(9, 9, 0), hard, ses(Trimmed, 7, 12, 0, 45)), 4},
		{"post-game", with(optedIn, ev(Practice, 7, 13, 0, 60), game(7, 14, 45), game(9, 10, 0), ses(PostGame, 7, 16, 45, 30)), 4},
		{"primer", with(game(8, 9, 0), ev(Practice, 7, 19, 0, 45), ses(Primer, 7, 20, 0, 30)), 3},
		{"recovery", with(ses(Recovery, 7, 20, 0, 30)), 1},
	} {
		v := judge(t, c.in)
		if len(v.Illegal) > 0 {
			t.Errorf("%s: %+v", c.name, v.Illegal)
		}
		var got int64
		for _, m := range v.Misses {
			if m.Session == 0 && slices.Contains(convenience(), m.Aim) {
				got += m.Points
			}
		}
		if got != c.want {
			t.Errorf("%s costs %d, want %d", c.name, got, c.want)
		}
	}
}

// weekModel is one club week as the bound sees it. Dates count from 1 to 7.
type weekModel struct {
	lifts    int    // at most
	kinds    []Kind // lifts that can be legal
	inBreak  bool   // the whole week lies in one break
	previous int    // date of the game before; 0 or less in a run
	next     int    // date of the game after; 8 or more in a run
	early    int    // last date of the first half of the break
	ordinary bool   // games may be anywhere: the two dates above do not bind
}

// cost is the most a lift of that kind costs on a date, from the table of
// TestDearestSessions less what the distance to the next game rules out.
func (w weekModel) cost(k Kind, date int) int {
	dearest := map[Kind]int{FullBody: 4, Trimmed: 4, PostGame: 4, Primer: 3, Eccentric: 4}[k]
	if w.ordinary {
		return dearest
	}
	switch {
	case k == Trimmed && date < w.next-2: // even the last minute is 48 h off
		dearest--
	case k == Primer && date < w.next-1: // more than 24 h off
		dearest--
	}
	return dearest
}

type placedLift struct {
	kind Kind
	date int
}

func (w weekModel) legal(lifts []placedLift) bool {
	perDate := [8]int{}
	heavy := -9
	for _, l := range lifts { // by date
		perDate[l.date]++
		if perDate[l.date] > 1 {
			return false
		}
		if l.kind.fullBody() {
			if l.date-heavy <= 1 {
				return false
			}
			heavy = l.date
		}
		if !w.ordinary && l.kind == Primer && l.date < w.next-2 {
			return false // more than 36 h off
		}
		if l.kind == Eccentric && !w.ordinary && l.date > w.early {
			return false
		}
	}
	if len(lifts) > 3 && !w.ordinary {
		// Seven dates that hold a game hold at most three lifts.
		before, after := 0, 0
		for _, l := range lifts {
			if l.date <= w.previous+6 {
				before++
			}
			if l.date >= w.next-6 {
				after++
			}
		}
		return before <= 3 && after <= 3
	}
	return true
}

func (w weekModel) total(lifts []placedLift) int {
	sum := 3 // three recovery sessions off their preferred hour
	full := 0
	var lifted [8]bool
	for _, l := range lifts {
		sum += w.cost(l.kind, l.date)
		lifted[l.date] = true
		if l.kind.fullBody() {
			full++
		}
	}
	empty := 3 // the dates before may hold no lift
	for d := 1; d <= 7; d++ {
		empty++
		if lifted[d] {
			empty = 0
		}
		if empty > 3 {
			sum++
		}
	}
	if w.inBreak && full < 3 {
		sum += 3
	}
	return sum
}

// worst tries every placing of up to w.lifts lifts, in order of dates.
func (w weekModel) worst(lifts []placedLift) int {
	most := w.total(lifts)
	if len(lifts) == w.lifts {
		return most
	}
	from := 1
	if n := len(lifts); n > 0 {
		from = lifts[n-1].date
	}
	for d := from; d <= 7; d++ {
		for _, k := range w.kinds {
			more := append(slices.Clip(lifts), placedLift{k, d})
			if w.legal(more) {
				most = max(most, w.worst(more))
			}
		}
	}
	return most
}

// The bound, over every placing of lifts in every kind of week: an ordinary one,
// where all conveniences are held against each lift wherever it lies, and one
// inside a run of 7 to 24 game-free dates, at every offset. Longer runs add no
// week that these do not hold: a game ten dates off no longer matters.
func TestConvenienceBound(t *testing.T) {
	ordinary := weekModel{lifts: 3, ordinary: true, kinds: []Kind{FullBody, Trimmed, PostGame, Primer, Eccentric}}
	most := ordinary.worst(nil)
	if most > 20 {
		t.Errorf("an ordinary week costs %d", most)
	}
	for n := 7; n <= 24; n++ {
		inRun := 0
		for offset := 0; offset <= n-7; offset++ {
			w := weekModel{
				lifts: 4, kinds: []Kind{FullBody, Trimmed, Primer, Eccentric},
				inBreak: n >= 10, previous: -offset, next: n - offset + 1,
			}
			if w.inBreak {
				w.early = (n+1)/2 - offset
			}
			inRun = max(inRun, w.worst(nil))
		}
		if n < 10 && inRun > 20 {
			t.Errorf("a week in an open week of %d dates costs %d", n, inRun)
		}
		most = max(most, inRun)
	}
	if most != mostConvenience {
		t.Errorf("the worst week costs %d, want %d", most, mostConvenience)
	}
}

// weekConvenience sums the convenience misses of a club week.
func weekConvenience(v Verdict, week int) int64 {
	var sum int64
	for _, m := range v.Misses {
		if slices.Contains(convenience(), m.Aim) && week <= m.To && m.To <= week+6 {
			sum += m.Points
		}
	}
	return sum
}

// The bound is tight but for a point: a week in the first half of a long break, with four
// full-body sessions where eccentric ones would be allowed, each on the date of a
// hard practice and soon after it, and every session at a bad hour.
func TestConvenienceBoundIsTight(t *testing.T) {
	hard := func(day int) Event {
		e := ev(Practice, day, 9, 0, 60)
		e.Hard = true
		return e
	}
	in := with(
		game(0, 18, 0), game(40, 18, 0),
		hard(7), ses(FullBody, 7, 12, 0, 55), ses(Recovery, 8, 12, 0, 30),
		hard(9), ses(FullBody, 9, 12, 0, 55), ses(Recovery, 10, 12, 0, 30),
		hard(11), ses(FullBody, 11, 12, 0, 55), ses(Recovery, 12, 12, 0, 30),
		hard(13), ses(FullBody, 13, 12, 0, 55),
	)
	v := judge(t, in)
	if len(v.Illegal) > 0 {
		t.Errorf("%+v", v.Illegal)
	}
	if got := weekConvenience(v, monday+7); got != mostConvenience-1 {
		t.Errorf("%d points, want %d", got, mostConvenience-1)
	}
}

// Random seasons, cut down to a legal plan, keep the bound.
func TestConvenienceBoundOnRandomPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in, v := legalPlan(t, drawSeason(t))
		s := newSeason(in, Default())
		for _, w := range s.wholeWeeks() {
			if s.count(w, w+6, isRecovery) > 3 {
				continue
			}
			if got := weekConvenience(v, w); got > mostConvenience {
				t.Errorf("week from %d: %d points", w, got)
			}
		}
	})
}
