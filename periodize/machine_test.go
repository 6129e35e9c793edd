package periodize

import (
	"bytes"
	"context"
	"fmt"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// desk is a coach's desk: one athlete's request, the plan in force and every
// state before, so that the last step can be taken back.
type desk struct {
	req    *season.Request
	plan   *season.Plan
	text   []byte // of the plan
	before []desk
	steps  map[string]int // over all runs
	added  int
}

// change takes one step: an edited request, planned against the plan in force.
func (d *desk) change(t *rapid.T, what string, next *season.Request) {
	for _, p := range next.Validate() {
		if p.Class == calendar.ClassError || p.Class == calendar.ClassRefusal {
			t.Skip("not a valid request: " + p.Error())
		}
	}
	var p Planner
	req := *next
	if n := len(req.Issued); n > 3 { // what is older is not kept
		req.Issued = req.Issued[n-3:]
	}
	plan, err := p.Replan(context.Background(), &req, d.plan)
	if err != nil {
		t.Fatalf("%s: %v\n%s", what, err, shown(&req)) // a FaultError among them: the judge disagrees
	}
	req.Issued = append(append([]season.Plan(nil), req.Issued...), *d.plan)
	old := *d
	old.before = nil
	d.before = append(d.before, old)
	d.req, d.plan, d.text = &req, plan, jsonOf(t, plan)
	d.steps[what]++
}

func (d *desk) event(t *rapid.T, which func(*calendar.Event) bool) string {
	var ids []string
	for i := range d.req.Events {
		if e := &d.req.Events[i]; which(e) {
			ids = append(ids, e.ID)
		}
	}
	if len(ids) == 0 {
		t.Skip("no such event")
	}
	return rapid.SampledFrom(ids).Draw(t, "event")
}

func (d *desk) apply(t *rapid.T, what string, e season.Edit) {
	next, err := season.Apply(*d.req, e)
	if err != nil {
		t.Skip(err.Error())
	}
	d.change(t, what, &next)
}

// open sessions are planned, not past, not logged.
func (d *desk) session(t *rapid.T, which func(*season.Session) bool) *season.Session {
	var list []*season.Session
	for i := range d.plan.Sessions {
		if s := &d.plan.Sessions[i]; which(s) && !d.logged(s.ID) {
			list = append(list, s)
		}
	}
	if len(list) == 0 {
		t.Skip("no such session")
	}
	return rapid.SampledFrom(list).Draw(t, "session")
}

func (d *desk) logged(id string) bool {
	for _, l := range d.req.Log {
		if l.Session == id {
			return true
		}
	}
	return false
}

func (d *desk) MoveGame(t *rapid.T) {
	id := d.event(t, func(e *calendar.Event) bool { return e.Kind == calendar.Game && e.Active() })
	for _, e := range d.req.Events {
		if e.ID == id {
			to := e.Start
			to.Date = to.Date.AddDays(rapid.IntRange(-3, 3).Draw(t, "by"))
			to.Clock = calendar.Clock(rapid.IntRange(10, 20).Draw(t, "hour") * 3600)
			d.apply(t, "move", season.Move(id, to.String()))
			return
		}
	}
}

func (d *desk) Cancel(t *rapid.T) {
	d.apply(t, "cancel", season.Cancel(d.event(t, func(e *calendar.Event) bool { return e.Active() })))
}

func (d *desk) Confirm(t *rapid.T) {
	d.apply(t, "confirm", season.Confirm(d.event(t, func(e *calendar.Event) bool { return e.Status != calendar.Confirmed })))
}

func (d *desk) AddBusy(t *rapid.T) {
	d.added++
	at := calendar.Wall{Date: d.req.Period.From.AddDays(rapid.IntRange(0, d.req.Period.Days()-1).Draw(t, "on")), Clock: calendar.Clock(rapid.IntRange(14, 19).Draw(t, "hour") * 3600)}
	d.apply(t, "add", season.Add(calendar.Event{ID: fmt.Sprintf("new%d", d.added), Kind: calendar.Busy, Zone: d.req.Athlete.Zone, Start: at, End: at.AddMinutes(90), HasEnd: true}))
}

func (d *desk) Pin(t *rapid.T) {
	next := *d.req
	date := next.Period.From.AddDays(rapid.IntRange(0, next.Period.Days()-1).Draw(t, "on"))
	next.Pins = []season.Pin{}
	for _, p := range d.req.Pins {
		if p.Date != date {
			next.Pins = append(next.Pins, p)
		}
	}
	pin := season.Pin{Date: date}
	switch rapid.IntRange(0, 2).Draw(t, "how") {
	case 0:
		pin.None = true
	case 1:
		pin.Kind = rapid.SampledFrom(season.Kinds()).Draw(t, "kind")
	default:
		pin.Kind = rapid.SampledFrom(season.Kinds()).Draw(t, "kind")
		c := calendar.Clock(rapid.IntRange(7, 20).Draw(t, "hour") * 3600)
		pin.Start = &c
	}
	next.Pins = append(next.Pins, pin)
	d.change(t, "pin", &next)
}

func (d *desk) Unpin(t *rapid.T) {
	if len(d.req.Pins) == 0 {
		t.Skip("no pin")
	}
	next := *d.req
	i := rapid.IntRange(0, len(next.Pins)-1).Draw(t, "pin")
	next.Pins = append(append([]season.Pin(nil), next.Pins[:i]...), next.Pins[i+1:]...)
	d.change(t, "unpin", &next)
}

// now is the present, at the start of the period if none was given.
func (d *desk) now() time.Time {
	if d.req.Now.IsZero() {
		return d.req.Athlete.Zone.DayStart(d.req.Period.From)
	}
	return d.req.Now
}

func (d *desk) Advance(t *rapid.T) {
	next := *d.req
	next.Now = d.now().Add(time.Duration(rapid.IntRange(1, 60).Draw(t, "hours")) * time.Hour)
	if !next.Period.Contains(calendar.DateOf(next.Now, next.Athlete.Zone)) {
		t.Skip("the season is over")
	}
	d.change(t, "advance", &next)
}

func (d *desk) LogDone(t *rapid.T) {
	s := d.session(t, func(s *season.Session) bool { return s.End.Before(d.now()) })
	next := *d.req
	w := next.Athlete.Zone.Local(s.Start)
	next.Log = append(append([]season.Done(nil), next.Log...), season.Done{ID: "l-" + s.ID, Session: s.ID, Kind: s.Kind, Start: w, End: w.AddMinutes(s.Minutes), HasEnd: true})
	d.change(t, "done", &next)
}

func (d *desk) LogMissed(t *rapid.T) {
	s := d.session(t, func(s *season.Session) bool { return s.End.Before(d.now()) })
	next := *d.req
	next.Log = append(append([]season.Done(nil), next.Log...), season.Done{ID: "l-" + s.ID, Session: s.ID, Kind: s.Kind, Start: next.Athlete.Zone.Local(s.Start), Missed: true})
	d.change(t, "missed", &next)
}

func (d *desk) Replan(t *rapid.T) {
	old := d.plan
	d.change(t, "re-plan", d.req)
	if old.Outcome == season.Refused {
		return
	}
	for _, c := range changed(d.plan) {
		t.Errorf("nothing changed, and yet %s %s", c.Change, c.Session)
	}
}

func (d *desk) Undo(t *rapid.T) {
	if len(d.before) == 0 {
		t.Skip("nothing to take back")
	}
	n := len(d.before) - 1
	back, rest := d.before[n], d.before[:n]
	// The request alone makes the same bytes again.
	if n > 0 {
		var p Planner
		plan, err := p.Plan(context.Background(), back.req)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(jsonOf(t, plan), back.text) {
			t.Errorf("taken back, the same request makes another plan\n%s", shown(back.req))
		}
	}
	steps, added := d.steps, d.added
	*d = back
	d.before, d.steps, d.added = rest, steps, added
	d.steps["undo"]++
}

func (d *desk) Check(t *rapid.T) {
	if !bytes.Equal(jsonOf(t, d.plan), d.text) {
		t.Errorf("the plan in force changed under our hands")
	}
	for _, breach := range seasontest.Check(d.text, d.req) {
		t.Errorf("%s", breach)
	}
	ids := map[string]bool{}
	for _, s := range d.plan.Sessions {
		if ids[s.ID] {
			t.Errorf("id %s twice", s.ID)
		}
		ids[s.ID] = true
	}
	if n := len(d.before); n > 0 && d.plan.Outcome == season.Planned {
		// What was done before the last step still stands, unless the log now says otherwise.
		for _, s := range d.before[n-1].plan.Sessions {
			if s.State == season.DoneState && !d.logged(s.ID) && !keeps(d.plan, s) && !broughtAway(d.plan, s.Start) {
				t.Errorf("done and changed: %s of %s", s.Kind, s.Start)
			}
		}
	}
	if d.plan.Outcome == season.Planned {
		var p Planner
		e, err := p.Evaluate(context.Background(), d.req, d.plan)
		switch {
		case err != nil:
			t.Errorf("%v", err)
		case !e.Legal || e.Points != d.plan.Cost.Points || int64(len(e.Broken)) != d.plan.Cost.Broken:
			t.Errorf("evaluated %v %d %d, planned %+v", e.Legal, e.Points, len(e.Broken), d.plan.Cost)
		}
	}
	if t.Failed() {
		t.Fatalf("%s", shown(d.req))
	}
}

// broughtAway reports whether at an instant the clock is another than the plan's
// until the first change that the plan tells: a game at the edge of the period was
// moved and brought its own, by which what is done may be before the period.
func broughtAway(p *season.Plan, at time.Time) bool {
	return len(p.Clocks) > 0 && p.Clocks[0].Zone == p.Zone && at.Before(p.Clocks[0].From)
}

// A desk over weeks: whatever a coach does, in whatever order, the laws hold.
func TestDesk(t *testing.T) {
	steps := map[string]int{}
	onSeasons(t, 11, func(t *rapid.T) {
		d := &desk{steps: steps}
		d.req = seasontest.Request(t, seasontest.Options{MinDates: 8, MaxDates: 14, Plain: true})
		d.plan = planOf(t, d.req)
		d.text = jsonOf(t, d.plan)
		t.Repeat(rapid.StateMachineActions(d))
	})
	t.Logf("%v", steps)
	for _, s := range []string{"move", "cancel", "confirm", "add", "pin", "unpin", "advance", "done", "missed", "re-plan", "undo"} {
		if !testing.Short() && (steps[s] < 2) {
			t.Errorf("only %d of %s", steps[s], s)
		}
	}
}
