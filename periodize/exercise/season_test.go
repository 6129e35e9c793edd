package exercise_test

import (
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// invented is a season of weeks with a full-body session on Monday and
// Wednesday, a primer on Friday, a game on Saturday and recovery on Sunday.
func invented(weeks int) season.Plan {
	p := season.Plan{Schema: season.Schema, Zone: "UTC"}
	monday := day("2026-09-07")
	for w := 0; w < weeks; w++ {
		at := func(n int) (calendar.Date, time.Time) {
			d := monday.AddDays(7*w + n)
			return d, time.Unix(int64(d.DayNumber())*86400+17*3600, 0).UTC()
		}
		put := func(n int, k season.Kind, minutes int) {
			d, start := at(n)
			p.Sessions = append(p.Sessions, season.Session{ID: d.String(), Kind: k, Date: d, Start: start, End: start.Add(time.Duration(minutes) * time.Minute),
				Minutes: minutes, State: season.AsWritten, GameDay: []season.GameOffset{{Event: "g", Days: n - 5}}})
		}
		put(0, season.FullBody, 55)
		put(2, season.FullBody, 55)
		put(4, season.Primer, 35)
		put(6, season.Recovery, 40)
		d, start := at(5)
		p.Games = append(p.Games, season.PlanGame{ID: d.String(), Date: d, Start: start, End: start.Add(2 * time.Hour)})
	}
	p.Now = time.Unix(int64(monday.DayNumber())*86400, 0).UTC()
	return p
}

func club() exercise.Club {
	a := adult()
	a.Maxima = []season.Maximum{
		{Exercise: "back-squat", Grams: 140_000, Kind: "tested", Date: day("2026-08-20")},
		{Exercise: "Bench press", Grams: 100_000, Kind: "tested", Date: day("2026-08-20")},
		{Exercise: "romanian-deadlift", Grams: 120_000, Kind: "estimated", Date: day("2026-08-25")},
	}
	return exercise.Club{Athlete: a, Profile: exercise.Profile{Prehab: []string{"short-copenhagen", "band-external-rotation"}},
		History: exercise.History{Lifts: []calendar.Date{day("2026-09-03")}}}
}

func TestSeasonOfCards(t *testing.T) {
	plan := invented(12)
	got, cards, err := exercise.Builder{}.Season(plan, club())
	if err != nil {
		t.Fatal(err)
	}
	if plan.Sessions[0].Parts != nil {
		t.Error("the plan handed in was changed")
	}
	if len(cards) != len(plan.Sessions) {
		t.Fatalf("%d cards for %d sessions", len(cards), len(plan.Sessions))
	}
	var lastFull *exercise.Card
	mains := map[string]int{} // pattern and exercise in the first six weeks
	for i := range cards {
		c := &cards[i]
		sum := 0
		for _, p := range got.Sessions[i].Parts {
			sum += p.Minutes
		}
		if sum != plan.Sessions[i].Minutes || c.Minutes != sum {
			t.Errorf("%s: parts take %d of %d minutes", c.Session, sum, plan.Sessions[i].Minutes)
		}
		if c.Kind != season.FullBody {
			continue
		}
		if lastFull != nil && len(shared(*lastFull, *c)) == len(ids(*c)) {
			t.Errorf("%s repeats the session before", c.Session)
		}
		lastFull = c
		for _, b := range c.Blocks {
			for _, it := range b.Items {
				if it.Slot == "main lower" && i < 24 {
					mains[it.Exercise.Pattern+" "+it.ID]++
				}
			}
		}
	}
	if len(mains) != 2 {
		t.Errorf("main lifts of a block: %v, want one squat and one hinge", mains)
	}
	for _, i := range []int{0, 1, 2, 3, 4, 5} {
		t.Log("\n" + printed(cards[i]))
	}
}

// ids are the exercises of the work of a card.
func ids(c exercise.Card) map[string]bool {
	out := map[string]bool{}
	for _, b := range c.Blocks {
		if b.Rounds > 0 {
			for _, it := range b.Items {
				out[it.ID] = true
			}
		}
	}
	return out
}

func shared(x, y exercise.Card) []string {
	var out []string
	in := ids(x)
	for id := range ids(y) {
		if in[id] {
			out = append(out, id)
		}
	}
	return out
}
