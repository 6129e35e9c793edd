package exercise

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// TestBestIsExact compares the search with every filling there is, on small
// catalogues: nothing is pruned there, dominated exercises included.
func TestBestIsExact(t *testing.T) {
	all := Catalogue{}.All()
	for i := range all {
		all[i].Easier, all[i].Harder = nil, nil
	}
	date, err := calendar.ParseDate("2026-11-10")
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		var list []Exercise
		// Exams leave out the second round, so that more exercises can be tried.
		exam := rapid.Bool().Draw(t, "exam")
		most := 1
		if exam {
			most = 2
		}
		for _, p := range Patterns() {
			of := slices.DeleteFunc(slices.Clone(all), func(x Exercise) bool { return x.Pattern != p })
			for range rapid.IntRange(0, most).Draw(t, "n") {
				x := rapid.SampledFrom(of).Draw(t, "x")
				if !slices.ContainsFunc(list, func(y Exercise) bool { return x.ID == y.ID }) {
					list = append(list, x)
				}
			}
		}
		if len(list) == 0 {
			t.Skip("nothing drawn")
		}
		c, err := NewCatalogue(list)
		if err != nil {
			t.Fatal(err)
		}
		kind := rapid.SampledFrom(season.Kinds()).Draw(t, "kind")
		in := Input{Kit: Gym(), Exam: exam, Congested: rapid.Bool().Draw(t, "congested"),
			Week:    Week{Known: rapid.Bool().Draw(t, "known"), Ahead: rapid.IntRange(0, 1).Draw(t, "ahead"), Break: rapid.Bool().Draw(t, "break")},
			History: History{WeekSets: map[Region]int{Lower: rapid.IntRange(0, 18).Draw(t, "lower"), Push: rapid.IntRange(0, 18).Draw(t, "push")}},
			Session: season.Session{Kind: kind, Date: date, Minutes: rapid.IntRange(8, 45).Draw(t, "minutes")},
			Athlete: season.Athlete{Born: season.YearMonth{Year: 2000, Month: 1}, TrainingAgeMonths: rapid.SampledFrom([]int{1, 20, 50}).Draw(t, "months")}}
		a, err := (Builder{Catalogue: c}).ask(&in)
		if err != nil {
			t.Fatal(err)
		}
		budget := rapid.IntRange(3, 35).Draw(t, "budget")
		groups, picks, got := a.best(budget)
		used, stated := 0, 0
		for i := range picks {
			used += picks[i].minutes
			stated += picks[i].cost
		}
		if used > budget || stated != got || len(groups) != len(picks) {
			t.Fatalf("%d of %d minutes, cost %d, stated %d", used, budget, got, stated)
		}
		if want := bruteBest(a, budget); got != want {
			t.Fatalf("cost %d, best is %d", got, want)
		}
	})
}

// bruteBest is the least cost over all mains, all exercises or none in each
// slot, and all rounds.
func bruteBest(a *asked, budget int) int {
	best := -1
	type filling struct{ minutes, cost int }
	for _, p := range []Pattern{Squat, Hinge, SingleLeg} {
		var lists [][]filling
		for _, g := range a.shape(p) {
			fill := []filling{}
			var walk func(i, secs, once, cost int)
			walk = func(i, secs, once, cost int) {
				if i < len(g.slots) {
					walk(i+1, secs, once, cost+g.slots[i].skip)
					for k := range a.c.list {
						e := &a.c.list[k]
						if !slices.Contains(g.slots[i].patterns, e.Pattern) {
							continue
						}
						if o, ok := a.option(&g.slots[i], e); ok {
							d := a.doseIn(&g.slots[i], e, o.side)
							walk(i+1, secs+d.secs+d.rest, once+int(o.once), cost+int(o.cost))
						}
					}
					return
				}
				if secs == 0 {
					fill = append(fill, filling{0, cost})
					return
				}
				for r := 1; r <= g.rounds; r++ {
					extra := (g.rounds - r) * g.fewer
					if r == 1 && g.rounds > 1 {
						extra += g.single
					}
					seconds := r*secs + once + a.change()
					fill = append(fill, filling{(seconds + 59) / 60, cost + extra})
				}
			}
			walk(0, 0, 0, 0)
			lists = append(lists, fill)
		}
		var sum func(i, minutes, cost int)
		sum = func(i, minutes, cost int) {
			if minutes > budget || best >= 0 && cost >= best {
				return
			}
			if i == len(lists) {
				best = cost
				return
			}
			for _, f := range lists[i] {
				sum(i+1, minutes+f.minutes, cost+f.cost)
			}
		}
		sum(0, 0, 0)
	}
	return best
}
