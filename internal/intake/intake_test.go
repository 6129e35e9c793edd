package intake_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"
	"unicode"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/load"
	"github.com/google/go-cmp/cmp"
)

func TestSchemaAndText(t *testing.T) {
	refuse := func(string) error {
		return &calendar.ValueError{Value: "17 st", Reason: "stones are not read", Remedy: "write kilograms"}
	}
	other := func(string) error { return errors.New("17 st") }
	for _, c := range []struct {
		name, text string
		read       func(jsonread.Value) bool
		ok         bool
		want       []string // code, reason, remedy of each problem
	}{
		{"this version", "3", func(v jsonread.Value) bool { return intake.Schema(v, 3, "newer") }, true, nil},
		{"a newer one", "4", func(v jsonread.Value) bool { return intake.Schema(v, 3, "newer") }, false,
			[]string{"newer: the text is of schema 4, this version reads up to 3; update the library, or write the text for the older schema"}},
		{"as wanted", `"17 st"`, func(v jsonread.Value) bool {
			return intake.Text(v, 5, "mass", "a mass", false, func(string) error { return nil })
		}, true, nil},
		{"said by the parser", `"17 st"`, func(v jsonread.Value) bool { return intake.Text(v, 5, "mass", "a mass", false, refuse) }, false,
			[]string{"mass: stones are not read; write kilograms"}},
		{"private", `"17 st"`, func(v jsonread.Value) bool { return intake.Text(v, 5, "mass", "a mass", true, refuse) }, false,
			[]string{"mass: this is not a mass; write a mass"}},
		{"another error", `"17 st"`, func(v jsonread.Value) bool { return intake.Text(v, 5, "mass", "a mass", false, other) }, false,
			[]string{"mass: this is not a mass; write a mass"}},
		{"too long for the parser", `"17 st"`, func(v jsonread.Value) bool { return intake.Text(v, 4, "mass", "a mass", false, refuse) }, false, nil},
	} {
		d := jsonread.Read(strings.NewReader(c.text), jsonread.Options{})
		if got := c.read(d.Root()); got != c.ok {
			t.Errorf("%s: %v", c.name, got)
		}
		var got []string
		for _, p := range d.Problems() {
			got = append(got, p.Code+": "+p.Reason+"; "+p.Remedy)
		}
		if c.want == nil && !c.ok { // the reader's own words
			if len(got) != 1 || !strings.HasPrefix(got[0], jsonread.CodeLength) {
				t.Errorf("%s: %q", c.name, got)
			}
			continue
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
	}
}

func TestBecause(t *testing.T) {
	_, mass := load.ParseMass("17")
	for _, c := range []struct {
		err error
		ok  bool
	}{
		{fmt.Errorf("wrapped: %w", &calendar.ValueError{Reason: "a", Remedy: "b"}), true},
		{mass, true}, {&load.InputError{}, false}, {errors.New("other"), false},
	} {
		reason, remedy, ok := intake.Because(c.err)
		if ok != c.ok || (reason != "") != c.ok || (remedy != "") != c.ok {
			t.Errorf("%v: %q, %q, %v", c.err, reason, remedy, ok)
		}
	}
}

func TestListAndFlag(t *testing.T) {
	o := jsonread.Read(strings.NewReader(`{"some": [17, 3, 9], "empty": [], "on": true, "off": false}`), jsonread.Options{}).Root().Object()
	number := func(v jsonread.Value) int64 { n, _ := v.Int(0, 20); return n }
	for name, want := range map[string][]int64{"some": {17, 3}, "empty": nil, "absent": nil} {
		if d := cmp.Diff(want, intake.List(o.Optional(name), 2, number)); d != "" {
			t.Errorf("%s: %s", name, d)
		}
	}
	for name, want := range map[string]bool{"on": true, "off": false, "absent": false} {
		if intake.Flag(o.Optional(name)) != want {
			t.Error(name)
		}
	}
}

func TestInstant(t *testing.T) {
	at, bad := intake.Instant("2026-11-08T14:00:00+01:00")
	if bad != nil || !at.Equal(time.Date(2026, 11, 8, 13, 0, 0, 0, time.UTC)) {
		t.Error(at, bad)
	}
	for text, reason := range map[string]string{"2026-11-08T14:00": "an instant without its offset from UTC", "2026-11-08": "this is not an instant"} {
		if at, bad := intake.Instant(text); bad == nil || bad.Reason != reason || bad.Value != text || !at.IsZero() {
			t.Errorf("%s: %v, %v", text, at, bad)
		}
	}
}

func TestZones(t *testing.T) {
	z := intake.Zones{}
	for range 2 {
		if got, err := z.Load("Europe/Copenhagen"); err != nil || got.Name() != "Europe/Copenhagen" {
			t.Error(got, err)
		}
		if _, err := z.Load("Europe/Nowhere"); err == nil {
			t.Error("loaded what does not exist")
		}
	}
	if len(z) != 1 {
		t.Errorf("%d zones", len(z))
	}
}

func TestProblem(t *testing.T) {
	for shown, want := range map[string]string{`"a\tb"`: "a\tb", `\x80`: "\x80", "17": "17", "": "", `a"b`: `a"b`} {
		got := intake.Problem(jsonread.Problem{Code: "c", Pointer: "/p", Value: shown, Reason: "r", Remedy: "m", Class: jsonread.Warning})
		if d := cmp.Diff(calendar.Problem{Code: "c", Class: calendar.ClassWarning, Path: "/p", Value: want, Reason: "r", Remedy: "m"}, got); d != "" {
			t.Errorf("%q: %s", shown, d)
		}
	}
	if intake.Problem(jsonread.Problem{}).Class != calendar.ClassError {
		t.Error("an error is none")
	}
	order := []calendar.Class{calendar.ClassError, calendar.ClassRefusal, calendar.ClassQuestion, calendar.ClassWarning}
	for i, c := range order {
		if intake.Rank(c) != i {
			t.Errorf("%v ranks %d", c, intake.Rank(c))
		}
	}
}

// Unicode's own properties say which characters steer the text around them.
func TestControls(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		steers := unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Zl, r) || unicode.Is(unicode.Zp, r) ||
			unicode.Is(unicode.Bidi_Control, r) && r != 0x061C && r != 0x200E && r != 0x200F || r == 0xFEFF
		if r == '\t' || r == '\n' || r == '\r' {
			steers = false
		}
		if intake.Controls(r) != steers {
			t.Errorf("%U: %v", r, intake.Controls(r))
		}
	}
}
