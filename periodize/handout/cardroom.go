package handout

import "example.org/weft/periodize/exercise"

// How much of a card a page takes, in tenths of a millimetre, measured in print
// with a wide typeface. Too much is an empty end of a page, too little a page
// that nobody counted.

// cardRoom is the height of a page between head and foot, less the key.
var cardRoom = [...]int{A4: 2280, Letter: 2100}

// cardRowSize is what the rows of a card are made of.
type cardRowSize struct{ box, pad, gap int }

var (
	cardRow    = cardRowSize{box: 83, pad: 21, gap: 35}
	cardRowLow = cardRowSize{box: 73, pad: 13, gap: 24} // where that saves a page
)

// cardPart is what stays together.
type cardPart struct {
	blocks page
	high   int
}

// cardPages parts a card where a page is full.
func cardPages(parts []cardPart, room int) (out []page) {
	var p page
	used := 0
	for _, x := range parts {
		if used > 0 && used+x.high > room {
			out, p, used = append(out, p), nil, 0
		}
		p, used = append(p, x.blocks...), used+x.high
	}
	return append(out, p)
}

// high is about what a block takes.
func (c cardBlock) high(size cardRowSize) int {
	if c.running() {
		return 82 + size.gap + 51*((len(c.inline())+95)/96)
	}
	out := 66 + size.gap
	for _, it := range c.Items {
		out += c.rowHigh(it, size)
	}
	return out
}

// rowHigh is about what an exercise takes: the higher of its boxes and its words,
// and what its load rests on.
func (c cardBlock) rowHigh(it exercise.Item, size cardRowSize) int {
	const all, name, dosed, most = 1860, 470, 190 + 90, 840 // the row, the name, dose and gaps, the boxes at most
	box := 156
	if loaded(it) {
		box = 262
	}
	n := c.boxes(it)
	wide := n * (box + 20)
	rows := 1 + max(wide-21, 0)/most
	left := all - name - dosed - min(wide, most)
	x := it.Exercise
	lines := max(1+len(exerciseName(x))*25/name, 1+len(weight(x))*22/max(left, 260), 1+len(dose(x))*23/190)
	out := 6 + 46*lines
	if n > 0 {
		out = max(out, rows*size.box+(rows-1)*15)
	}
	if e := c.evidence(it); e != "" {
		out += 44 * (1 + len(e)/125)
	}
	return out + size.pad
}
