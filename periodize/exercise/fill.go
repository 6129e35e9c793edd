package exercise

import (
	"slices"

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
// or past, and those that may not be held, get none. Planned lifts are taken as
// done when later ones are filled. The plan handed in is not changed. The error
// is a *season.InputError.
func (b Builder) Season(plan season.Plan, club Club) (season.Plan, []Card, error) {
	plan, cards, _, err := b.season(plan, club)
	return plan, cards, err
}

// season also counts the fillings that its searches tried.
func (b Builder) season(plan season.Plan, club Club) (season.Plan, []Card, int, error) {
	plan.Sessions = slices.Clone(plan.Sessions)
	order := make([]int, len(plan.Sessions))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int { return plan.Sessions[x].Start.Compare(plan.Sessions[y].Start) })
	in := Input{Athlete: club.Athlete, Profile: club.Profile, History: club.History}
	in.History.Lifts = slices.Clone(in.History.Lifts)
	c := b.Catalogue.data()
	crowded := congestedWeeks(plan.Games)
	kits := map[string]*ready{}
	var base *asked
	weeks := map[calendar.Date]map[Region]int{}
	var cards []Card
	for _, i := range order {
		s := &plan.Sessions[i]
		in.Session = *s
		if s.State == season.DoneState || s.Start.Before(plan.Now) {
			if s.State == season.DoneState && s.Kind.Lift() {
				in.History.Lifts = append(in.History.Lifts, s.Date)
			}
			continue
		}
		kit, ok := club.Kits[s.Place]
		if !ok {
			kit = Gym()
		}
		if base == nil || kits[s.Place] == nil {
			in.Kit = kit
			if problems := in.problems(c); len(problems) > 0 {
				return season.Plan{}, nil, 0, &season.InputError{Problems: problems}
			}
			if base == nil {
				base = b.prepared(&in, c)
				base.mem = newMemory(c, &in.History, calendar.Date{})
			}
			kits[s.Place] = kit.ready(c)
		} else if s.Minutes < MinMinutes || s.Minutes > MaxMinutes || s.Date.IsZero() || !s.Kind.Known() {
			return season.Plan{}, nil, 0, &season.InputError{Problems: in.problems(c)}
		}
		if len(refusals(&in)) > 0 {
			continue
		}
		monday := calendar.WeekStart(s.Date, 1)
		in.Kit = kit
		in.History.WeekSets = weeks[monday]
		in.Congested = crowded[monday]
		in.Exam = slices.ContainsFunc(s.Why, func(n season.Note) bool { return n.Code == "why-short-exam" })
		a := *base
		a.in, a.kit, a.notes = &in, kits[s.Place], slices.Clone(base.notes)
		a.start()
		card := a.build()
		card.State = s.State
		if card.State == "" {
			card.State = season.AsWritten
		}
		s.Parts = card.Parts()
		cards = append(cards, card)
		base.mem.add(&card, calendar.Date{})
		if s.Kind.Lift() {
			in.History.Lifts = append(in.History.Lifts, s.Date)
		}
		if weeks[monday] == nil {
			weeks[monday] = map[Region]int{}
		}
		for r, n := range card.Sets() {
			weeks[monday][r] += n
		}
	}
	states := 0
	if base != nil {
		states = base.ws.states
	}
	return plan, cards, states, nil
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
