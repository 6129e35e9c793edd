package starts

import (
	"sort"
	"time"

	"example.org/weft/calendar"
)

// stay is a stretch in which the athlete's clock is that of one zone. It begins
// where the one before it ends.
type stay struct {
	from int64
	zone calendar.Zone
}

const (
	firstMinute = -int64(1) << 40
	lastMinute  = int64(1) << 40
)

// lostMinutes is how much of a date must be lived outside trips between zones for
// it to be a date that can be empty. Common practice, no source.
const lostMinutes = 120

// findStays says where the athlete is: at home but for journeys whose way back is
// known, from the end of each trip on in the zone where it ends, and but for games
// elsewhere, from their start until some time after their end.
func (f *Facts) findStays() {
	f.stays = append(f.stays[:0], stay{firstMinute, f.Zone})
	var chain []int // trips between zones since the athlete left
	for i := range f.Events {
		e := &f.Events[i]
		if e.Kind != calendar.Travel {
			continue
		}
		to := e.EndZone
		if to.IsZero() {
			to = e.Zone
		}
		here := f.Zone
		if n := len(chain); n > 0 {
			here = f.Events[chain[n-1]].EndZone
		}
		if !sameClock(e.Zone, here, e.From) {
			// It starts where the athlete is not: how the journey went on is unknown.
			if len(chain) > 0 {
				f.noWayBack = append(f.noWayBack, chain[0])
			}
			if chain, here = chain[:0], f.Zone; !sameClock(e.Zone, here, e.From) {
				continue
			}
		}
		if sameClock(e.Zone, to, e.From) {
			continue
		}
		if chain = append(chain, i); sameClock(to, f.Zone, e.To) {
			f.journey(chain)
			chain = chain[:0]
		}
	}
	if len(chain) > 0 {
		f.noWayBack = append(f.noWayBack, chain[0])
	}
	for _, g := range f.Games {
		if e := &f.Events[g]; !e.DateOnly && !sameClock(e.Zone, f.zoneAt(e.From), e.From) {
			f.visit(e.From, e.To+awayMinutes, e.Zone)
			f.away = append(f.away, span{e.From, e.To + awayMinutes})
		}
	}
}

// journey is a chain of trips from home and back. The trips themselves take their
// time as events.
func (f *Facts) journey(chain []int) {
	first, last := &f.Events[chain[0]], &f.Events[chain[len(chain)-1]]
	f.away = append(f.away, span{first.To, last.From})
	for n, i := range chain {
		e := &f.Events[i]
		f.crossings = append(f.crossings, span{e.From, e.To})
		if n+1 < len(chain) {
			f.visit(e.To, f.Events[chain[n+1]].To, e.EndZone)
		}
	}
}

// visit makes the clock that of a zone for a while.
func (f *Facts) visit(from, to int64, z calendar.Zone) {
	if from >= to {
		return
	}
	back := f.zoneAt(to)
	var out []stay
	for _, s := range f.stays {
		if s.from < from {
			out = append(out, s)
		}
	}
	out = append(out, stay{from, z}, stay{to, back})
	for _, s := range f.stays {
		if s.from > to {
			out = append(out, s)
		}
	}
	f.stays = out
}

// zoneAt is the zone of the athlete's clock at an instant.
func (f *Facts) zoneAt(at int64) calendar.Zone {
	if len(f.stays) < 2 {
		return f.Zone
	}
	i := sort.Search(len(f.stays), func(i int) bool { return f.stays[i].from > at })
	return f.stays[max(i-1, 0)].zone
}

// zoneOf is the zone of the clock at a place: its own, else the athlete's.
func (f *Facts) zoneOf(place int, at int64) calendar.Zone {
	if place >= 0 && place < len(f.placeZones) && !f.placeZones[place].IsZero() {
		return f.placeZones[place]
	}
	return f.zoneAt(at)
}

