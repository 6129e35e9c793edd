package season

import (
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/jsonread"
)

// Edit is one change to the events of a request: see Move, Cancel, Confirm,
// Postpone and Add. The zero Edit changes nothing.
type Edit struct {
	op    editOp
	id    string
	wall  string
	event calendar.Event
}

type editOp int

const (
	opNone editOp = iota
	opMove
	opCancel
	opConfirm
	opPostpone
	opAdd
)

// Move gives an event another start: a wall time such as 2026-11-05T19:45 in the
// event's zone, or a date alone. An end moves along, by the clock on the wall;
// where only one of the two starts has a time of day, the end is dropped. An
// actual end is dropped. A postponed event is confirmed by it. A cancelled or
// played one does not move.
func Move(id, wall string) Edit { return Edit{op: opMove, id: id, wall: wall} }

// Cancel marks an event as cancelled: it takes up no time.
func Cancel(id string) Edit { return Edit{op: opCancel, id: id} }

// Confirm marks an event as confirmed.
func Confirm(id string) Edit { return Edit{op: opConfirm, id: id} }

// Postpone marks an event as postponed: it takes up no time until it is moved.
func Postpone(id string) Edit { return Edit{op: opPostpone, id: id} }

// Add adds an event. Without an id it gets its [calendar.Event.ContentID],
// without a zone the athlete's.
func Add(e calendar.Event) Edit { return Edit{op: opAdd, event: e} }

// String says what the edit does.
func (e Edit) String() string {
	switch e.op {
	case opMove:
		return "move " + calendar.Inert(e.id) + " to " + calendar.Inert(e.wall)
	case opCancel:
		return "cancel " + calendar.Inert(e.id)
	case opConfirm:
		return "confirm " + calendar.Inert(e.id)
	case opPostpone:
		return "postpone " + calendar.Inert(e.id)
	case opAdd:
		return "add " + calendar.Inert(e.event.ID)
	}
	return "nothing"
}

// Apply returns the request with its events changed, one edit after the other;
// the old request is left as it is. Each changed event gets the next revision.
//
// If an edit does not fit, Apply returns the old request and an *InputError with
// the problems of all edits; their paths count the edits, as in /edits/1.
func Apply(req Request, changes ...Edit) (Request, error) {
	out := req
	out.Events = settled(req.Events, req.Athlete.Zone)
	var f finder
	for i, e := range changes {
		c := checker{finder: &f, r: out, lim: Limits{}.filled()}
		c.edit(at("edits", i), &out, e)
	}
	if err := failed(f.problems()); err != nil {
		return req, err
	}
	return out, nil
}

func (c *checker) edit(path string, req *Request, e Edit) {
	switch e.op {
	case opNone:
		return
	case opAdd:
		c.addEvent(path, req, e.event)
		return
	}
	i := find(req.Events, e.id)
	if i < 0 {
		c.err(CodeUnknownEvent, path, e.id, "there is no event of this id", nearest(e.id, req.Events))
		return
	}
	v := req.Events[i]
	v.Revision = min(v.Revision+1, maxSetting)
	switch e.op {
	case opMove:
		if !c.moveEvent(path, &v, e.wall) {
			return
		}
	case opCancel:
		v.Status = calendar.Cancelled
	case opConfirm:
		v.Status = calendar.Confirmed
	case opPostpone:
		v.Status = calendar.Postponed
	}
	req.Events[i] = v
}

// find returns the event in force: of several of one id that of the highest
// revision.
func find(events []calendar.Event, id string) int {
	out := -1
	for i, e := range events {
		if e.ID == id && (out < 0 || e.Revision > events[out].Revision) {
			out = i
		}
	}
	return out
}

// nearest says which ids may have been meant.
func nearest(id string, events []calendar.Event) string {
	ids := make([]string, 0, len(events))
	for _, e := range events {
		ids = append(ids, e.ID)
	}
	slices.Sort(ids)
	ids = slices.Compact(ids)
	var near []string
	for len(near) < 3 {
		s, ok := jsonread.Closest(id, ids)
		if !ok {
			break
		}
		near = append(near, calendar.Inert(s))
		ids = slices.DeleteFunc(ids, func(x string) bool { return x == s })
	}
	switch {
	case len(near) > 0:
		return "did you mean " + strings.Join(near, " or ") + "?"
	case len(ids) == 0:
		return "the request has no events: add one"
	case len(ids) > 10:
		return fmt.Sprintf("use the id of one of its %d events", len(ids))
	}
	return "use one of: " + calendar.Inert(strings.Join(ids, ", "))
}

func (c *checker) moveEvent(path string, v *calendar.Event, wall string) bool {
	if s := v.Status; s == calendar.Cancelled || s == calendar.Played {
		c.err(CodeEdit, path, v.ID, "a "+string(s)+" event does not move", "confirm it first, if that is meant")
		return false
	}
	start, dateOnly, err := parseMoment(wall)
	if err != nil {
		c.value(CodeWall, path, err)
		return false
	}
	switch {
	case dateOnly != v.DateOnly:
		v.HasEnd, v.End = false, calendar.Wall{}
	case v.HasEnd:
		v.End = shift(v.End, v.Start, start)
	}
	v.HasActualEnd, v.ActualEnd = false, calendar.Wall{}
	v.Start, v.DateOnly = start, dateOnly
	if v.Status == calendar.Postponed {
		v.Status = calendar.Confirmed
	}
	return c.fits(path, *v)
}

// shift moves a wall time by as much as the hands of a clock move between two
// others.
func shift(w, from, to calendar.Wall) calendar.Wall {
	sec := int64(to.Date.DaysSince(from.Date))*86400 + int64(to.Clock-from.Clock) + int64(w.Clock)
	days := floorDiv(sec, 86400)
	return calendar.Wall{Date: w.Date.AddDays(int(days)), Clock: calendar.Clock(sec - days*86400)}
}

// fits checks the changed event by itself.
func (c *checker) fits(path string, v calendar.Event) bool {
	before := c.count[0]
	c.eventTexts(path, v)
	c.eventTime(path, v)
	return c.count[0] == before
}

func (c *checker) addEvent(path string, req *Request, v calendar.Event) {
	list := settled([]calendar.Event{v}, req.Athlete.Zone)
	v = list[0]
	if v.Zone.IsZero() {
		c.err(CodeZone, path+"/zone", "", "no time zone given", "name the place, such as Europe/Berlin")
		return
	}
	if find(req.Events, v.ID) >= 0 {
		c.err(CodeIDTwice, path+"/id", v.ID, "the request has an event of this id", "move or confirm that one, or give another id")
		return
	}
	if len(req.Events) >= MaxEvents {
		c.err(CodeLimit, path, fmt.Sprint(len(req.Events)), fmt.Sprintf("more than %d events", MaxEvents), "leave some out")
		return
	}
	if c.fits(path, v) {
		v.Unknown = slices.Clone(v.Unknown)
		req.Events = append(req.Events, v)
	}
}
