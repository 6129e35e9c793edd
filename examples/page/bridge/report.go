package bridge

import (
	"context"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
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

// Today is what a report leads to. Nothing of it is kept.
type Today struct {
	State     string   `json:"state"`
	Why       []string `json:"why"`
	Questions []string `json:"questions"`
	Refer     bool     `json:"refer"`     // a clinician should look
	Clearance bool     `json:"clearance"` // held until a named clinician clears it
	Card      *Card    `json:"card,omitempty"`
	Out       []string `json:"out"` // exercises of the written card that went out
	In        []string `json:"in"`  // and those that came for them
}

// report turns a sore spot into the card of the day, or into none.
func (d *Desk) report(a reportArgs) (any, error) {
	s := d.find(a.Session)
	if s == nil {
		return nil, wrong("session", "", "the plan has no session of this id", "choose one of the plan")
	}
	written, err := d.cardOf(s)
	if err != nil {
		return nil, err
	}
	if written == nil {
		return nil, wrong("session", "", "the session is past or may not be held", "choose one that lies ahead")
	}
	in, err := d.input(s, *written)
	if err != nil {
		return nil, err
	}
	said := exercise.CheckIn{Minutes: a.Minutes}
	if a.Region != "" {
		said.Pain = []exercise.Complaint{{Date: s.Date, Region: a.Region, Side: a.Side, Pain: a.Pain}}
	}
	if a.Sign != "" {
		said.Signs = []exercise.Sign{exercise.Sign(a.Sign)}
	}
	result, err := exercise.Builder{}.Today(in, *written, said)
	if err != nil {
		return nil, err
	}
	return todayView(result, *written), nil
}

// input is what the card of a session was made from.
func (d *Desk) input(s *season.Session, written exercise.Card) (exercise.Input, error) {
	club, err := d.club()
	if err != nil {
		return exercise.Input{}, err
	}
	kit, ok := club.Kits[s.Place]
	if !ok {
		kit = exercise.Gym()
	}
	in := exercise.Input{Session: *s, Athlete: d.req.Athlete, Kit: kit, Exam: says(written, "card-exam"), Congested: says(written, "card-congested")}
	in.History.WeekSets = map[exercise.Region]int{}
	monday := calendar.WeekStart(s.Date, 1)
	for _, c := range d.cards {
		if !c.Date.Before(s.Date) {
			break
		}
		in.History.Cards = append(in.History.Cards, c)
		if c.Kind.Lift() {
			in.History.Lifts = append(in.History.Lifts, c.Date)
		}
		if calendar.WeekStart(c.Date, 1) == monday {
			for r, n := range c.Sets() {
				in.History.WeekSets[r] += n
			}
		}
	}
	if n := len(in.History.Cards) - recentCards; n > 0 {
		in.History.Cards = in.History.Cards[n:]
	}
	return in, nil
}

// recentCards is how many cards back a card looks.
const recentCards = 24

func says(c exercise.Card, code string) bool {
	return slices.ContainsFunc(c.Notes, func(n season.Note) bool { return n.Code == code })
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

type holdArgs struct {
	From string `json:"from"`
}

// hold looks at what a hold does from a date on: no session until a named
// clinician clears it. The page asks for it where a report says so.
func (d *Desk) hold(ctx context.Context, a holdArgs, stage func(string)) (any, error) {
	from, err := calendar.ParseDate(a.From)
	if err != nil {
		return nil, valueError("from", err)
	}
	next := *d.req
	next.Athlete.Holds = append(slices.Clone(next.Athlete.Holds), season.Hold{From: from})
	return d.propose(ctx, &next, "No session from "+say.Day(from)+" until a named clinician clears it", stage)
}
