// Package codebook keeps the note codes of a package and makes its notes.
package codebook

import (
	"slices"
	"strings"

	"example.org/weft/internal/blanks"
	"example.org/weft/periodize/season"
)

// Book holds codes by name. It is filled once and only read after that.
type Book map[string]season.NoteCode

// Add enters a code. Its parameters are read off the text.
func (b Book) Add(class season.NoteClass, code, text string) {
	b[code] = season.NoteCode{Code: code, Class: class, Params: blanks.Names(text), Text: text}
}

// Codes returns copies of all codes, sorted.
func (b Book) Codes() []season.NoteCode {
	out := make([]season.NoteCode, 0, len(b))
	for _, c := range b {
		c.Params = slices.Clone(c.Params)
		out = append(out, c)
	}
	slices.SortFunc(out, func(x, y season.NoteCode) int { return strings.Compare(x.Code, y.Code) })
	return out
}

// Note makes a note of a code. kv are names and values in turn: whole numbers,
// texts, and what has a text of its own, such as dates and masses.
func (b Book) Note(code string, kv ...any) season.Note {
	c := b[code]
	n := season.Note{Code: code, Class: c.Class, Text: c.Text}
	if len(kv) < 2 {
		return n
	}
	n.Values = make(season.Values, len(kv)/2)
	for i := 0; i+1 < len(kv); i += 2 {
		name, _ := kv[i].(string)
		switch x := kv[i+1].(type) {
		case int:
			n.Values[name] = season.Int(int64(x))
		case string:
			n.Values[name] = season.Str(x)
		case interface{ String() string }:
			n.Values[name] = season.Str(x.String())
		}
	}
	n.Text = blanks.Fill(c.Text, func(name string) (string, bool) {
		v, ok := n.Values[name]
		return v.String(), ok
	})
	return n
}
