package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// fill gives the sessions of a plan their exercises: a card each.
func fill(in *input, plan *season.Plan) (season.Plan, []exercise.Card, error) {
	club, err := clubOf(in, plan)
	if err != nil {
		return season.Plan{}, nil, err
	}
	return exercise.Builder{}.Season(*plan, club)
}

// clubOf is what cards need besides the plan.
func clubOf(in *input, plan *season.Plan) (exercise.Club, error) {
	var builder exercise.Builder
	club := exercise.Club{Athlete: in.request.Athlete, Profile: in.profile, Kits: map[string]exercise.Kit{}}
	if in.past != nil {
		club.History = in.past.history
	}
	var problems []calendar.Problem
	for _, p := range in.request.Places {
		if p.Kit == nil {
			continue // an ordinary gym
		}
		kit, bad := builder.Catalogue.ParseKit(p.Kit)
		for i := range bad {
			bad[i].Path = "places, " + calendar.Inert(p.ID)
		}
		problems = append(problems, bad...)
		club.Kits[p.ID] = kit
	}
	if len(problems) > 0 {
		return exercise.Club{}, &season.InputError{Problems: problems}
	}
	if in.kit != nil {
		for _, x := range plan.Sessions {
			club.Kits[x.Place] = *in.kit
		}
	}
	return club, nil
}

// cards writes the cards of a date.
func (p *program) cards(ctx context.Context, in *input, plan *season.Plan, date calendar.Date) ([]byte, error) {
	_, all, err := fill(in, plan)
	if err != nil {
		return nil, err
	}
	s := newSheet(in, plan, false)
	s.Line(say.Pad("CARD  "+say.DayYear(date), width-40) + say.Clip(in.request.Athlete.ID, 40))
	s.Line(strings.Repeat("=", width))
	s.date(date, s.rows()[date])
	shown := false
	for _, c := range all {
		if c.Date != date {
			continue
		}
		shown = true
		if in.report == nil {
			s.card(c)
		} else if err := p.today(ctx, s, c); err != nil {
			return nil, err
		}
	}
	held := false
	if !shown && in.report != nil {
		if held, err = p.heldOnFreeDate(ctx, s, date); err != nil {
			return nil, err
		}
	}
	if !shown && !held {
		s.Line("")
		s.Line("No session to train from on this date.")
	}
	s.cautions()
	return []byte(s.String()), nil
}

// plainEvidence says no more than what stands beside it.
var plainEvidence = []string{"load-none", "load-body", "load-unlisted", "load-ramp"}

// nameWidth is the room for an exercise and its side; a longer name has a line of
// its own.
const nameWidth = 38

// card writes one session to train from: blocks of exercises done in turn. What is
// the same evidence of several exercises is told once.
func (s *sheet) card(c exercise.Card) {
	told := map[string]bool{}
	s.title(fmt.Sprintf("%s, %d MINUTES", strings.ToUpper(say.Kind(c.Kind)), c.Minutes))
	for _, b := range c.Blocks {
		head := fmt.Sprintf("  %2d min  %s", b.Minutes, b.Name)
		if b.Rounds > 1 {
			head += fmt.Sprintf(", %d rounds", b.Rounds)
		}
		s.Line(head)
		for _, it := range b.Items {
			x := it.Exercise
			dose := x.Reps
			if x.Sets > 1 {
				dose = fmt.Sprintf("%d x %s", x.Sets, x.Reps)
			}
			weight := x.Effort
			if x.Load != nil {
				weight = load.Mass(x.Load.Grams).String()
				if x.Effort != "" {
					weight += ", " + x.Effort
				}
			}
			if x.Rest >= 60 {
				weight = strings.TrimPrefix(weight+", rest "+strconv.Itoa(x.Rest)+" s", ", ")
			}
			name := x.Name
			if x.Side != "" {
				name += " (" + x.Side + ")"
			}
			if utf8.RuneCountInString(name) > nameWidth {
				s.Hang("          ", name)
				name = ""
			}
			left := "          " + say.Pad(name, nameWidth) + " " + say.Pad(dose, 12) + " "
			if weight == "" {
				s.Line(strings.TrimRight(left, " "))
			} else {
				s.Hang(left, weight)
			}
			if x.Evidence != nil && x.Evidence.Code == "load-body" && it.Easier != "" {
				s.Hang("              ", "if that is too many yet: "+it.Easier)
			}
			if x.Evidence != nil && !slices.Contains(plainEvidence, x.Evidence.Code) && !told[x.Evidence.Text] {
				told[x.Evidence.Text] = true
				s.Hang("              ", x.Evidence.Text)
			}
		}
	}
	if len(c.Notes) > 0 {
		s.Line("")
		for _, n := range c.Notes {
			s.Hang("  - ", n.Text)
		}
	}
}
