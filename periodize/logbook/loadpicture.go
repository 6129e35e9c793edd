package logbook

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/season"
)

// topRating is the highest session rating there is: what was not rated lies
// between 0 and it.
const topRating = 10

// LoadOptions say what is drawn. Sessions and events that are over and of which
// nothing is told have a load that is not known.
type LoadOptions struct {
	Setting
	Period  season.Period // dates to draw, the first ten years of them; unset: those of the log
	Week    *time.Weekday // first day of a week; nil is Monday
	Divisor load.Divisor  // of the standard deviation of a week
	// EmptyIsRest takes a date for a rest day on which nothing was planned, nothing
	// stood in the calendar and nothing is told. Else such a date is missing: an
	// unknown day is not a rest day.
	EmptyIsRest bool
	// Ratio asks for the load of the last week over that of the last four. It
	// describes; nothing is planned by it, and a note says what is wrong with it.
	Ratio bool
}

// Range is a load of which a part may not be known: session rating times minutes,
// in arbitrary units.
type Range struct {
	Least, Most load.AU
	Open        bool // nothing bounds it from above; Most is then what is known
}

// Known reports whether the load is known.
func (r Range) Known() bool { return !r.Open && r.Least == r.Most }

func (r Range) plus(o Range) Range {
	return Range{r.Least + o.Least, r.Most + o.Most, r.Open || o.Open}
}

// hull is the range that holds both: two things are told of one.
func (r Range) hull(o Range) Range {
	return Range{min(r.Least, o.Least), max(r.Most, o.Most), r.Open || o.Open}
}

// LoadDay is the load of a date by what it came from.
type LoadDay struct {
	Date                    calendar.Date
	Lifts, Practices, Games Range
	Total                   Range
	// Missing says that the load is not known: nothing is told of the date, or not
	// all that is needed. It is to be drawn as missing, never as 0.
	Missing bool
	Rest    bool // nothing was done, as far as is known
}

// LoadWeek sums up seven dates.
type LoadWeek struct {
	From                    calendar.Date
	Lifts, Practices, Games Range
	Total                   Range
	Missing                 int // dates of the seven whose load is not known
	// Monotony is the mean of the day loads over their standard deviation, Strain
	// the week's load times it (Foster 1998, see [load.WeekLoad]). Not defined
	// where a date is missing or all are equal.
	Monotony Maybe[float64]
	Strain   Maybe[load.AU]
	// Ratio is the mean load of the last 7 dates over that of the last 28, those 7
	// among them, at the end of the week (see [load.Coupled]). Not defined unless
	// asked for, and where one of the 28 is missing.
	Ratio Maybe[float64]
}

// LoadPicture is the load of practice, games and lifts by date and week.
type LoadPicture struct {
	Days  []LoadDay
	Weeks []LoadWeek // all that touch the period; dates outside it are missing
	Notes []season.Note
}

// Loads draws the load of the dates of a period up to today: session rating times
// minutes, by [load.SessionLoad]. Minutes that are not told are those between
// start and end, else those that were planned count as the most there can have
// been; a rating that is not told lies between 0 and 10. Where two entries tell
// different things of one event, the load lies between them.
func (v View) Loads(o LoadOptions) LoadPicture {
	o.Setting = o.Setting.settled(&v)
	if o.Period.From.IsZero() || o.Period.To.IsZero() {
		o.Period = season.Period{From: o.Today, To: o.Today}
		for i := range v.Entries {
			if d := v.Entries[i].Date(); !d.IsZero() && d.Before(o.Period.From) {
				o.Period.From = d
			}
		}
	}
	if o.Period.To.After(o.Today) {
		o.Period.To = o.Today
	}
	var p LoadPicture
	n := min(o.Period.Days(), maxLoadDates)
	if n <= 0 {
		return p
	}
	p.Days = make([]LoadDay, n)
	seen := make([]bool, n)
	for i := range p.Days {
		p.Days[i].Date = o.Period.From.AddDays(i)
	}
	for _, x := range v.loads(&o) {
		i := x.date.DaysSince(o.Period.From)
		if i < 0 || i >= n {
			continue
		}
		d := &p.Days[i]
		seen[i] = true
		switch x.of {
		case OfGame:
			d.Games = d.Games.plus(x.Range)
		case OfPractice:
			d.Practices = d.Practices.plus(x.Range)
		default:
			d.Lifts = d.Lifts.plus(x.Range)
		}
	}
	for i := range p.Days {
		d := &p.Days[i]
		if !seen[i] && !o.EmptyIsRest {
			d.Total.Open = true
		}
		d.Total = d.Total.plus(d.Lifts).plus(d.Practices).plus(d.Games)
		d.Missing = !d.Total.Known()
		d.Rest = !d.Missing && d.Total.Most == 0
	}
	p.weeks(&o)
	if o.Ratio {
		p.Notes = append(p.Notes, note("load-ratio"))
	}
	if o.EmptyIsRest {
		p.Notes = append(p.Notes, note("load-empty"))
	}
	return p
}

// maxLoadDates bounds a picture: ten years.
const maxLoadDates = 3660

// day is the load of a date as package load has it.
func (p *LoadPicture) day(d calendar.Date) load.DayLoad {
	i := d.DaysSince(p.Days[0].Date)
	if i < 0 || i >= len(p.Days) || p.Days[i].Missing {
		return load.DayLoad{}
	}
	return load.Known(p.Days[i].Total.Most)
}

