package jsonread

// Kind is the kind of a JSON value.
type Kind uint8

const (
	Invalid Kind = iota // not a value, reported already
	Null
	Bool
	Number
	String
	Array
	Object
)

// String returns the kind with its article, as in "an array".
func (k Kind) String() string {
	switch k {
	case Null:
		return "null"
	case Bool:
		return "true or false"
	case Number:
		return "a number"
	case String:
		return "a string"
	case Array:
		return "an array"
	case Object:
		return "an object"
	}
	return "not a value"
}

const (
	plain     uint8 = 1 << iota // the string is UTF-8 without escapes
	plainName                   // the same of the name
	asked                       // a caller asked for this field by name
	settled                     // nothing is left to say about the name
	again                       // an earlier field has the same name
	badName                     // the name was reported as broken
	otherCase                   // the name was reported for its case
	faulty                      // the value was reported; typed access is silent
)

// node is one value. All nodes lie in one slice in the order of the text, so
// the first child of a node directly follows it.
type node struct {
	start, end       int32 // the value in the text
	nameAt, nameEnd  int32 // the name with its quotes; nameEnd is 0 without one
	parent, next     int32 // next sibling; 0 for none, since node 0 is the root
	ordinal, members int32 // place among its siblings; number of children
	kind             Kind
	flags            uint8
}

// name returns the decoded field name of a node.
func (d *Document) name(n *node) string {
	if n.nameEnd == 0 {
		return ""
	}
	return unquote(d.src[n.nameAt:n.nameEnd], n.flags&plainName != 0)
}

func (d *Document) named(n *node, name string) bool {
	if n.nameEnd == 0 {
		return false
	}
	if n.flags&plainName != 0 {
		return string(d.src[n.nameAt+1:n.nameEnd-1]) == name
	}
	return d.name(n) == name
}
