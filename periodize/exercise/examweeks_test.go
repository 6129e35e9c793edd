package exercise_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// TestExamWeeks: in a week of exams with two short sessions, of whatever athlete
// and with whatever kit, the sets are 40 to 60 % of the mean of the three weeks
// before. Common practice, no source.
func TestExamWeeks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := invented(4)
		for i := range plan.Sessions {
			s := &plan.Sessions[i]
			if s.Date.Before(day("2026-09-28")) {
				continue
			}
			s.Why = []season.Note{{Code: "why-short-exam", Class: season.Why}}
			s.Minutes = min(s.Minutes, 30)
			switch {
			case s.Date.Equal(day("2026-09-30")):
				s.Kind = season.Recovery
			case s.Kind == season.FullBody: // 30 minutes are too few for one in full
				s.Kind = season.Trimmed
			}
		}
		c := exercise.Club{Athlete: season.Athlete{Born: season.YearMonth{Year: rapid.IntRange(1988, 2012).Draw(t, "born"), Month: 2},
			TrainingAgeMonths: rapid.SampledFrom([]int{0, 8, 14, 30, 60}).Draw(t, "months"), Role: rapid.SampledFrom([]string{"", "goalkeeper"}).Draw(t, "role")}}
		kit := rapid.SampledFrom([]exercise.Kit{exercise.Gym(), {Words: []string{"chair", "band", "corridor"}}, {}}).Draw(t, "kit")
		c.Kits = map[string]exercise.Kit{"": kit}
		_, cards, err := exercise.Builder{}.Season(plan, c)
		if err != nil {
			t.Fatal(err)
		}
		sets := map[calendar.Date]int{}
		for _, card := range cards {
			if card.Kind.Lift() {
				for _, n := range card.Sets() {
					sets[calendar.WeekStart(card.Date, 1)] += n
				}
			}
		}
		exams := day("2026-09-28")
		usual := 0
		for n := 1; n <= 3; n++ {
			usual += sets[exams.AddDays(-7*n)]
		}
		if percent := float64(sets[exams]) * 300 / float64(usual); percent < 40 || percent > 60 {
			t.Fatalf("%d sets, %d in the three weeks before: %.1f %%\n%s", sets[exams], usual, percent, printed(cards[len(cards)-4]))
		}
	})
}
