package exercise_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// What a coach would shake the head at, as laws of every card. Common practice, no
// source.

func block(c exercise.Card, name string) []exercise.Item {
	for _, b := range c.Blocks {
		if b.Name == name {
			return b.Items
		}
	}
	return nil
}

// TestAWarmUpLoosensBeforeItMoves: after the easy piece comes what loosens, then
// what wakes up, and what moves comes last; before sprints on foot that is a drill
// of running, wherever time and body allow one.
func TestAWarmUpLoosensBeforeItMoves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawInput(t)
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		last, drill := 0, false
		items := block(c, "Warm-up")
		for _, it := range items {
			stage := 2
			switch exercise.Pattern(it.Exercise.Pattern) {
			case exercise.Aerobic:
				stage = 0
			case exercise.Mobility:
				stage = 1
			case exercise.Movement:
				stage = 3
			}
			if stage < last {
				t.Fatalf("%s comes late\n%s", it.ID, printed(c))
			}
			last = stage
			x, _ := exercise.Catalogue{}.Find(it.ID)
			drill = drill || stage == 3 && slices.Contains(x.Tissues, exercise.HipFlexors)
		}
		for _, it := range block(c, "Short sprints") {
			if x, _ := (exercise.Catalogue{}).Find(it.ID); x.Impact > 0 && !drill && in.Session.Minutes >= 20 && len(in.Profile.Prehab) == 0 {
				t.Fatalf("%s without a drill\n%s", it.ID, printed(c))
			}
		}
	})
}

// TestNothingTooEasy: after a year of training, where a gym and 45 minutes are
// there, no corrective is one that only reloads gently what nobody complains of,
// and no work with the own weight has a harder relative without load that could be
// done and was not used in the last sessions.
func TestNothingTooEasy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan, c := drawPlan(t, 40)
		c.Kits = nil
		c.Athlete.Restrictions, c.Athlete.Born, c.Athlete.TrainingAgeMonths = nil, season.YearMonth{Year: 2000, Month: 1}, rapid.IntRange(13, 90).Draw(t, "months")
		_, cards, err := exercise.Builder{}.Season(plan, c)
		if err != nil {
			t.Fatal(err)
		}
		for _, card := range cards {
			if card.Kind != season.FullBody || card.Minutes < 45 || hasNote(card.Notes, "card-exam") || hasNote(card.Notes, "card-restart-28") || hasNote(card.Notes, "card-familiar") {
				continue
			}
			for _, b := range card.Blocks {
				for _, it := range b.Items {
					x, _ := exercise.Catalogue{}.Find(it.ID)
					if b.Rounds > 0 && len(x.Gentle) > 0 {
						t.Fatalf("%s reloads what nobody complains of\n%s", it.ID, printed(card))
					}
					if b.Rounds > 0 && it.ID == "side-plank-knees" {
						t.Fatalf("from the knees after a year\n%s", printed(card))
					}
				}
			}
		}
	})
}

