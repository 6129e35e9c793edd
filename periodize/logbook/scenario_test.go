package logbook_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/situations"
	"example.org/weft/periodize"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
)

// Each file of testdata/scenarios is one worked situation, invented: a comment
// that says why, a request, the sessions as issued, what cards asked for, tables
// of a log, and what must hold, step by step:
//
//	at INSTANT read TABLE            merges a table into the log
//	at INSTANT refuse TABLE with CODE
//	printed at INSTANT stays         the log as of then, and all that follows from it
//	lifts DATES = N..M               least and most; also sessions, empty
//	missed DATES = N
//	asks CODE once, of SESSION       or "asks nothing"
//	next EXERCISE = STEP LOAD, from DATE
//	cards end with SESSION           of the history for the next card
//	sets end on DATE
//	plan lifts DATES <= N            of the plan made with this log
//	plan sessions a date <= N
func TestScenarios(t *testing.T) { situations.Each(t, "scenarios", 1, play) }

// scene is a scenario on the way.
type scene struct {
	*testing.T
	situations.Archive
	req     *season.Request
	planned []season.Session
	cards   []exercise.Card
	log     logbook.Log
	now     time.Time
	printed map[string]string // by instant
}

func play(t *testing.T, a situations.Archive) {
	var err error
	s := &scene{T: t, Archive: a, printed: map[string]string{}}
	s.req, _, err = season.RequestReader{Strict: true}.Read(strings.NewReader(s.Sections["request.json"]))
	if err != nil {
		t.Fatal(err)
	}
	z := s.req.Athlete.Zone
	for _, f := range s.rows("planned") {
		start := z.Resolve(wall(f[1])).Instant
		var minutes int
		if _, err := fmt.Sscan(f[2], &minutes); err != nil || start.IsZero() {
			t.Fatal(f, err)
		}
		s.planned = append(s.planned, season.Session{ID: f[0], Kind: season.Kind(f[3]), Date: wall(f[1]).Date, Start: start, End: start.Add(time.Duration(minutes) * time.Minute), Minutes: minutes})
	}
	for _, f := range s.rows("cards") {
		var sets, reps, left int
		if _, err := fmt.Sscan(strings.Join(f[2:], " "), &sets, &reps, &left); err != nil {
			t.Fatal(f, err)
		}
		c := card(f[0], f[1], sets, reps, left)
		i := slices.IndexFunc(s.planned, func(p season.Session) bool { return p.ID == f[0] })
		c.Date, c.Kind = s.planned[i].Date, s.planned[i].Kind
		s.cards = append(s.cards, c)
	}
	for _, f := range s.rows("assertions") {
		if wrong := s.step(f); wrong != "" {
			t.Errorf("%s: %s", strings.Join(f, " "), wrong)
		}
	}
}

// rows are the words of each line of a section.
func (s *scene) rows(section string) (out [][]string) {
	for _, line := range s.Lines(section) {
		out = append(out, strings.Fields(line))
	}
	return out
}

func (s *scene) given() logbook.Given { return s.givenAt(s.now) }

func (s *scene) givenAt(now time.Time) logbook.Given {
	return logbook.Given{Today: calendar.DateOf(now, s.req.Athlete.Zone).AddDays(1), Athlete: s.req.Athlete, Kit: exercise.Gym(), Cards: s.cards}
}

// sheet is all that follows from a log.
func (s *scene) sheet(l logbook.Log, at string) string {
	v := l.View("k16")
	lifts, warnings, err := v.Progress(s.givenAt(instant(at)))
	if err != nil {
		s.Fatal(err)
	}
	return fmt.Sprintf("%+v %+v %+v", v, lifts, warnings)
}

func (s *scene) tally(dates string) logbook.Tally {
	from, to, _ := strings.Cut(dates, "..")
	return s.log.View("k16").Tally(logbook.Past{Period: season.Period{From: day(from), To: day(to)}, Planned: s.planned, Now: s.now, Zone: s.req.Athlete.Zone})
}

