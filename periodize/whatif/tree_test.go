package whatif_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
	"pgregory.net/rapid"
)

// leaf is an end of a tree, found by walking it.
type leaf struct {
	name    string
	changes []whatif.Change
	share   float64
	path    []*whatif.Decision
}

func leaves(d *whatif.Decision, above leaf) []leaf {
	var out []leaf
	sum := 0
	for _, o := range d.Outcomes {
		sum += max(o.Weight, 1)
	}
	for i, o := range d.Outcomes {
		name := o.Name
		if name == "" {
			name = fmt.Sprintf("branch %d", i+1)
		}
		if above.name != "" {
			name = above.name + ", " + name
		}
		x := leaf{name, append(slices.Clone(above.changes), o.Change), above.share * float64(max(o.Weight, 1)) / float64(sum), append(slices.Clone(above.path), d)}
		if o.Then == nil {
			out = append(out, x)
		} else {
			out = append(out, leaves(o.Then, x)...)
		}
	}
	return out
}

// checkTree checks what holds for every tree: branches share their sessions as
// long as they cannot be told apart, each is legal and costs what is said, and no
// price is negative or more than that of the tree.
func checkTree(t interface{ Fatalf(string, ...any) }, base *season.Request, tree *whatif.Tree, got *whatif.TreePlan) {
	planner := periodize.Planner{Brief: true}
	ctx := context.Background()
	ends := leaves(tree.First, leaf{share: 1})
	if len(ends) != len(got.Branches) {
		t.Fatalf("%d branches, want %d", len(got.Branches), len(ends))
	}
	var points, knowing, weight int64
	made := make([]*season.Plan, len(ends))
	for i, b := range got.Branches {
		points, knowing, weight = points+b.Weight*b.Points, knowing+b.Weight*b.KnowingPoints, weight+b.Weight
		if b.Name != ends[i].name || b.Price < 0 || b.Weight < 1 {
			t.Fatalf("branch %d is %q with price %d and weight %d, want %q", i, b.Name, b.Price, b.Weight, ends[i].name)
		}
		req, _, err := whatif.Apply(*base, ends[i].changes...)
		if err != nil {
			t.Fatalf("%v", err)
		}
		if made[i], err = planner.Plan(ctx, &req); err != nil {
			t.Fatalf("%v", err)
		}
		if b.KnowingPoints > made[i].Cost.Points && made[i].Outcome == season.Planned {
			t.Fatalf("%s: whoever knows pays %d, the plan %d", b.Name, b.KnowingPoints, made[i].Cost.Points)
		}
	}
	now := made[0].Now
	apart := make([]time.Time, len(ends)) // when each branch is told from all others
	whole := make([]season.Plan, len(ends))
	for n, s := range got.Stages {
		if s.Price < 0 || s.Price > got.Price || s.Known.Before(s.From) {
			t.Fatalf("stage %d: price %d of %d, from %s to %s", n, s.Price, got.Price, s.From, s.Known)
		}
		var w int64
		for _, i := range s.Branches {
			w += got.Branches[i].Weight
			a, b := choices(unlogged(base, got.Branches[i].Plan), s.From, s.Known), choices(&season.Plan{Sessions: s.Shared}, s.From, s.Known)
			if fmt.Sprint(a) != fmt.Sprint(b) {
				t.Fatalf("%s does not share from %s to %s:\n%v\n%v", got.Branches[i].Name, s.From, s.Known, a, b)
			}
			if len(b) != len(s.Shared) {
				t.Fatalf("stage %d: a shared session lies outside of it", n)
			}
			whole[i].Sessions = append(whole[i].Sessions, s.Shared...)
			apart[i] = s.Known
		}
		if w != s.Weight {
			t.Fatalf("stage %d: weight %d, its branches %d", n, s.Weight, w)
		}
	}
	// Any two branches share all that starts before the last decision on both paths.
	for i := range ends {
		for j := range i {
			until := now
			for k, d := range ends[i].path {
				if k < len(ends[j].path) && ends[j].path[k] == d && d.Known.After(until) {
					until = d.Known
				}
			}
			a, b := choices(got.Branches[i].Plan, now, until), choices(got.Branches[j].Plan, now, until)
			if fmt.Sprint(a) != fmt.Sprint(b) {
				t.Fatalf("%s and %s differ before %s:\n%v\n%v", ends[i].name, ends[j].name, until, a, b)
			}
		}
	}
	for i, b := range got.Branches {
		if got := float64(b.Weight) / float64(weight); got < ends[i].share*0.999999 || got > ends[i].share*1.000001 {
			t.Fatalf("%s: weighs %f of all, want %f", b.Name, got, ends[i].share)
		}
		if len(choices(unlogged(base, made[i]), now, apart[i])) == 0 && len(whole[i].Sessions) == 0 && b.Broken == 0 {
			if x, y := report(made[i]), report(b.Plan); x != y {
				t.Fatalf("%s: nothing is shared, and the plans differ:\n%s\n%s", b.Name, x, y)
			}
		}
		for _, s := range b.Plan.Sessions {
			if !s.Start.Before(apart[i]) {
				whole[i].Sessions = append(whole[i].Sessions, s)
			}
		}
		req, _, _ := whatif.Apply(*base, ends[i].changes...)
		e, err := planner.Evaluate(ctx, &req, &whole[i])
		if err != nil {
			t.Fatalf("%v", err)
		}
		if !e.Legal || e.Points != b.Points {
			t.Fatalf("%s: judged legal %v, %d points, stated %d: %v", b.Name, e.Legal, e.Points, b.Points, e.Broken)
		}
	}
	if got.Weight != weight || got.Points != points || got.Bound > got.Points || got.Price < 0 || got.Price < points-knowing {
		t.Fatalf("sums: weight %d, points %d, bound %d, price %d; points %d, knowing %d", got.Weight, got.Points, got.Bound, got.Price, points, knowing)
	}
	if got.Proof == season.Proved && got.Bound != got.Points {
		t.Fatalf("proved with bound %d, points %d", got.Bound, got.Points)
	}
}