// sameClock reports whether two zones show the same time around an instant, in
// winter and in summer.
func sameClock(a, b calendar.Zone, at int64) bool {
	if a.Equal(b) {
		return true
	}
	for _, days := range []int{0, -183, 183} {
		t := Instant(at).Add(time.Duration(days) * 24 * time.Hour)
		x, _ := a.OffsetAt(t)
		y, _ := b.OffsetAt(t)
		if x != y {
			return false
		}
	}
	return true
}

// piece is a part of a date by one clock.
type piece struct {
	span
	zone calendar.Zone
}

// dateStart is the last instant before which an earlier date is still to come. By
// one clock it is midnight; after a flight east over the date line, where a date
// comes twice, its end is that of the second.
func (f *Facts) dateStart(d calendar.Date) int64 {
	if len(f.stays) < 2 {
		return midnight(f.Zone, d)
	}
	start := firstMinute
	for i, s := range f.stays {
		end := lastMinute
		if i+1 < len(f.stays) {
			end = f.stays[i+1].from
		}
		if at := midnight(s.zone, d); at > s.from {
			start = max(start, min(at, end))
		}
	}
	return start
}

// midnight is the last minute at which a clock goes from an earlier date to this
// one: the second where it is set back over midnight.
func midnight(z calendar.Zone, d calendar.Date) int64 {
	r := z.Resolve(calendar.Wall{Date: d})
	switch {
	case r.Fit == calendar.Skipped:
		return floorMinutes(r.Later)
	case r.Fit == calendar.Doubled && calendar.DateOf(r.Later.Add(-time.Second), z).Before(d):
		return floorMinutes(r.Later)
	}
	return floorMinutes(r.Instant)
}

// dateAt is the date of an instant: the local one, or an earlier one that is still
// to come, so that dates never run back.
func (f *Facts) dateAt(at int64) calendar.Date {
	d := calendar.DateOf(Instant(at), f.zoneAt(at))
	for n := 0; n < 3 && at < f.dateStart(d); n++ {
		d = d.AddDays(-1)
	}
	return d
}

// pieces are the parts of a date on which the clock shows it, in order.
func (f *Facts) pieces(d *Day) []piece {
	if len(f.stays) < 2 {
		return []piece{{span{d.From, d.To}, f.Zone}}
	}
	var out []piece
	for i, s := range f.stays {
		end := lastMinute
		if i+1 < len(f.stays) {
			end = f.stays[i+1].from
		}
		from := max(d.From, s.from, midnight(s.zone, d.Date))
		to := min(d.To, end, midnight(s.zone, d.Date.AddDays(1)))
		if from < to {
			out = append(out, piece{span{from, to}, s.zone})
		}
	}
	return out
}

// lost reports whether a date was hardly lived: skipped by the clock, or spent on
// a trip between zones.
func (f *Facts) lost(d *Day) bool {
	if d.To-d.From >= lostMinutes && len(f.crossings) == 0 {
		return false
	}
	var lived int64
	for _, p := range f.pieces(d) {
		for _, s := range subtract([]span{p.span}, f.crossings) {
			lived += s.to - s.from
		}
	}
	return lived < lostMinutes
}

// loseDates marks the dates that were lost. A game shows that one was lived.
func (f *Facts) loseDates() {
	for i := range f.Days {
		if d := &f.Days[i]; len(d.Games) == 0 && f.lost(d) {
			d.Lost, d.Free = true, false
		}
	}
}

// livedBefore and livedAfter are the indices of the nearest dates that were not
// lost.
func (f *Facts) livedBefore(i int) int { return f.lived(i, -1) }
func (f *Facts) livedAfter(i int) int  { return f.lived(i, 1) }

func (f *Facts) lived(i, by int) int {
	n := i + by
	for n > 0 && n < len(f.Days)-1 && f.Days[n].Lost {
		n += by
	}
	return n
}

// clocks fills in what the clock shows at the place of a slot.
func (f *Facts) clocks(s *Slot) {
	z := f.zoneOf(s.Place, s.From)
	s.StartClock, s.EndClock = clockOn(z, s.From, s.Day), clockOn(z, s.To, s.Day)
}
