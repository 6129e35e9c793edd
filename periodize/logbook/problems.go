package logbook

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/periodize/season"
)

// Codes of the problems of a log. Those of a JSON text itself, such as "syntax",
// are package season's; see season.ProblemCodes.
const (
	CodeKind          = "kind"          // no such kind of entry
	CodeChoice        = "choice"        // not one of the allowed words
	CodeMissing       = "missing"       // not given
	CodeRange         = "range"         // a number out of range
	CodeNumber        = "number"        // not a number as wanted
	CodeLength        = "length"        // a text too long
	CodeEncoding      = "encoding"      // not UTF-8
	CodeControl       = "control"       // warning: a character that steers a terminal
	CodeMass          = "mass"          // not a mass with a unit
	CodeDate          = "date"          // not a date
	CodeClock         = "clock"         // not a time of day
	CodeWall          = "wall"          // not a wall time
	CodeInstant       = "instant"       // not an instant with an offset
	CodeZone          = "zone"          // missing, unknown or no place
	CodeTimeSkipped   = "time-skipped"  // the clock jumps over it
	CodeTimeDoubled   = "time-doubled"  // question: the first of two is used
	CodeEnd           = "end"           // at or before the start, or more than 12 h after it
	CodeFuture        = "future"        // it happens after it was told, or was told after now
	CodeContradiction = "contradiction" // two statements that cannot both hold
	CodeIDTwice       = "id-twice"      // question: one id, different content
	CodeRepeated      = "repeated"      // warning: the same entry again, used once
	CodeLimit         = "limit"         // more than a limit allows
	CodeSchemaNewer   = "schema-newer"  // written for a later version
	CodeSchemaMissing = "schema-missing"
	CodeTable         = "table"          // a row that cannot be taken apart
	CodeColumn        = "column"         // a column missing, twice or unknown
	CodeSetOf         = "set-of"         // a set of no session of the table
	CodeUnused        = "column-unused"  // warning: a cell that says nothing about this kind
	CodeMore          = "more"           // counts the problems not listed
	CodeReserve       = "reserve-effort" // question: reserve and rating differ
)

// hidden stands for a value of health that no problem may show.
const hidden = "(private)"

// report takes a problem of a field of one entry, such as "sets/2/load".
type report func(class calendar.Class, code, field, value, reason, remedy string)

// finder collects problems up to a limit.
type finder struct {
	list  []found
	line  int // of the entry at hand, by which problems are listed
	more  int
	fatal int // errors and refusals, listed or not
}

type found struct {
	calendar.Problem
	line int
}

func (f *finder) put(p calendar.Problem) {
	if intake.Rank(p.Class) <= 1 {
		f.fatal++
	}
	if len(f.list) >= 2*maxProblems && intake.Rank(p.Class) > 1 || len(f.list) >= 4*maxProblems {
		f.more++
		return
	}
	f.list = append(f.list, found{p, f.line})
}

func (f *finder) err(code, path, value, reason, remedy string) {
	f.put(calendar.Problem{Code: code, Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy})
}

func (f *finder) warn(code, path, value, reason, remedy string) {
	f.put(calendar.Problem{Code: code, Class: calendar.ClassWarning, Path: path, Value: value, Reason: reason, Remedy: remedy})
}

func (f *finder) ask(code, path, value, reason, remedy string) {
	f.put(calendar.Problem{Code: code, Class: calendar.ClassQuestion, Path: path, Value: value, Reason: reason, Remedy: remedy})
}

// problems returns the list, errors first, then refusals, questions, warnings.
func (f *finder) problems() []calendar.Problem {
	list := slices.Clone(f.list)
	slices.SortStableFunc(list, func(a, b found) int {
		return cmp.Or(cmp.Compare(intake.Rank(a.Class), intake.Rank(b.Class)), cmp.Compare(a.line, b.line))
	})
	var out []calendar.Problem
	for _, p := range list {
		out = append(out, p.Problem)
	}
	more := f.more
	if len(out) > maxProblems {
		more += len(out) - maxProblems
		out = out[:maxProblems]
	}
	if more > 0 {
		class := calendar.ClassWarning
		if f.fatal > 0 {
			class = calendar.ClassError
		}
		out = append(out, calendar.Problem{Code: CodeMore, Class: class,
			Reason: fmt.Sprintf("and %d more problems", more), Remedy: "mend the listed ones first"})
	}
	return out
}

// failed returns the error of an input with at least one error or refusal.
func (f *finder) failed() error {
	if f.fatal == 0 {
		return nil
	}
	return &season.InputError{Problems: f.problems()}
}

// parts of an error of a parser: what is wrong, and what to do.
func because(err error) (reason, remedy string) {
	if reason, remedy, ok := intake.Because(err); ok {
		return reason, remedy
	}
	return err.Error(), "check the value"
}

func words[T ~string](list []T) []string {
	out := make([]string, len(list))
	for i, w := range list {
		out[i] = string(w)
	}
	return out
}

// oneOf is the remedy for a word that is not among the allowed ones.
func oneOf(word string, allowed []string) string {
	remedy := "use one of: " + strings.Join(allowed, ", ")
	if near, ok := calendar.Nearest(word, allowed); ok {
		remedy = "did you mean " + near + "? It is one of: " + strings.Join(allowed, ", ")
	}
	return remedy
}
