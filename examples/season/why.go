package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// explorer is a planner that answers questions too.
type explorer interface {
	Explore(context.Context, *season.Request) (*periodize.Exploration, error)
}

// elsewhereShown is how many other dates of a session are named.
const elsewhereShown = 4

// choicesShown is how many other choices are shown.
const choicesShown = 9

// explain writes a date: what is there and why, what else could be and what for,
// and what is forbidden.
func (p *program) explain(ctx context.Context, in *input, x *periodize.Exploration, date calendar.Date) ([]byte, error) {
	s := newSheet(in, x.Plan(), true)
	s.Line(say.Pad("WHY  "+say.DayYear(date), width-40) + say.Clip(in.request.Athlete.ID, 40))
	s.Line(strings.Repeat("=", width))
	if s.plan.Outcome == season.Refused {
		s.notes("NOTHING MAY BE PLANNED", s.plan.Refusals)
		return []byte(s.String()), nil
	}
	s.date(date, s.rows()[date])
	if !s.zone.DaySpan(date).End.After(s.plan.Now) {
		s.Line("")
		s.Line("The date is past: it stays as it was.")
		return []byte(s.String()), nil
	}
	q := question{program: p, sheet: s, x: x, ctx: ctx, date: date}
	if err := q.ask(); err != nil {
		return nil, err
	}
	return []byte(s.String()), nil
}

// question is a date that is asked about.
type question struct {
	*program
	*sheet
	x    *periodize.Exploration
	ctx  context.Context
	date calendar.Date
}

// choice is a line of an answer.
type choice struct {
	points      int64
	label, text string
}

func priced(points int64, text string) choice {
	return choice{points, say.Pad(price(points), 11), text}
}

func (q *question) ask() error {
	others, err := q.x.OnDate(q.date)
	if err != nil && !errors.Is(err, periodize.ErrNoExploration) {
		return err
	}
	var possible, forbidden, dear []choice
	known := map[season.Kind]bool{}
	rested := len(q.sessions()) == 0
	for _, a := range others {
		switch {
		case a.AtLeast && len(a.With) == 0:
			continue // priced one by one below
		case a.AtLeast:
			dear = append(dear, choice{a.Price, say.Pad(fmt.Sprintf("over %d", periodize.Slack), 11), q.offer(a)})
			continue
		}
		if len(a.With) == 0 {
			known[a.Kind] = true
			rested = rested || a.Kind == ""
		}
		possible = append(possible, priced(a.Price, q.offer(a)+q.costs(a.Costs)))
	}
	for _, k := range season.Kinds() {
		if known[k] {
			continue
		}
		a, err := q.x.WhyNot(q.ctx, q.date, k, nil)
		if err != nil {
			return err
		}
		switch {
		case a.Planned:
		case a.Possible:
			possible = append(possible, priced(a.Price, say.Kind(k)+" "+q.stretch(a.Start, a.End)+q.costs(a.Costs)))
		default:
			forbidden = append(forbidden, choice{0, say.Pad(say.Kind(k), whatColumn), q.limits(a)})
		}
	}
	if !rested {
		c, ok, err := q.rest()
		if err != nil {
			return err
		}
		if ok {
			possible = append(possible, c)
		}
	}
	slices.SortStableFunc(possible, func(a, b choice) int { return cmp.Compare(a.points, b.points) })
	q.list("WHAT ELSE COULD BE THERE, and what it would cost in points", append(possible, dear...), "nothing else")
	if err := q.elsewhere(); err != nil {
		return err
	}
	q.list("WHAT CANNOT BE THERE", forbidden, "nothing is forbidden")
	q.title("HOW TO READ")
	q.Hang("  ", "Points are what a missed aim weighs: 1 a small convenience, 60 a recovery session after a game, "+
		"120 a second full-body session of a week, 240 a primer, 1120 a week without full-body. "+
		`The plan is the one with the fewest; "as good" means that it is a matter of taste.`)
	return nil
}

func (q *question) sessions() []season.Session {
	var out []season.Session
	for _, s := range q.plan.Sessions {
		if s.Date == q.date {
			out = append(out, s)
		}
	}
	return out
}

// list prints choices under a title.
func (q *question) list(title string, choices []choice, none string) {
	q.title(title)
	if len(choices) == 0 {
		q.Line("  " + none)
	}
	for i, c := range choices {
		if i == choicesShown {
			q.Line(fmt.Sprintf("  and %d more, dearer", len(choices)-i))
			break
		}
		q.Hang("  "+c.label, c.text)
	}
}

func price(points int64) string {
	switch {
	case points == 0:
		return "as good"
	case points < 0:
		return fmt.Sprintf("%d fewer", -points)
	}
	return fmt.Sprintf("%d more", points)
}

