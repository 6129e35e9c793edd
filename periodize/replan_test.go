package periodize

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// herons is a week of a rugby player whose game of Saturday is pulled to
// Thursday. Invented.
func herons(t *testing.T) *season.Request {
	t.Helper()
	req, err := season.ReadRequest(strings.NewReader(`{"schema": 1, "period": {"from": "2026-11-02", "to": "2026-11-15"},
 "athlete": {"id": "a3", "born": "2000-06", "zone": "Europe/London", "trainingAgeYears": 5,
  "hours": [{"days": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"], "from": "09:00", "to": "21:00"}]},
 "places": [{"id": "gym"}],
 "events": [
  {"id": "g0", "kind": "game", "start": "2026-10-31T15:00", "end": "2026-10-31T16:40"},
  {"id": "g1", "kind": "game", "start": "2026-11-07T15:00", "end": "2026-11-07T16:40"},
  {"id": "g2", "kind": "game", "start": "2026-11-14T15:00", "end": "2026-11-14T16:40"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	return req
}

func ask(t *testing.T, req *season.Request) *season.Plan {
	t.Helper()
	var p Planner
	plan, err := p.Plan(context.Background(), req)
	if err != nil {
		t.Fatalf("%v\n%s", err, shown(req))
	}
	b := jsonText(t, plan)
	for _, breach := range seasontest.Check(b, req) {
		t.Error(breach)
	}
	if plan.Proof != season.Proved {
		t.Errorf("proof %s", plan.Proof)
	}
	return plan
}

// issue is the request some time later: the plan was handed out.
func issue(req *season.Request, plan *season.Plan, now string, edits ...season.Edit) *season.Request {
	next, err := season.Apply(*req, edits...)
	if err != nil {
		panic(err) // of a test
	}
	next.Issued = append(append([]season.Plan(nil), req.Issued...), *plan)
	next.Now = next.Athlete.Zone.Resolve(wallOf(now)).Instant
	return &next
}

func wallOf(s string) calendar.Wall {
	w, err := calendar.ParseWall(s)
	if err != nil {
		panic(err) // of a test
	}
	return w
}

// on are the kinds on a date of November 2026.
func on(p *season.Plan, day int) string {
	var out []string
	for _, s := range p.Sessions {
		if s.Date.String() == fmt.Sprintf("2026-11-%02d", day) {
			out = append(out, string(s.Kind))
		}
	}
	return strings.Join(out, ",")
}

func changed(p *season.Plan) []season.Change {
	var out []season.Change
	for _, c := range p.Changes {
		if c.Change != season.Unchanged {
			out = append(out, c)
		}
	}
	return out
}

// issuedHerons is the plan that was handed out: full-body on Monday and on
// Wednesday at 17:00, primer on Friday.
func issuedHerons(t *testing.T) (*season.Request, *season.Plan) {
	t.Helper()
	req := herons(t)
	at := calendar.Clock(17 * 3600)
	req.Pins = []season.Pin{{Date: seasontest.Date("2026-11-02"), Kind: season.FullBody}, {Date: seasontest.Date("2026-11-04"), Kind: season.FullBody, Start: &at}}
	plan := ask(t, req)
	if on(plan, 2) != "full-body" || on(plan, 4) != "full-body" || on(plan, 6) != "primer" {
		t.Fatalf("plan: %s", lines(plan))
	}
	for i := range plan.Sessions { // the hands that pinned it have let go
		plan.Sessions[i].Pinned = false
	}
	req.Pins = nil
	return req, plan
}

func TestGamePulledForward(t *testing.T) {
	req, first := issuedHerons(t)
	news := issue(req, first, "2026-11-03T10:00", season.Move("g1", "2026-11-05T19:45"))
	plan := ask(t, news)
	t.Logf("first:\n%s\nafter the news:\n%s", lines(first), lines(plan))
	if on(plan, 2) != "full-body" || plan.Sessions[0].State != season.DoneState || plan.Sessions[0].ID != first.Sessions[0].ID {
		t.Errorf("Monday: %+v", plan.Sessions[0])
	}
	if got := on(plan, 4); got == "full-body" {
		t.Error("the full-body session of Wednesday stands 26 h before the game")
	}
	if on(plan, 6) == "primer" {
		t.Error("a primer on the day after the game")
	}
	for _, c := range changed(plan) {
		if c.From != nil && c.From.Before(news.Now) {
			t.Errorf("the past changed: %+v", c)
		}
		if !named(c, "cause-game-moved", "g1") {
			t.Errorf("%s of %s names no game: %v", c.Change, c.Session, c.Cause)
		}
	}
	for _, s := range first.Sessions { // nothing else in the second week
		if s.Date.After(seasontest.Date("2026-11-08")) && !keeps(plan, s) {
			t.Errorf("%s of %s changed", s.Kind, s.Date)
		}
	}
	if n := len(changed(plan)); n > 4 {
		t.Errorf("%d changes: %v", n, changed(plan))
	}
}

// Moved back on Wednesday morning: the days not yet lived are those of the plan
// before.
func TestGameMovedBack(t *testing.T) {
	req, first := issuedHerons(t)
	news := issue(req, first, "2026-11-03T10:00", season.Move("g1", "2026-11-05T19:45"))
	second := ask(t, news)
	back := issue(news, second, "2026-11-04T09:00", season.Move("g1", "2026-11-07T15:00"))
	third := ask(t, back)
	for _, s := range first.Sessions {
		if s.Start.After(back.Now) && !keeps(third, s) {
			t.Errorf("%s of %s %s is not back", s.ID, s.Kind, s.Start)
		}
	}
	for _, s := range second.Sessions {
		if s.Start.Before(back.Now) && !keeps(third, s) {
			t.Errorf("the past changed: %s of %s", s.Kind, s.Start)
		}
	}
	for _, s := range third.Sessions {
		if s.Start.After(back.Now) && !keeps(first, s) {
			t.Errorf("%s of %s is new", s.Kind, s.Start)
		}
	}
	for _, c := range changed(third) {
		if !named(c, "cause-game-moved", "g1") {
			t.Errorf("%s of %s names no game: %v", c.Change, c.Session, c.Cause)
		}
	}
	if third.Revision != 2 {
		t.Errorf("revision %d", third.Revision)
	}
}

// The news comes on Wednesday evening, the lift is done: it stays, and nothing is
// done to make up for it.
func TestGamePulledForwardAfterTheLift(t *testing.T) {
	req, first := issuedHerons(t)
	news := issue(req, first, "2026-11-04T18:30", season.Move("g1", "2026-11-05T19:45"))
	for _, s := range first.Sessions {
		if s.Date.String() == "2026-11-04" {
			w := news.Athlete.Zone.Local(s.Start)
			news.Log = append(news.Log, season.Done{ID: "l1", Session: s.ID, Kind: s.Kind, Start: w, End: w.AddMinutes(55), HasEnd: true})
		}
	}
	plan := ask(t, news)
	t.Logf("\n%s", lines(plan))
	if on(plan, 4) != "full-body" || on(plan, 5) != "" {
		t.Errorf("Wednesday %s, Thursday %s", on(plan, 4), on(plan, 5))
	}
	near := false
	for _, n := range plan.Findings {
		near = near || n.Code == "finding-broken" && n.Rule == "full-before-game" && n.Subject.Event == "g1"
	}
	if !near {
		t.Errorf("nothing is said of the 25 h 50: %v", plan.Findings)
	}
	lifts := 0
	for _, s := range plan.Sessions {
		if !s.Date.After(seasontest.Date("2026-11-08")) && s.Kind.Lift() {
			lifts++
		}
	}
	if lifts > 3 {
		t.Errorf("%d lifts in the week", lifts)
	}
	for _, s := range first.Sessions {
		if s.Date.After(seasontest.Date("2026-11-08")) && !keeps(plan, s) {
			t.Errorf("%s of %s changed", s.Kind, s.Date)
		}
	}
}

// Inside the next 24 hours only what has become unsafe changes: the full-body
// session 26 h before the new game goes, the recovery session that a primer would
// serve better stays.
func TestNextDayFrozen(t *testing.T) {
	req, first := issuedHerons(t)
	unsafe := issue(req, first, "2026-11-04T09:00", season.Move("g1", "2026-11-05T19:45"))
	plan := ask(t, unsafe)
	if got := on(plan, 4); strings.Contains(got, "full-body") && got != "trimmed-full-body" {
		t.Errorf("Wednesday %s", got)
	}
	limit := false
	for _, c := range changed(plan) {
		limit = limit || len(c.Cause) > 0 && c.Cause[0].Rule == "full-before-game" && c.From != nil && c.From.Day() == 4
	}
	if !limit {
		t.Errorf("the cause is not named: %v", changed(plan))
	}
	// On Tuesday morning a game of Wednesday evening: a primer would do better on
	// Tuesday than the recovery session at 17:00, which is safe.
	safe := issue(req, first, "2026-11-03T10:00", season.Move("g1", "2026-11-04T19:45"))
	if plan := ask(t, safe); on(plan, 3) != "recovery" || on(plan, 4) != "" {
		t.Errorf("Tuesday %s, Wednesday %s", on(plan, 3), on(plan, 4))
	}
	anew := lived(safe, first)
	if plan := ask(t, anew); on(plan, 3) != "primer" {
		t.Errorf("anew, Tuesday %s", on(plan, 3))
	}
}

func named(c season.Change, code, event string) bool {
	for _, n := range c.Cause {
		if n.Code == code && n.Subject.Event == event {
			return true
		}
	}
	return false
}

// keeps reports whether a plan has a session as another has it.
func keeps(p *season.Plan, s season.Session) bool {
	for _, x := range p.Sessions {
		if x.ID == s.ID && x.Kind == s.Kind && x.Start.Equal(s.Start) && x.End.Equal(s.End) && x.Place == s.Place {
			return true
		}
	}
	return false
}

func jsonText(t *testing.T, plan *season.Plan) []byte {
	t.Helper()
	b, err := plan.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// club is a season of eight weeks with practice on three evenings, a game on
// most weekends and now and then one in the week. Invented.
func club(t *testing.T, variant int) *season.Request {
	t.Helper()
	req := &season.Request{Schema: season.Schema, Period: season.Period{From: seasontest.Date("2026-09-07"), To: seasontest.Date("2026-11-01")}}
	zone := seasontest.Zone("Europe/Copenhagen")
	week := []time.Weekday{1, 2, 3, 4, 5}
	req.Athlete = season.Athlete{ID: "a9", Born: season.YearMonth{Year: 2001, Month: 4}, Zone: zone, TrainingAgeMonths: 48,
		Hours: []season.Hours{{Days: week, From: 15 * 3600, To: 22 * 3600}, {Days: []time.Weekday{0, 6}, From: 9 * 3600, To: 20 * 3600}}}
	req.Places = []season.Place{{ID: "gym", Hours: []season.Hours{{Days: []time.Weekday{0, 1, 2, 3, 4, 5, 6}, From: 7 * 3600, To: 21 * 3600}}}}
	add := func(id string, k calendar.Kind, d calendar.Date, minute, minutes int) {
		e := calendar.Event{ID: id, Kind: k, Zone: zone, Start: calendar.Wall{Date: d, Clock: calendar.Clock(minute * 60)}, HasEnd: true}
		e.End = e.Start.AddMinutes(minutes)
		req.Events = append(req.Events, e)
	}
	for i := 0; i < 56; i++ {
		d := req.Period.From.AddDays(i)
		switch wd := d.Weekday(); {
		case wd == time.Saturday && (i/7+variant)%4 != 3:
			add(fmt.Sprintf("g%d", i/7), calendar.Game, d, 15*60+30, 95)
		case wd == time.Sunday && (i/7+variant)%4 == 3:
			add(fmt.Sprintf("g%d", i/7), calendar.Game, d, 14*60, 95)
		case wd == time.Wednesday && (i/7+variant)%3 == 1:
			add(fmt.Sprintf("w%d", i/7), calendar.Game, d, 19*60+15, 95)
		case wd == time.Tuesday || wd == time.Thursday:
			add("p"+d.String(), calendar.Practice, d, 18*60+30, 90)
		}
	}
	return req
}

// What changes when something moves, against planning anew with the same past:
// practices by a quarter of an hour, games by hours, games by days.
func TestFewestChanges(t *testing.T) {
	first := map[int]*season.Plan{}
	for _, c := range []struct {
		what  string
		edit  func(plan *season.Plan, i int) (id string, from, to calendar.Wall)
		n     int
		most  float64 // changes on average
		share float64 // of those of planning anew
	}{
		{"a practice moves by 15 min", func(plan *season.Plan, i int) (string, calendar.Wall, calendar.Wall) {
			d := plan.Period.From.AddDays(8 + 7*(i%6))
			from := calendar.Wall{Date: d, Clock: 18*3600 + 1800}
			return "p" + d.String(), from, from.AddMinutes([]int{15, -15}[i%2])
		}, 12, 0, 1},
		{"a game moves by hours", func(plan *season.Plan, i int) (string, calendar.Wall, calendar.Wall) {
			g := plan.Games[1+i%(len(plan.Games)-2)]
			from := seasontest.Zone(plan.Zone).Local(g.Start)
			return g.ID, from, calendar.Wall{Date: g.Date, Clock: calendar.Clock([]int{13, 18, 20, 11}[i%4] * 3600)}
		}, 20, 2, 1},
		{"a game moves by days", func(plan *season.Plan, i int) (string, calendar.Wall, calendar.Wall) {
			g := plan.Games[1+i%(len(plan.Games)-2)]
			from := seasontest.Zone(plan.Zone).Local(g.Start)
			return g.ID, from, calendar.Wall{Date: g.Date.AddDays([]int{-2, 1, -1, 2, 3, -3, 1}[i%7]), Clock: calendar.Clock([]int{19, 15, 12}[i%3] * 3600)}
		}, 40, 6, 0.9},
	} {
		t.Run(c.what, func(t *testing.T) {
			moves, again, scratch, far, kept := 0, 0, 0, 0, 0
			byKind := map[season.ChangeKind]int{}
			for i := 0; i < c.n; i++ {
				variant := i % 4
				req := club(t, variant)
				if first[variant] == nil {
					first[variant] = ask(t, req)
				}
				plan := first[variant]
				id, from, to := c.edit(plan, i)
				now := calendar.Wall{Date: from.Date.AddDays(min(to.Date.DaysSince(from.Date), 0) - 4), Clock: 10 * 3600}
				moved := issue(req, plan, now.String(), season.Move(id, to.String()))
				p, anew := ask(t, moved), ask(t, lived(moved, plan))
				moves++
				a, b := slots(plan, p, moved.Now), slots(plan, anew, moved.Now)
				if a > b || anew.Cost.Points > p.Cost.Points {
					t.Errorf("%d changes and %d points, anew %d and %d", a, p.Cost.Points, b, anew.Cost.Points)
				}
				again, scratch = again+a, scratch+b
				for _, x := range changed(p) {
					byKind[x.Change]++
					if id[0] != 'p' && !named(x, "cause-game-moved", id) {
						t.Errorf("%s of %s: %v", x.Change, x.Session, x.Cause)
					}
				}
				for _, x := range plan.Sessions {
					if d := x.Date.DaysSince(from.Date); d > 10 || d < -10 {
						far++
						if keeps(p, x) {
							kept++
						}
					}
				}
			}
			t.Logf("%d moves: %.2f changes on average, %.2f from scratch; %v; %d of %d sessions more than 10 dates away kept",
				moves, float64(again)/float64(moves), float64(scratch)/float64(moves), byKind, kept, far)
			if float64(again) > c.most*float64(moves) || float64(again) > c.share*float64(scratch) || kept*50 < far*49 {
				t.Error("too many changes")
			}
		})
	}
}

// lived is the request without the issued plans, what is past of the last logged
// as done.
func lived(req *season.Request, plan *season.Plan) *season.Request {
	out := *req
	out.Issued, out.Log = nil, append([]season.Done(nil), req.Log...)
	for _, x := range plan.Sessions {
		if x.Start.Before(req.Now) {
			w := req.Athlete.Zone.Local(x.Start)
			out.Log = append(out.Log, season.Done{ID: x.ID, Kind: x.Kind, Start: w, End: w.AddMinutes(x.Minutes), HasEnd: true})
		}
	}
	return &out
}

// slots counts the starts from now on at which two plans differ.
func slots(a, b *season.Plan, now time.Time) int {
	at := map[int64]season.Kind{}
	n := 0
	for _, s := range a.Sessions {
		if !s.Start.Before(now) {
			at[s.Start.Unix()] = s.Kind
		}
	}
	for _, s := range b.Sessions {
		if s.Start.Before(now) {
			continue
		}
		if k, ok := at[s.Start.Unix()]; !ok || k != s.Kind {
			n++
		}
		delete(at, s.Start.Unix())
	}
	return n + len(at)
}

// Every game of a season moved by one to three dates and back an hour later: the
// plan is the first again.
func TestAwayAndBack(t *testing.T) {
	n := 0
	for variant := 0; variant < 2; variant++ {
		req := club(t, variant)
		plan := ask(t, req)
		for i, g := range plan.Games {
			if i == 0 {
				continue
			}
			day := g.Date.AddDays(-4).String()
			to := calendar.Wall{Date: g.Date.AddDays([]int{-2, 1, 2, -1}[i%4]), Clock: 19 * 3600}
			away := issue(req, plan, day+"T10:00", season.Move(g.ID, to.String()))
			second := ask(t, away)
			back := issue(away, second, day+"T11:00", season.Move(g.ID, req.Athlete.Zone.Local(g.Start).String()))
			third := ask(t, back)
			if d := cmp.Diff(rows(plan, 0, true), rows(third, 0, true)); d != "" {
				t.Errorf("%s away and back: %s", g.ID, d)
			}
			n++
		}
	}
	if n < 15 {
		t.Errorf("%d games", n)
	}
}

// On random seasons that went on: what is past stays, what begins within 24 h
// stays unless it cannot, every change names its cause, and a session that moved
// is still the same one.
func TestReplanLaws(t *testing.T) {
	soon, unsafe, moved, replans := 0, 0, 0, 0
	onSeasons(t, 120, func(t *rapid.T) {
		req := seasontest.Request(t, random)
		first := planOf(t, req)
		next, ok := seasontest.Later(t, random, req, first, true)
		if !ok {
			t.Skip("no such instant")
		}
		plan := planOf(t, next)
		if first.Outcome == season.Refused || plan.Outcome == season.Refused {
			t.Skip("refused")
		}
		replans++
		var x *Exploration
		logged := map[string]bool{}
		for _, l := range next.Log {
			logged[l.Session] = true
		}
		ids := map[string]bool{}
		for _, s := range plan.Sessions {
			if ids[s.ID] {
				t.Fatalf("id %s twice", s.ID)
			}
			ids[s.ID] = true
		}
		for _, s := range first.Sessions {
			switch {
			case logged[s.ID]:
			case s.Start.Before(next.Now):
				if !keeps(plan, s) {
					t.Fatalf("past and not logged, %s of %s changed\n%s now %s", s.Kind, s.Start, shown(next), next.Now)
				}
			case s.Start.Before(next.Now.Add(24 * time.Hour)):
				if soon++; keeps(plan, s) {
					continue
				}
				unsafe++
				if x == nil {
					x = explored(t, next)
				}
				at := next.Athlete.Zone.Local(s.Start)
				a, err := x.WhyNot(context.Background(), at.Date, s.Kind, &at.Clock)
				if err != nil {
					t.Fatal(err)
				}
				if a.Possible && a.End.Equal(s.End) && changesLess(a.Costs) {
					t.Fatalf("%s of %s begins within 24 h and could stay: %+v\n%s now %s", s.Kind, s.Start, a, shown(next), next.Now)
				}
			}
		}
		var last time.Time
		for _, c := range plan.Changes {
			if c.Change == season.Unchanged {
				if len(c.Cause) > 0 {
					t.Fatalf("unchanged because of %v", c.Cause)
				}
			} else if len(c.Cause) == 0 || c.Cause[0].Text == "" {
				t.Fatalf("%s of %s without a cause", c.Change, c.Session)
			}
			at := earliest(c)
			if at.Before(last) {
				t.Fatalf("changes out of order at %s", at)
			}
			last = at
			switch c.Change {
			case season.Moved:
				moved++
				if !ids[c.Session] || c.From.Equal(*c.To) {
					t.Fatalf("%+v", c)
				}
			case season.Dropped:
				for _, d := range plan.Changes {
					if d.Change == season.Added && d.Kind == c.Kind && !c.From.Before(next.Now) && d.To.Sub(*c.From).Abs() < 7*24*time.Hour {
						t.Fatalf("%s of %s dropped and one added on %s: it has moved\n%s", c.Kind, c.From, d.To, shown(next))
					}
				}
			}
		}
	})
	t.Logf("%d re-plans: %d sessions began within 24 h, %d of them could not stay; %d sessions moved", replans, soon, unsafe, moved)
	if !testing.Short() && (replans < 60 || soon < 15 || moved < 5) {
		t.Error("too few of a sort")
	}
}

func earliest(c season.Change) time.Time {
	if c.To == nil || c.From != nil && c.From.Before(*c.To) {
		return *c.From
	}
	return *c.To
}

// changesLess reports whether a plan changes fewer sessions of the next 24 hours.
func changesLess(costs []season.RuleCost) bool {
	for _, c := range costs {
		if c.Rule == "change" && c.Points < -5000 {
			return true
		}
	}
	return false
}

// What changed is named where it changed, and not elsewhere.
func TestCauses(t *testing.T) {
	req := club(t, 0)
	plan := ask(t, req)
	exam := calendar.Event{ID: "exam", Kind: calendar.Busy, Zone: req.Athlete.Zone, HasEnd: true,
		Start: wallOf("2026-10-20T14:00"), End: wallOf("2026-10-20T18:00")}
	next := issue(req, plan, "2026-09-08T10:00", season.Move(plan.Games[1].ID, plan.Games[1].Date.AddDays(1).String()+"T14:00"), season.Add(exam))
	next.Places[0].Closed = []season.Period{{From: seasontest.Date("2026-10-05"), To: seasontest.Date("2026-10-06")}}
	again := ask(t, next)
	codes := map[string]bool{}
	for _, c := range changed(again) {
		for _, n := range c.Cause {
			codes[n.Code+" "+n.Rule] = true
			off := 99
			for _, d := range n.Subject.Dates {
				k := d.DaysSince(calendar.DateOf(earliest(c), req.Athlete.Zone))
				off = min(off, max(k, -k))
			}
			if len(n.Subject.Dates) > 0 && off > nearDates {
				t.Errorf("%s of %s because of %s", c.Change, c.Session, n.Text)
			}
		}
	}
	t.Logf("%v", codes)
	for _, want := range []string{"cause-game-moved ", "cause-events ", "cause-limit-alone open-hours", "cause-limit event-overlap"} {
		if !codes[want] {
			t.Errorf("no cause %s", want)
		}
	}
}
