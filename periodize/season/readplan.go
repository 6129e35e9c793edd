package season

import (
	"io"
	"math"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
	"example.org/weft/load"
)

// ReadPlan reads a plan that was written as JSON and handed back. Such a plan is
// not trusted: schema, limits, ids, dates, times and words are checked, and the
// error is an *InputError with every problem. Unknown fields are passed over.
//
// Instants keep the offset in which they are written.
func ReadPlan(r io.Reader) (*Plan, error) {
	lim := Limits{}.filled()
	d := newDecoder(r, lim, false)
	var f finder
	root := d.doc.Root()
	if !d.schema(root, nil) {
		f.take(d.doc)
		return nil, &InputError{Problems: f.problems()}
	}
	p := d.planFields(root.Object())
	f.take(d.doc)
	if errs, _ := d.doc.Counts(); root.Kind() == jsonread.Object && errs <= MaxProblems {
		c := checker{finder: &f, lim: lim}
		c.plan("", p)
	}
	if err := failed(f.problems()); err != nil {
		return nil, err
	}
	return &p, nil
}

// Validate checks a plan as ReadPlan does.
func (p Plan) Validate() []calendar.Problem {
	var f finder
	c := checker{finder: &f, lim: Limits{}.filled()}
	c.plan("", p)
	return f.problems()
}

func (d *decoder) plan(v jsonread.Value) Plan { return d.planFields(v.Object()) }

func (d *decoder) planFields(o *jsonread.Fields) Plan {
	p := Plan{
		Schema: d.count(o.Required("schema")), ID: d.id(o.Required("id")),
		Revision: d.count(o.Optional("revision")), Engine: d.count(o.Optional("engine")),
		Now: d.instant(o.Required("now")),
	}
	p.Outcome = Outcome(d.word(o.Required("outcome"), outcomes()))
	p.Proof = Proof(d.word(o.Optional("proof"), proofs()))
	p.Cost = d.cost(o.Optional("cost"))
	p.Period = d.period(o.Required("period"))
	p.Zone = d.id(o.Required("zone"))
	p.RulesVersion = d.words(o.Optional("rulesVersion"))
	p.Clocks = intake.List(o.Optional("clocks"), MaxEvents, func(v jsonread.Value) Clock {
		o := v.Object()
		c := Clock{From: d.instant(o.Required("from")), Zone: d.words(o.Required("zone"))}
		o.Done()
		return c
	})
	p.EventsDigest = intake.List(o.Optional("eventsDigest"), MaxNotes, d.dayHash)
	p.Games = intake.List(o.Optional("games"), MaxEvents, d.game)
	p.Sessions = intake.List(o.Optional("sessions"), MaxSessions, d.session)
	p.Missed = intake.List(o.Optional("missed"), MaxNotes, d.missed)
	p.Findings = d.notes(o.Optional("findings"))
	p.Questions = d.notes(o.Optional("questions"))
	p.Refusals = d.notes(o.Optional("refusals"))
	p.Warnings = d.notes(o.Optional("warnings"))
	p.Changes = intake.List(o.Optional("changes"), MaxNotes, d.change)
	o.Done()
	return p
}

func outcomes() []string { return []string{string(Planned), string(Refused)} }

func proofs() []string { return []string{string(Proved), string(Bounded)} }

func states() []string {
	return []string{string(AsWritten), string(Eased), string(Swapped), string(Held), string(DoneState)}
}

func changeKinds() []string {
	return []string{string(Moved), string(Added), string(Dropped), string(Unchanged), string(Replaced)}
}

func noteClasses() []string {
	return []string{string(Why), string(Finding), string(Question), string(Warning), string(Refusal)}
}

// maxPoints bounds costs: they stay exact in programs that hold numbers as
// float64.
const maxPoints = 1 << 53

// word reads one of the allowed words, "" if the field is absent or empty.
func (d *decoder) word(v jsonread.Value, allowed []string) string {
	if !v.Present() || empty(v) {
		return ""
	}
	s, _ := v.Enum(allowed...)
	return s
}

