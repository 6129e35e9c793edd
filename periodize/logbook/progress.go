package logbook

import (
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/season"
)

// mostStep is the most a load rises at once, in percent: ACSM position stand
// 2009, MSSE 41:687-708 (2 to 10 %, when one to two repetitions more than asked
// for can be done), seen.
const mostStep = 10

// dropTo is what is left of a load that was too heavy, in percent: common
// practice, no source.
const dropTo = 95

// rampSlot is what cards call the lighter sets before the work sets.
const rampSlot = "ramp-up"

// Step says what becomes of a load.
type Step string

// The steps.
const (
	Advance Step = "advance"
	Hold    Step = "hold"
	Drop    Step = "drop"
	NoStep  Step = "none" // nothing done says what to lift: the first set decides
)

// Lift is what the log says of one exercise: what it is worth now, and what the
// next load is.
type Lift struct {
	Exercise string // id in the catalogue
	Name     string
	Estimate Estimate
	Step     Step
	// Last is the load of the last session in which the exercise was done and
	// logged. Sessions missed or not logged since change nothing.
	Last Maybe[load.Mass]
	On   calendar.Date // of that session
	Next Maybe[load.Mass]
	// Asked is what the card of that session asked for, and so what Next is for.
	Asked Maybe[Target]
	// Why names the evidence: which set on which date, and how it compares with
	// what was asked for.
	Why       season.Note
	Basis     season.Note // of the estimate: set, date, equation, age, uncertainty
	Questions []season.Note
}

// Progress says of each lift of the log what it is worth and what comes next,
// sorted by exercise. Names that are no exercise of the catalogue are warnings.
// The error is a *season.InputError for a kit or maxima that cannot be.
//
// A load advances if as many sets as the card asked for were done at it, each
// with all repetitions and at least one more left than asked for, and none failed
// or was short: by the smallest step that the kit builds, if that is 10 % or
// less. It drops, to the next load that can be built at 95 % or less, if a set
// failed or missed the target by two repetitions or more, or by one in two
// sessions in a row. Otherwise it holds: also where sets, reserve or the card
// are not told, since nothing follows from what is not known. After 84 dates
// the first set decides. No cap of minors or beginners is known here: those of
// package exercise hold besides.
func (v View) Progress(g Given) (lifts []Lift, warnings []season.Note, err error) {
	g = g.settled(&v)
	if err := g.check(); err != nil {
		return nil, nil, err
	}
	list, unknown := v.tracks(&g, "")
	for _, t := range list {
		lifts = append(lifts, t.lift(&g))
	}
	var known []string
	for _, name := range unknown {
		if known == nil {
			for _, x := range g.Catalogue.All() {
				known = append(known, x.ID, x.Name)
			}
		}
		if near, ok := calendar.Nearest(name, known); ok {
			warnings = append(warnings, note("log-exercise-near", "exercise", name, "near", near))
			continue
		}
		warnings = append(warnings, note("log-exercise", "exercise", name))
	}
	return lifts, warnings, nil
}

// Lift says it of one exercise, by its id or name. ok is false if the log and
// the athlete's maxima tell nothing of it.
func (v View) Lift(name string, g Given) (lift Lift, ok bool, err error) {
	g = g.settled(&v)
	if err := g.check(); err != nil {
		return Lift{}, false, err
	}
	x, ok := g.Catalogue.Find(name)
	if !ok {
		return Lift{}, false, nil
	}
	list, _ := v.tracks(&g, x.ID)
	if len(list) == 0 {
		return Lift{}, false, nil
	}
	return list[0].lift(&g), true, nil
}

// Target is what a card asked for of an exercise.
type Target struct {
	Sets, Reps int
	Left       int // repetitions in reserve
}

// NextLoad is what a builder of cards needs of a lift; ok is false if nothing that
// was done says what to lift.
func (l Lift) NextLoad() (next exercise.NextLoad, ok bool) {
	if !l.Last.Known || l.Step == NoStep && l.Why.Code == "progress-stale" {
		return exercise.NextLoad{}, false
	}
	return exercise.NextLoad{Exercise: l.Exercise, Date: l.On, Last: l.Last.Value, Load: l.Next.Value,
		Reps: l.Asked.Value.Reps, Left: l.Asked.Value.Left, Why: l.Why}, true
}

