package whatif

import (
	"cmp"
	"context"
	"errors"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Fragility asks of each fixture what would break if it moved by some days, with
// the base plan handed out, and how many sessions would change. The zero value is
// ready.
type Fragility struct {
	Sweep Sweep // its planner, workers and progress; Issued is always meant
	Days  []int // by how much a fixture moves; none: -2, -1, 1 and 2
	// With names the events that move along with a fixture, by its id: the trips
	// there and back.
	With map[string][]string
}

// Fragile is the answer.
type Fragile struct {
	Plan     *season.Plan `json:"-"` // the base plan
	Fixtures []Fixture    `json:"fixtures"`
	Weeks    []Week       `json:"weeks"` // with a fixture, the most fragile first
	Free     []FreeMove   `json:"free"`  // moves that change no session and cost nothing, by date
}

// Fixture is a game that can move: active, not played, in the period and not
// past.
type Fixture struct {
	Event string        `json:"event"`
	Title string        `json:"title,omitempty"`
	Date  calendar.Date `json:"date"`
	Moves []FixtureMove `json:"moves"` // in the order of Days
}

// FixtureMove is one move of a fixture.
type FixtureMove struct {
	Days    int    `json:"days"`
	Problem string `json:"problem,omitempty"` // why it cannot move so; then all else is zero
	// Breaks are the limits that the base plan would break if nobody planned anew.
	Breaks []periodize.BrokenLimit `json:"breaks"`
	// Changed counts the sessions that stand otherwise in the new plan.
	Changed int `json:"changed"`
	// Points is what the new plan costs more than the base plan, by the aims alone:
	// changes to the base plan are not counted in. It can be negative.
	Points int64 `json:"points"`
	// More are the aims missed more often than in the base plan, and by how much.
	More []AimMissed `json:"more"`
}

// Week is a week with fixtures, by the request's first day of the week.
type Week struct {
	From     calendar.Date `json:"from"`
	Fixtures []string      `json:"fixtures"` // ids
	Changed  int           `json:"changed"`  // sessions, over all moves of its fixtures
	Breaks   int           `json:"breaks"`   // limits, over all moves
	Points   int64         `json:"points"`   // of the moves that cost some
	Moves    int           `json:"moves"`    // that could be made
}

// FreeMove is a move that changes nothing.
type FreeMove struct {
	Event string        `json:"event"`
	Date  calendar.Date `json:"date"`
	Days  int           `json:"days"`
}

// Run plans the base, then each move of each fixture as a change to it. Weeks are
// in order of broken limits a move, then of changed sessions a move, then of
// points, then of date.
func (f *Fragility) Run(ctx context.Context, base *season.Request) (*Fragile, error) {
	days := f.Days
	if len(days) == 0 {
		days = []int{-2, -1, 1, 2}
	}
	out := &Fragile{Fixtures: fixturesOf(base), Weeks: []Week{}, Free: []FreeMove{}}
	type move struct{ fixture, days int }
	var moves []move
	var variants []Variant
	for i := range out.Fixtures {
		x := &out.Fixtures[i]
		x.Moves = []FixtureMove{}
		for _, d := range days {
			changes := []Change{MoveDays(x.Event, d)}
			for _, id := range f.With[x.Event] {
				changes = append(changes, MoveDays(id, d))
			}
			moves = append(moves, move{i, d})
			variants = append(variants, Variant{Change: Compose("", changes...)})
		}
	}
	sweep := f.Sweep
	sweep.Issued = true
	for r, err := range sweep.Run(ctx, base, slices.Values(variants)) {
		var failed *VariantError
		if err != nil && !errors.As(err, &failed) {
			return nil, err
		}
		if r.Index == 0 {
			out.Plan = r.Plan
			continue
		}
		m := moves[r.Index-1]
		got := FixtureMove{Days: m.days, Breaks: []periodize.BrokenLimit{}, More: []AimMissed{}}
		if failed != nil {
			got.Problem = failed.Err.Error()
		} else if err := f.compare(ctx, base, variants[r.Index-1].Change, out.Plan, &r, &got); err != nil {
			return nil, err
		}
		x := &out.Fixtures[m.fixture]
		x.Moves = append(x.Moves, got)
	}
	out.rank(base)
	return out, nil
}

func (f *Fragility) compare(ctx context.Context, base *season.Request, c Change, plan *season.Plan, r *Result, got *FixtureMove) error {
	req, _, err := Apply(*base, c)
	if err != nil {
		return err
	}
	e, err := f.Sweep.planner().Evaluate(ctx, &req, plan)
	if err != nil {
		return err
	}
	for _, b := range e.Broken {
		if !b.Fixed {
			got.Breaks = append(got.Breaks, b)
		}
	}
	got.Changed = r.Row.Changes
	got.Points = aimPoints(r.Plan) - aimPoints(plan)
	got.More = moreMissed(plan, r.Plan)
	return nil
}

// aimPoints are the points of a plan without those for changing another.
func aimPoints(p *season.Plan) int64 {
	n := p.Cost.Points
	for _, r := range p.Cost.ByRule {
		if r.Rule == "change" {
			n -= r.Points
		}
	}
	return n
}

// moreMissed are the aims that b misses more often than a.
func moreMissed(a, b *season.Plan) []AimMissed {
	before := Row{Missed: missedAims(a)}
	out := []AimMissed{}
	for _, m := range missedAims(b) {
		n, points := before.MissedCount(m.Aim)
		if m.Count > n {
			out = append(out, AimMissed{Aim: m.Aim, Count: m.Count - n, Points: m.Points - points})
		}
	}
	return out
}

// fixturesOf lists the games that can move, by start and id.
func fixturesOf(req *season.Request) []Fixture {
	canonical := req.Canonical()
	var events []calendar.Event
	for _, v := range canonical.Events {
		if v.Kind == calendar.Game && v.Active() && v.Status != calendar.Played && req.Period.Contains(v.Start.Date) && ahead(req, v) {
			events = append(events, v)
		}
	}
	slices.SortStableFunc(events, func(a, b calendar.Event) int {
		return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.ID, b.ID))
	})
	out := []Fixture{}
	for _, v := range events {
		title := v.Opponent
		if title == "" {
			title = v.Title
		}
		out = append(out, Fixture{Event: v.ID, Title: calendar.Inert(title), Date: v.Start.Date})
	}
	return out
}

