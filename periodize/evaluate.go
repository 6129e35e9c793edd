package periodize

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/judge"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// Evaluation is the judgement of a plan, made by hand or by a Planner.
type Evaluation struct {
	Legal  bool // no limit is broken by a session that could still be changed
	Broken []BrokenLimit
	Points int64
	ByRule []season.RuleCost
	Missed []season.Missed // InTheWay is empty: nothing was planned
}

// BrokenLimit is one limit that one session breaks.
type BrokenLimit struct {
	Rule    string
	Session string
	Event   string
	Fixed   bool // the session is past or pinned
	Text    string
}

// Evaluate judges the sessions of a plan against a request: every limit they
// break and every aim they miss, by the definitions and without planning. The
// sessions are taken as they are; only kind, start, end and place count.
func (p *Planner) Evaluate(ctx context.Context, req *season.Request, plan *season.Plan) (*Evaluation, error) {
	if problems := checkSessions(plan); len(problems) > 0 {
		return nil, &season.InputError{Problems: problems}
	}
	w, err := p.prepare(req)
	if err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	logged := map[string]bool{}
	for i := range w.model.Choices {
		for _, s := range w.model.Choices[i].Slots {
			if s.Logged {
				logged[s.ID] = true
				w.slots = append(w.slots, s)
			}
		}
	}
	for i := range plan.Sessions {
		s := w.model.SlotOf(&plan.Sessions[i])
		if id := plan.Sessions[i].Place; id != "" && !w.hasPlace(id) {
			s.Place = len(w.model.PlaceIDs) // never open
		}
		if logged[s.ID] || !w.model.Period.Contains(calendar.DateFromDayNumber(s.Day)) {
			continue
		}
		s.Pinned = plan.Sessions[i].Pinned
		s.Forced = s.Pinned || s.From < w.model.Now
		w.slots = append(w.slots, s)
	}
	starts.SortSlots(w.slots)
	v, err := verdictOf(w.model, w.slots)
	if err != nil {
		return nil, &FaultError{err.Error()}
	}
	e := &Evaluation{Legal: len(v.Illegal) == 0, Points: v.Points, Broken: []BrokenLimit{}, ByRule: []season.RuleCost{}, Missed: []season.Missed{}}
	offset := len(w.model.History)
	breach := func(b judge.Breach, fixed bool) {
		s := &w.slots[b.Session-offset]
		way := w.way(b.Rule, b.Event)
		e.Broken = append(e.Broken, BrokenLimit{Rule: way.Rule, Event: way.Event, Session: s.ID, Fixed: fixed, Text: waysText([]season.InTheWay{way})})
	}
	for _, b := range v.Illegal {
		breach(b, false)
	}
	for _, b := range v.Breaches {
		breach(b, true)
	}
	for _, r := range v.ByRule {
		e.ByRule = append(e.ByRule, season.RuleCost{Rule: r.Rule, Broken: r.Broken + r.Illegal, Points: r.Points})
	}
	for _, x := range joinRuns(v.Misses) {
		if x.Aim == judge.Change {
			continue
		}
		m := season.Missed{Aim: x.Aim, From: calendar.DateFromDayNumber(x.From), To: calendar.DateFromDayNumber(x.To),
			Wanted: x.Wanted, Got: x.Got, Points: x.Points, InTheWay: []season.InTheWay{}}
		if x.Event >= 0 {
			m.Event = w.model.Events[x.Event].ID
		}
		if x.Session >= offset {
			m.Session = w.slots[x.Session-offset].ID
		}
		m.Text = w.missedText(&m)
		e.Missed = append(e.Missed, m)
	}
	return e, nil
}

// longestHours bounds the sessions that are judged.
const longestHours = 24

