package judge

import (
	"cmp"
	"slices"
)

// Breach is one session that breaks one limit. A session breaks a limit at most
// once, however many games or windows say so; the first is named.
type Breach struct {
	Rule     string
	Session  int // index into Input.Sessions
	Event    int // index into Input.Events, or -1
	From, To int // dates of the window, or of the session
}

// Miss is one missed aim. Indices are -1 where there is none.
type Miss struct {
	Aim         string
	From, To    int // dates of the week, run or session
	Session     int // index into Input.Sessions
	Event       int // index into Input.Events
	Issued      int // index into Input.Issued
	Wanted, Got int // counts of sessions or dates; 0 and 1 for a session that should be otherwise
	Points      int64
}

// RuleCost is what one rule adds to a verdict.
type RuleCost struct {
	Rule    string
	Illegal int64 // breaches by sessions that are not forced
	Broken  int64 // breaches by forced sessions
	Points  int64
}

// Verdict is everything that is wrong with a plan. Breaches and misses come in
// the order of the rules, and within a rule by time.
type Verdict struct {
	Illegal  []Breach // by sessions that are not forced: such a plan must not be
	Breaches []Breach // by forced sessions
	Broken   int64    // number of Breaches
	Misses   []Miss
	Points   int64      // sum over Misses
	ByRule   []RuleCost // rules with a breach or a miss, sorted by id
}

// Judge judges the sessions of a plan that lie in its period. It fails with
// *InputError, which names every problem, for input that is too large, out of
// range or contradictory; see Check and the Max constants.
func Judge(in Input, p Parameters) (Verdict, error) {
	if problems := Check(in, p); len(problems) > 0 {
		return Verdict{}, &InputError{problems}
	}
	s := newSeason(in, p)
	var v Verdict
	for _, l := range limits() {
		if slices.Contains(p.Disabled, l.id) {
			continue
		}
		cost := RuleCost{Rule: l.id}
		for _, r := range s.sessions {
			if !s.judged(r) {
				continue
			}
			f, bad := l.check(s, r)
			if !bad {
				continue
			}
			b := Breach{Rule: l.id, Session: r.index, Event: -1, From: f.from, To: f.to}
			if f.event != nil {
				b.Event = f.event.index
			}
			if r.Forced {
				v.Breaches = append(v.Breaches, b)
				cost.Broken++
			} else {
				v.Illegal = append(v.Illegal, b)
				cost.Illegal++
			}
		}
		v.enter(cost, cost.Broken+cost.Illegal > 0)
	}
	for _, a := range aims() {
		if slices.Contains(p.Disabled, a.id) {
			continue
		}
		if p.Points[a.id] == 0 && a.off {
			continue
		}
		misses := a.misses(s)
		cost := RuleCost{Rule: a.id}
		for _, m := range misses {
			cost.Points += m.Points
		}
		v.Misses = append(v.Misses, misses...)
		v.enter(cost, len(misses) > 0)
	}
	slices.SortFunc(v.ByRule, func(a, b RuleCost) int { return cmp.Compare(a.Rule, b.Rule) })
	return v, nil
}

func (v *Verdict) enter(cost RuleCost, found bool) {
	if !found {
		return
	}
	v.Broken += cost.Broken
	v.Points += cost.Points
	v.ByRule = append(v.ByRule, cost)
}
