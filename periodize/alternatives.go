package periodize

import (
	"context"
	"fmt"
	"sort"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/judge"
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
	if err != nil {
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

// kindsOf names an option by the kinds of its sessions.
func kindsOf(c *starts.Choices, o int) string {
	var b strings.Builder
	for _, y := range c.Options[o] {
		b.WriteString(string(c.Slots[y].Kind) + " ")
	}
	return b.String()
}

// alternative prices an option of a layer of a graph; more is what the graph's
// own best costs more than the plan.
func (x *Exploration) alternative(g *layered.Graph, l, o int, extra int64, exact bool, more int64) Alternative {
	w := x.w
	m := w.model
	c := &m.Choices[l]
	a := Alternative{Date: m.Days[m.From+l].Date, Costs: []season.RuleCost{}}
	if opt := c.Options[o]; len(opt) > 0 {
		s := &c.Slots[opt[0]]
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
		r, _ := rule.Find(c.Rule)
		parts = append(parts, fmt.Sprintf("%s (%d)", r.Doc, c.Points))
	}
	text := fmt.Sprintf("%d points: it would miss %s", price, strings.Join(parts, "; "))
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

// Answer says why a session is not in the plan.
type Answer struct {
	Planned  bool              // it is in the plan
	Possible bool              // some plan has it; else Limits says what forbids it
	Limits   []season.InTheWay // limits it would break
	Price    int64             // points the best plan with it costs more
	Costs    []season.RuleCost // by rule
	Start    time.Time         // where it would stand
	End      time.Time
	Text     string
}

// WhyNot says why the plan has no session of a kind on a date: the limits that
// forbid it, or what it would cost. Without a start the best one is taken.
func (x *Exploration) WhyNot(ctx context.Context, date calendar.Date, kind season.Kind, start *calendar.Clock) (*Answer, error) {
	w := x.w
	if x.plan.Outcome == season.Refused {
		return nil, ErrNoExploration
	}
	l, ok := w.layer(date.DayNumber())
	if !ok || date.IsZero() {
		return nil, dateError(date, w.model.Period)
	}
	if !kind.Known() {
		return nil, fmt.Errorf("periodize: %q is no kind of session; the kinds are %v", kind, season.Kinds())
	}
	c := &w.model.Choices[l]
	for _, y := range c.Options[w.solution.Options[l]] {
		s := &c.Slots[y]
		if s.Kind == kind && (start == nil || s.StartClock == int(*start)/60) {
			return &Answer{Planned: true, Possible: true, Start: w.model.Time(s.From), End: w.model.Time(s.To), Text: "it is in the plan"}, nil
		}
	}
	if start == nil {
		at, ok := x.bestStart(l, kind)
		if !ok {
			a := &Answer{Limits: []season.InTheWay{}}
			for _, b := range c.Blocked[kind] {
				a.Limits = append(a.Limits, w.way(b.Rule, b.Event))
			}
			sortInWay(a.Limits)
			a.Text = "forbidden: " + waysText(a.Limits)
			return a, nil
		}
		start = &at
	}
	return x.pinned(ctx, date, kind, *start)
}

// bestStart is the clock of the cheapest option with the kind in a layer.
func (x *Exploration) bestStart(l int, kind season.Kind) (calendar.Clock, bool) {
	c := &x.w.model.Choices[l]
	best, low := -1, layered.Inf
	var extra []int64
	if x.graph != nil {
		extra, _ = x.graph.Prices(l)
	}
	for o := range c.Options {
		for _, y := range c.Options[o] {
			if c.Slots[y].Kind != kind {
				continue
			}
			price := x.w.static[l][o]
			if extra != nil {
				price = extra[o]
			}
			if price < low {
				best, low = y, price
			}
		}
	}
	if best < 0 {
		return 0, false
	}
	return calendar.Clock(c.Slots[best].StartClock * 60), true
}

// pinned plans once more with the session pinned: what is then broken forbids
// it, else what it costs more is its price.
func (x *Exploration) pinned(ctx context.Context, date calendar.Date, kind season.Kind, start calendar.Clock) (*Answer, error) {
	req := x.w.req
	req.Pins = nil
	for _, p := range x.w.req.Pins {
		if p.Date != date {
			req.Pins = append(req.Pins, p)
		}
	}
	req.Pins = append(req.Pins, season.Pin{Date: date, Kind: kind, Start: &start})
	w, err := x.w.planner.prepare(&req)
	if err != nil {
		return nil, err
	}
	if err := w.solve(ctx); err != nil {
		return nil, err
	}
	v, err := verdictOf(w.model, w.slots)
	if err != nil {
		return nil, &FaultError{err.Error()}
	}
	a := &Answer{Limits: []season.InTheWay{}}
	offset := len(w.model.History)
	for i := range w.slots {
		if s := &w.slots[i]; s.Day == date.DayNumber() && s.Kind == kind && s.Pinned {
			a.Start, a.End = w.model.Time(s.From), w.model.Time(s.To)
		}
	}
	if a.Start.IsZero() {
		a.Text = "it would start before now"
		return a, nil
	}
	for _, b := range newBreaches(x.verdict, v) {
		s := &w.slots[b.Session-offset]
		way := w.way(b.Rule, b.Event)
		if b.Rule == judge.OpenHours || s.Pinned {
			for _, br := range s.Breaches { // the row, where the judge knows the family
				if rule.Family(br.Rule) == b.Rule {
					way = w.way(br.Rule, br.Event)
				}
			}
		}
		a.Limits = append(a.Limits, way)
	}
	sortInWay(a.Limits)
	if len(a.Limits) > 0 {
		a.Text = "forbidden: " + waysText(a.Limits)
		return a, nil
	}
	a.Possible = true
	a.Price = v.Points - x.verdict.Points
	a.Costs = difference(x.verdict, v)
	a.Text = inWords(a.Price, a.Costs)
	return a, nil
}

// newBreaches returns those breaches of b that are more than a has of the rule.
func newBreaches(a, b judge.Verdict) []judge.Breach {
	left := map[string]int{}
	for _, x := range a.Breaches {
		left[x.Rule]++
	}
	var out []judge.Breach
	for _, x := range b.Breaches {
		if left[x.Rule] > 0 {
			left[x.Rule]--
			continue
		}
		out = append(out, x)
	}
	return out
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
