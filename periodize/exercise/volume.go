package exercise

import (
	"slices"
	"strconv"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Week is what plan and calendar tell of the weeks around a session. The zero
// value tells nothing, and then nothing follows from it. [Builder.Season] fills
// it in.
type Week struct {
	Known bool // the sets of the week so far are all in the history
	Ahead int  // full-body sessions of the week after this one
	Full  int  // full-body sessions of the week in all, this one among them
	Lifts int  // lifts of the week from this one on, with it
	Sets  int  // of the week's lifts so far, all regions together
	Usual int  // mean of the sets of lifts in the three weeks before; 0: not known
	Break bool // the session lies in a break
	// BlockFrom is the first date of the block of weeks: breaks cut blocks.
	// Unset, none is known.
	BlockFrom calendar.Date
}

// The band of weekly sets of a region, counted with indirect sets as halves
// (Pelland et al. 2024, preprint, seen). The numbers are common practice, no
// source; that less is enough where games are many follows Spiering et al. 2021
// (JSCR 35:1449-1458, seen): one session a week keeps strength if the load stays.
const (
	setsLeast, setsMost                   = 5, 18
	setsLeastCongested, setsMostCongested = 3, 12
	setsLeastBeginner, setsMostBeginner   = 3, 12
	setsMostBreak                         = 24

	// Of one movement pattern at least these, in weeks with two full-body sessions
	// or more, and at most those.
	patternLeast         = 2
	patternMost          = 10
	patternMostCongested = 6
	patternMostBeginner  = 8
	patternMostBreak     = 14

	primerHalves = 6 // kept free for a primer: two sets on one leg, two of jumps
)

// band is the weekly band of a region, in halves of a set.
func (a *asked) band() (least, most int) {
	least, most = setsLeast, setsMost
	switch {
	case a.beginner:
		least, most = setsLeastBeginner, setsMostBeginner
	case a.in.Congested:
		least, most = setsLeastCongested, setsMostCongested
	case a.in.Week.Break:
		most = setsMostBreak
	}
	return 2 * least, 2 * most
}

// weeklyPatterns are those of which every week with two full-body sessions has
// some: knee and hip, across and up, pulled across and down. Work on one leg is
// wanted too, and left out without a word where legs have enough; the ways of the
// trunk take turns over longer.
var weeklyPatterns = [...]Pattern{Squat, Hinge, PushHorizontal, PushVertical, PullHorizontal, PullVertical}

// patternBand is the weekly band of a movement pattern in sets. Least is 0 for
// those that need not be in every week, and where one full-body session is all
// there is.
func (a *asked) patternBand(p Pattern) (least, most int) {
	most = patternMost
	switch {
	case a.in.Congested:
		most = patternMostCongested
	case a.beginner:
		most = patternMostBeginner
	case a.in.Week.Break:
		most = patternMostBreak
	}
	if a.in.Week.Full >= 2 && (p == SingleLeg || slices.Contains(weeklyPatterns[:], p)) {
		least = patternLeast
	}
	return least, most
}

// weekSets are the sets of a pattern in the week so far. Knees work on one leg too.
func (a *asked) weekSets(p Pattern) int {
	n := a.in.History.WeekPatterns[p]
	if p == Squat {
		n += a.in.History.WeekPatterns[SingleLeg]
	}
	return n
}

// enough reports whether the week has or will have enough of a pattern: what is the
// main lift in turn comes with the full-body sessions ahead.
func (a *asked) enough(s *slot, p Pattern) bool {
	least, _ := a.patternBand(p)
	return a.weekSets(p) >= least || s.name == slotLower2 && a.in.Week.Ahead > 0 && p != SingleLeg
}

// weekly is what a pattern costs in view of the week's sets of it so far.
func (a *asked) weekly(s *slot, p Pattern) int {
	if s.class > classStrength {
		return 0
	}
	n, cost := a.in.History.WeekPatterns[p], 0
	if _, most := a.patternBand(p); n > 0 && n+s.rounds > most {
		cost = costOver
	}
	if !a.in.Week.Known || a.keep != nil || !a.enough(s, p) {
		return cost
	}
	among := s.patterns
	if s.class == classMain {
		among = mainPatterns
	}
	for _, other := range among {
		if other != p && !a.enough(s, other) && a.any(onlyPattern[other]) {
			return cost + costDue
		}
	}
	return cost
}

// fuller reports whether the week has enough of one pattern and not of another, or
// all it may have of one alone.
func (a *asked) fuller(p, than Pattern) bool {
	if !a.in.Week.Known || a.keep != nil {
		return false
	}
	least, most := a.patternBand(p)
	n, m := a.in.History.WeekPatterns[p], a.in.History.WeekPatterns[than]
	return n >= least && m < least || n+a.sets() > most && m+a.sets() <= most
}

// halves are the sets of a region in the week so far, in halves.
func (a *asked) halves(r Region) int {
	return 2*a.in.History.WeekSets[r] + a.in.History.WeekIndirect[r]
}

// room is how many more rounds the week takes of so many halves of a region each,
// at least one: the pattern itself is never given up for volume.
func (a *asked) room(r Region, each int) int {
	_, most := a.band()
	return max((most-a.halves(r))/each, 1)
}

// need is how many sets of a region this session should have for the week to
// reach its band, 0 if that is not known or reached. On the day itself nothing is
// added to what was written.
func (a *asked) need(r Region) int {
	if !a.in.Week.Known || a.in.Exam || a.keep != nil || a.in.Session.Kind == season.PostGame {
		return 0
	}
	least, _ := a.band()
	left := least - a.halves(r)
	if left <= 0 {
		return 0
	}
	each := 2 * (a.in.Week.Ahead + 1)
	return (left + each - 1) / each
}

// half is the region that an exercise of a pattern trains indirectly, "" for
// none.
func (p Pattern) half() Region {
	switch p {
	case Adduction, Abduction, KneeFlexion, LowerLeg, HipFlexion, JumpVertical, JumpLateral:
		return Lower
	case ShoulderCare:
		return Pull
	}
	return ""
}

// Indirect counts the work sets that train a region beside what they are for: the
// legs in jumps and in corrective work, the upper back in shoulder care. A week's
// volume counts them as halves.
func (c Card) Indirect() map[Region]int {
	out := map[Region]int{}
	c.eachSet(func(p Pattern, sets int) {
		if r := p.half(); r != "" {
			out[r] += sets
		}
	})
	return out
}

// PatternSets counts the work sets by movement pattern, warm-up and ramp sets left
// out.
func (c Card) PatternSets() map[Pattern]int {
	out := map[Pattern]int{}
	c.eachSet(func(p Pattern, sets int) { out[p] += sets })
	return out
}

// eachSet goes through the work of a card, ramp-up left out.
func (c *Card) eachSet(do func(p Pattern, sets int)) {
	for i := range c.Blocks {
		b := &c.Blocks[i]
		if b.Rounds == 0 {
			continue
		}
		for j := range b.Items {
			if it := &b.Items[j]; it.Slot != slotRamp {
				do(Pattern(it.Exercise.Pattern), it.Exercise.Sets)
			}
		}
	}
}

// patterns says which patterns the week leaves short, at its last full-body
// session.
func (a *asked) patterns(card *Card) {
	w := &a.in.Week
	if !w.Known || w.Ahead > 0 || a.in.Exam || a.keep != nil || card.Kind == season.PostGame {
		return
	}
	for _, p := range weeklyPatterns {
		least, _ := a.patternBand(p)
		n := a.weekSets(p)
		card.eachSet(func(q Pattern, sets int) {
			if q == p || p == Squat && q == SingleLeg {
				n += sets
			}
		})
		if n < least {
			a.say("card-pattern-low", "sets", n, "pattern", string(p), "least", least)
		}
	}
}

// volume says where the week stays outside its band after a card.
func (a *asked) volume(card *Card) {
	if !card.Kind.HeavyLowerBody() {
		return
	}
	a.patterns(card)
	for _, r := range whole {
		least, most := a.band()
		if n := a.halves(r); n+2 > most {
			a.say("card-volume", "sets", setsText(n), "region", string(r), "most", most/2)
		}
		if a.need(r) == 0 || a.in.Week.Ahead > 0 {
			continue
		}
		n := a.halves(r)
		card.eachSet(func(p Pattern, sets int) {
			if p.Region() == r {
				n += 2 * sets
			}
			if p.half() == r {
				n += sets
			}
		})
		if n < least {
			a.say("card-volume-low", "sets", setsText(n), "region", string(r), "least", least/2)
		}
	}
}

// setsText writes halves of a set.
func setsText(halves int) string {
	if halves%2 == 0 {
		return strconv.Itoa(halves / 2)
	}
	return strconv.Itoa(halves/2) + ".5"
}
