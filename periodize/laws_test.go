package periodize

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"os"
	"slices"
	"strconv"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/judge"
	"example.org/weft/internal/seasontest"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// random is the sort of season that the laws are checked on.
var random = seasontest.Options{}

// onSeasons checks a property on so many random seasons: always the same ones,
// so that a run repeats; other ones come with -rapid.seed=N. WEFT_DEEP=1 checks 15
// times as many.
func onSeasons(t *testing.T, n int, property func(*rapid.T)) {
	t.Helper()
	set := func(name, value string) {
		old := flag.Lookup(name).Value.String()
		if err := flag.Set(name, value); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { flag.Set(name, old) })
	}
	set("rapid.nofailfile", "true")
	if os.Getenv("WEFT_DEEP") == "1" {
		n *= 15
	}
	if flag.Lookup("rapid.seed").Value.String() == "0" {
		set("rapid.seed", "20261108")
	}
	set("rapid.checks", strconv.Itoa(n))
	rapid.Check(t, property)
}

func planOf(t *rapid.T, req *season.Request) *season.Plan {
	t.Helper()
	var p Planner
	plan, err := p.Plan(context.Background(), req)
	if err != nil {
		t.Fatalf("%v\n%s", err, shown(req))
	}
	return plan
}

// shown is the request as JSON, for messages.
func shown(req *season.Request) string {
	short := *req
	short.Issued = nil // they are as long as they are many
	b, err := json.Marshal(short)
	if err != nil {
		return err.Error()
	}
	return string(b)
}

