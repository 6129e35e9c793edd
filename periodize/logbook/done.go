package logbook

import (
	"time"

	"example.org/weft/periodize/season"
)

// Done is the log in the form in which a request carries it: sessions that were
// done or missed. Those that nobody knows of and those of which two things are
// told are left out; of a planned one the planner then takes the most there can
// have been, so that its limits hold either way.
func (v View) Done() []season.Done {
	var out []season.Done
	v.sessions(func(e *Entry, s *Session) {
		if s.State != Done && s.State != Missed {
			return
		}
		d := season.Done{ID: e.ID, Session: s.Planned, Kind: s.Session, Start: e.Start, Zone: e.Zone, Missed: s.State == Missed}
		switch {
		case e.HasEnd:
			d.End, d.HasEnd = e.End, true
		case s.Minutes.Known && s.Minutes.Value > 0:
			if at, ok := e.At(); ok {
				d.End, d.HasEnd = e.Zone.Local(at.Add(time.Duration(s.Minutes.Value)*time.Minute)), true
			}
		}
		out = append(out, d)
	})
	return out
}
