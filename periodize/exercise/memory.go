package exercise

import (
	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// memory is what earlier cards tell of the next one, taken in card by card, so
// that a season reads each of its cards once.
type memory struct {
	c      *compiled
	count  int
	known  []bool // by exercise: done before
	recent [3][]recentCard
	mains  map[Pattern]lastMain
	last   Pattern    // of the last main lift
	power  [3]Pattern // by sort: of the last power exercise
	push   Pattern    // of the last card's first push
	across bool       // the last card's first pull was a row
}

// recentCard is what a card of some sort used, by exercise.
type recentCard []int

// recentMost is how many cards of its sort a card tries to differ from.
const recentMost = 3

// lastMain is the main lift of a pattern in this block.
type lastMain struct {
	id    string
	since calendar.Date
}

func newMemory(c *compiled, h *History, block calendar.Date) *memory {
	m := &memory{c: c, known: make([]bool, len(c.list)), mains: map[Pattern]lastMain{}}
	for _, x := range h.Sets {
		if e := c.find(x.Exercise); e != nil {
			m.known[e.at] = true
		}
	}
	for i := range h.Cards {
		m.add(&h.Cards[i], block)
	}
	return m
}

// sortOf tells lifts from primers and recovery: variety is within a sort.
func sortOf(k season.Kind) int {
	switch {
	case k == season.Primer:
		return 1
	case k == season.Recovery:
		return 2
	}
	return 0
}

// add takes in the next card. block is the first date of the block of weeks that
// the card lies in, see [Input.BlockFrom].
func (m *memory) add(c *Card, block calendar.Date) {
	if len(c.Blocks) == 0 {
		return
	}
	m.count++
	sort := sortOf(c.Kind)
	var used recentCard
	if n := len(m.recent[sort]); n == recentMost {
		used = m.recent[sort][0][:0]
		m.recent[sort] = append(m.recent[sort][:0], m.recent[sort][1:]...)
	}
	pull := false
	for i := range c.Blocks {
		b := &c.Blocks[i]
		for j := range b.Items {
			it := &b.Items[j]
			at, ok := m.c.at[it.ID]
			if !ok {
				continue
			}
			m.known[at] = true
			if b.Rounds > 0 {
				used = append(used, at)
			}
			if it.Slot == slotPower {
				m.power[sort] = Pattern(it.Exercise.Pattern)
			}
			if sort != 0 {
				continue
			}
			switch {
			case it.Slot == slotMain:
				m.last = Pattern(it.Exercise.Pattern)
				if c.Kind != season.Eccentric { // those have lifts of their own
					m.main(it, c.Date, block)
				}
			case it.Slot == slotPush:
				m.push = Pattern(it.Exercise.Pattern)
			case it.Slot == slotPull && !pull:
				pull, m.across = true, it.Exercise.Pattern == string(PullHorizontal)
			}
		}
	}
	m.recent[sort] = append(m.recent[sort], used)
}

// main follows the main lift of a pattern: a block of it ends with another lift,
// with a break, or when it gets long.
func (m *memory) main(it *Item, d, block calendar.Date) {
	p := Pattern(it.Exercise.Pattern)
	x, ok := m.mains[p]
	if !ok || x.id != it.ID || !block.IsZero() && x.since.Before(block) && !d.Before(block) || d.DaysSince(x.since) >= mainBlock {
		m.mains[p] = lastMain{id: it.ID, since: d}
	}
}

// usedAt writes, by exercise, in which of the last cards of a sort it was: 1 the
// last, 0 in none.
func (m *memory) usedAt(sort int, used []int8) {
	clear(used)
	list := m.recent[sort]
	for i, c := range list {
		for _, at := range c {
			used[at] = int8(len(list) - i)
		}
	}
}

// bound tells whether a main lift is within its block on a date, so that another
// of its pattern would cut it short.
func (m *memory) bound(p Pattern, d, block calendar.Date) (lastMain, bool) {
	x, ok := m.mains[p]
	return x, ok && d.DaysSince(x.since) < mainBlock && (block.IsZero() || !x.since.Before(block))
}
