package exercise

import (
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

// volume says where the week stays outside its band after a card.
func (a *asked) volume(card *Card) {
	if !card.Kind.HeavyLowerBody() {
		return
	}
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