func jsonOf(t *rapid.T, v any) []byte {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func lawful(t *rapid.T, req *season.Request, plan *season.Plan) {
	t.Helper()
	for _, breach := range seasontest.Check(jsonOf(t, plan), req) {
		t.Errorf("%s", breach)
	}
	if t.Failed() {
		t.Fatalf("request %s", shown(req))
	}
	if plan.Outcome == season.Planned && plan.Proof != season.Proved {
		t.Fatalf("proof %s for %s", plan.Proof, shown(req))
	}
}

// Laws 1 to 5, 12, 13 and 16 on plans from scratch, and after the season went
// on: the plan issued, days lived, games moved.
func TestLawsOnRandomSeasons(t *testing.T) {
	onSeasons(t, 250, func(t *rapid.T) {
		req := seasontest.Request(t, random)
		plan := planOf(t, req)
		lawful(t, req, plan)
		next, ok := seasontest.Later(t, random, req, plan, true)
		if !ok {
			return
		}
		again := planOf(t, next)
		lawful(t, next, again)
		if third, ok := seasontest.Later(t, random, next, again, true); ok && third.Now.After(next.Now) {
			lawful(t, third, planOf(t, third))
		}
	})
}

// Law 6: the order of the input does not matter.
func TestLawOrderOfInput(t *testing.T) {
	onSeasons(t, 60, func(t *rapid.T) {
		req := seasontest.Request(t, random)
		if rapid.Bool().Draw(t, "later") {
			if next, ok := seasontest.Later(t, random, req, planOf(t, req), true); ok {
				req = next
			}
		}
		before := jsonOf(t, *req)
		plan := jsonOf(t, planOf(t, req))
		if got := jsonOf(t, *req); !bytes.Equal(before, got) {
			t.Fatalf("planning changed the request: %s", cmp.Diff(string(before), string(got)))
		}
		other := jsonOf(t, planOf(t, seasontest.Permuted(t, req)))
		if !bytes.Equal(plan, other) {
			t.Fatalf("another order, another plan: %s\nrequest %s", cmp.Diff(string(plan), string(other)), shown(req))
		}
	})
}

// row is what people see of a session.
type row struct {
	ID, Start, End, Place, Kind string
}

func rows(p *season.Plan, by time.Duration, ids bool) []row {
	out := []row{}
	for _, s := range p.Sessions {
		r := row{s.ID, s.Start.UTC().Add(by).Format(time.RFC3339), s.End.UTC().Add(by).Format(time.RFC3339), s.Place, string(s.Kind)}
		if !ids {
			r.ID = ""
		}
		out = append(out, r)
	}
	return out
}

// Law 7: a re-plan with nothing changed changes nothing, at once or some dates
// later. Once all dates that are left are on hold the plan is refused, and what was
// pinned to them goes.
func TestLawReplanUnchanged(t *testing.T) {
	onSeasons(t, 120, func(t *rapid.T) {
		req := seasontest.Request(t, random)
		plan := planOf(t, req)
		at := *req
		at.Issued = []season.Plan{*plan}
		same := func(what string, req *season.Request) {
			t.Helper()
			again := planOf(t, req)
			if again.Outcome == season.Refused && plan.Outcome == season.Planned {
				for i, s := range plan.Sessions {
					if past := i < len(again.Sessions); past != s.Start.Before(again.Now) || past && s.ID != again.Sessions[i].ID {
						t.Fatalf("%s: refused, and %s of %s\nrequest %s", what, s.Kind, s.Start, shown(req))
					}
				}
				return
			}
			if d := cmp.Diff(rows(plan, 0, true), rows(again, 0, true)); d != "" {
				t.Fatalf("%s: %s\nrequest %s now %s", what, d, shown(req), req.Now)
			}
			for _, c := range again.Changes {
				if c.Change != season.Unchanged {
					t.Fatalf("%s: change %s of %s\nrequest %s", what, c.Change, c.Session, shown(req))
				}
			}
			if again.Cost.Broken < plan.Cost.Broken || again.Revision != plan.Revision+1 {
				t.Fatalf("%s: %s, broken %d after %d, revision %d after %d\nrequest %s", what, again.Outcome, again.Cost.Broken, plan.Cost.Broken, again.Revision, plan.Revision, shown(req))
			}
		}
		same("at once", &at)
		if later, ok := seasontest.Later(t, random, req, plan, false); ok {
			same("later", later)
		}
	})
}

// Law 8: the whole calendar moved by whole weeks, no clock change inside: the
// same plan moved.
func TestLawShift(t *testing.T) {
	onSeasons(t, 80, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{Zones: seasontest.FixedZones, Steady: true, Plain: random.Plain})
		for _, e := range req.Events { // a zone with clock changes among the events
			for _, z := range []calendar.Zone{e.Zone, e.EndZone} {
				if !z.IsZero() && !z.Equal(req.Athlete.Zone) && z.Name() != "Asia/Kolkata" {
					t.Skip("clock changes")
				}
			}
		}
		weeks := rapid.IntRange(1, 2).Draw(t, "weeks")
		moved := seasontest.Shift(req, weeks)
		a, b := planOf(t, req), planOf(t, moved)
		if d := cmp.Diff(rows(a, time.Duration(weeks)*7*24*time.Hour, false), rows(b, 0, false)); d != "" {
			t.Fatalf("%s\nrequest %s", d, shown(req))
		}
		if d := cmp.Diff(a.Cost, b.Cost); d != "" {
			t.Fatalf("%s\nrequest %s", d, shown(req))
		}
		for i := range a.Missed {
			x, y := a.Missed[i], b.Missed[i]
			if x.Aim != y.Aim || x.From.AddDays(7*weeks) != y.From || x.To.AddDays(7*weeks) != y.To || len(x.InTheWay) != len(y.InTheWay) {
				t.Fatalf("missed %+v, moved %+v", x, y)
			}
		}
	})
}

