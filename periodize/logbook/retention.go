package logbook

import (
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// Setting is what must be known besides the log to say what the time behind and
// the time ahead hold. Sessions and events of which the log tells nothing may
// have been done, or not: they count in one of two bounds.
type Setting struct {
	// Today parts the past from what is ahead. What is told of it counts as done.
	// Unset: the date of the newest entry.
	Today   calendar.Date
	Athlete season.Athlete   // age and training age are read
	Issued  []season.Session // sessions as they were planned
	Events  []calendar.Placed
	// Plays is how many minutes of a game the athlete is expected to play: a
	// starter's are known, those of a bench are not.
	Plays Maybe[int]
}

func (s Setting) settled(v *View) Setting {
	if s.Today.IsZero() {
		s.Today = Given{}.settled(v).Today
	}
	return s
}

// Band is the dates between which a quality fades after its last stimulus: an
// expert table of trained adults (see [load.Quality.Residual]), not measured on
// the athlete. A quality is not gone when its band has passed. A date is unset
// where nothing is known.
type Band struct {
	Early, Middle, Late calendar.Date
}

// Last is the last date on which a quality was kept.
type Last struct {
	Stimulus
	Days  int // dates from then to today
	Band  Band
	Phase load.ResidualPhase // of today
}

// Known reports whether there is one.
func (l Last) Known() bool { return !l.Date.IsZero() }

// Ahead is the first date, from today to the last of a plan, on which a quality
// reaches each edge of its band, if the plan is done. Unset: it does not up to
// then, or nothing is known from which it could be counted.
type Ahead struct {
	To     calendar.Date // last date of the plan; unset without one
	Sooner Band          // with what is sure alone
	Later  Band          // with what may be as well
}

// Retention is how long ago a quality was last trained enough to keep it.
type Retention struct {
	Quality load.Quality
	Sure    Last // the last date that is sure
	Perhaps Last // the last date that may be; the same where none is later
	Ahead   Ahead
	// Notes say whose table it is, and that it may not fit this athlete.
	Notes []season.Note
}

// Edges says of each quality, in the order of [Qualities], when it was last
// trained enough, by what is sure and by what may be, and on which date it first
// reaches an edge of its band under a plan. Ask again with another plan to
// compare the two; nil is none.
//
// What counts is told by [Sufficient]. Sport counts for speed only where it was
// played or sprinted.
func Edges(v View, s Setting, plan *season.Plan) []Retention {
	s = s.settled(&v)
	past, ahead := s.past(&v), s.ahead(&v, plan)
	notes := s.caveats()
	var out []Retention
	for _, q := range Qualities() {
		r := Retention{Quality: q, Notes: notes}
		done := stimuli(past, q)
		for _, x := range done {
			r.Perhaps = s.last(q, x)
			if x.Sure {
				r.Sure = r.Perhaps
			}
		}
		if plan != nil {
			all := stimuli(slices.Concat(past, ahead), q)
			sure := slices.DeleteFunc(slices.Clone(all), func(x Stimulus) bool { return !x.Sure })
			r.Ahead.To = plan.Period.To
			r.Ahead.Sooner, r.Ahead.Later = s.reach(q, sure, plan.Period.To), s.reach(q, all, plan.Period.To)
		}
		out = append(out, r)
	}
	return out
}

func (s *Setting) last(q load.Quality, x Stimulus) Last {
	l := Last{Stimulus: x, Days: s.Today.DaysSince(x.Date)}
	if b, ok := q.ResidualAfter(load.Day(x.Date.DayNumber())); ok {
		l.Band = Band{dateOf(b.Early), dateOf(b.Middle), dateOf(b.Late)}
		l.Phase = b.Phase(load.Day(s.Today.DayNumber()))
	}
	return l
}

func dateOf(d load.Day) calendar.Date { return calendar.DateFromDayNumber(int(d)) }

// reach is the first date from today to the last on which the latest stimulus
// lies so far back that an edge is reached.
func (s *Setting) reach(q load.Quality, list []Stimulus, to calendar.Date) (out Band) {
	first := func(edge func(load.ResidualBand) load.Day) calendar.Date {
		for i, x := range list {
			b, ok := q.ResidualAfter(load.Day(x.Date.DayNumber()))
			if !ok {
				continue
			}
			at := dateOf(edge(b))
			if at.Before(s.Today) {
				at = s.Today
			}
			if !at.After(to) && (i+1 == len(list) || list[i+1].Date.After(at)) {
				return at
			}
		}
		return calendar.Date{}
	}
	out.Early = first(func(b load.ResidualBand) load.Day { return b.Early })
	out.Middle = first(func(b load.ResidualBand) load.Day { return b.Middle })
	out.Late = first(func(b load.ResidualBand) load.Day { return b.Late })
	return out
}

// caveats say whom the table of residual effects was made for.
func (s *Setting) caveats() []season.Note {
	out := []season.Note{note("retention-table")}
	age, known := s.Athlete.Born.AgeOn(s.Today)
	switch months := s.Athlete.TrainingAgeMonths; {
	case !known || age < 18:
		out = append(out, note("retention-young"))
	case months < 0:
		out = append(out, note("retention-unknown"))
	case months < 12:
		out = append(out, note("retention-newcomer", "months", months))
	}
	return out
}