func runTree(t *testing.T, base *season.Request, tree *whatif.Tree) *whatif.TreePlan {
	t.Helper()
	var first string
	var got *whatif.TreePlan
	for _, workers := range []int{1, 2, 8} {
		tree.Workers = workers
		var err error
		if got, err = tree.Run(context.Background(), base); err != nil {
			t.Fatal(err)
		}
		text := all(t, got)
		if first == "" {
			first = text
		}
		if text != first {
			t.Errorf("%d workers give other bytes", workers)
		}
	}
	checkTree(t, base, tree, got)
	return got
}

// bestOfSeven is the series of the scenario, and what follows on the twentieth.
func bestOfSeven() *season.Request {
	zone := seasontest.Zone("America/Halifax")
	base := &season.Request{Schema: season.Schema, Period: season.Period{From: seasontest.Date("2027-04-05"), To: seasontest.Date("2027-04-25")}}
	base.Athlete = season.Athlete{ID: "d2", Born: season.YearMonth{Year: 2000, Month: 8}, Zone: zone, TrainingAgeMonths: 72, OptIns: []season.OptIn{season.OptPostGame}}
	for i, d := range []int{6, 8, 10, 12, 14, 16, 18} {
		g := game(fmt.Sprintf("f%d", i+1), "Finalist", fmt.Sprintf("2027-04-%02dT19:00", d), 150, zone)
		g.Importance, g.Round = calendar.Normal, fmt.Sprint(i+1)
		if i >= 4 {
			g.Status = calendar.IfNecessary
		}
		base.Events = append(base.Events, g)
	}
	return base
}

