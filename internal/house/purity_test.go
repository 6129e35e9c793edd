package house

import (
	"go/ast"
	"path"
	"strconv"
	"strings"
	"testing"
)

// Library code takes time, randomness, input and output as arguments. It may
// not reach for them.
var (
	bannedImports = map[string]string{
		"math/rand": "plans repeat", "math/rand/v2": "plans repeat", "crypto/rand": "plans repeat",
		"os": "no environment, files or exit", "os/exec": "no programs", "os/signal": "no signals", "syscall": "no system calls",
		"log": "no printing", "log/slog": "no printing", "flag": "no flags", "embed": "data are Go values",
		"net": "no network", "net/http": "no network", "time/tzdata": "programs choose their zone data", "unsafe": "not needed",
	}
	bannedNames = map[string]string{
		"time.Now": "no clock", "time.Since": "no clock", "time.Until": "no clock", "time.Local": "no zone of the machine",
		"time.After": "no clock", "time.AfterFunc": "no clock", "time.Sleep": "no clock", "time.Tick": "no clock",
		"time.NewTimer": "no clock", "time.NewTicker": "no clock",
		"fmt.Print": "no printing", "fmt.Printf": "no printing", "fmt.Println": "no printing",
		"fmt.Scan": "no reading", "fmt.Scanf": "no reading", "fmt.Scanln": "no reading",
		"time.Date": "package calendar resolves wall times",
	}
	// Where a name that is banned elsewhere is right.
	allowed = map[string]map[string]string{
		"time.Date": {"calendar": "it is the resolver", "load": "dates of a log, counted in UTC"},
	}
)

func TestLibraryCodeIsPure(t *testing.T) {
	files := 0
	for _, p := range packages(t) {
		if !p.library() {
			continue
		}
		set, parsed := parse(t, p.Dir, p.GoFiles)
		for _, f := range parsed {
			files++
			names := map[string]string{} // what a file calls a package
			for _, i := range f.Imports {
				imported, err := strconv.Unquote(i.Path.Value)
				if err != nil {
					t.Fatal(err)
				}
				if why := bannedImports[imported]; why != "" {
					t.Errorf("%s: imports %s: %s", at(t, set, i.Pos()), imported, why)
				}
				name := path.Base(imported)
				if i.Name != nil {
					name = i.Name.Name
				}
				if name == "." {
					t.Errorf("%s: imports all names of %s", at(t, set, i.Pos()), imported)
				}
				names[name] = imported
			}
			ast.Inspect(f, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.SelectorExpr:
					x, ok := n.X.(*ast.Ident)
					if !ok {
						return true
					}
					full := names[x.Name] + "." + n.Sel.Name
					if why := bannedNames[full]; why != "" && allowed[full][p.short()] == "" {
						t.Errorf("%s: %s: %s", at(t, set, n.Pos()), full, why)
					}
				case *ast.CallExpr:
					if id, ok := n.Fun.(*ast.Ident); ok && (id.Name == "panic" || id.Name == "print" || id.Name == "println") {
						t.Errorf("%s: calls %s", at(t, set, n.Pos()), id.Name)
					}
				case *ast.FuncDecl:
					if n.Recv == nil && n.Name.Name == "init" {
						t.Errorf("%s: init runs before anybody asked", at(t, set, n.Pos()))
					}
				case *ast.GenDecl:
					for _, s := range n.Specs {
						v, ok := s.(*ast.ValueSpec)
						if !ok || n.Tok.String() != "var" {
							continue
						}
						for _, name := range v.Names {
							if name.IsExported() && !strings.HasPrefix(name.Name, "Err") && mutable(v) {
								t.Errorf("%s: %s is exported and can be changed by anybody", at(t, set, name.Pos()), name.Name)
							}
						}
					}
				}
				return true
			})
		}
	}
	if files < 50 {
		t.Errorf("looked at %d files only", files)
	}
}

// mutable reports whether a variable holds a map, slice or array: a table whose
// entries anybody could overwrite.
func mutable(v *ast.ValueSpec) bool {
	types := []ast.Expr{v.Type}
	for _, x := range v.Values {
		if lit, ok := x.(*ast.CompositeLit); ok {
			types = append(types, lit.Type)
		}
	}
	for _, x := range types {
		switch x.(type) {
		case *ast.ArrayType, *ast.MapType:
			return true
		}
	}
	return false
}