func (p *LoadPicture) weeks(o *LoadOptions) {
	first := time.Monday
	if o.Week != nil {
		first = *o.Week
	}
	to := p.Days[len(p.Days)-1].Date
	for from := calendar.WeekStart(p.Days[0].Date, first); !from.After(to); from = from.AddDays(7) {
		w := LoadWeek{From: from}
		var days [7]load.DayLoad
		for k := range days {
			days[k] = p.day(from.AddDays(k))
			if i := from.AddDays(k).DaysSince(p.Days[0].Date); i >= 0 && i < len(p.Days) {
				d := &p.Days[i]
				w.Lifts, w.Practices, w.Games, w.Total = w.Lifts.plus(d.Lifts), w.Practices.plus(d.Practices), w.Games.plus(d.Games), w.Total.plus(d.Total)
			} else {
				w.Total.Open = true
			}
			if !days[k].Known {
				w.Missing++
			}
		}
		if sum, ok := load.Week(days, o.Divisor); ok {
			if m, ok := sum.Monotony(); ok {
				w.Monotony = Told(m)
			}
			if s, ok := sum.Strain(); ok {
				w.Strain = Told(s)
			}
		}
		if o.Ratio {
			var month [28]load.DayLoad
			for k := range month {
				month[k] = p.day(from.AddDays(k - 21))
			}
			if ac, ok := load.Coupled(month[:]); ok {
				if r, ok := ac.Ratio(); ok {
					w.Ratio = Told(r)
				}
			}
		}
		p.Weeks = append(p.Weeks, w)
	}
}

// dose is one thing that was done, or may have been, with its load.
type dose struct {
	date calendar.Date
	of   Kind
	Range
}

// bounds is the load of a rating and minutes, either of which may not be known.
// most is how many minutes there can have been, 0 if nobody knows.
func bounds(rating Maybe[load.SessionRating], minutes Maybe[int], most int) Range {
	length := most
	if minutes.Known {
		length = minutes.Value
	}
	high := load.SessionRating(topRating)
	if rating.Known {
		high = rating.Value
	}
	top, ok := load.SessionLoad(high, load.Minutes(length))
	if !ok {
		return Range{Open: true}
	}
	switch {
	case rating.Known && rating.Value == 0, minutes.Known && minutes.Value == 0:
		return Range{}
	case rating.Known && minutes.Known:
		return Range{Least: top, Most: top}
	case !minutes.Known && most == 0:
		return Range{Open: true}
	}
	return Range{Most: top}
}

// loads lists all that was done, or may have been, up to today.
func (v View) loads(o *LoadOptions) []dose {
	length := map[string]int{} // minutes of what was planned, by id
	for i := range o.Issued {
		length[o.Issued[i].ID] = o.Issued[i].Minutes
	}
	for i := range o.Events {
		length[o.Events[i].ID] = int(o.Events[i].Span.Duration() / time.Minute)
	}
	var out []dose
	at := map[string]int{} // of a planned session or event in out
	put := func(e *Entry, planned string, r Range) {
		if planned != "" {
			if i, ok := at[planned]; ok {
				out[i].Range = out[i].hull(r)
				return
			}
			at[planned] = len(out)
		}
		out = append(out, dose{e.Date(), e.What.Kind(), r})
	}
	take := func(e *Entry, dispute string, together bool) {
		took := func(minutes Maybe[int]) Maybe[int] {
			if end, ok := e.ended(); ok && !minutes.Known {
				start, _ := e.At()
				return Told(int(end.Sub(start) / time.Minute))
			}
			return minutes
		}
		var r Range
		planned := ""
		switch w := e.What.(type) {
		case Session:
			planned = w.Planned
			r = bounds(w.Rating, took(w.Minutes), length[planned])
			switch w.State {
			case Missed:
				r = Range{}
			case Unknown:
				r.Least = 0
			}
		case Game:
			// From start to end of a game are not the minutes on the field.
			planned, r = w.Event, bounds(w.Rating, w.Minutes, length[w.Event])
		case Practice:
			planned, r = w.Event, bounds(w.Rating, took(w.Minutes), length[w.Event])
		default:
			return
		}
		if dispute != "" {
			if !together {
				r.Least = 0
			}
			if planned == "" {
				planned = "dispute " + dispute
			}
		}
		put(e, planned, r)
	}
	for i := range v.Entries {
		take(&v.Entries[i], "", false)
	}
	for _, d := range v.Disputed {
		for i := range d.Entries {
			take(&d.Entries[i], d.ID, d.together)
		}
	}
	unknown := Maybe[load.SessionRating]{}
	for _, s := range o.Issued {
		if _, ok := at[s.ID]; s.ID != "" && !ok && !s.Date.After(o.Today) {
			at[s.ID] = len(out)
			out = append(out, dose{s.Date, OfSession, bounds(unknown, Maybe[int]{}, s.Minutes)})
		}
	}
	for i := range o.Events {
		e := &o.Events[i]
		if _, ok := at[e.ID]; ok || !e.Active() || e.Date.After(o.Today) {
			continue
		}
		switch e.Kind {
		case calendar.Game:
			out = append(out, dose{e.Date, OfGame, bounds(unknown, Maybe[int]{}, length[e.ID])})
		case calendar.Practice, calendar.Skills:
			out = append(out, dose{e.Date, OfPractice, bounds(unknown, Maybe[int]{}, length[e.ID])})
		}
	}
	return out
}

// ended is the instant at which an entry ended, if that is told.
func (e *Entry) ended() (time.Time, bool) {
	if !e.HasEnd || e.End.IsZero() || e.Zone.IsZero() || e.DateOnly {
		return time.Time{}, false
	}
	return e.Zone.Resolve(e.End).Instant, true
}
