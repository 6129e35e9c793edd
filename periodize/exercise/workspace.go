package exercise

// workspace is the memory of one search after another: nothing in it outlives
// the card it was used for.
type workspace struct {
	options  []option
	raw      []option    // before any is dropped
	second   [3][]option // of the second lower lift, by pattern, see asked.raw
	cells    []cell
	table    []int32
	slots    []slot
	groups   []group
	used     []int8     // see asked.used
	may      []maybe    // by exercise, see asked.may
	taken    []bool     // by exercise: on the card already, while a warm-up is filled
	recorded [3]Pattern // see asked.recorded
	warm     []warmPick // of the warm-up that is being filled
	states   int        // fillings of a group tried, in all searches
}

// maybe is what is known of whether an exercise may be chosen.
type maybe uint8

const (
	mayUnknown maybe = iota
	mayNot
	mayBoth
	mayLeft
	mayRight
)

func sideOnly(side string) maybe {
	switch side {
	case "left":
		return mayLeft
	case "right":
		return mayRight
	}
	return mayBoth
}

func (m maybe) ok() bool { return m >= mayBoth }

// side is the only side on which it may be done, "" for both.
func (m maybe) side() string {
	switch m {
	case mayLeft:
		return "left"
	case mayRight:
		return "right"
	}
	return ""
}

// maxGroups bounds the groups of a session, roomCells the minutes of all their
// fronts in one search.
const (
	maxGroups = 4
	roomSlots = maxGroups * maxSlots
	roomCells = 2048
)

func newWorkspace(c *compiled) *workspace {
	n := len(c.list)
	return &workspace{options: make([]option, 0, 128), raw: make([]option, 0, 256), cells: make([]cell, 0, roomCells), slots: make([]slot, 0, roomSlots),
		groups: make([]group, 0, maxGroups), used: make([]int8, n), may: make([]maybe, n), taken: make([]bool, n)}
}

// reset forgets the search before.
func (w *workspace) reset() {
	w.options, w.raw, w.cells = w.options[:0], w.raw[:0], w.cells[:0]
	clear(w.second[:])
	clear(w.may)
}

// newCells takes cells that are used until the next reset.
func (w *workspace) newCells(n int) []cell {
	if len(w.cells)+n > cap(w.cells) {
		w.cells = make([]cell, 0, max(roomCells, n))
	}
	first := len(w.cells)
	w.cells = w.cells[:first+n]
	return w.cells[first : first+n : first+n]
}
