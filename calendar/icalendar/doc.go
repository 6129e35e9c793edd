// Package icalendar reads and writes calendars in the format of RFC 5545.
//
// [Read] turns a file into [calendar.Event] values: wall times with their zones,
// repeating events taken apart into occurrences. It is made for files from
// anywhere. Every limit is stated in [Limits] and kept, all problems are reported
// at once, each with its line, and a file with an error yields no events at all. [Write] makes a file
// that other programs read to the same instants.
//
// What an event becomes:
//
//   - UID is the ID; an occurrence of a repeating event is "UID#" and the wall
//     time at which the rule has it, and keeps that ID when it is moved. Without
//     UID the ID is made from the content.
//   - A category that is the name of a kind (game, practice, ...) sets the kind;
//     then Options.Classify, then Options.DefaultKind, then game; what is
//     longer than a game can be is then busy time, with a warning.
//   - STATUS TENTATIVE is provisional, CANCELLED is cancelled. SEQUENCE is the
//     revision. SUMMARY is the title.
//   - All other properties are kept in Event.Unknown, their values as they stand
//     in the file, but for people and addresses (ATTENDEE, ORGANIZER, CONTACT),
//     attachments, CREATED, LAST-MODIFIED, DTSTAMP, REQUEST-STATUS, and the mark of
//     desktop calendars for all-day events. Alarms and other components are passed
//     over.
//
// A TZID that is an IANA name stands for the IANA data, whatever the file's own
// VTIMEZONE says. So does one that ends with an IANA name after a slash, and a
// Windows name, by the mapping of Unicode CLDR. Any other TZID needs a VTIMEZONE;
// without a usable one it is read, with a question, as the fixed offset that it
// writes, or in the zone of the calendar (Options.DefaultZone, LastZone), and is an
// error where there is none.
//
// What the standard forbids is read as other readers read it, where they agree
// and one meaning is likely, and is a question that names the line: times in
// another form, a day that its month does not have (counted on into the next
// month), the first of two properties, rules with parts that do not go together,
// events inside events or outside any calendar, names misspelt at BEGIN or END.
// An event whose start cannot be read is left out, with a question; a file none of
// whose events can be read is an error, and so is one that ends inside a component.
// An end that cannot be right (before the start, a date beside a time, no time at
// all, a negative duration) counts as none. What lies outside the years 1900 to
// 2199 is left out, with a warning; a series may begin before them.
//
// Times that a clock change skips or doubles are resolved by section 3.3.5, with
// a warning. Rules of every frequency run in wall time. A change with RANGE=THISANDFUTURE gives its shift of
// the clock, its length and its words to all later occurrences (sections 3.2.13
// and 3.8.4.4).
//
// Measured: 150,000 events in 51 MB take about 1 s of one core and 320 MB in the
// program examples/season, given the dates to plan; 2 s and 630 MB without them,
// when all are merged. Larger files than 64 MiB, or 200,000 events, are refused by
// Limits, which can be raised.
//
// The package is not for meeting requests, tasks, journals or free/busy lists, and
// it does not fetch anything.
package icalendar
