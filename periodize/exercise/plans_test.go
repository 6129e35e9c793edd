package exercise_test

import (
	"context"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// drawPlan plans a random season.
func drawPlan(t *rapid.T, most int) (season.Plan, exercise.Club) {
	req := seasontest.Request(t, seasontest.Options{MinDates: 14, MaxDates: most, Plain: true, Zones: seasontest.FixedZones})
	plan, err := (&periodize.Planner{Brief: true}).Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	c := exercise.Club{Athlete: req.Athlete, Kits: map[string]exercise.Kit{}}
	for _, p := range req.Places {
		c.Kits[p.ID] = drawKit(t)
	}
	return *plan, c
}

// TestWrittenIsWhatSeasonMakes: the input that a card is said to be made from
// makes that card.
func TestWrittenIsWhatSeasonMakes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan, c := drawPlan(t, 40)
		_, cards, err := exercise.Builder{}.Season(plan, c)
		if err != nil {
			t.Fatal(err)
		}
		if len(cards) == 0 {
			t.Skip("no cards")
		}
		want := rapid.SampledFrom(cards).Draw(t, "card")
		in, card, err := exercise.Builder{}.Written(plan, c, want.Session)
		if err != nil {
			t.Fatal(err)
		}
		again, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(want, card, equal) + cmp.Diff(want, again, equal); d != "" {
			t.Fatal(d)
		}
	})
	if _, _, err := (exercise.Builder{}).Written(invented(1), club(), "nothing"); err == nil {
		t.Error("a card of no session")
	}
}

// halvesOf counts the sets of regions by hand: two for an exercise of the region,
// one for jumps and corrective work of the legs and for shoulder care.
func halvesOf(c exercise.Card) map[exercise.Region]int {
	out := map[exercise.Region]int{}
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			if b.Rounds == 0 || it.Slot == "ramp-up" {
				continue
			}
			switch p := exercise.Pattern(it.Exercise.Pattern); p {
			case exercise.Squat, exercise.Hinge, exercise.SingleLeg:
				out[exercise.Lower] += 2 * it.Exercise.Sets
			case exercise.JumpVertical, exercise.JumpLateral, exercise.Adduction, exercise.Abduction, exercise.KneeFlexion, exercise.LowerLeg, exercise.HipFlexion:
				out[exercise.Lower] += it.Exercise.Sets
			case exercise.PushHorizontal, exercise.PushVertical:
				out[exercise.Push] += 2 * it.Exercise.Sets
			case exercise.PullHorizontal, exercise.PullVertical:
				out[exercise.Pull] += 2 * it.Exercise.Sets
			case exercise.ShoulderCare:
				out[exercise.Pull] += it.Exercise.Sets
			case exercise.TrunkBrace, exercise.TrunkRotate, exercise.TrunkSide, exercise.Carry:
				out[exercise.Trunk] += 2 * it.Exercise.Sets
			}
		}
	}
	return out
}

// inBreak reports whether ten or more dates without a game, between two of them,
// hold a date.
func inBreak(p season.Plan, d calendar.Date) bool {
	before, after := 400, 400
	for _, g := range p.Games {
		if n := g.Date.DaysSince(d); n > 0 {
			after = min(after, n)
		} else {
			before = min(before, -n)
		}
	}
	return before > 0 && before < 400 && after < 400 && before+after-1 >= 10
}