// Whether game five is needed is known after game four, six after five, seven
// after six.
func TestSeriesDecidedGameByGame(t *testing.T) {
	base := bestOfSeven()
	first, err := whatif.Rounds(base, []string{"f5"}, []string{"f6"}, []string{"f7"})
	if err != nil {
		t.Fatal(err)
	}
	var known []string
	for d := first; d != nil; d = d.Outcomes[0].Then {
		known = append(known, base.Athlete.Zone.Local(d.Known).String())
	}
	if want := "[2027-04-12T21:30 2027-04-14T21:30 2027-04-16T21:30]"; fmt.Sprint(known) != want {
		t.Errorf("known at %s, want %s", known, want)
	}
	got := runTree(t, base, &whatif.Tree{First: first})
	t.Logf("price %d of weight %d, %s after %d plans", got.Price, got.Weight, got.Proof, got.Plans)
	for _, s := range got.Stages {
		t.Logf("%v: %s to %s, %d shared, price %d %s", s.Path, s.From.Format("02 15:04"), s.Known.Format("02 15:04"), len(s.Shared), s.Price, s.Proof)
	}
	if got.Proof != season.Proved {
		t.Errorf("%s: %d points, bound %d", got.Proof, got.Points, got.Bound)
	}
	names := []string{}
	for _, b := range got.Branches {
		names = append(names, fmt.Sprint(b.Name, " ", b.Weight))
		for _, s := range b.Plan.Sessions {
			// No gap between the games that are played reaches 48 h.
			if fullSize(s.Kind) && !s.Date.Before(seasontest.Date("2027-04-06")) && s.Date.Before(seasontest.Date("2027-04-12")) {
				t.Errorf("%s: a full-size session on %s", b.Name, s.Date)
			}
		}
	}
	if want := "[f5, f6, f7 1 f5, f6, no f7 1 f5, no f6 2 no f5 4]"; fmt.Sprint(names) != want {
		t.Errorf("branches %s, want %s", names, want)
	}
	// The sooner it is over, the sooner there is a full-size session again: two days
	// after the last game, in the dates that are freed.
	last := map[int]string{3: "2027-04-14", 2: "2027-04-16", 1: "2027-04-18"}
	for i, from := range last {
		if n := kinds(got.Branches[i].Plan.Sessions, from, "2027-04-25", fullSize); n < 1 {
			t.Errorf("%s: no full-size session from %s on: %s", got.Branches[i].Name, from, report(got.Branches[i].Plan))
		}
	}
	// With one decision for all of it the answer is that of a fork, and it cannot
	// cost more to be told sooner.
	fork := &whatif.Fork{Known: first.Known, Branches: whatif.Series("f5", "f6", "f7")}
	fork.Branches[0].Weight, fork.Branches[1].Weight = 4, 2
	sooner, err := fork.Run(context.Background(), base)
	if err != nil {
		t.Fatal(err)
	}
	if sooner.Proof == season.Proved && sooner.Points > got.Points {
		t.Errorf("%d points where all is known on the twelfth, %d game by game", sooner.Points, got.Points)
	}
}

// A tree of one decision is a fork.
func TestTreeOfOneDecision(t *testing.T) {
	base := club(3)
	branches := append(whatif.Series("m02", "g02"), whatif.Branch{Name: "sooner", Change: whatif.MoveDays("g02", -2), Weight: 3})
	known := instant(base.Athlete.Zone, "2026-11-11T12:00")
	fork := &whatif.Fork{Known: known, Branches: branches}
	want := runFork(t, base, fork)
	d := &whatif.Decision{Known: known}
	for _, b := range branches {
		d.Outcomes = append(d.Outcomes, whatif.Outcome{Branch: b})
	}
	got := runTree(t, base, &whatif.Tree{First: d})
	if all(t, got.Branches) != all(t, want.Branches) || all(t, got.Stages[0].Shared) != all(t, want.Shared) ||
		got.Points != want.Points || got.Bound != want.Bound || got.Price != want.Price || got.Proof != want.Proof || got.Weight != want.Weight {
		t.Errorf("%s\nwant %s", all(t, got), all(t, want))
	}
	if s := got.Stages[0]; s.Price != got.Price || s.Weight != got.Weight || len(s.Path) != 0 {
		t.Errorf("the only decision: price %d of %d, weight %d", s.Price, got.Price, s.Weight)
	}
}

