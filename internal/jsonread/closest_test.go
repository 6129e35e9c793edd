package jsonread_test

import (
	"strings"
	"testing"

	"example.org/weft/internal/jsonread"
	"pgregory.net/rapid"
)

func TestClosest(t *testing.T) {
	zones := []string{"Europe/Berlin", "Europe/Dublin", "Europe/London", "America/New_York"}
	long := strings.Repeat("n", 64)
	for _, c := range []struct {
		word       string
		candidates []string
		want       string
	}{
		{"Europ/Dublin", zones, "Europe/Dublin"},
		{"europe/london", zones, "Europe/London"},
		{"America/New York", zones, "America/New_York"},
		{"Asia/Tokyo", zones, ""},
		{"evnets", []string{"evnts", "events"}, "evnts"}, // both at 1: the first
		{"Events", []string{"event", "events", "Events"}, "Events"},
		{"strat", []string{"state", "start"}, "start"},
		{"stat", []string{"strats", "start"}, "start"},
		{"id", []string{"if", "ID"}, "ID"},
		{"ie", []string{"id"}, ""},
		{"to", []string{"from", "to_"}, "to_"},
		{"", []string{"a", ""}, ""},
		{"--", []string{"_"}, ""},
		{long, []string{long[1:]}, long[1:]},
		{long + "n", []string{long}, ""},
		{strings.Repeat("n", 1000), []string{long}, ""},
		{long, []string{long + "n", strings.Repeat("n", 1000)}, ""},
		{"pr\xffimer", []string{"primer"}, "primer"},
	} {
		got, ok := jsonread.Closest(c.word, c.candidates)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("Closest(%q, %q) = %q, %v, want %q", c.word, c.candidates, got, ok, c.want)
		}
	}
}

// plainDistance is the definition, without bounds or rows.
func plainDistance(a, b string) int {
	switch {
	case a == "":
		return len(b)
	case b == "":
		return len(a)
	case a[0] == b[0]:
		return plainDistance(a[1:], b[1:])
	}
	d := 1 + min(plainDistance(a[1:], b), plainDistance(a, b[1:]), plainDistance(a[1:], b[1:]))
	if len(a) > 1 && len(b) > 1 && a[0] == b[1] && a[1] == b[0] {
		d = min(d, 1+plainDistance(a[2:], b[2:]))
	}
	return d
}

func TestClosestIsTheDefinition(t *testing.T) {
	word := rapid.StringMatching(`[abc]{1,7}`)
	rapid.Check(t, func(t *rapid.T) {
		w := word.Draw(t, "word")
		candidates := rapid.SliceOfN(word, 1, 4).Draw(t, "candidates")
		want, best := "", 100
		for _, c := range candidates {
			most := 0
			switch n := min(len(w), len(c)); {
			case n >= 6:
				most = 2
			case n >= 3:
				most = 1
			}
			if d := plainDistance(w, c); d <= most && d < best {
				want, best = c, d
			}
		}
		if got, ok := jsonread.Closest(w, candidates); got != want || ok != (best < 100) {
			t.Fatalf("got %q, %v, want %q at %d", got, ok, want, best)
		}
	})
}
