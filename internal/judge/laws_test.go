package judge

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// drawSeason draws four weeks with history, calendar, plan and issued plan.
// Sessions of a season do not overlap; every row has an id of its own.
func drawSeason(t *rapid.T) Input {
	in := with()
	in.From = monday + rapid.IntRange(0, 6).Draw(t, "from")
	in.To = in.From + rapid.IntRange(0, 27).Draw(t, "dates")
	in.FirstWeekday = rapid.IntRange(0, 6).Draw(t, "first weekday")
	in.Athlete.AgeKnown = rapid.IntRange(0, 9).Draw(t, "age known") > 0
	in.Athlete.BornYear = 2024 - rapid.SampledFrom([]int{12, 13, 15, 16, 17, 18, 25, 25, 25, 25}).Draw(t, "age")
	in.Athlete.TrainingAgeMonths = rapid.SampledFrom([]int{-1, 6, 12, 24, 48, 48, 48}).Draw(t, "training age")
	in.Athlete.PostGame = rapid.Bool().Draw(t, "post-game")
	if rapid.IntRange(0, 9).Draw(t, "held") == 0 {
		d := monday + rapid.IntRange(0, 30).Draw(t, "hold")
		in.Athlete.Holds = []DateSpan{{From: d, To: d + 5, Endless: rapid.Bool().Draw(t, "endless")}}
	}
	// A break of two weeks in every other season.
	quiet := rapid.SampledFrom([]int{-99, -99, 0, 4, 8, 12}).Draw(t, "quiet from")
	most := rapid.IntRange(0, 24).Draw(t, "events")
	for i := range most {
		day := rapid.IntRange(-8, 36).Draw(t, "event day")
		kind := EventKind(rapid.SampledFrom([]int{0, 0, 0, 0, 1, 1, 1, 2, 3, 4, 5, 6}).Draw(t, "event kind"))
		if kind == Game && quiet <= day && day <= quiet+13 {
			continue
		}
		e := ev(kind, day, rapid.IntRange(7, 22).Draw(t, "event hour"), 15*rapid.IntRange(0, 3).Draw(t, "quarter"),
			30*rapid.IntRange(1, 8).Draw(t, "halves"))
		e.ID = fmt.Sprint("e", i)
		e.Important = rapid.IntRange(0, 3).Draw(t, "important") == 0
		e.Hard, e.LongHaul = rapid.Bool().Draw(t, "hard"), rapid.Bool().Draw(t, "long")
		in.Events = append(in.Events, e)
	}
	in.Sessions = drawSessions(t, "s")
	if in.HasIssued = rapid.Bool().Draw(t, "issued"); in.HasIssued {
		in.Now = instant(rapid.IntRange(-1, 20).Draw(t, "now"), 12, 0)
		in.Issued = append(drawSessions(t, "i"), in.Sessions[:len(in.Sessions)/2]...)
	}
	for range rapid.IntRange(0, 28).Draw(t, "preferences") {
		in.PreferredStart = append(in.PreferredStart, rapid.IntRange(-60, 1300).Draw(t, "preferred"))
	}
	return in
}

func drawSessions(t *rapid.T, prefix string) []Session {
	density := rapid.IntRange(1, 8).Draw(t, "density")
	var all []Session
	for day := -7; day <= 36; day++ {
		for _, hour := range []int{7, 12, 17, 21} {
			if rapid.IntRange(0, 15).Draw(t, "there") >= density {
				continue
			}
			s := ses(Kind(rapid.IntRange(0, 5).Draw(t, "kind")), day, hour, rapid.IntRange(0, 59).Draw(t, "minute"),
				rapid.SampledFrom([]int{20, 30, 30, 35, 45, 45, 60}).Draw(t, "length"))
			s.ID = fmt.Sprint(prefix, len(all))
			s.Forced = rapid.IntRange(0, 4).Draw(t, "forced") == 0
			s.Place = rapid.SampledFrom([]int{0, 0, 0, 0, 0, 0, 0, 1}).Draw(t, "place")
			all = append(all, s)
		}
	}
	return all
}