// asked finds what the card of a session asked for of an exercise.
func (g *Given) asked(session, id string) (Target, bool) {
	for i := range g.Cards {
		c := &g.Cards[i]
		if c.Session != session || session == "" {
			continue
		}
		for _, b := range c.Blocks {
			for j := range b.Items {
				it := &b.Items[j]
				if it.ID == id && it.Slot != rampSlot && it.Left >= 0 && it.Reps > 0 && it.Exercise.Sets > 0 {
					return Target{it.Exercise.Sets, it.Reps, it.Left}, true
				}
			}
		}
	}
	return Target{}, false
}

func (t *track) lift(g *Given) Lift {
	l := Lift{Exercise: t.exercise.ID, Name: t.exercise.Name, Step: NoStep, Questions: t.asked}
	l.Estimate = t.filter.estimate(g.Today, g.curve())
	l.Basis = basis(&l.Estimate)
	w, before := t.last(g)
	if w == nil {
		l.Why = note("progress-none", "exercise", t.exercise.Name)
		return l
	}
	l.Last, l.On = Told(w.top()), w.entry.Date()
	if age := g.Today.DaysSince(l.On); age > StaleAfter {
		l.Why = note("progress-stale", "load", l.Last.Value, "date", l.On, "age", age)
		return l
	}
	r := w.reached(g, t.exercise.ID)
	var earlier *reached
	if before != nil {
		b := before.reached(g, t.exercise.ID)
		earlier = &b
	}
	if r.known {
		l.Asked = Told(r.target)
	}
	l.decide(g, g.steps(&t.exercise), &r, earlier)
	l.Why.Subject = season.Subject{Session: w.session.Planned, Dates: []calendar.Date{l.On}}
	return l
}

// last finds the last two sessions that say what the load is. Fast and easy work
// in primers and recovery sessions does not, unless a card asked for its
// repetitions.
func (t *track) last(g *Given) (w, before *work) {
	for i := len(t.work) - 1; i >= 0; i-- {
		x := &t.work[i]
		if k := x.session.Session; k == season.Primer || k == season.Recovery {
			if _, known := g.asked(x.session.Planned, t.exercise.ID); !known {
				continue
			}
		}
		switch {
		case x.top() == 0:
		case w == nil:
			w = x
		default:
			return w, x
		}
	}
	return w, nil
}

// top is the heaviest load of a session at which a repetition was done.
func (w *work) top() (m load.Mass) {
	for _, r := range w.sets {
		if r.set.Reps.Value > 0 {
			m = max(m, r.set.Load.Value)
		}
	}
	return m
}

// reached is how the sets at one load compare with what was asked for.
type reached struct {
	load   load.Mass
	target Target
	known  bool // there was a card
	sets   int  // with all repetitions
	short  bool // one had fewer
	told   bool // the reserve of each set
	failed bool
	spare  load.Reps // the least of done and left over what was asked for
	worst  SetRef
}

func (w *work) reached(g *Given, id string) reached {
	r := reached{load: w.top(), told: true}
	r.target, r.known = g.asked(w.session.Planned, id)
	first := true
	for _, ref := range w.sets {
		s := ref.set
		if s.Load.Value != r.load {
			continue
		}
		left, told := s.Reserve()
		r.told = r.told && told
		r.failed = r.failed || s.Failed
		if s.Reps.Value >= r.target.Reps {
			r.sets++
		} else {
			r.short = true
		}
		spare := load.Reps(s.Reps.Value-r.target.Reps-r.target.Left) + left
		if first || spare < r.spare {
			r.spare, r.worst, first = spare, ref.out(), false
		}
	}
	return r
}

