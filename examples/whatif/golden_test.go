package main

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v (-update writes it)", err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("%s differs (-update writes it anew; -want +got):\n%.4000s", file, diff)
	}
}

// The demo after a log that is made up.
func TestGoldenLog(t *testing.T) {
	file := filepath.Join(t.TempDir(), "out.csv")
	got := try(t, "", "-quiet", "-log", filepath.Join("testdata", "log.csv"), "-out", file)
	if got.code != exitDone || got.errors != "" {
		t.Fatalf("exit %d: %s", got.code, got.errors)
	}
	golden(t, "demo-log.text", got.out)
	table, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "demo-log.csv", string(table))
}

// What more there is to ask of the demo.
func TestGoldenMore(t *testing.T) {
	got := try(t, "", "-quiet", "-branches", "-fragile", "-seasons", "3", "-seed", "11")
	if got.code != exitDone || got.errors != "" {
		t.Fatalf("exit %d: %s", got.code, got.errors)
	}
	golden(t, "demo-more.text", got.out)
}

// A log says what was done before now; what is wrong with it is all said.
func TestLog(t *testing.T) {
	write := func(name, text string) string {
		file := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return file
	}
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"no file", []string{"-log", filepath.Join(t.TempDir(), "none.csv")}, "cannot be read"},
		{"later than the first date", []string{"-log", write("a.csv", "kind,date,time,session\nsession,2026-10-05,17:00,full-body\n")}, "2026-10-05"},
		{"another athlete", []string{"-log", write("b.csv", "kind,date,time,session,athlete\nsession,2026-09-05,17:00,full-body,k-9\n")}, "not k-9"},
		{"no columns", []string{"-log", write("c.csv", "date\n2026-09-05\n")}, "kind"},
		{"no JSON", []string{"-log", write("d.json", "[")}, "error"},
		{"no instant", []string{"-now", "2026-10-12"}, "no instant"},
	} {
		if got := try(t, "", append(c.args, "-quiet")...); got.code != exitInput || got.out != "" || !strings.Contains(got.errors, c.want) {
			t.Errorf("%s: exit %d\n%s\n%s", c.name, got.code, got.out, got.errors)
		}
	}
	// In the season, by what was told until then: strength was last trained on 5
	// October, and the early edge of its band is 25 dates after (load.Residual); no
	// sprint is told, but on 2 November there was a practice that may have had some,
	// and speed has its early edge two dates after.
	past := write("e.csv", "kind,date,time,session\nsession,2026-10-05,17:00,full-body\nsession,2026-09-30,16:30,full-body\n")
	got := try(t, short, "-fixtures", "-", "-now", "2026-11-03T08:00:00+01:00", "-log", past, "-quiet")
	if got.code != exitDone || !strings.Contains(got.out, "at its edge: maximal strength 2026-11-03, maximal speed 2026-11-04 or sooner") {
		t.Errorf("exit %d\n%s\n%s", got.code, got.out, got.errors)
	}
}
