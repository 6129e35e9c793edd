// Package situations reads the files in which tests keep worked situations: text
// archives with a comment that says why, the input, what must hold of any good
// answer, and as their last section the answer itself. It is not for programs:
// only tests import it.
package situations

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Archive is one file.
type Archive struct {
	Comment  string
	Sections map[string]string
	file     string
	text     string
}

// Unpack splits a text archive: a comment, then sections that start with a line
// of "-- name --".
func Unpack(text string) Archive {
	a := Archive{Sections: map[string]string{}, text: text}
	name, in := "", false
	for _, line := range strings.SplitAfter(text, "\n") {
		if s := strings.TrimSpace(line); strings.HasPrefix(s, "-- ") && strings.HasSuffix(s, " --") {
			name, in = strings.TrimSpace(s[3:len(s)-3]), true
			a.Sections[name] += ""
			continue
		}
		if in {
			a.Sections[name] += line
		} else {
			a.Comment += line
		}
	}
	return a
}

// Each runs a test on each archive of a folder of testdata, and fails if there
// are fewer than so many, or if one does not say why it is there.
func Each(t *testing.T, folder string, least int, run func(*testing.T, Archive)) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("testdata", folder, "*.txtar"))
	if err != nil || len(files) < least {
		t.Fatalf("%d files in %s: %v", len(files), folder, err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			a := Unpack(string(text))
			a.file = file
			if strings.TrimSpace(a.Comment) == "" {
				t.Fatal("no comment")
			}
			run(t, a)
		})
	}
}

// Lines are the lines of a section, without empty ones and those that start
// with #.
func (a Archive) Lines(section string) (out []string) {
	for _, line := range strings.Split(a.Sections[section], "\n") {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			out = append(out, line)
		}
	}
	return out
}

// Write writes the file anew, with other text in its last section.
func (a Archive) Write(t *testing.T, last, text string) {
	t.Helper()
	head, _, ok := strings.Cut(a.text, "-- "+last+" --\n")
	if !ok {
		t.Fatalf("there is no section %s", last)
	}
	if text = head + "-- " + last + " --\n" + text; text == a.text {
		return
	}
	if err := os.WriteFile(a.file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}
