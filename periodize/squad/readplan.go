package squad

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/periodize/season"
)

// ReadPlan reads a plan of a squad that was written as JSON and handed back. Such a
// plan is not trusted: each athlete's is checked as season.ReadPlan does, and the
// rest by schema, limits, ids, dates, instants and words. The error is a
// *season.InputError with every problem. Unknown fields are passed over.
//
// Instants keep the offset in which they are written.
func ReadPlan(r io.Reader) (*Plan, error) {
	d := newDecoder(r, season.Limits{}, false)
	root := d.doc.Root()
	c := &checker{}
	var p Plan
	if d.schema(root, nil) {
		p = d.plan(root)
	}
	c.take(d)
	c.list = append(c.list, d.inner...)
	if list := c.problems(); stops(list) {
		return nil, &season.InputError{Problems: list}
	}
	return &p, nil
}

// UnmarshalJSON reads what ReadPlan reads.
func (p *Plan) UnmarshalJSON(b []byte) error {
	q, err := ReadPlan(strings.NewReader(string(b)))
	if err != nil {
		return err
	}
	*p = *q
	return nil
}

func (d *decoder) plan(v jsonread.Value) Plan {
	o := v.Object()
	p := Plan{Schema: d.count(o.Required("schema")), Engine: d.count(o.Optional("engine")), Period: d.period(o.Required("period")),
		Now: d.instant(o.Required("now")), Points: d.points(o.Optional("points")), Bound: d.points(o.Optional("bound")),
		Gap: d.points(o.Optional("gap")), Alone: d.points(o.Optional("alone")), Mixed: d.count(o.Optional("mixed"))}
	d.text(o.Required("zone"), season.CodeZone, "a zone such as Europe/Berlin", func(s string) error {
		p.Zone = s
		_, err := d.zones.Load(s)
		return err
	})
	proof, _ := o.Required("proof").Enum(string(season.Proved), string(season.Bounded))
	p.Proof = season.Proof(proof)
	p.Athletes = intake.List(o.Required("athletes"), MaxAthletes, d.athletePlan)
	d.once(o.Optional("athletes"), p.Athletes)
	p.Slots = intake.List(o.Optional("slots"), MaxSlots, d.slot)
	p.LeftOut = intake.List(o.Optional("leftOut"), season.MaxNotes, d.leftOut)
	p.Moved = intake.List(o.Optional("moved"), MaxAthletes, d.slip)
	if f := o.Optional("findings"); f.Present() {
		p.Findings = d.parts("findings", f).Findings
	}
	p.Assumed = intake.List(o.Optional("assumed"), season.MaxNotes, d.problem)
	if w := o.Optional("work"); w.Present() {
		wo := w.Object()
		p.Work = Work{Nodes: d.count(wo.Optional("nodes")), Rounds: d.count(wo.Optional("rounds")), Columns: d.count(wo.Optional("columns"))}
	}
	return p
}

// once reports athletes that have two plans.
func (d *decoder) once(v jsonread.Value, list []AthletePlan) {
	seen := map[string]int{}
	for i := range list {
		id := list[i].Athlete
		if j, ok := seen[id]; ok && id != "" {
			d.inner = append(d.inner, calendar.Problem{Code: CodeTwice, Class: calendar.ClassError, Path: fmt.Sprintf("%s/%d/athlete", v.Pointer(), i), Value: id,
				Reason: fmt.Sprintf("athlete %d has the same id", j), Remedy: "hand back a plan as it was written"})
		}
		seen[id] = i
	}
}

func (d *decoder) athletePlan(v jsonread.Value) AthletePlan {
	o := v.Object()
	a := AthletePlan{Athlete: d.id(o.Required("athlete")), Line: d.count(o.Optional("line")), Alone: d.points(o.Optional("alone"))}
	if p := o.Required("plan"); p.Present() {
		a.Plan = d.seasonPlan(p)
	}
	return a
}

