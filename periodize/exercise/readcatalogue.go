package exercise

import (
	"bytes"
	"encoding/json"
	"io"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
)

// ReadCatalogue reads a catalogue as JSON:
//
//	{"schema": 1, "builtIn": true, "exercises": [
//	  {"id": "sled-push", "name": "Sled push", "pattern": "single-leg", "role": "accessory", "load": "untracked",
//	    "kit": ["sled", "corridor"], "tissues": ["quadriceps", "calf"], "seconds": 20, "hold": true,
//	    "easier": [], "harder": [], "gentle": [], "skill": 0, "impact": 0, "reps": 0,
//	    "sided": false, "apart": false, "eccentric": false, "heavy": false}]}
//
// Required are id, name, pattern, role, load and seconds. With builtIn the
// exercises are added to the built-in ones, and one of an id that is there takes
// its place; without it they are all there is. A text of at most
// MaxCatalogueBytes and MaxExercises exercises is read. The error is a
// *season.InputError with every problem; without one, the problems are warnings.
func ReadCatalogue(r io.Reader) (Catalogue, []calendar.Problem, error) {
	t := open(r, MaxCatalogueBytes)
	var c Catalogue
	if o, ok := t.object(); ok {
		keep := intake.Flag(o.Optional("builtIn"))
		list := intake.List(o.Required("exercises"), MaxExercises, exerciseOf)
		o.Done()
		if t.doc.OK() {
			var problems []calendar.Problem
			if c, problems = catalogueOf(list, keep); len(problems) > 0 {
				t.more = append(t.more, problems...)
			}
		}
	}
	problems, err := t.end()
	if err != nil {
		return Catalogue{}, nil, err
	}
	return c, problems, nil
}

// catalogueOf checks the exercises that were read by the places they have in the
// text.
func catalogueOf(list []Exercise, keep bool) (Catalogue, []calendar.Problem) {
	all := list
	if keep {
		at := map[string]bool{}
		for _, x := range list {
			at[x.ID] = true
		}
		for _, x := range (Catalogue{}).All() {
			if !at[x.ID] {
				all = append(all[:len(all):len(all)], x)
			}
		}
	}
	if problems := check(all); len(problems) > 0 {
		return Catalogue{}, problems
	}
	if !keep {
		return Catalogue{compile(all)}, nil
	}
	c, err := Catalogue{}.With(list...)
	if err != nil {
		return Catalogue{}, []calendar.Problem{{Code: "catalogue-size", Class: calendar.ClassError, Path: "/exercises", Reason: err.Error(), Remedy: "give fewer"}}
	}
	return c, nil
}

func exerciseOf(v jsonread.Value) Exercise {
	o := v.Object()
	x := Exercise{ID: short(o.Required("id")), Name: short(o.Required("name")), Pattern: Pattern(short(o.Required("pattern"))), Role: Role(short(o.Required("role"))),
		Load: Implement(short(o.Required("load"))), Sided: intake.Flag(o.Optional("sided")), Apart: intake.Flag(o.Optional("apart")), Kit: words(o.Optional("kit"), mostWords),
		Skill: number(o.Optional("skill"), -wide, wide), Eccentric: intake.Flag(o.Optional("eccentric")), Impact: number(o.Optional("impact"), -wide, wide),
		Heavy: intake.Flag(o.Optional("heavy")), Easier: words(o.Optional("easier"), mostWords), Harder: words(o.Optional("harder"), mostWords),
		Seconds: number(o.Required("seconds"), -wide, wide), Hold: intake.Flag(o.Optional("hold")), Reps: number(o.Optional("reps"), -wide, wide)}
	tissue := func(name string) (out []Tissue) {
		for _, w := range words(o.Optional(name), mostWords) {
			out = append(out, Tissue(w))
		}
		return out
	}
	x.Tissues, x.Gentle = tissue("tissues"), tissue("gentle")
	o.Done()
	return x
}

type wireExercise struct {
	ID        string    `json:"id"`
	Name      string    `json:"name"`
	Pattern   Pattern   `json:"pattern"`
	Role      Role      `json:"role"`
	Load      Implement `json:"load"`
	Sided     bool      `json:"sided,omitempty"`
	Apart     bool      `json:"apart,omitempty"`
	Kit       []string  `json:"kit,omitempty"`
	Tissues   []Tissue  `json:"tissues,omitempty"`
	Gentle    []Tissue  `json:"gentle,omitempty"`
	Skill     int       `json:"skill,omitempty"`
	Eccentric bool      `json:"eccentric,omitempty"`
	Impact    int       `json:"impact,omitempty"`
	Heavy     bool      `json:"heavy,omitempty"`
	Easier    []string  `json:"easier,omitempty"`
	Harder    []string  `json:"harder,omitempty"`
	Seconds   int       `json:"seconds"`
	Hold      bool      `json:"hold,omitempty"`
	Reps      int       `json:"reps,omitempty"`
}

// MarshalJSON writes what ReadCatalogue reads: all exercises, also built-in ones,
// so that the text means the same in a later version.
func (c Catalogue) MarshalJSON() ([]byte, error) {
	w := struct {
		Schema    int            `json:"schema"`
		Exercises []wireExercise `json:"exercises"`
	}{Schema: Schema}
	for _, x := range c.All() {
		w.Exercises = append(w.Exercises, wireExercise{ID: x.ID, Name: x.Name, Pattern: x.Pattern, Role: x.Role, Load: x.Load, Sided: x.Sided, Apart: x.Apart,
			Kit: x.Kit, Tissues: x.Tissues, Gentle: x.Gentle, Skill: x.Skill, Eccentric: x.Eccentric, Impact: x.Impact, Heavy: x.Heavy,
			Easier: x.Easier, Harder: x.Harder, Seconds: x.Seconds, Hold: x.Hold, Reps: x.Reps})
	}
	return json.Marshal(w)
}

// UnmarshalJSON reads what ReadCatalogue reads.
func (c *Catalogue) UnmarshalJSON(b []byte) error {
	got, _, err := ReadCatalogue(bytes.NewReader(b))
	if err != nil {
		return err
	}
	*c = got
	return nil
}
