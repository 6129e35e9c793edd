// Package intake is what the packages that read requests, plans and logs share:
// values with a parser of their own, and the problems of package jsonread as those
// of package calendar.
package intake

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"time"
	"unicode"

	"example.org/weft/calendar"
	"example.org/weft/internal/jsonread"
	"example.org/weft/load"
)

// Schema reads the version of a text and reports whether it can be read. A newer
// one is one problem, of the given code: what else would be found in it may be no
// fault there.
func Schema(v jsonread.Value, newest int, code string) bool {
	n, ok := v.Int(1, math.MaxInt32)
	if ok && n > int64(newest) {
		v.Report(jsonread.Error, code, fmt.Sprintf("the text is of schema %d, this version reads up to %d", n, newest), "update the library, or write the text for the older schema")
		return false
	}
	return true
}

// Text reads a string of at most so many characters with a parser, and reports its
// error under a code. The problem of a private value says what is wanted and
// nothing of what is there.
func Text(v jsonread.Value, most int, code, want string, private bool, parse func(string) error) bool {
	s, ok := v.String(1, most)
	if !ok {
		return false
	}
	err := parse(s)
	if err == nil {
		return true
	}
	reason, remedy, known := Because(err)
	if private || !known {
		reason, remedy = "this is not "+want, "write "+want
	}
	v.Report(jsonread.Error, code, reason, remedy)
	return false
}

// List reads an array of at most so many elements; absent and empty are nil.
func List[T any](v jsonread.Value, most int, read func(jsonread.Value) T) []T {
	if !v.Present() {
		return nil
	}
	items, _ := v.Array(most)
	if len(items) == 0 {
		return nil
	}
	out := make([]T, 0, len(items))
	for _, item := range items {
		out = append(out, read(item))
	}
	return out
}

// Flag reads true or false; absent is false.
func Flag(v jsonread.Value) bool {
	if !v.Present() {
		return false
	}
	b, _ := v.Bool()
	return b
}

// Because are the parts of the error of a parser of this module: what is wrong,
// and what to do.
func Because(err error) (reason, remedy string, ok bool) {
	var v *calendar.ValueError
	var m *load.InputError
	switch {
	case errors.As(err, &v):
		return v.Reason, v.Remedy, true
	case errors.As(err, &m) && len(m.Problems) > 0:
		return m.Problems[0].Reason, m.Problems[0].Remedy, true
	}
	return "", "", false
}

// Instant reads an instant of RFC 3339. It keeps the machine's own zone, where the
// offset fits it: callers settle that.
func Instant(s string) (time.Time, *calendar.ValueError) {
	var t time.Time
	if err := t.UnmarshalText([]byte(s)); err != nil {
		bad := BadInstant(s, "this is not an instant", "write date, time and offset, such as 2026-11-08T14:00:00+01:00")
		if _, err := calendar.ParseWall(s); err == nil {
			bad.Reason = "an instant without its offset from UTC"
		}
		return time.Time{}, bad
	}
	return t, nil
}

// BadInstant is the error of an instant.
func BadInstant(s, reason, remedy string) *calendar.ValueError {
	return &calendar.ValueError{What: "instant", Value: s, Reason: reason, Remedy: remedy}
}

// Zones are those of one text: loading one takes a while, and a season names few.
type Zones map[string]calendar.Zone

// Load loads a zone once.
func (z Zones) Load(name string) (calendar.Zone, error) {
	if known, ok := z[name]; ok {
		return known, nil
	}
	zone, err := calendar.LoadZone(name)
	if err == nil {
		z[name] = zone
	}
	return zone, err
}

// Problem is a problem of a JSON text. The reader shows strings as Go writes them;
// a calendar.Problem holds them plain and quotes them when printed.
func Problem(p jsonread.Problem) calendar.Problem {
	out := calendar.Problem{Code: p.Code, Class: calendar.ClassError, Path: p.Pointer, Value: p.Value, Reason: p.Reason, Remedy: p.Remedy}
	if p.Class == jsonread.Warning {
		out.Class = calendar.ClassWarning
	}
	if s, err := strconv.Unquote(p.Value); err == nil {
		out.Value = s
	} else if s, err := strconv.Unquote(`"` + p.Value + `"`); err == nil {
		out.Value = s
	}
	return out
}

// Rank orders classes as lists of problems have them: errors, refusals, questions,
// warnings. Errors and refusals, 0 and 1, stop an input.
func Rank(c calendar.Class) int {
	switch c {
	case calendar.ClassError:
		return 0
	case calendar.ClassRefusal:
		return 1
	case calendar.ClassQuestion:
		return 2
	}
	return 3
}

// Controls reports characters that have no business in a name. Tabs and line ends
// may be meant.
func Controls(r rune) bool {
	return r != '\t' && r != '\n' && r != '\r' && (unicode.IsControl(r) || r >= 0x202A && r <= 0x202E ||
		r >= 0x2066 && r <= 0x2069 || r == 0x2028 || r == 0x2029 || r == 0xFEFF)
}
