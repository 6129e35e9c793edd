package exercise_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

var equal = cmp.Options{cmpopts.EquateEmpty(), cmpopts.EquateComparable(calendar.Date{})}

func drawKit(t *rapid.T) exercise.Kit {
	if rapid.IntRange(0, 3).Draw(t, "gym") == 0 {
		k := exercise.Gym()
		k.Bar = rapid.SampledFrom([]load.Mass{15 * load.Kilogram, 20 * load.Kilogram}).Draw(t, "bar")
		return k
	}
	g := exercise.Gym()
	k := exercise.Kit{}
	for _, w := range append(g.Words, "field", "partner", "sandbag", "kettlebells") {
		if rapid.Bool().Draw(t, "word") {
			k.Words = append(k.Words, w)
		}
	}
	if rapid.Bool().Draw(t, "hasBar") {
		k.Bar = rapid.SampledFrom([]load.Mass{10 * load.Kilogram, 15 * load.Kilogram, 20 * load.Kilogram}).Draw(t, "bar")
		for range rapid.IntRange(0, 4).Draw(t, "discs") {
			k.Discs = append(k.Discs, load.Disc{Mass: rapid.SampledFrom([]load.Mass{20_000, 10_000, 5000, 2500, 1250}).Draw(t, "disc"), Pairs: rapid.IntRange(1, 3).Draw(t, "pairs")})
		}
	}
	for range rapid.IntRange(0, 5).Draw(t, "dumbbells") {
		k.Dumbbells = append(k.Dumbbells, load.Mass(rapid.IntRange(1, 20).Draw(t, "dumbbell"))*2*load.Kilogram)
	}
	for range rapid.IntRange(0, 2).Draw(t, "kettlebells") {
		k.Kettlebells = append(k.Kettlebells, load.Mass(rapid.IntRange(1, 6).Draw(t, "kettlebell"))*4*load.Kilogram)
	}
	return k
}

func drawInput(t *rapid.T) exercise.Input {
	in := exercise.Input{Kit: drawKit(t)}
	in.Session = session(rapid.SampledFrom(season.Kinds()).Draw(t, "kind"), rapid.IntRange(exercise.MinMinutes, 90).Draw(t, "minutes"), "2026-11-10")
	in.Session.GameDay = []season.GameOffset{{Event: "g", Days: rapid.IntRange(-6, 6).Draw(t, "gameDay")}}
	in.Athlete.ID = "x"
	if rapid.IntRange(0, 5).Draw(t, "ageKnown") > 0 {
		in.Athlete.Born = season.YearMonth{Year: rapid.IntRange(1985, 2013).Draw(t, "born"), Month: 3}
	}
	in.Athlete.TrainingAgeMonths = rapid.SampledFrom([]int{-1, 0, 3, 11, 12, 30, 37, 120}).Draw(t, "months")
	in.Athlete.Role = rapid.SampledFrom([]string{"", "goalkeeper", "forward"}).Draw(t, "role")
	if rapid.Bool().Draw(t, "low") {
		in.Athlete.OptIns = []season.OptIn{season.OptLowRepSets}
	}
	all := exercise.Catalogue{}.All()
	for range rapid.IntRange(0, 6).Draw(t, "maxima") {
		x := rapid.SampledFrom(all).Draw(t, "of")
		in.Athlete.Maxima = append(in.Athlete.Maxima, season.Maximum{Exercise: x.ID, Grams: int64(rapid.IntRange(5_000, 220_000).Draw(t, "grams")), Kind: "tested", Date: day("2026-11-01").AddDays(-rapid.IntRange(0, 100).Draw(t, "old"))})
	}
	for range rapid.IntRange(0, 6).Draw(t, "sets") {
		x := rapid.SampledFrom(all).Draw(t, "of")
		in.History.Sets = append(in.History.Sets, exercise.DoneSet{Exercise: x.ID, Load: load.Mass(rapid.IntRange(5_000, 150_000).Draw(t, "load")), Reps: rapid.IntRange(1, 20).Draw(t, "reps"),
			Left: rapid.IntRange(-1, 4).Draw(t, "left"), Date: day("2026-11-01").AddDays(-rapid.IntRange(0, 100).Draw(t, "old"))})
	}
	for range rapid.IntRange(0, 4).Draw(t, "next") {
		x := rapid.SampledFrom(all).Draw(t, "of")
		last := rapid.IntRange(5_000, 150_000).Draw(t, "last")
		in.History.Next = append(in.History.Next, exercise.NextLoad{Exercise: x.ID, Last: load.Mass(last), Load: load.Mass(last) * load.Mass(rapid.SampledFrom([]int{0, 95, 100, 105}).Draw(t, "then")) / 100,
			Reps: rapid.SampledFrom([]int{0, 3, 4, 5, 6, 8, 10}).Draw(t, "asked"), Left: rapid.IntRange(1, 4).Draw(t, "leaving"),
			Date: day("2026-11-01").AddDays(-rapid.IntRange(0, 100).Draw(t, "old")), Why: season.Note{Code: "progress-hold", Class: season.Why, Text: "as the log says"}})
	}
	in.Exam = rapid.IntRange(0, 4).Draw(t, "exam") == 0
	if in.Exam && rapid.Bool().Draw(t, "usual") {
		in.Week = exercise.Week{Known: true, Usual: rapid.IntRange(10, 90).Draw(t, "usualSets"), Lifts: rapid.IntRange(1, 3).Draw(t, "lifts")}
	}
	in.Congested = rapid.IntRange(0, 3).Draw(t, "congested") == 0
	in.Profile.GrowthSpurt = rapid.IntRange(0, 3).Draw(t, "growth") == 0
	if rapid.Bool().Draw(t, "prehab") {
		if own := rapid.SampledFrom(all).Draw(t, "own"); !own.Heavy && own.Role != exercise.Powerful {
			in.Profile.Prehab = []string{own.ID}
		}
	}
	if n := rapid.IntRange(-1, 40).Draw(t, "gap"); n >= 0 {
		in.History.Lifts = []calendar.Date{in.Session.Date.AddDays(-n - 1)}
	}
	return in
}

