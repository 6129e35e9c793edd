package house

import (
	"slices"
	"strings"
	"testing"
)

// edges is the order of the house: what each package may import of this module.
// Imports only go up this list.
var edges = []struct {
	pkg     string
	imports []string
}{
	{"internal/jsonread", nil},
	{"internal/blanks", nil},
	{"internal/judge", nil},
	{"internal/layered", nil},
	{"internal/columns", nil},
	{"calendar", nil},
	{"calendar/fixture", []string{"calendar"}},
	{"calendar/icalendar", []string{"calendar"}},
	{"load", nil},
	{"internal/intake", []string{"calendar", "load", "internal/jsonread"}},
	{"periodize/season", []string{"calendar", "load", "internal/blanks", "internal/jsonread", "internal/intake"}},
	{"internal/codebook", []string{"internal/blanks", "periodize/season"}},
	{"periodize/rule", []string{"calendar", "periodize/season"}},
	{"periodize/rule/ruletest", []string{"calendar", "periodize/season", "periodize/rule"}},
	{"periodize/exercise", []string{"calendar", "load", "internal/jsonread", "internal/intake", "internal/codebook", "periodize/season"}},
	{"periodize/logbook", []string{"internal/jsonread", "internal/intake", "internal/codebook", "calendar", "load", "periodize/season", "periodize/rule", "periodize/exercise"}},
	{"internal/starts", []string{"calendar", "periodize/season", "periodize/rule"}},
	{"internal/history", []string{"internal/layered", "calendar", "periodize/season", "internal/starts"}},
	{"periodize", []string{"internal/judge", "internal/layered", "calendar", "periodize/season", "periodize/rule", "periodize/exercise", "internal/starts", "internal/history"}},
	{"periodize/squad", []string{"internal/intake", "internal/jsonread", "internal/codebook", "internal/layered", "internal/columns", "calendar", "periodize/season", "periodize/rule", "internal/starts", "internal/history", "periodize"}},
	{"periodize/whatif", []string{"calendar", "load", "periodize/season", "periodize/rule", "periodize/logbook", "periodize"}},
	{"internal/say", []string{"calendar", "periodize/season"}},
	{"periodize/handout", []string{"internal/say", "calendar", "load", "periodize/season", "periodize/rule", "periodize/exercise"}},
	{"internal/situations", []string{"calendar", "periodize/season"}},
	{"internal/seasontest", []string{"calendar", "periodize/season", "periodize/rule"}},
	{"internal/demo", []string{"calendar", "load", "periodize/season", "periodize/exercise", "periodize/logbook"}},
	{"internal/house", nil},
	{"examples/season", []string{"internal/say", "calendar", "calendar/fixture", "calendar/icalendar", "load", "periodize", "periodize/season", "periodize/rule", "periodize/exercise", "periodize/logbook", "internal/demo", "periodize/handout"}},
	{"examples/squad", []string{"internal/demo", "internal/say", "calendar", "periodize/handout", "periodize/season", "periodize/squad"}},
	{"examples/whatif", []string{"internal/say", "calendar", "calendar/fixture", "calendar/icalendar", "periodize", "periodize/season", "periodize/rule", "periodize/logbook", "periodize/whatif"}},
}

// outside are the modules that library code may import.
var outside = map[string][]string{
	"calendar": {"github.com/rickb777/date/v2"},
}

// forTests are the modules that tests may import besides.
var forTests = []string{
	"github.com/google/go-cmp/", "github.com/rickb777/date/v2", "github.com/teambition/rrule-go", "pgregory.net/rapid",
}

func ours(path string) (string, bool) { return strings.CutPrefix(path, module+"/") }

// standard reports whether an import path is of the standard library: its first
// element has no dot.
func standard(path string) bool {
	first, _, _ := strings.Cut(path, "/")
	return !strings.Contains(first, ".")
}

func TestImportsGoUp(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range edges {
		for _, i := range e.imports {
			if !seen[i] {
				t.Errorf("the table lets %s import %s, which is not above it", e.pkg, i)
			}
		}
		seen[e.pkg] = true
	}
	found := map[string]bool{}
	for _, p := range packages(t) {
		name := p.short()
		found[name] = true
		at := slices.IndexFunc(edges, func(e struct {
			pkg     string
			imports []string
		}) bool {
			return e.pkg == name
		})
		if at < 0 {
			t.Errorf("%s has no place in the table of imports", name)
			continue
		}
		for _, i := range p.Imports {
			if o, ok := ours(i); ok {
				if !slices.Contains(edges[at].imports, o) {
					t.Errorf("%s imports %s", name, o)
				}
				if slices.Contains(support, o) {
					t.Errorf("%s imports %s, which is for tests", name, o)
				}
			}
		}
		for _, i := range slices.Concat(p.TestImports, p.XTestImports) {
			if o, ok := ours(i); ok && strings.HasPrefix(o, "examples/") {
				t.Errorf("tests of %s import %s", name, o)
			}
		}
	}
	for _, e := range edges {
		if !found[e.pkg] {
			t.Errorf("the table names %s, which does not exist", e.pkg)
		}
	}
}

func TestModulesImported(t *testing.T) {
	for _, p := range packages(t) {
		name := p.short()
		for _, i := range p.Imports {
			if _, ok := ours(i); ok || standard(i) || !p.library() {
				continue
			}
			if !slices.Contains(outside[name], i) {
				t.Errorf("%s imports %s", name, i)
			}
		}
		for _, i := range slices.Concat(p.TestImports, p.XTestImports) {
			if _, ok := ours(i); ok || standard(i) {
				continue
			}
			if !slices.ContainsFunc(forTests, func(m string) bool { return strings.HasPrefix(i, m) }) {
				t.Errorf("tests of %s import %s", name, i)
			}
		}
	}
}

// TestNothingReachesTheNetwork looks at everything that comes along with a
// package, at any depth.
func TestNothingReachesTheNetwork(t *testing.T) {
	for _, p := range packages(t) {
		if !p.library() {
			continue
		}
		for _, d := range p.Deps {
			if d == "net" || strings.HasPrefix(d, "net/") || d == "os/exec" || d == "plugin" || d == "time/tzdata" || d == "testing" {
				t.Errorf("%s depends on %s", p.short(), d)
			}
		}
	}
}
