package exercise

import (
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Input is everything a card is made from. It is not changed.
type Input struct {
	Session season.Session // kind, minutes, date and distance to games are read
	Athlete season.Athlete
	Profile Profile
	Kit     Kit
	History History
	Exam    bool // an exam date: half the usual sets, nothing new
	// Congested weeks hold two games less than 96 h apart: two rounds, not three.
	Congested bool
	Week      Week
	// NextGame is the start of the next game after the session, also of one that
	// may not take place. Unset, it is not known, and dates are counted instead.
	NextGame time.Time
}

// Profile is what the club tells of an athlete beyond planning.
type Profile struct {
	Prehab []string // exercises of every warm-up, by id or name
	Avoid  []string // exercises never chosen, by id or name
	// GrowthSpurt is set if somebody measured and said so; nothing here guesses
	// it.
	GrowthSpurt bool
}

// History is what is known of the time before the session. What is missing is
// unknown and not nothing.
type History struct {
	Cards   []Card          // earlier cards, oldest first
	Lifts   []calendar.Date // dates of lifts that were done; none: unknown
	Sets    []DoneSet       // what was lifted
	Next    []NextLoad      // what a log says comes next; it goes before what follows from Sets
	Illness []Illness
	Played  []Played
	Reports []Complaint // complaints reported on earlier dates
	// WeekSets counts the sets of the week so far by region, WeekIndirect those
	// that train it beside what they are for, see [Card.Indirect].
	WeekSets, WeekIndirect map[Region]int
	// WeekPatterns counts the sets of the week so far by movement pattern, see
	// [Card.PatternSets].
	WeekPatterns map[Pattern]int
}

// DoneSet is one set that was lifted.
type DoneSet struct {
	Exercise string
	Date     calendar.Date
	Load     load.Mass // of one dumbbell where there are two
	Reps     int
	// Left is the repetitions that were left in reserve; -1 is not told and is
	// taken as none, which estimates too little rather than too much.
	Left int
	// Confirmed says that somebody looked at a value that seemed implausible.
	Confirmed bool
}

// Illness is a spell of illness.
type Illness struct {
	From, To calendar.Date // To is its last date, unset while it lasts
	// Until is when fever and symptoms ended, if somebody noted it. Unset, the
	// whole date after To has to be free of them.
	Until time.Time
}

// Played is how long an athlete was on the field in the game of a date.
type Played struct {
	Date    calendar.Date
	Minutes int
}

// mostHistory bounds each list of a history.
const mostHistory = season.MaxLog

// hiddenValue stands for what a problem may not show.
const hiddenValue = "(private)"

// problems finds what is wrong with an input. What is known of health is in no
// text.
func (in *Input) problems(c *compiled) []calendar.Problem {
	f := faults{list: in.Kit.problems("/kit")}
	s := in.Session
	if !s.Kind.Known() {
		f.add("kind-unknown", "/session/kind", string(s.Kind), "no such kind of session", "use one of season.Kinds")
	}
	if s.Minutes < MinMinutes || s.Minutes > MaxMinutes {
		f.add("minutes-range", "/session/minutes", fmt.Sprint(s.Minutes), "a session has 8 to 150 minutes", "give the minutes there are, or hold no session")
	}
	if s.Date.IsZero() {
		f.add("date-missing", "/session/date", "", "there is no date", "give the local date of the session")
	}
	f.list = append(f.list, in.Profile.problems(c, "/profile")...)
	for i, m := range in.Athlete.Maxima {
		path := fmt.Sprintf("/athlete/maxima/%d", i)
		if c.find(m.Exercise) == nil {
			f.add("exercise-unknown", path+"/exercise", m.Exercise, "no such exercise in the catalogue", c.suggest(m.Exercise))
		}
		if m.Grams <= 0 || m.Grams > int64(load.MaxMass) || m.Date.IsZero() {
			f.add("maximum-range", path, load.Mass(m.Grams).String(), "a maximum is above 0 and at most 10000 kg, and has a date", "give load with its unit, and the date")
		}
	}
	for i, r := range in.Athlete.Restrictions {
		if _, ok := regionMask(r.Region); !ok {
			f.add("region-unknown", fmt.Sprintf("/athlete/restrictions/%d/region", i), hiddenValue, "the word for the part of the body is not known here", "use one of BodyWords")
		}
		if !sideWord(r.Side) {
			f.add("side-unknown", fmt.Sprintf("/athlete/restrictions/%d/side", i), hiddenValue, "the word is not known here", "use left, right or both")
		}
	}
	h := in.History
	for _, l := range []struct {
		name string
		n    int
	}{{"cards", len(h.Cards)}, {"lifts", len(h.Lifts)}, {"sets", len(h.Sets)}, {"next", len(h.Next)}, {"illness", len(h.Illness)}, {"played", len(h.Played)}, {"reports", len(h.Reports)}} {
		if l.n > mostHistory {
			f.add("history-size", "/history/"+l.name, fmt.Sprint(l.n), "more than 20000 entries", "leave out what is long past")
		}
	}
	if len(f.list) > 0 && f.list[len(f.list)-1].Code == "history-size" {
		return f.list
	}
	for i, d := range h.Sets {
		path := fmt.Sprintf("/history/sets/%d", i)
		if c.find(d.Exercise) == nil {
			f.add("exercise-unknown", path+"/exercise", d.Exercise, "no such exercise in the catalogue", c.suggest(d.Exercise))
		}
		if d.Load < 0 || d.Load > load.MaxMass || d.Reps < 1 || d.Reps > 1000 || d.Left < -1 || d.Left > 30 || d.Date.IsZero() {
			f.add("set-range", path, fmt.Sprintf("%s x %d", d.Load, d.Reps), "a set has a date, a load up to 10000 kg, 1 to 1000 repetitions and 0 to 30 left", "check the numbers; -1 left is not told")
		}
	}
	for i := range h.Next {
		n := &h.Next[i]
		path := fmt.Sprintf("/history/next/%d", i)
		if c.find(n.Exercise) == nil {
			f.add("exercise-unknown", path+"/exercise", n.Exercise, "no such exercise in the catalogue", c.suggest(n.Exercise))
		}
		if !n.usable() {
			f.add("next-range", path, fmt.Sprintf("%s x %d", n.Load, n.Reps), "a next load has a date, loads up to 10000 kg, up to 1000 repetitions and 0 to 30 left", "take it from the log as it is")
		}
	}
	for i, x := range h.Illness {
		if x.From.IsZero() || !x.To.IsZero() && x.To.Before(x.From) || x.To.IsZero() && !x.Until.IsZero() {
			f.add("illness-span", fmt.Sprintf("/history/illness/%d", i), hiddenValue, "it has no first date, or ends before it, or only its hour", "give first and last date, and the instant if you know it")
		}
	}
	for i, p := range h.Played {
		if p.Date.IsZero() || p.Minutes < 0 || p.Minutes > 300 {
			f.add("played-range", fmt.Sprintf("/history/played/%d", i), fmt.Sprint(p.Minutes), "minutes played are 0 to 300, on a date", "check the number")
		}
	}
	f.list = append(f.list, complaintProblems("/history/reports", h.Reports)...)
	return f.list
}

// problems finds what is wrong with a profile.
func (p *Profile) problems(c *compiled, at string) []calendar.Problem {
	var f faults
	for _, l := range []struct {
		name string
		list []string
	}{{"prehab", p.Prehab}, {"avoid", p.Avoid}} {
		for i, name := range l.list {
			path := fmt.Sprintf("%s/%s/%d", at, l.name, i)
			switch e := c.find(name); {
			case e == nil:
				f.add("exercise-unknown", path, name, "no such exercise in the catalogue", c.suggest(name))
			case l.name == "prehab" && (e.Heavy || e.Role == Powerful):
				f.add("prehab-heavy", path, name, "a heavy or fast exercise is no prehab", "name a corrective or easy one")
			}
		}
	}
	return f.list
}

func sideWord(s string) bool { return slices.Contains([]string{"", "left", "right", "both"}, s) }

func (c *compiled) suggest(name string) string {
	ids := make(map[string]int, len(c.list))
	for i := range c.list {
		ids[c.list[i].ID] = i
	}
	return suggestion(plainWord(name), ids)
}

// The lengths a session may have, in minutes.
const (
	MinMinutes = 8
	MaxMinutes = 150
)
