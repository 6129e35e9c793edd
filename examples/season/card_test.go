package main

import (
	"encoding/json"
	"strings"
	"testing"

	"example.org/weft/periodize/season"
)

func TestCards(t *testing.T) {
	out := ""
	for _, date := range []string{"2026-09-09", "2026-09-11", "2026-09-12", "2026-12-20"} {
		got := run(t, nil, "-card", date)
		if got.code != exitPlanned {
			t.Fatalf("exit %d: %s", got.code, got.stderr)
		}
		for _, l := range strings.Split(got.stdout, "\n") {
			if len([]rune(l)) > width {
				t.Errorf("%d columns: %s", len([]rune(l)), l)
			}
		}
		out += got.stdout + "\n"
	}
	golden(t, "cards.text", out)
}

// With -cards every session ahead has its parts, whose minutes add up to it.
func TestCardsInJSON(t *testing.T) {
	got := run(t, nil, "-format", "json", "-cards")
	if got.code != exitPlanned {
		t.Fatalf("exit %d: %s", got.code, got.stderr)
	}
	var plan season.Plan
	if err := json.Unmarshal([]byte(got.stdout), &plan); err != nil {
		t.Fatal(err)
	}
	for _, s := range plan.Sessions {
		n := 0
		for _, p := range s.Parts {
			n += p.Minutes
		}
		if n != s.Minutes {
			t.Errorf("%s: parts of %d minutes, session of %d", s.ID, n, s.Minutes)
		}
	}
}

func TestCardRefusals(t *testing.T) {
	in := files{"f.csv": smallTable, "a.json": smallAthlete}
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"-card", "soon"}, "-card"},
		{[]string{"-card", "2027-11-02"}, "no date of the period"},
		{[]string{"-card", "2026-11-10", "-format", "json"}, "-card is for -format text"},
		{[]string{"-card", "2026-11-10", "-why", "2026-11-10"}, "ask for one of them"},
		{[]string{"-cards", "-format", "ics"}, "-cards is for -format text and json"},
	} {
		got := run(t, in, append([]string{"-fixtures", "f.csv", "-athlete", "a.json"}, c.args...)...)
		if got.code != exitInput || got.stdout != "" || !strings.Contains(got.stderr, c.want) {
			t.Errorf("%v: exit %d, %q", c.args, got.code, got.stderr)
		}
	}
}

// With -cards the weeks name the main lifts of every session ahead.
func TestLiftsInText(t *testing.T) {
	got := run(t, nil, "-cards")
	if got.code != exitPlanned {
		t.Fatalf("exit %d: %s", got.code, got.stderr)
	}
	lines := strings.Split(got.stdout, "\n")
	for i, l := range lines {
		if len([]rune(l)) > width {
			t.Errorf("%d columns: %s", len([]rune(l)), l)
		}
		for _, kind := range []string{" full-body ", " primer ", " post-game ", " eccentric "} {
			if strings.Contains(l, kind) && strings.Contains(l, " min ") && strings.Contains(l, "-") && i > 20 {
				// The line itself may go on, and the lifts stand below it.
				if below := strings.Join(lines[i+1:min(i+4, len(lines))], "\n"); !strings.Contains(below, "| ") || !strings.Contains(below, "x") {
					t.Errorf("no lifts below\n%s\n%s", l, below)
				}
			}
		}
	}
	if plain := run(t, nil); strings.Contains(plain.stdout, "Back squat") {
		t.Error("lifts without being asked")
	}
}