// legalPlan drops what breaks a limit and unties the rest from being forced.
func legalPlan(t *rapid.T, in Input) (Input, Verdict) {
	bad := map[int]bool{}
	for i := range in.Sessions {
		in.Sessions[i].Forced = false
		if in.Sessions[i].Date < in.From {
			bad[i] = true // history is not judged
		}
	}
	for _, b := range judged(t, in).Illegal {
		bad[b.Session] = true
	}
	var kept []Session
	for i, s := range in.Sessions {
		if !bad[i] {
			kept = append(kept, s)
		}
	}
	in.Sessions = kept
	v := judged(t, in)
	if len(v.Illegal) > 0 {
		t.Fatalf("dropping all breaches left %+v", v.Illegal)
	}
	return in, v
}

func judged(t *rapid.T, in Input) Verdict {
	v, err := Judge(in, Default())
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// named is a breach or a miss with ids for indices.
type named struct {
	Rule, Session, Event, Issued string
	From, To, Wanted, Got        int
	Points                       int64
	Forced                       bool
}

func rows(in Input, v Verdict) []named {
	session := func(i int) string {
		if i < 0 {
			return ""
		}
		return in.Sessions[i].ID
	}
	event := func(i int) string {
		if i < 0 {
			return ""
		}
		return in.Events[i].ID
	}
	var all []named
	for _, list := range [][]Breach{v.Illegal, v.Breaches} {
		for _, b := range list {
			all = append(all, named{Rule: b.Rule, Session: session(b.Session), Event: event(b.Event), From: b.From, To: b.To, Forced: in.Sessions[b.Session].Forced})
		}
	}
	for _, m := range v.Misses {
		issued := ""
		if m.Issued >= 0 {
			issued = in.Issued[m.Issued].ID
		}
		all = append(all, named{m.Aim, session(m.Session), event(m.Event), issued, m.From, m.To, m.Wanted, m.Got, m.Points, false})
	}
	return all
}

func TestVerdictAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawSeason(t)
		v := judged(t, in)
		addsUp(t, in, v)
	})
}

func addsUp(t rapid.TB, in Input, v Verdict) {
	t.Helper()
	type cost struct{ illegal, broken, points int64 }
	want := map[string]cost{}
	seen := map[string]bool{}
	for i, list := range [][]Breach{v.Illegal, v.Breaches} {
		for _, b := range list {
			s := in.Sessions[b.Session]
			if s.Forced != (i == 1) || s.Date < in.From || s.Date > in.To {
				t.Errorf("%+v of %+v", b, s)
			}
			key := fmt.Sprint(b.Rule, b.Session)
			if seen[key] {
				t.Errorf("twice: %+v", b)
			}
			seen[key] = true
			c := want[b.Rule]
			if i == 0 {
				c.illegal++
			} else {
				c.broken++
			}
			want[b.Rule] = c
		}
	}
	var points int64
	for _, m := range v.Misses {
		points += m.Points
		c := want[m.Aim]
		c.points += m.Points
		want[m.Aim] = c
	}
	if v.Broken != int64(len(v.Breaches)) || v.Points != points {
		t.Errorf("broken %d of %d, points %d of %d", v.Broken, len(v.Breaches), v.Points, points)
	}
	got := map[string]cost{}
	for _, c := range v.ByRule {
		got[c.Rule] = cost{c.Illegal, c.Broken, c.Points}
	}
	if d := cmp.Diff(want, got, cmp.AllowUnexported(cost{})); d != "" {
		t.Error(d)
	}
	if !slices.IsSortedFunc(v.ByRule, func(a, b RuleCost) int {
		if a.Rule < b.Rule {
			return -1
		}
		return 1
	}) {
		t.Errorf("not sorted: %+v", v.ByRule)
	}
}

