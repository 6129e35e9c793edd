package season

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
)

// Athlete holds what planning needs of a person, and no more: no name, no
// address, no full date of birth.
type Athlete struct {
	ID   string
	Born YearMonth     // zero: age unknown
	Zone calendar.Zone // zone of the plan
	// TrainingAgeMonths counts months of regular supervised strength training;
	// -1 is unknown.
	TrainingAgeMonths int
	Role              string // free text, such as "goalkeeper"
	Hours             []Hours
	Prefer            []Prefer
	Maxima            []Maximum
	Restrictions      []Restriction
	Holds             []Hold
	OptIns            []OptIn
}

// YearMonth is a month of a year. Zero is unset.
type YearMonth struct{ Year, Month int }

// String returns 2007-03, or "" if unset.
func (y YearMonth) String() string {
	if y == (YearMonth{}) {
		return ""
	}
	return fmt.Sprintf("%04d-%02d", y.Year, y.Month)
}

// AgeOn returns full years on a date. The birthday is taken to be the last day
// of the month, the most protective reading. Unset: ok is false.
func (y YearMonth) AgeOn(d calendar.Date) (years int, ok bool) {
	if y == (YearMonth{}) || d.IsZero() {
		return 0, false
	}
	yr, mo, _ := d.YMD()
	years = yr - y.Year
	_, nextMonth, _ := d.AddDays(1).YMD()
	last := nextMonth != mo
	if mo < y.Month || (mo == y.Month && !last) {
		years--
	}
	return years, true
}

// Hours are clock times on some days of the week.
type Hours struct {
	Days []time.Weekday
	From calendar.Clock
	To   calendar.Clock
}

// Prefer is the start an athlete or club likes best on some days of the week.
type Prefer struct {
	Days  []time.Weekday
	Start calendar.Clock
}

// Maximum is a tested or estimated best of an exercise.
type Maximum struct {
	Exercise string
	Grams    int64
	Kind     string // "tested" or "estimated"
	Date     calendar.Date
}

// Restriction is a written instruction about a region of the body.
type Restriction struct {
	Region string
	Side   string // "left", "right", "both"; "" is asked
	From   calendar.Date
	To     calendar.Date // unset: until changed
	By     string        // role of who set it
}

// Hold keeps an athlete from every session until a named role clears it. A hold
// whose date has passed is still a hold.
type Hold struct {
	From      calendar.Date
	Until     calendar.Date // expected; ends nothing by itself
	ClearedBy string        // role of the clinician who cleared it; "" is not cleared
	ClearedOn calendar.Date
}

// OptIn names something an athlete does only by choice.
type OptIn string

// The opt-ins.
const (
	OptPostGame   OptIn = "post-game"
	OptLowRepSets OptIn = "low-repetition-sets"
)

// OptedIn reports whether the athlete chose it.
func (a Athlete) OptedIn(o OptIn) bool {
	for _, x := range a.OptIns {
		if x == o {
			return true
		}
	}
	return false
}

// Place is where sessions can be done.
type Place struct {
	ID     string
	Hours  []Hours // none: always open
	Closed []Period
	// Kit is what is there to train with; nil: an ordinary gym, empty: nothing but
	// a floor.
	Kit []string
	// Away places go with the team: they are open at away games and on trips,
	// when no other is, and only then.
	Away bool
	// Zone is that of Hours and Closed and of the dates of sessions there; of an
	// away place it also says on which trips it is open. Unset: where the athlete
	// is, see package periodize/rule, definitions.md.
	Zone calendar.Zone
}
