package exercise

import (
	"maps"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Club is what cards of a season need besides the plan.
type Club struct {
	Athlete season.Athlete
	Profile Profile
	Kits    map[string]Kit // by id of the place; one that is missing is an ordinary gym
	History History        // before the plan
}

// Season gives every session of a plan that lies ahead its parts, and returns
// the plan's copy with them and the cards, one a session; sessions that are done
// or past, and those that are held off or may not take place, get none. Planned lifts are taken as
// done when later ones are filled. The plan handed in is not changed. The error
// is a *season.InputError.
func (b Builder) Season(plan season.Plan, club Club) (season.Plan, []Card, error) {
	f := b.filler(plan, club)
	if err := f.all(""); err != nil {
		return season.Plan{}, nil, err
	}
	return f.plan, f.cards, nil
}

// Written returns what [Builder.Season] makes the card of one session from, and
// the card: what [Builder.Today] asks for. The error is a *season.InputError, also
// if the plan has no such session ahead.
func (b Builder) Written(plan season.Plan, club Club, session string) (Input, Card, error) {
	f := b.filler(plan, club)
	if err := f.all(session); err != nil {
		return Input{}, Card{}, err
	}
	if n := len(f.cards); n > 0 && f.cards[n-1].Session == session && session != "" {
		f.in.History.Cards = slices.Concat(club.History.Cards, f.cards[:n-1])
		return f.in, f.cards[n-1], nil
	}
	return Input{}, Card{}, &season.InputError{Problems: []calendar.Problem{{Code: "session-unknown", Class: calendar.ClassError, Path: "/session",
		Value: calendar.Inert(session), Reason: "the plan has no session of this id that lies ahead and may be held", Remedy: "name one that does"}}}
}

// filler fills the sessions of a plan in their order.
type filler struct {
	b       Builder
	c       *compiled
	plan    season.Plan
	club    Club
	in      Input
	base    *asked
	kits    map[string]*ready
	crowded map[calendar.Date]bool
	breaks  []calendar.Run
	starts  []time.Time // of the games, in order
	weeks   map[calendar.Date]*week
	cards   []Card
}

// week is what is planned in one, by its Monday.
type week struct {
	lifts, full    int // planned
	lifted, done   int // of them so far
	direct, half   map[Region]int
	patterns       map[Pattern]int
	sets           int // of its lifts so far
	known, unknown bool
}

func (b Builder) filler(plan season.Plan, club Club) *filler {
	f := &filler{b: b, c: b.Catalogue.data(), plan: plan, club: club, kits: map[string]*ready{}, crowded: congestedWeeks(plan.Games), weeks: map[calendar.Date]*week{}}
	f.plan.Sessions = slices.Clone(plan.Sessions)
	f.in = Input{Athlete: club.Athlete, Profile: club.Profile, History: club.History}
	f.in.History.Lifts = slices.Clone(club.History.Lifts)
	var games []calendar.Date
	for _, g := range plan.Games {
		games = append(games, g.Date)
		f.starts = append(f.starts, g.Start)
	}
	slices.SortFunc(f.starts, time.Time.Compare)
	f.breaks = calendar.GameFreeRuns(games, plan.Period.From, plan.Period.To)
	for i := range plan.Sessions {
		s := &plan.Sessions[i]
		w := f.week(s.Date)
		if s.Kind.Lift() {
			w.lifts++
		}
		if s.Kind.HeavyLowerBody() {
			w.full++
		}
	}
	return f
}

func (f *filler) week(d calendar.Date) *week {
	monday := calendar.WeekStart(d, 1)
	w := f.weeks[monday]
	if w == nil {
		w = &week{}
		f.weeks[monday] = w
	}
	return w
}

// all fills the sessions in their order, up to the one named last.
func (f *filler) all(last string) error {
	order := make([]int, len(f.plan.Sessions))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int { return f.plan.Sessions[x].Start.Compare(f.plan.Sessions[y].Start) })
	f.cards = make([]Card, 0, len(order))
	for _, i := range order {
		s := &f.plan.Sessions[i]
		f.in.Session = *s
		if s.State == season.DoneState || s.Start.Before(f.plan.Now) {
			f.past(s)
			continue
		}
		if s.State == season.Held {
			continue
		}
		if err := f.ready(s); err != nil {
			return err
		}
		if len(refusals(&f.in)) > 0 {
			continue
		}
		f.around(s)
		if f.fill(s); s.ID == last && last != "" {
			return nil
		}
	}
	return nil
}

// past counts a session that was done. What was in it is not known here.
func (f *filler) past(s *season.Session) {
	w := f.week(s.Date)
	w.unknown = true
	if s.State == season.DoneState && s.Kind.Lift() {
		f.in.History.Lifts = append(f.in.History.Lifts, s.Date)
		w.lift(s.Kind)
	}
}

// lift counts a lift that was done.
func (w *week) lift(k season.Kind) {
	w.lifted++
	if k.HeavyLowerBody() {
		w.done++
	}
}

