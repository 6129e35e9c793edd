package squad

import (
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/internal/codebook"
	"example.org/weft/periodize/season"
)

// Codes of the findings of a squad's plan.
const (
	FindingNarrow = "squad-hall-narrow"   // more want a date than its slots hold
	FindingOver   = "squad-over-capacity" // pins put more into a slot than it holds
)

// codes lists every note of this package.
var codes = func() codebook.Book {
	out := codebook.Book{}
	out.Add(season.Finding, FindingNarrow, "{hall} {date}: {wanted} want a place, {room} to a slot: {slots} x {each} - {change} = {needed} min needed, {open} open")
	out.Add(season.Finding, FindingOver, "{hall} {date} {start}: {athletes} athletes, {places} places: pinned sessions fill it")
	return out
}()

// Codes returns every note code that a plan of a squad adds to those of its
// athletes' plans, sorted. The codes of its questions and warnings are in
// ProblemCodes.
func Codes() []season.NoteCode { return codes.Codes() }

// finding makes a note of a code about a date.
func finding(code string, date calendar.Date, kv ...any) season.Note {
	n := codes.Note(code, append(kv, "date", date)...)
	n.Subject = season.Subject{Dates: []calendar.Date{date}}
	return n
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
			out.Findings = append(out.Findings, finding(FindingOver, s.Date, "hall", s.Hall, "start", s.Start.Format("15:04"), "athletes", n, "places", s.Capacity))
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
	out.Findings = append(out.Findings, finding(FindingNarrow, d, "hall", h.Place.ID, "wanted", int(wanted), "room", int(room), "slots", int(slots),
		"each", int(each), "change", h.ChangeMinutes, "needed", int(needed), "open", int(open)))
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
