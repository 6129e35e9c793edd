package periodize

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/internal/situations"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the plans of the scenarios anew")

// Each file of testdata/scenarios is one worked situation, invented: a comment
// that says why, a request, what must hold of any good plan, and the plan itself.
//
//	count KINDS DATES = N        also >= and <=
//	no KINDS DATES
//	ends KINDS in T1..T2         at least one does
//	every KINDS DATES ends by T
//	every KINDS DATES lasts N..M minutes
//	every KINDS DATES has N hours to the next game
//	at PLACE KINDS DATES         some, and all of them there
//	window KINDS <= N            in any 7 dates
//	empty DATES <= N             longest run of dates without a session
//	broken = N
//	note CODE                    a finding or question of the plan
//	missed AIM DATES             or "kept AIM DATES"
//
// KINDS is a kind, several with commas, or lift, heavy or session. DATES is a
// date, a span of dates, or "all".
func TestScenarios(t *testing.T) { situations.Each(t, "scenarios", 28, scenario) }

func scenario(t *testing.T, a situations.Archive) {
	sections := a.Sections
	if sections["request.json"] == "" || sections["assertions"] == "" {
		t.Fatal("request.json or assertions missing")
	}
	req, problems, err := season.RequestReader{Strict: true}.Read(strings.NewReader(sections["request.json"]))
	if err != nil {
		t.Fatal(err, problems)
	}
	var p Planner
	plan, err := p.Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(plan)
	if err != nil {
		t.Fatal(err)
	}
	for _, breach := range seasontest.Check(b, req) {
		t.Error(breach)
	}
	for _, line := range a.Lines("assertions") {
		if wrong := holds(plan, strings.Fields(line)); wrong != "" {
			t.Errorf("%s: %s", line, wrong)
		}
	}
	golden := lines(plan)
	if *update {
		a.Write(t, "plan", golden)
		return
	}
	if d := cmp.Diff(sections["plan"], golden); d != "" {
		t.Errorf("another plan (-update writes it): %s", d)
	}
}

func lines(p *season.Plan) string {
	out := fmt.Sprintf("%s, %s, %d broken, %d points\n", p.Outcome, p.Proof, p.Cost.Broken, p.Cost.Points)
	for _, s := range p.Sessions {
		out += fmt.Sprintf("%s-%s %s %s", s.Start.Format("Mon 2006-01-02 15:04"), s.End.Format("15:04"), s.Kind, s.Place)
		if l := s.Local; l != nil {
			out += fmt.Sprintf(", %s-%s in %s", l.Start, l.End.Clock, l.Zone)
		}
		out += "\n"
	}
	return out
}

// holds says what is wrong with an assertion, "" if nothing is.
func holds(p *season.Plan, w []string) string {
	word := func(i int) string {
		if i < len(w) {
			return w[i]
		}
		return ""
	}
	switch word(0) {
	case "count":
		return situations.Compare(len(those(p, word(1), word(2))), word(3), word(4))
	case "no":
		return situations.Compare(len(those(p, word(1), word(2))), "=", "0")
	case "broken":
		return situations.Compare(int(p.Cost.Broken), word(1), word(2))
	case "ends":
		from, to, _ := strings.Cut(word(3), "..")
		for _, s := range those(p, word(1), "all") {
			if !s.End.Before(instant(p, from)) && !s.End.After(instant(p, to)) {
				return ""
			}
		}
		return "none does"
	case "every":
		return every(p, w)
	case "at":
		list := those(p, word(2), word(3))
		for _, s := range list {
			if s.Place != word(1) {
				return fmt.Sprintf("that of %s is at %s", s.Date, s.Place)
			}
		}
		if len(list) == 0 {
			return "there is none"
		}
		return ""
	case "window":
		most := 0
		for d := p.Period.From; !d.After(p.Period.To); d = d.AddDays(1) {
			most = max(most, len(those(p, word(1), d.String()+".."+d.AddDays(6).String())))
		}
		return situations.Compare(most, word(2), word(3))
	case "empty":
		longest, run := 0, 0
		from, to := dates(p, word(1))
		for d := from; !d.After(to); d = d.AddDays(1) {
			if run++; len(those(p, "session", d.String())) > 0 {
				run = 0
			}
			longest = max(longest, run)
		}
		return situations.Compare(longest, word(2), word(3))
	case "note":
		for _, n := range append(append([]season.Note(nil), p.Findings...), p.Questions...) {
			if n.Code == word(1) {
				return ""
			}
		}
		return "no such note"
	case "missed", "kept":
		from, to := dates(p, word(2))
		found := false
		for _, m := range p.Missed {
			found = found || m.Aim == word(1) && !m.To.Before(from) && !m.From.After(to)
		}
		if found != (word(0) == "missed") {
			return fmt.Sprintf("missed: %v", found)
		}
		return ""
	}
	return "not understood"
}

func every(p *season.Plan, w []string) string {
	if len(w) < 5 {
		return "not understood"
	}
	list := those(p, w[1], w[2])
	for _, s := range list {
		switch w[3] {
		case "ends":
			if s.End.After(instant(p, w[5])) {
				return "one ends " + s.End.Format("2006-01-02 15:04")
			}
		case "lasts":
			from, to, _ := strings.Cut(w[4], "..")
			if situations.Compare(s.Minutes, ">=", from) != "" || situations.Compare(s.Minutes, "<=", to) != "" {
				return fmt.Sprintf("one lasts %d", s.Minutes)
			}
		case "has":
			n, err := strconv.Atoi(w[4])
			if err != nil {
				return err.Error()
			}
			for _, g := range p.Games {
				if gap := g.Start.Sub(s.End); g.Start.After(s.Start) && gap < time.Duration(n)*time.Hour {
					return fmt.Sprintf("%s of %s has %s to %s", s.Kind, s.Date, gap, g.ID)
				}
			}
		default:
			return "not understood"
		}
	}
	return ""
}

// those are the sessions of the kinds on the dates.
func those(p *season.Plan, kinds, span string) []season.Session {
	from, to := dates(p, span)
	return situations.Those(p.Sessions, kinds, from, to)
}

// dates reads a span of dates. What is no date matches nothing and shows as a
// wrong count.
func dates(p *season.Plan, span string) (from, to calendar.Date) {
	if span == "all" {
		return p.Period.From, p.Period.To
	}
	a, b := situations.Ends(span)
	return seasontest.Date(a), seasontest.Date(b)
}

func instant(p *season.Plan, text string) time.Time {
	w, err := calendar.ParseWall(text)
	if err != nil {
		panic(err)
	}
	return seasontest.Zone(p.Zone).Resolve(w).Instant
}