// A knock-out of two rounds, the second with two possible kick-offs known late.
func TestKnockoutOfTwoRounds(t *testing.T) {
	base := club(3)
	zone := base.Athlete.Zone
	for _, x := range []struct{ id, wall string }{{"k1", "2026-11-18T19:00"}, {"k2", "2026-11-20T19:00"}} {
		g := game(x.id, "Cup side", x.wall, 100, zone)
		g.Status, g.Competition = calendar.Provisional, "cup"
		base.Events = append(base.Events, g)
	}
	first, err := whatif.Rounds(base, []string{"k1"}, []string{"k2"})
	if err != nil {
		t.Fatal(err)
	}
	final := first.Outcomes[0].Then
	hour := &whatif.Decision{Known: instant(zone, "2026-11-19T12:00")}
	for _, b := range whatif.Starts("k2", "2026-11-20T13:00", "2026-11-20T19:00") {
		hour.Outcomes = append(hour.Outcomes, whatif.Outcome{Branch: b})
	}
	final.Outcomes[0].Then = hour
	final.Outcomes[0].Weight, final.Outcomes[1].Weight = 30, 70
	got := runTree(t, base, &whatif.Tree{First: first})
	if len(got.Stages) != 3 || len(got.Branches) != 4 || fmt.Sprint(got.Stages[2].Path) != "[k1 k2]" {
		t.Fatalf("%d stages, %d branches", len(got.Stages), len(got.Branches))
	}
	// Of 200: 100 out at once, 70 after a round, and 15 for each hour of the final.
	if w := []int64{got.Branches[0].Weight, got.Branches[1].Weight, got.Branches[2].Weight, got.Branches[3].Weight}; fmt.Sprint(w) != "[3 3 14 20]" {
		t.Errorf("weights %v", w)
	}
	t.Logf("price %d, %s after %d plans", got.Price, got.Proof, got.Plans)
}

// All that is wrong with a tree is said at once.
func TestTreeProblems(t *testing.T) {
	base := club(2)
	at := func(s string) time.Time { return instant(base.Athlete.Zone, s) }
	circle := &whatif.Decision{Known: at("2026-11-05T12:00")}
	circle.Outcomes = []whatif.Outcome{{Then: circle}, {}}
	odd := &whatif.Decision{Known: at("2026-11-05T12:00")}
	for n, d := 0, odd; n < 8; n++ {
		d.Outcomes = []whatif.Outcome{{Branch: whatif.Branch{Weight: 9973 - n}, Then: &whatif.Decision{Known: d.Known, Outcomes: []whatif.Outcome{{}}}}, {Branch: whatif.Branch{Weight: 7919 - n}}}
		d = d.Outcomes[0].Then
	}
	for _, c := range []struct {
		name  string
		first *whatif.Decision
		want  []string
	}{
		{"none", nil, []string{"/first: "}},
		{"no outcome, no instant", &whatif.Decision{}, []string{"/first/known", "/first/outcomes"}},
		{"weight and order", &whatif.Decision{Known: at("2026-11-05T12:00"), Outcomes: []whatif.Outcome{
			{Branch: whatif.Branch{Weight: -1}}, {Then: &whatif.Decision{Known: at("2026-11-04T12:00"), Outcomes: []whatif.Outcome{{}}}}}},
			[]string{"/first/outcomes/0/weight", "/first/outcomes/1/then/known"}},
		{"circle", circle, []string{"deep"}},
		{"odd weights", odd, []string{"common measure"}},
	} {
		_, err := (&whatif.Tree{First: c.first}).Run(context.Background(), base)
		var bad *season.InputError
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for _, want := range c.want {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%s: no %q in %v", c.name, want, err)
			}
		}
	}
	if _, err := (&whatif.Tree{First: &whatif.Decision{}}).Run(context.Background(), nil); err == nil {
		t.Error("no request, no error")
	}
	var failed *whatif.VariantError
	d := &whatif.Decision{Known: at("2026-11-05T12:00"), Outcomes: []whatif.Outcome{{}, {Branch: whatif.Branch{Name: "gone", Change: whatif.Cancel("g9")}}}}
	if _, err := (&whatif.Tree{First: d}).Run(context.Background(), base); !errors.As(err, &failed) || failed.Index != 1 || !strings.Contains(err.Error(), "gone") {
		t.Errorf("%v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := (&whatif.Tree{First: d}).Run(ctx, base); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
	for _, c := range []struct {
		rounds [][]string
		want   string
	}{
		{nil, "no round"},
		{[][]string{{}}, "no game is in this round"},
		{[][]string{{"g9"}}, "no game of this id"},
		{[][]string{{"p-2026-11-03"}}, "no game of this id"},
		{[][]string{{"m02", "m02"}}, "twice"},
		{[][]string{{"g02"}, {"m02"}}, "order of time"},
		{[][]string{{"g01"}}, "decide it"},
	} {
		if _, err := whatif.Rounds(base, c.rounds...); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: %v", c.rounds, err)
		}
	}
}

