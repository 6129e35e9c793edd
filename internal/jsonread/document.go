package jsonread

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"sort"
	"strconv"
	"strings"
)

// Document is a text that was read, with the problems found so far.
type Document struct {
	src       []byte
	nodes     []node
	lines     lines
	strict    bool
	hidden    []string
	found     collector
	broken    bool // the structure is not known
	malformed bool // not JSON by RFC 8259
}

// Read reads one JSON text to its end. It never fails as such: what is wrong,
// including an error of r, is among the problems of the document.
//
// UTF-8 is the only encoding. A byte order mark is accepted with a warning:
// RFC 8259 section 8.1 allows a reader to ignore one, and common editors and
// spreadsheets put it there.
func Read(r io.Reader, opt Options) *Document {
	d := &Document{strict: opt.Strict, hidden: slices.Clone(opt.Private)}
	d.found.most = opt.Problems
	if d.found.most <= 0 {
		d.found.most = DefaultProblems
	}
	lim := opt.Limits.filled()
	src, err := readAll(r, lim.Bytes)
	d.src = src
	d.lines.src = src
	if err != nil {
		e := entry{code: CodeUnreadable, node: -1, off: -1,
			reason: Inert("the text cannot be read: "+err.Error(), reasonRunes), remedy: "give it again"}
		if errors.Is(err, errTooLarge) {
			e.code = CodeTooLarge
			e.reason = "the text is longer than " + number(lim.Bytes) + " bytes"
			e.remedy = "split it, or leave out what is not needed"
		}
		d.broken = true
		d.problem(e)
		return d
	}
	p := &parser{d: d, src: src, lim: lim}
	switch {
	case bytes.HasPrefix(src, []byte("\xEF\xBB\xBF")):
		p.i, d.lines.base = 3, 3
		d.problem(entry{class: Warning, code: CodeOrderMark, node: -1, value: "U+FEFF",
			reason: "the text starts with a byte order mark", remedy: "save it as UTF-8 without one"})
	case bytes.HasPrefix(src, []byte("\xFF\xFE")), bytes.HasPrefix(src, []byte("\xFE\xFF")):
		d.broken, d.malformed = true, true
		d.problem(entry{code: CodeEncoding, node: -1, reason: "the text is UTF-16", remedy: "save it as UTF-8"})
		return d
	}
	d.broken = !p.parse()
	return d
}

var errTooLarge = errors.New("too large")

// readAll reads at most limit bytes. Readers that return nothing for ever are
// given up.
func readAll(r io.Reader, limit int64) ([]byte, error) {
	if r == nil {
		return nil, errors.New("there is no reader")
	}
	buf := make([]byte, 0, min(limit+1, 4096))
	for idle := 0; ; {
		if len(buf) == cap(buf) {
			grown := make([]byte, len(buf), min(2*int64(cap(buf)), limit+1))
			copy(grown, buf)
			buf = grown
		}
		n, err := r.Read(buf[len(buf):cap(buf)])
		buf = buf[:len(buf)+max(n, 0)]
		if int64(len(buf)) > limit {
			return nil, errTooLarge
		}
		switch {
		case err == io.EOF:
			return buf, nil
		case err != nil:
			return nil, err
		case n > 0:
			idle = 0
		default:
			if idle++; idle == 100 {
				return nil, io.ErrNoProgress
			}
		}
	}
}

// OK reports whether no error was found so far; warnings do not count.
func (d *Document) OK() bool { return d.found.count[Error] == 0 }

// WellFormed reports whether the text was read to its end and follows the
// grammar of RFC 8259, a byte order mark aside. A text may be well-formed and
// yet hold errors: bad UTF-8 in a string, a name given twice.
func (d *Document) WellFormed() bool { return !d.broken && !d.malformed }

// Counts returns how many errors and warnings were found so far, listed or not.
func (d *Document) Counts() (errors, warnings int) {
	return d.found.count[Error], d.found.count[Warning]
}

// Root returns the value of the text. It is absent if the text could not be
// read to its end. null is reported here as anywhere.
func (d *Document) Root() Value {
	if d.broken {
		return Value{d: d, n: -1}
	}
	return d.reach(0, "give a value")
}

// reach hands a node to a caller, and reports null once.
func (d *Document) reach(n int32, remedy string) Value {
	v := Value{d: d, n: n}
	if d.nodes[n].kind == Null && v.usable() {
		v.wrong(CodeNull, "null stands for no value", remedy)
	}
	return v
}

