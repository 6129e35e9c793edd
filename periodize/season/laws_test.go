package season_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

func sorted(list []string) []string {
	slices.Sort(list)
	return list
}

func marshal(t interface{ Fatal(...any) }, v any) []byte {
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// where keeps of problems what reading and validating have in common.
func where(list []calendar.Problem) (out []string) {
	for _, p := range list {
		out = append(out, string(p.Class)+" "+p.Code+" "+p.Path)
	}
	return out
}

func usable(list []calendar.Problem) bool {
	for _, p := range list {
		if p.Class == calendar.ClassError || p.Class == calendar.ClassRefusal {
			return false
		}
	}
	return true
}

// What is written reads back as it was, and reading finds what Validate finds.
func TestRoundTrip(t *testing.T) {
	good, bad := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		req := drawRequest(t)
		problems := req.Validate()
		text := marshal(t, req)
		back, found, err := season.RequestReader{Strict: true}.Read(bytes.NewReader(text))
		var input *season.InputError
		if errors.As(err, &input) {
			found = input.Problems
		}
		if diff := cmp.Diff(sorted(where(problems)), sorted(where(found)), equal); diff != "" {
			t.Fatalf("Validate and Read differ: %s\n%s", diff, text)
		}
		if usable(problems) != (err == nil) {
			t.Fatalf("usable is %v, the error %v", usable(problems), err)
		}
		if err != nil {
			bad++
			return
		}
		good++
		want, err := season.Apply(req) // fills in ids and zones
		if err != nil {
			t.Fatal(err)
		}
		want.Schema = season.Schema
		for i := range want.Events {
			want.Events[i].Source = "" // not written
		}
		if diff := cmp.Diff(want, *back, equal); diff != "" {
			t.Fatal(diff)
		}
		if again := marshal(t, *back); !bytes.Equal(again, marshal(t, want)) {
			t.Fatalf("other bytes:\n%s\n%s", text, again)
		}
	})
	if n := good + bad; n >= 80 && (good < n/6 || bad < n/6) { // of fewer nothing follows
		t.Errorf("%d good and %d bad requests: the generator leans to one side", good, bad)
	}
}

// The order of the input, and what is given twice, does not matter.
func TestCanonicalOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := drawRequest(t)
		before := marshal(t, req)
		want := req.Canonical()
		if !bytes.Equal(before, marshal(t, req)) {
			t.Fatal("the request was changed")
		}
		other := shuffled(t, req)
		got := other.Canonical()
		if diff := cmp.Diff(want, got, equal); diff != "" {
			t.Fatal(diff)
		}
		if a, b := marshal(t, want), marshal(t, got); !bytes.Equal(a, b) {
			t.Fatalf("other bytes:\n%s\n%s", a, b)
		}
		if diff := cmp.Diff(want, want.Canonical(), equal); diff != "" {
			t.Fatal("twice is not once: ", diff)
		}
		if req.Digest() != other.Digest() || req.Digest() != want.Digest() {
			t.Fatal("other digest")
		}
		if diff := cmp.Diff(season.EventsDigest(want.Events, req.Period), season.EventsDigest(got.Events, req.Period), equal); diff != "" {
			t.Fatal(diff)
		}
	})
}

func TestPlanRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := drawPlan(t)
		text := marshal(t, plan)
		back, err := season.ReadPlan(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(plan, *back, equal); diff != "" {
			t.Fatal(diff)
		}
		if again := marshal(t, *back); !bytes.Equal(text, again) {
			t.Fatalf("other bytes:\n%s\n%s", text, again)
		}
		if list := back.Validate(); !usable(list) {
			t.Fatal(list)
		}
	})
}

// Digests of events do not depend on the period they are asked for.
func TestEventsDigestPeriod(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := drawRequest(t).Canonical()
		wide := map[calendar.Date]string{}
		for _, d := range season.EventsDigest(req.Events, season.Period{From: day("2026-10-01"), To: day("2027-01-31")}) {
			wide[d.Date] = d.Hash
		}
		for _, d := range season.EventsDigest(req.Events, season.Period{}) {
			if wide[d.Date] != d.Hash {
				t.Fatalf("no period: %v and %v on %v", wide[d.Date], d.Hash, d.Date)
			}
		}
		from := drawDate(t)
		p := season.Period{From: from, To: from.AddDays(number(t, 0, 20, "days"))}
		narrow := season.EventsDigest(req.Events, p)
		for i, d := range narrow {
			if !p.Contains(d.Date) || wide[d.Date] != d.Hash || i > 0 && !narrow[i-1].Date.Before(d.Date) {
				t.Fatalf("%v in %v", d, narrow)
			}
			delete(wide, d.Date)
		}
		for d := range wide {
			if p.Contains(d) {
				t.Fatalf("%v is missing", d)
			}
		}
	})
}

func FuzzReadRequest(f *testing.F) {
	for _, c := range cases {
		f.Add(c.text)
	}
	f.Add(week)
	for i := range 20 {
		f.Add(string(marshal(f, rapid.Custom(drawRequest).Example(i))))
	}
	f.Fuzz(func(t *testing.T, text string) {
		req, problems, err := season.RequestReader{}.Read(strings.NewReader(text))
		if err != nil {
			checkError(t, err)
			return
		}
		if !usable(problems) {
			t.Fatalf("an error among the warnings: %v", problems)
		}
		b := marshal(t, *req)
		back, err := season.ReadRequest(bytes.NewReader(b))
		if err != nil {
			t.Fatalf("written and not read: %v\n%s", err, b)
		}
		if diff := cmp.Diff(req, back, equal); diff != "" {
			t.Fatal(diff)
		}
		canonical := req.Canonical()
		if !usable(canonical.Validate()) {
			t.Fatalf("the sorted copy is bad: %v", canonical.Validate())
		}
		if req.Digest() != canonical.Digest() {
			t.Fatal("other digest")
		}
	})
}

func FuzzReadPlan(f *testing.F) {
	for _, c := range planCases {
		f.Add(c.text)
	}
	for i := range 20 {
		f.Add(string(marshal(f, rapid.Custom(drawPlan).Example(i))))
	}
	f.Fuzz(func(t *testing.T, text string) {
		plan, err := season.ReadPlan(strings.NewReader(text))
		if err != nil {
			checkError(t, err)
			return
		}
		b := marshal(t, *plan)
		back, err := season.ReadPlan(bytes.NewReader(b))
		if err != nil {
			t.Fatalf("written and not read: %v\n%s", err, b)
		}
		if diff := cmp.Diff(plan, back, equal); diff != "" {
			t.Fatal(diff)
		}
	})
}

// checkError demands of every error that it says what is wrong, on lines that
// can be printed.
func checkError(t *testing.T, err error) {
	t.Helper()
	var input *season.InputError
	if !errors.As(err, &input) || len(input.Problems) == 0 || usable(input.Problems) {
		t.Fatalf("no input error with an error in it: %v", err)
	}
	known := map[string]bool{}
	for _, c := range season.ProblemCodes() {
		known[c] = true
	}
	for _, p := range input.Problems {
		line := p.Error()
		if !known[p.Code] || p.Reason == "" || p.Remedy == "" || calendar.Inert(line) != line {
			t.Fatalf("%q: %+v", line, p)
		}
	}
	if n := strings.Count(err.Error(), "\n"); n != len(input.Problems)-1 || n > season.MaxProblems {
		t.Fatalf("%d line ends, %d problems", n, len(input.Problems))
	}
}
