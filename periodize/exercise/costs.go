package exercise

import (
	"slices"

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
	costUsed      = 40   // used last time; half of it the time before
	costSamePower = 45   // upwards, sideways or thrown as in the last session of its sort
	costSamePush  = 45   // across or up as in the last session
	costUnloaded  = 80   // own weight where a load is wanted
	costBand      = 45   // a band to push or pull where there are weights
	costStandIn   = 250  // what stands in for strength where nothing can be pulled
	costChanged   = 120  // not what the written card has
	costOneSide   = 200
	costLight     = 200 // a main lift with less than a bar, after a year
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
		case e.Pattern == SingleLeg:
			cost += costSingleLeg
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
	if a.keep != nil && !a.keep.uses(e.ID) {
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
	if e.Eccentric && kind != season.Eccentric {
		cost += costHard
	}
	if s.class == classStrength && kind == season.Eccentric && e.region == Lower && !e.Eccentric {
		cost += costRole
		if e.Hold {
			cost += costRole
		}
	}
	if s.class == classCare && a.bar.gentle != 0 && e.gentle&a.bar.gentle == 0 && s.name == slotCare {
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
	if s.class == classSprint && e.Impact == 0 {
		cost += 2 * costNoRun
		if len(e.Kit) == 0 {
			cost += costNoRun
		}
	}
	if s.class == classStrength && e.Load != Body && !a.hasRecord(e) {
		cost += costUnknown
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