// TestWeeklyVolume: the sets of a week stay within the band of each region. Under
// it the last full-body session of the week says so; over it no session has more
// than one round of the region, since the pattern itself stays.
func TestWeeklyVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan, c := drawPlan(t, 40)
		_, cards, err := exercise.Builder{}.Season(plan, c)
		if err != nil {
			t.Fatal(err)
		}
		weeks := map[calendar.Date]map[exercise.Region]int{}
		for i := range cards {
			card := &cards[i]
			monday := calendar.WeekStart(card.Date, 1)
			if weeks[monday] == nil {
				weeks[monday] = map[exercise.Region]int{}
			}
			before := weeks[monday]
			after := map[exercise.Region]int{}
			for r, n := range halvesOf(*card) {
				after[r] = before[r] + n
			}
			for _, r := range []exercise.Region{exercise.Lower, exercise.Push, exercise.Pull, exercise.Trunk} {
				least, most := 5, 18
				age, known := c.Athlete.Born.AgeOn(card.Date)
				switch {
				case !known || age < 14 || c.Athlete.TrainingAgeMonths < 12 || hasNote(card.Notes, "card-restart-28"):
					least, most = 3, 12
				case hasNote(card.Notes, "card-congested"):
					least, most = 3, 12
				case inBreak(plan, card.Date):
					most = 24
				}
				if after[r] > 2*most && card.Kind.HeavyLowerBody() && card.Sets()[r] > 1 {
					t.Fatalf("%s: %d halves of %s after %d, %d are the most\n%s", card.Date, after[r], r, before[r], 2*most, printed(*card))
				}
				last := card.Kind.HeavyLowerBody() && card.Kind != season.PostGame && !slices.ContainsFunc(cards[i+1:], func(x exercise.Card) bool {
					return x.Kind.HeavyLowerBody() && calendar.WeekStart(x.Date, 1).Equal(monday)
				})
				whole := !slices.ContainsFunc(plan.Sessions, func(s season.Session) bool {
					return calendar.WeekStart(s.Date, 1).Equal(monday) && !slices.ContainsFunc(cards, func(x exercise.Card) bool { return x.Session == s.ID })
				})
				if said := slices.ContainsFunc(card.Notes, func(n season.Note) bool { return n.Code == "card-volume-low" && n.Values["region"].Text == string(r) }); last && whole && !hasNote(card.Notes, "card-exam") && said != (after[r] < 2*least) {
					t.Fatalf("%s: %d halves of %s, %d are the least, said: %v\n%s", card.Date, after[r], r, 2*least, said, printed(*card))
				}
			}
			for r, n := range after {
				before[r] = n
			}
		}
	})
}

// patternsOf counts the work sets of each movement pattern by hand.
func patternsOf(c exercise.Card) map[exercise.Pattern]int {
	out := map[exercise.Pattern]int{}
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			if b.Rounds > 0 && it.Slot != "ramp-up" {
				out[exercise.Pattern(it.Exercise.Pattern)] += it.Exercise.Sets
			}
		}
	}
	return out
}

// TestWeeklyPatterns: in a gym the sets of each strength pattern in a week stay
// under the band's end, which is lower where games are less than 96 h apart; and a
// week with two full-body sessions has some of knee and hip, across and up, pulled
// across and down, or its last session says what is missing. Common practice, no
// source.
func TestWeeklyPatterns(t *testing.T) {
	each := []exercise.Pattern{exercise.Squat, exercise.Hinge, exercise.PushHorizontal, exercise.PushVertical, exercise.PullHorizontal, exercise.PullVertical}
	rapid.Check(t, func(t *rapid.T) {
		plan, c := drawPlan(t, 40)
		c.Kits = nil
		_, cards, err := exercise.Builder{}.Season(plan, c)
		if err != nil {
			t.Fatal(err)
		}
		weeks := map[calendar.Date]map[exercise.Pattern]int{}
		for i := range cards {
			card := &cards[i]
			monday := calendar.WeekStart(card.Date, 1)
			if weeks[monday] == nil {
				weeks[monday] = map[exercise.Pattern]int{}
			}
			before := weeks[monday]
			got := patternsOf(*card)
			if d := cmp.Diff(got, card.PatternSets()); d != "" {
				t.Fatal(d)
			}
			for p, n := range got {
				before[p] += n
			}
			if !card.Kind.HeavyLowerBody() {
				continue
			}
			most := 10
			age, known := c.Athlete.Born.AgeOn(card.Date)
			switch {
			case hasNote(card.Notes, "card-congested"):
				most = 6
			case !known || age < 14 || c.Athlete.TrainingAgeMonths < 12 || hasNote(card.Notes, "card-restart-28"):
				most = 8
			case inBreak(plan, card.Date):
				most = 14
			}
			for p, n := range before {
				if slices.Contains([]exercise.Region{exercise.Lower, exercise.Push, exercise.Pull, exercise.Trunk}, p.Region()) && n > most && got[p] > 0 {
					t.Fatalf("%s: %d sets of %s, %d are the most\n%s", card.Date, n, p, most, printed(*card))
				}
			}
			sessions, whole, last := 0, true, true
			for j := range plan.Sessions {
				s := &plan.Sessions[j]
				if !calendar.WeekStart(s.Date, 1).Equal(monday) {
					continue
				}
				if s.Kind.HeavyLowerBody() {
					sessions++
					last = last && !s.Start.After(sessionOf(plan, card.Session).Start)
				}
				whole = whole && slices.ContainsFunc(cards, func(x exercise.Card) bool { return x.Session == s.ID })
			}
			if !whole || !last || sessions < 2 || card.Kind == season.PostGame || hasNote(card.Notes, "card-exam") {
				continue
			}
			for _, p := range each {
				said := slices.ContainsFunc(card.Notes, func(n season.Note) bool { return n.Code == "card-pattern-low" && n.Values["pattern"].Text == string(p) })
				n := before[p]
				if p == exercise.Squat { // knees work on one leg too
					n += before[exercise.SingleLeg]
				}
				if said != (n < 2) {
					t.Fatalf("%s: %d sets of %s this week, said: %v\n%s", card.Date, n, p, said, printed(*card))
				}
			}
		}
	})
}

