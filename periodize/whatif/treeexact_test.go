package whatif_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
	"pgregory.net/rapid"
)

// The answer is the best of all policies of two decisions, written out one by one.
func TestTreeIsExact(t *testing.T) {
	prices, exact, later := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		base := club(2)
		draw := func(label string, from, to int) int { return rapid.IntRange(from, to).Draw(t, label) }
		every := append(slices.Clone(weekdays), weekend...)
		base.Athlete.Hours = []season.Hours{{Days: every, From: clock(17, 0), To: clock(17, 35)},
			{Days: []time.Weekday{time.Weekday(draw("long", 0, 6)), time.Tuesday, time.Thursday}, From: clock(17, 0), To: clock(18, 0)}}
		base.Places = nil
		base.Period.From = base.Period.From.AddDays(draw("from", 0, 6))
		base.Period.To = base.Period.From.AddDays(draw("dates", 5, 7))
		if draw("optIn", 0, 2) == 0 {
			base.Athlete.TrainingAgeMonths = 0
		}
		change := func() whatif.Change {
			id := []string{"g01", "m02", "g02"}[draw("game", 0, 2)]
			if draw("cancel", 0, 4) == 0 {
				return whatif.Cancel(id)
			}
			return whatif.MoveDays(id, draw("days", -5, 5))
		}
		known := func(date int) time.Time { return base.Athlete.Zone.DayStart(base.Period.From.AddDays(date)) }
		branch := func(c whatif.Change) whatif.Outcome {
			return whatif.Outcome{Branch: whatif.Branch{Change: c, Weight: draw("weight", 1, 9)}}
		}
		second := &whatif.Decision{Known: known(1 + draw("between", 0, 1)), Outcomes: []whatif.Outcome{branch(nil), branch(change())}}
		first := &whatif.Decision{Known: known(1), Outcomes: []whatif.Outcome{branch(nil), branch(change())}}
		first.Outcomes[draw("which", 0, 1)].Then = second
		tree := &whatif.Tree{First: first, Workers: 2}
		got, err := tree.Run(context.Background(), base)
		var bad *whatif.VariantError
		if errors.As(err, &bad) {
			t.Skip("a branch that is no calendar")
		}
		if err != nil {
			t.Fatal(err)
		}
		checkTree(t, base, tree, got)
		hasty := *tree
		hasty.MaxPlans = 1
		quick, err := hasty.Run(context.Background(), base)
		if err != nil {
			t.Fatal(err)
		}
		checkTree(t, base, &hasty, quick)
		if quick.Bound > got.Points || quick.Points < got.Bound || quick.Proof == season.Proved && quick.Points > got.Points {
			t.Fatalf("in haste %d points, bound %d, %s; else %d", quick.Points, quick.Bound, quick.Proof, got.Points)
		}
		best, apart := policies(t, base, got, first, 1, second, base.Athlete.Zone.Local(second.Known).Date.DaysSince(base.Period.From))
		if best >= 0 && got.Bound > best {
			t.Fatalf("bound %d; %d is reached", got.Bound, best)
		}
		if best >= 0 && got.Proof == season.Proved && got.Points > best {
			t.Fatalf("%d points proved, written out %d", got.Points, best)
		}
		if best >= 0 && (apart < 0 || best <= apart) {
			if exact++; got.Points != best {
				t.Fatalf("%d points, written out %d", got.Points, best)
			}
		}
		if got.Price > 0 {
			prices++
		}
		if got.Stages[1].Price > 0 {
			later++
		}
		// To know the first decision at once is to plan each of its outcomes apart; to
		// know the second with the first is to make one decision of them.
		if got.Proof == season.Proved && got.Price > 0 {
			price(t, base, got, first, second)
		}
	})
	t.Logf("written out in full %d times; not knowing had a price in %d, not knowing the second decision in %d", exact, prices, later)
	if exact == 0 || !testing.Short() && prices == 0 {
		t.Error("nothing was compared")
	}
}