// Resting is always allowed: taking a session out adds no breach.
func TestRemovingASessionAddsNoBreach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawSeason(t)
		if len(in.Sessions) == 0 {
			return
		}
		type breach struct{ rule, session string }
		breaches := func(in Input) map[breach]bool {
			all := map[breach]bool{}
			v := judged(t, in)
			for _, b := range slices.Concat(v.Illegal, v.Breaches) {
				all[breach{b.Rule, in.Sessions[b.Session].ID}] = true
			}
			return all
		}
		before := breaches(in)
		i := rapid.IntRange(0, len(in.Sessions)-1).Draw(t, "removed")
		less := in
		less.Sessions = slices.Delete(slices.Clone(in.Sessions), i, i+1)
		for b := range breaches(less) {
			if !before[b] {
				t.Errorf("removing %s adds %v", in.Sessions[i].ID, b)
			}
		}
	})
}

func TestOrderOfInputDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawSeason(t)
		other := in
		other.Events = rapid.Permutation(in.Events).Draw(t, "events")
		other.Sessions = rapid.Permutation(in.Sessions).Draw(t, "sessions")
		other.Issued = rapid.Permutation(in.Issued).Draw(t, "issued")
		if d := cmp.Diff(rows(in, judged(t, in)), rows(other, judged(t, other))); d != "" {
			t.Error(d)
		}
	})
}

func TestInputIsNotWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawSeason(t)
		slices.Reverse(in.Sessions)
		sessions, events, issued := slices.Clone(in.Sessions), slices.Clone(in.Events), slices.Clone(in.Issued)
		judged(t, in)
		if !slices.Equal(sessions, in.Sessions) || !slices.Equal(events, in.Events) || !slices.Equal(issued, in.Issued) {
			t.Error("input changed")
		}
	})
}

// shift moves everything by weeks.
func shift(in Input, weeks int) Input {
	days, minutes := 7*weeks, int64(7*weeks)*1440
	in.From, in.To, in.Now = in.From+days, in.To+days, in.Now+minutes
	in.Events, in.Sessions, in.Issued = slices.Clone(in.Events), slices.Clone(in.Sessions), slices.Clone(in.Issued)
	in.Athlete.Holds = slices.Clone(in.Athlete.Holds)
	for i := range in.Athlete.Holds {
		in.Athlete.Holds[i].From += days
		in.Athlete.Holds[i].To += days
	}
	for i := range in.Events {
		e := &in.Events[i]
		e.Start, e.End, e.Date = e.Start+minutes, e.End+minutes, e.Date+days
	}
	for _, list := range [][]Session{in.Sessions, in.Issued} {
		for i := range list {
			s := &list[i]
			s.Start, s.End, s.Date = s.Start+minutes, s.End+minutes, s.Date+days
		}
	}
	return in
}

func TestShiftByWeeks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawSeason(t)
		weeks := rapid.IntRange(-20, 10).Draw(t, "weeks") // no birthday on the way
		want := rows(in, judged(t, in))
		for i := range want {
			want[i].From += 7 * weeks
			want[i].To += 7 * weeks
		}
		moved := shift(in, weeks)
		if d := cmp.Diff(want, rows(moved, judged(t, moved)), cmpopts.EquateEmpty()); d != "" {
			t.Error(d)
		}
	})
}

// Switching a rule off removes its rows and no others.
func TestDisabled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawSeason(t)
		want := rows(in, judged(t, in))
		id := rapid.SampledFrom(append(Limits(), Aims()...)).Draw(t, "rule")
		want = slices.DeleteFunc(want, func(r named) bool { return r.Rule == id })
		p := Default()
		p.Disabled = []string{id}
		v, err := Judge(in, p)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(want, rows(in, v), cmpopts.EquateEmpty()); d != "" {
			t.Error(d)
		}
		addsUp(t, in, v)
	})
}

// Random seasons reach every rule, so that the laws above say something.
func TestRandomSeasonsReachEveryRule(t *testing.T) {
	reached := map[string]bool{}
	gen := rapid.Custom(drawSeason)
	for seed := range 400 {
		v, err := Judge(gen.Example(seed), priced())
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range v.ByRule {
			reached[c.Rule] = true
		}
	}
	for _, id := range append(Limits(), Aims()...) {
		if !reached[id] {
			t.Errorf("%s is never reached", id)
		}
	}
}
