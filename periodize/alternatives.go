package periodize

import (
	"context"
	"errors"
	"fmt"
	"sort"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Alternative is another choice for a date or a session, with its price.
type Alternative struct {
	Kind    season.Kind // "" is no session
	Start   time.Time   // zero without a session
	End     time.Time
	Date    calendar.Date
	Place   string
	With    []season.Kind     // other sessions that stand on the date then, in order of start
	Price   int64             // points the best plan with it costs more
	AtLeast bool              // the price is at least that: more than Slack
	Costs   []season.RuleCost // what it costs more, and less, by rule; empty if AtLeast
	Changes int               // other sessions that would stand differently
	Text    string            // the price in words
}

// OnDate returns what else could stand on a date, best first: each kind at its
// best start, and no session. What the plan has there is not among them. Kinds
// that no plan can have are left out; ask WhyNot for those.
func (x *Exploration) OnDate(date calendar.Date) ([]Alternative, error) {
	if x.graph == nil {
		return nil, ErrNoExploration
	}
	l, ok := x.w.layer(date.DayNumber())
	if !ok || date.IsZero() {
		return nil, dateError(date, x.w.model.Period)
	}
	extra, exact := x.graph.Prices(l)
	c := &x.w.model.Choices[l]
	planned := x.w.solution.Options[l]
	best := map[string]int{}
	for o := range c.Options {
		if o == planned {
			continue
		}
		k := kindsOf(c, o)
		if k == kindsOf(c, planned) {
			continue
		}
		if b, ok := best[k]; !ok || extra[o] < extra[b] {
			best[k] = o
		}
	}
	var out []Alternative
	for _, o := range best {
		out = append(out, x.alternative(x.graph, l, o, extra[o], exact[o], 0))
	}
	sortAlternatives(out)
	return out, nil
}

// Elsewhere returns the other places for a planned session within six dates,
// best first: plans that leave its date without a session of its kind and have
// one on another date instead.
func (x *Exploration) Elsewhere(ctx context.Context, session string) ([]Alternative, error) {
	if x.graph == nil {
		return nil, ErrNoExploration
	}
	w := x.w
	at := -1
	for i := range w.slots {
		if w.slots[i].ID == session {
			at = i
		}
	}
	if at < 0 {
		return nil, fmt.Errorf("periodize: the plan has no session %q", session)
	}
	s := &w.slots[at]
	l, ok := w.layer(s.Day)
	if !ok || s.Forced {
		return nil, fmt.Errorf("periodize: session %q is fixed: it is past or pinned", session)
	}
	// Plans that have no session of this kind on its date.
	static := append([][]int64(nil), w.static...)
	row := append([]int64(nil), static[l]...)
	c := &w.model.Choices[l]
	for o := range c.Options {
		for _, y := range c.Options[o] {
			if c.Slots[y].Kind == s.Kind {
				row[o] = layered.Inf
			}
		}
	}
	static[l] = row
	set := w.settings()
	set.Slack = (Slack+1)*starts.Point - 1
	g, err := w.compiled.Explore(ctx, static, set)
	switch {
	case errors.Is(err, layered.ErrInfeasible): // a pinned one of its kind stands beside it
		return nil, nil
	case errors.Is(err, layered.ErrBounded):
		return nil, ErrNoExploration
	case err != nil:
		return nil, engineError(err)
	}
	more := g.Best().Cost - w.solution.Cost
	var out []Alternative
	for k := max(0, l-6); k <= min(len(w.model.Choices)-1, l+6); k++ {
		if k == l || x.has(k, s.Kind) {
			continue
		}
		extra, exact := g.Prices(k)
		ck := &w.model.Choices[k]
		best := -1
		for o := range ck.Options {
			if len(ck.Options[o]) == 1 && ck.Slots[ck.Options[o][0]].Kind == s.Kind && (best < 0 || extra[o] < extra[best]) {
				best = o
			}
		}
		if best >= 0 && exact[best] {
			out = append(out, x.alternative(g, k, best, extra[best], true, more))
		}
	}
	sortAlternatives(out)
	return out, nil
}

// has reports whether the plan has a session of a kind in a layer.
func (x *Exploration) has(l int, k season.Kind) bool {
	c := &x.w.model.Choices[l]
	for _, y := range c.Options[x.w.solution.Options[l]] {
		if c.Slots[y].Kind == k {
			return true
		}
	}
	return false
}

// newOn is the slot an option is named for: the first that is not fixed and that
// the plan has not; else the first that is not fixed; -1 if all are.
func (x *Exploration) newOn(l, o int) int {
	c := &x.w.model.Choices[l]
	first := -1
	for _, y := range c.Options[o] {
		if c.Slots[y].Forced {
			continue
		}
		if first < 0 {
			first = y
		}
		if !x.has(l, c.Slots[y].Kind) {
			return y
		}
	}
	return first
}

// kindsOf names an option by the kinds of its sessions, in whatever order.
func kindsOf(c *starts.Choices, o int) string {
	var kinds []string
	for _, y := range c.Options[o] {
		kinds = append(kinds, string(c.Slots[y].Kind))
	}
	sort.Strings(kinds)
	return strings.Join(kinds, " ")
}

// alternative prices an option of a layer of a graph; more is what the graph's
// own best costs more than the plan.
func (x *Exploration) alternative(g *layered.Graph, l, o int, extra int64, exact bool, more int64) Alternative {
	w := x.w
	m := w.model
	c := &m.Choices[l]
	a := Alternative{Date: m.Days[m.From+l].Date, Costs: []season.RuleCost{}}
	named := x.newOn(l, o)
	for _, y := range c.Options[o] {
		s := &c.Slots[y]
		if y != named {
			a.With = append(a.With, s.Kind)
			continue
		}
		a.Kind, a.Start, a.End = s.Kind, m.Time(s.From), m.Time(s.To)
		if s.Place < len(m.PlaceIDs) {
			a.Place = m.PlaceIDs[s.Place]
		}
	}
	if !exact {
		a.AtLeast, a.Price = true, Slack+1
		a.Text = fmt.Sprintf("more than %d points", Slack)
		return a
	}
	a.Price = pointsOf(w.solution.Cost+more+extra) - pointsOf(w.solution.Cost)
	plan, ok := g.Through(l, o)
	if !ok {
		return a
	}
	v, err := verdictOf(m, w.chosen(plan.Options))
	if err != nil {
		return a
	}
	a.Costs = difference(x.verdict, v)
	for k := range plan.Options {
		if k != l && plan.Options[k] != w.solution.Options[k] {
			a.Changes++
		}
	}
	a.Text = inWords(a.Price, a.Costs)
	return a
}

// inWords says a price as a coach would: the aims that would be missed.
func inWords(price int64, costs []season.RuleCost) string {
	if price == 0 {
		return "as good"
	}
	var parts []string
	for _, c := range costs {
		if c.Points <= 0 {
			continue
		}
		doc := c.Rule
		if r, ok := rule.Find(c.Rule); ok {
			doc = r.Doc
		}
		parts = append(parts, fmt.Sprintf("%s (%d)", doc, c.Points))
	}
	unit := "points"
	if price == 1 {
		unit = "point"
	}
	text := fmt.Sprintf("%d %s: it would miss %s", price, unit, strings.Join(parts, "; "))
	var less []string
	for _, c := range costs {
		if c.Points < 0 {
			less = append(less, fmt.Sprintf("%s (%d)", c.Rule, -c.Points))
		}
	}
	if len(less) > 0 {
		text += "; it would save " + strings.Join(less, ", ")
	}
	return text
}

func sortAlternatives(a []Alternative) {
	sort.SliceStable(a, func(i, j int) bool {
		if a[i].AtLeast != a[j].AtLeast {
			return !a[i].AtLeast
		}
		if a[i].Price != a[j].Price {
			return a[i].Price < a[j].Price
		}
		if a[i].Date != a[j].Date {
			return a[i].Date.Before(a[j].Date)
		}
		return kindRank(a[i].Kind) < kindRank(a[j].Kind)
	})
}

func kindRank(k season.Kind) int {
	for i, x := range season.Kinds() {
		if x == k {
			return i
		}
	}
	return len(season.Kinds())
}

func dateError(d calendar.Date, p season.Period) error {
	return fmt.Errorf("periodize: %q is not a date of the period %s to %s", d, p.From, p.To)
}

func waysText(ways []season.InTheWay) string {
	var parts []string
	for _, y := range ways {
		r, ok := rule.Find(y.Rule)
		text := y.Rule
		if ok {
			text = r.Doc
		}
		if y.Event != "" {
			text += " (" + calendar.Inert(y.Event) + ")"
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}
