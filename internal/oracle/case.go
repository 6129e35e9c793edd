package oracle

import (
	"context"
	"fmt"

	"example.org/weft/calendar"
	"example.org/weft/internal/history"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Case is a season made ready for a solver.
type Case struct {
	Request season.Request // canonical
	Model   *starts.Model
	Static  [][]int64
}

// NewCase validates a request and finds the options of its dates. With plain
// costs points alone decide; without, the planner's order among equals too.
// issued is a plan that changes are counted against, or nil.
func NewCase(req *season.Request, issued *season.Plan, plain bool) (*Case, error) {
	c := &Case{Request: req.Canonical()}
	for _, p := range c.Request.Validate() {
		if p.Class == calendar.ClassError || p.Class == calendar.ClassRefusal {
			return nil, fmt.Errorf("oracle: %s: %s: %s", p.Path, p.Value, p.Reason)
		}
	}
	set, problems := rule.New(c.Request.Rules)
	if len(problems) > 0 {
		return nil, fmt.Errorf("oracle: %s: %s", problems[0].Value, problems[0].Reason)
	}
	c.Model, problems = starts.Build(&c.Request, set, issued, issued)
	if len(problems) > 0 {
		return nil, fmt.Errorf("oracle: %s: %s", problems[0].Path, problems[0].Reason)
	}
	c.Model.NoTies = plain
	c.Static = c.Model.Static()
	return c, nil
}

// Problem is the season as the engine sees it, and the names of its rules.
func (c *Case) Problem() (layered.Problem, []string) {
	var p layered.Problem
	for i := range c.Model.Choices {
		p.Options = append(p.Options, len(c.Model.Choices[i].Options))
	}
	var names []string
	for _, r := range history.Rules(c.Model) {
		p.Rules = append(p.Rules, r.Rule)
		names = append(names, r.IDs[0])
	}
	return p, names
}

// Compile compiles the rules.
func (c *Case) Compile() (*layered.Model, error) {
	p, _ := c.Problem()
	return layered.Compile(p, layered.Settings{})
}

// Solve finds the best plan with the engine.
func (c *Case) Solve() (*layered.Solution, error) {
	m, err := c.Compile()
	if err != nil {
		return nil, err
	}
	return m.Solve(context.Background(), c.Static, layered.Settings{})
}

// Cost takes a cost of the engine apart.
func Cost(cost int64) (broken, points int64) {
	return cost / starts.Broken, cost % starts.Broken / starts.Point
}

// Slots returns the sessions that options choose, in order of start.
func (c *Case) Slots(options []int) []starts.Slot {
	var out []starts.Slot
	for i, o := range options {
		row := &c.Model.Choices[i]
		for _, s := range row.Options[o] {
			out = append(out, row.Slots[s])
		}
	}
	return out
}

// Reissued plans a season, drops one of its later events and makes the case of
// planning again with the least change.
func Reissued(req *season.Request, plain bool) (*Case, error) {
	first, err := NewCase(req, nil, plain)
	if err != nil {
		return nil, err
	}
	s, err := first.Solve()
	if err != nil {
		return nil, err
	}
	plan := &season.Plan{Period: req.Period}
	for i, slot := range first.Slots(s.Options) {
		id := slot.ID
		if id == "" {
			id = fmt.Sprintf("s%d", i)
		}
		plan.Sessions = append(plan.Sessions, season.Session{ID: id, Kind: slot.Kind,
			Start: first.Model.Time(slot.From), End: first.Model.Time(slot.To), Place: first.Model.PlaceIDs[slot.Place],
			Date: calendar.DateFromDayNumber(slot.Day)})
	}
	next := *req
	next.Log = append([]season.Done(nil), req.Log...)
	for i := range next.Log { // what the log tells of is in the plan
		next.Log[i].Session = next.Log[i].ID
	}
	next.Events = append([]calendar.Event(nil), req.Events...)
	if n := len(next.Events); n > 2 {
		next.Events = append(next.Events[:n/2], next.Events[n/2+1:]...)
	}
	return NewCase(&next, plan, plain)
}
