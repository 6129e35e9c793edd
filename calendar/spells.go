package calendar

import (
	"slices"
	"strings"
	"time"
)

// ComparePlaced orders events by start, then by kind, then by id.
func ComparePlaced(a, b Placed) int {
	if c := a.Span.Start.Compare(b.Span.Start); c != 0 {
		return c
	}
	if c := strings.Compare(string(a.Kind), string(b.Kind)); c != 0 {
		return c
	}
	return strings.Compare(a.ID, b.ID)
}

// Pair is two games that follow each other.
type Pair struct {
	First, Second string        // ids
	Dates         [2]Date       // the local dates on which they start
	Elapsed       time.Duration // end of the first to start of the second; negative if they overlap
	Uncertain     bool          // a start or the first end is assumed, so Elapsed is too
}

// Spell is a run of games close together.
type Spell struct {
	From, To Date
	Games    []string // ids in order of time, at least as many as the spell asks for
}

// Limits of congestion. Common practice, no source.
const (
	ShortGap     = 48 * time.Hour
	ModerateGap  = 72 * time.Hour
	WeekGames    = 3 // games in WeekDays dates
	WeekDays     = 7
	TenDayGames  = 5 // games in TenDays dates
	TenDays      = 10
	longestGaps  = 3
	changeMargin = 1 // dates around a clock change whose games it concerns
)

// ClockChange is a change of offset between the first and the last date of a
// season, in the zone of at least one of its games.
type ClockChange struct {
	Zone  string
	At    time.Time     // in UTC
	Date  Date          // local date on which the clocks change
	Shift time.Duration // positive when the clocks go forward: that date is shorter
	Games []string      // ids of the games of this zone from the date before to the date after
}

// Facts is what a list of games says about a season.
type Facts struct {
	Games       int  // active games in the period
	Dates       int  // dates with at least one of them
	First, Last Date // of the games; unset if there is none

	Pairs        []Pair // all games that follow each other
	SameDate     []Pair // both on one local date
	BackToBack   []Pair // on successive local dates
	Under48      []Pair // less than 48 h from end to start
	Under72      []Pair // less than 72 h, those under 48 h included
	Longest      []Pair // the three longest gaps, longest first
	ThreeInSeven []Spell
	FiveInTen    []Spell

	Runs         []Run // game-free runs
	ClockChanges []ClockChange
}

// FactsOf computes the facts of the active games whose date lies in from to to;
// an unset bound is open. Other kinds of event are not looked at. The order of
// the events does not matter.
//
// Three games in seven dates make a spell; two such threes that share a game are
// one spell, which may then be longer than seven dates. The same holds for five
// games in ten dates.
func FactsOf(events []Placed, from, to Date) Facts {
	var games []Placed
	for _, p := range events {
		in := (from.IsZero() || !p.Date.Before(from)) && (to.IsZero() || !p.Date.After(to))
		if p.Kind == Game && p.Active() && in && !p.Date.IsZero() {
			games = append(games, p)
		}
	}
	slices.SortFunc(games, ComparePlaced)
	f := Facts{Games: len(games)}
	if len(games) == 0 {
		return f
	}
	dates := make([]Date, len(games))
	for i, g := range games {
		dates[i] = g.Date
	}
	known := sortedDates(dates)
	f.Dates, f.First, f.Last = len(known), known[0], known[len(known)-1]
	f.Runs = GameFreeRuns(known, from, to)
	f.pairs(games)
	f.ThreeInSeven = spells(games, WeekGames, WeekDays)
	f.FiveInTen = spells(games, TenDayGames, TenDays)
	f.ClockChanges = clockChanges(games, f.First, f.Last)
	return f
}

func (f *Facts) pairs(games []Placed) {
	for i := 1; i < len(games); i++ {
		a, b := games[i-1], games[i]
		p := Pair{
			First: a.ID, Second: b.ID, Dates: [2]Date{a.Date, b.Date},
			Elapsed:   Gap(a.Span, b.Span),
			Uncertain: a.EndAssumed || b.DateOnly,
		}
		f.Pairs = append(f.Pairs, p)
		switch b.Date.DaysSince(a.Date) {
		case 0:
			f.SameDate = append(f.SameDate, p)
		case 1:
			f.BackToBack = append(f.BackToBack, p)
		}
		if p.Elapsed < ModerateGap {
			f.Under72 = append(f.Under72, p)
		}
		if p.Elapsed < ShortGap {
			f.Under48 = append(f.Under48, p)
		}
	}
	f.Longest = slices.Clone(f.Pairs)
	slices.SortStableFunc(f.Longest, func(a, b Pair) int {
		switch {
		case a.Elapsed > b.Elapsed:
			return -1
		case a.Elapsed < b.Elapsed:
			return 1
		}
		return 0
	})
	f.Longest = f.Longest[:min(longestGaps, len(f.Longest))]
}

// spells finds each group of n successive games within so many dates and joins
// the groups that share a game. Games must be sorted.
func spells(games []Placed, n, days int) []Spell {
	var out []Spell
	end := -1 // index of the last game of the last spell
	for i := 0; i+n <= len(games); i++ {
		j := i + n - 1
		if games[j].Date.DaysSince(games[i].Date) >= days {
			continue
		}
		if i > end {
			out = append(out, Spell{From: games[i].Date})
			end = i - 1
		}
		s := &out[len(out)-1]
		for end < j {
			end++
			s.Games = append(s.Games, games[end].ID)
			if games[end].Date.After(s.To) {
				s.To = games[end].Date
			}
		}
	}
	return out
}

func clockChanges(games []Placed, first, last Date) []ClockChange {
	type key struct{ name, rules string }
	byZone := map[key][]Placed{}
	var order []key
	for _, g := range games {
		k := key{g.Zone.name, g.Zone.rules}
		if byZone[k] == nil {
			order = append(order, k)
		}
		byZone[k] = append(byZone[k], g)
	}
	var out []ClockChange
	for _, k := range order {
		// Within one zone games in order of time are in order of date.
		of := byZone[k]
		z := of[0].Zone
		for _, t := range z.Transitions(Span{z.DayStart(first), z.DayStart(last.AddDays(1))}) {
			c := ClockChange{Zone: z.Name(), At: t.At, Date: DateOf(t.At, z)}
			before, _ := z.OffsetAt(t.At.Add(-time.Second))
			c.Shift = time.Duration(t.Offset-before) * time.Second
			i, _ := slices.BinarySearchFunc(of, c.Date.AddDays(-changeMargin), func(p Placed, d Date) int {
				return p.Date.Compare(d)
			})
			for ; i < len(of) && !of[i].Date.After(c.Date.AddDays(changeMargin)); i++ {
				c.Games = append(c.Games, of[i].ID)
			}
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b ClockChange) int {
		if c := a.At.Compare(b.At); c != 0 {
			return c
		}
		return strings.Compare(a.Zone, b.Zone)
	})
	return out
}
