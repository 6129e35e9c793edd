package season_test

import (
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Every code of the table is there once, belongs to the class its name says, and
// renders each of its parameters.
func TestCodes(t *testing.T) {
	source, err := os.ReadFile("codes.go")
	if err != nil {
		t.Fatal(err)
	}
	rows := regexp.MustCompile(`(?m)^\s*add\(\w+, "([^"]+)"`).FindAllStringSubmatch(string(source), -1)
	codes := season.Codes()
	if len(rows) != len(codes) || len(codes) == 0 {
		t.Errorf("%d rows, %d codes: one code stands twice", len(rows), len(codes))
	}
	if !slices.IsSortedFunc(codes, func(a, b season.NoteCode) int { return strings.Compare(a.Code, b.Code) }) {
		t.Error("not sorted")
	}
	for _, c := range codes {
		// Causes of changes are reasons too.
		if !strings.HasPrefix(strings.Replace(c.Code, "cause-", "why-", 1), string(c.Class)+"-") {
			t.Errorf("%s is of class %s", c.Code, c.Class)
		}
		values, want := season.Values{}, c.Text
		for i, p := range c.Params {
			if slices.Index(c.Params, p) != i {
				t.Errorf("%s: %s twice", c.Code, p)
			}
			if i%2 == 0 {
				values[p] = season.Int(int64(-40 - i))
			} else {
				values[p] = season.Str(fmt.Sprint("text ", i))
			}
			want = strings.ReplaceAll(want, "{"+p+"}", values[p].String())
		}
		n := season.NewNote(c.Code, season.Subject{}, "size", values)
		if n.Text != want || strings.ContainsAny(n.Text, "{}") || n.Class != c.Class || n.Code != c.Code || n.Rule != "size" {
			t.Errorf("%s: %+v, want %q", c.Code, n, want)
		}
	}
}

func TestNoteFaults(t *testing.T) {
	if n := season.NewNote("why-ever", season.Subject{}, "", nil); n.Text != "unknown code why-ever" {
		t.Error(n.Text)
	}
	if n := season.NewNote("why-first-full-body", season.Subject{}, "", nil); !strings.Contains(n.Text, "{hours}") {
		t.Error(n.Text)
	}
}

// A value cannot steer a terminal, nor bring in another parameter.
func TestNoteTextIsInert(t *testing.T) {
	for _, v := range []season.Value{season.Str("a\x1b[31m\u202e{hours}"), {Text: "a\x1b[31m\u202e{hours}", IsText: true}} {
		n := season.NewNote("question-doubled", season.Subject{}, "", season.Values{"event": v, "hours": season.Str("9 h")})
		if n.Text != calendar.Inert(n.Text) || !strings.Contains(n.Text, `\x1b`) || !strings.Contains(n.Text, "{hours}") {
			t.Errorf("%q", n.Text)
		}
	}
}

func TestValueJSON(t *testing.T) {
	for text, want := range map[string]season.Value{
		"5": season.Int(5), "-9223372036854775808": season.Int(-9223372036854775808), `"5"`: season.Str("5"), `""`: season.Str(""),
	} {
		var v season.Value
		if err := json.Unmarshal([]byte(text), &v); err != nil || v != want {
			t.Errorf("%s: %+v, %v", text, v, err)
		}
		if b := marshal(t, v); string(b) != text {
			t.Errorf("%s became %s", text, b)
		}
	}
	for _, text := range []string{"1.5", "true", "[]", "9223372036854775808", "1e3"} {
		var v season.Value
		if err := json.Unmarshal([]byte(text), &v); err == nil {
			t.Errorf("%s: %+v", text, v)
		}
	}
}

func ExampleNewNote() {
	n := season.NewNote("finding-break", season.Subject{}, "", season.Values{
		"days": season.Int(13), "from": season.Str("2026-12-21"), "to": season.Str("2027-01-02"),
	})
	fmt.Println(n.Class, n.Text)
	// Output:
	// finding break of 13 game-free dates, 2026-12-21 to 2027-01-02
}

func ExampleCodes() {
	for _, c := range season.Codes() {
		if c.Class == season.Refusal {
			fmt.Println(c.Code, c.Params)
		}
	}
	// Output:
	// refusal-hold [from]
	// refusal-under-12 []
}
