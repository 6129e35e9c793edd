package logbook

import (
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Numbers of body mass. Common practice, no source.
const (
	massWeighings = 3   // that a week needs to be compared
	massWeeks     = 2   // in a row that a finding needs: one may be fluid or a scale
	massHalf      = 500 // share of a gain in thousandths below which it is told
	massAdult     = 18
	massKept      = 1 << 20 // beyond it a share says nothing
	massEver      = 150     // percent of the weighing before, at any time
)

// MassOptions say what body mass is compared with.
type MassOptions struct {
	Today calendar.Date // unset: the date of the newest entry
	Born  season.YearMonth
	Off   season.Period // the off-season; unset: no gain is told
	Week  *time.Weekday // first day of a week; nil is Monday
}

// MassWeek is the mean body mass of a week.
type MassWeek struct {
	From      calendar.Date
	Mean      load.Mass
	Weighings int // dates with one; fewer than three are not compared
}

// MassPicture is an athlete's body mass by week. It is health data: it goes to
// the athlete and whom they show it to, never on a wall. It sets nothing to
// reach.
type MassPicture struct {
	Weeks []MassWeek // those with a weighing, oldest first
	// Gain is what the last week of the off-season was above its first, and Kept
	// the part of it, in thousandths, that the newest week is above that first one:
	// over 1000 is more, below 0 less than before. Not told for a gain within 2 %,
	// which may be fluid (ACSM 2007, MSSE 39:377-390, seen), nor for minors.
	Gain Maybe[load.Mass]
	Kept Maybe[int]
	// Questions are weighings far from the one before, such as pounds for kilograms:
	// they are left out until somebody confirms or replaces them.
	Questions []season.Note
	// Findings say, for adults alone, that two weeks in a row lie more than 2 % from
	// the last week of the off-season, or that less than half of the gain is left.
	Findings []season.Note
}

// BodyMass draws the body mass of an adult. ok is false for minors and for an
// unknown age: see [View.ProtectedBodyMass].
func (v View) BodyMass(o MassOptions) (p MassPicture, ok bool) {
	o.Today = Setting{Today: o.Today}.settled(&v).Today
	if age, known := o.Born.AgeOn(o.Today); !known || age < massAdult {
		return MassPicture{}, false
	}
	p = v.massWeeks(&o)
	p.compare(&o)
	return p, true
}

// ProtectedMass is the body mass of a minor, or of somebody of unknown age. It
// shows itself to nobody: printed or written as JSON it is "(private)", so that no
// sheet for a wall, a coach or a squad can hold it. Only a clinician or guardian
// is handed the weeks, without gain, findings or anything to reach.
type ProtectedMass struct {
	weeks     func() []MassWeek // functions, as printing looks into fields
	questions func() []season.Note
}

// Audience is who may read protected values.
type Audience string

// The audiences. There is none for coaches, walls or other athletes.
const (
	ForClinician Audience = "clinician"
	ForGuardian  Audience = "guardian"
)

// ProtectedBodyMass keeps the body mass of an athlete of any age for the
// protected audiences alone.
func (v View) ProtectedBodyMass(o MassOptions) ProtectedMass {
	o.Today = Setting{Today: o.Today}.settled(&v).Today
	p := v.massWeeks(&o)
	return ProtectedMass{func() []MassWeek { return slices.Clone(p.Weeks) }, func() []season.Note { return slices.Clone(p.Questions) }}
}

// Questions hands an audience the questions about weighings that are not used. ok is
// false for any other audience than those named.
func (p ProtectedMass) Questions(who Audience) (questions []season.Note, ok bool) {
	if who != ForClinician && who != ForGuardian || p.questions == nil {
		return nil, false
	}
	return p.questions(), true
}

// For hands the weeks to an audience. ok is false for any other than those named.
func (p ProtectedMass) For(who Audience) (weeks []MassWeek, ok bool) {
	if who != ForClinician && who != ForGuardian || p.weeks == nil {
		return nil, false
	}
	return p.weeks(), true
}

// String is always "(private)".
func (ProtectedMass) String() string { return hidden }

// Format writes "(private)", whatever is asked for.
func (ProtectedMass) Format(f fmt.State, _ rune) { _, _ = f.Write([]byte(hidden)) }

// MarshalText writes "(private)".
func (ProtectedMass) MarshalText() ([]byte, error) { return []byte(hidden), nil }

// massWeeks are the means of the weeks with a weighing, up to today. Of several
// weighings on one date the first counts, as mornings are compared with mornings.
func (v View) massWeeks(o *MassOptions) (p MassPicture) {
	first := time.Monday
	if o.Week != nil {
		first = *o.Week
	}
	var week [7]load.BodyMass
	var from calendar.Date
	flush := func() {
		if mean, n, ok := load.WeeklyBodyMass(week); ok && !from.IsZero() {
			p.Weeks = append(p.Weeks, MassWeek{from, mean, n})
		}
		week = [7]load.BodyMass{}
	}
	var list []*Entry
	list, p.Questions = v.weighings(o.Today)
	for _, e := range list {
		d := e.Date()
		if w := calendar.WeekStart(d, first); w != from {
			flush()
			from = w
		}
		if k := d.DaysSince(from); !week[k].Known {
			week[k] = load.BodyMass{Mass: e.What.(BodyMass).Mass, Known: true}
		}
	}
	flush()
	return p
}

// weighings are those up to a date that are plausible, with a question about each
// other. One that is far from the one before is not used; where that is the very
// first, and the next one bears out the new one, it is the first that is not used.
func (v *View) weighings(today calendar.Date) (list []*Entry, asked []season.Note) {
	var all []*Entry
	for i := range v.Entries {
		if e := &v.Entries[i]; e.What.Kind() == OfBodyMass && !e.Date().After(today) {
			all = append(all, e)
		}
	}
	ask := func(e *Entry) {
		q := note("question-mass", "date", e.Date(), "entry", e.ID)
		q.Subject.Dates = []calendar.Date{e.Date()}
		asked = append(asked, q)
	}
	for i, e := range all {
		n := len(list)
		switch {
		case n == 0 || v.confirmed[e.ID] || !farMass(list[n-1], e):
			list = append(list, e)
		case n == 1 && !v.confirmed[list[0].ID] && i+1 < len(all) && farMass(list[0], all[i+1]) && !farMass(e, all[i+1]):
			ask(list[0])
			list = []*Entry{e}
		default:
			ask(e)
		}
	}
	return list, asked
}

// farMass reports whether two weighings are too far apart to be both right: 15 %
// within four weeks, or half as much again at any time, as pounds for kilograms are
// more than twice as much.
func farMass(a, b *Entry) bool {
	x, y := int64(a.What.(BodyMass).Mass), int64(b.What.(BodyMass).Mass)
	most := int64(massEver)
	if b.Date().DaysSince(a.Date()) <= jumpDates {
		most = jumpMost
	}
	return y*100 > x*most || x*100 > y*most
}

// compare tells gain and findings.
func (p *MassPicture) compare(o *MassOptions) {
	if o.Off.Days() == 0 {
		return
	}
	var low, high, newest *MassWeek // first and last week of the off-season, and the newest
	var since []*MassWeek           // weeks after it
	for i := range p.Weeks {
		w := &p.Weeks[i]
		switch {
		case w.Weighings < massWeighings:
			continue
		case o.Off.Contains(w.From):
			if low == nil {
				low = w
			}
			high = w
		case w.From.After(o.Off.To):
			since, newest = append(since, w), w
		}
	}
	if high == nil || newest == nil {
		return
	}
	if gain := high.Mean - low.Mean; gain > 0 {
		if fluid, ok := load.WithinHydration(low.Mean, high.Mean); ok && !fluid {
			p.Gain = Told(gain)
			if kept := int64(newest.Mean-low.Mean) * 1000 / int64(gain); kept > -massKept && kept < massKept {
				p.Kept = Told(int(kept))
			}
		}
	}
	if n := len(since); n >= massWeeks {
		below, above := true, true
		for _, w := range since[n-massWeeks:] {
			fluid, ok := load.WithinHydration(high.Mean, w.Mean)
			below, above = below && ok && !fluid && w.Mean < high.Mean, above && ok && !fluid && w.Mean > high.Mean
		}
		switch {
		case below && p.Kept.Known && p.Kept.Value < massHalf:
			p.tell("mass-gain", newest.From)
		case below:
			p.tell("mass-below", newest.From)
		case above:
			p.tell("mass-above", newest.From)
		}
	}
}

// tell adds a finding. It has no value in it: whoever may see the picture sees it
// there.
func (p *MassPicture) tell(code string, week calendar.Date) {
	n := note(code, "week", week)
	n.Subject.Dates = []calendar.Date{week}
	p.Findings = append(p.Findings, n)
}
