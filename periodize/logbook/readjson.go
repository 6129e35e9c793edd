package logbook

import (
	"fmt"
	"io"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/periodize/season"
)

// Reader reads logs. The zero value is ready for use.
type Reader struct {
	Strict bool // unknown fields and columns are errors, not warnings
	// Now refuses what was told after it. Zero: only what was told before it
	// happened is refused.
	Now time.Time

	// What entries and rows that leave it out are given.
	Athlete  string
	Zone     calendar.Zone
	Recorded time.Time
	Source   Source

	// Columns maps names of this package to names of a table, such as "date":
	// "Datum".
	Columns map[string]string

	Limits Limits
}

// ReadJSON reads a log with the zero Reader and drops its questions and warnings.
func ReadJSON(r io.Reader) (Log, error) {
	l, _, err := Reader{}.JSON(r)
	return l, err
}

// JSON reads one log as JSON. The error is a *season.InputError with every
// problem found; without one, the problems are questions and warnings of a log
// that can be used. One id given to different things is a question: both are
// kept and none counts.
//
//	{"schema": 1, "athlete": "a7", "zone": "Europe/Berlin", "recorded": "2026-11-10T18:40:00+01:00",
//	 "entries": [
//	  {"id": "s1", "kind": "session", "start": "2026-11-10T17:00", "planned": "...", "session": "full-body",
//	   "state": "done", "rating": 7, "minutes": 55,
//	   "sets": [{"exercise": "back-squat", "load": "100 kg", "reps": 5, "left": 2}]}]}
//
// The fields of the head stand for those that an entry leaves out, and the
// Reader's for those that the head does.
func (rd Reader) JSON(r io.Reader) (Log, []calendar.Problem, error) {
	lim := rd.Limits.filled()
	d := &decoder{Reader: rd, zones: intake.Zones{}, doc: jsonread.Read(r, jsonread.Options{
		Limits: jsonread.Limits{Bytes: lim.Bytes}, Strict: rd.Strict, Problems: maxProblems,
		Private: []string{"bodyMass", "sleep", "fatigue", "stress", "soreness", "mood", "text", "reason"},
	})}
	var list []Entry
	var lines []int
	if root := d.doc.Root(); d.schema(root) {
		list, lines = d.log(root.Object(), lim)
	}
	d.take()
	if err := d.failed(); err != nil {
		return Log{}, nil, err
	}
	l := d.gather(list, func(i int) (string, int) { return fmt.Sprintf("/entries/%d/id", i), lines[i] })
	return l, d.problems(), nil
}

// gather makes a log of checked entries and says which ids stand twice.
func (f *finder) gather(list []Entry, place func(i int) (path string, line int)) Log {
	type key struct{ athlete, id string }
	first := make(map[key]int, len(list))
	for i := range list {
		list[i] = list[i].settled()
		k := key{list[i].Athlete, list[i].ID}
		j, ok := first[k]
		switch {
		case !ok:
			first[k] = i
		case equalFacts(&list[j], &list[i]):
			path, line := place(i)
			f.line = line
			f.warn(CodeRepeated, path, list[i].ID, "the same entry again, used once", "leave one out")
		default:
			path, line := place(i)
			f.line = line
			f.ask(CodeIDTwice, path, list[i].ID, "another entry has this id and says something else: both are kept, and none counts", "give each its own id, or add an entry that replaces this id")
		}
	}
	return Log{united(list)}
}

// decoder takes a JSON text apart. What it cannot read it reports and leaves
// unset.
type decoder struct {
	Reader
	finder
	doc   *jsonread.Document
	zones intake.Zones
	bad   map[string]bool // fields of the entry at hand that could not be read
}

func (d *decoder) schema(root jsonread.Value) bool {
	o := root.Object()
	if root.Kind() != jsonread.Object {
		return false
	}
	v := o.Optional("schema")
	if !v.Present() {
		d.warn(CodeSchemaMissing, "/schema", "", fmt.Sprintf("no schema is given: taken as %d", Schema), fmt.Sprintf(`add "schema": %d`, Schema))
		return true
	}
	return intake.Schema(v, Schema, CodeSchemaNewer)
}

func (d *decoder) log(o *jsonread.Fields, lim Limits) (list []Entry, lines []int) {
	o.Allow("schema")
	d.bad = map[string]bool{}
	if v := o.Optional("athlete"); v.Present() {
		d.Athlete, _ = v.String(1, maxID)
	}
	if v := o.Optional("zone"); v.Present() {
		d.Zone = d.zone(v, "zone")
	}
	if v := o.Optional("recorded"); v.Present() {
		d.Recorded = d.instant(v, "recorded")
	}
	if v := o.Optional("source"); v.Present() {
		s, _ := v.Enum(words(Sources())...)
		d.Source = Source(s)
	}
	zone, recorded := d.bad["zone"], d.bad["recorded"]
	items, _ := o.Required("entries").Array(lim.Entries)
	list = make([]Entry, 0, len(items))
	for i, v := range items {
		d.bad = map[string]bool{"zone": zone, "recorded": recorded}
		e, ok := d.entry(v)
		if !ok {
			continue
		}
		d.line, _ = v.Position()
		fatal := d.fatal
		c := checker{now: d.Now, bad: d.bad, say: func(class calendar.Class, code, field, value, reason, remedy string) {
			d.put(calendar.Problem{Code: code, Class: class, Path: fmt.Sprintf("/entries/%d/%s", i, field), Value: value,
				Reason: fmt.Sprintf("%s (entry at line %d)", reason, d.line), Remedy: remedy})
		}}
		noID := e.ID == ""
		if noID {
			e.ID = pendingID
		}
		c.entry(&e)
		if noID && d.fatal == fatal {
			e.ID = ""
			e.ID = e.ContentID()
		}
		list, lines = append(list, e), append(lines, d.line)
	}
	o.Done()
	return list, lines
}

