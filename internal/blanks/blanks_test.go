package blanks_test

import (
	"strings"
	"testing"

	"example.org/weft/internal/blanks"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestNamesAndFill(t *testing.T) {
	values := map[string]string{"hours": "26 h", "kind": "{hours}", "none": ""}
	for _, c := range []struct {
		text  string
		names []string
		want  string
	}{
		{"", nil, ""},
		{"no blank }", nil, "no blank }"},
		{"ends {hours} before", []string{"hours"}, "ends 26 h before"},
		{"{kind}, {hours}{none}.", []string{"kind", "hours", "none"}, "{hours}, 26 h."},
		{"{unknown} and {hours}", []string{"unknown", "hours"}, "{unknown} and 26 h"},
		{"{hours", []string{"hours"}, "{hours"},
	} {
		if d := cmp.Diff(c.names, blanks.Names(c.text)); d != "" {
			t.Errorf("%q: %s", c.text, d)
		}
		if got := blanks.Fill(c.text, func(name string) (string, bool) { v, ok := values[name]; return v, ok }); got != c.want {
			t.Errorf("%q: %q, not %q", c.text, got, c.want)
		}
	}
}

// Where every blank has a value, filling is what the library's replacer does,
// which replaces in one pass too.
func TestFillReplaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := map[string]string{"a": rapid.StringMatching(`[{}ab]{0,4}`).Draw(t, "a"), "bb": rapid.StringMatching(`[{}ab]{0,4}`).Draw(t, "bb")}
		text := strings.Join(rapid.SliceOf(rapid.SampledFrom([]string{"{a}", "{bb}", "a", "}", " "})).Draw(t, "text"), "")
		want := strings.NewReplacer("{a}", values["a"], "{bb}", values["bb"]).Replace(text)
		if got := blanks.Fill(text, func(name string) (string, bool) { v, ok := values[name]; return v, ok }); got != want {
			t.Fatalf("%q: %q, not %q", text, got, want)
		}
	})
}
