package handout_test

import (
	"encoding/csv"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// count counts what letters and digits say, split at spaces: an independent
// count of words.
func countWords(text string) (n int) {
	for _, w := range strings.Fields(text) {
		if strings.Trim(w, "-=;:,.[]()") != "" {
			n++
		}
	}
	return n
}

const parentMost = 150

// Every sheet of every season: well-formed HTML, text of at most 80 columns,
// pages that say which they are, cautions and plan on each, the parent's note
// short, and each session exactly once on strip, months and weeks.
func TestSheetsOfRandomSeasons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{})
		plan := planned(t, req)
		b := open(t, req, plan, handout.Options{Name: "Ada Brook Cole Dunn Ek", Club: "Tarn Ottermark", Example: true})
		on := map[string]map[string]int{"strip": {}, "month": {}, "week": {}}
		sheets := shared(t, b, plan)
		for i, s := range cards(t, req, plan, b) {
			sheets[fmt.Sprint("card ", i)] = s
		}
		s, err := handout.Physio(req.Period.From, handout.PhysioCase{Book: b, Notes: []season.Note{{Text: "left groin 3 of 10"}}})
		if err != nil {
			t.Fatalf("%v", err)
		}
		sheets["physio"], sheets["hall"] = s, hallSheet(t, b, plan)
		for name, s := range sheets {
			text, values := parse(t, s.Fragment())
			plain := s.Text()
			keyed(t, name, s, plan)
			for _, line := range strings.Split(plain, "\n") {
				if utf8.RuneCountInString(line) > 80 {
					t.Errorf("%s: a line of %d characters: %s", name, utf8.RuneCountInString(line), line)
				}
			}
			for i := range s.Pages() {
				mark := fmt.Sprintf("page %d of %d", i+1, s.Pages())
				if strings.Count(text, mark) != 1 || !strings.Contains(strings.Join(strings.Fields(plain), " "), mark) {
					t.Errorf("%s does not say %s", name, mark)
				}
			}
			for _, every := range []string{plan.Zone, plan.ID, "rules " + plan.RulesVersion, "Fever, chest symptoms, fainting", "Under 18: supervised only", "Invented example"} {
				if strings.Count(text, every) < s.Pages() {
					t.Errorf("%s: %q is not on each page", name, every)
				}
			}
			kind, _, _ := strings.Cut(name, " ")
			if kind == "parent" {
				if n, m := countWords(plain), countWords(text); n > parentMost || m > parentMost {
					t.Errorf("%s has %d words as text and %d as HTML", name, n, m)
				}
			}
			if on[kind] != nil {
				for _, id := range values["data-session"] {
					on[kind][id]++
				}
			}
		}
		if plan.Outcome == season.Refused {
			return
		}
		for kind, seen := range on {
			for _, s := range plan.Sessions {
				if seen[s.ID] != 1 {
					t.Errorf("%s: session %s is there %d times", kind, s.ID, seen[s.ID])
				}
			}
			if len(seen) != len(plan.Sessions) {
				t.Errorf("%s: %d sessions for %d", kind, len(seen), len(plan.Sessions))
			}
		}
		tableLaws(t, b, plan)
	})
}

// hallSheet is the hall of one athlete.
func hallSheet(t fatal, b *handout.Book, plan *season.Plan) handout.Sheet {
	w, err := handout.NewWall("Team", plan.Period.From, plan.Period.To, b)
	if err != nil {
		t.Fatalf("%v", err)
	}
	var slots []handout.Slot
	for _, e := range w.Entries {
		slots = append(slots, handout.Slot{Date: e.Date, From: e.From, To: e.To, Kind: e.Kind, Places: 3, Athletes: []handout.Label{e.Athlete}})
	}
	return w.Hall("hall", slots...)
}

