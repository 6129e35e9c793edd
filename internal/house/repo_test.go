package house

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

var update = flag.Bool("update", false, "write testdata/api.txt anew")

const module = "example.org/weft"

// pkg is a package of the root module, as the go command sees it.
type pkg struct {
	ImportPath   string
	Dir          string
	Name         string
	GoFiles      []string
	TestGoFiles  []string
	XTestGoFiles []string
	Imports      []string
	TestImports  []string
	XTestImports []string
	Deps         []string
	Standard     bool
}

// short is the path of a package below the root of the module, "." for the root.
func (p pkg) short() string {
	if p.ImportPath == module {
		return "."
	}
	return strings.TrimPrefix(p.ImportPath, module+"/")
}

// public reports whether programs outside the module can import the package.
func (p pkg) public() bool {
	return p.Name != "main" && !slices.Contains(strings.Split(p.short(), "/"), "internal")
}

// library reports whether the package is part of what an embedding program
// links: not a program, not support for tests.
func (p pkg) library() bool {
	return p.Name != "main" && !slices.Contains(support, p.short()) && len(p.GoFiles) > 0
}

// support are packages that only tests import.
var support = []string{"internal/house", "internal/seasontest", "internal/situations"}

var root = sync.OnceValues(func() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if b, err := os.ReadFile(filepath.Join(dir, "go.mod")); err == nil && bytes.HasPrefix(b, []byte("module "+module+"\n")) {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", errors.New("no go.mod of " + module + " above the test")
		}
		dir = up
	}
})

func rootDir(t *testing.T) string {
	t.Helper()
	dir, err := root()
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

// run runs a command in the root of the module and returns what it prints on
// standard output.
func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	cmd := exec.Command(name, args...)
	cmd.Dir = rootDir(t)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, stderr.String())
	}
	return string(out)
}

var listed struct {
	sync.Once
	pkgs []pkg
}

// packages returns the packages of the root module, sorted by path.
func packages(t *testing.T) []pkg {
	t.Helper()
	listed.Do(func() {
		fields := "-json=ImportPath,Dir,Name,GoFiles,TestGoFiles,XTestGoFiles,Imports,TestImports,XTestImports,Deps,Standard"
		dec := json.NewDecoder(strings.NewReader(run(t, "go", "list", fields, "./...")))
		for {
			var p pkg
			err := dec.Decode(&p)
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			listed.pkgs = append(listed.pkgs, p)
		}
	})
	if len(listed.pkgs) < 10 {
		t.Fatalf("go list names %d packages", len(listed.pkgs))
	}
	return listed.pkgs
}

// files returns the tracked files, or all files where there is no history, as
// paths with slashes below the root.
func files(t *testing.T) []string {
	t.Helper()
	dir := rootDir(t)
	cmd := exec.Command("git", "ls-files", "-z")
	cmd.Dir = dir
	if out, err := cmd.Output(); err == nil && len(out) > 0 {
		var names []string
		for _, name := range strings.Split(strings.TrimSuffix(string(out), "\x00"), "\x00") {
			if _, err := os.Stat(filepath.Join(dir, name)); err == nil {
				names = append(names, name)
			}
		}
		return names
	}
	var names []string
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == ".git" || d.Name() == "node_modules"):
			return filepath.SkipDir
		case d.IsDir():
			return nil
		}
		rel, err := filepath.Rel(dir, path)
		names = append(names, filepath.ToSlash(rel))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// parse reads Go files of a package.
func parse(t *testing.T, dir string, names []string) (*token.FileSet, []*ast.File) {
	t.Helper()
	set := token.NewFileSet()
	var out []*ast.File
	for _, name := range names {
		f, err := parser.ParseFile(set, filepath.Join(dir, name), nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, f)
	}
	return set, out
}

// at is a position as file:line below the root.
func at(t *testing.T, set *token.FileSet, pos token.Pos) string {
	p := set.Position(pos)
	if rel, err := filepath.Rel(rootDir(t), p.Filename); err == nil {
		p.Filename = filepath.ToSlash(rel)
	}
	p.Column = 0
	return p.String()
}
