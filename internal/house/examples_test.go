package house

import (
	"go/ast"
	"go/doc"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// unshown are exported functions and methods that no example needs to show, each
// with the reason.
var unshown = map[string]string{
	"calendar.Kinds":           "a list of words",
	"calendar.Statuses":        "a list of words",
	"calendar.Importances":     "a list of words",
	"calendar.ZoneNames":       "a list of words",
	"calendar.DefaultBuffers":  "a table of numbers, in its comment",
	"calendar.ComparePlaced":   "an order, for slices.SortFunc",
	"periodize/season.Athlete": "its one method asks for one field",
}

// TestExamples: every exported function of a public package, every method of
// package periodize, and every exported type that can do something, is used in
// an example whose output is checked.
func TestExamples(t *testing.T) {
	used := map[string]bool{}
	missing := func(p pkg, name, what string) {
		full := p.short() + "." + name
		used[full] = true
		if unshown[full] == "" {
			t.Errorf("no example shows %s %s", what, full)
		}
	}
	count := 0
	for _, p := range packages(t) {
		if !p.public() || !p.library() {
			continue
		}
		shown, names := examplesOf(t, p)
		count += len(shown)
		_, parsed := parse(t, p.Dir, p.GoFiles)
		methods := map[string][]string{}
		for _, f := range parsed {
			for _, d := range f.Decls {
				fn, ok := d.(*ast.FuncDecl)
				if !ok || !exported(fn) {
					continue
				}
				name, of := fn.Name.Name, receiver(fn)
				switch {
				case of == "":
					if !shown[p.Name+"."+name] {
						missing(p, name, "func")
					}
				case slices.Contains(contracts, name):
				case p.short() == "periodize":
					if !names[name] {
						missing(p, of+"."+name, "method")
					}
				default:
					methods[of] = append(methods[of], name)
				}
			}
		}
		for of, list := range methods {
			if !slices.ContainsFunc(list, func(m string) bool { return names[m] }) {
				missing(p, of, "method of")
			}
		}
	}
	if count < 50 {
		t.Errorf("found only %d names in examples", count)
	}
	for name, why := range unshown {
		if !used[name] {
			t.Errorf("%s needs no exception (%s): it does not exist or is shown", name, why)
		}
	}
}

// examplesOf returns what the examples of a package use: names of packages with
// what is taken from them, and all names after a dot. An example without output
// is only compiled, so it counts for nothing, and is reported.
func examplesOf(t *testing.T, p pkg) (qualified, names map[string]bool) {
	t.Helper()
	qualified, names = map[string]bool{}, map[string]bool{}
	set, parsed := parse(t, p.Dir, slices.Concat(p.TestGoFiles, p.XTestGoFiles))
	for i, ex := range doc.Examples(parsed...) {
		if ex.Output == "" && !ex.EmptyOutput {
			t.Errorf("%s: Example%s has no output (number %d)", p.short(), ex.Name, i)
			continue
		}
		ast.Inspect(ex.Code, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok {
				names[s.Sel.Name] = true
				if x, ok := s.X.(*ast.Ident); ok {
					qualified[x.Name+"."+s.Sel.Name] = true
				}
			}
			return true
		})
	}
	for _, f := range parsed { // examples of a package are written as by its users
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && strings.HasPrefix(fn.Name.Name, "Example") && f.Name.Name != p.Name+"_test" {
				t.Errorf("%s: %s is inside package %s, write it in package %s", at(t, set, fn.Pos()), fn.Name.Name, f.Name.Name, strconv.Quote(p.Name+"_test"))
			}
		}
	}
	return qualified, names
}
