package icalendar

import (
	"math"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
)

// Calendar is what [Write] writes.
type Calendar struct {
	Name    string // shown by calendar programs; may be empty
	Entries []Entry
}

// Entry is one event to write. UID, Start, Zone and Stamp are required.
type Entry struct {
	UID string // the same for the same event in every file; up to 2,100 bytes, no control characters

	// Start and End are wall times in Zone and EndZone; an unset End is none. With
	// AllDay only the dates count, and End is the first date no longer taken. A
	// doubled wall time is the first of the two; an end that would then lie before
	// the start is the second.
	Start, End    calendar.Wall
	Zone, EndZone calendar.Zone // an unset EndZone is Zone
	AllDay        bool

	Summary, Description, Location string
	Categories                     []string

	Sequence    int // 0 or more; raise it with each change
	Cancelled   bool
	Provisional bool
	Stamp       time.Time // when the entry was made; written in UTC, to the second

	// Properties are written as they are, but for those that an Entry has fields
	// for. Line breaks in values become \n.
	Properties []calendar.Property
}

const maxWrittenUID = 2100 // bytes

// WriteError is the error of Write for entries that cannot be written. It lists
// every problem; nothing has been written.
type WriteError struct {
	Problems []calendar.Problem
}

// Error returns the first problem and how many more there are.
func (e *WriteError) Error() string {
	if len(e.Problems) == 0 {
		return "icalendar: nothing to report"
	}
	s := "icalendar: " + e.Problems[0].Error()
	if n := len(e.Problems) - 1; n > 0 {
		s += " (and " + itoa(n) + " more)"
	}
	return s
}

// EntryOf returns the entry for an event: ID is the UID, Kind a category, kept
// properties stay. Provisional and if-necessary events are tentative, cancelled
// and postponed ones cancelled: nothing happens at their time. An actual end
// takes the place of the planned one. What the format has no place for is lost:
// team, importance, home or away, opponent, competition, round, and whether a
// practice is hard.
func EntryOf(e calendar.Event, stamp time.Time) Entry {
	out := Entry{
		UID: e.ID, Start: e.Start, Zone: e.Zone, EndZone: e.EndZone, AllDay: e.DateOnly,
		Summary: e.Title, Sequence: e.Revision, Stamp: stamp,
		Cancelled:   e.Status == calendar.Cancelled || e.Status == calendar.Postponed,
		Provisional: e.Status == calendar.Provisional || e.Status == calendar.IfNecessary,
	}
	if out.UID == "" {
		out.UID = e.ContentID()
	}
	if e.Kind != "" {
		out.Categories = []string{string(e.Kind)}
	}
	if e.HasEnd {
		out.End = e.End
	}
	if e.HasActualEnd {
		out.End = e.ActualEnd
	}
	for _, p := range e.Unknown {
		// Those with parameters stay, so that none is lost.
		switch {
		case p.Name == "DESCRIPTION" && len(p.Params) == 0 && out.Description == "" && plain(p.Value):
			out.Description = unescapeText(p.Value)
		case p.Name == "LOCATION" && len(p.Params) == 0 && out.Location == "" && plain(p.Value):
			out.Location = unescapeText(p.Value)
		default:
			out.Properties = append(out.Properties, p)
		}
	}
	return out
}

// plain tells whether a raw TEXT value comes back the same from its text.
func plain(raw string) bool { return raw != "" && escapeText(unescapeText(raw)) == raw }

// end is the kind of end an entry has once resolved.
type resolvedEntry struct {
	*Entry
	start, end calendar.Resolution
	endInUTC   bool // only so can the second pass of a doubled hour be written
	hasEnd     bool
}

func (e *Entry) endZone() calendar.Zone {
	if e.EndZone.IsZero() {
		return e.Zone
	}
	return e.EndZone
}

// resolve checks the entries and reports all that is wrong.
func resolve(entries []Entry) ([]resolvedEntry, []calendar.Problem) {
	var problems []calendar.Problem
	out := make([]resolvedEntry, 0, len(entries))
	uids := make(map[string]int, len(entries))
	for i := range entries {
		e := &entries[i]
		path := "/entries/" + itoa(i)
		bad := func(field, value, reason, remedy string) {
			problems = append(problems, calendar.Problem{
				Code: CodeValue, Class: calendar.ClassError, Path: path,
				Field: field, Value: clip(value), Reason: reason, Remedy: remedy,
			})
		}
		switch first, twice := uids[e.UID]; {
		case strings.TrimSpace(e.UID) == "" || e.UID != strings.TrimSpace(e.UID):
			bad("UID", e.UID, "empty, or with space around it", "give a stable id")
		case len(e.UID) > maxWrittenUID || strings.ContainsFunc(e.UID, isControl) || strings.ToValidUTF8(e.UID, "") != e.UID:
			bad("UID", e.UID, "too long, or with characters that no id may have", "use up to 2,100 bytes of printable UTF-8")
		case twice:
			bad("UID", e.UID, "the id of /entries/"+itoa(first), "give each entry its own id")
		default:
			uids[e.UID] = i
		}
		if e.Sequence < 0 || e.Sequence > math.MaxInt32 {
			bad("Sequence", itoa(e.Sequence), "out of range", "count from 0")
		}
		if y := e.Stamp.UTC().Year(); y < calendar.FirstYear || y > calendar.LastYear {
			bad("Stamp", e.Stamp.UTC().Format(time.RFC3339), "not set, or out of range", "give the instant at which the entry was made")
		}
		if e.Cancelled && e.Provisional {
			bad("Provisional", "", "cancelled and provisional at once", "choose one")
		}
		if e.Zone.IsZero() {
			bad("Zone", "", "no time zone", "name the place, such as Europe/Berlin")
			continue
		}
		r := resolvedEntry{Entry: e, hasEnd: !e.End.IsZero()}
		if !wallOK(e.Start) {
			bad("Start", e.Start.String(), "not set, or out of range", "give a date from 1900 to 2199 and a time from 00:00 to 24:00")
			continue
		}
		if r.hasEnd && !wallOK(e.End) {
			bad("End", e.End.String(), "out of range", "give a date from 1900 to 2199 and a time from 00:00 to 24:00")
			continue
		}
		if e.AllDay {
			if r.hasEnd && !e.End.Date.After(e.Start.Date) {
				bad("End", e.End.Date.String(), "not after the start", "give the first date no longer taken, or none")
			}
			out = append(out, r)
			continue
		}
		r.start = e.Zone.Resolve(e.Start)
		if r.hasEnd {
			r.end = e.endZone().Resolve(e.End)
			if r.end.Fit == calendar.Doubled && r.end.Instant.Before(r.start.Instant) {
				r.end.Instant, r.endInUTC = r.end.Later, true
			}
			if !r.end.Instant.After(r.start.Instant) {
				bad("End", e.End.String(), "not after the start at "+e.Start.String(), "give a later end, or none")
			}
		}
		out = append(out, r)
	}
	return out, problems
}

func wallOK(w calendar.Wall) bool {
	y, _, _ := w.Date.YMD()
	return y >= calendar.FirstYear && y <= calendar.LastYear && w.Clock.Valid()
}

// sorted returns the entries by start, then UID, so that the order in which they
// come does not show in the file.
func sorted(rs []resolvedEntry) []resolvedEntry {
	slices.SortFunc(rs, func(a, b resolvedEntry) int {
		if c := a.Start.Compare(b.Start); c != 0 {
			return c
		}
		return strings.Compare(a.UID, b.UID)
	})
	return rs
}
