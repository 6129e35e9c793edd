package logbook_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// What an athlete does with a card is all that moves the kilograms of the next:
// with a repetition to spare they rise by one step of the plates, done as asked or
// missed they stay, two repetitions too few bring them down to 95 % or less.
func TestCardsFollowTheLog(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z, _ := calendar.LoadZone("UTC")
		given := logbook.Given{Athlete: lifter(), Kit: exercise.Gym(), Today: day("2026-10-05")}
		given.Athlete.Maxima = []season.Maximum{{Exercise: "back-squat", Grams: int64(rapid.IntRange(80, 200).Draw(t, "max")) * 1000, Kind: "tested", Date: day("2026-10-01")}}
		avoid := exercise.Profile{}
		for _, x := range (exercise.Catalogue{}).All() {
			if x.Pattern.Region() == exercise.Lower && x.ID != "back-squat" {
				avoid.Avoid = append(avoid.Avoid, x.ID)
			}
		}
		var entries []logbook.Entry
		last, spare, missed, run := load.Mass(0), 0, true, 0
		for i := range 6 {
			log, err := logbook.NewLog(entries...)
			if err != nil {
				t.Fatal(err)
			}
			h, err := log.View("").History(given)
			if err != nil {
				t.Fatal(err)
			}
			id := fmt.Sprint("p", i)
			c, err := exercise.Builder{}.Session(exercise.Input{Athlete: given.Athlete, Profile: avoid, Kit: given.Kit, History: h,
				Session: season.Session{ID: id, Kind: season.FullBody, Date: given.Today, Minutes: 55}})
			if err != nil {
				t.Fatal(err)
			}
			var it exercise.Item
			for _, b := range c.Blocks {
				for _, x := range b.Items {
					if x.Slot == "main lower" {
						it = x
					}
				}
			}
			if it.ID != "back-squat" || it.Exercise.Load == nil {
				t.Fatalf("%+v", it)
			}
			got := load.Mass(it.Exercise.Load.Grams)
			switch {
			case i == 0:
			case missed && got != last, !missed && spare == 0 && got != last,
				!missed && spare > 0 && got != last+2500, // a pair of the smallest discs
				!missed && spare < 0 && got*100 > last*95:
				t.Fatalf("%s after %s, missed %v, %d to spare: %+v", got, last, missed, spare, it.Exercise.Evidence)
			}
			given.Cards = append(given.Cards, c)
			last, missed, spare = got, rapid.Bool().Draw(t, "missed"), rapid.SampledFrom([]int{-2, 0, 1}).Draw(t, "spare")
			if run++; run > 2 {
				missed = false // a week without a lift has rules of its own
			}
			if missed {
				spare = 0
			} else {
				run = 0
				var sets []logbook.Set
				for range it.Exercise.Sets {
					sets = append(sets, set(float64(got)/1000, it.Reps, it.Left+spare))
				}
				entries = append(entries, did(fmt.Sprint("e", i), id, given.Today.String(), z, sets...))
			}
			given.Today = given.Today.AddDays(2)
		}
	})
}

// What the log says of a lift is handed to the builder of cards.
func ExampleLift_NextLoad() {
	given := logbook.Given{
		Today:   calendar.DateFromDayNumber(20_775), // 2026-11-18
		Athlete: season.Athlete{Born: season.YearMonth{Year: 1999, Month: 5}, TrainingAgeMonths: 50},
		Kit:     exercise.Gym(),
		Cards:   []exercise.Card{card("p1", "back-squat", 3, 5, 2)},
	}
	lift, _, err := readTable().View("a7").Lift("back-squat", given)
	if err != nil {
		fmt.Println(err)
	}
	next, ok := lift.NextLoad()
	fmt.Println(next.Exercise, next.Last, "then", next.Load, "for", next.Reps, "with", next.Left, "left:", ok)
	// Output: back-squat 100 kg then 102.5 kg for 5 with 2 left: true
}