// offer names an alternative.
func (q *question) offer(a periodize.Alternative) string {
	if a.Kind == "" && len(a.With) == 0 {
		return "nothing"
	}
	t := "only "
	if a.Kind != "" {
		t = say.Kind(a.Kind) + " " + q.stretch(a.Start, a.End)
	}
	for i, k := range a.With {
		if i > 0 || a.Kind != "" {
			t += " beside "
		}
		t += say.Kind(k)
	}
	return t
}

// costs says which aims would be missed, and which kept instead.
func (q *question) costs(costs []season.RuleCost) string {
	var missed, kept []string
	for _, c := range costs {
		switch {
		case c.Points > 0:
			missed = append(missed, q.aim(c.Rule, c.Points))
		case c.Points < 0:
			kept = append(kept, q.aim(c.Rule, -c.Points))
		}
	}
	out := ""
	if len(missed) > 0 {
		out += "; would miss: " + strings.Join(missed, "; ")
	}
	if len(kept) > 0 {
		out += "; would keep: " + strings.Join(kept, "; ")
	}
	return out
}

func (q *question) aim(rule string, points int64) string {
	word := aimWord(rule)
	if per := q.in.rules.Points(rule); rule == "change" && points < soonPoints && per > 0 {
		word = say.Count(int(points/per), "session") + " as handed out"
	} else if rule == "change" {
		word = "the next 24 hours as handed out"
	}
	return fmt.Sprintf("%s (%d)", word, points)
}

// soonPoints is what a change inside the next 24 hours costs.
const soonPoints = 10_000

func (q *question) limits(a *periodize.Answer) string {
	var order []string
	events := map[string][]string{}
	for _, w := range a.Limits {
		word := limitWord(w.Rule)
		if _, ok := events[word]; !ok {
			order = append(order, word)
			events[word] = nil
		}
		if e, ok := q.byID[w.Event]; ok {
			events[word] = append(events[word], q.name(e)+" "+say.Between(e.Date, e.Date))
		}
	}
	if len(order) == 0 {
		return a.Text
	}
	for i, word := range order {
		if n := events[word]; len(n) > 0 {
			order[i] = word + " (" + strings.Join(n, ", ") + ")"
		}
	}
	return strings.Join(order, "; ")
}

// rest plans once more with nothing on the date.
func (q *question) rest() (choice, bool, error) {
	for _, s := range q.sessions() {
		if s.State == season.DoneState {
			return choice{}, false, nil
		}
	}
	req := *q.in.request
	req.Pins = []season.Pin{{Date: q.date, None: true}}
	for _, p := range q.in.request.Pins {
		if p.Date != q.date {
			req.Pins = append(req.Pins, p)
		}
	}
	plan, err := q.planner.Plan(q.ctx, &req)
	if err != nil {
		return choice{}, false, err
	}
	return priced(plan.Cost.Points-q.plan.Cost.Points, "nothing"+q.costs(less(plan.Cost.ByRule, q.plan.Cost.ByRule))), true, nil
}

// less is what a costs more than b, in the order of both.
func less(a, b []season.RuleCost) []season.RuleCost {
	was := map[string]int64{}
	for _, c := range b {
		was[c.Rule] = c.Points
	}
	var out []season.RuleCost
	for _, c := range a {
		out = append(out, season.RuleCost{Rule: c.Rule, Points: c.Points - was[c.Rule]})
		delete(was, c.Rule)
	}
	for _, c := range b {
		if n, ok := was[c.Rule]; ok {
			out = append(out, season.RuleCost{Rule: c.Rule, Points: -n})
		}
	}
	return out
}

// elsewhere says where else the sessions of the date could stand.
func (q *question) elsewhere() error {
	for _, s := range q.sessions() {
		if s.Pinned || s.State == season.DoneState {
			continue
		}
		others, err := q.x.Elsewhere(q.ctx, s.ID)
		if errors.Is(err, periodize.ErrNoExploration) {
			return nil
		}
		if err != nil {
			return err
		}
		q.title("THE " + strings.ToUpper(say.Kind(s.Kind)) + " SESSION ON ANOTHER DATE INSTEAD")
		if len(others) == 0 {
			q.Line("  no other date within six")
		}
		for i, a := range others {
			if i == elsewhereShown {
				q.Line(fmt.Sprintf("  and %d more dates, dearer", len(others)-i))
				break
			}
			q.Hang("  "+say.Pad(price(a.Price), 11), say.Pad(say.Day(a.Date), dateColumn)+q.stretch(a.Start, a.End)+q.costs(a.Costs))
		}
	}
	return nil
}