func (l *Lift) decide(g *Given, s steps, r, before *reached) {
	say := func(code string, kv ...any) {
		l.Why = note(code, append([]any{"load", r.load, "set", r.worst.String(), "date", l.On}, kv...)...)
	}
	l.Step, l.Next = Hold, Told(r.load)
	asked := []any{"sets", r.target.Sets, "reps", r.target.Reps, "left", r.target.Left}
	switch {
	case !r.known && !r.failed:
		say("progress-no-card")
	case !r.known:
		l.drop(g, s, r, func(code string, kv ...any) { say("progress-failed-"+code, kv...) })
	case r.failed || r.told && r.spare <= -2:
		l.drop(g, s, r, func(code string, kv ...any) { say("progress-"+code, append(asked, kv...)...) })
	case !r.told && r.sets >= r.target.Sets && !r.short:
		say("progress-no-reserve", asked...)
	case !r.told:
		say("progress-short", append(asked, "done", r.sets)...)
	case r.spare <= -1 && before != nil && before.known && before.told && before.spare <= -1 && before.load >= r.load:
		l.drop(g, s, r, func(code string, kv ...any) { say("progress-"+code, append(asked, kv...)...) })
	case r.sets < r.target.Sets || r.short:
		say("progress-short", append(asked, "done", r.sets)...)
	case r.spare < 1:
		say("progress-hold", asked...)
	default:
		up, ok := s.above(r.load)
		switch {
		case !ok:
			say("progress-no-step", asked...)
		case int64(up)*100 > int64(r.load)*(100+mostStep):
			say("progress-big-step", append(asked, "next", up)...)
		default:
			l.Step, l.Next = Advance, Told(up)
			say("progress-advance", append(asked, "next", up)...)
		}
	}
}

// drop takes the load down to what can be built at 95 % or less, and no more than
// leaves what should be left by the estimate.
func (l *Lift) drop(g *Given, s steps, r *reached, say func(code string, kv ...any)) {
	most := r.load * dropTo / 100
	if e := l.Estimate; e.Known && !e.Stale && !e.Floor && r.known {
		if fits, ok := g.curve().LoadFor(e.Max, load.Reps(r.target.Reps+r.target.Left)); ok {
			most = min(most, fits)
		}
	}
	if down, ok := s.atMost(most); ok && down > 0 {
		l.Step, l.Next = Drop, Told(down)
		say("drop", "next", down)
		return
	}
	l.Step, l.Next = NoStep, Maybe[load.Mass]{}
	say("lightest")
}

// near is a mass to the nearest 100 g, as finely as an estimate may be printed.
func near(m load.Mass) load.Mass { return (m + 50) / 100 * 100 }

// basis names what an estimate rests on.
func basis(e *Estimate) season.Note {
	var n season.Note
	switch {
	case !e.Known:
		return note("estimate-none")
	case e.Stale:
		n = note("estimate-stale", "max", near(e.Max), "date", e.Date, "age", e.Age)
	case e.Tested:
		n = note("estimate-tested", "max", near(e.Max), "low", near(e.Low), "high", near(e.High), "date", e.Date, "age", e.Age, "sessions", e.Sessions)
	case e.Evidence.Entry == "":
		n = note("estimate-given", "max", near(e.Max), "low", near(e.Low), "high", near(e.High), "date", e.Date, "age", e.Age)
	case e.Floor:
		n = note("estimate-floor", "max", near(e.Max), "set", e.Evidence.String(), "date", e.Date, "age", e.Age, "curve", e.Curve.String())
	default:
		n = note("estimate-sets", "max", near(e.Max), "low", near(e.Low), "high", near(e.High), "set", e.Evidence.String(), "date", e.Date, "age", e.Age,
			"curve", e.Curve.String(), "sessions", e.Sessions)
	}
	n.Subject.Dates = []calendar.Date{e.Date}
	return n
}

// Maxima are the estimates as a request carries them: those that are known, not
// stale and more than lower bounds, sorted by exercise. Dates are those of the
// newest evidence.
func Maxima(lifts []Lift) []season.Maximum {
	var out []season.Maximum
	for _, l := range lifts {
		if e := l.Estimate; e.Known && !e.Stale && !e.Floor && e.Max > 0 {
			kind := "estimated"
			if e.Tested {
				kind = "tested"
			}
			out = append(out, season.Maximum{Exercise: l.Exercise, Grams: int64(e.Max), Kind: kind, Date: e.Date})
		}
	}
	slices.SortStableFunc(out, func(a, b season.Maximum) int { return strings.Compare(a.Exercise, b.Exercise) })
	return out
}
