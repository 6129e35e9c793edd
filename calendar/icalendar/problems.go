package icalendar

import (
	"fmt"
	"slices"
	"strconv"

	"example.org/weft/calendar"
)

// Codes of the problems that Read reports.
const (
	CodeNotCalendar  = "file-not-calendar"
	CodeTruncated    = "file-truncated"
	CodeLimit        = "limit"
	CodeEncoding     = "encoding"
	CodeControl      = "control-characters"
	CodeStructure    = "structure"
	CodeLine         = "line-malformed"
	CodeRawLine      = "line-joined"
	CodeValue        = "value"
	CodeTwice        = "property-twice"
	CodeMissing      = "property-missing"
	CodeZoneMissing  = "zone-missing"
	CodeZoneUnknown  = "zone-unknown"
	CodeZoneInvalid  = "zone-invalid"
	CodeZoneAssumed  = "zone-assumed"
	CodeTimeSkipped  = "time-skipped"
	CodeTimeDoubled  = "time-doubled"
	CodeEnd          = "end"
	CodeRule         = "rule"
	CodeRuleEndless  = "rule-endless"
	CodeRuleStart    = "rule-start"
	CodeOverride     = "override"
	CodeDuplicate    = "duplicate"
	CodeEmpty        = "empty"
	CodeMoreProblems = "more-problems"
	CodeOptions      = "options"
	CodeKind         = "kind-assumed"
)

// report collects problems by line, up to a limit of each class.
type report struct {
	name  string
	limit int
	list  []lineProblem
	count map[calendar.Class]int
	more  map[calendar.Class]int // line of the first one that is not in the list
}

type lineProblem struct {
	line int
	calendar.Problem
}

func (r *report) add(class calendar.Class, code string, line int, field, value, reason, remedy string) {
	if r.count == nil {
		r.count, r.more = map[calendar.Class]int{}, map[calendar.Class]int{}
	}
	if r.count[class]++; r.count[class] > r.limit {
		if n, ok := r.more[class]; !ok || line < n {
			r.more[class] = line
		}
		return
	}
	r.list = append(r.list, lineProblem{line, calendar.Problem{
		Code: code, Class: class, Path: r.path(line), Field: field,
		Value: clip(value), Reason: reason, Remedy: remedy,
	}})
}

// path names a line; line 0 is the calendar as a whole.
func (r *report) path(line int) string {
	if line == 0 {
		return r.name
	}
	return r.name + ":" + strconv.Itoa(line)
}

func (r *report) fail(code string, line int, field, value, reason, remedy string) {
	r.add(calendar.ClassError, code, line, field, value, reason, remedy)
}

// ask reports what is read on a named assumption.
func (r *report) ask(code string, line int, field, value, reason, remedy string) {
	r.add(calendar.ClassQuestion, code, line, field, value, reason, remedy)
}

func (r *report) warn(code string, line int, field, value, reason, remedy string) {
	r.add(calendar.ClassWarning, code, line, field, value, reason, remedy)
}

func (r *report) failed() bool { return r.count[calendar.ClassError] > 0 }

// done returns the problems by line, with a last word on those left out.
func (r *report) done() []calendar.Problem {
	slices.SortStableFunc(r.list, func(a, b lineProblem) int { return a.line - b.line })
	var out []calendar.Problem
	for _, p := range r.list {
		out = append(out, p.Problem)
	}
	for _, c := range []calendar.Class{calendar.ClassError, calendar.ClassQuestion, calendar.ClassWarning} {
		if n := r.count[c] - r.limit; n > 0 {
			out = append(out, calendar.Problem{
				Code: CodeMoreProblems, Class: c, Path: r.path(r.more[c]),
				Reason: fmt.Sprintf("%d more problems of this class are not listed, the first of them on this line", n),
				Remedy: "mend the listed ones first",
			})
		}
	}
	return out
}
