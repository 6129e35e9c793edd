package bridge

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// About is the answer to a question about a date or a session.
type About struct {
	Date      string   `json:"date"`
	Title     string   `json:"title"`
	Past      bool     `json:"past"`
	Why       []string `json:"why"` // reasons of the session asked about
	Possible  []Choice `json:"possible"`
	Forbidden []Choice `json:"forbidden"`
	Elsewhere []Choice `json:"elsewhere"`
	Card      *Card    `json:"card,omitempty"`
	Nothing   string   `json:"nothing,omitempty"` // why there is no answer
}

// Choice is something that could stand in the plan instead, or what forbids it.
type Choice struct {
	Kind   string   `json:"kind"` // "" is no session
	Title  string   `json:"title"`
	Date   string   `json:"date"`
	Day    string   `json:"day"`
	Start  string   `json:"start"`
	When   string   `json:"when"`
	Place  string   `json:"place"`
	Price  string   `json:"price"`
	Costs  []string `json:"costs"` // aims missed, and kept, by it
	Limits []string `json:"limits"`
	Taking bool     `json:"taking"` // it can be pinned from here

	points int64
}

type dateArgs struct {
	Date string `json:"date"`
}

type sessionArgs struct {
	ID string `json:"id"`
}

// date says what else could stand on a date, and what cannot and why.
func (d *Desk) date(ctx context.Context, a dateArgs, stage Stage) (any, error) {
	date, err := calendar.ParseDate(a.Date)
	if err != nil {
		return nil, valueError("date", err)
	}
	return d.about(ctx, date, nil, stage)
}

// session says why a session is there, what is in it, and what else could be.
func (d *Desk) session(ctx context.Context, a sessionArgs, stage Stage) (any, error) {
	s := d.find(a.ID)
	if s == nil {
		return nil, wrong("session", a.ID, "the plan has no session of this id", "choose one of the plan")
	}
	return d.about(ctx, s.Date, s, stage)
}

func (d *Desk) find(id string) *season.Session {
	for i := range d.plan.Sessions {
		if d.plan.Sessions[i].ID == id {
			return &d.plan.Sessions[i]
		}
	}
	return nil
}

func (d *Desk) about(ctx context.Context, date calendar.Date, s *season.Session, stage Stage) (any, error) {
	out := About{Date: date.String(), Title: say.Day(date), Why: []string{}, Possible: []Choice{}, Forbidden: []Choice{}, Elsewhere: []Choice{}}
	if s != nil {
		out.Why = notes(s.Why)
		card, err := d.cardOf(s)
		if err != nil {
			return nil, err
		}
		if card != nil {
			out.Card = cardView(*card)
		}
	}
	if !d.req.Athlete.Zone.DaySpan(date).End.After(d.plan.Now) {
		out.Past = true
		return out, nil
	}
	x, err := d.explore(ctx, stage)
	if err != nil {
		return nil, err
	}
	if d.plan.Outcome == season.Refused {
		out.Nothing = "Nothing may be planned, so there is nothing to compare."
		return out, nil
	}
	stage("asking", 0, 0)
	q := question{Desk: d, ctx: ctx, x: x, date: date, names: namesOf(d.req)}
	if err := q.onDate(&out); err != nil {
		return nil, err
	}
	if s != nil && !s.Pinned && s.State != season.DoneState {
		if err := q.elsewhere(&out, s.ID); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// question is a date that is asked about.
type question struct {
	*Desk
	ctx   context.Context
	x     *periodize.Exploration
	date  calendar.Date
	names names
}

// mostShown is how many choices of each sort are shown.
const mostShown = 8

func (q *question) onDate(out *About) error {
	others, err := q.x.OnDate(q.date)
	if errors.Is(err, periodize.ErrNoExploration) {
		out.Nothing = "The plan was not proved, so other plans were not all looked at."
		return nil
	}
	if err != nil {
		return err
	}
	known := map[season.Kind]bool{}
	for _, a := range others {
		if a.AtLeast && len(a.With) == 0 && a.Kind != "" {
			continue // priced one by one below
		}
		if len(a.With) == 0 {
			known[a.Kind] = true
		}
		out.Possible = append(out.Possible, q.choice(a))
	}
	for _, k := range season.Kinds() {
		if known[k] {
			continue
		}
		a, err := q.x.WhyNot(q.ctx, q.date, k, nil)
		switch {
		case err != nil:
			return err
		case a.Planned:
		case a.Possible:
			c := q.choice(periodize.Alternative{Kind: k, Start: a.Start, End: a.End, Date: q.date, Price: a.Price, Costs: a.Costs})
			out.Possible = append(out.Possible, c)
		default:
			limits := q.names.inWay(a.Limits)
			if len(limits) == 0 {
				limits = []string{calendar.Inert(a.Text)}
			}
			out.Forbidden = append(out.Forbidden, Choice{Kind: string(k), Title: kindWord(k), Date: q.date.String(), Costs: []string{}, Limits: limits})
		}
	}
	slices.SortStableFunc(out.Possible, func(a, b Choice) int { return cmp.Compare(a.points, b.points) })
	out.Possible = out.Possible[:min(len(out.Possible), mostShown)]
	return nil
}

func (q *question) elsewhere(out *About, id string) error {
	others, err := q.x.Elsewhere(q.ctx, id)
	if errors.Is(err, periodize.ErrNoExploration) {
		return nil
	}
	if err != nil {
		return err
	}
	for i, a := range others {
		if i == mostShown {
			break
		}
		out.Elsewhere = append(out.Elsewhere, q.choice(a))
	}
	return nil
}

func (q *question) choice(a periodize.Alternative) Choice {
	c := Choice{Kind: string(a.Kind), Title: "No session", Date: a.Date.String(), Day: say.Day(a.Date), Place: calendar.Inert(a.Place),
		Price: price(a), Costs: q.costs(a.Costs), Limits: []string{}, points: a.Price, Taking: len(a.With) == 0}
	if a.Kind != "" {
		c.Title = kindWord(a.Kind)
		from := q.clockAt(a.Start)
		c.Start, c.When = from.text, from.text+"–"+q.clockAt(a.End).text
		if from.zone != "" {
			c.When += ", " + thereText(from.zone)
		}
	}
	for i, k := range a.With {
		join := " beside "
		if i == 0 && a.Kind == "" {
			c.Title, join = "Only ", ""
		}
		c.Title += join + say.Kind(k)
	}
	return c
}

// price is what a choice costs, in words.
func price(a periodize.Alternative) string {
	switch {
	case a.AtLeast:
		return fmt.Sprintf("over %d points", periodize.Slack)
	case a.Price == 0:
		return "as good"
	case a.Price < 0:
		return fmt.Sprintf("%d points better", -a.Price)
	case a.Price == 1:
		return "1 point"
	}
	return fmt.Sprintf("%d points", a.Price)
}

// costs says which aims would be missed, and which kept instead.
func (q *question) costs(list []season.RuleCost) []string {
	out := []string{}
	for _, c := range list {
		switch {
		case c.Points > 0:
			out = append(out, fmt.Sprintf("%d for: %s", c.Points, q.names.rule(c.Rule)))
		case c.Points < 0:
			out = append(out, fmt.Sprintf("saves %d of: %s", -c.Points, q.names.rule(c.Rule)))
		}
	}
	return out
}
