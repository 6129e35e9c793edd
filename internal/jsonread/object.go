package jsonread

import (
	"slices"
	"strings"
)

// Fields gives the fields of an object by name and remembers which were asked
// for. The fields of a value that is no object are all absent, silently.
type Fields struct {
	v     Value
	known []string
}

// Object reads an object. Call [Fields.Done] after the last field.
func (v Value) Object() *Fields {
	if !v.is(Object) {
		return &Fields{}
	}
	return &Fields{v: v}
}

// OK reports whether the value is an object.
func (f *Fields) OK() bool { return f.v.d != nil }

// Value returns the object as a value, to report at; absent without one.
func (f *Fields) Value() Value { return f.v }

// Required returns a field and records an error if it is not there.
func (f *Fields) Required(name string) Value {
	v := f.field(name, "give a value")
	if v.d == nil || v.Present() {
		return v
	}
	d, n := f.v.d, f.v.n
	// A name in other letters is the one mistake here, and not two.
	for i := f.first(); i > 0; i = d.nodes[i].next {
		c := &d.nodes[i]
		open := c.flags&(settled|badName) == 0
		if (open || c.flags&otherCase != 0) && strings.EqualFold(d.name(c), name) {
			if open {
				f.wrongCase(i, name)
			}
			return v
		}
	}
	if d.found.wants(Error, d.nodes[n].start) {
		d.found.add(entry{code: CodeMissing, node: n, off: d.nodes[n].start, member: name, bare: true,
			reason: "the field is missing", remedy: "add it"})
	}
	return v
}

// Optional returns a field, absent if it is not there.
func (f *Fields) Optional(name string) Value {
	return f.field(name, "leave the field out")
}

// Allow names fields that are known and not read.
func (f *Fields) Allow(names ...string) {
	for _, name := range names {
		if v := f.find(name); v.Present() {
			v.d.nodes[v.n].flags |= asked | settled
		}
	}
}

func (f *Fields) field(name, remedy string) Value {
	v := f.find(name)
	if !v.Present() {
		return v
	}
	v.d.nodes[v.n].flags |= asked | settled
	return v.d.reach(v.n, remedy)
}

// find remembers the name and returns the first field of that name.
func (f *Fields) find(name string) Value {
	d := f.v.d
	if d == nil {
		return Value{}
	}
	if !slices.Contains(f.known, name) {
		f.known = append(f.known, name)
	}
	for i := f.first(); i > 0; i = d.nodes[i].next {
		if d.named(&d.nodes[i], name) {
			return Value{d: d, n: i}
		}
	}
	return Value{d: d, n: f.v.n, member: name}
}

func (f *Fields) first() int32 {
	if f.v.d == nil || f.v.d.nodes[f.v.n].members == 0 {
		return 0
	}
	return f.v.n + 1
}

// Done records the fields nobody asked for, with the known name that was
// likely meant. A known name in other letters is an error, since what it holds
// would be lost; any other is a warning, and an error in strict mode.
func (f *Fields) Done() {
	d := f.v.d
	for i := f.first(); i > 0; i = d.nodes[i].next {
		c := &d.nodes[i]
		if c.flags&(settled|badName) != 0 {
			continue
		}
		c.flags |= settled
		name := d.name(c)
		if k := slices.IndexFunc(f.known, func(k string) bool { return strings.EqualFold(k, name) }); k >= 0 {
			f.wrongCase(i, f.known[k])
			continue
		}
		class := Warning
		if d.strict {
			class = Error
		}
		if !d.found.wants(class, c.nameAt) {
			continue
		}
		e := entry{class: class, code: CodeUnknown, node: i, off: c.nameAt, bare: true,
			reason: "the field is not known and is not read", remedy: "remove it"}
		if near, ok := Closest(name, f.known); ok {
			e.remedy = "did you mean " + inert(near, nameRunes, true) + "?"
		}
		d.found.add(e)
	}
}

func (f *Fields) wrongCase(n int32, name string) {
	c := &f.v.d.nodes[n]
	c.flags |= settled | otherCase
	if f.v.d.found.wants(Error, c.nameAt) {
		f.v.d.found.add(entry{code: CodeWrongCase, node: n, off: c.nameAt, bare: true,
			reason: "capital and small letters differ in names", remedy: "write " + inert(name, nameRunes, true)})
	}
}

// Member is a field whose name is data.
type Member struct {
	Name  string
	Value Value
}

// Members returns the fields of an object whose names are data, such as the
// ids of rules, in the order of the text. Of a name given twice, which is an
// error already, it returns the first. Of more than most it returns the first
// most, and false. No field is unknown after it.
func (f *Fields) Members(most int) ([]Member, bool) {
	if !f.OK() {
		return nil, false
	}
	d := f.v.d
	size := int(d.nodes[f.v.n].members)
	if size > most {
		f.v.wrong(CodeTooMany, "the object has more than "+count(max(most, 0), "field"), "leave some out, or split the text")
	}
	var out []Member
	for i := f.first(); i > 0; i = d.nodes[i].next {
		c := &d.nodes[i]
		c.flags |= settled
		if c.flags&again == 0 && len(out) < most {
			out = append(out, Member{Name: d.name(c), Value: d.reach(i, "leave the field out")})
		}
	}
	return out, size <= most
}