// checkCard holds a card against the laws, from the catalogue's data and the
// kit's lists, not from the builder's own sums.
func checkCard(t *rapid.T, in exercise.Input, c exercise.Card, minutes int) {
	sum := 0
	for _, b := range c.Blocks {
		sum += b.Minutes
		work := 0
		for _, it := range b.Items {
			work += it.Exercise.Sets * (it.Seconds + it.Exercise.Rest)
		}
		if work > b.Minutes*60 {
			t.Fatalf("%s needs %d s and has %d minutes:\n%s", b.Name, work, b.Minutes, printed(c))
		}
		if b.Rounds > 0 && b.Name != "Easy piece" && work+60 < (b.Minutes-1)*60-60 {
			t.Fatalf("%s needs %d s and has %d minutes:\n%s", b.Name, work, b.Minutes, printed(c))
		}
	}
	if sum != c.Minutes || sum != minutes {
		t.Fatalf("parts take %d, the card says %d, there are %d:\n%s", sum, c.Minutes, minutes, printed(c))
	}
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			checkItem(t, in, c, it)
		}
	}
	checkComplete(t, in, c)
}

func checkItem(t *rapid.T, in exercise.Input, c exercise.Card, it exercise.Item) {
	x, ok := exercise.Catalogue{}.Find(it.ID)
	if !ok {
		t.Fatalf("%s is no exercise", it.ID)
	}
	if it.Slot == "ramp-up" {
		return
	}
	each := x.Seconds
	if x.Sided && it.Exercise.Side == "each" {
		each *= 2
	}
	if it.Slot != "easy piece" && it.Seconds < each*it.Reps {
		t.Fatalf("%s: %d repetitions in %d s", x.ID, it.Reps, it.Seconds)
	}
	if g := it.Exercise.Load; g != nil {
		if it.Exercise.Evidence == nil || it.Exercise.Evidence.Text == "" || strings.ContainsAny(it.Exercise.Evidence.Text, "{}") {
			t.Fatalf("%s: %d g without evidence: %+v", x.ID, g.Grams, it.Exercise.Evidence)
		}
		if !buildable(in.Kit, x.Load, load.Mass(g.Grams)) {
			t.Fatalf("%s: %s cannot be built from %+v", x.ID, load.Mass(g.Grams), in.Kit)
		}
	}
	age, known := in.Athlete.Born.AgeOn(in.Session.Date)
	beginner := !known || age < 14 || in.Athlete.TrainingAgeMonths < 12
	if it.Slot == "main lower" && x.Role == exercise.Main {
		low := 6
		switch {
		case beginner || age < 16:
		case in.Athlete.TrainingAgeMonths > 36 && age >= 18 && in.Athlete.OptedIn(season.OptLowRepSets):
			low = 3
		default:
			low = 4
		}
		if it.Reps < low {
			t.Fatalf("%s: %d repetitions at %d years, %d months of training", x.ID, it.Reps, age, in.Athlete.TrainingAgeMonths)
		}
	}
	if g := it.Exercise.Load; g != nil && known && age < 18 && !beginner {
		most := load.Mass(0) // the largest value that could be known of it
		for _, m := range in.Athlete.Maxima {
			if m.Exercise == x.ID {
				most = max(most, load.Mass(m.Grams))
			}
		}
		for _, s := range in.History.Sets {
			if s.Exercise == x.ID {
				most = max(most, s.Load*load.Mass(30+s.Reps+max(s.Left, 0))/30) // Epley 1985
			}
		}
		for _, n := range in.History.Next {
			if n.Exercise == x.ID {
				most = max(most, max(n.Load, n.Last)*load.Mass(30+n.Reps+n.Left)/30)
			}
		}
		if load.Mass(g.Grams)*100 > most*80+100 {
			t.Fatalf("a minor's %s of %s, %s at most", x.ID, load.Mass(g.Grams), most)
		}
	}
	if beginner && it.Exercise.Sets > 3 || it.Exercise.Sets > 4 || beginner && it.Slot == "main lower" && it.Exercise.Sets > 2 {
		t.Fatalf("%d sets of %s", it.Exercise.Sets, x.ID)
	}
	if beginner && it.Exercise.Load != nil {
		last := load.Mass(0)
		for _, s := range in.History.Sets {
			if s.Exercise == x.ID {
				last = max(last, s.Load)
			}
		}
		for _, n := range in.History.Next {
			if n.Exercise == x.ID {
				last = max(last, n.Load)
			}
		}
		if load.Mass(it.Exercise.Load.Grams)*100 > last*110 {
			t.Fatalf("a beginner's %s of %s after %s", x.ID, load.Mass(it.Exercise.Load.Grams), last)
		}
	}
	if x.Impact == 2 && beginner && (!known || age < 18) {
		t.Fatalf("%s for a young beginner", x.ID)
	}
	if in.Profile.GrowthSpurt && (x.Impact == 2 || x.Eccentric && x.Pattern.Region() == exercise.Lower) {
		t.Fatalf("%s in a growth spurt", x.ID)
	}
	if c.Kind == season.Primer || c.Kind == season.Recovery {
		if x.Heavy {
			t.Fatalf("%s in a %s session", x.ID, c.Kind)
		}
		if x.Pattern.Region() == exercise.Lower && it.Left >= 0 && it.Left <= 2 { // effort of 8 or more
			t.Fatalf("%s with %d left in a %s session", x.ID, it.Left, c.Kind)
		}
	}
}

