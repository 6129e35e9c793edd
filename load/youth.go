package load

import (
	"slices"
	"time"
)

// SupervisionLevel is the kind of group that a coach watches over.
type SupervisionLevel uint8

// The levels.
const (
	MiddleSchool SupervisionLevel = iota
	SecondarySchool
	Adults
)

// AthletesPerCoach is the most athletes that one coach supervises: 10, 15 and
// 20. Sources disagree: a club may set its own number. Undefined for an unknown
// level.
//
// Source: NSCA professional standards, from memory.
func (l SupervisionLevel) AthletesPerCoach() (int, bool) {
	switch l {
	case MiddleSchool:
		return 10, true
	case SecondarySchool:
		return 15, true
	case Adults:
		return 20, true
	}
	return 0, false
}

// CoachesNeeded is the number of coaches for a group, athletes over the ratio
// rounded up. Undefined for a negative group and a ratio below 1.
//
// Source: derived.
func CoachesNeeded(athletes, perCoach int) (int, bool) {
	if athletes < 0 || perCoach < 1 {
		return 0, false
	}
	n := athletes / perCoach
	if athletes%perCoach > 0 {
		n++
	}
	return n, true
}

// HoursOverAge reports whether the organised hours of sport in a week are more
// than the age in years: at age 12, 12 h are not, 12.5 h are. An association
// with injury in a group, not a threshold for one athlete. Undefined for an age
// outside 4 to 18 and hours outside 0 to 168.
//
// Source: Jayanthi et al. 2015, AJSM 43:794-801, via secondary text.
func HoursOverAge(age Years, organised time.Duration) (over, ok bool) {
	if !within(float64(age), 4, 18) || organised < 0 || organised > 168*time.Hour {
		return false, false
	}
	return organised.Hours() > float64(age), true
}

// YouthRest is the time off that young athletes are due.
type YouthRest struct {
	DaysOffAWeek                  int // from all organised sport, at least
	DaysAWeekOfOneSport           int // at most
	MonthsAwayLow, MonthsAwayHigh int // a year, from one sport
	Source                        string
}

// RestOfYouth is at least one day a week off all organised sport, one sport on
// at most five days a week, and two to three months a year away from it.
//
// Source: AAP 2007, Pediatrics 119:1242-1245, via secondary text; revised 2024,
// Pediatrics 153(2):e2023065129, seen that it exists.
func RestOfYouth() YouthRest {
	return YouthRest{1, 5, 2, 3, "AAP 2007, Pediatrics 119:1242-1245"}
}

// YouthStage is how far a young lifter has come.
type YouthStage uint8

// The stages.
const (
	YouthStart    YouthStage = iota // learning the exercises
	YouthProgress                   // technique is safe
)

// YouthDose is the resistance training of a stage. Repetitions are 0 where the
// source gives none.
type YouthDose struct {
	SetsLow, SetsHigh           int
	RepsLow, RepsHigh           int
	PercentHigh                 Percent // of the one-repetition maximum, at most
	DaysAWeekLow, DaysAWeekHigh int     // not consecutive
}

// Dose is one to two sets at up to 60 % at the start, two to four sets of 6 to
// 12 at up to 80 % later, on two to three days a week that do not follow each
// other, always supervised and led by technique. Undefined for an unknown stage.
//
// Source: Lloyd et al. 2014, BJSM 48:498-505; days via secondary text, doses
// from memory.
func (s YouthStage) Dose() (YouthDose, bool) {
	switch s {
	case YouthStart:
		return YouthDose{1, 2, 0, 0, 60, 2, 3}, true
	case YouthProgress:
		return YouthDose{2, 4, 6, 12, 80, 2, 3}, true
	}
	return YouthDose{}, false
}

// ConsecutiveDays lists the pairs of dates that follow each other, in order;
// young lifters should have none. The dates may come in any order and more than
// once.
//
// Source: Lloyd et al. 2014, BJSM 48:498-505, via secondary text.
func ConsecutiveDays(days []Day) [][2]Day {
	sorted := slices.Clone(days)
	slices.Sort(sorted)
	var pairs [][2]Day
	for i := 1; i < len(sorted); i++ {
		if int64(sorted[i])-int64(sorted[i-1]) == 1 {
			pairs = append(pairs, [2]Day{sorted[i-1], sorted[i]})
		}
	}
	return pairs
}
