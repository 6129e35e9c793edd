package starts

import (
	"cmp"
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// span is a half-open stretch of minutes.
type span struct{ from, to int64 }

// roomy is what the places and the athlete's hours leave of a date, by place.
type roomy struct {
	athlete []span
	places  [][]span
}

// Where an athlete names no hours they begin at 07:00, for minors on school days
// at 15:30, and end with the latest end. Common practice, no source.
const (
	defaultFrom       = 7 * 60
	defaultFromSchool = 15*60 + 30
)

// clockIn is the instant at which the clock of a zone shows a time of a date.
func clockIn(z calendar.Zone, d *Day, c calendar.Clock) int64 {
	if c >= calendar.EndOfDay {
		return midnight(z, d.Date.AddDays(1))
	}
	return floorMinutes(z.Resolve(calendar.Wall{Date: d.Date, Clock: c}).Instant)
}

// At is the instant at which the clock at a place shows a time of a date: of a
// date that comes twice, the first at which the athlete is there. ok is false if
// it never does; then it is the nearest instant of the date.
func (f *Facts) At(d *Day, place int, c calendar.Clock) (at int64, ok bool) {
	for _, p := range f.pieces(d) {
		at = clockIn(f.zoneOf(place, p.from), d, c)
		if p.from <= at && at < p.to {
			return at, true
		}
	}
	return max(d.From, min(at, d.To-1)), false
}

// athleteSpans returns the athlete's hours of a date, in order.
func (f *Facts) athleteSpans(d *Day) []span {
	if len(f.stays) < 2 {
		return f.athleteHours(d, piece{span{d.From, d.To}, f.Zone})
	}
	var out []span
	for _, p := range f.pieces(d) {
		out = append(out, intersect(f.athleteHours(d, p), []span{p.span})...)
	}
	return out
}

func (f *Facts) athleteHours(d *Day, p piece) []span {
	if f.Ignore[Breach{"open-hours", -1}] {
		return []span{p.span}
	}
	wd := d.Date.Weekday()
	if len(f.Athlete.Hours) == 0 {
		from := defaultFrom
		if d.Minor && wd != time.Saturday && wd != time.Sunday {
			from = defaultFromSchool
		}
		return []span{{clockIn(p.zone, d, calendar.Clock(from*60)), p.to}}
	}
	return hoursOn(d, p.zone, f.Athlete.Hours, wd)
}

// hoursOn are hours on a date by the clock of a zone, merged.
func hoursOn(d *Day, z calendar.Zone, hours []season.Hours, wd time.Weekday) []span {
	var out []span
	for _, h := range hours {
		for _, day := range h.Days {
			if day == wd {
				if s := (span{clockIn(z, d, h.From), clockIn(z, d, h.To)}); s.from < s.to {
					out = append(out, s)
				}
			}
		}
	}
	return merge(out)
}

// merge joins spans that touch. It changes its argument.
func merge(spans []span) []span {
	if len(spans) < 2 {
		return spans
	}
	slices.SortFunc(spans, func(a, b span) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	out := spans[:0]
	for _, s := range spans {
		if n := len(out); n > 0 && s.from <= out[n-1].to {
			out[n-1].to = max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return out
}

func intersect(a, b []span) []span {
	var out []span
	for i, j := 0, 0; i < len(a) && j < len(b); {
		lo, hi := max(a[i].from, b[j].from), min(a[i].to, b[j].to)
		if lo < hi {
			out = append(out, span{lo, hi})
		}
		if a[i].to < b[j].to {
			i++
		} else {
			j++
		}
	}
	return out
}

func subtract(a, take []span) []span {
	if len(take) > 1 {
		take = merge(slices.Clone(take))
	}
	var out []span
	for _, s := range a {
		at := s.from
		for _, t := range take {
			if t.to <= at || t.from >= s.to {
				continue
			}
			if t.from > at {
				out = append(out, span{at, t.from})
			}
			at = max(at, t.to)
		}
		if at < s.to {
			out = append(out, span{at, s.to})
		}
	}
	return out
}

// placeSpans returns when a place is open on a date, in order.
func (f *Facts) placeSpans(d *Day, p season.Place) []span {
	if len(f.stays) < 2 {
		return f.placeHours(d, p, piece{span{d.From, d.To}, f.Zone})
	}
	var out []span
	for _, x := range f.pieces(d) {
		out = append(out, intersect(f.placeHours(d, p, x), []span{x.span})...)
	}
	return out
}

func (f *Facts) placeHours(d *Day, p season.Place, x piece) []span {
	z := x.zone
	if !p.Zone.IsZero() {
		z = p.Zone
	}
	open := []span{x.span}
	if !z.Equal(x.zone) {
		// Only while it is the same date there.
		open = intersect(open, []span{{midnight(z, d.Date), clockIn(z, d, calendar.EndOfDay)}})
	}
	if f.Ignore[Breach{"open-hours", -1}] {
		return open
	}
	for _, c := range p.Closed {
		if c.Contains(d.Date) {
			return nil
		}
	}
	if len(p.Hours) > 0 {
		open = intersect(open, hoursOn(d, z, p.Hours, d.Date.Weekday()))
	}
	if p.Away {
		if !sameClock(z, x.zone, x.from) { // the trip goes elsewhere
			return nil
		}
		return intersect(open, f.away)
	}
	return subtract(open, f.away)
}

// awayMinutes is how long after an away game the athlete is taken to be on the
// way home, where no trip says so. Common practice, no source.
const awayMinutes = 180

// tripMinutes is how long before and after an away game a trip may lie and still
// belong to it. Common practice, no source.
const tripMinutes = 3 * 1440

// trips finds when the athlete is away: from the end of a trip to the start of
// the next where an away game lies soon after the one and before the other, else from the start of an away
// game until some time after its end.
func (f *Facts) trips() {
	last := -1
	var games []int // away games since the last trip
	for i := range f.Events {
		e := &f.Events[i]
		switch {
		case e.Kind == calendar.Game && e.Home == calendar.AtAway:
			games = append(games, i)
			f.away = append(f.away, span{e.From, e.To + awayMinutes})
		case e.Kind == calendar.Travel:
			if last >= 0 && len(games) > 0 && f.Events[games[0]].From-f.Events[last].To <= tripMinutes &&
				e.From-f.Events[games[len(games)-1]].To <= tripMinutes {
				f.away = append(f.away, span{f.Events[last].To, e.From})
				// The trip home is known: no guess is needed.
				for _, g := range games {
					f.home = append(f.home, span{e.To, f.Events[g].To + awayMinutes})
				}
			}
			last, games = i, nil
		}
	}
	var home []span
	for _, h := range f.home {
		if h.from < h.to {
			home = append(home, h)
		}
	}
	f.away = subtract(merge(f.away), home)
}

// Places returns the places of a request, or the one that stands for none.
func Places(req *season.Request) []season.Place {
	if len(req.Places) > 0 {
		return req.Places
	}
	return []season.Place{{ID: "gym"}}
}

// Spans returns what is open in the period and a date around it: the athlete's
// hours, and each place's. For the judge.
func (f *Facts) Spans(places []season.Place) (athlete [][2]int64, place [][][2]int64) {
	place = make([][][2]int64, len(places))
	for i := f.From; i < f.To; i++ {
		d := &f.Days[i]
		for _, s := range f.athleteSpans(d) {
			athlete = append(athlete, [2]int64{s.from, s.to})
		}
		for p := range places {
			for _, s := range f.placeSpans(d, places[p]) {
				place[p] = append(place[p], [2]int64{s.from, s.to})
			}
		}
	}
	return athlete, place
}

// open reports whether a slot lies inside the hours of its place and, but for a
// post-game session, of the athlete.
func (f *Facts) open(s *Slot, room roomy) bool {
	in := func(spans []span) bool {
		for _, o := range spans {
			if o.from <= s.From && s.To <= o.to {
				return true
			}
		}
		return false
	}
	if s.Place < 0 || s.Place >= len(room.places) || !in(room.places[s.Place]) {
		return false
	}
	return s.Kind == season.PostGame || in(room.athlete)
}
