package jsonread

import "sort"

// entry is a problem before it is printed. Paths, values and positions are
// worked out only for the few that are listed.
type entry struct {
	class  Class
	code   string
	off    int32 // -1: no place
	also   int32 // start of an earlier place, 0 for none
	seq    int
	node   int32  // -1: the whole text
	member string // a field of node that is not there
	value  string // what to show; "" shows the node
	bare   bool   // show no value at all
	reason string
	remedy string
}

// collector keeps the problems worth listing: errors before warnings, early
// before late.
type collector struct {
	most   int
	kept   []entry
	count  [2]int // seen, by class
	seq    int
	full   bool
	beyond entry // with full: nothing after this is kept
}

func before(a, b *entry) bool {
	if a.class != b.class {
		return a.class < b.class
	}
	return sooner(a, b)
}

func sooner(a, b *entry) bool {
	if a.off != b.off {
		return a.off < b.off
	}
	return a.seq < b.seq
}

// wants counts a problem and tells whether it may be listed, so that a text
// with a million faults costs no million explanations.
func (c *collector) wants(class Class, off int32) bool {
	c.count[class&1]++
	c.seq++
	return !c.full || before(&entry{class: class, off: off, seq: c.seq}, &c.beyond)
}

// add keeps a problem that wants has just let in.
func (c *collector) add(e entry) {
	e.seq = c.seq
	c.kept = append(c.kept, e)
	if len(c.kept)/2 >= c.most {
		c.trim()
	}
}

func (c *collector) trim() {
	sort.Slice(c.kept, func(i, j int) bool { return before(&c.kept[i], &c.kept[j]) })
	if len(c.kept) > c.most {
		c.kept = c.kept[:c.most]
		c.full, c.beyond = true, c.kept[c.most-1]
	}
}
