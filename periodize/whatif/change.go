package whatif

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Change is one thing, or several together, that could be otherwise. The
// functions of this package make them.
type Change interface {
	String() string // what the change does, in words
	apply(e *editor)
}

// Touched says what changes have touched, each list sorted and without
// repetitions.
type Touched struct {
	Events  []string        `json:"events"`  // ids
	Dates   []calendar.Date `json:"dates"`   // local dates of the events, before and after; dates a place closes
	Rules   []string        `json:"rules"`   // ids
	Places  []string        `json:"places"`  // ids
	Athlete []string        `json:"athlete"` // parts: "hours", "optIns", "holds", "trainingAge"
}

func (t Touched) settled() Touched {
	t.Events, t.Rules, t.Places, t.Athlete = sortedSet(t.Events), sortedSet(t.Rules), sortedSet(t.Places), sortedSet(t.Athlete)
	slices.SortFunc(t.Dates, calendar.Date.Compare)
	t.Dates = slices.Compact(t.Dates)
	if t.Dates == nil {
		t.Dates = []calendar.Date{}
	}
	return t
}

func sortedSet(list []string) []string {
	slices.Sort(list)
	list = slices.Compact(list)
	if list == nil {
		list = []string{}
	}
	return list
}

// Apply returns the request with the changes made, one after the other, and what
// they touched. The old request is left as it is.
//
// If a change does not fit, Apply returns the old request and a
// [season.InputError] with the problems of all changes; their paths count the
// changes, as in /changes/1, and in /changes/1/0 those of a composed one.
func Apply(req season.Request, changes ...Change) (season.Request, Touched, error) {
	e := &editor{req: req}
	for i, c := range changes {
		e.path = fmt.Sprintf("/changes/%d", i)
		if c != nil {
			c.apply(e)
		}
	}
	if len(e.touched.Rules) > 0 {
		_, problems := rule.New(e.req.Rules)
		for _, p := range problems {
			if p.Class == calendar.ClassError {
				e.problems = append(e.problems, p)
			}
		}
	}
	if len(e.problems) > 0 {
		return req, Touched{}.settled(), &season.InputError{Problems: e.problems}
	}
	return e.req, e.touched.settled(), nil
}

// editor makes changes to a copy of a request. Lists are replaced, never written
// into.
type editor struct {
	req      season.Request
	path     string
	touched  Touched
	problems []calendar.Problem
}

func (e *editor) bad(code, value, reason, remedy string) {
	e.problems = append(e.problems, calendar.Problem{Code: code, Class: calendar.ClassError, Path: e.path,
		Value: value, Reason: reason, Remedy: remedy})
}

// edit changes events.
func (e *editor) edit(ids []string, edits ...season.Edit) {
	next, err := season.Apply(e.req, edits...)
	if err != nil {
		var bad *season.InputError
		if !errors.As(err, &bad) {
			e.bad(season.CodeEdit, "", err.Error(), "check the change")
			return
		}
		for _, p := range bad.Problems {
			p.Path = e.path
			e.problems = append(e.problems, p)
		}
		return
	}
	for _, id := range ids {
		for _, r := range []*season.Request{&e.req, &next} {
			if v, ok := eventOf(r, id); ok {
				e.touched.Dates = append(e.touched.Dates, v.Start.Date)
			}
		}
	}
	e.touched.Events = append(e.touched.Events, ids...)
	e.req = next
}

// eventOf returns the event in force: of several of one id that of the highest
// revision.
func eventOf(req *season.Request, id string) (calendar.Event, bool) {
	at := -1
	for i := range req.Events {
		v := &req.Events[i]
		if v.ID == id || (v.ID == "" && v.ContentID() == id) {
			if at < 0 || v.Revision > req.Events[at].Revision {
				at = i
			}
		}
	}
	if at < 0 {
		return calendar.Event{}, false
	}
	return req.Events[at], true
}

// composed is several changes under one name.
type composed struct {
	name    string
	changes []Change
}

// Compose makes one change of several, made in the order given. Without a name
// it is called by what they do.
func Compose(name string, changes ...Change) Change {
	return composed{name, slices.Clone(changes)}
}

func (c composed) String() string {
	if c.name != "" {
		return calendar.Inert(c.name)
	}
	if len(c.changes) == 0 {
		return "nothing"
	}
	var parts []string
	for _, x := range c.changes {
		if x != nil {
			parts = append(parts, x.String())
		}
	}
	return strings.Join(parts, ", ")
}

func (c composed) apply(e *editor) {
	path := e.path
	for i, x := range c.changes {
		if x != nil {
			e.path = fmt.Sprintf("%s/%d", path, i)
			x.apply(e)
		}
	}
	e.path = path
}

// settingRule is a rule's override.
type settingRule struct{ override season.Override }

// SetRule changes a rule; an override of the same rule in the request is
// replaced.
func SetRule(o season.Override) Change {
	copied := func(n *int) *int {
		if n == nil {
			return nil
		}
		m := *n
		return &m
	}
	o.Value, o.Points = copied(o.Value), copied(o.Points)
	return settingRule{o}
}

func (c settingRule) String() string {
	o := c.override
	name := calendar.Inert(o.Rule)
	var parts []string
	if o.Off {
		parts = append(parts, name+" off")
	}
	if o.Value != nil {
		unit := ""
		if r, ok := rule.Find(o.Rule); ok && r.Unit != "" && r.Unit != "count" {
			unit = " " + r.Unit
		}
		parts = append(parts, fmt.Sprintf("%s %d%s", name, *o.Value, unit))
	}
	if o.Points != nil {
		parts = append(parts, fmt.Sprintf("%s %d points", name, *o.Points))
	}
	if len(parts) == 0 {
		return name + " as it is by default"
	}
	return strings.Join(parts, ", ")
}

func (c settingRule) apply(e *editor) {
	rules := slices.Clone(e.req.Rules)
	rules = slices.DeleteFunc(rules, func(o season.Override) bool { return o.Rule == c.override.Rule })
	rules = append(rules, c.override)
	slices.SortStableFunc(rules, func(a, b season.Override) int { return cmp.Compare(a.Rule, b.Rule) })
	e.req.Rules = rules
	e.touched.Rules = append(e.touched.Rules, c.override.Rule)
}
