package exercise

import (
	"strings"

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
)

// asked is an input made ready: what the athlete may and should do.
type asked struct {
	in         *Input
	c          *compiled
	kit        *ready
	curve      load.Curve
	records    map[int][]record
	last       map[int]DoneSet
	next       map[int]*NextLoad
	has        []bool // by exercise: there is a record or a last set
	proven     []bool // by exercise: its repetitions were done, with any load or none
	age        int
	ageKnown   bool
	minor      bool
	beginner   bool
	level      int
	months     int
	keeper     bool
	older      bool
	bar        barred
	gap        int // lift-free dates before this one; -1 unknown
	cut        int // percent of load taken off
	eased      int // percent of the written load taken off on the day
	less       int // rounds taken off
	examRounds int // in exams; 0: as usual
	firstSet   bool
	familiar   bool // nothing new
	mem        *memory
	ws         *workspace
	used       []int8    // by exercise: in which of the last cards of its sort it was, 1 the last, 0 in none
	cards      int       // of its sort, looked at
	recorded   []Pattern // of main lifts with a maximum that may be done today
	keep       *Card     // written before, to be kept where it can be
	notes      []season.Note
	avoid      []bool // by exercise
	shrink     bool   // the card may be shorter than the minutes
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
	if until, ok := reducedUntil(h.Illness, s); ok {
		a.less, a.cut = max(a.less, 1), max(a.cut, 10)
		a.say("card-after-illness", "date", until)
	}
	if a.mem == nil {
		a.mem = newMemory(a.c, h, a.in.Week.BlockFrom)
	}
	sort := sortOf(s.Kind)
	a.used, a.cards = a.ws.used, len(a.mem.recent[sort])
	a.mem.usedAt(sort, a.used)
	near := false
	for _, g := range s.GameDay {
		near = near || g.Days == -1 || g.Days == -2
	}
	if a.familiar = (near || a.in.Exam) && a.mem.count >= familiarCards; a.familiar {
		a.say("card-familiar")
	}
}

// familiarCards is after how many cards there is something to call familiar.
const familiarCards = 6

// mainBlock is how many dates a main lift is kept at least, and how old a card
// may be to count at all. Common practice, no source.
const mainBlock = 42

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
// only on one. The answer is kept until the body or the kit is another.
func (a *asked) may(e *entry) maybe {
	m := &a.ws.may[e.at]
	if *m == mayUnknown {
		*m = a.judge(e)
	}
	return *m
}

// judge answers for may.
func (a *asked) judge(e *entry) maybe {
	if a.avoid[e.at] || e.Skill > a.level || !a.kit.fits(e) {
		return mayNot
	}
	if a.age < 12 && (e.Load != Body || e.Skill > 0) {
		return mayNot
	}
	if e.Impact == 2 && (a.minor && a.beginner || a.in.Profile.GrowthSpurt) {
		return mayNot
	}
	if e.Eccentric && e.region == Lower && a.in.Profile.GrowthSpurt || e.Eccentric && e.Pattern == KneeFlexion && a.in.Profile.GrowthSpurt {
		return mayNot
	}
	if e.Eccentric && a.in.Session.Kind == season.Trimmed {
		return mayNot
	}
	side, ok := a.bar.allows(e)
	if !ok {
		return mayNot
	}
	return sideOnly(side)
}

func names(c *compiled, list []string) []bool {
	out := make([]bool, len(c.list))
	for _, n := range list {
		if e := c.find(n); e != nil {
			out[e.at] = true
		}
	}
	return out
}

// recordedPatterns finds the patterns of main lifts of which something is known.
func (a *asked) recordedPatterns() {
	a.recorded = a.ws.recorded[:0]
	for _, p := range mainPatterns {
		for _, i := range a.c.slots[p] {
			e := &a.c.list[i]
			if e.Role == Main && a.hasRecord(e) && a.may(e).ok() {
				a.recorded = append(a.recorded, p)
				break
			}
		}
	}
}

// hasRecord reports whether anything is known of what an athlete lifts in an
// exercise.
func (a *asked) hasRecord(e *entry) bool { return a.has[e.at] }

// relative is the name of a relative that may be done, "" if there is none.
func (a *asked) relative(ids []string) string {
	for _, id := range ids {
		if e := a.c.find(id); e != nil {
			if a.may(e) == mayBoth {
				return e.Name
			}
		}
	}
	return ""
}
