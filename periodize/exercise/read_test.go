package exercise_test

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// wrong is a text with the codes of its problems, in their order.
type wrong struct {
	text  string
	codes string
}

var badKits = []wrong{
	{`{"bar": 20}`, "mass"},
	{`{"bar": "20"}`, "text"},
	{`["kettlebell 16"]`, "kit-load"},
	{`["0g"]`, "kit-load"},
	{`{"discs": [{"pairs": 2}], "bar": "20 kg"}`, "missing"},
	{`{"discs": [{"mass": "5 kg", "pairs": 0}]}`, "range"},
	{`{"dumbbells": ["4 kg", "700 kg"]}`, "kit-mass"},
	{`{"Bar": "20 kg"}`, "wrong-case"},
	{`{"bar": null}`, "null"},
	{`{"schema": 2, "rack": 1}`, "schema-newer"},
	{`"gym"`, "kind"},
	{`{"bar": "20 kg"`, "syntax"},
	{``, "empty"},
}

var badCheckIns = []wrong{
	{`{"pain": [{"region": "groin", "side": "up", "pain": 11}]}`, "side-unknown pain-range"},
	{`{"pain": [{"side": "left"}]}`, "missing missing"},
	{`{"energy": 7.5}`, "number"},
	{`{"sleepMinutes": 2000, "minutes": 3, "soreness": [{"region": "tail", "level": 4}]}`, "reading-range region-unknown minutes-range"},
	{`{"kit": {"bar": 15}}`, "mass"},
	{`{"pain": [{"region": "knee", "pain": 2, "since": "03/04/2027"}]}`, "text"},
}

var badProfiles = []wrong{
	{`{"prehab": ["short-copenhagn"]}`, "exercise-unknown"},
	{`{"prehab": ["Back squat"], "avoid": ["nothing"]}`, "prehab-heavy exercise-unknown"},
	{`{"prehab": "all"}`, "kind"},
}

var badCatalogues = []wrong{
	{`{}`, "missing"},
	{`{"exercises": []}`, "catalogue-size"},
	{`{"exercises": [{"id": "x"}]}`, "missing missing missing missing missing"},
	{`{"exercises": [{"id": "Bad Id", "name": "A", "pattern": "squash", "role": "main", "load": "bar", "seconds": 0, "skill": 9}]}`, "exercise-id pattern-unknown number-range number-range"},
	{`{"builtIn": true, "exercises": [{"id": "x", "name": "X", "pattern": "squat", "role": "main", "load": "bar", "seconds": 3, "easier": ["goblet-squad"]}]}`, "exercise-unknown"},
}

func TestBadTexts(t *testing.T) {
	for _, x := range []struct {
		name string
		list []wrong
		read func(string) error
	}{
		{"kit", badKits, func(s string) error { _, _, err := exercise.Catalogue{}.ReadKit(strings.NewReader(s)); return err }},
		{"check-in", badCheckIns, func(s string) error { _, _, err := exercise.Catalogue{}.ReadCheckIn(strings.NewReader(s)); return err }},
		{"profile", badProfiles, func(s string) error { _, _, err := exercise.Catalogue{}.ReadProfile(strings.NewReader(s)); return err }},
		{"catalogue", badCatalogues, func(s string) error { _, _, err := exercise.ReadCatalogue(strings.NewReader(s)); return err }},
	} {
		for _, w := range x.list {
			err := x.read(w.text)
			var bad *season.InputError
			if !errors.As(err, &bad) {
				t.Errorf("%s %s: %v", x.name, w.text, err)
				continue
			}
			var codes []string
			for _, p := range bad.Problems {
				codes = append(codes, p.Code)
				if p.Reason == "" || p.Remedy == "" || p.Path == "" && p.Code != "empty" && p.Code != "syntax" && p.Code != "kind" && p.Code != "missing" {
					t.Errorf("%s %s: %+v lacks something", x.name, w.text, p)
				}
			}
			if got := strings.Join(codes, " "); got != w.codes {
				t.Errorf("%s %s: %s, want %s\n%v", x.name, w.text, got, w.codes, err)
			}
		}
	}
}

// TestTextsWarn: what can be used, and should be looked at.
func TestTextsWarn(t *testing.T) {
	for text, want := range map[string]string{
		`{}`:                                  "kit-empty",
		`[]`:                                  "kit-empty",
		`["flor"]`:                            "kit-unknown",
		`{"bar": "20 kg", "barr": "20 kg"}`:   "unknown",
		`["kettlebel", "band"]`:               "kit-unknown",
		`{"words": ["pull up bar", "bnech"]}`: "kit-unknown",
	} {
		_, problems, err := exercise.Catalogue{}.ReadKit(strings.NewReader(text))
		if err != nil || len(problems) != 1 || problems[0].Code != want || problems[0].Class != calendar.ClassWarning {
			t.Errorf("%s: %v %v", text, problems, err)
		}
	}
}