func (s *scene) step(f []string) (wrong string) {
	bounds := func(b logbook.Bounds) string {
		if got := fmt.Sprintf("%d..%d", b.Least, b.Most); got != f[3] {
			return got
		}
		return ""
	}
	switch f[0] {
	case "at":
		return s.read(f[1], f[2], f[3], f[len(f)-1])
	case "printed":
		if d := cmp.Diff(s.printed[f[2]], s.sheet(s.log.AsOf(instant(f[2])), f[2])); d != "" {
			return d
		}
	case "lifts":
		return bounds(s.tally(f[1]).Lifts)
	case "sessions":
		return bounds(s.tally(f[1]).Sessions)
	case "empty":
		return bounds(s.tally(f[1]).EmptyRun)
	case "missed":
		if n := s.tally(f[1]).Missed; fmt.Sprint(n) != f[3] {
			return fmt.Sprint(n)
		}
	case "asks":
		asked := s.tally("2026-01-01..2027-12-31").Questions
		if f[1] == "nothing" && len(asked) > 0 || f[1] != "nothing" && (len(asked) != 1 || asked[0].Code != f[1] || asked[0].Subject.Session != f[4]) {
			return fmt.Sprint(asked)
		}
	case "next":
		l, ok, err := s.log.View("k16").Lift(f[1], s.given())
		got := fmt.Sprintf("%s %v, from %s", l.Step, l.Next.Value, l.On)
		if want := strings.Join(f[3:], " "); !ok || err != nil || got != want || len(l.Questions) > 0 {
			return fmt.Sprint(got, " ", l.Why.Text, l.Questions, err)
		}
	case "cards", "sets":
		return s.history(f)
	case "plan":
		return s.plan(f)
	default:
		return "no such assertion"
	}
	return ""
}

func (s *scene) read(at, how, table, code string) string {
	s.now = instant(at)
	l, _, err := logbook.Reader{Strict: true, Athlete: "k16", Zone: s.req.Athlete.Zone, Now: s.now}.CSV(strings.NewReader(s.Sections[table]), table)
	if how == "refuse" {
		if list := problemsOf(err); len(list) == 0 || list[0].Code != code {
			return fmt.Sprint(err)
		}
		return ""
	}
	if err != nil {
		return err.Error()
	}
	if s.log = logbook.Merge(l, s.log, l); len(s.log.Clashes()) > 0 {
		return "clashes"
	}
	s.printed[at] = s.sheet(s.log, at)
	return ""
}

func (s *scene) history(f []string) string {
	h, err := s.log.View("k16").History(s.given())
	switch {
	case err != nil:
		return err.Error()
	case f[0] == "cards" && (len(h.Cards) == 0 || h.Cards[len(h.Cards)-1].Session != f[3]):
		return fmt.Sprintf("%+v", h.Cards)
	case f[0] == "sets" && (len(h.Sets) == 0 || h.Sets[len(h.Sets)-1].Date != day(f[3])):
		return fmt.Sprintf("%+v", h.Sets)
	}
	return ""
}

func (s *scene) plan(f []string) string {
	req := *s.req
	req.Now, req.Log = s.now, s.log.View("k16").Done()
	var planner periodize.Planner
	plan, err := planner.Plan(context.Background(), &req)
	if err != nil {
		return err.Error()
	}
	var most int
	if _, err := fmt.Sscan(f[len(f)-1], &most); err != nil {
		return err.Error()
	}
	count := map[string]int{}
	for _, x := range plan.Sessions {
		if x.State == season.DoneState {
			continue
		}
		if f[1] == "sessions" {
			count[x.Date.String()]++
			continue
		}
		from, to, _ := strings.Cut(f[2], "..")
		if (season.Period{From: day(from), To: day(to)}).Contains(x.Date) && x.Kind.Lift() {
			count["lifts"]++
		}
	}
	if len(count) == 0 {
		return "nothing is planned"
	}
	for what, n := range count {
		if n > most {
			return fmt.Sprint(what, ": ", n)
		}
	}
	return ""
}
