package bridge

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// thereClock is a time of day as the clock shows it where the athlete is.
type thereClock struct {
	date calendar.Date
	text string
	zone string // "" where it is the plan's own
}

// clockAt reads an instant on the athlete's clock, which changes on journeys.
func (d *Desk) clockAt(t time.Time) thereClock {
	zone, name := d.req.Athlete.Zone, ""
	for _, c := range d.plan.Clocks {
		if c.From.After(t) {
			break
		}
		if z, err := d.zoneNamed(c.Zone); err == nil {
			zone, name = z, c.Zone
		}
	}
	w := zone.Local(t)
	if name == d.plan.Zone {
		name = ""
	}
	return thereClock{w.Date, say.Clock(w.Clock), name}
}

// zoneNamed is a zone by its name: one that an event of the request carries, which
// may be no name that everybody knows, or one that everybody does.
func (d *Desk) zoneNamed(name string) (calendar.Zone, error) {
	for i := range d.req.Events {
		e := &d.req.Events[i]
		for _, z := range []calendar.Zone{e.Zone, e.EndZone} {
			if !z.IsZero() && z.Name() == name {
				return z, nil
			}
		}
	}
	for i := range d.req.Places {
		if z := d.req.Places[i].Zone; !z.IsZero() && z.Name() == name {
			return z, nil
		}
	}
	return calendar.LoadZone(name)
}

// sessionThere is when a session is, as the clock shows it on the spot.
func (d *Desk) sessionThere(s *season.Session) (start, end, zone string) {
	if l := s.Local; l != nil {
		return say.Clock(l.Start.Clock), say.Clock(l.End.Clock), l.Zone
	}
	from, to := d.req.Athlete.Zone.Local(s.Start), d.req.Athlete.Zone.Local(s.End)
	return say.Clock(from.Clock), say.Clock(to.Clock), ""
}

// thereText says whose clock a time is of, "" for the plan's own.
func thereText(zone string) string {
	if zone == "" {
		return ""
	}
	return "time in " + calendar.Inert(zone)
}