// TestPullsWithAllTheOwnWeight: nobody who was not seen doing them is asked for
// pull-ups where a band or a machine is there, and a beginner never.
func TestPullsWithAllTheOwnWeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := exercise.Input{Session: session(rapid.SampledFrom([]season.Kind{season.FullBody, season.Primer, season.Trimmed}).Draw(t, "kind"), 55, "2026-11-10"),
			Athlete: adult(), Kit: exercise.Gym()}
		in.Athlete.TrainingAgeMonths = rapid.IntRange(0, 80).Draw(t, "months")
		hard := func(c exercise.Card) bool {
			for _, id := range []string{"pull-up", "chin-up", "slow-chin-up"} {
				if _, ok := item(c, id); ok {
					return true
				}
			}
			return false
		}
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		if hard(c) {
			t.Fatalf("nobody saw a pull-up\n%s", printed(c))
		}
		if in.Athlete.TrainingAgeMonths < 12 {
			in.Kit = exercise.Kit{Words: []string{"pull-up-bar"}}
			if c, _ = (exercise.Builder{}).Session(in); hard(c) {
				t.Fatalf("a beginner\n%s", printed(c))
			}
		}
	})
	in := exercise.Input{Session: session(season.PostGame, 30, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	in.History.Sets = []exercise.DoneSet{{Exercise: "pull-up", Date: day("2026-11-03"), Reps: 7, Left: 1}}
	in.Profile.Avoid = append(avoidBut(t, exercise.PullHorizontal, ""), "chin-up", "slow-chin-up", "band-pull-up", "lat-pulldown", "single-arm-pulldown")
	c, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := item(c, "pull-up"); !ok {
		t.Errorf("seven were seen, and a band is chosen\n%s", printed(c))
	}
}

// TestWithNothing: on a bare floor the recovery piece is a walk outdoors and not
// half an hour on the spot, sprints are counted in seconds, and the main lift of
// somebody trained is one on one leg.
func TestWithNothing(t *testing.T) {
	for _, x := range []struct {
		kind    season.Kind
		minutes int
		slot    string
		want    string
		reps    string
	}{
		{season.Recovery, 40, "easy piece", "outdoor-walk", "30 min"},
		{season.Recovery, 12, "easy piece", "easy-march", "7 min"},
		{season.Primer, 35, "sprint", "fast-high-knees", "6 s"},
	} {
		c, err := exercise.Builder{}.Session(exercise.Input{Session: session(x.kind, x.minutes, "2026-11-10"), Athlete: adult()})
		if err != nil {
			t.Fatal(err)
		}
		if it, ok := item(c, x.want); !ok || it.Slot != x.slot || it.Exercise.Reps != x.reps {
			t.Errorf("%s: no %s of %s\n%s", x.kind, x.want, x.reps, printed(c))
		}
	}
	in := exercise.Input{Session: session(season.FullBody, 45, "2026-11-10"), Athlete: adult()}
	for _, light := range []bool{false, true} {
		if light {
			in.Kit.Dumbbells = []load.Mass{8 * load.Kilogram}
		}
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		if it, ok := mainOf(c); !ok || !light && it.Side != "each" {
			t.Errorf("light %v: %s\n%s", light, it.Name, printed(c))
		}
	}
}

// TestWhatIsNotSoreStays: pain in the arm or the neck changes nothing of the work on
// the legs, and the part that hurts is reloaded gently where something does that.
func TestWhatIsNotSoreStays(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: club().Athlete, Kit: exercise.Gym()}
	written, err := exercise.Builder{}.Session(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, region := range []string{"wrist", "elbow", "forearm", "neck", "chest", "shoulder"} {
		r, err := exercise.Builder{}.Today(in, written, exercise.CheckIn{Pain: []exercise.Complaint{{Region: region, Side: "left", Pain: 4}}})
		if err != nil {
			t.Fatal(err)
		}
		now := itemsOf(r)
		for _, b := range written.Blocks {
			for _, it := range b.Items {
				legs := it.Slot == "main lower" || it.Slot == "lower care" || it.Slot == "second lower"
				if legs && !loadsSore(it, region, "left") && !slices.ContainsFunc(now, func(x exercise.Item) bool { return x.ID == it.ID }) {
					t.Errorf("%s: %s is gone: %v", region, it.ID, whyOf(r))
				}
			}
		}
		if region == "shoulder" && !slices.ContainsFunc(now, func(x exercise.Item) bool { return x.ID == "wall-slide" && x.Slot == "upper care" }) {
			t.Errorf("nothing reloads the shoulder")
		}
	}
}

// TestWhatIsAvoidedIsNowhere: an exercise that the club avoids is not on a card, its
// warm-up included, unless it is the athlete's own prehab.
func TestWhatIsAvoidedIsNowhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawInput(t)
		all := exercise.Catalogue{}.All()
		for range rapid.IntRange(1, 90).Draw(t, "avoided") {
			in.Profile.Avoid = append(in.Profile.Avoid, rapid.SampledFrom(all).Draw(t, "avoid").ID)
		}
		c, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range c.Blocks {
			for _, it := range b.Items {
				if slices.Contains(in.Profile.Avoid, it.ID) && !slices.Contains(in.Profile.Prehab, it.ID) {
					t.Fatalf("%s\n%s", it.ID, printed(c))
				}
			}
		}
	})
}

// TestSlowLoweringFarFromGames: through a season in a gym somebody trained lowers
// slowly, for the hamstrings, in some of the sessions that end 72 h or more before a
// game, and in none that end later.
func TestSlowLoweringFarFromGames(t *testing.T) {
	plan := invented(8)
	for i := range plan.Sessions { // every other Wednesday is Thursday, 47 h before the game
		if s := &plan.Sessions[i]; i%8 == 1 {
			s.Date, s.Start, s.End = s.Date.AddDays(1), s.Start.AddDate(0, 0, 1), s.End.AddDate(0, 0, 1)
			s.GameDay[0].Days = -2
		}
	}
	_, cards, err := exercise.Builder{}.Season(plan, club())
	if err != nil {
		t.Fatal(err)
	}
	seen := map[exercise.Pattern]int{}
	for i, c := range cards {
		game := plan.Games[0].Start
		for _, g := range plan.Games {
			if g.Start.After(plan.Sessions[i].Start) {
				game = g.Start
				break
			}
		}
		for _, b := range c.Blocks {
			for _, it := range b.Items {
				x, _ := exercise.Catalogue{}.Find(it.ID)
				if !x.Eccentric || b.Rounds == 0 {
					continue
				}
				seen[x.Pattern]++
				if gap := game.Sub(plan.Sessions[i].End); gap.Hours() < 72 {
					t.Errorf("%s %v before a game\n%s", it.ID, gap, printed(c))
				}
			}
		}
	}
	if seen[exercise.KneeFlexion] == 0 {
		t.Errorf("slowly lowered: %v", seen)
	}
}
