package exercise

import (
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
	slotPush2   = "second push"
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
	slotTest    = "test"
)

// slot is a place on a card for one exercise.
type slot struct {
	name     string
	region   Region // that it completes, "" for none
	class    class
	patterns []Pattern
	take     func(e *entry) bool // nil: all of the patterns
	skip     int                 // cost of leaving it empty
	rounds   int                 // that its group aims at
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

func easyArea(e *entry, lower, hold bool) bool {
	const low = 1<<12 - 1 // the tissues from the adductors to the foot
	return e.Role == Easy && (e.loads&low != 0) == lower && e.Hold == hold
}

// Patterns of slots.
var (
	trunkFirst, trunkSecond = []Pattern{TrunkBrace, TrunkRotate}, []Pattern{TrunkSide, Carry}
	pullAcross, pullDown    = []Pattern{PullHorizontal}, []Pattern{PullVertical}
	pullEither, pullDownOr  = []Pattern{PullHorizontal, PullVertical}, []Pattern{PullVertical, PullHorizontal}
	pushEither              = []Pattern{PushHorizontal, PushVertical}
	pushAcross, pushUp      = []Pattern{PushHorizontal}, []Pattern{PushVertical}
	powerAny, jumpAny       = []Pattern{JumpVertical, JumpLateral, Throw}, []Pattern{JumpVertical, JumpLateral}
	careLower               = []Pattern{Adduction, Abduction, KneeFlexion, LowerLeg, HipFlexion}
	careUpper               = []Pattern{ShoulderCare, NeckCare}
	singleOrHinge           = []Pattern{SingleLeg, Hinge}
	easyMoves, easyRange    = []Pattern{Movement}, []Pattern{Mobility}
	sprints                 = []Pattern{Sprint}
)

func needs(name string, r Region, cost int, p []Pattern) slot {
	return slot{name: name, region: r, class: classStrength, patterns: p, skip: cost}
}

func easy(name string, cost int, p []Pattern, take func(*entry) bool) slot {
	return slot{name: name, class: classEasy, patterns: p, skip: cost, take: take}
}

// add puts a group with its slots into the shape that is being made.
func (w *workspace) add(g group, slots ...slot) {
	first := len(w.slots)
	w.slots = append(w.slots, slots...)
	g.slots = w.slots[first:len(w.slots):len(w.slots)]
	for i := range g.slots {
		g.slots[i].rounds = g.rounds
	}
	w.groups = append(w.groups, g)
}

// shape returns the groups of a kind of session, main being the pattern of the
// main lower lift. They are valid until the next shape.
func (a *asked) shape(main Pattern) []group {
	w := a.ws
	w.slots, w.groups = w.slots[:0], w.groups[:0]
	switch a.in.Session.Kind {
	case season.Recovery:
		w.add(group{name: "Unhurried rounds", rounds: 2, fewer: 400},
			easy(slotLoosen, 300, easyRange, func(e *entry) bool { return easyArea(e, true, false) }),
			easy(slotLoosenU, 300, easyRange, func(e *entry) bool { return easyArea(e, false, false) }),
			easy(slotHold, 200, easyRange, func(e *entry) bool { return e.Hold }),
			easy(slotMove, costMove, easyMoves, func(e *entry) bool { return e.Impact == 0 && !e.Hold }))
	case season.Primer:
		a.primer()
	default:
		a.strength(main)
	}
	return w.groups
}

// primer is sprints first, then power with one leg, then one pull.
func (a *asked) primer() {
	n := 4
	if a.beginner || a.in.Exam {
		n = 3
	}
	pairs := max(2-a.less, 1)
	if a.in.Exam && a.examRounds > 0 {
		if n = a.examRounds + 1; a.beginner {
			n = min(n, 3)
		}
		pairs = min(pairs, a.examRounds)
	}
	pull, _ := a.pulls()
	single := needs(slotSingle, "", 400, singleOrHinge)
	single.take = func(e *entry) bool { return e.Sided && !e.Eccentric && e.Role != Main && e.Load != Pair } // light, a day before a game
	a.ws.add(group{name: "Short sprints", rounds: n, fewer: 80, opens: true},
		slot{name: slotSprint, class: classSprint, patterns: sprints, skip: 900})
	a.ws.add(group{name: "Fast and springy", rounds: pairs, fewer: 150},
		slot{name: slotPower, class: classPower, patterns: jumpAny, skip: costPower}, single)
	a.ws.add(group{name: "Pull and loosen", rounds: pairs, fewer: 100},
		needs(slotPull, "", 400, pull), easy(slotLoosen, 150, easyRange, func(e *entry) bool { return !e.Hold }))
}

// strength is an opening power group, the main lower lift with correctives, push,
// pull and trunk, and what minutes and the week's volume leave of a second round.
func (a *asked) strength(main Pattern) {
	sets := a.sets()
	trunk, trunk2 := trunkFirst, trunkSecond
	if !a.any(trunk) {
		trunk, trunk2 = trunk2, nil
	}
	pull, pull2 := a.pulls()
	push, push2 := pushEither, []Pattern(nil)
	if a.any(pushAcross) && a.any(pushUp) && a.need(Push) > a.sets() {
		push, push2 = pushAcross, pushUp
	}
	short := a.in.Session.Kind == season.PostGame
	fast := a.emphasis() == emphasisFast
	if !short {
		rounds, light := sets, a.examRounds
		if a.beginner {
			light = min(light, 2)
		}
		if light > sets && a.less == 0 {
			rounds = light // what is light makes up the sets
		}
		first := group{name: "Power and movement", rounds: min(rounds, a.room(Lower, 4)), fewer: 60, single: 150, opens: true}
		power := slot{name: slotPower, class: classPower, patterns: powerAny, skip: costPower}
		if rounds > sets {
			first.fewer = 2 * costFewer
		}
		if fast {
			first.fewer, first.single, power.skip = 2*costFewer, costSingle, 2*costPower
		}
		a.ws.add(first, power, easy(slotMove, costMove, easyMoves, nil))
	}
	lower := min(sets, a.room(Lower, 4)) // with a jump and a corrective a round, halves both
	upper := min(sets, a.room(Push, 2), a.room(Pull, 3), a.room(Trunk, 2))
	upCare := slot{name: slotUpCare, class: classCare, patterns: careUpper, skip: costUpCare}
	if a.bar.gentle != 0 && a.reloads(&upCare) {
		upCare.skip = costCare // a complaint asks for it
	}
	a.ws.add(group{name: "Main lift", rounds: lower, fewer: costFewer, single: costSingle},
		slot{name: slotMain, region: Lower, class: classMain, patterns: onlyPattern[main], skip: costLower},
		slot{name: slotCare, class: classCare, patterns: careLower, skip: costCare},
		upCare)
	a.ws.add(group{name: "Push, pull and trunk", rounds: upper, fewer: costFewer, single: costSingle},
		needs(slotPush, Push, costPushPull, push), needs(slotPull, Pull, costPushPull, pull), needs(slotTrunk, Trunk, costTrunk, trunk))
	if short || a.in.Exam {
		return
	}
	second := group{name: "Second round of strength", rounds: sets, fewer: 100, single: 150}
	if a.emphasis() == emphasisBuild {
		second.fewer, second.single = costFewer, 2*costFewer
	}
	var slots [maxSlots]slot
	n := 0
	add := func(name string, r Region, cost, first, beside int, p []Pattern) {
		_, most := a.band()
		wanted := a.need(r) > first
		if len(p) == 0 || !wanted && (cost == 0 || a.halves(r)+2*first+beside+2*sets+primerHalves > most) {
			return
		}
		if wanted {
			cost = costShort
		}
		slots[n] = slot{name: name, class: classStrength, patterns: p, skip: cost, take: secondTake}
		n++
	}
	costLower := costLower2
	if fast {
		costLower = 0 // fresh legs before a game: no more than the main lift
	}
	add(slotLower2, Lower, costLower, lower, 2*sets, otherPatterns[main]) // beside: jumps and correctives, as halves
	add(slotPull2, Pull, costPull2, upper, sets, pull2)
	add(slotTrunk2, Trunk, costTrunk2, upper, 0, trunk2)
	if push2 != nil {
		add(slotPush2, Push, 0, upper, 0, push2)
	}
	a.ws.add(second, slots[:n]...)
}

func secondTake(e *entry) bool { return e.Role == Accessory || e.region != Lower }

// sets is the rounds aimed at.
func (a *asked) sets() int {
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
		if sets = min(sets, 2); a.examRounds > 0 {
			sets = min(sets, a.examRounds)
		}
	}
	if a.in.Congested && kind != season.Trimmed && kind != season.PostGame && sets > 2 {
		sets = 2 // two or three an exercise: a week with many games leaves two
	}
	return max(sets-a.less, 1)
}

// pulls are the patterns of the first and the second pull: the one that the week
// or else the last card had not; either where there is room for one only.
func (a *asked) pulls() (first, second []Pattern) {
	down := a.pulledAcross()
	switch {
	case a.fuller(PullVertical, PullHorizontal):
		down = false
	case a.fuller(PullHorizontal, PullVertical):
		down = true
	}
	down = down && a.any(pullDown) || !a.any(pullAcross)
	one := a.in.Session.Kind == season.Primer || a.in.Session.Kind == season.PostGame
	switch {
	case one && down:
		return pullDownOr, nil
	case one:
		return pullEither, nil
	case down:
		return pullDown, pullAcross
	}
	return pullAcross, pullDown
}

// any reports whether some exercise of the patterns can be done.
func (a *asked) any(patterns []Pattern) bool {
	for _, p := range patterns {
		for _, i := range a.c.slots[p] {
			if a.may(&a.c.list[i]).ok() {
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
	return a.mem.across
}