// long reads a text that a plan is made of, "" if absent.
func (d *decoder) long(v jsonread.Value) string {
	if !v.Present() {
		return ""
	}
	s, _ := v.String(0, MaxNoteRunes)
	return s
}

func (d *decoder) count(v jsonread.Value) int { return int(d.number(v, 0, maxSetting)) }

func (d *decoder) number(v jsonread.Value, least, most int64) int64 {
	if !v.Present() {
		return 0
	}
	n, _ := v.Int(least, most)
	return n
}

func (d *decoder) points(v jsonread.Value) int64 { return d.number(v, -maxPoints, maxPoints) }

func (d *decoder) cost(v jsonread.Value) Cost {
	if !v.Present() {
		return Cost{}
	}
	o := v.Object()
	c := Cost{Broken: d.points(o.Optional("broken")), Points: d.points(o.Optional("points")), Bound: d.points(o.Optional("bound"))}
	c.ByRule = intake.List(o.Optional("byRule"), MaxOverrides, func(v jsonread.Value) RuleCost {
		o := v.Object()
		r := RuleCost{Rule: d.id(o.Required("rule")), Broken: d.points(o.Optional("broken")), Points: d.points(o.Optional("points"))}
		o.Done()
		return r
	})
	o.Done()
	return c
}

func (d *decoder) dayHash(v jsonread.Value) DayHash {
	o := v.Object()
	h := DayHash{Date: d.date(o.Required("date"), false), Hash: d.id(o.Required("hash"))}
	o.Done()
	return h
}

func (d *decoder) game(v jsonread.Value) PlanGame {
	o := v.Object()
	g := PlanGame{
		ID: d.id(o.Required("id")), Start: d.instant(o.Required("start")), End: d.instant(o.Required("end")),
		Date: d.date(o.Required("date"), false), DateOnly: intake.Flag(o.Optional("dateOnly")), EndAssumed: intake.Flag(o.Optional("endAssumed")),
		Title: d.long(o.Optional("title")),
	}
	g.Importance = calendar.Importance(d.word(o.Optional("importance"), importanceWords()))
	g.Status = calendar.Status(d.word(o.Optional("status"), statusWords()))
	g.Local = d.local(o.Optional("local"))
	o.Done()
	return g
}

func (d *decoder) session(v jsonread.Value) Session {
	o := v.Object()
	s := Session{
		ID: d.id(o.Required("id")), Start: d.instant(o.Required("start")), End: d.instant(o.Required("end")),
		Date: d.date(o.Required("date"), false), Minutes: d.count(o.Optional("minutes")), Place: d.words(o.Optional("place")),
		Kind: d.kind(o.Required("kind")), Pinned: intake.Flag(o.Optional("pinned")), HeavyLowerBody: intake.Flag(o.Optional("heavyLowerBody")),
		SessionLoad: d.count(o.Optional("sessionLoad")),
	}
	s.State = State(d.word(o.Optional("state"), states()))
	s.Local = d.local(o.Optional("local"))
	s.GameDay = intake.List(o.Optional("gameDay"), MaxHours, func(v jsonread.Value) GameOffset {
		o := v.Object()
		g := GameOffset{Event: d.words(o.Optional("event")), Days: int(d.number(o.Required("days"), -maxOffsetDays, maxOffsetDays))}
		o.Done()
		return g
	})
	s.Why = d.notes(o.Optional("why"))
	s.Parts = intake.List(o.Optional("parts"), MaxHours, d.part)
	o.Done()
	return s
}

func (d *decoder) local(v jsonread.Value) *Local {
	if !v.Present() {
		return nil
	}
	o := v.Object()
	l := &Local{Zone: d.words(o.Required("zone")), Start: d.wall(o.Required("start")), End: d.wall(o.Required("end"))}
	o.Done()
	return l
}

// maxOffsetDays is the number of dates that calendar knows, rounded up.
const maxOffsetDays = 300 * 366

