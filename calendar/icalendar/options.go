package icalendar

import "example.org/weft/calendar"

// Options of [Read]. The zero value reads a calendar that names its zones.
type Options struct {
	// DefaultZone is the zone of floating times and of dates, and the zone in
	// which events given in UTC are dated. Unset, the calendar's own X-WR-TIMEZONE
	// takes its place, with a warning, or the first zone that the calendar names,
	// with a question.
	DefaultZone calendar.Zone

	// LastZone is the zone of times and dates that nothing else places, with a
	// question. Unset, they are errors.
	LastZone calendar.Zone

	// From and To bound the start date, both inclusive, of the occurrences of
	// repeating events. Events that do not repeat are always returned. Give both or
	// neither; without them a rule that has no end of its own is followed to the last
	// date that the file names, but a year at least, with a question.
	From, To calendar.Date

	// Team is set on every event.
	Team string

	// DefaultKind is the kind of an event that nothing else decides; game when
	// empty.
	DefaultKind calendar.Kind

	// Classify, if set, decides the kind of an event none of whose CATEGORIES is
	// the name of a kind. It must be a pure function.
	Classify func(Description) (calendar.Kind, bool)

	// NoReminders leaves out, with a question, what repeats within the day, has no
	// end and is called nothing: by section 3.6.1 of the standard it takes no time,
	// and an assumed one would fill the season.
	NoReminders bool

	Limits Limits
}

// Description is what an event says about itself in words.
type Description struct {
	Summary, Description, Location string
	Categories                     []string
	AllDay                         bool
}

// Limits of what is read. A field of 0 or less means its default.
type Limits struct {
	Bytes      int64 // of the file; 64 MiB
	Line       int   // bytes of one unfolded line; 64 KiB
	Params     int   // parameter values of one property; 64
	Depth      int   // components inside components; 16
	Components int   // 400,000
	Events     int   // returned, occurrences counted one by one; 200,000
	Series     int   // occurrences of one rule in the span; 5,000
	Zones      int   // different TZIDs, and definitions of zones; 200
	Dates      int   // entries of all RDATE and EXDATE lists; 200,000
	Properties int   // kept in Event.Unknown of one event; 200
	Kept       int   // properties and parameter values kept in Event.Unknown of all events; 2,000,000
	Work       int64 // days and occurrences looked at in expanding rules, of which one rule may use a tenth; 20,000,000
	Problems   int   // reported of each class; the others are counted; 200
}

func (l Limits) settled() Limits {
	def := func(v *int, d int) {
		if *v <= 0 {
			*v = d
		}
	}
	if l.Bytes <= 0 {
		l.Bytes = 64 << 20
	}
	if l.Work <= 0 {
		l.Work = 20_000_000
	}
	def(&l.Line, 64<<10)
	def(&l.Params, 64)
	def(&l.Depth, 16)
	def(&l.Components, 400_000)
	def(&l.Events, 200_000)
	def(&l.Series, 5_000)
	def(&l.Zones, 200)
	def(&l.Dates, 200_000)
	def(&l.Properties, 200)
	def(&l.Kept, 2_000_000)
	def(&l.Problems, 200)
	return l
}

// Result is what a file holds.
type Result struct {
	// Events, sorted by start, then ID; nil if any problem is an error.
	Events []calendar.Event

	Name   string // X-WR-CALNAME or NAME of the first calendar that has one
	Method string // METHOD likewise, upper case; CANCEL cancels its events

	Bytes int64 // read
	Lines int   // physical lines read
	Work  int64 // units of Limits.Work used
}
