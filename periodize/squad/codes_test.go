package squad

import (
	"context"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// TestCodesAreListed: every constant named for a code is in a list.
func TestCodesAreListed(t *testing.T) {
	problems := map[string]bool{}
	for _, c := range ProblemCodes() {
		problems[c] = true
	}
	notes := map[string]bool{}
	for _, c := range Codes() {
		notes[c.Code] = true
	}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, file := range files {
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(x ast.Node) bool {
			spec, ok := x.(*ast.ValueSpec)
			if !ok || len(spec.Values) != 1 {
				return true
			}
			lit, ok := spec.Values[0].(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			code, err := strconv.Unquote(lit.Value)
			if err != nil {
				t.Fatal(err)
			}
			name := spec.Names[0].Name
			if strings.HasPrefix(name, "Code") {
				if n++; !problems[code] {
					t.Errorf("%s is not among the problem codes", name)
				}
			}
			if strings.HasPrefix(name, "Finding") {
				if n++; !notes[code] {
					t.Errorf("%s is not among the note codes", name)
				}
			}
			return true
		})
	}
	if n < 10 {
		t.Errorf("only %d constants were found", n)
	}
}

// TestWhatAPlanSaysIsListed: each finding has a listed code and just its parameters,
// and its text is the listed one, filled in.
func TestWhatAPlanSaysIsListed(t *testing.T) {
	byCode := map[string]season.NoteCode{}
	for _, c := range Codes() {
		byCode[c.Code] = c
	}
	said := map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		r := draw(t)
		if rapid.IntRange(0, 3).Draw(t, "crowd") == 0 {
			at := clock(16, 30)
			for i := range r.Athletes {
				r.Athletes[i].Season.Pins = []season.Pin{{Date: r.Period.From.AddDays(3), Kind: season.Recovery, Start: &at, Place: r.Halls[0].Place.ID}}
			}
		}
		p, err := (&Planner{}).Plan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range p.Findings {
			c, ok := byCode[f.Code]
			if !ok || c.Class != f.Class || len(f.Subject.Dates) != 1 {
				t.Fatalf("%+v is not as listed: %+v", f, c)
			}
			said[f.Code] = true
			text := c.Text
			for name, v := range f.Values {
				if !slices.Contains(c.Params, name) {
					t.Fatalf("%s is no parameter of %s", name, f.Code)
				}
				text = strings.ReplaceAll(text, "{"+name+"}", v.String())
			}
			if text != f.Text || len(f.Values) != len(c.Params) {
				t.Fatalf("%q, listed as %q", f.Text, text)
			}
		}
		for _, x := range p.Assumed {
			if !slices.Contains(ProblemCodes(), x.Code) || x.Class == calendar.ClassError {
				t.Fatalf("%+v", x)
			}
		}
	})
	if len(said) != len(byCode) {
		t.Errorf("only %v was said", said)
	}
}
