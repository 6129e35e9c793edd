package icalendar

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
)

// assemble turns the drafts into events: versions of one event are told apart,
// series taken apart, zones resolved.
func (p *parser) assemble() []calendar.Event {
	if p.anyCal && len(p.drafts) == 0 && !p.rep.failed() {
		p.rep.warn(CodeEmpty, 0, "", "", "the calendar has no events", "check that it is the right one")
	}
	if p.left > 0 && p.left == len(p.drafts) {
		p.rep.fail(CodeEmpty, int(p.drafts[0].line), "", "", "no event of the file can be read; this is the first", "mend what is said of each of them")
	}
	a := &assembly{parser: p, events: make([]calendar.Event, 0, len(p.drafts))}
	first := make(map[string]int32, len(p.drafts))
	next := make([]int32, len(p.drafts)) // the following draft of the same UID, 0 for none
	last := make([]int32, len(p.drafts))
	for i := range p.drafts {
		uid := p.drafts[i].uid
		if uid == "" {
			continue
		}
		if head, ok := first[uid]; ok {
			next[last[head]] = int32(i)
			last[head] = int32(i)
		} else {
			first[uid] = int32(i)
			last[i] = int32(i)
		}
	}
	var group []*draft
	for i := range p.drafts {
		d := &p.drafts[i]
		if d.uid != "" && first[d.uid] != int32(i) {
			continue
		}
		group = append(group[:0], d)
		for j := next[i]; j != 0; j = next[j] {
			group = append(group, &p.drafts[j])
		}
		a.group(group)
		if a.full {
			p.rep.fail(CodeLimit, int(d.line), "", "", fmt.Sprintf("more than %d events and occurrences", p.lim.Events), "ask for a shorter span, or raise the limit on events")
			break
		}
		if a.stop {
			break
		}
	}
	a.uniqueIDs()
	return a.sorted()
}

// sorted returns the events by start and ID. IDs are unique, so the order is
// complete; positions are sorted, because events are large.
func (a *assembly) sorted() []calendar.Event {
	order := make([]int32, len(a.events))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(i, j int32) int {
		if c := a.events[i].Start.Compare(a.events[j].Start); c != 0 {
			return c
		}
		return strings.Compare(a.events[i].ID, a.events[j].ID)
	})
	out := make([]calendar.Event, len(order))
	for i, j := range order {
		out[i] = a.events[j]
	}
	return out
}

type assembly struct {
	*parser
	events  []calendar.Event
	lines   []int32 // of events
	full    bool    // more events than the limit allows
	stop    bool    // no work is left
	latest  int64   // see lastNamed; 0: not known yet
	utc     calendar.Zone
	utcSaid bool // the warning on dating in UTC was given

	lastSaid bool // the question on Options.LastZone was asked
}

// group handles all drafts of one UID.
func (a *assembly) group(ds []*draft) {
	if d := ds[0]; len(ds) == 1 && d.series == nil && d.start.form != formNone {
		if e, ok := a.single(d); ok {
			a.emit(e, d)
		}
		return
	}
	masters := ds[:0:0]
	var overrides []*draft
	for _, d := range ds {
		switch {
		case d.start.form == formNone:
		case d.alone && len(ds) > 1:
			if e, ok := a.single(d); ok {
				e.ID += "~" + e.ContentID()
				a.emit(e, d)
			}
		case d.isOverride():
			if d.repeats() {
				a.rep.ask(CodeRule, int(d.line), "RRULE", d.uid, "a changed occurrence with a rule or dates of its own; they are not used", "end the series there, and begin a new one with its own UID")
			}
			overrides = append(overrides, d)
		default:
			masters = append(masters, d)
		}
	}
	masters = a.newest(masters)
	if a.opt.NoReminders {
		masters = slices.DeleteFunc(masters, a.isReminder)
	}
	if len(masters) == 1 && (masters[0].repeats() || len(overrides) > 0) {
		a.series(masters[0], overrides)
		return
	}
	for _, m := range masters {
		e, ok := a.single(m)
		if !ok {
			continue
		}
		if len(masters) > 1 {
			e.ID += "~" + e.ContentID()
		}
		if m.repeats() {
			m.uid = e.ID
			a.series(m, nil)
			continue
		}
		a.emit(e, m)
	}
	a.orphans(overrides)
}