func (d *decoder) part(v jsonread.Value) Part {
	o := v.Object()
	p := Part{Name: d.words(o.Optional("name")), Minutes: d.count(o.Optional("minutes"))}
	p.Exercises = intake.List(o.Optional("exercises"), MaxHours, func(v jsonread.Value) Exercise {
		o := v.Object()
		e := Exercise{
			Name: d.words(o.Required("name")), Pattern: d.words(o.Optional("pattern")), Side: d.words(o.Optional("side")),
			Sets: d.count(o.Optional("sets")), Reps: d.words(o.Optional("reps")), Effort: d.words(o.Optional("effort")),
			Rest: d.count(o.Optional("rest")),
		}
		if l := o.Optional("load"); l.Present() {
			lo := l.Object()
			e.Load = &Grams{Grams: d.number(lo.Required("grams"), 0, int64(load.MaxMass))}
			lo.Done()
		}
		if n := o.Optional("evidence"); n.Present() {
			note := d.note(n)
			e.Evidence = &note
		}
		o.Done()
		return e
	})
	o.Done()
	return p
}

func (d *decoder) missed(v jsonread.Value) Missed {
	o := v.Object()
	m := Missed{
		Aim: d.id(o.Required("aim")), From: d.emptyDate(o.Optional("from")), To: d.emptyDate(o.Optional("to")),
		Event: d.words(o.Optional("event")), Session: d.words(o.Optional("session")),
		Wanted: d.count(o.Optional("wanted")), Got: d.count(o.Optional("got")), Points: d.points(o.Optional("points")),
		Text: d.long(o.Optional("text")),
	}
	m.InTheWay = intake.List(o.Optional("inTheWay"), MaxNotes, func(v jsonread.Value) InTheWay {
		o := v.Object()
		w := InTheWay{Rule: d.id(o.Required("rule")), Event: d.words(o.Optional("event"))}
		o.Done()
		return w
	})
	o.Done()
	return m
}

// emptyDate reads a date that may be unset, which is written "".
func (d *decoder) emptyDate(v jsonread.Value) calendar.Date {
	if !v.Present() || empty(v) {
		return calendar.Date{}
	}
	return d.date(v, false)
}

func empty(v jsonread.Value) bool {
	raw, ok := v.Raw()
	return ok && string(raw) == `""`
}

func (d *decoder) notes(v jsonread.Value) []Note { return intake.List(v, MaxNotes, d.note) }

func (d *decoder) note(v jsonread.Value) Note {
	o := v.Object()
	n := Note{Code: d.id(o.Required("code")), Rule: d.words(o.Optional("rule")), Text: d.long(o.Optional("text"))}
	n.Class = NoteClass(d.word(o.Required("class"), noteClasses()))
	if s := o.Optional("subject"); s.Present() {
		so := s.Object()
		n.Subject = Subject{Session: d.words(so.Optional("session")), Event: d.words(so.Optional("event"))}
		n.Subject.Dates = intake.List(so.Optional("dates"), MaxPeriodDays, func(v jsonread.Value) calendar.Date { return d.date(v, false) })
		so.Done()
	}
	if v := o.Optional("values"); v.Present() {
		members, _ := v.Object().Members(MaxHours)
		for _, m := range members {
			if n.Values == nil {
				n.Values = Values{}
			}
			if m.Value.Kind() == jsonread.String {
				n.Values[m.Name] = Value{Text: d.long(m.Value), IsText: true}
			} else {
				n.Values[m.Name] = Value{Number: d.number(m.Value, math.MinInt64, math.MaxInt64)}
			}
		}
	}
	o.Done()
	return n
}

func (d *decoder) change(v jsonread.Value) Change {
	o := v.Object()
	c := Change{Session: d.id(o.Required("session")), Kind: d.kind(o.Required("kind"))}
	c.Change = ChangeKind(d.word(o.Required("change"), changeKinds()))
	if k := o.Optional("oldKind"); k.Present() {
		c.OldKind = d.kind(k)
	}
	moment := func(v jsonread.Value) *time.Time {
		if !v.Present() {
			return nil
		}
		t := d.instant(v)
		return &t
	}
	c.From, c.To = moment(o.Optional("from")), moment(o.Optional("to"))
	c.Cause = d.notes(o.Optional("cause"))
	o.Done()
	return c
}
