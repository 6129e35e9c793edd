package whatif

import (
	"fmt"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Series returns the branches of a series whose last games are played only if
// they are needed, given in order: none of them, the first, the first two, up to
// all. Each has weight 1.
func Series(ids ...string) []Branch {
	var out []Branch
	for n := range len(ids) + 1 {
		b := Branch{Name: fmt.Sprintf("%d more", n), Weight: 1}
		if n == 0 {
			b.Name = "over"
		}
		var changes []Change
		for i, id := range ids {
			if i < n {
				changes = append(changes, Confirm(id))
			} else {
				changes = append(changes, Cancel(id))
			}
		}
		b.Change = Compose(b.Name, changes...)
		out = append(out, b)
	}
	return out
}

// Knockout returns two branches of weight 1: the games are played, or none of
// them is.
func Knockout(ids ...string) []Branch {
	var on, off []Change
	for _, id := range ids {
		on, off = append(on, Confirm(id)), append(off, Cancel(id))
	}
	return []Branch{{Name: "through", Change: Compose("through", on...), Weight: 1}, {Name: "out", Change: Compose("out", off...), Weight: 1}}
}

// Starts returns a branch of weight 1 for each possible start of an event, wall
// times or dates as in [Move].
func Starts(id string, walls ...string) []Branch {
	var out []Branch
	for _, wall := range walls {
		out = append(out, Branch{Name: wall, Change: Move(id, wall), Weight: 1})
	}
	return out
}

// Rounds returns the decisions of games that are played only if what comes before
// them ends so: each list of ids is a round, in order, and whether it is played is
// known when the last game before its first one ends. In a series each game that may
// not be needed is a round; in a knock-out a round has one game or more. What is not
// reached is cancelled, with all rounds after it; what is reached is confirmed.
//
// Both outcomes have weight 1, with the round played first; give others in the
// decisions returned. The game before is one of the round before, and for the first
// round the last game of the request that starts before and is not in a round,
// whoever plays it. The error is a [season.InputError].
func Rounds(req *season.Request, rounds ...[]string) (*Decision, error) {
	r := rounding{places: map[string]calendar.Placed{}, listed: map[string]bool{}}
	r.place(req)
	for i, ids := range rounds {
		r.list(fmt.Sprintf("/rounds/%d", i), ids)
	}
	if len(rounds) == 0 {
		r.bad("/rounds", "", "there is no round", "give the ids of its games")
	}
	var known []time.Time
	for i, ids := range rounds {
		if len(r.problems) > 0 {
			break
		}
		known = append(known, r.known(fmt.Sprintf("/rounds/%d", i), ids, rounds[:i]))
	}
	if len(r.problems) > 0 {
		return nil, &season.InputError{Problems: r.problems}
	}
	var first *Decision
	for i := len(rounds) - 1; i >= 0; i-- {
		var on, off []Change
		for _, id := range rounds[i] {
			on = append(on, Confirm(id))
		}
		for _, later := range rounds[i:] {
			for _, id := range later {
				off = append(off, Cancel(id))
			}
		}
		name := calendar.Inert(strings.Join(rounds[i], " and "))
		first = &Decision{Known: known[i], Outcomes: []Outcome{
			{Branch{name, Compose(name, on...), 1}, first},
			{Branch{"no " + name, Compose("no "+name, off...), 1}, nil}}}
	}
	return first, nil
}

// rounding looks up the games of rounds.
type rounding struct {
	places   map[string]calendar.Placed // of the games that are not cancelled or postponed
	listed   map[string]bool
	problems []calendar.Problem
}

func (r *rounding) bad(path, value, reason, remedy string) {
	r.problems = append(r.problems, calendar.Problem{Code: season.CodeUnknownEvent, Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy})
}

func (r *rounding) place(req *season.Request) {
	if req == nil {
		return
	}
	assume := calendar.Assumptions{}
	if set, _ := rule.New(req.Rules); set != nil {
		assume.GameMinutes = set.Value("game-minutes")
	}
	for _, v := range req.Canonical().Events {
		if v.Kind != calendar.Game || !v.Active() {
			continue
		}
		if p, err := calendar.Place(v, assume); err == nil {
			r.places[v.ID] = p
		}
	}
}

func (r *rounding) list(path string, ids []string) {
	if len(ids) == 0 {
		r.bad(path, "", "no game is in this round", "give the ids of its games")
	}
	for i, id := range ids {
		at := fmt.Sprintf("%s/%d", path, i)
		switch _, ok := r.places[id]; {
		case !ok:
			r.bad(at, id, "there is no game of this id that could be played", "use the id of a game")
		case r.listed[id]:
			r.bad(at, id, "it is listed twice", "list each game once")
		}
		r.listed[id] = true
	}
}

// known is when the last game before a round ends.
func (r *rounding) known(path string, ids []string, before [][]string) time.Time {
	start := r.places[ids[0]].Span.Start
	for _, id := range ids {
		if t := r.places[id].Span.Start; t.Before(start) {
			start = t
		}
	}
	var last time.Time // start of the game before
	var known time.Time
	look := func(p calendar.Placed) {
		if !p.Span.Start.Before(last) && (known.IsZero() || p.Span.Start.After(last) || p.Span.End.After(known)) {
			last, known = p.Span.Start, p.Span.End.In(p.Zone.Location())
		}
	}
	if n := len(before); n > 0 {
		for _, id := range before[n-1] {
			look(r.places[id])
		}
		if !last.Before(start) {
			r.bad(path, strings.Join(ids, " "), "a game of the round before is not before it", "list the rounds in order of time")
		}
		return known
	}
	for id, p := range r.places {
		if !r.listed[id] && p.Span.Start.Before(start) {
			look(p)
		}
	}
	if known.IsZero() {
		r.bad(path, strings.Join(ids, " "), "no game is before it that could decide it", "give the decision yourself, with the instant at which it is known")
	}
	return known
}
