package house

import (
	"bytes"
	"go/ast"
	"go/doc"
	"go/printer"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestAPI compares what the public packages export with testdata/api.txt. Other
// programs are built on it: change it knowingly, and write it anew with
//
//	go test ./internal/house -run TestAPI -update
func TestAPI(t *testing.T) {
	var b bytes.Buffer
	for _, p := range packages(t) {
		if p.public() && p.library() {
			writeAPI(t, &b, p)
		}
	}
	name := filepath.Join("testdata", "api.txt")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(b.String(), "\n")); diff != "" {
		t.Errorf("the exported names have changed (-written +now); if that is meant, run this test with -update:\n%s", diff)
	}
}

// writeAPI writes the exported declarations of a package, sorted, without
// comments.
func writeAPI(t *testing.T, b *bytes.Buffer, p pkg) {
	t.Helper()
	set, parsed := parse(t, p.Dir, p.GoFiles)
	d, err := doc.NewFromFiles(set, parsed, p.ImportPath)
	if err != nil {
		t.Fatal(err)
	}
	b.WriteString("package " + p.ImportPath + "\n")
	put := func(n any) {
		b.WriteByte('\n')
		if err := (&printer.Config{Mode: printer.UseSpaces | printer.TabIndent, Tabwidth: 8}).Fprint(b, token.NewFileSet(), n); err != nil {
			t.Fatal(err)
		}
		b.WriteByte('\n')
	}
	values := func(list []*doc.Value) {
		for _, v := range list {
			put(bare(v.Decl))
		}
	}
	funcs := func(list []*doc.Func) {
		for _, f := range list {
			f.Decl.Doc, f.Decl.Body = nil, nil
			put(f.Decl)
		}
	}
	values(d.Consts)
	values(d.Vars)
	funcs(d.Funcs)
	for _, ty := range d.Types {
		some := hidden(ty.Decl)
		put(bare(ty.Decl))
		if some {
			b.WriteString("// and what is not exported\n")
		}
		values(ty.Consts)
		values(ty.Vars)
		funcs(ty.Funcs)
		funcs(ty.Methods)
	}
	b.WriteByte('\n')
}

// hidden reports whether a declaration has lost fields or methods that are not
// exported.
func hidden(d *ast.GenDecl) bool {
	some := false
	ast.Inspect(d, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.StructType:
			some = some || n.Incomplete
		case *ast.InterfaceType:
			some = some || n.Incomplete
		}
		return true
	})
	return some
}

// bare takes the comments from a declaration, and the printer's remark about
// what is not exported, which it sets in odd places.
func bare(d *ast.GenDecl) *ast.GenDecl {
	ast.Inspect(d, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GenDecl:
			n.Doc = nil
		case *ast.TypeSpec:
			n.Doc, n.Comment = nil, nil
		case *ast.ValueSpec:
			n.Doc, n.Comment = nil, nil
		case *ast.Field:
			n.Doc, n.Comment = nil, nil
		case *ast.StructType:
			n.Incomplete = false
		case *ast.InterfaceType:
			n.Incomplete = false
		}
		return true
	})
	return d
}
