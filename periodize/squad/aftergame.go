package squad

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// StarterMinutes is from how many minutes of a game on an athlete recovers on the
// day after; with fewer it lifts. Common practice, no source.
const StarterMinutes = 60

// TopUpPoints is what a date without its top-up costs: as much as the second
// full-body session of a week. Common practice, no source.
const TopUpPoints = 120

// RuleTopUp is the aim of a lift on the day after a game for who played little.
const RuleTopUp = "squad-top-up"

// TopUp says that an athlete played little in a game, and lifts on the day after.
type TopUp struct {
	Event   string        `json:"event"`
	Date    calendar.Date `json:"date"` // the day after
	Minutes int           `json:"minutes"`
}

// PlayedBy is how long an athlete played in the game that is spoken of.
type PlayedBy struct {
	Athlete string `json:"athlete"`
	Minutes int    `json:"minutes"`
}

// Split is how a game divides the squad. Keepers are in a group of their own, since
// a keeper's minutes are not a field player's: with StarterMinutes they recover,
// with fewer they top up.
type Split struct {
	Starters []string `json:"starters"` // recovery on the day after
	TopUp    []string `json:"topUp"`    // a lift on the day after
	Keepers  []string `json:"keepers"`  // of both groups
	Unknown  []string `json:"unknown"`  // minutes not given: treated as starters, and asked about
}

// AfterGame is what follows from the minutes of a game.
type AfterGame struct {
	Request *Request `json:"-"`
	Split   Split    `json:"split"`
	Plan    *Plan    `json:"plan"`
}

// AfterGame splits the squad by the minutes of a game just played and plans again
// against the plan issued last: recovery for starters, a top-up for the others.
// For who topped up the game counts as a practice: nothing waits for its recovery,
// though no full-size session stands within 24 hours of it if there were any
// minutes. The request that comes back goes on from there.
//
// Minutes of an athlete that are not given are unknown, not zero. The error is
// that of Plan; athletes that are unknown, named twice or without this game in
// their calendar are problems of the input.
func (p *Planner) AfterGame(ctx context.Context, req *Request, last *Plan, event string, minutes []PlayedBy) (*AfterGame, error) {
	if req == nil {
		_, err := p.Plan(ctx, nil)
		return nil, err
	}
	next, split, problems := req.afterGame(event, minutes)
	if len(problems) > 0 {
		return nil, &season.InputError{Problems: problems}
	}
	plan, err := p.Replan(ctx, next, last)
	if err != nil {
		return nil, err
	}
	for _, id := range split.Unknown {
		plan.Assumed = append(plan.Assumed, calendar.Problem{Code: CodeNoMinutes, Class: calendar.ClassQuestion, Path: "/minutes", Value: id,
			Reason: "no minutes of " + calendar.Inert(event) + " are given: treated as a starter", Remedy: "give the minutes, 0 for who did not play"})
	}
	return &AfterGame{Request: next, Split: split, Plan: plan}, nil
}

func (r *Request) afterGame(event string, minutes []PlayedBy) (*Request, Split, []calendar.Problem) {
	var problems []calendar.Problem
	bad := func(i int, code, value, reason, remedy string) {
		problems = append(problems, calendar.Problem{Code: code, Class: calendar.ClassError, Path: "/minutes/" + strconv.Itoa(i), Value: value, Reason: reason, Remedy: remedy})
	}
	out := *r
	out.Athletes, out.Affected = slices.Clone(r.Athletes), slices.Clone(r.Affected)
	split := Split{Starters: []string{}, TopUp: []string{}, Keepers: []string{}, Unknown: []string{}}
	given := map[string]bool{}
	for i, m := range minutes {
		at := slices.IndexFunc(out.Athletes, func(a Athlete) bool { return a.id() == m.Athlete })
		switch {
		case at < 0:
			bad(i, CodeUnknownAthlete, m.Athlete, "there is no such athlete", "use the id of an athlete of the squad")
			continue
		case given[m.Athlete]:
			bad(i, CodeTwice, m.Athlete, "the athlete stands here twice", "give one number")
			continue
		case m.Minutes < 0 || m.Minutes > mostPlayed:
			bad(i, CodeRange, strconv.Itoa(m.Minutes), fmt.Sprintf("outside 0 to %d", mostPlayed), "give the minutes on the field")
			continue
		}
		given[m.Athlete] = true
		a := &out.Athletes[at]
		if a.game(event) < 0 {
			bad(i, season.CodeUnknownEvent, event, "it is no game of "+calendar.Inert(m.Athlete), "use the id of a game in the athlete's calendar")
			continue
		}
		a.Played = append(slices.Clip(a.Played), Played{event, m.Minutes})
		if a.keeper() {
			split.Keepers = append(split.Keepers, a.id())
		}
		if m.Minutes >= StarterMinutes {
			split.Starters = append(split.Starters, a.id())
			continue
		}
		split.TopUp = append(split.TopUp, a.id())
		out.Affected = append(out.Affected, a.id())
		a.rest(event, m.Minutes)
	}
	for i := range out.Athletes {
		if a := &out.Athletes[i]; a.game(event) >= 0 && !given[a.id()] {
			split.Unknown = append(split.Unknown, a.id())
		}
	}
	for _, list := range [][]string{split.Starters, split.TopUp, split.Keepers, split.Unknown, out.Affected} {
		slices.SortFunc(list, cmp.Compare)
	}
	return &out, split, problems
}

// mostPlayed is the most minutes of one game.
const mostPlayed = 300

// game is the number of a game among the athlete's events, -1 if it has none.
func (a *Athlete) game(id string) int {
	return slices.IndexFunc(a.Season.Events, func(e calendar.Event) bool { return e.ID == id && e.Kind == calendar.Game && e.Active() })
}

// keeper reports whether the role names a keeper.
func (a *Athlete) keeper() bool {
	role := strings.ToLower(a.Season.Athlete.Role)
	return strings.Contains(role, "keeper") || strings.Contains(role, "goalie")
}

// rest turns a game hardly played into what it was for the athlete: an evening like
// a practice, and a lift to come.
func (a *Athlete) rest(event string, minutes int) {
	a.Season.Events = slices.Clone(a.Season.Events)
	e := &a.Season.Events[a.game(event)]
	e.Kind = calendar.Practice
	e.Status, e.Importance = "", ""
	e.Revision++
	if !e.HasEnd && !e.DateOnly {
		e.End, e.HasEnd = e.Start.AddMinutes(assumedGame), true
	}
	a.TopUps = append(slices.Clip(a.TopUps), TopUp{event, e.Start.Date.AddDays(1), minutes})
}

// assumedGame is how long a game without an end is taken to last, as in the rule
// table.
const assumedGame = 120