// keyed holds each page against what every page has: the period, and a key to the
// marks and words on it.
func keyed(t fatal, name string, s handout.Sheet, plan *season.Plan) {
	kind, _, _ := strings.Cut(name, " ")
	for i, p := range strings.Split(s.Fragment(), "<section class=\"sheet")[1:] {
		marks := map[string]bool{"card": true, "physio": true, "parent": true, "hall": strings.Contains(p, "class=\"slot\""), "wall": strings.Contains(p, "big when")}[kind]
		if plan.Outcome != season.Refused && (marks || strings.Contains(p, "data-session")) && !strings.Contains(p, "class=\"key\"") {
			t.Errorf("%s, page %d has no key:\n%s", name, i+1, p)
		}
		year, _, day := plan.Period.To.YMD()
		if from, to, ok := strings.Cut(p, `<p class="plate"><span>`); !ok || from == "" || !strings.HasPrefix(to, fmt.Sprint(firstDay(plan))) || !strings.Contains(strings.SplitN(to, "</span>", 2)[0], fmt.Sprintf("%d ", day)) || !strings.Contains(to, fmt.Sprint(year)) {
			t.Errorf("%s, page %d does not say of when it is", name, i+1)
		}
	}
}

func firstDay(plan *season.Plan) int {
	_, _, day := plan.Period.From.YMD()
	return day
}

// tableLaws read the table back with the reader of the standard library.
func tableLaws(t *rapid.T, b *handout.Book, plan *season.Plan) {
	rows, err := csv.NewReader(strings.NewReader(b.CSV())).ReadAll()
	if err != nil {
		t.Fatalf("%v", err)
	}
	sessions := 0
	for _, r := range rows[1:] {
		if r[5] != "session" {
			continue
		}
		s := plan.Sessions[0]
		for _, x := range plan.Sessions {
			if x.ID == r[11] {
				s = x
			}
		}
		zone, err := calendar.LoadZone(r[4])
		if err != nil {
			t.Fatalf("%v", err)
		}
		if at := zone.Local(s.Start); s.ID != r[11] || at.Date.String() != r[0] || at.Clock.String()[:5] != r[2] || fmt.Sprint(s.Minutes) != r[7] {
			t.Errorf("row %v for session %s at %v", r, s.ID, s.Start)
		}
		sessions++
	}
	if sessions != len(plan.Sessions) {
		t.Errorf("%d rows for %d sessions", sessions, len(plan.Sessions))
	}
}

// What is known about health is on no sheet that others read: the words of
// holds, restrictions and of every note are marked, and every session is
// changed.
func TestSharedSheetsHideHealth(t *testing.T) {
	const mark = "Zebrafinch"
	rapid.Check(t, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{Plain: true})
		from := req.Period.From
		req.Athlete.Restrictions = []season.Restriction{{Region: "adductors", Side: "left", From: from, By: mark}}
		req.Athlete.Holds = []season.Hold{{From: from.AddDays(-3), ClearedBy: mark, ClearedOn: from.AddDays(-1)}}
		plan := planned(t, req)
		taint := func(notes []season.Note) {
			for i := range notes {
				notes[i].Text = mark
				notes[i].Code = "other-" + notes[i].Code
			}
		}
		states := []season.State{season.Eased, season.Swapped, season.Held}
		for i := range plan.Sessions {
			plan.Sessions[i].State = states[i%3]
			taint(plan.Sessions[i].Why)
			plan.Sessions[i].Parts = []season.Part{{Name: mark, Minutes: 9}}
			plan.Changes = append(plan.Changes, season.Change{
				Change: season.Added, Session: plan.Sessions[i].ID, Kind: plan.Sessions[i].Kind, To: &plan.Sessions[i].Start,
				Cause: []season.Note{{Code: "cause-limit-alone", Class: season.Why, Rule: "hold", Text: mark}},
			})
		}
		for i := range plan.Missed {
			plan.Missed[i].Text = mark
			plan.Missed[i].InTheWay = append(plan.Missed[i].InTheWay, season.InTheWay{Rule: "hold"})
		}
		taint(plan.Findings)
		taint(plan.Warnings)
		taint(plan.Refusals)
		b := open(t, req, plan, handout.Options{})
		for name, s := range shared(t, b, plan) {
			for _, secret := range []string{mark, "adductor", "hold", "swapped", "eased", "held"} {
				if strings.Contains(s.Fragment(), secret) || strings.Contains(s.Text(), secret) {
					t.Errorf("%s says %q", name, secret)
				}
			}
		}
		if strings.Contains(b.CSV(), mark) {
			t.Error("the table says why")
		}
		s, err := handout.Physio(from, handout.PhysioCase{Book: b})
		if err != nil || !strings.Contains(s.Text(), mark) {
			t.Errorf("the physiotherapist is told nothing (%v)", err)
		}
	})
}
