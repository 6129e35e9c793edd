package exercise

import (
	"example.org/weft/periodize/season"
)

// option is one exercise in one slot; e is nil where the slot stays empty. It is
// small, since many are made for each card; its dose is worked out again for the
// few that are chosen.
type option struct {
	e    *entry
	side maybe
	secs int32 // a round
	once int32 // ramp-up sets before the first round
	cost int32
}

// chosen is a group with its exercises, in the order of its slots.
type chosen struct {
	rounds  int
	minutes int
	cost    int
	options []option
}

// maxSlots bounds the slots of a group.
const maxSlots = 4

// cell is the cheapest choice of a group for a number of minutes.
type cell struct {
	cost   int32 // -1: there is none
	rounds int8
	at     [maxSlots]int16 // option of each slot
}

// front is what a group offers: its options by slot, and a cell for each number
// of minutes.
type front struct {
	lists [maxSlots][]option
	slots int
	best  []cell
}

// take is the choice of so many minutes with its options.
func (f *front) take(minutes int) chosen {
	b := &f.best[minutes]
	c := chosen{rounds: int(b.rounds), minutes: minutes, cost: int(b.cost)}
	if c.rounds > 0 {
		c.options = make([]option, f.slots)
		for i := range c.options {
			c.options[i] = f.lists[i][b.at[i]]
		}
	}
	return c
}

// options lists what may stand in a slot, the empty slot last. Only what no
// other option beats in seconds and cost is kept: the rest is in no best card.
func (a *asked) options(s *slot) []option {
	w := a.ws
	first := len(w.options)
	for _, p := range s.patterns {
		weekly := int32(a.weekly(s, p))
		for _, o := range a.raw(s, p) {
			o.cost += weekly
			w.keep(first, o)
		}
	}
	w.keep(first, option{cost: int32(s.skip)})
	return w.options[first:len(w.options):len(w.options)]
}

// raw are the options of one pattern in a slot, without what the week makes of it.
// Those of the second lower lift are kept for the next pattern of the main lift.
func (a *asked) raw(s *slot, p Pattern) []option {
	w := a.ws
	kept := &w.second[lowerIndex(p)]
	if s.name == slotLower2 && *kept != nil {
		return *kept
	}
	first := len(w.raw)
	for _, i := range a.c.slots[p] {
		if o, ok := a.rawOption(s, &a.c.list[i]); ok {
			w.raw = append(w.raw, o)
		}
	}
	out := w.raw[first:len(w.raw):len(w.raw)]
	if s.name == slotLower2 && out != nil {
		*kept = out
	}
	return out
}

func lowerIndex(p Pattern) int {
	switch p {
	case Hinge:
		return 1
	case SingleLeg:
		return 2
	}
	return 0
}

// keep adds an option to those from first on, unless one of them is as good in
// everything, and drops those that it is as good as.
func (w *workspace) keep(first int, o option) {
	list := w.options[first:]
	for i := range list {
		if p := &list[i]; p.secs <= o.secs && p.once <= o.once && p.cost <= o.cost {
			return
		}
	}
	n := 0
	for i := range list {
		if p := &list[i]; !(o.secs <= p.secs && o.once <= p.once && o.cost <= p.cost) {
			if n != i {
				list[n] = *p
			}
			n++
		}
	}
	w.options = append(w.options[:first+n], o)
}

// stands reports whether an exercise may stand in a slot, and on which side.
func (a *asked) stands(s *slot, e *entry) maybe {
	if s.take != nil && !s.take(e) || s.class == classStrength && e.Role == Powerful || s.class == classMain && e.quick() {
		return mayNot
	}
	return a.may(e)
}

// option is one exercise in a slot with its cost, if it may stand there.
func (a *asked) option(s *slot, e *entry) (option, bool) {
	o, ok := a.rawOption(s, e)
	o.cost += int32(a.weekly(s, e.Pattern))
	return o, ok
}

func (a *asked) rawOption(s *slot, e *entry) (option, bool) {
	m := a.stands(s, e)
	if !m.ok() {
		return option{}, false
	}
	d := a.doseIn(s, e, m)
	o := option{e: e, side: m, secs: int32(d.secs + d.rest), cost: int32(a.costOf(s, e, m.side()))}
	if s.class == classMain && (e.Load == Bar || e.Load == TrapBar) {
		o.once = int32(a.rampSeconds(e))
	}
	return o, true
}

// doseIn is the dose of an exercise in a slot, halved where it is done on one side
// only.
func (a *asked) doseIn(s *slot, e *entry, m maybe) dose {
	d := a.doseOf(e, s.class)
	if m != mayBoth {
		d.secs = (d.secs - changeSides) / 2
	}
	return d
}

// rampSeconds is the time of the ramp-up sets of a bar lift: two sets, of five
// and three repetitions, with a minute each.
func (a *asked) rampSeconds(e *entry) int { return (5+3)*e.Seconds + 2*60 }

func (g *group) emptyCost() int {
	cost := 0
	for i := range g.slots {
		cost += g.slots[i].skip
	}
	return cost
}

func minutesOf(seconds int) int { return (seconds + 59) / 60 }

// frontier finds what a group offers in up to most minutes. lists holds the
// options of its slots where they are known already.
func (a *asked) frontier(g *group, most int, lists [maxSlots][]option) front {
	w := a.ws
	f := front{lists: lists, best: w.newCells(most + 1), slots: len(g.slots)}
	for i := range f.best {
		f.best[i].cost = -1
	}
	f.best[0] = cell{cost: int32(g.emptyCost())}
	for i := range g.slots {
		if f.lists[i] == nil {
			f.lists[i] = a.options(&g.slots[i])
		}
	}
	t := trial{f: &f, g: g, most: most, change: a.change()}
	t.pick(0, 0, 0, 0)
	w.states += t.states
	return f
}