// loosened is one limit made looser.
var loosened = []season.Override{
	number("full-before-game", 36), number("eccentric-before-game", 60), number("primer-latest", 8), number("primer-earliest", 42),
	number("between-games", 16), number("between-games-recovery", 40), number("after-game-full", 12), number("after-game-trimmed", 6),
	number("post-game", 90), number("post-game-next", 28), number("post-game-age", 14), number("latest-end", 23*60),
	number("latest-end-minor", 21*60+15), number("latest-end-15", 20*60+30), number("sleep", 7), number("sleep-minor", 9),
	number("sessions-a-date", 2), number("sessions-apart", 4), number("exam-date", 21*60), number("exam-minutes", 45), number("exam-count", 4),
	number("long-haul", 6), number("lifts-in-7", 4), number("lifts-in-7-break", 5), number("lifts-in-7-beginner", 3), number("heavy-gap", 30),
	number("no-free-date", 3), number("eccentric-place", 1), number("eccentric-count", 3),
	number("buffer-game-after", 5), number("buffer-game-before", 10), number("buffer-practice-after", 0), number("buffer-practice-before", 0),
	number("buffer-travel-after", 0), number("buffer-exam-before", 0),
	disabled("full-before-game"), disabled("eccentric-before-game"), disabled("between-games"), disabled("game-date"), disabled("after-game-full"),
	disabled("after-game-trimmed"), disabled("double-fixture"), disabled("sleep"), disabled("sleep-minor"), disabled("exam-date"),
	disabled("exam-count"), disabled("long-haul"), disabled("minor-lift-dates"), disabled("free-date"), disabled("no-free-date"),
}

func number(id string, n int) season.Override {
	return season.Override{Rule: id, Value: &n, By: "head coach", Reason: "trial"}
}

func disabled(id string) season.Override {
	return season.Override{Rule: id, Off: true, By: "head coach", Reason: "trial"}
}

func worse(a, b season.Cost) bool {
	return a.Broken > b.Broken || a.Broken == b.Broken && a.Points > b.Points
}

// Law 14, first half: a limit relaxed never makes the plan worse.
func TestLawRelaxedLimit(t *testing.T) {
	onSeasons(t, 150, func(t *rapid.T) {
		req := seasontest.Request(t, random)
		loose := rapid.SampledFrom(loosened).Draw(t, "loose")
		for _, o := range req.Rules {
			if o.Rule == loose.Rule {
				t.Skip("already changed")
			}
		}
		if _, ok := seasontestValid(req, loose); !ok {
			t.Skip("contradicts another override")
		}
		relaxed := *req
		relaxed.Rules = append(append([]season.Override(nil), req.Rules...), loose)
		a, b := planOf(t, req), planOf(t, &relaxed)
		if worse(b.Cost, a.Cost) {
			t.Fatalf("%s relaxed: %+v before, %+v after\nrequest %s", loose.Rule, a.Cost, b.Cost, shown(req))
		}
	})
}

// seasontestValid reports whether a request takes one more override.
func seasontestValid(req *season.Request, o season.Override) (*season.Request, bool) {
	out := *req
	out.Rules = append(append([]season.Override(nil), req.Rules...), o)
	var p Planner
	_, err := p.prepare(&out)
	return &out, err == nil
}

// Law 14, second half: a further window apart from the others never makes the
// plan worse.
func TestLawFurtherWindow(t *testing.T) {
	onSeasons(t, 100, func(t *rapid.T) {
		req := seasontest.Request(t, random)
		if len(req.Athlete.Hours) == 0 {
			t.Skip("the athlete's hours leave no room for another window")
		}
		// A window that touches none of the athlete's, anywhere in the week.
		from := rapid.IntRange(0, 21).Draw(t, "from") * 60
		to := from + rapid.IntRange(1, 3).Draw(t, "hours")*60
		for _, h := range req.Athlete.Hours {
			if int(h.From)/60 <= to && from <= int(h.To)/60 {
				t.Skip("touches another window")
			}
		}
		wider := *req
		days := []time.Weekday{time.Monday, time.Wednesday, time.Saturday, time.Sunday}
		wider.Athlete.Hours = append(append([]season.Hours(nil), req.Athlete.Hours...), season.Hours{Days: days, From: calendar.Clock(from * 60), To: calendar.Clock(to * 60)})
		a, b := planOf(t, req), planOf(t, &wider)
		if worse(b.Cost, a.Cost) {
			t.Fatalf("open %02d:00 to %02d:00 too: %+v before, %+v after\nrequest %s", from/60, to/60, a.Cost, b.Cost, shown(req))
		}
	})
}

