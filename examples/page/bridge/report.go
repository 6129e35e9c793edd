package bridge

import (
	"context"
	"fmt"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// reportArgs are what somebody says of the day of a session.
type reportArgs struct {
	Session string `json:"session"`
	Region  string `json:"region"`
	Side    string `json:"side"`
	Pain    int    `json:"pain"` // 0 to 10
	Minutes int    `json:"minutes"`
	Sign    string `json:"sign"` // one that ends the day, "" if none
}

// Today is what a report leads to. What was reported is not kept.
type Today struct {
	State     string   `json:"state"`
	Why       []string `json:"why"`
	Questions []string `json:"questions"`
	Refer     bool     `json:"refer"`     // a clinician should look
	Clearance bool     `json:"clearance"` // held until a named clinician clears it
	Card      *Card    `json:"card,omitempty"`
	Out       []string `json:"out"` // exercises of the written card that went out
	In        []string `json:"in"`  // and those that came for them
	Rest      *Rest    `json:"rest"`
}

// Rest is what the day makes of the rest of the plan, to be looked at before it is
// confirmed.
type Rest struct {
	Changes   []Line `json:"changes"`
	Unchanged int    `json:"unchanged"`
	Off       int    `json:"off"` // sessions that are off while a hold stands
	Points    string `json:"points"`
}

// report turns a sore spot into the card of the day, or into none, and plans the
// rest of the season again with what is left of the session. That is a draft:
// nothing has happened until it is accepted.
func (d *Desk) report(ctx context.Context, a reportArgs, stage Stage) (any, error) {
	s := d.find(a.Session)
	if s == nil {
		return nil, wrong("session", "", "the plan has no session of this id", "choose one of the plan")
	}
	club, err := d.club()
	if err != nil {
		return nil, err
	}
	var builder exercise.Builder
	in, written, err := builder.Written(*d.plan, club, s.ID)
	if err != nil {
		return nil, wrong("session", "", "the session is past or may not be held", "choose one that lies ahead")
	}
	said := exercise.CheckIn{Minutes: a.Minutes}
	if a.Region != "" {
		said.Pain = []exercise.Complaint{{Date: s.Date, Region: a.Region, Side: a.Side, Pain: a.Pain}}
	}
	if a.Sign != "" {
		said.Signs = []exercise.Sign{exercise.Sign(a.Sign)}
	}
	result, err := builder.Today(in, written, said)
	if err != nil {
		return nil, err
	}
	out := todayView(result, written)
	out.Rest, err = d.rest(ctx, s, written, result, stage)
	return out, err
}

// rest plans the season again with the day in it.
func (d *Desk) rest(ctx context.Context, s *season.Session, written exercise.Card, result exercise.Result, stage Stage) (*Rest, error) {
	d.draft = nil
	stage("planning", 0, 0)
	p := d.planner
	p.Brief = true
	week, err := p.Today(ctx, d.req, d.plan, written, result)
	if err != nil {
		return nil, err
	}
	d.draft = &draft{req: d.issuedTo(&week.Request), plan: week.Plan, day: markOf(s, result)}
	out := &Rest{Changes: []Line{},
		Points: fmt.Sprintf("%d points before, %d after", d.plan.Cost.Points, week.Plan.Cost.Points)}
	for _, c := range week.Plan.Changes {
		if c.Change == season.Unchanged {
			out.Unchanged++
		}
	}
	if week.Plan.Outcome == season.Refused {
		out.Off = len(week.Changes)
		return out, nil
	}
	names := namesOf(d.draft.req)
	for _, c := range week.Changes {
		out.Changes = append(out.Changes, d.line(c, names))
	}
	return out, nil
}

func todayView(result exercise.Result, written exercise.Card) Today {
	out := Today{State: stateWords[result.State()], Questions: []string{}, Out: []string{}, In: []string{}}
	var day exercise.Day
	switch r := result.(type) {
	case exercise.Held:
		out.Why, out.Clearance = notes(r.Why), r.Clearance
		return out
	case exercise.AsWritten:
		day = r.Day
	case exercise.Eased:
		day = r.Day
	case exercise.Swapped:
		day = r.Day
	}
	out.Why, out.Questions, out.Refer = notes(day.Why), notes(day.Questions), day.Refer
	out.Card = cardView(day.Card)
	out.Out, out.In = missing(written, day.Card), missing(day.Card, written)
	return out
}

// missing are the exercises of a that are not in b, by name.
func missing(a, b exercise.Card) []string {
	in := map[string]bool{}
	for _, name := range exercises(b) {
		in[name] = true
	}
	out := []string{}
	for _, name := range exercises(a) {
		if !in[name] && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

func exercises(c exercise.Card) []string {
	var out []string
	for _, b := range c.Blocks {
		for _, it := range b.Items {
			out = append(out, calendar.Inert(it.Exercise.Name))
		}
	}
	return out
}
