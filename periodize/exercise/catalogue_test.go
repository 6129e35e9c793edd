package exercise

import (
	"errors"
	"strings"
	"testing"

	"example.org/weft/periodize/season"
)

func TestBuiltinIsSound(t *testing.T) {
	all := Catalogue{}.All()
	if len(all) < 120 {
		t.Errorf("%d exercises, fewer than 120", len(all))
	}
	for _, p := range check(all) {
		t.Error(p.Error())
	}
	heavy := map[Region]int{}
	for _, x := range all {
		heavy[x.Pattern.Region()]++
		if x.Role == Easy && (x.Load != Body || x.Heavy) {
			t.Errorf("%s is easy and loaded", x.ID)
		}
	}
	t.Log(len(all), heavy)
	for _, p := range Patterns() {
		n := 0
		for _, x := range all {
			if x.Pattern == p {
				n++
			}
		}
		if n < 2 {
			t.Errorf("%s has %d exercises", p, n)
		}
	}
}

// TestGroinLeavesAHinge: a groin complaint rules out lateral lunges, bounds,
// wide stances and sprints, and not the lower body.
func TestGroinLeavesAHinge(t *testing.T) {
	out, ok := regionMask("groin")
	if !ok {
		t.Fatal("groin is no word of the body")
	}
	for _, id := range []string{"lateral-lunge", "cossack-squat", "skater-jump", "lateral-bound", "sumo-deadlift", "sprint-15", "sprint-10", "long-copenhagen", "band-adduction"} {
		if e := builtin.find(id); e == nil || e.loads&out == 0 {
			t.Errorf("%s survives a groin complaint", id)
		}
	}
	for _, id := range []string{"romanian-deadlift", "trap-bar-deadlift", "hip-thrust", "kettlebell-deadlift", "adductor-squeeze", "bench-press", "bent-over-row"} {
		if e := builtin.find(id); e == nil || e.loads&out != 0 {
			t.Errorf("%s does not survive a groin complaint", id)
		}
	}
}

func TestBadCatalogue(t *testing.T) {
	_, err := Catalogue{}.With(
		Exercise{ID: "Bad Id", Name: "", Pattern: "squash", Role: "boss", Load: "air", Tissues: []Tissue{"tail"}, Skill: 9, Impact: -1, Seconds: 0, Apart: true},
		Exercise{ID: "ok", Name: "Fine", Pattern: Squat, Role: Main, Load: Body, Seconds: 3, Easier: []string{"goblet-squad"}},
	)
	var in *season.InputError
	if !errors.As(err, &in) {
		t.Fatal(err)
	}
	got := map[string]bool{}
	for _, p := range in.Problems {
		got[p.Code] = true
		if p.Reason == "" || p.Remedy == "" || p.Path == "" {
			t.Errorf("%+v lacks something", p)
		}
	}
	for _, code := range []string{"exercise-id", "exercise-name", "pattern-unknown", "role-unknown", "load-unknown", "tissue-unknown", "side-contradiction", "number-range", "exercise-unknown"} {
		if !got[code] {
			t.Errorf("no %s among %v", code, err)
		}
	}
	if !strings.Contains(err.Error(), "goblet-squat") {
		t.Errorf("no suggestion in %v", err)
	}
}
