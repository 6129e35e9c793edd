package exercise_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// withRelatives are an item and the relatives it names, as if they were done in
// its place on both sides.
func withRelatives(it exercise.Item) []exercise.Item {
	out := []exercise.Item{it}
	for _, name := range []string{it.Easier, it.Harder} {
		if x, ok := (exercise.Catalogue{}).Find(name); ok {
			r := exercise.Item{ID: x.ID, Slot: "relative"}
			r.Exercise.Side = "each"
			out = append(out, r)
		}
	}
	return out
}

// loadsSore reports whether an item loads a tissue on a side that is sore.
func loadsSore(it exercise.Item, region, side string) bool {
	x, _ := exercise.Catalogue{}.Find(it.ID)
	out, _ := exercise.TissuesOf(region)
	for _, tissue := range x.Tissues {
		if slices.Contains(out, tissue) {
			sound := side == "left" && it.Exercise.Side == "right" || side == "right" && it.Exercise.Side == "left"
			return !(x.Apart && sound)
		}
	}
	return false
}

func each(items []exercise.Item, f func(exercise.Item) []exercise.Item) (out [][]exercise.Item) {
	for _, it := range items {
		out = append(out, f(it))
	}
	return out
}

// TestNothingLoadsWhatIsSore: of a random report, restriction and earlier
// complaint nothing that loads the tissue survives on the card, in its warm-up
// and among the relatives it names.
func TestNothingLoadsWhatIsSore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawInput(t)
		written, err := exercise.Builder{}.Session(in)
		if err != nil {
			t.Fatal(err)
		}
		kit := drawKit(t)
		report := exercise.CheckIn{Minutes: rapid.SampledFrom([]int{0, 8, 20, 40}).Draw(t, "today")}
		if rapid.Bool().Draw(t, "otherKit") {
			report.Kit = &kit
		}
		if rapid.Bool().Draw(t, "tired") {
			report.Energy = exercise.Read(rapid.IntRange(0, 10).Draw(t, "energy"))
		}
		for range rapid.IntRange(0, 3).Draw(t, "complaints") {
			report.Pain = append(report.Pain, exercise.Complaint{Region: rapid.SampledFrom(exercise.BodyWords()).Draw(t, "region"),
				Side: rapid.SampledFrom([]string{"left", "right", "both", ""}).Draw(t, "side"), Pain: rapid.IntRange(0, 7).Draw(t, "pain")})
		}
		for range rapid.IntRange(0, 2).Draw(t, "sore") {
			report.Soreness = append(report.Soreness, exercise.Soreness{Region: rapid.SampledFrom(exercise.BodyWords()).Draw(t, "soreRegion"),
				Side: rapid.SampledFrom([]string{"left", "right", "both", ""}).Draw(t, "soreSide"), Level: rapid.IntRange(0, 10).Draw(t, "level")})
		}
		// Earlier complaints, followed by some clear reports.
		for range rapid.IntRange(0, 1).Draw(t, "earlier") {
			was := exercise.Complaint{Region: rapid.SampledFrom(exercise.BodyWords()).Draw(t, "was"), Side: rapid.SampledFrom([]string{"left", "right", "both"}).Draw(t, "wasSide"),
				Pain: rapid.IntRange(3, 5).Draw(t, "wasPain"), Date: in.Session.Date.AddDays(-9)}
			in.History.Reports = append(in.History.Reports, was)
			for n := range rapid.IntRange(0, 2).Draw(t, "clear") {
				x := was
				x.Pain, x.Date = rapid.IntRange(0, 2).Draw(t, "clearPain"), was.Date.AddDays(2*n+2)
				in.History.Reports = append(in.History.Reports, x)
			}
		}
		for range rapid.IntRange(0, 1).Draw(t, "restrictions") {
			in.Athlete.Restrictions = append(in.Athlete.Restrictions, season.Restriction{Region: rapid.SampledFrom(exercise.BodyWords()).Draw(t, "barred"),
				Side: rapid.SampledFrom([]string{"left", "right", "both"}).Draw(t, "barredSide"), From: in.Session.Date, By: "physiotherapist"})
		}
		result, err := exercise.Builder{}.Today(in, written, report)
		if err != nil {
			t.Fatal(err)
		}
		worst := 0
		for _, p := range report.Pain {
			worst = max(worst, p.Pain)
		}
		var d exercise.Day
		switch r := result.(type) {
		case exercise.Held:
			if worst < 6 {
				t.Fatalf("held for pain of %d", worst)
			}
			return
		case exercise.AsWritten:
			d = r.Day
		case exercise.Eased:
			d = r.Day
		case exercise.Swapped:
			d = r.Day
		}
		if worst >= 6 {
			t.Fatalf("a session with pain of %d", worst)
		}
		today := in
		if report.Kit != nil {
			today.Kit = *report.Kit
		}
		planned, sum := in.Session.Minutes, 0
		if report.Minutes > 0 {
			planned = min(planned, report.Minutes)
		}
		for _, b := range d.Card.Blocks {
			sum += b.Minutes
		}
		if sum != d.Card.Minutes || sum > planned {
			t.Fatalf("%d minutes of blocks, the card says %d, there are %d:\n%s", sum, d.Card.Minutes, planned, printed(d.Card))
		}
		for _, b := range d.Card.Blocks {
			for _, it := range slices.Concat(each(b.Items, withRelatives)...) {
				for _, p := range report.Pain {
					if p.Pain >= 3 && loadsSore(it, p.Region, p.Side) {
						t.Fatalf("%s with pain of %d in %s, %s", it.ID, p.Pain, p.Region, p.Side)
					}
				}
				for _, s := range report.Soreness {
					if s.Level >= 7 && loadsSore(it, s.Region, s.Side) {
						t.Fatalf("%s with soreness of %d in %s, %s", it.ID, s.Level, s.Region, s.Side)
					}
				}
				if n := len(in.History.Reports); n == 1 || n == 2 { // fewer than two clear ones since
					if was := in.History.Reports[0]; loadsSore(it, was.Region, was.Side) {
						t.Fatalf("%s after a complaint of %s, %s that is not clear", it.ID, was.Region, was.Side)
					}
				}
				for _, r := range in.Athlete.Restrictions {
					x, _ := exercise.Catalogue{}.Find(it.ID)
					out, _ := exercise.TissuesOf(r.Region)
					if loadsSore(it, r.Region, r.Side) || slices.ContainsFunc(x.Gentle, func(g exercise.Tissue) bool { return slices.Contains(out, g) }) {
						t.Fatalf("%s against a restriction of %s, %s", it.ID, r.Region, r.Side)
					}
				}
				if it.Slot != "relative" {
					checkItem(t, today, d.Card, it)
				}
			}
		}
		today.Athlete.Restrictions = append(today.Athlete.Restrictions, season.Restriction{}) // omissions are allowed
		checkComplete(t, today, d.Card)
		if result.State() != season.AsWritten && len(d.Why) == 0 {
			t.Fatal("a change without a reason")
		}
		if w := d.Card.Wall(); result.State() != season.AsWritten && (!w.Modified || len(w.Lines) > 0) {
			t.Fatalf("the wall tells more than modified: %+v", w)
		}
	})
}
