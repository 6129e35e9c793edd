package house

import (
	"bytes"
	"errors"
	"fmt"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

func readme(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(rootDir(t), "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

var fenced = regexp.MustCompile("(?ms)^(?:<!-- ([a-z]+) -->\n)?```([a-z]+)\n(.*?)^```$")

// block is a fenced part of the README.
type block struct {
	mark, language, text string
}

func blocks(t *testing.T) []block {
	t.Helper()
	var out []block
	for _, m := range fenced.FindAllStringSubmatch(readme(t), -1) {
		out = append(out, block{m[1], m[2], m[3]})
	}
	return out
}

// keep compares the marked block with what it has to be; with -update it writes
// it anew.
func keep(t *testing.T, mark, language, want string) {
	t.Helper()
	if *update {
		text := readme(t)
		before, rest, ok := strings.Cut(text, "<!-- "+mark+" -->\n```"+language+"\n")
		_, after, ok2 := strings.Cut(rest, "```\n")
		if !ok || !ok2 {
			t.Fatalf("README.md has no block marked %s", mark)
		}
		text = before + "<!-- " + mark + " -->\n```" + language + "\n" + want + "```\n" + after
		if err := os.WriteFile(filepath.Join(rootDir(t), "README.md"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	for _, b := range blocks(t) {
		if b.mark == mark && b.language == language {
			if diff := cmp.Diff(strings.Split(want, "\n"), strings.Split(b.text, "\n")); diff != "" {
				t.Errorf("README.md, block %s; run this test with -update (-true +README):\n%s", mark, diff)
			}
			return
		}
	}
	t.Errorf("README.md has no block marked %s", mark)
}

// embedding returns the program that the README shows and what it prints. Both
// are the example in package periodize, which go test runs.
func embedding(t *testing.T) (program, output string) {
	t.Helper()
	name := filepath.Join(rootDir(t), "periodize", "example_embedding_test.go")
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, name, src, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	examples := doc.Examples(f)
	if len(examples) != 1 || examples[0].Output == "" {
		t.Fatalf("%s: want one example with output", name)
	}
	for _, d := range f.Decls {
		fn, ok := d.(*ast.FuncDecl)
		if !ok {
			continue
		}
		head, body := string(src[:set.Position(fn.Pos()).Offset]), string(src[set.Position(fn.Body.Pos()).Offset:])
		body, _, ok = strings.Cut(body, "\t// Output:\n")
		if !ok {
			t.Fatal("no output")
		}
		head = strings.Replace(head, "package "+f.Name.Name+"\n", "package main\n", 1)
		program = head + "func main() " + body + "}\n"
	}
	return program, examples[0].Output
}

func TestReadmeProgram(t *testing.T) {
	program, output := embedding(t)
	if n := strings.Count(program, "\n"); n > 60 {
		t.Errorf("%d lines are no short program", n)
	}
	keep(t, "program", "go", program)
	keep(t, "output", "text", output)
}

// TestReadmeModule makes a module outside the repository, as the README says,
// and runs its program there.
func TestReadmeModule(t *testing.T) {
	program, output := embedding(t)
	dir := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("main.go", program)
	write("go.mod", "module example.org/club\n\ngo 1.23.0\n")
	found := false
	for _, b := range blocks(t) {
		if b.language != "sh" || !strings.Contains(b.text, "go mod edit") {
			continue
		}
		found = true
		for _, line := range strings.Split(strings.TrimSpace(b.text), "\n") {
			args := strings.Fields(strings.ReplaceAll(line, "=../weft", "="+rootDir(t)))
			if line == "go mod tidy" { // needs the network for the tests of other modules
				sums, err := os.ReadFile(filepath.Join(rootDir(t), "go.sum"))
				if err != nil {
					t.Fatal(err)
				}
				write("go.sum", string(sums))
				continue
			}
			cmd := exec.Command(args[0], args[1:]...)
			cmd.Dir = dir
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Fatalf("%s: %v\n%s", line, err, out)
			}
		}
	}
	if !found {
		t.Fatal("README.md does not say how to depend on it")
	}
	cmd := exec.Command("go", "run", "-mod=mod", ".")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOWORK=off")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if diff := cmp.Diff(output, string(out)); diff != "" {
		t.Errorf("(-README +run):\n%s", diff)
	}
}

// built is the program of examples/season.
var built = sync.OnceValues(func() (string, error) {
	dir, err := root()
	if err != nil {
		return "", err
	}
	tmp, err := os.MkdirTemp("", "weft")
	if err != nil {
		return "", err
	}
	bin := filepath.Join(tmp, "season")
	cmd := exec.Command("go", "build", "-o", bin, "./examples/season")
	cmd.Dir = dir
	if out, err := cmd.CombinedOutput(); err != nil {
		return bin, fmt.Errorf("%w\n%s", err, out)
	}
	return bin, nil
})

func TestMain(m *testing.M) {
	code := m.Run()
	if bin, _ := built(); bin != "" {
		_ = os.RemoveAll(filepath.Dir(bin))
	}
	os.Exit(code)
}

// runSeason runs the program in the root of the module.
func runSeason(t *testing.T, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	bin, err := built()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(bin, args...)
	cmd.Dir = rootDir(t)
	var o, e bytes.Buffer
	cmd.Stdout, cmd.Stderr = &o, &e
	err = cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return o.String(), e.String(), cmd.ProcessState.ExitCode()
}

// TestReadmeDemo keeps the excerpt true: the head of the plan, and a week with
// two games.
func TestReadmeDemo(t *testing.T) {
	out, stderr, code := runSeason(t)
	if code != 0 {
		t.Fatalf("exit %d\n%s", code, stderr)
	}
	parts := strings.Split(out, "\n\n")
	at := slices.IndexFunc(parts, func(p string) bool {
		return strings.HasPrefix(p, "Week ") && strings.Contains(strings.SplitN(p, "\n", 2)[0], "2 games")
	})
	if at < 0 {
		t.Fatal("the demo has no week with two games")
	}
	keep(t, "demo", "text", parts[0]+"\n\n[...]\n\n"+parts[at]+"\n")
}

func TestReadmeCommands(t *testing.T) {
	_, help, _ := runSeason(t, "-h")
	flags := map[string]bool{"h": true}
	for _, m := range regexp.MustCompile(`(?m)^  -([a-z]+)`).FindAllStringSubmatch(help, -1) {
		flags[m[1]] = true
	}
	if len(flags) < 10 {
		t.Fatalf("found only these flags: %v", flags)
	}
	flag := regexp.MustCompile(`(?:^|[ \x60])-([a-z]+)\b`)
	demo, tests := false, false
	check := func(line string) {
		if !strings.Contains(line, "season") || strings.HasPrefix(line, "go build") || strings.HasPrefix(line, "go mod") {
			return
		}
		for _, m := range flag.FindAllStringSubmatch(line, -1) {
			if !flags[m[1]] {
				t.Errorf("README.md shows -%s, which the program does not have: %s", m[1], line)
			}
		}
	}
	for _, b := range blocks(t) {
		if b.language != "sh" {
			continue
		}
		for _, line := range strings.Split(strings.TrimSpace(b.text), "\n") {
			demo = demo || line == "go run ./examples/season"
			tests = tests || line == "go test ./..."
			check(line)
		}
	}
	for _, line := range strings.Split(readme(t), "\n") {
		if strings.HasPrefix(line, "`go run ./examples/season -h`") {
			check(line)
		}
	}
	if !demo || !tests {
		t.Error("README.md does not show the two commands")
	}
}

// TestReadmeTable runs what the README lists to be run.
func TestReadmeTable(t *testing.T) {
	if testing.Short() {
		t.Skip("runs programs")
	}
	listed := 0
	for _, m := range regexp.MustCompile("(?m)^\\| `go run ([^`]+)` \\|").FindAllStringSubmatch(readme(t), -1) {
		args := append([]string{"run"}, strings.Fields(m[1])...)
		out := ""
		if i := slices.Index(args, "-out"); i > 0 {
			out = filepath.Join(t.TempDir(), "out")
			args[i+1] = out
		}
		cmd := exec.Command("go", args...)
		cmd.Dir = rootDir(t)
		b, err := cmd.Output()
		if out != "" && err == nil {
			b, err = os.ReadFile(out)
		}
		if err != nil || len(b) < 500 {
			t.Errorf("go %s: %v, %d bytes", strings.Join(args, " "), err, len(b))
		}
		listed++
	}
	if listed < 5 {
		t.Errorf("README.md lists only %d commands", listed)
	}
}

// TestReadmeExits: the codes that the README states.
func TestReadmeExits(t *testing.T) {
	refused := filepath.Join(t.TempDir(), "refused.json")
	err := os.WriteFile(refused, []byte(`{"schema": 1, "period": {"from": "2026-11-02", "to": "2026-11-08"},
		"athlete": {"id": "a", "born": "2001-05", "zone": "Europe/Berlin", "trainingAgeYears": 3, "holds": [{"from": "2026-11-01"}]}}`), 0o644)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		code int
	}{
		{[]string{"-format", "json"}, 0},
		{[]string{"-request", filepath.Join(t.TempDir(), "none.json")}, 2},
		{[]string{"-format", "none"}, 2},
		{[]string{"-request", refused}, 3},
	} {
		stdout, stderr, code := runSeason(t, c.args...)
		if code != c.code {
			t.Errorf("%v: exit %d, want %d\n%s", c.args, code, c.code, stderr)
		}
		if written := stdout != ""; written != (c.code != 2) {
			t.Errorf("%v: exit %d with %d bytes of output", c.args, code, len(stdout))
		}
	}
}

// TestReadmeRequests: what the README shows as a request is one, without a field
// or rule that nobody reads.
func TestReadmeRequests(t *testing.T) {
	n := 0
	for _, b := range blocks(t) {
		if b.language != "json" {
			continue
		}
		n++
		req, problems, err := season.RequestReader{Strict: true}.Read(strings.NewReader(b.text))
		if err != nil {
			t.Errorf("%v\n%s", err, b.text)
			continue
		}
		for _, p := range problems {
			if p.Class == calendar.ClassWarning {
				t.Error(p)
			}
		}
		if _, problems := rule.New(req.Rules); len(problems) > 0 {
			t.Error(problems)
		}
	}
	if n < 2 {
		t.Errorf("%d requests", n)
	}
}

// TestReadmeWords: the README explains every word that a plan can carry.
func TestReadmeWords(t *testing.T) {
	words := []string{
		string(season.Planned), string(season.Refused), string(season.Proved), string(season.Bounded),
		string(season.AsWritten), string(season.Eased), string(season.Swapped), string(season.Held), string(season.DoneState),
		string(season.Why), string(season.Finding), string(season.Question), string(season.Warning), string(season.Refusal),
		string(season.Moved), string(season.Added), string(season.Dropped), string(season.Replaced), string(season.Unchanged),
	}
	for _, k := range season.Kinds() {
		words = append(words, string(k))
	}
	for _, k := range calendar.Kinds() {
		words = append(words, string(k))
	}
	for _, s := range calendar.Statuses() {
		words = append(words, string(s))
	}
	text := readme(t)
	for _, w := range words {
		if !strings.Contains(text, "`"+w+"`") {
			t.Errorf("README.md does not explain `%s`", w)
		}
	}
	for _, c := range []calendar.Class{calendar.ClassError, calendar.ClassRefusal, calendar.ClassQuestion, calendar.ClassWarning} {
		if !strings.Contains(text, "**"+string(c)+"**") {
			t.Errorf("README.md does not explain %s", c)
		}
	}
}
