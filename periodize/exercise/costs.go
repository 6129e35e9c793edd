package exercise

import (
	"slices"
	"time"

	"example.org/weft/periodize/season"
)

// The stated costs. A missing pattern outweighs everything else together; then
// come rounds and power, then the fit of each exercise.
const (
	costLower     = 80_000
	costPushPull  = 40_000
	costTrunk     = 30_000
	costFewer     = 150
	costSingle    = 900
	costPower     = 600
	costMove      = 150
	costCare      = 350
	costUpCare    = 120
	costLower2    = 300
	costPull2     = 250
	costTrunk2    = 200
	costShort     = 2000 // a second exercise of a region that would stay under its weekly band
	costNew       = 800  // something new before a game or in exams
	costLastMain  = 300  // the same lower pattern as last time
	costSingleLeg = 300  // one leg as the main lift where two could be
	costOtherMain = 400  // another main lift inside a block
	costNotMain   = 400  // an accessory exercise as the main lift
	costAccessory = 15   // an accessory push or pull where a main one could be
	costLanding   = 10   // a hard landing; each second a sprint is shorter (a keeper's: longer) than it could be
	costNoMaximum = 1000 // a main lift without a maximum where another of its pattern has one
	costUnknown   = 60   // another one without
	costNoRecord  = 25   // other work of which nobody knows what was lifted: less than variety
	costUsed      = 40   // used last time; half of it the time before
	costSamePower = 45   // upwards, sideways or thrown as in the last session of its sort
	costSamePush  = 45   // across or up as in the last session
	costUnloaded  = 80   // own weight where a load is wanted
	costBand      = 45   // a band to push or pull where there are weights
	costStandIn   = 250  // what stands in for strength where nothing can be pulled
	costChanged   = 120  // not what the written card has
	costOneSide   = 200
	costLight     = 200 // a main lift with less than a bar, after a year
	costMachine   = 150 // a machine as the main lift where weights could be lifted, after a year
	costRegressed = 50  // own weight where a harder relative can be done, after a year: it cannot be loaded
	costUnasked   = 150 // gentle reloading that no complaint asks for, after a year
	costUnproven  = 70  // a pull with all of the own weight that nobody saw done
	costOver      = 500 // a pattern that would go over its weekly band
	costDue       = 90  // a pattern that has its sets while another of the slot is still to come this week
	costNoRun     = 120 // what stands in for sprints
	costEasier    = 2   // each step of skill below the athlete's
	costRole      = 60
	costTender    = 50
	costHard      = 50
	costGentle    = 300 // not the gentle reloading that a complaint asks for
)

