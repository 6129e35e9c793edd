package exercise

import (
	"fmt"
	"slices"

	"example.org/weft/periodize/season"
)

// warmUp fills the minutes of a warm-up: the athlete's own prehab first in rank,
// then mobility and movement, and an easy piece for what is left.
func (a *asked) warmUp(minutes int, picks []chosen) Block {
	left := minutes * 60 * 6 / 10 // the easy piece gets the rest
	warm := a.ws.warm[:0]
	taken := a.ws.taken
	clear(taken)
	for i := range picks {
		for _, o := range picks[i].options {
			if o.e != nil {
				taken[o.e.at] = true
			}
		}
	}
	add := func(e *entry, name string) bool {
		side, ok := a.bar.allows(e)
		if !ok || taken[e.at] || a.avoid[e.at] && name != slotPrehab || !a.kit.fits(e) || a.in.Profile.GrowthSpurt && (e.Impact > 0 || e.Eccentric) {
			return false
		}
		d := a.doseOf(e, classCare)
		if e.Role == Easy {
			d = a.doseOf(e, classEasy)
		}
		d.rest = 10
		m := sideOnly(side)
		if m != mayBoth {
			d.secs = (d.secs - changeSides) / 2
		}
		if d.secs+d.rest > left {
			return false
		}
		left -= d.secs + d.rest
		warm = append(warm, warmPick{e, name, m, d})
		taken[e.at] = true
		return true
	}
	kept := a.keepWarm(add)
	for _, name := range a.in.Profile.Prehab {
		if e := a.c.find(name); e != nil && e.Skill <= max(a.level, 1) {
			add(e, slotPrehab)
		}
	}
	turn := a.mem.count
	drill := a.runs(picks)
	for _, p := range []Pattern{Movement, Mobility, Mobility, Abduction, Movement, Mobility, ShoulderCare} {
		if kept[p] > 0 {
			kept[p]--
			continue
		}
		list := a.c.slots[p]
		before := len(warm)
		for i := 0; i < len(list) && len(warm) == before; i++ {
			e := &a.c.list[list[(i+turn)%len(list)]]
			if e.Skill == 0 && (!e.Hold || p == Movement) && (!drill || p != Movement || e.loads&hipFlexors != 0) {
				add(e, slotWarm)
			}
		}
		for i := 0; drill && p == Movement && i < len(list) && len(warm) == before; i++ { // no such drill is left
			if e := &a.c.list[list[(i+turn)%len(list)]]; e.Skill == 0 {
				add(e, slotWarm)
			}
		}
		turn += 3
	}
	slices.SortStableFunc(warm, func(x, y warmPick) int { return x.stage() - y.stage() })
	a.ws.warm = warm
	b := Block{Name: "Warm-up", Minutes: minutes, Items: make([]Item, 1, 1+len(warm))} // the easy piece comes first
	for i := range warm {
		w := &warm[i]
		b.Items = append(b.Items, a.item(&slot{name: w.name, class: classCare}, w.e, w.side, w.dose, 1))
	}
	if e := a.aerobic(0); e != nil {
		secs := minutes * 60
		for _, it := range b.Items {
			secs -= it.Seconds + it.Exercise.Rest
		}
		for i := 1; i < len(b.Items); i++ { // a second round rather than a long ride
			if cost := b.Items[i].Seconds + b.Items[i].Exercise.Rest; secs-cost >= mostRaise {
				b.Items[i].Exercise.Sets = 2
				secs -= cost
			}
		}
		secs -= secs % 15
		b.Items[0] = a.easyItem(e, secs, note("pick-warm"))
		return b
	}
	b.Items = b.Items[1:]
	return b
}

// hipFlexors are what running drills load.
var hipFlexors = maskOf([]Tissue{HipFlexors})

// runs reports whether the work has sprints on foot, for which drills of running
// are the warm-up.
func (a *asked) runs(picks []chosen) bool {
	for i := range picks {
		for _, o := range picks[i].options {
			if o.e != nil && o.e.Pattern == Sprint && o.e.Impact > 0 {
				return true
			}
		}
	}
	return false
}

// warmPick is an exercise of a warm-up on its way.
type warmPick struct {
	e    *entry
	name string // of the slot
	side maybe
	dose dose
}

// stage is when in a warm-up an exercise comes, after the easy piece: first what
// loosens, then what wakes up, at last what moves. Common practice, no source.
func (w *warmPick) stage() int {
	switch w.e.Pattern {
	case Aerobic:
		return 0
	case Mobility:
		return 1
	case Movement:
		return 3
	}
	return 2
}

// keepWarm puts in what the written card has in its warm-up, so that only what is
// ruled out today gives way, and counts that by pattern.
func (a *asked) keepWarm(add func(e *entry, name string) bool) map[Pattern]int {
	if a.keep == nil {
		return nil
	}
	kept := map[Pattern]int{}
	for i := range a.keep.Blocks {
		for j := range a.keep.Blocks[i].Items {
			it := &a.keep.Blocks[i].Items[j]
			if it.Slot != slotPrehab && it.Slot != slotWarm {
				continue
			}
			if e := a.c.find(it.ID); e != nil && add(e, it.Slot) && it.Slot == slotWarm {
				kept[e.Pattern]++
			}
		}
	}
	return kept
}

// mostRaise is about how long the easy piece of a warm-up is, in seconds.
const mostRaise = 240

// outMinutes is how long an easy piece is for which one goes outdoors, where there
// is nothing else to ride, row or walk on. Common practice, no source.
const outMinutes = 10

// aerobic is the easy exercise for kit and body in so many minutes.
func (a *asked) aerobic(minutes int) *entry {
	for _, i := range a.c.slots[Aerobic] {
		e := &a.c.list[i]
		if _, ok := a.bar.allows(e); ok && !a.avoid[e.at] && (a.kit.fits(e) || minutes >= outMinutes && slices.Equal(e.Kit, outdoors)) {
			return e
		}
	}
	return nil
}

var outdoors = []string{"outdoors"}

func (a *asked) easyItem(e *entry, secs int, why season.Note) Item {
	return Item{ID: e.ID, Slot: slotEasy, Seconds: secs, Reps: 1, Left: -1, Why: why,
		Exercise: season.Exercise{Name: e.Name, Pattern: string(e.Pattern), Sets: 1, Reps: clockText(secs), Effort: "easy: talk in whole sentences"}}
}

// clockText is a length of time in minutes and seconds: "3:30 min".
func clockText(secs int) string {
	if secs%60 == 0 {
		return fmt.Sprintf("%d min", secs/60)
	}
	return fmt.Sprintf("%d:%02d min", secs/60, secs%60)
}

// easyPiece is the aerobic part of a recovery session.
func (a *asked) easyPiece(minutes int) Block {
	b := Block{Name: "Easy piece", Minutes: minutes, Rounds: 1}
	if e := a.aerobic(minutes); e != nil {
		it := a.easyItem(e, minutes*60, note("pick-easy-piece"))
		if !a.minor {
			it.Exercise.Effort = "130 to 145 beats/min, or easy to talk"
		}
		b.Items = []Item{it}
	}
	return b
}