// Law 14, third part: taking a game out breaks no limit except those that need
// that game and the free-date limit. Runs of game-free dates grow together or
// end in the open without it, and two games are no longer close without it: what
// stands on them may break too, in the dates of the two runs beside the game. A
// place that goes with the team is open because of a game away. A game that brings
// the clock of another zone is left out here.
func TestLawGameTakenOut(t *testing.T) {
	needGame := map[string]bool{"primer-window": true, "post-game": true, "free-date": true}
	onRun := map[string]bool{"eccentric-place": true, "lifts-in-7": true, "sessions-a-date": true}
	onPair := map[string]bool{"session-length": true, "game-date": true} // of a recovery session between them
	onSeasons(t, 150, func(t *rapid.T) {
		req := seasontest.Request(t, random)
		var games []int
		for i, e := range req.Events {
			if e.Kind == calendar.Game && e.Active() {
				games = append(games, i)
			}
		}
		if len(games) == 0 {
			t.Skip("no game")
		}
		out := rapid.SampledFrom(games).Draw(t, "out")
		w, slots := solved(t, req)
		less := *req
		less.Events = append(append([]calendar.Event(nil), req.Events[:out]...), req.Events[out+1:]...)
		var p Planner
		without, err := p.prepare(&less)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(w.model.Offsets(), without.model.Offsets()) {
			t.Skip("the game brings its clock, and other sessions stand on other dates without it")
		}
		before := breaches(t, w.model, slots)
		for b := range breaches(t, without.model, slots) {
			if before[b] || needGame[b.Rule] {
				continue
			}
			s := &slots[b.Session]
			if b.Rule == "open-hours" && s.Place < len(req.Places) && w.model.Places[s.Place].Away {
				continue
			}
			if onRun[b.Rule] || onPair[b.Rule] && s.Kind == season.Recovery {
				continue
			}
			t.Fatalf("without %s the %s of %s breaks %s\nrequest %s", req.Events[out].ID, s.Kind, calendar.DateFromDayNumber(s.Day), b.Rule, shown(req))
		}
	})
}

type breach struct {
	Rule    string
	Session int
}

// solved is the work of a plan and its sessions, without what is said of them.
func solved(t *rapid.T, req *season.Request) (*work, []starts.Slot) {
	t.Helper()
	var p Planner
	w, err := p.prepare(req)
	if err != nil {
		t.Fatalf("%v\n%s", err, shown(req))
	}
	if err := w.solve(context.Background()); err != nil {
		t.Fatalf("%v\n%s", err, shown(req))
	}
	return w, w.slots
}

func breaches(t *rapid.T, m *starts.Model, slots []starts.Slot) map[breach]bool {
	t.Helper()
	v, err := verdictOf(m, slots)
	if err != nil {
		t.Fatal(err)
	}
	out := map[breach]bool{}
	for _, list := range [][]judge.Breach{v.Illegal, v.Breaches} {
		for _, b := range list {
			if i := b.Session - len(m.History); i >= 0 {
				out[breach{b.Rule, i}] = true
			}
		}
	}
	return out
}

// Law 15: nothing depends on the zone of the machine, nor on the zone in which
// an instant is given.
func TestLawMachine(t *testing.T) {
	onSeasons(t, 30, func(t *rapid.T) {
		req := seasontest.Request(t, random)
		if next, ok := seasontest.Later(t, random, req, planOf(t, req), true); ok {
			req = next
		}
		plan := jsonOf(t, planOf(t, req))
		old := time.Local
		time.Local = seasontest.Zone(rapid.SampledFrom([]string{"Asia/Kolkata", "America/Santiago"}).Draw(t, "machine")).Location()
		req.Now = req.Now.In(time.Local)
		other := jsonOf(t, planOf(t, req))
		time.Local = old
		if !bytes.Equal(plan, other) {
			t.Fatalf("another machine, another plan: %s", cmp.Diff(string(plan), string(other)))
		}
	})
}