func (d *decoder) slot(v jsonread.Value) Slot {
	o := v.Object()
	s := Slot{Hall: d.id(o.Required("hall")), Date: d.date(o.Required("date")), Start: d.instant(o.Required("start")), End: d.instant(o.Required("end")),
		Capacity: d.count(o.Required("capacity")), Coaches: -1}
	if c := o.Optional("coaches"); c.Present() {
		n, _ := c.Int(-1, mostCount)
		s.Coaches = int(n)
	}
	s.Kinds = intake.List(o.Optional("kinds"), len(season.Kinds()), d.kind)
	s.Seats = intake.List(o.Optional("seats"), MaxAthletes, func(v jsonread.Value) Seat {
		o := v.Object()
		return Seat{Athlete: d.id(o.Required("athlete")), Session: d.id(o.Required("session")), Kind: d.kind(o.Required("kind"))}
	})
	return s
}

func (d *decoder) leftOut(v jsonread.Value) LeftOut {
	o := v.Object()
	x := LeftOut{Athlete: d.id(o.Required("athlete")), Date: d.date(o.Required("date")), Kind: d.kind(o.Required("kind")), Text: d.words(o.Optional("text"))}
	if h := o.Optional("home"); h.Present() {
		x.Home = d.id(h)
	}
	return x
}

func (d *decoder) slip(v jsonread.Value) Slip {
	o := v.Object()
	s := Slip{Athlete: d.id(o.Required("athlete")), Affected: intake.Flag(o.Optional("affected"))}
	if c := o.Optional("changes"); c.Present() {
		s.Changes = d.parts("changes", c).Changes
	}
	s.Places = intake.List(o.Optional("places"), season.MaxNotes, func(v jsonread.Value) PlaceChange {
		o := v.Object()
		return PlaceChange{Session: d.id(o.Required("session")), Start: d.instant(o.Required("start")), From: d.words(o.Optional("from")), To: d.words(o.Optional("to"))}
	})
	return s
}

// bare is a plan of package season with nothing in it but one list.
const bare = `{"schema":1,"id":"-","outcome":"planned","now":"2026-11-08T14:00:00Z","zone":"UTC","period":{"from":"2026-11-08","to":"2026-11-08"},"%s":%s}`

// parts reads a list of notes or changes as season.ReadPlan does.
func (d *decoder) parts(name string, v jsonread.Value) season.Plan {
	raw, ok := v.Raw()
	if !ok {
		return season.Plan{}
	}
	p, err := season.ReadPlan(strings.NewReader(fmt.Sprintf(bare, name, bytes.TrimSpace(raw))))
	var bad *season.InputError
	if errors.As(err, &bad) {
		for _, x := range bad.Problems {
			x.Path = v.Pointer() + strings.TrimPrefix(x.Path, "/"+name)
			d.inner = append(d.inner, x)
		}
		return season.Plan{}
	}
	return *p
}

func (d *decoder) problem(v jsonread.Value) calendar.Problem {
	o := v.Object()
	p := calendar.Problem{Code: d.id(o.Required("code")), Path: d.words(o.Optional("path")), Field: d.words(o.Optional("field")),
		Value: d.words(o.Optional("value")), Reason: d.words(o.Optional("reason")), Remedy: d.words(o.Optional("remedy"))}
	class, _ := o.Required("class").Enum(string(calendar.ClassError), string(calendar.ClassRefusal), string(calendar.ClassQuestion), string(calendar.ClassWarning))
	p.Class = calendar.Class(class)
	return p
}

func (d *decoder) kind(v jsonread.Value) season.Kind {
	var all []string
	for _, k := range season.Kinds() {
		all = append(all, string(k))
	}
	s, _ := v.Enum(all...)
	return season.Kind(s)
}

// words reads a text of a plan, "" if absent.
func (d *decoder) words(v jsonread.Value) string {
	if !v.Present() {
		return ""
	}
	s, _ := v.String(0, season.MaxNoteRunes)
	return s
}

// mostPoints bounds points: they stay exact in programs that hold numbers as
// float64.
const mostPoints = 1 << 53

// points reads points, 0 if absent.
func (d *decoder) points(v jsonread.Value) int64 {
	if !v.Present() {
		return 0
	}
	n, _ := v.Int(-mostPoints, mostPoints)
	return n
}
