package exercise_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
	"example.org/weft/internal/situations"
	"example.org/weft/load"
	"example.org/weft/periodize"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

var update = flag.Bool("update", false, "write the cards of the situations anew")

// situation is one file of testdata/situations, invented: a comment that says
// why, and sections
//
//	request.json   what is planned
//	club.json      optional: {"profile": {...}, "kit": ..., "sets": [{"exercise", "date", "load", "reps", "left"}]}
//	report.json    optional: {"date": "...", "checkIn": {...}}
//	move           optional: an event, its new start and the instant of the news
//	assertions     what must hold of any good answer, see holds
//	cards          the cards of the dates that the assertions name, written by -update
type situation struct {
	plan    *season.Plan
	first   *season.Plan // before a move
	club    exercise.Club
	cards   []exercise.Card
	result  exercise.Result
	on      calendar.Date // of the report
	week    *periodize.Week
	current exercise.Card
	shown   []string
}

func TestSituations(t *testing.T) {
	situations.Each(t, "situations", 11, func(t *testing.T, a situations.Archive) {
		s := makeSituation(t, a.Sections)
		for _, line := range a.Lines("assertions") {
			if wrong := s.holds(strings.Fields(line)); wrong != "" {
				t.Errorf("%s: %s\n%s", line, wrong, printed(s.current))
			}
		}
		got := strings.Join(s.shown, "\n")
		if *update {
			a.Write(t, "cards", got)
			return
		}
		if d := cmp.Diff(a.Sections["cards"], got); d != "" {
			t.Errorf("other cards (-update writes them): %s", d)
		}
	})
}

func makeSituation(t *testing.T, sections map[string]string) *situation {
	t.Helper()
	fatal := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	req, _, err := season.RequestReader{Strict: true}.Read(strings.NewReader(sections["request.json"]))
	fatal(err)
	var p periodize.Planner
	s := &situation{club: exercise.Club{Athlete: req.Athlete, Kits: map[string]exercise.Kit{}}}
	s.plan, err = p.Plan(context.Background(), req)
	fatal(err)
	if move := strings.Fields(sections["move"]); len(move) == 3 {
		s.first = s.plan
		next, err := season.Apply(*req, season.Move(move[0], move[1]))
		fatal(err)
		fatal(next.Now.UnmarshalText([]byte(move[2])))
		req = &next
		s.plan, err = p.Replan(context.Background(), req, s.first)
		fatal(err)
	}
	if text := sections["club.json"]; text != "" {
		var in struct {
			Profile exercise.Profile
			Kit     *exercise.Kit
			Sets    []struct {
				Exercise, Load string
				Date           calendar.Date
				Reps, Left     int
			}
		}
		fatal(json.Unmarshal([]byte(text), &in))
		s.club.Profile = in.Profile
		for _, x := range s.plan.Sessions {
			if in.Kit != nil {
				s.club.Kits[x.Place] = *in.Kit
			}
		}
		for _, x := range in.Sets {
			m, err := load.ParseMass(x.Load)
			fatal(err)
			s.club.History.Sets = append(s.club.History.Sets, exercise.DoneSet{Exercise: x.Exercise, Date: x.Date, Load: m, Reps: x.Reps, Left: x.Left})
		}
	}
	_, s.cards, err = exercise.Builder{}.Season(*s.plan, s.club)
	fatal(err)
	if text := sections["report.json"]; text != "" {
		var in struct {
			Date    calendar.Date
			CheckIn exercise.CheckIn
		}
		fatal(json.Unmarshal([]byte(text), &in))
		i := slices.IndexFunc(s.cards, func(c exercise.Card) bool { return c.Date == in.Date })
		if i < 0 {
			t.Fatal("no card on the date of the report")
		}
		input, card, err := exercise.Builder{}.Written(*s.plan, s.club, s.cards[i].Session)
		fatal(err)
		s.result, err = exercise.Builder{}.Today(input, card, in.CheckIn)
		fatal(err)
		s.week, err = p.Today(context.Background(), req, s.plan, card, s.result)
		fatal(err)
		s.on = in.Date
	}
	return s
}

// holds says what is wrong with an assertion, "" if nothing is.
//
//	plan KINDS DATES op N        sessions of the plan; ops are = <= >=
//	changed <= N                 sessions not as before the move
//	card DATE                    what follows is about its card
//	today STATE                  what follows is about the card the report leads to
//	kind K, minutes A..B, rounds-of SLOT A..B, reps-of SLOT TEXT, pattern-of SLOT P,...
//	uses ID, not ID,ID,...       not: nowhere, warm-up and relatives among them
//	kilograms SLOT N or none, raw SLOT TEXT
//	complete, note CODE, physio, refer, clearance, wall modified
//	week-sets MONDAY A..B percent of the mean of the three weeks before
//	nothing-new DATES            every exercise was on an earlier card
//	week-changes op N            what the report changes later
func (s *situation) holds(w []string) string {
	word := func(i int) string {
		if i < len(w) {
			return w[i]
		}
		return ""
	}
	switch word(0) {
	case "plan":
		return situations.Compare(len(s.sessions(word(1), word(2))), word(3), word(4))
	case "changed":
		n := 0
		for _, c := range s.plan.Changes {
			if c.Change != season.Unchanged {
				n++
			}
		}
		return situations.Compare(n, word(1), word(2))
	case "week-changes":
		return situations.Compare(len(s.week.Changes), word(1), word(2))
	case "card":
		for _, c := range s.cards {
			if c.Date == day(word(1)) {
				s.show(c)
				return ""
			}
		}
		return "there is none"
	case "today":
		return s.today(word(1))
	case "week-sets":
		return s.weekSets(day(word(1)), word(2))
	case "nothing-new":
		return s.nothingNew(word(1))
	}
	return s.holdsOfCard(word(0), word(1), word(2))
}