// entry reads one entry; ok is false where not even its kind is known.
func (d *decoder) entry(v jsonread.Value) (e Entry, ok bool) {
	o := v.Object()
	if !o.OK() {
		return e, false
	}
	word, ok := o.Required("kind").Enum(words(Kinds())...)
	e = Entry{Athlete: d.Athlete, Zone: d.Zone, Recorded: d.Recorded, Source: d.Source}
	e.ID = d.id(o, "id")
	if s := d.id(o, "athlete"); s != "" {
		e.Athlete = s
	}
	if x := o.Optional("recorded"); x.Present() {
		d.bad["recorded"] = false
		e.Recorded = d.instant(x, "recorded")
	}
	if x := o.Optional("source"); x.Present() {
		e.Source = Source(d.choice(o, "source", words(Sources())))
	}
	if !ok {
		return e, false
	}
	if kind := Kind(word); kind.Dated() {
		e.Replaces = d.id(o, "replaces")
		d.times(o, &e)
		e.What = d.dated(o, kind)
	} else {
		e.Zone = calendar.Zone{}
		of := d.id(o, "of")
		e.What = Confirm{Of: of}
		if kind == OfVoid {
			e.What = Void{Of: of, Reason: d.words(o, "reason")}
		}
	}
	o.Done()
	return e, true
}

func (d *decoder) times(o *jsonread.Fields, e *Entry) {
	if x := o.Optional("zone"); x.Present() {
		d.bad["zone"] = false
		e.Zone = d.zone(x, "zone")
	}
	if x := o.Optional("start"); x.Present() {
		d.text(x, "start", CodeWall, "a date and a time such as 2026-11-08T14:00", func(s string) (err error) {
			if !strings.Contains(s, "T") {
				e.DateOnly = true
				e.Start.Date, err = calendar.ParseDate(s)
				return err
			}
			e.Start, err = calendar.ParseWall(s)
			return err
		})
	}
	if x := o.Optional("end"); x.Present() {
		e.HasEnd = d.text(x, "end", CodeWall, "a date and a time such as 2026-11-08T15:00", func(s string) (err error) {
			e.End, err = calendar.ParseWall(s)
			return err
		})
	}
}

func (d *decoder) dated(o *jsonread.Fields, kind Kind) What {
	switch kind {
	case OfSession:
		s := Session{Planned: d.id(o, "planned"), Session: season.Kind(d.choice(o, "session", words(season.Kinds()))),
			State: State(d.choice(o, "state", words(States()))), Rating: d.rating(o), Minutes: d.count(o, "minutes", MaxMinutes)}
		if v := o.Optional("sets"); v.Present() {
			items, _ := v.Array(MaxSets)
			for i, x := range items {
				s.Sets = append(s.Sets, d.set(x, fmt.Sprintf("sets/%d/", i)))
			}
		}
		return s
	case OfGame:
		return Game{Event: d.id(o, "event"), Minutes: d.count(o, "minutes", MaxPlayed), Rating: d.rating(o)}
	case OfPractice:
		p := Practice{Event: d.id(o, "event"), Minutes: d.count(o, "minutes", MaxMinutes), Rating: d.rating(o)}
		if v := o.Optional("sprinted"); v.Present() {
			if b, ok := v.Bool(); ok {
				p.Sprinted = Told(b)
			}
		}
		return p
	case OfWellness:
		w := Wellness{Scale: Scale(d.choice(o, "scale", words(Scales())))}
		for _, q := range []struct {
			name string
			to   *Maybe[int]
		}{{"sleep", &w.Sleep}, {"fatigue", &w.Fatigue}, {"stress", &w.Stress}, {"soreness", &w.Soreness}, {"mood", &w.Mood}} {
			*q.to = d.count(o, q.name, 7)
		}
		return w
	case OfBodyMass:
		return BodyMass{d.mass(o, "bodyMass", "bodyMass").Value}
	case OfTest:
		t := Test{Name: d.id(o, "name"), Protocol: d.id(o, "protocol"), Unit: Unit(d.choice(o, "unit", words(Units())))}
		if v := o.Required("value"); v.Present() {
			t.Value = d.milli(v, "value")
		}
		if v := o.Optional("trials"); v.Present() {
			items, _ := v.Array(MaxTrials)
			for i, x := range items {
				t.Trials = append(t.Trials, d.milli(x, fmt.Sprintf("trials/%d", i)))
			}
		}
		return t
	}
	r := Remark{Text: d.words(o, "text")}
	if v := o.Optional("session"); v.Present() {
		r.Session = season.Kind(d.choice(o, "session", words(season.Kinds())))
	}
	if v := o.Optional("days"); v.Present() {
		items, _ := v.Array(len(dayWords))
		for _, x := range items {
			if w, ok := x.Enum(dayWords[:]...); ok {
				day, _ := dayOf(w)
				r.Days = append(r.Days, day)
			}
		}
	}
	return r
}

// take adds what the JSON reader found.
func (d *decoder) take() {
	for _, p := range d.doc.Problems() {
		if p.Code == jsonread.CodeMore {
			errs, _ := d.doc.Counts()
			d.fatal = max(d.fatal, errs)
			d.more++
			continue
		}
		out := intake.Problem(p)
		d.line = p.Line
		out.Reason += fmt.Sprintf(" (line %d, column %d)", p.Line, p.Col)
		d.put(out)
	}
}
