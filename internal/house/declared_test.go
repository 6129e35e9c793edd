package house

import (
	"go/ast"
	"go/token"
	"slices"
	"strings"
	"testing"
)

// contracts are methods whose meaning an interface of the standard library
// fixes.
var contracts = []string{
	"Error", "Unwrap", "String", "MarshalText", "UnmarshalText", "MarshalJSON", "UnmarshalJSON",
}

// receiver is the name of the type of a method, "" for a function.
func receiver(d *ast.FuncDecl) string {
	if d.Recv == nil {
		return ""
	}
	x := d.Recv.List[0].Type
	for {
		switch y := x.(type) {
		case *ast.StarExpr:
			x = y.X
		case *ast.IndexExpr:
			x = y.X
		case *ast.Ident:
			return y.Name
		default:
			return ""
		}
	}
}

// exported reports whether programs can call a function or a method.
func exported(d *ast.FuncDecl) bool {
	return d.Name.IsExported() && (d.Recv == nil || ast.IsExported(receiver(d)))
}

func TestExportedNamesAreDocumented(t *testing.T) {
	for _, p := range packages(t) {
		if !p.library() {
			continue
		}
		set, parsed := parse(t, p.Dir, p.GoFiles)
		documented := map[string]bool{} // types
		introduced := 0
		for _, f := range parsed {
			if f.Doc != nil {
				introduced++
				if want := "Package " + p.Name + " "; !strings.HasPrefix(f.Doc.Text(), want) {
					t.Errorf("%s: the comment of a package begins with %q", at(t, set, f.Package), want)
				}
			}
			for _, d := range f.Decls {
				g, ok := d.(*ast.GenDecl)
				if !ok || g.Tok != token.TYPE {
					continue
				}
				for _, s := range g.Specs {
					s := s.(*ast.TypeSpec)
					documented[s.Name.Name] = s.Doc != nil || g.Doc != nil && len(g.Specs) == 1
				}
			}
		}
		if introduced != 1 {
			t.Errorf("%s: %d files have a comment for the package", p.short(), introduced)
		}
		missing := func(pos token.Pos, what, name string) {
			t.Errorf("%s: %s %s has no comment", at(t, set, pos), what, name)
		}
		for _, f := range parsed {
			for _, d := range f.Decls {
				switch d := d.(type) {
				case *ast.FuncDecl:
					if exported(d) && d.Doc == nil && !(d.Recv != nil && slices.Contains(contracts, d.Name.Name)) {
						missing(d.Pos(), "func", d.Name.Name)
					}
				case *ast.GenDecl:
					typed := false // by a documented type, under which the group is shown
					for _, s := range d.Specs {
						switch s := s.(type) {
						case *ast.TypeSpec:
							if s.Name.IsExported() && !documented[s.Name.Name] {
								missing(s.Pos(), "type", s.Name.Name)
							}
						case *ast.ValueSpec:
							if id, ok := s.Type.(*ast.Ident); ok {
								typed = documented[id.Name]
							} else if s.Type != nil || len(s.Values) > 0 {
								typed = false
							}
							for _, n := range s.Names {
								if n.IsExported() && d.Doc == nil && s.Doc == nil && s.Comment == nil && !typed {
									missing(n.Pos(), d.Tok.String(), n.Name)
								}
							}
						}
					}
				}
			}
		}
	}
}