// price holds the prices of both decisions against trees without them.
func price(t *rapid.T, base *season.Request, got *whatif.TreePlan, first, second *whatif.Decision) {
	start := base.Athlete.Zone.DayStart(base.Period.From)
	at := func(d *whatif.Decision, known time.Time) *whatif.Decision {
		return &whatif.Decision{Known: known, Outcomes: d.Outcomes}
	}
	merged := &whatif.Decision{Known: first.Known}
	w := got.Branches
	for i, o := range first.Outcomes {
		for _, x := range second.Outcomes {
			if o.Then == nil {
				merged.Outcomes = append(merged.Outcomes, whatif.Outcome{Branch: o.Branch})
				break
			}
			merged.Outcomes = append(merged.Outcomes, whatif.Outcome{Branch: whatif.Branch{Change: whatif.Compose("", first.Outcomes[i].Change, x.Change)}})
		}
	}
	for i := range merged.Outcomes {
		merged.Outcomes[i].Weight = int(w[i].Weight)
	}
	for n, d := range []*whatif.Decision{at(first, start), merged} {
		if got.Stages[n].Proof != season.Proved {
			continue
		}
		other, err := (&whatif.Tree{First: d, Workers: 2}).Run(context.Background(), base)
		if err != nil {
			t.Fatal(err)
		}
		if other.Proof != season.Proved {
			continue
		}
		// The weights of the other tree may be smaller, in the same proportion.
		if want := got.Points - other.Points*got.Weight/other.Weight; got.Stages[n].Price != max(0, want) {
			t.Fatalf("decision %d: price %d, want %d", n+1, got.Stages[n].Price, want)
		}
	}
}

// policies pins every combination of kinds or nothing on the dates before the first
// decision, and for each of its outcomes on those before the second. It returns the
// least sum of the branches' points among those on which all agree that must, and
// among those on which they do not; -1 if there is none.
func policies(t *rapid.T, base *season.Request, got *whatif.TreePlan, first *whatif.Decision, before int, second *whatif.Decision, until int) (best, apart int64) {
	best, apart = -1, -1
	n := 0
	ends := leaves(first, leaf{share: 1})
	now := base.Athlete.Zone.DayStart(base.Period.From)
	for _, pins := range combinations(base.Period.From, 0, before) {
		// Of each outcome: what it costs in every way to go on, and what it has before
		// the first decision.
		type way struct {
			points int64
			before string
			agree  bool
		}
		var outcomes [][]way
		n = 0
		for _, o := range first.Outcomes {
			var ways []way
			count, on := 1, [][]season.Pin{nil}
			if o.Then != nil {
				count, on = len(second.Outcomes), combinations(base.Period.From, before, until)
			}
			for _, more := range on {
				w := way{agree: true}
				inside := ""
				legal := true
				for k := range count {
					req, _, err := whatif.Apply(*base, ends[n+k].changes...)
					if err != nil {
						t.Fatal(err)
					}
					req.Pins = append(slices.Clone(pins), more...)
					p, err := (&periodize.Planner{Brief: true}).Plan(context.Background(), &req)
					if err != nil {
						t.Fatal(err)
					}
					if legal = legal && p.Cost.Broken == 0; !legal {
						break
					}
					w.points += p.Cost.Points * got.Branches[n+k].Weight
					x, y := fmt.Sprint(choices(p, now, first.Known)), fmt.Sprint(choices(p, first.Known, second.Known))
					if k == 0 {
						w.before, inside = x, y
					}
					w.agree = w.agree && x == w.before && y == inside
				}
				if legal {
					ways = append(ways, w)
				}
			}
			n += count
			outcomes = append(outcomes, ways)
		}
		for _, a := range outcomes[0] {
			for _, b := range outcomes[1] {
				switch points := a.points + b.points; {
				case a.agree && b.agree && a.before == b.before:
					if best < 0 || points < best {
						best = points
					}
				case apart < 0 || points < apart:
					apart = points
				}
			}
		}
	}
	return best, apart
}

// combinations are all pins of a kind or nothing on some dates.
func combinations(from calendar.Date, first, until int) [][]season.Pin {
	out := [][]season.Pin{nil}
	for d := first; d < until; d++ {
		var next [][]season.Pin
		for _, pins := range out {
			for _, k := range append([]season.Kind{""}, season.Kinds()...) {
				next = append(next, append(slices.Clone(pins), season.Pin{Date: from.AddDays(d), Kind: k, None: k == ""}))
			}
		}
		out = next
	}
	return out
}