// Over random seasons with random trees.
func TestTreeLaws(t *testing.T) {
	proved, priced, seen := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		base := seasontest.Request(t, seasontest.Options{MinDates: 7, MaxDates: 14, Plain: rapid.Bool().Draw(t, "plain")})
		var ids []string
		for _, e := range base.Events {
			if e.Kind == calendar.Game && e.Active() {
				ids = append(ids, e.ID)
			}
		}
		change := func() whatif.Change {
			if len(ids) == 0 || rapid.IntRange(0, 2).Draw(t, "same") == 0 {
				return nil
			}
			id := rapid.SampledFrom(ids).Draw(t, "id")
			if rapid.Bool().Draw(t, "cancel") {
				return whatif.Cancel(id)
			}
			return whatif.MoveDays(id, rapid.SampledFrom([]int{-1, 1, 2}).Draw(t, "days"))
		}
		var draw func(day, depth int) *whatif.Decision
		draw = func(day, depth int) *whatif.Decision {
			day += rapid.IntRange(0, 4).Draw(t, "day")
			d := &whatif.Decision{Known: base.Athlete.Zone.DayStart(base.Period.From.AddDays(day)).Add(time.Duration(rapid.IntRange(0, 23).Draw(t, "hour")) * time.Hour)}
			for range rapid.IntRange(1, 2).Draw(t, "outcomes") {
				o := whatif.Outcome{Branch: whatif.Branch{Change: change(), Weight: rapid.IntRange(0, 5).Draw(t, "weight")}}
				if depth < 3 && rapid.Bool().Draw(t, "then") {
					o.Then = draw(day+1, depth+1)
				}
				d.Outcomes = append(d.Outcomes, o)
			}
			return d
		}
		tree := &whatif.Tree{First: draw(0, 1), Workers: 2, MaxPlans: 60}
		got, err := tree.Run(context.Background(), base)
		var bad *whatif.VariantError
		if errors.As(err, &bad) {
			t.Skip("a branch that is no calendar")
		}
		if err != nil {
			t.Fatal(err)
		}
		checkTree(t, base, tree, got)
		if len(got.Stages) > 1 {
			seen++
			if got.Proof == season.Proved {
				proved++
			}
			if got.Price > 0 {
				priced++
			}
		}
	})
	t.Logf("%d of more than one decision: %d proved, in %d not knowing had a price", seen, proved, priced)
}
