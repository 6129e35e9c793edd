package situations_test

import (
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/internal/situations"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
)

func TestUnpack(t *testing.T) {
	for _, c := range []struct {
		text, comment string
		sections      map[string]string
	}{
		{"", "", map[string]string{}},
		{"only why\n", "only why\n", map[string]string{}},
		{"why\n\n-- a.json --\n{}\n-- b --\n# not this\n x = 17 \n\n--no name--\n-- c --\n", "why\n\n",
			map[string]string{"a.json": "{}\n", "b": "# not this\n x = 17 \n\n--no name--\n", "c": ""}},
		{"-- a --\none\n-- b --\ntwo\n-- a --\nthree", "", map[string]string{"a": "one\nthree", "b": "two\n"}},
		{"why\r\n-- a --\r\none\r\n", "why\r\n", map[string]string{"a": "one\r\n"}},
	} {
		a := situations.Unpack(c.text)
		if a.Comment != c.comment {
			t.Errorf("%q: comment %q", c.text, a.Comment)
		}
		if d := cmp.Diff(c.sections, a.Sections); d != "" {
			t.Errorf("%q: %s", c.text, d)
		}
	}
	a := situations.Unpack("-- b --\n# not this\n x = 17 \n\ny <= 3\n")
	if d := cmp.Diff([]string{"x = 17", "y <= 3"}, a.Lines("b")); d != "" {
		t.Error(d)
	}
}

func TestCompare(t *testing.T) {
	for _, c := range []struct {
		got      int
		op, text string
		holds    bool
	}{
		{17, "=", "17", true}, {17, "=", "16", false},
		{17, "<=", "17", true}, {17, "<=", "16", false}, {15, "<=", "16", true},
		{17, ">=", "17", true}, {17, ">=", "18", false}, {19, ">=", "18", true},
		{17, "<", "18", false}, {17, "=", "", false}, {17, "=", "x", false},
	} {
		if wrong := situations.Compare(c.got, c.op, c.text); (wrong == "") != c.holds {
			t.Errorf("%d %s %q: %q", c.got, c.op, c.text, wrong)
		}
	}
}

func TestThose(t *testing.T) {
	date := func(s string) calendar.Date {
		d, err := calendar.ParseDate(s)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	sessions := []season.Session{
		{ID: "a", Kind: season.Primer, Date: date("2026-11-13")},
		{ID: "b", Kind: season.FullBody, Date: date("2026-11-14")},
		{ID: "c", Kind: season.Recovery, Date: date("2026-11-17")},
		{ID: "d", Kind: season.PostGame, Date: date("2026-11-17")},
		{ID: "e", Kind: season.FullBody, Date: date("2026-11-19")},
	}
	for _, c := range []struct{ kinds, span, want string }{
		{"session", "2026-11-13..2026-11-19", "abcde"},
		{"session", "2026-11-17", "cd"},
		{"full-body", "2026-11-13..2026-11-18", "b"},
		{"heavy,primer", "2026-11-13..2026-11-17", "abd"},
		{"lift,full-body", "2026-11-14..2026-11-19", "bde"},
		{"eccentric", "2026-11-13..2026-11-19", ""},
	} {
		from, to := situations.Ends(c.span)
		got := ""
		for _, s := range situations.Those(sessions, c.kinds, date(from), date(to)) {
			got += s.ID
		}
		if got != c.want {
			t.Errorf("%s %s: %q, not %q", c.kinds, c.span, got, c.want)
		}
	}
}
