package house

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/weft/internal/judge"
	"example.org/weft/periodize/rule"
)

func document(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(rootDir(t), filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// TestEveryRuleIsDefined: each row of the table and each rule that the judge
// knows stands in the definitions, and the table of limits and aims there has no
// rule that is none.
func TestEveryRuleIsDefined(t *testing.T) {
	text := document(t, "periodize/rule/definitions.md")
	rows := map[string]bool{}
	for _, r := range rule.Table() {
		rows[r.ID] = true
		if !strings.Contains(text, "`"+r.ID+"`") && r.ID != "game-minutes" {
			t.Errorf("definitions.md does not define %s: %s", r.ID, r.Doc)
		}
	}
	defined := map[string]bool{}
	for _, m := range regexp.MustCompile("(?m)^\\| `([a-z0-9-]+)` \\|").FindAllStringSubmatch(text, -1) {
		defined[m[1]] = true
	}
	for _, id := range append(judge.Limits(), judge.Aims()...) {
		if !defined[id] {
			t.Errorf("definitions.md has no line for %s, which is judged", id)
		}
		delete(defined, id)
	}
	for id := range defined {
		t.Errorf("definitions.md defines %s, which nobody judges", id)
	}
	if !strings.Contains(text, "version "+rule.Version+"\n") {
		t.Errorf("definitions.md is not of version %s", rule.Version)
	}
}

// TestDefinedPoints: the numbers of the definitions are those of the table.
func TestDefinedPoints(t *testing.T) {
	text := document(t, "periodize/rule/definitions.md")
	n := 0
	for _, m := range regexp.MustCompile("(?m)^\\| `([a-z0-9-]+)` \\| ([0-9]+) \\|").FindAllStringSubmatch(text, -1) {
		n++
		r, ok := rule.Find(m[1])
		if !ok || r.Kind != rule.Aim {
			t.Errorf("%s is no aim", m[1])
			continue
		}
		if got := strconv.Itoa(r.Points); got != m[2] {
			t.Errorf("%s costs %s points, definitions.md says %s", m[1], got, m[2])
		}
	}
	if n < 10 {
		t.Errorf("found %d aims", n)
	}
}

func TestDevelopersKnowTheHouse(t *testing.T) {
	text := document(t, "DEVELOPERS.md")
	for _, p := range packages(t) {
		if !strings.Contains(text, "\n| `"+p.short()+"` |") {
			t.Errorf("DEVELOPERS.md has no line for %s", p.short())
		}
	}
	direct := regexp.MustCompile(`(?m)^(?:require )?\s*([a-z0-9.]+\.[a-z]+/\S+) (v\S+)$`)
	n := 0
	for _, name := range files(t) {
		if filepath.Base(name) != "go.mod" {
			continue
		}
		for _, m := range direct.FindAllStringSubmatch(document(t, name), -1) {
			if m[1] == module {
				continue
			}
			n++
			if !strings.Contains(text, "| "+m[1]+" | "+m[2]+" |") {
				t.Errorf("DEVELOPERS.md does not name %s %s of %s", m[1], m[2], name)
			}
		}
	}
	if n < 4 {
		t.Errorf("found %d dependencies", n)
	}
	if gate := document(t, ".ci/run"); !regexp.MustCompile(`(?m)^staticcheck_version=v[0-9.]+`).MatchString(gate) {
		t.Error(".ci/run names no version of staticcheck")
	} else if v := regexp.MustCompile(`staticcheck_version=(v[0-9.]+)`).FindStringSubmatch(gate)[1]; !strings.Contains(text, "| honnef.co/go/tools | "+v+" |") {
		t.Errorf("DEVELOPERS.md does not name staticcheck %s", v)
	}
}

// TestDocumentsPointToFiles: links and the names of Go packages in the documents
// lead somewhere.
func TestDocumentsPointToFiles(t *testing.T) {
	links := regexp.MustCompile(`\]\(([^)#]+)\)`)
	n := 0
	for _, name := range files(t) {
		if !strings.HasSuffix(name, ".md") {
			continue
		}
		b, err := os.ReadFile(filepath.Join(rootDir(t), filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range links.FindAllStringSubmatch(string(b), -1) {
			if strings.Contains(m[1], "://") {
				continue
			}
			n++
			if _, err := os.Stat(filepath.Join(rootDir(t), filepath.Dir(filepath.FromSlash(name)), filepath.FromSlash(m[1]))); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	if n < 3 {
		t.Errorf("found %d links", n)
	}
}
