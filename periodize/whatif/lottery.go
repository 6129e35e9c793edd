package whatif

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"iter"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Lottery plans seasons drawn at random: games are postponed and play-off rounds
// are reached at the club's own rates. Each season is planned as it is, and once
// with each measure, so that the same luck meets every measure.
//
// A season is planned knowing its whole calendar from the start. What is missed
// even so no planning could keep; in a real season, in which changes come as news,
// more will be missed.
type Lottery struct {
	// Sweep holds planner, workers and progress; Issued is never meant.
	Sweep Sweep
	// Seed chooses the seasons; season n of a seed is the same whatever Seasons is.
	Seed uint64
	// Seasons is how many are drawn, 1 to 100,000; 0 is 1,000.
	Seasons int
	// Rates are the club's; see RatesOf.
	Rates Rates
	// Measures are what could help.
	Measures []Variant
}

// Rates say how often things happen, of a thousand.
type Rates struct {
	// Postponed games of a thousand confirmed ones that lie ahead.
	Postponed int `json:"postponed"`
	// LaterFrom and LaterTo are how many dates later a postponed game is played, at
	// the same clock time: each date equally often on which the club has no game. If
	// there is none in the period, it is not played. 0 and 0 are 7 and 42.
	LaterFrom int `json:"laterFrom"`
	LaterTo   int `json:"laterTo"`
	// Through: a provisional round is reached. A round is the provisional games of
	// one competition and Round, with the if-necessary ones of that competition that
	// follow. After the first that is not reached none is: of that competition if
	// its games name a Round, so that a cup and play-offs each go their way, else of
	// all that name none, such as "quarter-final" and "semi-final".
	Through int `json:"through"`
	// Needed: a game that is played only if necessary is. After the first of a round
	// that is not, none of that round is.
	Needed int `json:"needed"`
}

// Odds is what came of a lottery.
type Odds struct {
	Generator string        `json:"generator"`
	Seed      uint64        `json:"seed"`
	Seasons   int           `json:"seasons"`
	Rates     Rates         `json:"rates"`
	AsItIs    MeasureOdds   `json:"asItIs"`
	Measures  []MeasureOdds `json:"measures"` // the most helpful first
}

// MeasureOdds sums up all seasons with one measure. Weeks are whole weeks.
type MeasureOdds struct {
	Name    string `json:"name"`
	Seasons int    `json:"seasons"` // planned
	Failed  int    `json:"failed"`  // that could not be planned, in no other figure
	Problem string `json:"problem,omitempty"`
	Weeks   int64  `json:"weeks"`
	// WeeksMissed have fewer than two lifts or no full-body session; SeasonsMissed
	// hold one such week or more.
	WeeksMissed   int64 `json:"weeksMissed"`
	SeasonsMissed int   `json:"seasonsMissed"`
	Points        int64 `json:"points"`
	// Saved are the points less than without a measure, over the seasons that both
	// could plan; Better and Worse count the seasons with fewer and with more.
	Saved  int64 `json:"saved"`
	Better int   `json:"better"`
	Worse  int   `json:"worse"`
	// WeeksSaved are the missed weeks less, over the same seasons.
	WeeksSaved int64 `json:"weeksSaved"`
	Postponed  int64 `json:"postponed"` // games, over the seasons
	Bounded    int   `json:"bounded"`   // plans that are not proved
}

const maxSeasons = 100_000

func (r Rates) settled() Rates {
	if r.LaterFrom == 0 && r.LaterTo == 0 {
		r.LaterFrom, r.LaterTo = 7, 42
	}
	return r
}

