package main

import (
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
)

// Times are printed as the clock shows them where the athlete is then, or where a
// game takes place. Where that is not the plan's clock, the line names the zone.

// zoneAt is the zone the athlete is in, by the plan.
func (s *sheet) zoneAt(t time.Time) calendar.Zone {
	name := s.plan.Zone
	for _, c := range s.plan.Clocks {
		if !c.From.After(t) {
			name = c.Zone
		}
	}
	if name == s.plan.Zone {
		return s.zone
	}
	for _, p := range s.in.placed { // a zone of a calendar's own cannot be loaded
		for _, z := range []calendar.Zone{p.Zone, p.EndZone} {
			if z.Name() == name {
				return z
			}
		}
	}
	return s.zone
}

// clocks are the clock times of a stretch.
func (s *sheet) clocks(from, to time.Time) string {
	z := s.zoneAt(from)
	return say.Clock(z.Local(from).Clock) + "-" + say.Clock(z.Local(to).Clock)
}

// stretch is clocks with the zone, where it is another than the plan's.
func (s *sheet) stretch(from, to time.Time) string {
	return s.clocks(from, to) + s.zoned(from)
}

// moment is an instant, with its zone where it is another than the plan's.
func (s *sheet) moment(t time.Time) string {
	w := s.zoneAt(t).Local(t)
	return say.DayYear(w.Date) + " " + say.Clock(w.Clock) + s.zoned(t)
}

func (s *sheet) zoned(t time.Time) string {
	if z := s.zoneAt(t); z.Local(t) != s.zone.Local(t) {
		return " in " + say.Clip(z.Name(), 30)
	}
	return ""
}

// otherClock names the zone of times that the plan's clock does not show, and says
// what it shows; "" where it shows the same.
func (s *sheet) otherClock(z calendar.Zone, from, to time.Time) string {
	if z.Local(from) == s.zone.Local(from) && z.Local(to) == s.zone.Local(to) {
		return ""
	}
	return s.here(z.Name(), z.Local(from), from, to)
}

// here says what the plan's clock shows of a stretch in another zone.
func (s *sheet) here(zone string, there calendar.Wall, from, to time.Time) string {
	w := s.zone.Local(from)
	t := say.Clip(zone, 30) + " time, " + say.Clock(w.Clock) + "-" + say.Clock(s.zone.Local(to).Clock)
	if w.Date != there.Date {
		t += " of " + say.Day(w.Date)
	}
	return t + " in " + say.Clip(s.plan.Zone, 30)
}

// ends is the zone of the end of an event.
func ends(e calendar.Placed) calendar.Zone {
	if e.EndZone.IsZero() {
		return e.Zone
	}
	return e.EndZone
}

// timesThere are the clock times of an event where it begins and ends.
func timesThere(e calendar.Placed) string {
	t := say.Clock(e.Zone.Local(e.Span.Start).Clock) + "-" + say.Clock(ends(e).Local(e.Span.End).Clock)
	if e.EndAssumed {
		t += "?"
	}
	return t
}

// eventRows puts an event on each date it touches in the period, where it takes
// place.
func (s *sheet) eventRows(e calendar.Placed, out map[calendar.Date][]row) {
	text := ""
	if e.Title != "" || e.Opponent != "" {
		text = s.name(e)
	}
	first, last := calendar.DateOf(e.Span.Start, e.Zone), calendar.DateOf(e.Span.End.Add(-time.Nanosecond), ends(e))
	if e.Span.End.Equal(e.Span.Start) || last.Before(first) {
		last = first
	}
	if x := s.roadText(e); x != "" {
		text = joined(text, x)
	}
	for d := calendar.Later(first, s.plan.Period.From); !d.After(last) && !d.After(s.plan.Period.To); d = d.AddDays(1) {
		r := row{at: e.Span.Start, what: say.Event(e.Event), rest: text}
		if d != first {
			r.at = ends(e).DayStart(d)
		}
		begins := d == first && e.Span.Start.After(e.Zone.DayStart(d))
		done := d == last && e.Span.End.Before(ends(e).DayStart(d.AddDays(1)))
		switch {
		case !begins && !done:
			r.when = "all day"
		case begins && d != last:
			r.when = "from " + say.Clock(e.Zone.Local(e.Span.Start).Clock)
		case done && d != first:
			r.when = "to " + say.Clock(ends(e).Local(e.Span.End).Clock)
		default:
			r.when = timesThere(e)
		}
		out[d] = append(out[d], r)
	}
}

// roadText says by which clocks an event begins and ends, where these are not both
// the plan's.
func (s *sheet) roadText(e calendar.Placed) string {
	from, to := e.Zone, ends(e)
	if from.Local(e.Span.End) == to.Local(e.Span.End) {
		return s.otherClock(from, e.Span.Start, e.Span.End)
	}
	t := say.Clip(from.Name(), 30) + " to " + say.Clip(to.Name(), 30) + " time"
	if d := calendar.DateOf(e.Span.End, to); d.Before(e.Date) {
		t += ", ends " + say.Day(d)
	}
	return t
}

func joined(a, b string) string {
	if a == "" {
		return b
	}
	return a + ", " + b
}

// runs are the runs of game-free dates. Dates that the plan says are lost do not
// count.
func (s *sheet) runs() []calendar.Run {
	var dates []calendar.Date
	for _, g := range s.games {
		dates = append(dates, g.Date)
	}
	out := calendar.GameFreeRuns(dates, s.plan.Period.From, s.plan.Period.To)
	for _, n := range s.plan.Findings {
		if n.Code != "finding-lost-date" {
			continue
		}
		for i := range out {
			r := &out[i]
			for _, d := range n.Subject.Dates {
				if !d.Before(r.From) && !d.After(r.To) {
					r.Days--
				}
			}
			switch {
			case r.Days < calendar.OpenWeekDays:
				r.Class = calendar.NormalRun
			case r.Days < calendar.BreakDays:
				r.Class = calendar.OpenWeek
			}
		}
	}
	return out
}
