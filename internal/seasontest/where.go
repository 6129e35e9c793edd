package seasontest

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// visit is a stretch in which the athlete's clock is not that of home.
type visit struct {
	from, to time.Time
	zone     *time.Location
}

// trip is a stretch on the road between zones.
type trip struct{ from, to time.Time }

// where finds the visits, from the definitions: journeys with a known way back,
// and games by another clock.
func (r *reader) where() {
	var legs []*event // since the athlete left
	for _, e := range r.events {
		if e.kind != "travel" {
			continue
		}
		here := r.zone
		if len(legs) > 0 {
			here = legs[len(legs)-1].endZone
		}
		if !sameTime(e.zone, here, e.start) {
			legs = nil
			if !sameTime(e.zone, r.zone, e.start) {
				continue
			}
		}
		if sameTime(e.zone, e.endZone, e.start) {
			continue
		}
		legs = append(legs, e)
		if !sameTime(e.endZone, r.zone, e.end) {
			continue
		}
		for i, l := range legs {
			r.trips = append(r.trips, trip{l.start, l.end})
			if i+1 < len(legs) {
				r.visits = append(r.visits, visit{l.end, legs[i+1].end, l.endZone})
			}
		}
		r.journeys = append(r.journeys, trip{legs[0].start, e.end})
		legs = nil
	}
	for _, g := range r.games {
		if !g.dateOnly && !sameTime(g.zone, r.zoneAt(g.start), g.start) {
			until := g.end.Add(3 * time.Hour)
			r.visits = append(r.visits, visit{g.start, until, g.zone})
			r.journeys = append(r.journeys, trip{g.start, until})
		}
	}
}

// sameTime reports whether two clocks show the same, now and half a year off.
func sameTime(a, b *time.Location, t time.Time) bool {
	for _, days := range []int{0, 183, -183} {
		u := t.Add(time.Duration(days) * 24 * time.Hour)
		if u.In(a).Format("0102 15:04") != u.In(b).Format("0102 15:04") {
			return false
		}
	}
	return true
}

// zoneAt is the athlete's clock: the visit that was found last counts.
func (r *reader) zoneAt(t time.Time) *time.Location {
	for i := len(r.visits) - 1; i >= 0; i-- {
		if v := r.visits[i]; !t.Before(v.from) && t.Before(v.to) {
			return v.zone
		}
	}
	return r.zone
}

// dayAt is the least date that the clock shows from an instant on.
func (r *reader) dayAt(t time.Time) int {
	least := dayOf(t.In(r.zoneAt(t)))
	for _, v := range r.visits {
		for _, u := range []time.Time{v.from, v.to} {
			if u.After(t) {
				least = min(least, dayOf(u.In(r.zoneAt(u))))
			}
		}
	}
	return least
}

// lost: less than two hours of a date are lived outside trips between zones.
func (r *reader) lost(day int) bool {
	lost, known := r.lostDays[day]
	if !known {
		if r.lostDays == nil {
			r.lostDays = map[int]bool{}
		}
		lost = r.hardlyLived(day)
		r.lostDays[day] = lost
	}
	return lost
}

func (r *reader) hardlyLived(day int) bool {
	near := false
	for _, t := range r.trips {
		near = near || dayOf(t.from) <= day+2 && dayOf(t.to) >= day-2
	}
	if !near {
		return false
	}
	for _, g := range r.games {
		if g.day == day {
			return false
		}
	}
	lived := 0
	noon := time.Unix(int64(day)*86400+43200, 0)
next:
	for u := noon.Add(-48 * time.Hour); u.Before(noon.Add(48 * time.Hour)); u = u.Add(time.Minute) {
		if dayOf(u.In(r.zoneAt(u))) != day || r.dayAt(u) != day {
			continue
		}
		for _, t := range r.trips {
			if !u.Before(t.from) && u.Before(t.to) {
				continue next
			}
		}
		lived++
	}
	return lived < 120
}

