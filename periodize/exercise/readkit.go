package exercise

import (
	"bytes"
	"encoding/json"
	"io"
	"strconv"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// ReadKit reads kit as JSON: a list of lines as [Catalogue.ParseKit] reads them,
// or an object
//
//	{"schema": 1, "words": ["rack", "bench"], "bar": "20 kg", "trapBar": "25 kg",
//	  "discs": [{"mass": "20 kg", "pairs": 2}, {"mass": "5 kg"}], "dumbbells": ["4 kg", "6 kg"],
//	  "kettlebells": [], "stack": [], "balls": [], "bands": []}
//
// in which nothing is required; discs without pairs are plenty. Loads have their
// unit. A text of at most MaxReportBytes is read. The error is a
// *season.InputError with every problem; without one, the problems are warnings:
// among them an empty kit, which is nothing but a floor.
func (c Catalogue) ReadKit(r io.Reader) (Kit, []calendar.Problem, error) {
	t := open(r, MaxReportBytes)
	k := t.kit(c, t.doc.Root(), "")
	problems, err := t.end()
	if err != nil {
		return Kit{}, nil, err
	}
	return k, problems, nil
}

// kit reads a value whose path is at.
func (t *text) kit(c Catalogue, v jsonread.Value, at string) Kit {
	if !v.Present() {
		return Kit{}
	}
	before := len(t.more)
	var k Kit
	if v.Kind() == jsonread.Array {
		lines := words(v, maxKitList)
		if !t.doc.OK() {
			return Kit{}
		}
		parsed, problems := c.ParseKit(lines)
		for i := range problems {
			problems[i].Path = at + problems[i].Path[len("/kit"):]
		}
		t.more = append(t.more, problems...)
		k = parsed
	} else {
		o, ok := v.Object(), true
		if at == "" {
			o, ok = t.object()
		}
		if !ok {
			return Kit{}
		}
		k = kitOf(o)
		o.Done()
		t.more = append(t.more, k.problems(at)...)
		for i, w := range k.Words {
			if p, bad := c.kitWord(w); bad {
				p.Path = at + "/words/" + strconv.Itoa(i)
				t.more = append(t.more, p)
			}
		}
	}
	if k.empty() && len(t.more) == before {
		t.more = append(t.more, calendar.Problem{Code: "kit-empty", Class: calendar.ClassWarning, Path: at,
			Reason: "there is nothing but a floor: own weight only", Remedy: `name what is there, or "gym" for an ordinary one`})
	}
	return k
}

func kitOf(o *jsonread.Fields) Kit {
	k := Kit{Words: words(o.Optional("words"), maxKitList), Bar: mass(o.Optional("bar")), TrapBar: mass(o.Optional("trapBar"))}
	k.Discs = intake.List(o.Optional("discs"), maxKitList, func(v jsonread.Value) load.Disc {
		d := v.Object()
		x := load.Disc{Mass: mass(d.Required("mass")), Pairs: load.Plenty}
		if p := d.Optional("pairs"); p.Present() {
			x.Pairs = number(p, 1, 1000)
		}
		d.Done()
		return x
	})
	k.Dumbbells, k.Kettlebells = masses(o.Optional("dumbbells")), masses(o.Optional("kettlebells"))
	k.Stack, k.Balls, k.Bands = masses(o.Optional("stack")), masses(o.Optional("balls")), masses(o.Optional("bands"))
	return k
}

func (k *Kit) empty() bool {
	return len(k.Words)+len(k.Dumbbells)+len(k.Kettlebells)+len(k.Stack)+len(k.Balls)+len(k.Bands) == 0 && k.Bar == 0 && k.TrapBar == 0
}

type wireDisc struct {
	Mass  string `json:"mass"`
	Pairs int    `json:"pairs,omitempty"`
}

type wireKit struct {
	Schema      int        `json:"schema,omitempty"`
	Words       []string   `json:"words,omitempty"`
	Bar         string     `json:"bar,omitempty"`
	TrapBar     string     `json:"trapBar,omitempty"`
	Discs       []wireDisc `json:"discs,omitempty"`
	Dumbbells   []string   `json:"dumbbells,omitempty"`
	Kettlebells []string   `json:"kettlebells,omitempty"`
	Stack       []string   `json:"stack,omitempty"`
	Balls       []string   `json:"balls,omitempty"`
	Bands       []string   `json:"bands,omitempty"`
}

func wireMass(m load.Mass) string {
	if m == 0 {
		return ""
	}
	return m.String()
}

func wireMasses(list []load.Mass) (out []string) {
	for _, m := range list {
		out = append(out, m.String())
	}
	return out
}

func (k Kit) wire() wireKit {
	w := wireKit{Words: k.Words, Bar: wireMass(k.Bar), TrapBar: wireMass(k.TrapBar), Dumbbells: wireMasses(k.Dumbbells),
		Kettlebells: wireMasses(k.Kettlebells), Stack: wireMasses(k.Stack), Balls: wireMasses(k.Balls), Bands: wireMasses(k.Bands)}
	for _, d := range k.Discs {
		x := wireDisc{Mass: d.Mass.String(), Pairs: d.Pairs}
		if d.Pairs == load.Plenty {
			x.Pairs = 0
		}
		w.Discs = append(w.Discs, x)
	}
	return w
}

// MarshalJSON writes what ReadKit reads.
func (k Kit) MarshalJSON() ([]byte, error) {
	if problems := k.problems(""); len(problems) > 0 {
		return nil, &season.InputError{Problems: problems}
	}
	w := k.wire()
	w.Schema = Schema
	return json.Marshal(w)
}

// UnmarshalJSON reads what [Catalogue.ReadKit] of the built-in catalogue reads.
func (k *Kit) UnmarshalJSON(b []byte) error {
	got, _, err := Catalogue{}.ReadKit(bytes.NewReader(b))
	if err != nil {
		return err
	}
	*k = got
	return nil
}
