package exercise

import (
	"slices"

	"example.org/weft/periodize/season"
)

// class says how an exercise is dosed.
type class uint8

const (
	classMain class = iota
	classStrength
	classPower
	classSprint
	classCare
	classEasy
)

// Names of slots. They stay the same from card to card.
const (
	slotMain    = "main lower"
	slotPush    = "push"
	slotPull    = "pull"
	slotTrunk   = "trunk"
	slotPower   = "power"
	slotMove    = "movement"
	slotCare    = "lower care"
	slotUpCare  = "upper care"
	slotLower2  = "second lower"
	slotPull2   = "second pull"
	slotTrunk2  = "second trunk"
	slotSprint  = "sprint"
	slotSingle  = "single leg"
	slotLoosen  = "loosen"
	slotLoosenU = "loosen above"
	slotHold    = "stretch"
	slotRamp    = "ramp-up"
	slotPrehab  = "prehab"
	slotWarm    = "warm-up"
	slotEasy    = "easy piece"
)

// slot is a place on a card for one exercise.
type slot struct {
	name     string
	region   Region // that it completes, "" for none
	class    class
	patterns []Pattern
	take     func(e *entry) bool // nil: all of the patterns
	skip     int                 // cost of leaving it empty
}

// group is slots done in turn.
type group struct {
	name   string
	slots  []slot
	rounds int // aimed at
	fewer  int // cost of each round less
	single int // further cost of one round only
	opens  bool
}