// buildable tries all ways to load a bar, or looks through the list.
func buildable(k exercise.Kit, imp exercise.Implement, m load.Mass) bool {
	bar := load.Mass(0)
	switch imp {
	case exercise.Bar:
		bar = k.Bar
	case exercise.TrapBar:
		bar = k.TrapBar
	case exercise.Pair:
		return slices.Contains(k.Dumbbells, m)
	case exercise.Single:
		return slices.Contains(k.Dumbbells, m) || slices.Contains(k.Kettlebells, m)
	case exercise.Stack:
		return slices.Contains(k.Stack, m)
	case exercise.Ball:
		return slices.Contains(k.Balls, m)
	case exercise.Band:
		return slices.Contains(k.Bands, m)
	default:
		return false
	}
	if bar == 0 || m < bar || (m-bar)%2 != 0 {
		return false
	}
	reach := map[load.Mass]bool{0: true}
	for _, d := range k.Discs {
		for range min(d.Pairs, 12) {
			next := map[load.Mass]bool{}
			for r := range reach {
				next[r] = true
				if r+d.Mass <= (m-bar)/2 {
					next[r+d.Mass] = true
				}
			}
			reach = next
		}
	}
	return reach[(m-bar)/2]
}

func checkComplete(t *rapid.T, in exercise.Input, c exercise.Card) {
	if !c.Kind.HeavyLowerBody() {
		return
	}
	has := c.Regions()
	for _, r := range []exercise.Region{exercise.Lower, exercise.Push, exercise.Pull, exercise.Trunk} {
		stated := slices.Contains(c.Omitted, r) && slices.ContainsFunc(c.Notes, func(n season.Note) bool {
			return n.Code == "card-omits" && n.Values["region"].Text == string(r)
		})
		if slices.Contains(has, r) == stated {
			t.Fatalf("%s is there: %v, stated as omitted: %v\n%s", r, slices.Contains(has, r), stated, printed(c))
		}
		if stated && in.Session.Minutes >= 12 && len(in.Athlete.Restrictions) == 0 && in.Profile.Avoid == nil {
			t.Fatalf("no %s in %d minutes:\n%s", r, in.Session.Minutes, printed(c))
		}
	}
}

func TestLawsOfCards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawInput(t)
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		checkCard(t, in, c, in.Session.Minutes)
		again, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(c, again, equal); diff != "" {
			t.Fatalf("the same input, another card:\n%s", diff)
		}
	})
}