// costOf is what an exercise costs in a slot.
func (a *asked) costOf(s *slot, e *entry, side string) int {
	cost := 0
	kind := a.in.Session.Kind
	if s.class == classMain {
		if e.Role != Main {
			cost += costNotMain
		}
		if e.Hold {
			cost += costRole
		}
		if a.mem.last == e.Pattern {
			cost += costLastMain
		}
		if a.level >= 2 && (e.Load == Single || e.Load == Untracked) {
			cost += costLight
		}
		if a.level >= 2 && e.Load == Pair && e.Pattern != SingleLeg {
			cost += costLight / 2
		}
		if m, ok := a.mem.bound(e.Pattern, a.in.Session.Date, a.in.Week.BlockFrom); ok && m.id != e.ID && kind != season.Eccentric {
			cost += costOtherMain
		}
		switch {
		case a.level >= 2 && (e.Load == Body || a.light(e)):
			if e.Load == Body && !e.Sided {
				cost += costSingleLeg // so little is enough on one leg only
			}
		case e.Pattern == SingleLeg:
			cost += costSingleLeg
		case e.Load == Stack && a.level >= 2:
			cost += costMachine
		case e.Load == Stack:
			cost += costRole
		}
		switch {
		case a.hasRecord(e):
		case slices.Contains(a.recorded, e.Pattern) || e.Pattern == SingleLeg && len(a.recorded) > 0:
			cost += costNoMaximum
		default:
			cost += costUnknown
		}
		if a.beginner && (e.Load == Bar) {
			cost += costRole // learners start with dumbbells and kettlebells
		}
		if kind == season.Eccentric && !e.Eccentric {
			cost += costRole
		}
	} else if n := a.used[e.at]; n > 0 {
		cost += costUsed / int(n)
	}
	if s.class <= classStrength && e.Load == Body && e.Pattern != PullVertical && e.region != Trunk {
		cost += costUnloaded
	}
	if s.class == classStrength && e.Pattern != SingleLeg && e.Role != Main && e.region != Lower && e.region != Trunk && s.name != slotPull2 {
		cost += costAccessory
	}
	if s.name == slotPush && e.Pattern == a.mem.push {
		cost += costSamePush
	}
	if s.class == classStrength && e.Load == Band && a.level > 0 && (e.region == Push || e.region == Pull) {
		cost += costBand
	}
	if s.class == classStrength && e.Role == Corrective {
		cost += costStandIn
	}
	if e.Impact == 2 {
		cost += costLanding
	}
	if s.class == classSprint && e.Impact > 0 {
		if a.keeper {
			cost += costLanding * e.Seconds // short starts
		} else {
			cost += costLanding * max(10-e.Seconds, 0) // 15 m where there is room for it
		}
	}
	if a.familiar && !a.mem.known[e.at] {
		cost += costNew
	}
	if a.keep != nil && !a.keep.works(e.ID) {
		cost += costChanged
	}
	if side != "" {
		cost += costOneSide
	}
	if n := a.level - e.Skill - 1; n > 0 {
		cost += n * costEasier
	}
	if e.loads&a.bar.tender != 0 {
		cost += costTender
	}
	if e.Impact == 2 && (a.older || kind == season.Primer) || e.Impact > 0 && a.in.Profile.GrowthSpurt {
		cost += costHard
	}
	if e.Eccentric && kind != season.Eccentric && !(s.class == classCare && a.farFromGame()) {
		cost += costHard
	}
	if s.class == classStrength && kind == season.Eccentric && e.region == Lower && !e.Eccentric {
		cost += costRole
		if e.Hold {
			cost += costRole
		}
	}
	cost += a.progression(s, e)
	if s.class == classCare && a.bar.gentle != 0 && e.gentle&a.bar.gentle == 0 && a.reloads(s) {
		cost += costGentle
	}
	if kind == season.Eccentric && s.class == classCare && s.name == slotCare && !e.Eccentric {
		cost += costRole
	}
	if s.class == classPower && e.Pattern == a.mem.power[sortOf(kind)] {
		cost += costSamePower
	}
	if a.keeper && e.Pattern == JumpVertical {
		cost += costHard
	}
	if s.class == classSprint && (e.Impact == 0 || e.Hold) { // on the spot or seated
		cost += 2 * costNoRun
		if len(e.Kit) == 0 && e.Impact == 0 {
			cost += costNoRun
		}
	}
	if s.class == classStrength && e.Load != Body && !e.Hold && !a.hasRecord(e) {
		cost += costNoRecord
	}
	return cost
}

// lowerFar is how long before a game correctives that are lowered slowly may come
// in any strength session: as long as the eccentric session itself has to end.
const lowerFar = 72 * time.Hour

// farFromGame reports whether the next game is known to be so far off.
func (a *asked) farFromGame() bool {
	s := &a.in.Session
	return !a.in.NextGame.IsZero() && !s.End.IsZero() && a.in.NextGame.Sub(s.End) >= lowerFar
}

// reloads reports whether something that may stand in a slot reloads gently what is
// complained of.
func (a *asked) reloads(s *slot) bool {
	for _, p := range s.patterns {
		for _, i := range a.c.slots[p] {
			if e := &a.c.list[i]; e.gentle&a.bar.gentle != 0 && a.may(e).ok() {
				return true
			}
		}
	}
	return false
}

// progression is what an exercise costs that does less for an athlete than another
// would, or asks for more than anybody saw the athlete do.
func (a *asked) progression(s *slot, e *entry) int {
	if e.Load != Body || s.class > classStrength && s.class != classCare {
		return 0
	}
	if e.Pattern == PullVertical {
		if e.Skill >= 2 && !a.proven[e.at] {
			return costUnproven
		}
		return 0
	}
	if a.level < 2 || a.in.Exam { // in exams what is short and easy will do
		return 0
	}
	cost := 0
	if s.class == classCare && e.gentle != 0 && e.gentle&a.bar.gentle == 0 {
		cost = costUnasked
	}
	for _, at := range e.harder {
		if h := &a.c.list[at]; (h.Load == Body || s.class == classCare) && h.Impact <= e.Impact && h.loads&a.bar.tender == 0 && a.may(h) == mayBoth {
			return cost + costRegressed
		}
	}
	return cost
}

// roundCost is what a number of rounds costs.
func (g *group) roundCost(r int) int {
	cost := (g.rounds - r) * g.fewer
	if r == 1 && g.rounds > 1 {
		cost += g.single
	}
	return cost
}
