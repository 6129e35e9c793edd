package icalendar

import (
	"slices"
	"strings"

	"example.org/weft/calendar"
)

// draft is a VEVENT as read; zones are not yet known, since a VTIMEZONE may
// follow the events that use it.
type draft struct {
	line, cal  int32
	saidEnd    bool   // that its end cannot be right
	saidSome   bool   // that an end was assumed
	lost       bool   // its start cannot be read: left out, reported
	alone      bool   // its place in a series cannot be read: no part of one, reported
	seen       uint32 // properties that may come once
	uid        string
	summary    string
	start      moment
	end        moment
	dur        duration
	durLine    int32
	status     calendar.Status
	seq        int
	stamp      int64 // DTSTAMP in seconds; later wins among equal SEQUENCE
	allDay     bool  // marked by X-MICROSOFT-CDO-ALLDAYEVENT
	kind       calendar.Kind
	classified bool // the kind came from Options.Classify
	saidBusy   bool // a warning says it is busy time
	unknown    []calendar.Property
	*series
}

// series is the part of a draft that few events have.
type series struct {
	rules, exRules []rule
	rdates         []period
	exdates        []moment
	recurID        moment
	future         bool // RANGE=THISANDFUTURE
}

// period is an RDATE: a moment, with an end or a duration of its own or none.
type period struct {
	moment
	end    moment
	dur    duration
	hasDur bool
}

func (d *draft) repeats() bool {
	return d.series != nil && len(d.rules)+len(d.rdates) > 0
}

// repeatsWithin tells whether it repeats within the day, more often than anybody
// trains.
func (d *draft) repeatsWithin() bool {
	const often = 3
	return slices.ContainsFunc(d.set().rules, func(r rule) bool {
		return r.freq < daily || max(1, len(r.hours))*max(1, len(r.minutes))*max(1, len(r.seconds)) > often
	})
}

func (d *draft) isOverride() bool { return d.series != nil && d.recurID.form != formNone }

// set is the series to read from; more is the one to write to.
func (d *draft) set() *series {
	if d.series == nil {
		return &series{}
	}
	return d.series
}

func (d *draft) more() *series {
	if d.series == nil {
		d.series = new(series)
	}
	return d.series
}

// Properties that may come once in a VEVENT.
const (
	onceUID = 1 << iota
	onceStart
	onceEnd
	onceDuration
	onceRecurID
	onceSummary
	onceStatus
	onceSequence
	onceLongID // not a property: the warning on its ID was given
)

// dropped properties are not kept: people and their addresses, which planning
// needs not know, attachments, and the history of the entry in its source.
var dropped = map[string]bool{
	"ATTENDEE": true, "ORGANIZER": true, "CONTACT": true, "ATTACH": true,
	"REQUEST-STATUS": true, "CREATED": true, "LAST-MODIFIED": true,
}

// needed properties are read here, so that a broken one is a question and not a
// warning.
var needed = map[string]bool{
	"BEGIN": true, "END": true, "UID": true, "DTSTART": true, "DTEND": true, "DURATION": true,
	"RECURRENCE-ID": true, "RRULE": true, "EXRULE": true, "RDATE": true, "EXDATE": true,
	"STATUS": true, "SEQUENCE": true,
}

// registered are the names of the standards that a line may begin with in lower
// or mixed case and still be a property.
var registered = func() map[string]bool {
	m := map[string]bool{}
	for _, n := range strings.Fields(`CALSCALE METHOD PRODID VERSION ATTACH CATEGORIES CLASS COMMENT
		DESCRIPTION GEO LOCATION PERCENT-COMPLETE PRIORITY RESOURCES STATUS SUMMARY COMPLETED DTEND DUE
		DTSTART DURATION FREEBUSY TRANSP TZID TZNAME TZOFFSETFROM TZOFFSETTO TZURL ATTENDEE CONTACT
		ORGANIZER RECURRENCE-ID RELATED-TO URL UID EXDATE EXRULE RDATE RRULE ACTION REPEAT TRIGGER
		CREATED DTSTAMP LAST-MODIFIED SEQUENCE REQUEST-STATUS NAME REFRESH-INTERVAL SOURCE COLOR IMAGE
		CONFERENCE CALENDAR-ADDRESS LOCATION-TYPE PARTICIPANT-TYPE RESOURCE-TYPE STRUCTURED-DATA
		STYLED-DESCRIPTION ACKNOWLEDGED PROXIMITY BEGIN END LINK CONCEPT REFID`) {
		m[n] = true
	}
	return m
}()

// rawLine tells whether a line is text that lost its escape and not a property:
// it has no property name before its first ":" or ";", or one that nobody would
// write, as in "http://..." or "Note: bring water".
func rawLine(line string, n int) bool {
	if n == 0 {
		return true
	}
	name := line[:n]
	lower, up, letters := false, false, false
	for i := 0; i < n; i++ {
		c := name[i]
		lower = lower || c >= 'a' && c <= 'z'
		up = up || c >= 'A' && c <= 'Z'
	}
	letters = lower || up
	if !letters {
		return true
	}
	if !lower {
		return false
	}
	if len(name) > 2 && (name[0] == 'X' || name[0] == 'x') && name[1] == '-' {
		return false
	}
	if !registered[strings.ToUpper(name)] {
		return true
	}
	return up && line[n] == ':' && n+1 < len(line) && line[n+1] == ' '
}

// isText tells whether raw lines may be joined to a property's value.
func isText(name string) bool {
	switch name {
	case "DTSTART", "DTEND", "DURATION", "RECURRENCE-ID", "RRULE", "EXRULE", "RDATE", "EXDATE",
		"STATUS", "SEQUENCE", "DTSTAMP", "CREATED", "LAST-MODIFIED", "GEO", "CLASS", "TRANSP", "PRIORITY", "UID":
		return false
	}
	return true
}