// checkSessions returns what keeps the sessions of a plan from being judged.
func checkSessions(plan *season.Plan) []calendar.Problem {
	if plan == nil {
		return []calendar.Problem{{Code: "plan-missing", Class: calendar.ClassError, Reason: "there is no plan", Remedy: "pass a plan"}}
	}
	if n := len(plan.Sessions); n > season.MaxSessions {
		return []calendar.Problem{{Code: "plan-limit", Class: calendar.ClassError, Path: "/sessions", Value: strconv.Itoa(n),
			Reason: fmt.Sprintf("more than %d sessions", season.MaxSessions), Remedy: "leave some out"}}
	}
	var out []calendar.Problem
	for i := range plan.Sessions {
		s := &plan.Sessions[i]
		bad := func(field, value, reason, remedy string) {
			out = append(out, calendar.Problem{Code: "plan-session", Class: calendar.ClassError, Path: fmt.Sprintf("/sessions/%d/%s", i, field),
				Value: value, Reason: reason, Remedy: remedy})
		}
		if !s.Kind.Known() {
			bad("kind", string(s.Kind), "this is no kind of session", fmt.Sprintf("use one of %v", season.Kinds()))
		}
		if y := s.Start.Year(); y < calendar.FirstYear || y > calendar.LastYear {
			bad("start", s.Start.Format(time.RFC3339), "this instant cannot be planned", fmt.Sprintf("use the years %d to %d", calendar.FirstYear, calendar.LastYear))
		} else if d := s.End.Sub(s.Start); d <= 0 || d > longestHours*time.Hour {
			bad("end", s.End.Format(time.RFC3339), "it is not after the start, or more than a day after it", "give the end of the session")
		}
	}
	return out
}

func (w *work) hasPlace(id string) bool {
	for _, p := range w.model.PlaceIDs {
		if p == id {
			return true
		}
	}
	return false
}

// Against returns what this plan costs more than another, rule by rule, sorted
// by id. Negative numbers are saved.
func (e *Evaluation) Against(other *Evaluation) []season.RuleCost {
	return difference(verdictFrom(other.ByRule), verdictFrom(e.ByRule))
}

func verdictFrom(rows []season.RuleCost) judge.Verdict {
	var v judge.Verdict
	for _, r := range rows {
		v.ByRule = append(v.ByRule, judge.RuleCost{Rule: r.Rule, Broken: r.Broken, Points: r.Points})
	}
	return v
}

// Different returns the plan that has the most sessions at other dates, kinds or
// starts among those at most Slack points dearer, and how many are different.
// Its proof is "bounded", with the best plan's points as the bound.
func (x *Exploration) Different(ctx context.Context) (*season.Plan, int, error) {
	if x.graph == nil {
		return nil, 0, ErrNoExploration
	}
	w := x.w
	other, apart := x.graph.Different(func(l, o int) int {
		c := &w.model.Choices[l]
		planned := c.Options[w.solution.Options[l]]
		n := 0
		for _, y := range c.Options[o] {
			same := false
			for _, z := range planned {
				same = same || (c.Slots[y].Kind == c.Slots[z].Kind && c.Slots[y].From == c.Slots[z].From)
			}
			if !same {
				n++
			}
		}
		return n
	})
	w2 := &work{planner: w.planner, req: w.req, notes: w.notes, set: w.set, model: w.model, reference: w.reference,
		rules: w.rules, compiled: w.compiled, static: w.static}
	w2.solution = &layered.Solution{Status: layered.Bounded, Options: other.Options, Cost: other.Cost, Bound: w.solution.Cost}
	w2.slots = w2.chosen(other.Options)
	plan, err := w2.plan(ctx)
	return plan, apart, err
}

// Equals returns the number of plans that are as good as the plan by points; at
// least that many if it is the largest number there is.
func (p *Planner) Equals(ctx context.Context, req *season.Request) (uint64, error) {
	w, err := p.prepare(req)
	if err != nil {
		return 0, err
	}
	if w.refused() {
		return 0, ErrNoExploration
	}
	w.model.NoTies = true
	if err := w.compile(); err != nil {
		return 0, err
	}
	g, err := w.compiled.Explore(ctx, w.static, w.settings())
	if errors.Is(err, layered.ErrBounded) {
		return 0, ErrNoExploration
	}
	if err != nil {
		return 0, engineError(err)
	}
	return g.Count(), nil
}

// Replan plans again after something changed, against the plan issued last: what
// is past stays, the next 24 hours stay unless they have become unsafe, and
// after that as little changes as keeps the aims. Without a last plan it is Plan.
func (p *Planner) Replan(ctx context.Context, req *season.Request, last *season.Plan) (*season.Plan, error) {
	if req == nil || last == nil {
		return p.Plan(ctx, req)
	}
	next := *req
	next.Issued = append(append([]season.Plan(nil), req.Issued...), *last)
	return p.Plan(ctx, &next)
}
