package jsonread

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Value is one value of a document, or the lack of one. The zero Value is
// absent and belongs to no document.
type Value struct {
	d      *Document
	n      int32  // the node; -1 for none
	member string // the field of node n that is not there
}

// Present reports whether the text holds the value, right or wrong.
func (v Value) Present() bool { return v.d != nil && v.n >= 0 && v.member == "" }

// Kind returns the kind of the value, Invalid where there is none or where it
// is not JSON.
func (v Value) Kind() Kind {
	if !v.Present() {
		return Invalid
	}
	return v.d.nodes[v.n].kind
}

// Pointer returns the path of the value as in [Problem].
func (v Value) Pointer() string {
	if v.d == nil {
		return ""
	}
	return v.d.pointer(v.n, v.member)
}

// Position returns where the value starts, counted as in [Problem]; for a
// missing field that is its object. It is 0, 0 where there is no place.
func (v Value) Position() (line, col int) {
	if v.d == nil || v.n < 0 {
		return 0, 0
	}
	return v.d.lines.at(v.d.nodes[v.n].start)
}

// Raw returns a copy of the value as written, whatever its kind.
func (v Value) Raw() ([]byte, bool) {
	if !v.usable() {
		return nil, false
	}
	n := &v.d.nodes[v.n]
	return slices.Clone(v.d.src[n.start:n.end]), true
}

// Report adds a problem at the value, such as one that takes two fields to
// see. Code, reason and remedy are the caller's; the value is shown unless it
// is private or absent. A zero Value has nowhere to report and drops it.
func (v Value) Report(class Class, code, reason, remedy string) {
	if v.d == nil {
		return
	}
	e := entry{class: class & 1, code: code, node: v.n, off: -1, member: v.member, bare: !v.Present()}
	if v.n >= 0 {
		e.off = v.d.nodes[v.n].start
	}
	if v.d.found.wants(e.class, e.off) {
		e.reason, e.remedy = Inert(reason, reasonRunes), Inert(remedy, reasonRunes)
		v.d.found.add(e)
	}
}

func (v Value) usable() bool { return v.Present() && v.d.nodes[v.n].flags&faulty == 0 }

// wrong records an error of the value and silences it.
func (v Value) wrong(code, reason, remedy string) {
	if n := v.fault(); n != nil {
		v.d.found.add(entry{code: code, node: v.n, off: n.start, reason: reason, remedy: remedy})
	}
}

// fault silences the value and returns its node if the error may be listed.
func (v Value) fault() *node {
	n := &v.d.nodes[v.n]
	n.flags |= faulty
	if v.d.found.wants(Error, n.start) {
		return n
	}
	return nil
}

// is reports whether the value is of a kind, and records it where not.
func (v Value) is(want Kind) bool {
	if !v.usable() {
		return false
	}
	n := &v.d.nodes[v.n]
	if n.kind == want {
		return true
	}
	remedy := "give " + want.String()
	switch {
	case want == String && n.kind != Object && n.kind != Array:
		remedy = "put it in double quotes"
	case want == Number && n.kind == String && validNumber(v.d.src[n.start+1:n.end-1]):
		remedy = "write the number without quotes"
	case want == Bool && n.kind == String:
		remedy = "write true or false, without quotes"
	case want == Array:
		remedy = "put it in brackets: [ ]"
	}
	v.wrong(CodeKind, want.String()+" is wanted, not "+n.kind.String(), remedy)
	return false
}

// Bool reads true or false.
func (v Value) Bool() (value, ok bool) {
	if !v.is(Bool) {
		return false, false
	}
	return v.d.src[v.d.nodes[v.n].start] == 't', true
}

func (v Value) text() string {
	n := &v.d.nodes[v.n]
	return unquote(v.d.src[n.start:n.end], n.flags&plain != 0)
}

// String reads a string of least to most characters.
func (v Value) String(least, most int) (string, bool) {
	if !v.is(String) {
		return "", false
	}
	s := v.text()
	switch n := utf8.RuneCountInString(s); {
	case n == 0 && least > 0:
		v.wrong(CodeLength, "the string is empty", "give a text, or leave the field out where it may be left out")
	case n < least:
		v.wrong(CodeLength, "the string has fewer than "+count(least, "character"), "lengthen it")
	case n > most:
		v.wrong(CodeLength, "the string has more than "+count(most, "character"), "shorten it")
	default:
		return s, true
	}
	return "", false
}

// Text reads a string with a function of the caller. want says what is wanted,
// with an example, as in "a date such as 2026-11-08". The error of parse
// becomes the reason, made [Inert] and cut; in a private field, where it might
// quote the value, it is replaced. An error with a method Remedy() string
// gives the remedy, else that is "write" and want.
func (v Value) Text(want string, parse func(string) error) bool {
	if !v.is(String) {
		return false
	}
	err := parse(v.text())
	if err == nil {
		return true
	}
	n := v.fault()
	if n == nil {
		return false
	}
	e := entry{code: CodeText, node: v.n, off: n.start, reason: "this is not " + want, remedy: "write " + want}
	if !v.d.private(v.n) {
		e.reason = err.Error()
		if r, ok := err.(interface{ Remedy() string }); ok {
			e.remedy = r.Remedy()
		}
	}
	e.reason, e.remedy = Inert(e.reason, reasonRunes), Inert(e.remedy, reasonRunes)
	v.d.found.add(e)
	return false
}

// Enum reads one of the allowed words.
func (v Value) Enum(allowed ...string) (string, bool) {
	if !v.is(String) {
		return "", false
	}
	n := &v.d.nodes[v.n]
	s := ""
	if int(n.end-n.start) <= shownBytes {
		s = v.text()
		if slices.Contains(allowed, s) {
			return s, true
		}
	}
	if v.fault() == nil {
		return "", false
	}
	e := entry{code: CodeChoice, node: v.n, off: n.start, reason: "the word is not known here", remedy: "write one of: " + listed(allowed)}
	if near, ok := Closest(s, allowed); ok && !v.d.private(v.n) {
		e.remedy = "did you mean " + inert(near, nameRunes, true) + "? It is one of: " + listed(allowed)
		if strings.EqualFold(near, s) {
			e.code, e.reason, e.remedy = CodeWrongCase, "capital and small letters differ", "write "+inert(near, nameRunes, true)
		}
	}
	v.d.found.add(e)
	return "", false
}

// listed joins the first words of a list.
func listed(words []string) string {
	const most = 20
	var b strings.Builder
	for i, w := range words {
		if i == most {
			b.WriteString(", " + cut)
			break
		}
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(Inert(w, nameRunes))
	}
	return b.String()
}

// Array reads an array of at most most elements. Of a longer one it returns
// the first most, so that these are still checked, and false.
func (v Value) Array(most int) ([]Value, bool) {
	if !v.is(Array) {
		return nil, false
	}
	n := &v.d.nodes[v.n]
	size := int(n.members)
	if size > most {
		v.wrong(CodeTooMany, "the array has more than "+count(max(most, 0), "element"), "leave some out, or split the text")
		size = max(most, 0)
	}
	out := make([]Value, 0, size)
	for i := v.n + 1; len(out) < size; i = v.d.nodes[i].next {
		out = append(out, v.d.reach(i, "leave the element out"))
	}
	return out, int(n.members) == size
}