func sessionOf(p season.Plan, id string) season.Session {
	i := slices.IndexFunc(p.Sessions, func(s season.Session) bool { return s.ID == id })
	return p.Sessions[i]
}

// TestVarietyAndBlocks: in a gym no two full-body sessions in a row are the same,
// and the main lift of a pattern stays the same for six weeks, but across a break
// and for eccentric sessions, which have lifts of their own.
func TestVarietyAndBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan, c := drawPlan(t, 60)
		c.Kits = nil
		_, cards, err := exercise.Builder{}.Season(plan, c)
		if err != nil {
			t.Fatal(err)
		}
		type block struct {
			id    string
			since calendar.Date
		}
		blocks := map[string]block{}
		var last *exercise.Card
		for i := range cards {
			card := &cards[i]
			if !card.Kind.HeavyLowerBody() {
				continue
			}
			if last != nil && len(shared(*last, *card)) == len(ids(*card)) && len(ids(*card)) == len(ids(*last)) {
				t.Fatalf("the same twice in a row\n%s\n%s", printed(*last), printed(*card))
			}
			last = card
			main, ok := mainOf(*card)
			if !ok || card.Kind == season.Eccentric {
				continue
			}
			b, seen := blocks[main.Pattern]
			switch {
			case !seen || card.Date.DaysSince(b.since) >= 42 || crosses(plan, b.since, card.Date):
				blocks[main.Pattern] = block{main.Name, card.Date}
			case b.id != main.Name:
				t.Fatalf("%s on %s after %s since %s\n%s", main.Name, card.Date, b.id, b.since, printed(*card))
			}
		}
	})
}

// crosses reports whether a break begins or ends after one date and by another.
func crosses(p season.Plan, from, to calendar.Date) bool {
	for d := from; d.Before(to); d = d.AddDays(1) {
		if inBreak(p, d) != inBreak(p, d.AddDays(1)) {
			return true
		}
	}
	return false
}

// TestHeldSessionsHaveNoCard: a session that a plan marks as held gets nothing to
// train from.
func TestHeldSessionsHaveNoCard(t *testing.T) {
	plan := invented(2)
	plan.Sessions[1].State = season.Held
	filled, cards, err := exercise.Builder{}.Season(plan, club())
	if err != nil {
		t.Fatal(err)
	}
	if len(cards) != len(plan.Sessions)-1 || filled.Sessions[1].Parts != nil {
		t.Errorf("%d cards, %d parts of the held session", len(cards), len(filled.Sessions[1].Parts))
	}
}