// newest keeps, of several versions of one event, that with the highest SEQUENCE
// and then the latest DTSTAMP. Versions that neither tells apart are kept all, and
// so are those of one SEQUENCE with different titles: a calendar that gives one UID
// to several games must not lose any.
func (a *assembly) newest(ds []*draft) []*draft {
	if len(ds) < 2 {
		return ds
	}
	best := ds[0]
	for _, d := range ds[1:] {
		if d.seq > best.seq || d.seq == best.seq && d.stamp > best.stamp {
			best = d
		}
	}
	kept := []*draft{best}
	for _, d := range ds {
		switch {
		case d == best:
		case d.seq != best.seq || d.stamp != best.stamp && d.summary == best.summary:
			a.rep.warn(CodeDuplicate, int(d.line), "UID", d.uid, fmt.Sprintf("an older version of the event of line %d; it is not used", best.line), "remove the older one")
		case d.start.local == best.start.local && d.start.form == best.start.form && d.start.zone == best.start.zone && d.summary == best.summary:
			a.rep.warn(CodeDuplicate, int(d.line), "UID", d.uid, fmt.Sprintf("the event of line %d once more; it is used once", best.line), "remove one of them")
		default:
			a.rep.warn(CodeDuplicate, int(d.line), "UID", d.uid, fmt.Sprintf("another event with the UID of line %d; both are kept, with ids made from their content", best.line), "give each event its own UID")
			kept = append(kept, d)
		}
	}
	slices.SortFunc(kept, func(x, y *draft) int { return int(x.line - y.line) })
	return kept
}

// orphans are overrides without their series.
func (a *assembly) orphans(ds []*draft) {
	for i, d := range ds {
		if i == 0 {
			a.rep.warn(CodeOverride, int(d.line), "RECURRENCE-ID", d.uid, "a changed occurrence of a series that is not in the file", "export the whole series")
		}
		if d.future {
			a.rep.ask(CodeOverride, int(d.line), "RECURRENCE-ID", d.uid, "it changes all later occurrences of a series that is not in the file; only the named one is known", "export the whole series")
		}
		at, ok := a.locate(d.recurID, d.cal)
		if !ok {
			continue
		}
		if e, ok := a.single(d); ok && a.inWindow(e) {
			e.ID = a.baseID(e) + "#" + at.key()
			a.emit(e, d)
		}
	}
}

// single makes the event of a draft at its own DTSTART.
func (a *assembly) single(d *draft) (calendar.Event, bool) {
	start, ok := a.locate(d.start, d.cal)
	if !ok {
		return calendar.Event{}, false
	}
	a.warnFit("DTSTART", d.start, start)
	e := a.blank(d)
	e.Start, e.Zone, e.DateOnly = start.wall, start.zone, d.start.isDate()
	if !a.yearOK(e.Start, d) || !a.setEnd(&e, d, start) {
		return calendar.Event{}, false
	}
	e.ID = a.baseID(e)
	return e, true
}

func (a *assembly) baseID(e calendar.Event) string {
	if e.ID != "" {
		return e.ID
	}
	return e.ContentID()
}

// blank fills in what does not depend on time. ID is the UID.
func (a *assembly) blank(d *draft) calendar.Event {
	e := calendar.Event{
		ID: d.uid, Kind: d.kind, Team: a.opt.Team, Title: d.summary,
		Status: d.status, Revision: d.seq, Source: a.rep.path(int(d.line)), Unknown: slices.Clip(d.unknown),
	}
	if a.cals[d.cal].method == "CANCEL" {
		e.Status = calendar.Cancelled
	}
	if e.Status == "" {
		e.Status = calendar.Confirmed
	}
	if e.Kind == "" && a.opt.Classify != nil {
		about := Description{Summary: d.summary, AllDay: d.start.isDate()}
		for _, k := range d.unknown {
			switch k.Name {
			case "DESCRIPTION":
				about.Description = unescapeText(k.Value)
			case "LOCATION":
				about.Location = unescapeText(k.Value)
			case "CATEGORIES":
				about.Categories = append(about.Categories, splitText(k.Value)...)
			}
		}
		if k, ok := a.opt.Classify(about); ok && k.Known() {
			e.Kind = k
			d.classified = true
		}
	}
	if e.Kind == "" {
		e.Kind = a.opt.DefaultKind
	}
	if e.Kind == "" {
		e.Kind = calendar.Game
	}
	return e
}

func (a *assembly) inWindow(e calendar.Event) bool {
	if a.opt.From.IsZero() || a.opt.To.IsZero() {
		return true
	}
	return !e.Start.Date.Before(a.opt.From) && !e.Start.Date.After(a.opt.To)
}

func (a *assembly) emit(e calendar.Event, d *draft) {
	if len(a.events) >= a.lim.Events {
		a.full = true
		return
	}
	if e.Kind == calendar.Game && d.kind == "" && !d.classified {
		a.notAGame(&e, d)
	}
	a.someEnd(&e, d)
	if id := shortID(e.ID); id != e.ID {
		if d.seen&onceLongID == 0 {
			a.rep.warn(CodeLimit, int(d.line), "UID", e.ID, fmt.Sprintf("an id longer than %d bytes; its end is replaced by a digest of the whole", maxID), "shorten the UID")
		}
		d.seen |= onceLongID
		e.ID = id
	}
	a.events = append(a.events, e)
	a.lines = append(a.lines, d.line)
}

