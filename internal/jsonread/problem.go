package jsonread

import (
	"fmt"
	"strings"
)

// Class says what a problem means for the reader of the text.
type Class uint8

const (
	Error   Class = iota // the text cannot be used
	Warning              // the text can be used; look here
)

// String returns "error" or "warning".
func (c Class) String() string {
	if c == Warning {
		return "warning"
	}
	return "error"
}

// Codes name the problems this package finds; they stay the same when a text
// is reworded. Problems added by [Value.Report] have the caller's own codes.
const (
	CodeUnreadable = "unreadable"      // the io.Reader failed
	CodeTooLarge   = "too-large"       // more bytes than Limits.Bytes
	CodeTooDeep    = "too-deep"        // nested deeper than Limits.Depth
	CodeTooMany    = "too-many"        // more values than Limits.Nodes, or elements than the caller allows
	CodeTooLong    = "too-long"        // a string or name beyond Limits
	CodeEmpty      = "empty"           // no value in the text
	CodeEncoding   = "encoding"        // not UTF-8
	CodeOrderMark  = "byte-order-mark" // UTF-8 with a byte order mark
	CodeSyntax     = "syntax"          // not JSON
	CodeTrailing   = "trailing"        // more text after the value
	CodeSurrogate  = "surrogate"       // half of a \u pair
	CodeNUL        = "nul"             // U+0000 in a string
	CodeControl    = "control"         // another control or direction character in a string
	CodeDuplicate  = "duplicate"       // one name twice in an object
	CodeWrongCase  = "wrong-case"      // a known name or word in other letters
	CodeUnknown    = "unknown"         // a field nobody reads
	CodeMissing    = "missing"         // a required field is not there
	CodeNull       = "null"            // null in place of a value
	CodeKind       = "kind"            // another kind of value is wanted
	CodeNumber     = "number"          // not written as the wanted kind of number
	CodeRange      = "range"           // a number out of range
	CodeLength     = "length"          // a string shorter or longer than the caller allows
	CodeChoice     = "choice"          // not one of the allowed words
	CodeText       = "text"            // refused by the caller's own reading
	CodeMore       = "more"            // the count of problems not listed
)

// Codes returns all codes of this package in a fixed order.
func Codes() []string {
	return []string{
		CodeUnreadable, CodeTooLarge, CodeTooDeep, CodeTooMany, CodeTooLong, CodeEmpty,
		CodeEncoding, CodeOrderMark, CodeSyntax, CodeTrailing, CodeSurrogate, CodeNUL,
		CodeControl, CodeDuplicate, CodeWrongCase, CodeUnknown, CodeMissing, CodeNull,
		CodeKind, CodeNumber, CodeRange, CodeLength, CodeChoice, CodeText, CodeMore,
	}
}

// Problem is one thing wrong with a text. All its strings are safe to print on
// one line of a terminal: see [Inert].
type Problem struct {
	Class Class
	Code  string

	// Pointer is the path of the value, "" for the whole text. Names longer
	// than 64 characters are cut; characters that do not print are escaped as
	// in RFC 6901 section 5. Names inside a private field are left out unless
	// the caller asked for them.
	Pointer string

	// Line and Col count from 1; Col counts characters, a tab as one and a
	// byte order mark as none. Both are 0 where the problem has no place.
	Line, Col int

	Value  string // what is there, cut to 60 characters; "" where nothing is
	Reason string
	Remedy string
}

// String puts the problem on one line: place, path, value, reason, remedy.
func (p Problem) String() string {
	var b strings.Builder
	if p.Line > 0 {
		fmt.Fprintf(&b, "%d:%d: ", p.Line, p.Col)
	}
	b.WriteString(p.Class.String())
	b.WriteString(": ")
	if p.Pointer != "" {
		b.WriteString(p.Pointer)
		b.WriteString(": ")
	}
	if p.Value != "" {
		b.WriteString(p.Value)
		b.WriteString(": ")
	}
	b.WriteString(p.Reason)
	if p.Remedy != "" {
		b.WriteString("; ")
		b.WriteString(p.Remedy)
	}
	return b.String()
}
