package season

import (
	"errors"
	"fmt"
	"sort"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
)

// ErrInput is what errors.Is finds in every error about an input.
var ErrInput = errors.New("season: bad input")

// InputError lists every problem of an input, errors first, then refusals,
// questions and warnings; within a class in the order in which they were found.
type InputError struct {
	Problems []calendar.Problem
}

// Error gives one line a problem.
func (e *InputError) Error() string {
	lines := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns ErrInput.
func (e *InputError) Unwrap() error { return ErrInput }

// hidden stands for a value that no problem may show.
const hidden = "(private)"

// finder collects problems.
type finder struct {
	list  []calendar.Problem
	count [2]int          // errors, others
	kept  [2]int          //
	bad   map[string]bool // paths, in small letters, whose value or name was reported by the reader
}

// unread reports whether the value of a path, or one that holds it, was reported
// by the reader already.
func (f *finder) unread(path string) bool {
	if len(f.bad) == 0 {
		return false
	}
	for path = strings.ToLower(path); path != ""; {
		if f.bad[path] {
			return true
		}
		path = path[:strings.LastIndexByte(path, '/')]
	}
	return false
}

func (f *finder) add(class calendar.Class, code, path, value, reason, remedy string) {
	if f.unread(path) {
		return
	}
	f.put(calendar.Problem{Code: code, Class: class, Path: path, Value: value, Reason: reason, Remedy: remedy})
}

func (f *finder) put(p calendar.Problem) {
	side := min(intake.Rank(p.Class), 1)
	f.count[side]++
	if f.kept[side] < MaxProblems {
		f.kept[side]++
		f.list = append(f.list, p)
	}
}

func (f *finder) err(code, path, value, reason, remedy string) {
	f.add(calendar.ClassError, code, path, value, reason, remedy)
}

func (f *finder) ask(code, path, value, reason, remedy string) {
	f.add(calendar.ClassQuestion, code, path, value, reason, remedy)
}

func (f *finder) warn(code, path, value, reason, remedy string) {
	f.add(calendar.ClassWarning, code, path, value, reason, remedy)
}

// value reports a *calendar.ValueError at a path.
func (f *finder) value(code, path string, err error) {
	var v *calendar.ValueError
	if errors.As(err, &v) {
		f.err(code, path, v.Value, v.Reason, v.Remedy)
		return
	}
	f.err(code, path, "", err.Error(), "check the value")
}

// problems returns the list, errors first.
func (f *finder) problems() []calendar.Problem {
	out := append([]calendar.Problem(nil), f.list...)
	sort.SliceStable(out, func(i, j int) bool { return intake.Rank(out[i].Class) < intake.Rank(out[j].Class) })
	if len(out) > MaxProblems {
		out = out[:MaxProblems]
	}
	if rest := f.count[0] + f.count[1] - len(out); rest > 0 {
		out = append(out, calendar.Problem{
			Code: CodeMore, Class: calendar.ClassWarning,
			Reason: fmt.Sprintf("and %d more problems, %d errors in all", rest, f.count[0]), Remedy: "mend the listed ones first",
		})
	}
	return out
}

// failed returns the error of an input with at least one error or refusal.
func failed(list []calendar.Problem) error {
	for _, p := range list {
		if intake.Rank(p.Class) <= 1 {
			return &InputError{Problems: list}
		}
	}
	return nil
}

// take adds what the JSON reader found, and remembers the paths it could not
// read, so that nothing is reported twice.
func (f *finder) take(doc *jsonread.Document) {
	for _, p := range doc.Problems() {
		if p.Code == jsonread.CodeMore {
			errs, warns := doc.Counts()
			f.count[0] += errs - f.kept[0]
			f.count[1] += warns - f.kept[1]
			continue
		}
		out := intake.Problem(p)
		switch p.Code {
		case jsonread.CodeSyntax, jsonread.CodeTrailing, jsonread.CodeEncoding, jsonread.CodeDuplicate,
			jsonread.CodeSurrogate, jsonread.CodeNUL, jsonread.CodeTooDeep, jsonread.CodeTooLong, jsonread.CodeEmpty:
			out.Reason += fmt.Sprintf(" (line %d, column %d)", p.Line, p.Col)
		}
		f.put(out)
		if p.Code == jsonread.CodeControl {
			f.mark(p.Pointer + controlMark)
		}
		if out.Class == calendar.ClassError {
			f.mark(p.Pointer)
		}
	}
}

// controlMark, behind a path, marks a text whose control characters the reader
// reported.
const controlMark = "\x00control"

func (f *finder) mark(path string) {
	if f.bad == nil {
		f.bad = map[string]bool{}
	}
	f.bad[strings.ToLower(path)] = true
}

// at writes a JSON pointer; names here hold no character that needs an escape.
func at(parts ...any) string {
	var b strings.Builder
	for _, p := range parts {
		b.WriteByte('/')
		switch p := p.(type) {
		case int:
			b.WriteString(strconv.Itoa(p))
		case string:
			b.WriteString(p)
		}
	}
	return b.String()
}