// trial tries every filling of a group.
type trial struct {
	f      *front
	g      *group
	most   int
	change int
	states int
	at     [maxSlots]int16
}

func (t *trial) pick(i, secs, once, cost int) {
	if i < t.f.slots {
		list := t.f.lists[i]
		for k := range list {
			o := &list[k]
			t.at[i] = int16(k)
			t.pick(i+1, secs+int(o.secs), once+int(o.once), cost+int(o.cost))
		}
		return
	}
	if secs == 0 {
		return
	}
	for r := 1; r <= t.g.rounds; r++ {
		t.states++
		m := minutesOf(r*secs + once + t.change)
		if m > t.most {
			break
		}
		c := int32(cost + t.g.roundCost(r))
		if b := &t.f.best[m]; b.cost < 0 || c < b.cost {
			*b = cell{cost: c, rounds: int8(r), at: t.at}
		}
	}
}

// mainPatterns are the patterns that the main lower lift may have.
var mainPatterns = []Pattern{Squat, Hinge, SingleLeg}

// otherPatterns are those left for a second lower lift.
var otherPatterns = map[Pattern][]Pattern{Squat: {Hinge, SingleLeg}, Hinge: {Squat, SingleLeg}, SingleLeg: {Squat, Hinge}}

// best finds the cheapest filling of the session's groups in the minutes there
// are: exact, since groups share nothing but minutes and the pattern of the main
// lift, over which it runs. Ties fall to the earlier pattern, the fewer minutes
// of later groups and the earlier exercise of the catalogue.
func (a *asked) best(minutes int) (groups []group, picks []chosen, cost int) {
	patterns := mainPatterns
	if k := a.in.Session.Kind; k == season.Primer || k == season.Recovery {
		patterns = mainPatterns[:1]
	}
	a.recordedPatterns()
	a.ws.reset()
	groups = a.shape(patterns[0])
	var fronts, winner [maxGroups]front
	var ms, shares [maxGroups]int
	cost = -1
	main := patterns[0]
	for n, p := range patterns {
		for i := range groups {
			g := &groups[i]
			at := g.shared()
			if n > 0 && at < 0 {
				continue
			}
			lists := fronts[i].lists
			if n > 0 {
				g.turn(p)
				lists[at] = nil
			}
			fronts[i] = a.frontier(g, minutes, lists)
		}
		if cost >= 0 && leastOf(fronts[:len(groups)]) >= cost {
			continue // no way to share the minutes makes it the cheaper one
		}
		if c := a.ws.split(fronts[:len(groups)], minutes, &shares); cost < 0 || c < cost {
			cost, winner, ms, main = c, fronts, shares, p
		}
	}
	picks = make([]chosen, len(groups))
	for i := range groups {
		groups[i].turn(main)
		picks[i] = winner[i].take(ms[i])
	}
	return groups, picks, cost
}

// leastOf is what the groups cost at least, as if each had all the minutes.
func leastOf(fronts []front) int {
	sum := 0
	for i := range fronts {
		least := int32(-1)
		for _, c := range fronts[i].best {
			if c.cost >= 0 && (least < 0 || c.cost < least) {
				least = c.cost
			}
		}
		sum += int(least)
	}
	return sum
}

// shared is the slot of a group that depends on the main lift's pattern, -1 if
// none does.
func (g *group) shared() int {
	for i := range g.slots {
		if n := g.slots[i].name; n == slotMain || n == slotLower2 {
			return i
		}
	}
	return -1
}

// turn gives a group another pattern of the main lift.
func (g *group) turn(main Pattern) {
	i := g.shared()
	switch {
	case i < 0:
	case g.slots[i].name == slotMain:
		g.slots[i].patterns = onlyPattern[main]
	default:
		g.slots[i].patterns = otherPatterns[main]
	}
}

// onlyPattern is the list of one pattern each.
var onlyPattern = func() map[Pattern][]Pattern {
	out := map[Pattern][]Pattern{}
	for _, p := range patternRegions {
		out[p.pattern] = []Pattern{p.pattern}
	}
	return out
}()

// split shares the minutes out between the groups at the least cost.
func (ws *workspace) split(fronts []front, minutes int, ms *[maxGroups]int) (cost int) {
	n, w := len(fronts), minutes+1
	// table[i*w+m]: least cost of the groups from i on in at most m minutes.
	if need := (n + 1) * w; cap(ws.table) < need {
		ws.table = make([]int32, need)
	}
	table := ws.table[:(n+1)*w]
	clear(table[n*w:])
	for i := n - 1; i >= 0; i-- {
		row, next := table[i*w:(i+1)*w], table[(i+1)*w:(i+2)*w]
		for m := range row {
			row[m] = -1
		}
		least := int32(-1)
		for k, c := range fronts[i].best {
			if c.cost < 0 || least >= 0 && c.cost >= least { // fewer minutes cost no more
				continue
			}
			least = c.cost
			for m, t := range next[:w-k] {
				if t += c.cost; row[k+m] < 0 || t < row[k+m] {
					row[k+m] = t
				}
			}
		}
	}
	left := minutes
	for i := range fronts {
		for k := 0; k <= left; k++ {
			if c := fronts[i].best[k].cost; c >= 0 && c+table[(i+1)*w+left-k] == table[i*w+left] {
				ms[i] = k
				left -= k
				break
			}
		}
	}
	return int(table[minutes])
}
