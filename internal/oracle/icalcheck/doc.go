// Package icalcheck reads calendars written by package icalendar with readers of
// other authors and compares what they find. It has tests only, in a module of its
// own, so that nobody who uses the library gets these readers with it:
//
//   - ical.js 2.2.1 and node-ical 0.20.1 under Node.js: run "npm ci" here.
//     node-ical 0.22.1 and 0.25.0 were tried: they place 72 of the 2,216 events,
//     all within hours of a clock change, where no other reader does.
//     ical.js also expands series: changes to all later occurrences, and rules
//     within the day.
//   - icalendar of Debian's python3-icalendar
//   - golang-ical v0.3.6
//
// A reader that is not installed is skipped; with WEFT_EXTERNAL=1 that is a
// failure.
package icalcheck
