package exercise

import (
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Ages and gaps at which content changes. Common practice, no source, but for
// the gap of 28 dates (Mujika and Padilla 2000, 2001: strength is kept up to
// about four weeks).
const (
	beginnerUnder = 14
	adultFrom     = 18
	olderFrom     = 33
	gapSetLess    = 7
	gapLoadLess   = 14
	gapBeginner   = 28
	benchUnder    = 30 // minutes played
	starterFrom   = 60
	weekSetsMost  = 12 // of a region
)

// asked is an input made ready: what the athlete may and should do.
type asked struct {
	in       *Input
	c        *compiled
	kit      *ready
	curve    load.Curve
	records  map[int][]record
	last     map[int]DoneSet
	age      int
	ageKnown bool
	minor    bool
	beginner bool
	level    int
	months   int
	keeper   bool
	older    bool
	bar      barred
	gap      int // lift-free dates before this one; -1 unknown
	cut      int // percent of load taken off
	eased    int // percent of the written load taken off on the day
	less     int // rounds taken off
	firstSet bool
	familiar bool   // nothing new
	used     []int8 // by exercise: in which of the last cards of the kind it was, 1 the last, 0 in none
	cards    int8   // of the kind, looked at
	known    []bool // by exercise
	mains    map[Pattern]lastMain
	recorded map[Pattern]bool // patterns of main lifts with a maximum that may be done today
	lastMain Pattern
	keep     *Card // written before, to be kept where it can be
	notes    []season.Note
	avoid    map[int]bool
	shrink   bool // the card may be shorter than the minutes
}

type lastMain struct {
	id    string
	since calendar.Date
	over  bool // another one came before
}

// athleteMonths is the training age, 0 if unknown.
func (a *asked) who() {
	ath := a.in.Athlete
	a.age, a.ageKnown = ath.Born.AgeOn(a.in.Session.Date)
	if !a.ageKnown {
		a.age = 13 // the safeguards of a 13- to 15-year-old beginner
	}
	a.minor = a.age < adultFrom
	a.months = max(ath.TrainingAgeMonths, 0)
	a.beginner = a.months < 12 || a.age < beginnerUnder || !a.ageKnown
	switch {
	case a.beginner && a.months >= 2:
		a.level = 1
	case a.beginner:
		a.level = 0
	case a.months > 36:
		a.level = 3
	default:
		a.level = 2
	}
	role := strings.ToLower(ath.Role)
	a.keeper = strings.Contains(role, "keeper") || strings.Contains(role, "goalie")
	a.older = a.age >= olderFrom && a.ageKnown
	if a.minor {
		a.say("card-supervised")
	}
	if a.in.Profile.GrowthSpurt {
		a.say("card-growth")
		a.say("question-heel-knee")
	}
	if a.older {
		a.say("card-older", "age", a.age)
	}
}

func (a *asked) say(code string, kv ...any) { a.notes = append(a.notes, note(code, kv...)) }

// before reads the history: gaps, illness, what was done last.
func (a *asked) before() {
	h, d, s := &a.in.History, a.in.Session.Date, &a.in.Session
	a.gap = -1
	for _, l := range h.Lifts {
		if l.Before(d) {
			if g := d.DaysSince(l) - 1; a.gap < 0 || g < a.gap {
				a.gap = g
			}
		}
	}
	if s.Kind.Lift() && s.Kind != season.Primer {
		switch {
		case a.gap >= gapBeginner:
			a.beginner, a.firstSet = true, true
			a.say("card-restart-28", "days", a.gap)
		case a.gap >= gapLoadLess:
			a.less, a.cut = 1, 10
			a.say("card-restart-14", "days", a.gap)
		case a.gap >= gapSetLess:
			a.less = 1
			a.say("card-restart", "days", a.gap)
		}
	}
	if until, ok := reducedUntil(h.Illness, d); ok {
		a.less, a.cut = max(a.less, 1), max(a.cut, 10)
		a.say("card-after-illness", "date", until)
	}
	a.used = make([]int8, len(a.c.list))
	a.known = make([]bool, len(a.c.list))
	a.mains = map[Pattern]lastMain{}
	for _, x := range h.Sets {
		if e := a.c.find(x.Exercise); e != nil {
			a.known[e.at] = true
		}
	}
	for i := len(h.Cards) - 1; i >= 0; i-- {
		a.card(&h.Cards[i])
	}
	near := false
	for _, g := range s.GameDay {
		near = near || g.Days == -1 || g.Days == -2
	}
	if a.familiar = (near || a.in.Exam) && len(h.Cards) >= familiarCards; a.familiar {
		a.say("card-familiar")
	}
}

// familiarCards is after how many cards there is something to call familiar.
const familiarCards = 6

// mainBlock is how many dates a main lift is kept at least, and how old a card
// may be to count at all. Common practice, no source.
const mainBlock = 42

func (a *asked) card(c *Card) {
	if len(c.Blocks) == 0 {
		return
	}
	full := c.Kind.Lift() && c.Kind != season.Primer
	same := c.Kind == a.in.Session.Kind || full && a.in.Session.Kind.Lift() && a.in.Session.Kind != season.Primer
	counted := same && a.cards < 3
	if counted {
		a.cards++
	}
	for i := range c.Blocks {
		b := &c.Blocks[i]
		for j := range b.Items {
			it := &b.Items[j]
			at, ok := a.c.at[it.ID]
			if !ok {
				continue
			}
			a.known[at] = true
			if b.Rounds > 0 && counted && a.used[at] == 0 {
				a.used[at] = a.cards
			}
			if it.Slot == slotMain && full && c.Date.Before(a.in.Session.Date) {
				a.mainDone(it, c.Date)
			}
		}
	}
}

// mainDone follows a main lift back through the cards.
func (a *asked) mainDone(it *Item, d calendar.Date) {
	p := Pattern(it.Exercise.Pattern)
	if a.lastMain == "" {
		a.lastMain = p
	}
	m, ok := a.mains[p]
	switch {
	case !ok:
		a.mains[p] = lastMain{id: it.ID, since: d}
	case m.id != it.ID:
		m.over = true
		a.mains[p] = m
	case !m.over:
		m.since = d
		a.mains[p] = m
	}
}

// ill reports whether a date lies in an illness or on the free date after it.
func ill(list []Illness, d calendar.Date) bool {
	for _, x := range list {
		if !d.Before(x.From) && (x.To.IsZero() || d.DaysSince(x.To) <= 1) {
			return true
		}
	}
	return false
}

// reducedUntil is the last date of reduced work: after one whole free date, as
// many dates as the illness had.
func reducedUntil(list []Illness, d calendar.Date) (until calendar.Date, ok bool) {
	for _, x := range list {
		if x.To.IsZero() {
			continue
		}
		days := x.To.DaysSince(x.From) + 1
		last := x.To.AddDays(1 + days)
		if n := d.DaysSince(x.To); n > 1 && n <= 1+days && (!ok || last.After(until)) {
			until, ok = last, true
		}
	}
	return until, ok
}

// played is the minutes of the last game of the two dates before or on a date.
func (a *asked) played() (minutes int, ok bool) {
	best := -1
	for _, p := range a.in.History.Played {
		if n := a.in.Session.Date.DaysSince(p.Date); n >= 0 && n <= 2 && (best < 0 || n < best) {
			minutes, ok, best = p.Minutes, true, n
		}
	}
	return minutes, ok
}

// may reports whether an exercise can be chosen at all, and on which side if
// only on one.
func (a *asked) may(e *entry) (side string, ok bool) {
	if a.avoid[e.at] || e.Skill > a.level || !a.kit.fits(e) {
		return "", false
	}
	if a.age < 12 && (e.Load != Body || e.Skill > 0) {
		return "", false
	}
	if e.Impact == 2 && (a.minor && a.beginner || a.in.Profile.GrowthSpurt) {
		return "", false
	}
	if e.Eccentric && e.region == Lower && a.in.Profile.GrowthSpurt || e.Eccentric && e.Pattern == KneeFlexion && a.in.Profile.GrowthSpurt {
		return "", false
	}
	if e.Eccentric && a.in.Session.Kind == season.Trimmed {
		return "", false
	}
	return a.bar.allows(e)
}

func names(c *compiled, list []string) map[int]bool {
	out := map[int]bool{}
	for _, n := range list {
		if e := c.find(n); e != nil {
			out[e.at] = true
		}
	}
	return out
}

// recordedPatterns finds the patterns of main lifts of which something is known.
func (a *asked) recordedPatterns() {
	a.recorded = map[Pattern]bool{}
	for _, p := range mainPatterns {
		for _, i := range a.c.slots[p] {
			e := &a.c.list[i]
			if _, ok := a.may(e); ok && e.Role == Main && a.hasRecord(e) {
				a.recorded[p] = true
			}
		}
	}
}

func (a *asked) hasRecord(e *entry) bool {
	_, done := a.last[e.at]
	return len(a.records[e.at]) > 0 || done
}

// relative is the name of a relative that may be done, "" if there is none.
func (a *asked) relative(ids []string) string {
	for _, id := range ids {
		if e := a.c.find(id); e != nil {
			if side, ok := a.may(e); ok && side == "" {
				return e.Name
			}
		}
	}
	return ""
}

func contains[T comparable](list []T, x T) bool { return slices.Contains(list, x) }
