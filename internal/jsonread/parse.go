package jsonread

import "bytes"

// parser builds the nodes of a text. It keeps its own stack, so that depth
// costs heap within Limits.Depth and never the goroutine's stack.
type parser struct {
	d    *Document
	src  []byte
	lim  Limits
	i    int
	open []frame
	seen map[string]int32 // names of one large object, kept for its buckets
}

type frame struct {
	node  int32
	last  int32 // youngest child, 0 for none
	comma int32 // the comma before the next child, 0 for none
	after bool  // a child was just read
}

// parse reads the one value of the text. It returns false if the structure
// broke off; then the nodes must not be used.
func (p *parser) parse() bool {
	p.space()
	if p.i == len(p.src) {
		p.stop(-1, 0, CodeEmpty, "there is no value in the text", "give one JSON value")
		return false
	}
	// Each value is the root, the first of a container or after a comma. Those
	// inside strings are counted too, so this is a bound.
	most := 1
	for _, c := range []string{",", "[", "{"} {
		most += bytes.Count(p.src, []byte(c))
	}
	p.d.nodes = make([]node, 0, min(most, p.lim.Nodes, DefaultNodes))
	n, ok := p.create()
	if !ok || !p.value(n) {
		return false
	}
	for len(p.open) > 0 {
		if !p.step() {
			return false
		}
	}
	p.space()
	if p.i < len(p.src) {
		p.d.malformed = true
		p.d.problem(entry{code: CodeTrailing, node: -1, off: int32(p.i), value: p.glimpse(p.i),
			reason: "more text follows after the value", remedy: "remove what follows, or put all values in one array"})
	}
	return true
}

// step moves on inside the innermost open container: closes it, passes a
// comma, or reads one child.
func (p *parser) step() bool {
	f := &p.open[len(p.open)-1]
	p.space()
	inObject := p.d.nodes[f.node].kind == Object
	closer, child := byte(']'), "element"
	if inObject {
		closer, child = '}', "field"
	}
	if p.i == len(p.src) {
		p.stop(f.node, p.i, CodeSyntax, "the text ends inside "+p.d.nodes[f.node].kind.String(), "close it with "+string(rune(closer)))
		return false
	}
	c := p.src[p.i]
	switch {
	case c == closer:
		if f.comma > 0 {
			p.malformed(f.node, int(f.comma), ",", "a comma follows the last "+child, "remove the comma")
		}
		p.i++
		p.close(f.node)
		return true
	case f.after && c == ',':
		f.comma, f.after = int32(p.i), false
		p.i++
		return true
	case f.after:
		return p.unexpected(f.node, "a comma or "+string(rune(closer))+" is wanted after the "+child)
	case inObject && c != '"':
		return p.unexpected(f.node, "a field name in double quotes is wanted")
	}
	n, ok := p.create()
	if !ok {
		return false
	}
	if inObject {
		end, isPlain, ok := p.quoted(n, p.lim.NameBytes, "field name", badName)
		if !ok {
			return false
		}
		nd := &p.d.nodes[n]
		nd.nameAt, nd.nameEnd = int32(p.i), int32(end)
		if isPlain {
			nd.flags |= plainName
		}
		p.i = end
		p.space()
		if p.i == len(p.src) || p.src[p.i] != ':' {
			return p.unexpected(n, "a colon is wanted after the field name")
		}
		p.i++
		p.space()
	}
	return p.value(n)
}

// create adds a child to the innermost container, or the root.
func (p *parser) create() (int32, bool) {
	d := p.d
	n := int32(len(d.nodes))
	parent := int32(-1)
	if len(p.open) > 0 {
		parent = p.open[len(p.open)-1].node
	}
	if int(n) == p.lim.Nodes {
		p.stop(parent, p.i, CodeTooMany, "the text holds more than "+number(int64(p.lim.Nodes))+" values", "split it, or leave out what is not needed")
		return 0, false
	}
	nd := node{start: int32(p.i), end: int32(p.i), parent: parent}
	if parent >= 0 {
		f := &p.open[len(p.open)-1]
		if f.last > 0 {
			d.nodes[f.last].next = n
		}
		nd.ordinal = d.nodes[parent].members
		d.nodes[parent].members++
		f.last, f.comma, f.after = n, 0, true
	}
	d.nodes = append(d.nodes, nd)
	return n, true
}

// value reads the value of node n, or opens it.
func (p *parser) value(n int32) bool {
	nd := &p.d.nodes[n]
	nd.start, nd.end = int32(p.i), int32(p.i)
	if p.i == len(p.src) {
		return p.unexpected(n, "a value is wanted")
	}
	switch c := p.src[p.i]; {
	case c == '{' || c == '[':
		nd.kind = Array
		if c == '{' {
			nd.kind = Object
		}
		if len(p.open) == p.lim.Depth {
			p.stop(n, p.i, CodeTooDeep, "arrays and objects lie more than "+number(int64(p.lim.Depth))+" deep in one another", "flatten the text")
			return false
		}
		p.open = append(p.open, frame{node: n})
		p.i++
		return true
	case c == '"':
		end, isPlain, ok := p.quoted(n, p.lim.StringBytes, "string", faulty)
		if !ok {
			return false
		}
		nd.kind, nd.end = String, int32(end)
		if isPlain {
			nd.flags |= plain
		}
		p.i = end
		return true
	case wordByte(c):
		return p.literal(n)
	}
	return p.unexpected(n, "a value is wanted")
}

// close ends a container and looks for names given twice.
func (p *parser) close(n int32) {
	nd := &p.d.nodes[n]
	nd.end = int32(p.i)
	p.open = p.open[:len(p.open)-1]
	if nd.kind == Object && nd.members > 1 {
		p.duplicates(n)
	}
}

// few is the number of fields up to which comparing all pairs is cheaper than
// a map, if no name needs decoding.
const few = 16

func (p *parser) duplicates(n int32) {
	d := p.d
	first := n + 1
	pairs := d.nodes[n].members <= few
	for i := first; i > 0 && pairs; i = d.nodes[i].next {
		pairs = d.nodes[i].flags&plainName != 0
	}
	if !pairs {
		if p.seen == nil {
			p.seen = make(map[string]int32)
		}
		for i := first; i > 0; i = d.nodes[i].next {
			name := d.name(&d.nodes[i])
			if was, ok := p.seen[name]; ok {
				p.twice(was, i)
			} else {
				p.seen[name] = i
			}
		}
		// Clearing costs the size of the map, so a large one is not kept for
		// the sake of many small objects after it.
		if len(p.seen) > 64*few {
			p.seen = nil
		} else {
			clear(p.seen)
		}
		return
	}
	for i := d.nodes[first].next; i > 0; i = d.nodes[i].next {
		for j := first; j != i; j = d.nodes[j].next {
			a, b := &d.nodes[j], &d.nodes[i]
			if bytes.Equal(d.src[a.nameAt:a.nameEnd], d.src[b.nameAt:b.nameEnd]) {
				p.twice(j, i)
				break
			}
		}
	}
}

func (p *parser) twice(first, second int32) {
	d := p.d
	d.nodes[second].flags |= again | settled
	d.problem(entry{code: CodeDuplicate, node: second, off: d.nodes[second].nameAt, also: d.nodes[first].nameAt,
		bare: true, reason: "the field is given twice", remedy: "keep one of the two"})
}

func (p *parser) space() {
	for p.i < len(p.src) {
		switch p.src[p.i] {
		case ' ', '\t', '\n', '\r':
			p.i++
		default:
			return
		}
	}
}
