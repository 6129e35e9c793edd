package season

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/blanks"
)

// NoteClass says what a note is for.
type NoteClass string

// The classes of note.
const (
	Why      NoteClass = "why"
	Finding  NoteClass = "finding"
	Question NoteClass = "question"
	Warning  NoteClass = "warning"
	Refusal  NoteClass = "refusal"
)

// Note is one thing a plan says. Code and Values carry it; Text is one English
// rendering, so that a program can write its own language.
type Note struct {
	Code    string    `json:"code"`
	Class   NoteClass `json:"class"`
	Rule    string    `json:"rule,omitempty"`
	Subject Subject   `json:"subject"`
	Values  Values    `json:"values,omitempty"`
	Text    string    `json:"text"`
}

// Subject says what a note is about.
type Subject struct {
	Session string          `json:"session,omitempty"`
	Event   string          `json:"event,omitempty"`
	Dates   []calendar.Date `json:"dates,omitempty"`
}

// Value is a parameter of a note: a whole number or a text.
type Value struct {
	Text   string
	Number int64
	IsText bool
}

// Int returns a number.
func Int(n int64) Value { return Value{Number: n} }

// Str returns a text. Control characters in it are made inert.
func Str(s string) Value { return Value{Text: calendar.Inert(s), IsText: true} }

// String returns the value as it is printed: control characters are inert, also
// those of a value that did not come from Str.
func (v Value) String() string {
	if v.IsText {
		return calendar.Inert(v.Text)
	}
	return strconv.FormatInt(v.Number, 10)
}

// MarshalJSON writes a JSON number or string.
func (v Value) MarshalJSON() ([]byte, error) {
	if v.IsText {
		return json.Marshal(v.Text)
	}
	return strconv.AppendInt(nil, v.Number, 10), nil
}

// UnmarshalJSON reads a whole number or a string.
func (v *Value) UnmarshalJSON(b []byte) error {
	if len(b) > 0 && b[0] == '"' {
		v.IsText, v.Number = true, 0
		return json.Unmarshal(b, &v.Text)
	}
	n, err := strconv.ParseInt(string(b), 10, 64)
	if err != nil {
		return fmt.Errorf("season: note value %q is neither a whole number nor a text", string(b))
	}
	*v = Value{Number: n}
	return nil
}

// Values are the parameters of a note by name.
type Values map[string]Value

// NoteCode describes a code: its class, its parameters and the English text, in
// which {name} stands for a parameter.
type NoteCode struct {
	Code   string
	Class  NoteClass
	Params []string
	Text   string
}

// NewNote makes a note of a known code and renders its text. Unknown codes and
// missing parameters are faults of the caller and show in the text.
func NewNote(code string, subject Subject, rule string, values Values) Note {
	c, ok := codes[code]
	if !ok {
		return Note{Code: code, Class: Warning, Rule: rule, Subject: subject, Values: values, Text: "unknown code " + code}
	}
	return Note{Code: code, Class: c.Class, Rule: rule, Subject: subject, Values: values, Text: render(c.Text, values)}
}

func render(text string, values Values) string {
	return blanks.Fill(text, func(name string) (string, bool) {
		v, ok := values[name]
		return v.String(), ok
	})
}

// Codes returns every note code, sorted.
func Codes() []NoteCode {
	out := make([]NoteCode, 0, len(codes))
	for _, c := range codes {
		c.Params = slices.Clone(c.Params)
		out = append(out, c)
	}
	slices.SortFunc(out, func(a, b NoteCode) int { return strings.Compare(a.Code, b.Code) })
	return out
}
