package exercise

import (
	"fmt"
	"io"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Schema is the version of the formats read and written here.
const Schema = 1

// Limits of the texts read here.
const (
	MaxCatalogueBytes = 4 << 20
	MaxReportBytes    = 256 << 10 // of a kit, a check-in or a profile
	mostComplaints    = 100
	mostWords         = 40 // in one list of an exercise
)

// text is a JSON text on its way. What it cannot read it reports and leaves
// unset.
type text struct {
	doc  *jsonread.Document
	more []calendar.Problem
}

// open reads a text whose private fields no problem shows.
func open(r io.Reader, most int64, private ...string) *text {
	return &text{doc: jsonread.Read(r, jsonread.Options{Limits: jsonread.Limits{Bytes: most}, Private: private, Problems: season.MaxProblems})}
}

// object is the whole text; ok is false for a newer schema, of which nothing
// else is read.
func (t *text) object() (o *jsonread.Fields, ok bool) {
	o = t.doc.Root().Object()
	v := o.Optional("schema")
	if !v.Present() {
		return o, o.OK()
	}
	return o, intake.Schema(v, Schema, season.CodeSchemaNewer) && o.OK()
}

// end gives the problems: an error if there is one among them.
func (t *text) end() ([]calendar.Problem, error) {
	var out []calendar.Problem
	failed := false
	for _, p := range t.doc.Problems() {
		x := intake.Problem(p)
		if p.Line > 0 && p.Pointer == "" {
			x.Reason += fmt.Sprintf(" (line %d, column %d)", p.Line, p.Col)
		}
		out = append(out, x)
		failed = failed || x.Class == calendar.ClassError
	}
	if !failed { // what could not be read is not looked at twice
		out = append(out, t.more...)
	}
	for _, p := range out {
		if p.Class == calendar.ClassError || p.Class == calendar.ClassRefusal {
			return nil, &season.InputError{Problems: out}
		}
	}
	return out, nil
}

// words reads a list of words.
func words(v jsonread.Value, most int) []string {
	return intake.List(v, most, func(v jsonread.Value) string {
		s, _ := v.String(1, season.MaxIDRunes)
		return s
	})
}

func number(v jsonread.Value, low, high int64) int {
	if !v.Present() {
		return 0
	}
	n, _ := v.Int(low, high)
	return int(n)
}

func short(v jsonread.Value) string {
	if !v.Present() {
		return ""
	}
	s, _ := v.String(1, season.MaxIDRunes)
	return s
}

// mass reads "100 kg", "225 lb" or {"grams": 100000}. A bare number is no mass.
func mass(v jsonread.Value) load.Mass {
	switch v.Kind() {
	case jsonread.Invalid:
		return 0
	case jsonread.Object:
		o := v.Object()
		n, _ := o.Required("grams").Int(0, int64(load.MaxMass))
		o.Done()
		return load.Mass(n)
	case jsonread.Number:
		v.Report(jsonread.Error, "mass", "a load without a unit", `write it as text with its unit, such as "20 kg"`)
		return 0
	}
	var out load.Mass
	v.Text(`a load such as "20 kg" or "45 lb"`, func(s string) (err error) {
		out, err = load.ParseMass(s)
		return err
	})
	return out
}

func masses(v jsonread.Value) []load.Mass { return intake.List(v, maxKitList, mass) }

func date(v jsonread.Value) (out calendar.Date) {
	if v.Present() {
		v.Text("a date such as 2026-11-08", func(s string) (err error) {
			out, err = calendar.ParseDate(s)
			return err
		})
	}
	return out
}
