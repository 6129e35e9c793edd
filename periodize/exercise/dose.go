package exercise

import (
	"strconv"

	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// dose is the size of one set of an exercise.
type dose struct {
	reps, high int // repetitions, or holds; high is the top of a band
	secs       int // of work, both sides together
	rest       int // seconds after the set
	left       int // repetitions in reserve; -1 where that means nothing
}

// Rest after a set, in seconds. Within a group the others work while one rests:
// from one set of the main lift to the next are more than two minutes, as the
// handbook's row for strength asks (NSCA Essentials: 2 to 5 min, via secondary
// text).
const (
	restMain     = 120
	restBeginner = 90
	restPower    = 75
	restStrength = 45
	restCare     = 30
	restEasy     = 20
	restSprint   = 75
	changeSides  = 5
	changePlace  = 60 // to the next block

	// primerLeft is the reserve in a primer: with two left, two sets of a
	// lower-body exercise would be heavy lower-body work.
	primerLeft = 4
)

// mainReps is the band of repetitions of a main lift by training age: under a
// year 6 to 8, to three years 4 to 6, beyond 3 to 5 if opted in. Minors under 16
// stay at 6 or more (Lloyd et al. 2014, BJSM 48:498-505: 6 to 12, from memory);
// the rest is common practice, no source.
func (a *asked) mainReps() (low, high int) {
	switch {
	case a.beginner || a.age < 16:
		return 6, 8
	case a.months > 36 && !a.minor && a.in.Athlete.OptedIn(season.OptLowRepSets):
		return 3, 5
	}
	return 4, 6
}

// overYouthMost reports whether so many repetitions to failure are more of the
// maximum than minors lift.
func (a *asked) overYouthMost(reps int) bool {
	x, ok := a.curve.Percent(load.Reps(reps))
	return ok && x.Percent > youthMost
}

func (a *asked) reserve() int {
	if a.beginner {
		return 3
	}
	return 2
}

// doseOf is the dose of an exercise in a class of slot.
func (a *asked) doseOf(e *entry, class class) dose {
	d := dose{left: a.reserve()}
	switch class {
	case classMain:
		d.reps, d.high = a.mainReps()
		d.rest = restMain
		if a.beginner {
			d.rest = restBeginner
		} else {
			mid := (d.reps + d.high) / 2
			for a.minor && mid < d.high && a.overYouthMost(mid+d.left) {
				mid++ // rather a repetition more than a load that is cut each time
			}
			d.reps, d.high = mid, mid
		}
		if e.Load == Body && !a.beginner && e.region == Lower {
			d.reps, d.high = 8, 8
		}
		if e.Role != Main && e.Reps > 0 {
			d.reps, d.high = e.Reps, e.Reps
		}
	case classStrength:
		d.reps, d.rest = 8, restStrength
		if a.in.Session.Kind == season.Primer {
			d.reps, d.left = 5, primerLeft
		}
		if e.Reps > 0 && (a.in.Session.Kind != season.Primer || e.Reps < d.reps) {
			d.reps = e.Reps
		}
		d.high = d.reps
		if a.beginner && e.Reps == 0 {
			d.high = 10
		}
	case classPower:
		d.reps, d.rest, d.left = 4, restPower, -1
	case classSprint:
		d.reps, d.rest, d.left = 1, restSprint, -1
	case classCare:
		d.reps, d.rest, d.left = 10, restCare, -1
	default:
		d.reps, d.rest, d.left = 6, restEasy, -1
	}
	if class <= classStrength && a.light(e) && a.in.Session.Kind != season.Primer {
		d.reps, d.high = 8, 15
	}
	if e.Reps > 0 && class > classStrength {
		d.reps = e.Reps
	}
	if e.Hold || e.quick() || class == classStrength && e.Role == Corrective { // stand-ins end by count
		d.left = -1
	}
	switch {
	case a.brief():
		d.rest /= 3
	case a.in.Exam:
		d.rest = d.rest * 3 / 5
	}
	if d.high < d.reps {
		d.high = d.reps
	}
	seconds := e.Seconds
	if a.slow(e, class) {
		seconds += 2
	}
	d.secs = d.high * seconds
	if e.Sided {
		d.secs = 2*d.secs + changeSides
	}
	return d
}

// slow reports whether an exercise is lowered slowly because the session is an
// eccentric one.
func (a *asked) slow(e *entry, class class) bool {
	return a.in.Session.Kind == season.Eccentric && class <= classStrength && e.region != Trunk && !e.Eccentric && !e.Hold && !e.quick()
}

// quick lifts are stopped before they slow down, not near failure.
func (e *entry) quick() bool { return e.Role == Powerful || e.region == Lower && e.Seconds <= 2 }

// text is the repetitions as printed.
func (d dose) text(e *entry) string {
	s := strconv.Itoa(d.reps)
	if d.high > d.reps {
		s += "-" + strconv.Itoa(d.high)
	}
	if e.Hold {
		s = strconv.Itoa(e.Seconds) + " s"
		if d.reps > 1 {
			s = strconv.Itoa(d.reps) + " x " + s
		}
	}
	return s
}

// brief sessions keep the patterns and shorten the rests.
func (a *asked) brief() bool { return a.in.Session.Minutes < 25 && a.in.Session.Kind != season.Primer }

// change is the seconds it takes to get to the next block.
func (a *asked) change() int {
	if a.brief() || a.in.Exam {
		return changePlace / 3
	}
	return changePlace
}
