package squad

import (
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
)

// slot is one time of one hall.
type slot struct {
	hall     int
	date     calendar.Date
	from, to int64 // minutes since 1970-01-01T00:00Z
	places   int
	coaches  int // -1: nobody has to watch
}

// grid is every slot of the period, by start and then hall.
type grid struct {
	slots  []slot
	byHall [][]int // the slots of each hall, in order
	zone   calendar.Zone
}

// newGrid cuts the opening hours of the halls into slots.
func newGrid(r *Request, zone calendar.Zone, minors bool) *grid {
	g := &grid{zone: zone}
	for d := r.Period.From; !d.After(r.Period.To); d = d.AddDays(1) {
		for h := range r.Halls {
			g.cut(r, h, d, minors)
		}
	}
	slices.SortStableFunc(g.slots, func(a, b slot) int {
		if a.from != b.from {
			return int(a.from - b.from)
		}
		return a.hall - b.hall
	})
	g.byHall = make([][]int, len(r.Halls))
	for i := range g.slots {
		g.byHall[g.slots[i].hall] = append(g.byHall[g.slots[i].hall], i)
	}
	return g
}

// opening is a stretch of a date in which a hall is open, by the clock on its wall.
type opening struct{ from, to calendar.Clock }

// openings of a hall on a date, in order and merged.
func openings(h *Hall, d calendar.Date) []opening {
	for _, c := range h.Place.Closed {
		if c.Contains(d) {
			return nil
		}
	}
	return stretches(h.Place.Hours, d)
}

// stretches are the hours of a date, in order and merged.
func stretches(hours []season.Hours, d calendar.Date) []opening {
	var out []opening
	for _, x := range hours {
		if slices.Contains(x.Days, d.Weekday()) {
			out = append(out, opening{x.From, x.To})
		}
	}
	slices.SortFunc(out, func(a, b opening) int {
		if a.from != b.from {
			return int(a.from - b.from)
		}
		return int(a.to - b.to)
	})
	var merged []opening
	for _, o := range out {
		if n := len(merged); n > 0 && o.from <= merged[n-1].to {
			merged[n-1].to = max(merged[n-1].to, o.to)
			continue
		}
		merged = append(merged, o)
	}
	return merged
}

// cut adds the slots of one hall on one date.
func (g *grid) cut(r *Request, hall int, d calendar.Date, minors bool) {
	h := &r.Halls[hall]
	for _, o := range openings(h, d) {
		from := g.minute(d, o.from)
		end := g.minute(d, o.to)
		for ; from+int64(h.SlotMinutes) <= end; from += int64(h.SlotMinutes + h.ChangeMinutes) {
			s := slot{hall: hall, date: d, from: from, to: from + int64(h.SlotMinutes), places: h.Capacity}
			s.coaches = r.watching(h, d, g.clock(d, s.from), g.clock(d, s.to), minors)
			g.slots = append(g.slots, s)
		}
	}
}

func (g *grid) minute(d calendar.Date, c calendar.Clock) int64 {
	return starts.Minutes(g.zone.Resolve(calendar.Wall{Date: d, Clock: c}).Instant, false)
}

// clock is what the clock shows at a minute, counted from midnight of the date.
func (g *grid) clock(d calendar.Date, m int64) calendar.Clock {
	w := g.zone.Local(starts.Instant(m))
	return w.Clock + calendar.Clock(w.Date.DaysSince(d)*86400)
}

// watching counts the coaches who are at a hall for all of a slot; -1 if nobody
// has to be.
func (r *Request) watching(h *Hall, d calendar.Date, from, to calendar.Clock, minors bool) int {
	if len(r.Coaches) == 0 {
		if minors {
			return 1
		}
		return -1
	}
	n := 0
	for i := range r.Coaches {
		c := &r.Coaches[i]
		if c.Hall != "" && c.Hall != h.Place.ID {
			continue
		}
		away := slices.ContainsFunc(c.Away, func(p season.Period) bool { return p.Contains(d) })
		there := len(c.Hours) == 0 || slices.ContainsFunc(stretches(c.Hours, d), func(x opening) bool { return x.from <= from && to <= x.to })
		if there && !away {
			n++
		}
	}
	return n
}

// touching returns the slots of a hall that a span lies in, if only partly.
func (g *grid) touching(hall int, from, to int64) []int {
	var out []int
	for _, i := range g.byHall[hall] {
		if s := &g.slots[i]; s.from < to && from < s.to {
			out = append(out, i)
		}
	}
	return out
}

// places are the slots as the planner takes them: all, or those that may says with
// the kinds it says.
func (g *grid) places(r *Request, may func(slot int) (kinds []season.Kind, ok bool)) []periodize.PlaceSlots {
	out := make([]periodize.PlaceSlots, len(r.Halls))
	for h := range r.Halls {
		out[h].Place = r.Halls[h].Place.ID
		for _, i := range g.byHall[h] {
			var kinds []season.Kind
			if may != nil {
				var ok bool
				if kinds, ok = may(i); !ok {
					continue
				}
			}
			s := &g.slots[i]
			out[h].Times = append(out[h].Times, periodize.SlotTime{Start: g.time(s.from), End: g.time(s.to), Kinds: kinds})
		}
	}
	return out
}

func (g *grid) time(m int64) time.Time { return starts.Instant(m).In(g.zone.Location()) }