// ahead reports whether an event starts at now or later.
func ahead(req *season.Request, v calendar.Event) bool {
	if req.Now.IsZero() {
		return true
	}
	zone := v.Zone
	if zone.IsZero() {
		zone = req.Athlete.Zone
	}
	r := zone.Resolve(v.Start)
	return r.Fit != calendar.Unresolved && !r.Instant.Before(req.Now)
}

// weekStart is the first day of the week of a request.
func weekStart(rules []season.Override) time.Weekday {
	if set, _ := rule.New(rules); set != nil {
		return time.Weekday(set.Value("week-start"))
	}
	return time.Monday
}

func (out *Fragile) rank(base *season.Request) {
	first := weekStart(base.Rules)
	for _, x := range out.Fixtures {
		from := calendar.WeekStart(x.Date, first)
		if n := len(out.Weeks); n == 0 || out.Weeks[n-1].From != from {
			out.Weeks = append(out.Weeks, Week{From: from, Fixtures: []string{}})
		}
		w := &out.Weeks[len(out.Weeks)-1]
		w.Fixtures = append(w.Fixtures, x.Event)
		for _, m := range x.Moves {
			if m.Problem != "" {
				continue
			}
			w.Moves++
			w.Changed += m.Changed
			w.Breaks += len(m.Breaks)
			w.Points += max(0, m.Points)
			if m.Changed == 0 && m.Points <= 0 && len(m.Breaks) == 0 {
				out.Free = append(out.Free, FreeMove{x.Event, x.Date, m.Days})
			}
		}
	}
	// More of something a move: a.n/a.moves > b.n/b.moves, without dividing.
	more := func(a, b int64, movesA, movesB int) int {
		return cmp.Compare(b*int64(max(movesA, 1)), a*int64(max(movesB, 1)))
	}
	slices.SortStableFunc(out.Weeks, func(a, b Week) int {
		return cmp.Or(more(int64(a.Breaks), int64(b.Breaks), a.Moves, b.Moves), more(int64(a.Changed), int64(b.Changed), a.Moves, b.Moves),
			more(a.Points, b.Points, a.Moves, b.Moves), a.From.Compare(b.From))
	})
}