// The stated costs. A missing pattern outweighs everything else together; then
// come rounds and power, then the fit of each exercise.
const (
	costLower     = 40_000
	costPushPull  = 20_000
	costTrunk     = 15_000
	costFewer     = 150
	costSingle    = 900
	costPower     = 600
	costMove      = 150
	costCare      = 350
	costUpCare    = 120
	costLower2    = 300
	costPull2     = 250
	costTrunk2    = 200
	costNew       = 800  // something new before a game or in exams
	costLastMain  = 300  // the same lower pattern as last time
	costOtherMain = 400  // another main lift inside a block
	costNotMain   = 400  // an accessory exercise as the main lift
	costAccessory = 15   // an accessory push or pull where a main one could be
	costLanding   = 10   // a hard landing; each second a sprint is shorter (a keeper's: longer) than it could be
	costNoMaximum = 1000 // a main lift without a maximum where another of its pattern has one
	costUnknown   = 60   // another one without
	costUsed      = 40   // used last time; half of it the time before
	costUnloaded  = 80   // own weight where a load is wanted
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

func easyArea(e *entry, lower, hold bool) bool {
	const low = 1<<12 - 1 // the tissues from the adductors to the foot
	return e.Role == Easy && (e.loads&low != 0) == lower && e.Hold == hold
}

// shape returns the groups of a kind of session, main being the pattern of the
// main lower lift.
func (a *asked) shape(main Pattern) []group {
	kind := a.in.Session.Kind
	sets := 3
	if a.beginner {
		sets = 2
	}
	switch kind {
	case season.Trimmed:
		sets = max(sets-1, 1)
	case season.PostGame:
		sets = 2
		if m, ok := a.played(); ok && m < benchUnder && !a.beginner {
			sets = 3
		}
	}
	if a.in.Exam {
		sets = min(sets, 2)
	}
	if a.in.Congested && kind != season.Trimmed && kind != season.PostGame {
		sets--
	}
	sets = max(sets-a.less, 1)
	trunk, trunk2 := []Pattern{TrunkBrace, TrunkRotate}, []Pattern{TrunkSide, Carry}
	if !a.any(trunk) {
		trunk, trunk2 = trunk2, nil
	}
	pull, pull2 := []Pattern{PullHorizontal}, []Pattern{PullVertical}
	if a.pulledAcross() && a.any(pull2) || !a.any(pull) {
		pull, pull2 = pull2, pull
	}
	if kind == season.Primer || kind == season.PostGame { // one pull only
		pull = append(pull, pull2...)
	}
	needs := func(name string, r Region, cost int, p ...Pattern) slot {
		return slot{name: name, region: r, class: classStrength, patterns: p, skip: cost}
	}
	power := slot{name: slotPower, class: classPower, patterns: []Pattern{JumpVertical, JumpLateral, Throw}, skip: costPower}
	move := slot{name: slotMove, class: classEasy, patterns: []Pattern{Movement}, skip: costMove}
	care := slot{name: slotCare, class: classCare, patterns: []Pattern{Adduction, Abduction, KneeFlexion, LowerLeg, HipFlexion}, skip: costCare}
	upCare := slot{name: slotUpCare, class: classCare, patterns: []Pattern{ShoulderCare, NeckCare}, skip: costUpCare}
	lower := slot{name: slotMain, region: Lower, class: classMain, patterns: []Pattern{main}, skip: costLower}
	body := group{name: "Push, pull and trunk", rounds: sets, fewer: costFewer, single: costSingle, slots: []slot{
		needs(slotPush, Push, costPushPull, PushHorizontal, PushVertical),
		needs(slotPull, Pull, costPushPull, pull...), needs(slotTrunk, Trunk, costTrunk, trunk...)}}
	mainGroup := group{name: "Main lift", rounds: sets, fewer: costFewer, single: costSingle, slots: []slot{lower, care, upCare}}
	switch kind {
	case season.Recovery:
		loosen := slot{name: slotLoosen, class: classEasy, patterns: []Pattern{Mobility}, skip: 300, take: func(e *entry) bool { return easyArea(e, true, false) }}
		above := slot{name: slotLoosenU, class: classEasy, patterns: []Pattern{Mobility}, skip: 300, take: func(e *entry) bool { return easyArea(e, false, false) }}
		stretch := slot{name: slotHold, class: classEasy, patterns: []Pattern{Mobility}, skip: 200, take: func(e *entry) bool { return e.Hold }}
		move.take = func(e *entry) bool { return e.Impact == 0 && !e.Hold }
		return []group{{name: "Unhurried rounds", rounds: 2, fewer: 400, slots: []slot{loosen, above, stretch, move}}}
	case season.Primer:
		jump := power
		jump.patterns = []Pattern{JumpVertical, JumpLateral}
		single := needs(slotSingle, "", 400, SingleLeg, Hinge)
		single.take = func(e *entry) bool { return e.Sided && !e.Eccentric && e.Role != Main }
		loosen := slot{name: slotLoosen, class: classEasy, patterns: []Pattern{Mobility}, skip: 150, take: func(e *entry) bool { return !e.Hold }}
		sprint := slot{name: slotSprint, class: classSprint, patterns: []Pattern{Sprint}, skip: 900}
		n := 4
		if a.beginner || a.in.Exam {
			n = 3
		}
		pairs := max(2-a.less, 1)
		return []group{
			{name: "Short sprints", rounds: n, fewer: 80, slots: []slot{sprint}, opens: true},
			{name: "Fast and springy", rounds: pairs, fewer: 150, slots: []slot{jump, single}},
			{name: "Pull and loosen", rounds: pairs, fewer: 100, slots: []slot{needs(slotPull, "", 400, pull...), loosen}},
		}
	case season.PostGame:
		return []group{mainGroup, body}
	}
	first := group{name: "Power and movement", rounds: max(min(sets, 3), 1), fewer: 60, single: 150, slots: []slot{power, move}, opens: true}
	if a.in.Exam {
		return []group{first, mainGroup, body}
	}
	others := slices.DeleteFunc([]Pattern{Squat, Hinge, SingleLeg}, func(p Pattern) bool { return p == main })
	second := group{name: "Second round of strength", rounds: sets, fewer: 100, single: 150}
	add := func(name string, r Region, cost int, p ...Pattern) {
		if len(p) > 0 && a.in.History.WeekSets[r] < weekSetsMost {
			second.slots = append(second.slots, slot{name: name, class: classStrength, patterns: p, skip: cost,
				take: func(e *entry) bool { return e.Role == Accessory || e.region != Lower }})
		}
	}
	add(slotLower2, Lower, costLower2, others...)
	add(slotPull2, Pull, costPull2, pull2...)
	add(slotTrunk2, Trunk, costTrunk2, trunk2...)
	return []group{first, mainGroup, body, second}
}

// any reports whether some exercise of the patterns can be done.
func (a *asked) any(patterns []Pattern) bool {
	for _, p := range patterns {
		for _, i := range a.c.slots[p] {
			if _, ok := a.may(&a.c.list[i]); ok {
				return true
			}
		}
	}
	return false
}

// pulledAcross reports whether the last card's first pull was a row.
func (a *asked) pulledAcross() bool {
	if a.keep != nil {
		it := a.keep.item(slotPull)
		return it != nil && it.Exercise.Pattern == string(PullVertical)
	}
	for i := len(a.in.History.Cards) - 1; i >= 0; i-- {
		c := &a.in.History.Cards[i]
		if c.Kind == season.Primer || !c.Kind.Lift() {
			continue
		}
		if it := c.item(slotPull); it != nil {
			return it.Exercise.Pattern == string(PullHorizontal)
		}
	}
	return false
}
