package house

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const (
	longestFile  = 700 // lines of a Go file that is no test
	largestBytes = 1 << 20
)

func TestFilesAreShort(t *testing.T) {
	for _, name := range files(t) {
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			continue
		}
		b, err := os.ReadFile(filepath.Join(rootDir(t), filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		lines := bytes.Count(b, []byte("\n"))
		switch {
		case lines > longestFile:
			t.Errorf("%s has %d lines, more than %d: split it by concern", name, lines, longestFile)
		case lines > 500:
			t.Logf("%s has %d lines", name, lines)
		}
	}
}

func TestFilesAreSmall(t *testing.T) {
	for _, name := range files(t) {
		info, err := os.Stat(filepath.Join(rootDir(t), filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		if info.Size() > largestBytes {
			t.Errorf("%s has %d bytes, more than %d", name, info.Size(), largestBytes)
		}
	}
}

func TestLicence(t *testing.T) {
	b, err := os.ReadFile(filepath.Join(rootDir(t), "LICENSE"))
	if err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"BSD 3-Clause License", "Copyright (c)", "Neither the name of"} {
		if !bytes.Contains(b, []byte(words)) {
			t.Errorf("LICENSE does not say %q", words)
		}
	}
}

// TestNestedModules: each module of its own inside the repository names itself
// by its place and points back to the root.
func TestNestedModules(t *testing.T) {
	for _, name := range files(t) {
		dir, ok := strings.CutSuffix(name, "/go.mod")
		if !ok {
			continue
		}
		b, err := os.ReadFile(filepath.Join(rootDir(t), filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		text := string(b)
		if !strings.HasPrefix(text, "module "+module+"/"+dir+"\n") {
			t.Errorf("%s does not begin with its own path", name)
		}
		back := "replace " + module + " => " + strings.TrimSuffix(strings.Repeat("../", strings.Count(dir, "/")+1), "/")
		if strings.Contains(text, module+" v") && !strings.Contains(text, back+"\n") {
			t.Errorf("%s needs %q", name, back)
		}
	}
}