// Problems returns what was found so far, by position. Of more than
// [Options.Problems] it lists the first errors and, in the room they leave,
// the first warnings; a last problem with [CodeMore] counts the rest.
func (d *Document) Problems() []Problem {
	d.found.trim()
	list := slices.Clone(d.found.kept)
	sort.Slice(list, func(i, j int) bool { return sooner(&list[i], &list[j]) })
	var out []Problem
	var listed [2]int
	for i := range list {
		out = append(out, d.print(&list[i]))
		listed[list[i].class&1]++
	}
	errs, warns := d.found.count[Error]-listed[Error], d.found.count[Warning]-listed[Warning]
	if errs+warns > 0 {
		more := Problem{Class: Warning, Code: CodeMore, Remedy: "mend the listed ones first",
			Reason: "and " + strconv.Itoa(errs+warns) + " more: " + count(errs, "error") + ", " + count(warns, "warning")}
		if errs > 0 {
			more.Class = Error
		}
		out = append(out, more)
	}
	return out
}

func (d *Document) problem(e entry) {
	if d.found.wants(e.class, e.off) {
		d.found.add(e)
	}
}

func (d *Document) print(e *entry) Problem {
	p := Problem{Class: e.class, Code: e.code, Pointer: d.pointer(e.node, e.member), Value: e.value, Reason: e.reason, Remedy: e.remedy}
	if e.off >= 0 {
		p.Line, p.Col = d.lines.at(e.off)
	}
	if e.also > 0 {
		line, col := d.lines.at(e.also)
		p.Reason += ", first at " + strconv.Itoa(line) + ":" + strconv.Itoa(col)
	}
	if e.code == CodeUnknown && d.unnamed(e.node) {
		p.Reason = "a field in it, at " + strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Col) + ", is not known and is not read"
	}
	switch {
	case e.bare || e.node < 0:
	case d.private(e.node):
		p.Value = "(private)"
	case p.Value == "":
		p.Value = d.show(&d.nodes[e.node])
	}
	return p
}

// shownBytes holds any shownRunes or nameRunes characters as written: twelve
// bytes at most for one, as a pair of escapes.
const shownBytes = 12*max(shownRunes, nameRunes) + 12

func head(b []byte) []byte { return b[:min(len(b), shownBytes)] }

// show prints a value in few characters.
func (d *Document) show(n *node) string {
	raw := d.src[n.start:n.end]
	switch n.kind {
	case String:
		b := head(raw[1 : len(raw)-1])
		return inert(unescape(b, n.flags&plain != 0), shownRunes, true)
	case Array:
		return "[" + cut + "] of " + strconv.Itoa(int(n.members))
	case Object:
		return "{" + cut + "} of " + strconv.Itoa(int(n.members))
	}
	return Inert(string(head(raw)), shownRunes)
}

// path returns the nodes from below the root to n.
func (d *Document) path(n int32) []int32 {
	var path []int32
	for ; n > 0; n = d.nodes[n].parent {
		path = append(path, n)
	}
	slices.Reverse(path)
	return path
}

// pointer writes the path of node n, or of its field member.
func (d *Document) pointer(n int32, member string) string {
	var b strings.Builder
	hidden := false
	for _, n := range d.path(n) {
		nd := &d.nodes[n]
		switch {
		case nd.nameEnd == 0 && (nd.parent < 0 || d.nodes[nd.parent].kind == Object):
			return b.String() // the name itself is broken
		case nd.nameEnd == 0:
			b.WriteByte('/')
			b.WriteString(strconv.Itoa(int(nd.ordinal)))
		case hidden && nd.flags&asked == 0:
			return b.String()
		default:
			name := unescape(head(d.src[nd.nameAt+1:nd.nameEnd-1]), nd.flags&plainName != 0)
			b.WriteByte('/')
			b.WriteString(token(name))
			hidden = hidden || d.hides(nd)
		}
	}
	if member != "" {
		b.WriteByte('/')
		b.WriteString(token(member))
	}
	return b.String()
}

var pointerEscapes = strings.NewReplacer("~", "~0", "/", "~1")

func token(name string) string { return Inert(pointerEscapes.Replace(name), nameRunes) }

// unnamed reports whether the name of a field is left out of its path.
func (d *Document) unnamed(n int32) bool {
	return d.nodes[n].flags&asked == 0 && d.private(d.nodes[n].parent)
}

// private reports whether a node lies in a private field.
func (d *Document) private(n int32) bool {
	for ; n > 0; n = d.nodes[n].parent {
		if d.hides(&d.nodes[n]) {
			return true
		}
	}
	return false
}

func (d *Document) hides(n *node) bool {
	if n.nameEnd == 0 || len(d.hidden) == 0 || int(n.nameEnd-n.nameAt) > shownBytes {
		return false
	}
	_, ok := Closest(d.name(n), d.hidden)
	return ok
}