// maxID bounds the IDs of events in bytes, as requests do.
const maxID = 200

// shortID replaces the end of a long ID by a digest of all of it.
func shortID(id string) string {
	if len(id) <= maxID {
		return id
	}
	sum := sha256.Sum256([]byte(id))
	return strings.ToValidUTF8(id[:maxID-1-len(sum)], "") + "~" + hex.EncodeToString(sum[:len(sum)/2])
}

// notAGame makes busy time of what nothing calls a game and cannot be one.
func (a *assembly) notAGame(e *calendar.Event, d *draft) {
	field, reason := "DTEND", "longer than any game"
	switch {
	case d.repeatsWithin() && e.HasEnd:
		field, reason = "RRULE", "repeated within the day, as no game is"
	case !tooLongForGame(*e):
		return
	}
	e.Kind = calendar.Busy
	if !d.saidBusy {
		a.rep.warn(CodeKind, int(d.line), field, "", reason+": taken as busy time", "give it a category, such as "+string(calendar.Game)+" or "+string(calendar.Travel)+", if it is something else")
	}
	d.saidBusy = true
}

// isReminder tells a series that nothing calls a game, that repeats within the
// day and has no end: by section 3.6.1 it takes no time. It is no part of a season.
func (a *assembly) isReminder(m *draft) bool {
	if !m.repeatsWithin() || m.end.form != formNone || m.durLine != 0 {
		return false
	}
	e := a.blank(m)
	if e.Kind != calendar.Game || m.kind != "" || m.classified {
		return false
	}
	a.rep.ask(CodeKind, int(m.line), "RRULE", m.summary, "repeated within the day, and without an end: a reminder that takes no time; it is left out", "give it DTEND and a category, such as "+string(calendar.Practice)+", if it takes time")
	return true
}

// someEnd gives an end to what has no usual length: an hour to busy time, the rest
// of the date to a closure.
func (a *assembly) someEnd(e *calendar.Event, d *draft) {
	if e.HasEnd || e.DateOnly || e.Kind != calendar.Busy && e.Kind != calendar.Closure {
		return
	}
	what := "busy time without an end; an hour is assumed"
	end := a.fromInstant(e.Zone.Resolve(e.Start).Instant.Unix()+3600, e.Zone)
	if e.Kind == calendar.Closure {
		what = "a closure without an end; the rest of the date is assumed"
		end.wall, end.zone = calendar.Wall{Date: e.Start.Date.AddDays(1)}, e.Zone
	}
	if y, _, _ := end.wall.Date.YMD(); y > calendar.LastYear {
		return
	}
	e.End, e.HasEnd = end.wall, true
	if !end.zone.Equal(e.Zone) {
		e.EndZone = end.zone
	}
	if !d.saidSome {
		a.rep.ask(CodeEnd, int(d.line), "DTEND", e.Start.String(), what, "give its end")
	}
	d.saidSome = true
}

// tooLongForGame: several dates, or more hours than a game can have.
func tooLongForGame(e calendar.Event) bool {
	if !e.HasEnd {
		return false
	}
	if e.DateOnly {
		return e.End.Date.DaysSince(e.Start.Date) > 1
	}
	end := e.EndZone
	if end.IsZero() {
		end = e.Zone
	}
	return end.Resolve(e.End).Instant.Sub(e.Zone.Resolve(e.Start).Instant) > calendar.MaxGame
}

// uniqueIDs makes sure that no two events share an ID.
func (a *assembly) uniqueIDs() {
	order := make([]int32, len(a.events))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(x, y int32) int {
		if c := strings.Compare(a.events[x].ID, a.events[y].ID); c != 0 {
			return c
		}
		return int(x - y)
	})
	var drop []int32
	for i := 1; i < len(order); {
		first := order[i-1]
		id := a.events[first].ID
		n := 1
		for ; i < len(order) && a.events[order[i]].ID == id; i++ {
			e := &a.events[order[i]]
			line := int(a.lines[order[i]])
			if e.Start == a.events[first].Start && e.Title == a.events[first].Title {
				a.rep.warn(CodeDuplicate, line, "UID", id, fmt.Sprintf("the event of line %d once more; it is used once", a.lines[first]), "remove one of them")
				drop = append(drop, order[i])
				continue
			}
			n++
			e.ID = shortID(fmt.Sprintf("%s~%d", id, n))
			a.rep.warn(CodeDuplicate, line, "UID", id, fmt.Sprintf("the id of the event of line %d; it becomes %s", a.lines[first], clip(e.ID)), "give each event its own UID")
		}
		i++
	}
	if len(drop) == 0 {
		return
	}
	slices.Sort(drop)
	kept := a.events[:0]
	for i, e := range a.events {
		if _, gone := slices.BinarySearch(drop, int32(i)); !gone {
			kept = append(kept, e)
		}
	}
	a.events = kept
}
