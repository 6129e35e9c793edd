package exercise

import (
	"fmt"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Reading is a number that may be unknown. The zero value is unknown, which is
// not zero.
type Reading struct {
	N     int
	Known bool
}

// Read is a known reading.
func Read(n int) Reading { return Reading{n, true} }

// Sign is one that ends the day's training until a clinician has looked.
type Sign string

// The signs.
const (
	HeadKnock Sign = "knock to the head"
	ChestSign Sign = "chest symptoms"
	Fever     Sign = "fever"
	Fainting  Sign = "fainting"
	Numbness  Sign = "numbness"
	Fracture  Sign = "suspected fracture"
	NightPain Sign = "night pain"
	Limping   Sign = "limping child"
)

// Signs lists the signs in their fixed order.
func Signs() []Sign {
	return []Sign{HeadKnock, ChestSign, Fever, Fainting, Numbness, Fracture, NightPain, Limping}
}

// Soreness is tired muscle, not pain, of one part of the body, 0 to 10.
type Soreness struct {
	Region string
	Side   string
	Level  int
}

// CheckIn is the report of the day, in the athlete's own words and numbers.
// Nothing in it is ever part of a problem's text.
type CheckIn struct {
	SleepMinutes Reading
	Energy       Reading // 0 to 10
	Soreness     []Soreness
	Ill          bool
	Pain         []Complaint // dates are those of the session
	Signs        []Sign      // any word holds, also one that is not known here
	Minutes      int         // 0: as planned
	Kit          *Kit        // nil: as planned
}

// problems finds what is wrong with a report.
func (r *CheckIn) problems(at string) []calendar.Problem {
	var f faults
	reading := func(field string, x Reading, high int) {
		if x.Known && (x.N < 0 || x.N > high) {
			f.add("reading-range", at+"/"+field, hiddenValue, fmt.Sprintf("outside 0 to %d", high), "check the number, or leave it unknown")
		}
	}
	reading("sleepMinutes", r.SleepMinutes, 24*60)
	reading("energy", r.Energy, 10)
	for i, s := range r.Soreness {
		path := fmt.Sprintf("%s/soreness/%d", at, i)
		if _, ok := regionMask(s.Region); !ok {
			f.add("region-unknown", path+"/region", hiddenValue, "the word for the part of the body is not known here", "use one of BodyWords")
		}
		if !sideWord(s.Side) {
			f.add("side-unknown", path+"/side", hiddenValue, "the word is not known here", "use left, right or both")
		}
		if s.Level < 0 || s.Level > 10 {
			f.add("soreness-range", path+"/level", hiddenValue, "outside 0 to 10", "give a number from 0 to 10")
		}
	}
	if r.Minutes != 0 && (r.Minutes < MinMinutes || r.Minutes > MaxMinutes) {
		f.add("minutes-range", at+"/minutes", fmt.Sprint(r.Minutes), "a session has 8 to 150 minutes", "give the minutes there are, or hold no session")
	}
	if r.Kit != nil {
		f.list = append(f.list, r.Kit.problems(at+"/kit")...)
	}
	f.list = append(f.list, complaintProblems(at+"/pain", r.Pain)...)
	return f.list
}

// Result is what becomes of a session on the day: [AsWritten], [Eased],
// [Swapped] or [Held]. A held day has no card, so that no program can show one.
type Result interface {
	State() season.State
	Effect() Effect
	sealed()
}

// Day is a session that takes place.
type Day struct {
	Card      Card
	Why       []season.Note // each change with its reason; private
	Questions []season.Note
	Refer     bool          // a clinician should look, though training goes on
	Physio    []season.Note // for the physiotherapist's list; private
}

// AsWritten is the card as it was.
type AsWritten struct{ Day }

// Eased is the card with less of the same.
type Eased struct{ Day }

// Swapped is the card with other exercises of the same patterns.
type Swapped struct{ Day }

// Held is a day without a session.
type Held struct {
	Why    []season.Note // private
	Physio []season.Note // private
	// Hold goes into the athlete's holds where a clinician must clear it;
	// Clearance says so. Without it the day alone is off.
	Hold      season.Hold
	Clearance bool
	// Free are the dates without any session: the day's own, and when ill the
	// next one too, since one whole date free of illness comes before training.
	Free []calendar.Date
}

// State is as-written.
func (AsWritten) State() season.State { return season.AsWritten }

// State is eased.
func (Eased) State() season.State { return season.Eased }

// State is swapped.
func (Swapped) State() season.State { return season.Swapped }

// State is held.
func (Held) State() season.State { return season.Held }

func (AsWritten) sealed() {}
func (Eased) sealed()     {}
func (Swapped) sealed()   {}
func (Held) sealed()      {}

// Effect is what a re-planning of the rest of the week needs to know of a day,
// see periodize.Planner.Today.
type Effect struct {
	Kind      season.Kind // "" if there is no session
	Minutes   int
	Lift      bool
	HeavyLegs bool // heavy lower-body work is left in it
	Sets      map[Region]int
	Hold      *season.Hold    // to be added to the athlete, nil for none
	Free      []calendar.Date // of a held day: dates without any session
}

// Effect is the work that is left.
func (d Day) Effect() Effect {
	e := Effect{Kind: d.Card.Kind, Minutes: d.Card.Minutes, Lift: d.Card.Kind.Lift(), Sets: d.Card.Sets()}
	e.HeavyLegs = d.Card.Kind.HeavyLowerBody() && e.Sets[Lower] >= 2
	return e
}

// Effect is no work, and the hold if there is one.
func (h Held) Effect() Effect {
	e := Effect{Free: slices.Clone(h.Free)}
	if h.Clearance {
		hold := h.Hold
		e.Hold = &hold
	}
	return e
}
