package logbook

import (
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// codes lists every note of this package. Parameters are read off the text.
var codes = func() map[string]season.NoteCode {
	out := map[string]season.NoteCode{}
	add := func(class season.NoteClass, code, text string) {
		c := season.NoteCode{Code: code, Class: class, Text: text}
		for _, part := range strings.Split(text, "{")[1:] {
			name, _, _ := strings.Cut(part, "}")
			c.Params = append(c.Params, name)
		}
		out[code] = c
	}
	add(season.Question, "question-clash", "two things are told under the id {id}: neither counts; which is right?")
	add(season.Question, "question-corrections", "the corrections of {id} disagree, or go in a circle: none counts; which is right?")
	add(season.Question, "question-twice", "two entries tell different things of the planned session {planned}: neither counts; which is right?")
	add(season.Question, "question-unlogged", "nothing is told of {kind} on {date}: did it happen?")
	add(season.Warning, "log-target", "the entry {id} is about {of}, which is not in the log")
	return out
}()

// Codes returns every note code of this package, sorted.
func Codes() []season.NoteCode {
	out := make([]season.NoteCode, 0, len(codes))
	for _, c := range codes {
		c.Params = slices.Clone(c.Params)
		out = append(out, c)
	}
	slices.SortFunc(out, func(a, b season.NoteCode) int { return strings.Compare(a.Code, b.Code) })
	return out
}

// note makes a note of a code. kv are names and values in turn.
func note(code string, kv ...any) season.Note {
	c := codes[code]
	n := season.Note{Code: code, Class: c.Class, Text: c.Text}
	var pairs []string
	for i := 0; i+1 < len(kv); i += 2 {
		if n.Values == nil {
			n.Values = season.Values{}
		}
		name, _ := kv[i].(string)
		var v season.Value
		switch x := kv[i+1].(type) {
		case int:
			v = season.Int(int64(x))
		case string:
			v = season.Str(x)
		case calendar.Date:
			v = season.Str(x.String())
		case interface{ String() string }:
			v = season.Str(x.String())
		}
		n.Values[name] = v
		pairs = append(pairs, "{"+name+"}", v.String())
	}
	n.Text = strings.NewReplacer(pairs...).Replace(n.Text)
	return n
}
