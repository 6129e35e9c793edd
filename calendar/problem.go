package calendar

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Class says what a problem means for the work.
type Class string

const (
	ClassError    Class = "error"    // the input cannot be used
	ClassRefusal  Class = "refusal"  // the input can be read, but must not be used
	ClassQuestion Class = "question" // used on a named assumption
	ClassWarning  Class = "warning"  // used; look here
)

// Problem is one thing that is wrong or uncertain in an input.
type Problem struct {
	Code   string `json:"code"`             // stable, such as "time-skipped"
	Class  Class  `json:"class"`            //
	Path   string `json:"path,omitempty"`   // where: "games.csv:12" or a JSON pointer
	Field  string `json:"field,omitempty"`  // column, property or key
	Value  string `json:"value,omitempty"`  // as given
	Reason string `json:"reason"`           // what is wrong
	Remedy string `json:"remedy,omitempty"` // what to do
}

// Error returns the problem on one line: path, class, field, value, reason,
// remedy. Values are quoted and shortened, so that control characters in them do
// nothing.
func (p Problem) Error() string {
	var b strings.Builder
	if p.Path != "" {
		b.WriteString(Inert(p.Path))
		b.WriteString(": ")
	}
	b.WriteString(string(p.Class))
	b.WriteString(": ")
	if p.Field != "" {
		b.WriteString(Inert(p.Field))
		b.WriteString(" ")
	}
	if p.Value != "" {
		b.WriteString(strconv.Quote(shorten(p.Value)))
		b.WriteString(" ")
	}
	if p.Field != "" || p.Value != "" {
		b.WriteString("- ")
	}
	b.WriteString(Inert(p.Reason))
	if p.Remedy != "" {
		b.WriteString("; ")
		b.WriteString(Inert(p.Remedy))
	}
	return b.String()
}

// ValueError is the error of every parser of this package.
type ValueError struct {
	What   string // "date", "time", "wall time", "zone", ...
	Code   string // stable code of the problem; "" where the caller knows better
	Value  string // as given
	Reason string
	Remedy string
}

// Error returns what, value, reason and remedy on one line.
func (e *ValueError) Error() string {
	return Problem{Field: e.What, Class: ClassError, Value: e.Value, Reason: e.Reason, Remedy: e.Remedy}.Error()
}

// Problem returns the error as a problem at a place. Code is used if the error
// has none of its own.
func (e *ValueError) Problem(code, path, field string) Problem {
	if e.Code != "" {
		code = e.Code
	}
	return Problem{
		Code: code, Class: ClassError, Path: path, Field: field,
		Value: e.Value, Reason: e.Reason, Remedy: e.Remedy,
	}
}

const shownRunes = 80

// shorten cuts a value for display and says how long it was.
func shorten(s string) string {
	if len(s) <= shownRunes || utf8.RuneCountInString(s) <= shownRunes {
		return s
	}
	n := 0
	for i := range s {
		if n == shownRunes {
			return s[:i] + "... (" + strconv.Itoa(len(s)) + " bytes)"
		}
		n++
	}
	return s
}

// Inert returns the text with every control, format and invalid character
// written as an escape, so that printing it does nothing to a terminal and hides
// nothing. Text without such characters is returned as it is. It does not escape
// HTML.
func Inert(s string) string {
	clean := true
	for _, r := range s {
		if !inertRune(r) {
			clean = false
			break
		}
	}
	if clean {
		return s
	}
	var b strings.Builder
	for i, w := 0, 0; i < len(s); i += w {
		var r rune
		r, w = utf8.DecodeRuneInString(s[i:])
		if (r == utf8.RuneError && w == 1) || !inertRune(r) {
			q := strconv.QuoteToASCII(s[i : i+w])
			b.WriteString(q[1 : len(q)-1])
			continue
		}
		b.WriteString(s[i : i+w])
	}
	return b.String()
}

// inertRune reports whether a rune may be printed as it is. U+FFFD counts as not,
// because it also stands for invalid bytes.
func inertRune(r rune) bool {
	return r != utf8.RuneError && (r == ' ' || unicode.IsPrint(r))
}