// TestASignHoldsInABadText: a report that cannot be used still holds, by what
// could be read of it.
func TestASignHoldsInABadText(t *testing.T) {
	in := exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}
	for _, text := range []string{
		`{"signs": ["fever"], "minutes": "twenty"}`,
		`{"signs": [true]}`,
		`{"pain": [{"region": "groin", "pain": 11}]}`,
		`{"ill": true, "energy": 99}`,
	} {
		var report exercise.CheckIn
		if err := report.UnmarshalJSON([]byte(text)); err == nil {
			t.Errorf("%s: nothing wrong", text)
		}
		r, err := exercise.Builder{}.Today(in, exercise.Card{}, report)
		if _, ok := r.(exercise.Held); !ok || err != nil {
			t.Errorf("%s: %v %v", text, r, err)
		}
	}
}

// TestReportTextsStayPrivate: no problem shows what was reported.
func TestReportTextsStayPrivate(t *testing.T) {
	_, _, err := exercise.Catalogue{}.ReadCheckIn(strings.NewReader(`{"sleepMinutes": "zz1", "energy": 7777, "ill": "zz2", "signs": [{"zz3": 1}],
		"soreness": [{"region": "zz4", "level": 7777}], "pain": [{"region": 7777, "side": "zz5", "pain": "zz6", "zz7": 1}]}`))
	if err == nil {
		t.Fatal("nothing wrong")
	}
	if s := err.Error(); strings.Contains(s, "zz") || strings.Contains(s, "7777") {
		t.Errorf("private values in\n%s", s)
	}
}

func TestTextsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawInput(t)
		var kit exercise.Kit
		back(t, in.Kit, &kit)
		in.Profile.Avoid = []string{"Back squat"}
		var profile exercise.Profile
		back(t, in.Profile, &profile)
		report := exercise.CheckIn{Minutes: 20, Kit: &in.Kit, Ill: rapid.Bool().Draw(t, "ill"), Signs: []exercise.Sign{exercise.Fever},
			Energy: exercise.Read(rapid.IntRange(0, 10).Draw(t, "energy")), Soreness: []exercise.Soreness{{Region: "thigh", Side: "left", Level: 4}},
			Pain: []exercise.Complaint{{Region: "groin", Pain: 2, Squeezed: true, SqueezeBelow: rapid.IntRange(-5, 20).Draw(t, "squeeze"), Since: day("2026-11-03")}}}
		var again exercise.CheckIn
		back(t, report, &again)
	})
	var c exercise.Catalogue
	b, err := json.Marshal(exercise.Catalogue{})
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, &c); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(exercise.Catalogue{}.All(), c.All(), equal); d != "" {
		t.Error(d)
	}
}

// back writes a value and reads it again.
func back[T any](t *rapid.T, x T, to *T) {
	b, err := json.Marshal(x)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, to); err != nil {
		t.Fatalf("%v\n%s", err, b)
	}
	if d := cmp.Diff(x, *to, equal); d != "" {
		t.Fatalf("%s\n%s", d, b)
	}
}

