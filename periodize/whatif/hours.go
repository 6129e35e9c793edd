package whatif

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// placeChange changes one place.
type placeChange struct {
	id   string
	text string
	to   func(e *editor, p *season.Place)
}

func (c placeChange) String() string { return c.text }

func (c placeChange) apply(e *editor) {
	at := slices.IndexFunc(e.req.Places, func(p season.Place) bool { return p.ID == c.id })
	if at < 0 {
		var ids []string
		for _, p := range e.req.Places {
			ids = append(ids, p.ID)
		}
		remedy := "the request names no places: add them first"
		if len(ids) > 0 {
			slices.Sort(ids)
			remedy = "use one of: " + calendar.Inert(strings.Join(ids, ", "))
		}
		e.bad(season.CodeUnknownPlace, c.id, "there is no place of this id", remedy)
		return
	}
	places := slices.Clone(e.req.Places)
	c.to(e, &places[at])
	e.req.Places = places
	e.touched.Places = append(e.touched.Places, c.id)
}

// ClosePlace closes a place on all dates of a period.
func ClosePlace(id string, dates season.Period) Change {
	return placeChange{id, fmt.Sprintf("%s closed %s to %s", calendar.Inert(id), dates.From, dates.To), func(e *editor, p *season.Place) {
		if dates.Days() == 0 {
			e.bad(season.CodeSpan, dates.From.String()+" to "+dates.To.String(), "no date lies in this span", "give the first date, then the last")
			return
		}
		p.Closed = append(slices.Clone(p.Closed), dates)
		for d := dates.From; !d.After(dates.To) && d.DaysSince(dates.From) < season.MaxPeriodDays; d = d.AddDays(1) {
			e.touched.Dates = append(e.touched.Dates, d)
		}
	}}
}

// OpenHours opens a place at more clock times on some days of each week. A place
// without hours is open anyway, and then it is an error.
func OpenHours(place string, h season.Hours) Change {
	h = own(h)
	return placeChange{place, calendar.Inert(place) + " open " + hoursText(h), func(e *editor, p *season.Place) {
		if len(p.Hours) == 0 {
			e.bad(season.CodeEdit, place, "it has no hours, so it is always open", "leave this change out")
			return
		}
		if e.hours(h) {
			p.Hours = append(slices.Clone(p.Hours), h)
		}
	}}
}

// CloseHours closes a place at clock times on some days of each week.
func CloseHours(place string, h season.Hours) Change {
	h = own(h)
	return placeChange{place, calendar.Inert(place) + " closed " + hoursText(h), func(e *editor, p *season.Place) {
		if !e.hours(h) {
			return
		}
		list := p.Hours
		if len(list) == 0 {
			list = []season.Hours{{Days: everyDay(), From: 0, To: calendar.EndOfDay}}
		}
		list = without(list, h)
		if len(list) == 0 {
			e.bad(season.CodeEdit, place, "nothing would stay open, and a place without hours counts as always open", "close it by dates, or leave it out of the request")
			return
		}
		p.Hours = list
	}}
}

// Kit replaces the kit of a place; none is a bare floor.
func Kit(place string, kit ...string) Change {
	kit = append([]string{}, kit...)
	what := calendar.Inert(strings.Join(kit, ", "))
	if len(kit) == 0 {
		what = "nothing but a floor"
	}
	return placeChange{place, calendar.Inert(place) + " with " + what, func(_ *editor, p *season.Place) { p.Kit = kit }}
}

// athleteHours changes the hours of the athlete.
type athleteHours struct {
	text string
	to   func(e *editor, list []season.Hours) []season.Hours
	any  bool // also where the athlete has none
}

func (c athleteHours) String() string { return c.text }

func (c athleteHours) apply(e *editor) {
	if len(e.req.Athlete.Hours) == 0 && !c.any {
		e.bad(season.CodeEdit, e.req.Athlete.ID, "the athlete names no hours; those assumed depend on age", "set them first with SetFreeHours")
		return
	}
	list := c.to(e, slices.Clone(e.req.Athlete.Hours))
	if len(list) == 0 {
		e.bad(season.CodeEdit, e.req.Athlete.ID, "no hours would be left, and an athlete without hours gets the assumed ones", "leave some hours, or use a hold")
		return
	}
	e.req.Athlete.Hours = list
	e.touched.Athlete = append(e.touched.Athlete, "hours")
}

