package periodize

import (
	"testing"

	"pgregory.net/rapid"

	"example.org/weft/internal/history"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/seasontest"
)

// The hints of the rules over days are true: options of one group are the same
// to the rule in every state.
func TestGroupsAreTrue(t *testing.T) {
	onSeasons(t, 100, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{MinDates: 5, MaxDates: 20})
		w, err := (&Planner{}).prepare(req)
		if err != nil {
			t.Fatal(err)
		}
		var options []int
		for i := range w.model.Choices {
			options = append(options, len(w.model.Choices[i].Options))
		}
		for _, r := range append(history.Rules(w.model), memories(w.model)...) {
			if err := layered.CheckGroups(options, r.Rule, 40); err != nil {
				t.Fatalf("%v: %v", r.IDs, err)
			}
		}
	})
}
