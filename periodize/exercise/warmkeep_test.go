package exercise_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.org/weft/periodize/exercise"
)

// TestAWarmUpKeepsWhatIsNotSore: of the written warm-up goes what loads the sore
// part; the rest stays.
func TestAWarmUpKeepsWhatIsNotSore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawInput(t)
		written, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		c := exercise.Complaint{Region: rapid.SampledFrom(exercise.BodyWords()).Draw(t, "region"), Pain: 4,
			Side: rapid.SampledFrom([]string{"left", "right", "both"}).Draw(t, "side")}
		r, err := exercise.Builder{}.Today(in, written, exercise.CheckIn{Pain: []exercise.Complaint{c}})
		if err != nil {
			t.Fatal(err)
		}
		now := itemsOf(r)
		for _, b := range written.Blocks {
			if b.Name != "Warm-up" {
				continue
			}
			for _, it := range b.Items {
				if it.Slot == "easy piece" || slices.ContainsFunc(now, func(x exercise.Item) bool { return x.ID == it.ID }) {
					continue
				}
				if !loadsSore(it, c.Region, c.Side) {
					t.Fatalf("%s went, %s is sore on the %s\n%s", it.ID, c.Region, c.Side, printed(written))
				}
			}
		}
	})
}