// SetFreeHours replaces the hours in which the athlete can train.
func SetFreeHours(list ...season.Hours) Change {
	list = slices.Clone(list)
	for i := range list {
		list[i] = own(list[i])
	}
	var parts []string
	for _, h := range list {
		parts = append(parts, hoursText(h))
	}
	return athleteHours{"athlete free " + strings.Join(parts, "; "), func(e *editor, _ []season.Hours) []season.Hours {
		for _, h := range list {
			e.hours(h)
		}
		return slices.Clone(list)
	}, true}
}

// FreeHours lets the athlete train at more clock times on some days of each week.
func FreeHours(h season.Hours) Change {
	h = own(h)
	return athleteHours{"athlete also free " + hoursText(h), func(e *editor, list []season.Hours) []season.Hours {
		e.hours(h)
		return append(list, h)
	}, false}
}

// BusyHours takes clock times on some days of each week from the athlete.
func BusyHours(h season.Hours) Change {
	h = own(h)
	return athleteHours{"athlete busy " + hoursText(h), func(e *editor, list []season.Hours) []season.Hours {
		if !e.hours(h) {
			return list
		}
		return without(list, h)
	}, false}
}

// longer lengthens every stretch of hours.
type longer struct{ minutes int }

// Longer lengthens each stretch of hours of the athlete and of every place at
// its end, 24:00 at the latest. Minutes are 1 to 720.
func Longer(minutes int) Change { return longer{minutes} }

func (c longer) String() string { return fmt.Sprintf("open %d minutes longer", c.minutes) }

func (c longer) apply(e *editor) {
	if c.minutes < 1 || c.minutes > 720 {
		e.bad(season.CodeRange, fmt.Sprint(c.minutes), "hours become 1 to 720 minutes longer", "give other minutes")
		return
	}
	stretch := func(list []season.Hours) []season.Hours {
		list = slices.Clone(list)
		for i := range list {
			list[i].To = min(calendar.EndOfDay, list[i].To+calendar.Clock(c.minutes*60))
		}
		return list
	}
	if len(e.req.Athlete.Hours) > 0 {
		e.req.Athlete.Hours = stretch(e.req.Athlete.Hours)
		e.touched.Athlete = append(e.touched.Athlete, "hours")
	}
	places := slices.Clone(e.req.Places)
	any := len(e.req.Athlete.Hours) > 0
	for i := range places {
		if len(places[i].Hours) > 0 {
			any = true
			places[i].Hours = stretch(places[i].Hours)
			e.touched.Places = append(e.touched.Places, places[i].ID)
		}
	}
	if !any {
		e.bad(season.CodeEdit, "", "neither the athlete nor a place has hours", "give hours first")
		return
	}
	e.req.Places = places
}

// own copies hours: a change is a value, whatever becomes of what it was made from.
func own(h season.Hours) season.Hours {
	h.Days = slices.Clone(h.Days)
	return h
}

func everyDay() []time.Weekday {
	return []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday}
}

// hours checks a stretch of hours.
func (e *editor) hours(h season.Hours) bool {
	good := true
	if len(h.Days) == 0 {
		e.bad(season.CodeMissing, "", "no day of the week is given", "give the days")
		good = false
	}
	for _, d := range h.Days {
		if d < time.Sunday || d > time.Saturday {
			e.bad(season.CodeChoice, fmt.Sprint(int(d)), "there is no such day of the week", "use Sunday (0) to Saturday (6)")
			good = false
		}
	}
	if !h.From.Valid() || !h.To.Valid() || h.To <= h.From {
		e.bad(season.CodeClosing, fmt.Sprintf("%s to %s", h.From, h.To), "it ends before it begins, or is no time of day", "give clock times from 00:00 to 24:00, the earlier first")
		good = false
	}
	return good
}

// without takes clock times on some days from a list of hours.
func without(list []season.Hours, take season.Hours) []season.Hours {
	var out []season.Hours
	for _, h := range list {
		var kept, cut []time.Weekday
		for _, d := range h.Days {
			if slices.Contains(take.Days, d) {
				cut = append(cut, d)
			} else {
				kept = append(kept, d)
			}
		}
		put := func(days []time.Weekday, from, to calendar.Clock) {
			if len(days) > 0 && from < to {
				out = append(out, season.Hours{Days: days, From: from, To: to})
			}
		}
		put(kept, h.From, h.To)
		put(cut, h.From, min(h.To, take.From))
		put(cut, max(h.From, take.To), h.To)
	}
	return out
}

func hoursText(h season.Hours) string {
	var days []string
	for _, d := range h.Days {
		if d >= time.Sunday && d <= time.Saturday {
			days = append(days, d.String()[:3])
		}
	}
	return fmt.Sprintf("%s %s-%s", strings.Join(days, " "), h.From, h.To)
}
