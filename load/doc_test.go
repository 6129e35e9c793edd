package load_test

import (
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// Every exported function has an example with its output, every exported method
// is called in one, and what can be undefined names the source of its equation.
func TestEveryFunctionHasAnExample(t *testing.T) {
	fset := token.NewFileSet()
	names, err := filepath.Glob("*.go")
	if err != nil || len(names) == 0 {
		t.Skip("skipped: no source files here")
	}
	var library, tests []*ast.File
	for _, name := range names {
		f, err := parser.ParseFile(fset, name, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(name, "_test.go") {
			tests = append(tests, f)
		} else {
			library = append(library, f)
		}
	}
	pkg, err := doc.NewFromFiles(fset, library, "example.org/weft/load")
	if err != nil {
		t.Fatal(err)
	}
	named, called := map[string]bool{}, map[string]bool{}
	for _, f := range tests {
		for _, e := range doc.Examples(f) {
			if e.Output == "" {
				t.Errorf("Example%s has no output", e.Name)
			}
			named[e.Name] = true
			ast.Inspect(e.Code, func(n ast.Node) bool {
				if s, ok := n.(*ast.SelectorExpr); ok {
					called[s.Sel.Name] = true
				}
				return true
			})
		}
	}
	// Arithmetic, reading and searching, which no publication has to support.
	plain := map[string]bool{
		"MinutesOf": true, "FixedAtMost": true, "Percent.Of": true, "Day.Plus": true, "Rack.AtMost": true, "Rack.Above": true,
		"Baseline.Mean": true, "Baseline.SD": true,
	}
	sourced := func(name, comment string) {
		named := strings.Contains(comment, "Source:") || strings.Contains(comment, "et al.")
		if strings.Contains(comment, "Undefined") && !named && !plain[name] {
			t.Errorf("%s names no source", name)
		}
	}
	for _, f := range pkg.Funcs {
		if !named[f.Name] {
			t.Errorf("%s has no example", f.Name)
		}
		if f.Doc == "" {
			t.Errorf("%s has no comment", f.Name)
		}
		sourced(f.Name, f.Doc)
	}
	for _, typ := range pkg.Types {
		if typ.Doc == "" {
			t.Errorf("%s has no comment", typ.Name)
		}
		for _, f := range typ.Funcs {
			if !named[f.Name] && !called[f.Name] {
				t.Errorf("%s has no example", f.Name)
			}
			sourced(f.Name, f.Doc)
		}
		for _, m := range typ.Methods {
			if !called[m.Name] {
				t.Errorf("no example calls %s.%s", typ.Name, m.Name)
			}
			if m.Doc == "" {
				t.Errorf("%s.%s has no comment", typ.Name, m.Name)
			}
			sourced(typ.Name+"."+m.Name, m.Doc)
		}
	}
}