// ready puts the kit of the place in, and checks what was not checked before.
func (f *filler) ready(s *season.Session) error {
	kit, ok := f.club.Kits[s.Place]
	if !ok {
		kit = Gym()
	}
	f.in.Kit = kit
	if f.base != nil && f.kits[s.Place] != nil && s.Minutes >= MinMinutes && s.Minutes <= MaxMinutes && !s.Date.IsZero() && s.Kind.Known() {
		return nil
	}
	if problems := f.in.problems(f.c); len(problems) > 0 {
		return &season.InputError{Problems: problems}
	}
	if f.base == nil {
		f.base = f.b.prepared(&f.in, f.c)
		f.base.mem = newMemory(f.c, &f.in.History, calendar.Date{})
	}
	f.kits[s.Place] = kit.ready(f.c)
	return nil
}

// around tells a session what the plan and the calendar around it are.
func (f *filler) around(s *season.Session) {
	w := f.week(s.Date)
	if w.direct == nil {
		w.direct, w.half, w.patterns = map[Region]int{}, map[Region]int{}, map[Pattern]int{}
	}
	f.in.History.WeekSets, f.in.History.WeekIndirect, f.in.History.WeekPatterns = w.direct, w.half, w.patterns
	f.in.Congested = f.crowded[calendar.WeekStart(s.Date, 1)]
	f.in.Exam = examDate(s)
	f.in.NextGame = f.nextGame(s)
	f.in.Week = Week{Lifts: w.lifts - w.lifted, Sets: w.sets, Known: !w.unknown, Usual: f.usual(s.Date)}
	if s.Kind.HeavyLowerBody() {
		f.in.Week.Ahead, f.in.Week.Full = w.full-w.done-1, w.full
	}
	for _, r := range f.breaks {
		if r.Class != calendar.Break {
			continue
		}
		if !s.Date.Before(r.From) {
			f.in.Week.BlockFrom = r.From
		}
		if s.Date.After(r.To) {
			f.in.Week.BlockFrom = r.To.AddDays(1)
		}
		f.in.Week.Break = f.in.Week.Break || !s.Date.Before(r.From) && !s.Date.After(r.To)
	}
}

// nextGame is the start of the first game after a session.
func (f *filler) nextGame(s *season.Session) time.Time {
	i, _ := slices.BinarySearchFunc(f.starts, s.Start, time.Time.Compare)
	if i < len(f.starts) {
		return f.starts[i]
	}
	return time.Time{}
}

func examDate(s *season.Session) bool {
	return slices.ContainsFunc(s.Why, func(n season.Note) bool { return n.Code == "why-short-exam" })
}

// usualWeeks is over how many weeks before it an exam week is compared.
const usualWeeks = 3

// usual is the mean of the sets of lifts in the three weeks before, 0 if they are
// not all known.
func (f *filler) usual(d calendar.Date) int {
	monday := calendar.WeekStart(d, 1)
	sum := 0
	for n := 1; n <= usualWeeks; n++ {
		w := f.weeks[monday.AddDays(-7*n)]
		if w == nil || !w.known || w.unknown {
			return 0
		}
		sum += w.sets
	}
	return sum / usualWeeks
}

// fill makes the card of a session and takes it as done for those after it.
func (f *filler) fill(s *season.Session) {
	a := *f.base
	a.in, a.kit, a.notes = &f.in, f.kits[s.Place], slices.Clone(f.base.notes)
	a.start()
	card := a.build()
	if card.State = s.State; card.State == "" {
		card.State = season.AsWritten
	}
	s.Parts = card.Parts()
	f.cards = append(f.cards, card)
	f.base.mem.add(&card, f.in.Week.BlockFrom)
	w := f.week(s.Date)
	if !s.Kind.Lift() {
		return
	}
	f.in.History.Lifts = append(f.in.History.Lifts, s.Date)
	w.lift(s.Kind)
	w.take(&card)
}

// take counts the sets of a lift. The maps of the input stay as they were for
// whoever keeps it.
func (w *week) take(card *Card) {
	w.direct, w.half, w.patterns, w.known = maps.Clone(w.direct), maps.Clone(w.half), maps.Clone(w.patterns), true
	card.eachSet(func(p Pattern, sets int) {
		w.direct[p.Region()] += sets
		w.patterns[p] += sets
		if r := p.half(); r != "" {
			w.half[r] += sets
		}
		w.sets += sets
	})
}

// congestedWeeks are the weeks, by their Mondays, with a game less than 96 h
// after the one before it.
func congestedWeeks(games []season.PlanGame) map[calendar.Date]bool {
	sorted := slices.Clone(games)
	slices.SortStableFunc(sorted, func(x, y season.PlanGame) int { return x.Start.Compare(y.Start) })
	out := map[calendar.Date]bool{}
	for i := 1; i < len(sorted); i++ {
		if sorted[i].Date.IsZero() || sorted[i-1].Date.IsZero() {
			continue
		}
		if crowded, ok := load.Congested(sorted[i].Start.Sub(sorted[i-1].End)); ok && crowded {
			out[calendar.WeekStart(sorted[i-1].Date, 1)] = true
			out[calendar.WeekStart(sorted[i].Date, 1)] = true
		}
	}
	return out
}
