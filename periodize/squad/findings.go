package squad

import (
	"fmt"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Codes of the findings of a squad's plan.
const (
	FindingNarrow = "squad-hall-narrow"   // more want a date than its slots hold
	FindingOver   = "squad-over-capacity" // pins put more into a slot than it holds
)

func finding(code, text string, values season.Values, dates ...calendar.Date) season.Note {
	return season.Note{Code: code, Class: season.Finding, Subject: season.Subject{Dates: dates}, Values: values, Text: text}
}

// findings says what the squad should know beside its plans.
func (w *work) findings(out *Plan) {
	for h := range w.req.Halls {
		for d := w.req.Period.From; !d.After(w.req.Period.To); d = d.AddDays(1) {
			w.narrow(out, h, d)
		}
	}
	for i := range out.Slots {
		s := &out.Slots[i]
		if n := len(s.Seats); n > s.Capacity && !s.Start.Before(out.Now) {
			out.Findings = append(out.Findings, finding(FindingOver,
				fmt.Sprintf("%s %s %s: %d athletes, %d places: pinned sessions fill it", s.Hall, s.Date, s.Start.Format("15:04"), n, s.Capacity),
				season.Values{"hall": season.Str(s.Hall), "athletes": season.Int(int64(n)), "places": season.Int(int64(s.Capacity))}, s.Date))
		}
	}
}

// narrow says by the minute what a date of a hall would have to be open for
// everybody who would come to it with the hall alone.
func (w *work) narrow(out *Plan, hall int, d calendar.Date) {
	h := &w.req.Halls[hall]
	var day []int
	for _, i := range w.grid.byHall[hall] {
		if w.grid.slots[i].date == d {
			day = append(day, i)
		}
	}
	var wanting []*member
	for i, m := range w.members {
		if m.ready.Refused {
			continue
		}
		l := d.DaysSince(w.req.Period.From)
		o := w.alone[i].Plan[l]
		if slices.ContainsFunc(m.uses[l][o], func(s int32) bool { return slices.Contains(day, int(s)) }) {
			wanting = append(wanting, m)
		}
	}
	wanted := int64(len(wanting))
	if wanted == 0 {
		return
	}
	var total int64
	room := int64(MaxCapacity) // athletes in the smallest slot
	for _, i := range day {
		n := w.roomIn(i, wanting)
		total += n
		room = min(room, n)
	}
	if wanted <= total || room == 0 {
		return
	}
	slots := (wanted + room - 1) / room
	each := int64(h.SlotMinutes + h.ChangeMinutes)
	needed := slots*each - int64(h.ChangeMinutes)
	var open int64
	for _, o := range openings(h, d) {
		open += w.grid.minute(d, o.to) - w.grid.minute(d, o.from)
	}
	out.Findings = append(out.Findings, finding(FindingNarrow,
		fmt.Sprintf("%s %s: %d want a place, %d to a slot: %d x %d - %d = %d min needed, %d open", h.Place.ID, d, wanted, room, slots, each, h.ChangeMinutes, needed, open),
		season.Values{"hall": season.Str(h.Place.ID), "wanted": season.Int(wanted), "room": season.Int(room), "slots": season.Int(slots),
			"each": season.Int(each), "change": season.Int(int64(h.ChangeMinutes)), "needed": season.Int(needed), "open": season.Int(open)}, d))
}

// roomIn is how many of a crowd a slot holds: its places, and what its coaches may
// watch if the ages come mixed as they are in the crowd.
func (w *work) roomIn(i int, crowd []*member) int64 {
	s := &w.grid.slots[i]
	n := int64(s.places)
	if s.coaches < 0 {
		return n
	}
	var shares int64
	for _, m := range crowd {
		shares += (mostParts + int64(m.ratio) - 1) / int64(m.ratio)
	}
	// Half a share makes up for shares that were rounded up.
	return min(n, (int64(s.coaches)*mostParts*int64(len(crowd))+shares/2)/shares)
}
