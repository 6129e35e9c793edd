package handout

import (
	"encoding/csv"
	"strings"
	"testing"
)

func TestCellsAreInert(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"plain", "plain"},
		{"=1+1", "'=1+1"},
		{"+49 30", "'+49 30"},
		{"-3", "'-3"},
		{"@SUM(A1)", "'@SUM(A1)"},
		{"  =1", "'  =1"},
		{"\uff1d1", "'\uff1d1"},
		{"\t=1", "\\t=1"}, // a tab is written out, so nothing begins with =
		{"\r\n=1", "\\r\\n=1"},
		{`a "b", c`, `a "b", c`},
		{"a=1", "a=1"},
		{" x ", " x "},
		{"", ""},
		{"7", "7"},
	} {
		line := csvCell(c.in) + ",end\r\n"
		got, err := csv.NewReader(strings.NewReader(line)).Read()
		if err != nil || len(got) != 2 || got[0] != c.want {
			t.Errorf("%q became %q, read back as %q (%v), want %q", c.in, line, got, err, c.want)
		}
	}
}

func FuzzCell(f *testing.F) {
	for _, s := range []string{"=1", " @x", `"`, "a\nb", ",", "'=", "\ufeff=1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, err := csv.NewReader(strings.NewReader("x," + csvCell(s) + "\r\n")).Read()
		if err != nil || len(got) != 2 {
			t.Fatalf("%q: %q, %v", s, got, err)
		}
		if first := strings.TrimLeft(got[1], " \t\r\n"); first != "" && strings.ContainsRune("=+-@", rune(first[0])) {
			t.Errorf("%q begins a formula: %q", s, got[1])
		}
	})
}