func (s *situation) show(c exercise.Card) {
	s.current = c
	s.shown = append(s.shown, printed(c))
}

func (s *situation) today(state string) string {
	if s.result == nil {
		return "there is no report"
	}
	lines := ""
	for _, n := range whyOf(s.result) {
		lines += "  - " + n.Text + "\n"
	}
	s.current = exercise.Card{}
	switch r := s.result.(type) {
	case exercise.AsWritten:
		s.current = r.Card
	case exercise.Eased:
		s.current = r.Card
	case exercise.Swapped:
		s.current = r.Card
	}
	s.shown = append(s.shown, fmt.Sprintf("report of %s: %s\n%s", s.on, s.result.State(), lines)+printed(s.current))
	if string(s.result.State()) != state {
		return string(s.result.State())
	}
	return ""
}

func (s *situation) holdsOfCard(what, x, y string) string {
	c := s.current
	slot := func() exercise.Item {
		for _, b := range c.Blocks {
			for _, it := range b.Items {
				if it.Slot == strings.ReplaceAll(x, "-", " ") {
					return it
				}
			}
		}
		return exercise.Item{}
	}
	it := slot()
	switch what {
	case "kind":
		return same(string(c.Kind), x)
	case "minutes":
		return within(c.Minutes, x)
	case "rounds-of":
		return within(it.Exercise.Sets, y)
	case "reps-of":
		return same(it.Exercise.Reps, y)
	case "pattern-of":
		if !slices.Contains(strings.Split(y, ","), it.Exercise.Pattern) {
			return "it is " + it.Exercise.Pattern
		}
		return ""
	case "kilograms":
		got := "none"
		if it.Exercise.Load != nil {
			got = strings.TrimSuffix(load.Mass(it.Exercise.Load.Grams).String(), " kg")
		}
		return same(got, y)
	case "raw":
		if it.Exercise.Evidence == nil || !strings.HasPrefix(it.Exercise.Evidence.Values["raw"].Text, y) {
			return fmt.Sprint(it.Exercise.Evidence)
		}
		return ""
	case "effort":
		if !strings.Contains(it.Exercise.Effort, strings.ReplaceAll(y, "-", " ")) {
			return it.Exercise.Effort
		}
		return ""
	case "uses", "not":
		for _, id := range strings.Split(x, ",") {
			e, ok := exercise.Catalogue{}.Find(id)
			if !ok {
				return "no such exercise: " + id
			}
			found := strings.Contains(printed(c), e.Name)
			for _, b := range c.Blocks {
				for _, it := range b.Items {
					found = found || it.ID == id || it.Easier == e.Name || it.Harder == e.Name
				}
			}
			if found != (what == "uses") {
				return fmt.Sprintf("%s: %v", id, found)
			}
		}
		return ""
	case "complete":
		if len(c.Omitted) > 0 || len(c.Regions()) == 0 {
			return fmt.Sprint(c.Omitted)
		}
		return ""
	case "note":
		if !hasNote(c.Notes, x) && (s.result == nil || !hasNote(whyOf(s.result), x)) {
			return "no such note"
		}
		return ""
	case "physio", "refer", "clearance":
		d, _ := s.result.(exercise.Swapped)
		h, _ := s.result.(exercise.Held)
		if !map[string]bool{"physio": len(d.Physio)+len(h.Physio) > 0, "refer": d.Refer, "clearance": h.Clearance}[what] {
			return "it is not so"
		}
		return ""
	case "wall":
		if m := c.Wall(); !m.Modified || len(m.Lines) > 0 {
			return fmt.Sprint(m)
		}
		return ""
	}
	return "not understood"
}

func (s *situation) sessions(kinds, span string) []season.Session {
	from, to := situations.Ends(span)
	return situations.Those(s.plan.Sessions, kinds, day(from), day(to))
}

func (s *situation) weekSets(monday calendar.Date, percent string) string {
	sets := func(from calendar.Date) (n int) {
		for _, c := range s.cards {
			if d := c.Date.DaysSince(from); d >= 0 && d < 7 && c.Kind.Lift() {
				for _, k := range c.Sets() {
					n += k
				}
			}
		}
		return n
	}
	usual := 0
	for n := 1; n <= 3; n++ {
		usual += sets(monday.AddDays(-7 * n))
	}
	if usual == 0 {
		return "nothing before"
	}
	return within(300*sets(monday)/usual, percent)
}

func (s *situation) nothingNew(span string) string {
	a, b, _ := strings.Cut(span, "..")
	seen := map[string]bool{}
	for _, c := range s.cards {
		asked := !c.Date.Before(day(a)) && !c.Date.After(day(b))
		for _, x := range c.Blocks {
			for _, it := range x.Items {
				if asked && x.Rounds > 0 && !seen[it.ID] {
					return it.ID + " is new on " + c.Date.String()
				}
			}
		}
		for _, x := range c.Blocks {
			for _, it := range x.Items {
				seen[it.ID] = true
			}
		}
	}
	return ""
}

func same(got, want string) string {
	if got != strings.ReplaceAll(want, "_", " ") {
		return got
	}
	return ""
}

func within(n int, span string) string {
	a, b := situations.Ends(span)
	if situations.Compare(n, ">=", a) != "" || situations.Compare(n, "<=", b) != "" {
		return fmt.Sprint("got ", n)
	}
	return ""
}