func (l *Lottery) check() error {
	var problems []calendar.Problem
	bad := func(path string, value int, reason, remedy string) {
		problems = append(problems, calendar.Problem{Code: season.CodeRange, Class: calendar.ClassError, Path: path, Value: fmt.Sprint(value), Reason: reason, Remedy: remedy})
	}
	if l.Seasons < 0 || l.Seasons > maxSeasons {
		bad("/seasons", l.Seasons, fmt.Sprintf("1 to %d seasons can be drawn", maxSeasons), "give another number")
	}
	r := l.Rates.settled()
	for _, x := range []struct {
		path string
		n    int
	}{{"/rates/postponed", r.Postponed}, {"/rates/through", r.Through}, {"/rates/needed", r.Needed}} {
		if x.n < 0 || x.n > 1000 {
			bad(x.path, x.n, "a rate is 0 to 1000 of a thousand", "give how many of a thousand")
		}
	}
	if r.LaterFrom < 1 || r.LaterTo > season.MaxPeriodDays {
		bad("/rates/laterFrom", r.LaterFrom, fmt.Sprintf("a game is postponed by 1 to %d dates", season.MaxPeriodDays), "give other dates")
	}
	if r.LaterTo < r.LaterFrom {
		bad("/rates/laterTo", r.LaterTo, "it is less than laterFrom", "give the fewest dates first")
	}
	if len(problems) > 0 {
		return &season.InputError{Problems: problems}
	}
	return nil
}

// Run draws and plans the seasons. Measures are in order of the missed weeks they
// save, then of the points, then as they were given.
func (l *Lottery) Run(ctx context.Context, base *season.Request) (*Odds, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	seasons := l.Seasons
	if seasons == 0 {
		seasons = 1000
	}
	out := &Odds{Generator: Generator, Seed: l.Seed, Seasons: seasons, Rates: l.Rates.settled(), AsItIs: MeasureOdds{Name: "as it is"}, Measures: []MeasureOdds{}}
	for _, m := range l.Measures {
		out.Measures = append(out.Measures, MeasureOdds{Name: m.name()})
	}
	each := 1 + len(l.Measures)
	var postponed []int
	draws := func(yield func(Variant) bool) {
		for n := range seasons {
			c, moved := l.Draw(base, n)
			postponed = append(postponed, moved)
			if !yield(Variant{Name: fmt.Sprintf("season %d", n+1), Change: c}) {
				return
			}
			for _, m := range l.Measures {
				if !yield(Variant{Name: fmt.Sprintf("season %d, %s", n+1, m.name()), Change: Compose("", c, m.Change)}) {
					return
				}
			}
		}
	}
	sweep := l.Sweep
	sweep.Issued = false
	var plain *Row // the same season without a measure
	for r, err := range sweep.Run(ctx, base, iter.Seq[Variant](draws)) {
		var failed *VariantError
		if err != nil && !errors.As(err, &failed) {
			return nil, err
		}
		if r.Index == 0 {
			continue
		}
		which := (r.Index - 1) % each
		m := &out.AsItIs
		if which > 0 {
			m = &out.Measures[which-1]
		}
		if which == 0 {
			plain = nil
		}
		if failed != nil {
			if m.Failed++; m.Problem == "" {
				m.Problem = failed.Err.Error()
			}
			continue
		}
		m.add(&r.Row, plain, postponed[(r.Index-1)/each])
		if which == 0 {
			row := r.Row
			plain = &row
		}
	}
	slices.SortStableFunc(out.Measures, func(a, b MeasureOdds) int {
		return cmp.Or(cmp.Compare(b.WeeksSaved, a.WeeksSaved), cmp.Compare(b.Saved, a.Saved))
	})
	return out, nil
}

func (m *MeasureOdds) add(r, plain *Row, postponed int) {
	m.Seasons++
	m.Weeks += int64(r.Weeks)
	missed := int64(r.WeeksBelow)
	m.WeeksMissed += missed
	if missed > 0 {
		m.SeasonsMissed++
	}
	m.Points += r.Points
	m.Postponed += int64(postponed)
	if r.Proof == season.Bounded {
		m.Bounded++
	}
	if plain == nil {
		return
	}
	m.Saved += plain.Points - r.Points
	m.WeeksSaved += int64(plain.WeeksBelow) - missed
	switch {
	case r.Points < plain.Points:
		m.Better++
	case r.Points > plain.Points:
		m.Worse++
	}
}