// placeOf is the place of a session in the request.
func (r *reader) placeOf(id string) (season.Place, bool) {
	for _, p := range r.req.Places {
		if p.ID == id {
			return p, true
		}
	}
	return season.Place{}, false
}

// clockOf is the clock at the place of a session.
func (r *reader) clockOf(s *session) *time.Location {
	if p, ok := r.placeOf(s.Place); ok && !p.Zone.IsZero() {
		return p.Zone.Location()
	}
	return r.zoneAt(s.Start)
}

// there reports whether the athlete can be at the place of a session: away from
// home only at places away, and at those with a zone only by its clock.
func (c *check) there(s *session) bool {
	p, _ := c.placeOf(s.Place)
	gone := false
	for _, j := range c.journeys {
		gone = gone || s.Start.Before(j.to) && j.from.Before(s.End)
	}
	if p.Away && !p.Zone.IsZero() && !sameTime(p.Zone.Location(), c.zoneAt(s.Start), s.Start) {
		return false
	}
	return !gone || p.Away
}

// stated: the local times of a session are given where its clock is another one.
func (c *check) stated(s *session) {
	z := c.clockOf(s)
	from, to := s.Start.In(z).Format("2006-01-02T15:04"), s.End.In(z).Format("2006-01-02T15:04")
	home := s.Start.In(c.zone).Format("2006-01-02T15:04") == from && s.End.In(c.zone).Format("2006-01-02T15:04") == to
	switch {
	case home != (s.Local == nil):
		c.say(8, s, "local times %+v, home %v", s.Local, home)
	case s.Local != nil && (s.Local.Start != from || s.Local.End != to || s.Local.Zone != z.String()):
		c.say(8, s, "local times %+v, should be %s to %s in %s", *s.Local, from, to, z)
	}
}

// journey draws a journey to another zone and back, with a game there perhaps and
// a place to train.
func (m *maker) journey() {
	if !m.odds("journey", 6) {
		return
	}
	there := Zone(pick(m, "there", "Pacific/Honolulu", "Asia/Kolkata", "Pacific/Auckland", "America/New_York"))
	out := calendar.Wall{Date: m.from.AddDays(m.int("leaves", -1, m.days-2)), Clock: clock(pick(m, "leavesAt", 8*60, 22*60, 30))}
	back := calendar.Wall{Date: out.Date.AddDays(m.int("stays", 2, 9)), Clock: clock(pick(m, "backAt", 10*60, 21*60+30))}
	at := len(m.req.Events)
	m.event(calendar.Event{Kind: calendar.Travel, Start: out, EndZone: there}, int(out.Clock)/60, 0)
	m.travelEnds(at, pick(m, "flight", 540, 1100, 300))
	at = len(m.req.Events)
	m.event(calendar.Event{Kind: calendar.Travel, Start: calendar.Wall{Date: back.Date}, Zone: there, EndZone: m.zone}, int(back.Clock)/60, 0)
	m.travelEnds(at, pick(m, "flight", 540, 1100, 300))
	if m.odds("gameThere", 2) {
		day := out.Date.AddDays(m.int("gameOn", 1, 6))
		m.event(calendar.Event{Kind: calendar.Game, Start: calendar.Wall{Date: day}, Zone: there, Home: calendar.AtAway}, pick(m, "gameAt", 19*60, 14*60), 105)
	}
	if m.odds("campPlace", 3) {
		return
	}
	p := season.Place{ID: "camp", Away: true}
	if m.odds("campZone", 2) {
		p.Zone = there
	}
	if len(m.req.Places) == 0 {
		m.req.Places = append(m.req.Places, season.Place{ID: "home"})
	}
	m.req.Places = append(m.req.Places, p)
}

// travelEnds gives the trip that was just drawn its end, if it was drawn.
func (m *maker) travelEnds(at, minutes int) {
	if len(m.req.Events) > at {
		m.travelEnd(minutes)
	}
}