func TestCatalogueText(t *testing.T) {
	text := `{"builtIn": true, "exercises": [
		{"id": "sled-push", "name": "Sled push", "pattern": "single-leg", "role": "accessory", "load": "untracked", "kit": ["sled"], "tissues": ["quadriceps"], "seconds": 20, "hold": true},
		{"id": "push-up", "name": "Press-up", "pattern": "push-horizontal", "role": "accessory", "load": "body", "tissues": ["chest"], "seconds": 3, "reps": 9}]}`
	c, _, err := exercise.ReadCatalogue(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	if x, _ := c.Find("push-up"); x.Reps != 9 || len(c.All()) != len(exercise.Catalogue{}.All())+1 || !slices.Contains(c.KitWords(), "sled") {
		t.Errorf("%+v", x)
	}
	alone, _, err := exercise.ReadCatalogue(strings.NewReader(strings.Replace(text, `"builtIn": true, `, "", 1)))
	if err != nil || len(alone.All()) != 2 {
		t.Errorf("%d, %v", len(alone.All()), err)
	}
}

// fuzzed holds a text against what every reader promises: no panic, every problem
// complete, and what was read is written and read back the same.
func fuzzed[T any](t *testing.T, text string, read func(string) (T, []calendar.Problem, error)) {
	x, problems, err := read(text)
	if err != nil {
		var bad *season.InputError
		if !errors.As(err, &bad) || len(bad.Problems) == 0 {
			t.Fatalf("%T %v", err, err)
		}
		return
	}
	for _, p := range problems {
		if p.Class != calendar.ClassWarning || p.Reason == "" {
			t.Fatalf("%+v", p)
		}
	}
	b, err := json.Marshal(x)
	if err != nil {
		t.Fatalf("read and not written: %v\n%s", err, text)
	}
	again, _, err := read(string(b))
	if err != nil {
		t.Fatalf("written and not read: %v\n%s", err, b)
	}
	if c, ok := any(x).(exercise.Catalogue); ok {
		d := cmp.Diff(c.All(), any(again).(exercise.Catalogue).All(), equal)
		if d != "" {
			t.Fatal(d)
		}
		return
	}
	if d := cmp.Diff(x, again, equal); d != "" {
		t.Fatalf("%s\n%s", d, b)
	}
}

func seeds(f *testing.F, bad []wrong, good ...string) {
	for _, w := range bad {
		f.Add(w.text)
	}
	for _, g := range good {
		f.Add(g)
	}
}

func FuzzReadKit(f *testing.F) {
	seeds(f, badKits, `["gym", "kettlebells 8-24 kg by 4 kg", "discs 10 kg x 2"]`, `{"bar": {"grams": 15000}, "discs": [{"mass": "45 lb"}], "bands": ["15 kg"]}`)
	f.Fuzz(func(t *testing.T, text string) {
		fuzzed(t, text, func(s string) (exercise.Kit, []calendar.Problem, error) {
			return exercise.Catalogue{}.ReadKit(strings.NewReader(s))
		})
	})
}

func FuzzReadCheckIn(f *testing.F) {
	seeds(f, badCheckIns, `{"schema": 1, "sleepMinutes": 430, "energy": 6, "signs": ["fever"], "soreness": [{"region": "thigh", "level": 3}],
		"pain": [{"region": "groin", "side": "left", "pain": 3, "since": "2026-11-08", "cough": true, "squeezeBelow": 12}], "minutes": 20, "kit": ["kettlebell 16 kg"]}`)
	f.Fuzz(func(t *testing.T, text string) {
		in, _, err := exercise.Catalogue{}.ReadCheckIn(strings.NewReader(text))
		r, wrong := exercise.Builder{}.Today(exercise.Input{Session: session(season.FullBody, 55, "2026-11-10"), Athlete: adult(), Kit: exercise.Gym()}, exercise.Card{}, in)
		if err == nil && wrong != nil {
			t.Fatalf("read, and not usable: %v", wrong)
		}
		if _, ok := r.(exercise.Held); len(in.Signs) > 0 && !ok {
			t.Fatal("a sign, and no hold")
		}
		fuzzed(t, text, func(s string) (exercise.CheckIn, []calendar.Problem, error) {
			return exercise.Catalogue{}.ReadCheckIn(strings.NewReader(s))
		})
	})
}

func FuzzReadProfile(f *testing.F) {
	seeds(f, badProfiles, `{"prehab": ["short-copenhagen", "Face pull"], "avoid": ["bench-press"], "growthSpurt": true}`)
	f.Fuzz(func(t *testing.T, text string) {
		fuzzed(t, text, func(s string) (exercise.Profile, []calendar.Problem, error) {
			return exercise.Catalogue{}.ReadProfile(strings.NewReader(s))
		})
	})
}

func FuzzReadCatalogue(f *testing.F) {
	seeds(f, badCatalogues, `{"builtIn": true, "exercises": [{"id": "x", "name": "X", "pattern": "squat", "role": "main", "load": "bar", "seconds": 3, "kit": ["bar|sled"], "heavy": true}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		fuzzed(t, text, func(s string) (exercise.Catalogue, []calendar.Problem, error) {
			return exercise.ReadCatalogue(strings.NewReader(s))
		})
	})
}

// TestBrokenEncodingsAreQuotedOnce: a byte that is no text is shown as it is
// written, in one pair of quotes.
func TestBrokenEncodingsAreQuotedOnce(t *testing.T) {
	_, _, err := exercise.Catalogue{}.ReadKit(strings.NewReader("[\"b\xffd\"]"))
	if err == nil || !strings.Contains(err.Error(), `"\xff" - `) || strings.Contains(err.Error(), `\\xff`) {
		t.Error(err)
	}
	if k, problems, err := (exercise.Catalogue{}).ReadKit(strings.NewReader(`["floor"]`)); err != nil || len(problems) > 0 {
		t.Errorf("a floor, said so: %+v %v %v", k, problems, err)
	}
}
