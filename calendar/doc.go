// Package calendar holds the "when" of a season: dates, clock times, time
// zones, instants, half-open spans and events, and the few facts that follow
// from them, such as elapsed gaps, game days, breaks and congested spells.
//
// # Contract
//
// A [Date] is a day on the wall, never an instant. A [Wall] is a date and a
// clock time, again without a zone. Only a [Zone] turns a wall time into an
// instant, and it says whether the wall time was exact, skipped or doubled by
// a clock change ([Zone.Resolve]). Gaps are elapsed time between instants;
// adding 24 hours is not adding a date.
//
// Nothing here reads a clock, the machine's zone, the environment or the
// network, and nothing panics. Zone data come from the Go runtime: a program
// that must run where no zone data are installed imports time/tzdata itself.
// If a zone cannot be loaded, [LoadZone] returns an error; it never falls back
// to UTC.
//
// # Not for
//
// It is no general date library: dates run from 1900 to 2199, formats other
// than ISO 8601 are refused with a hint, and recurrences are left to package
// icalendar.
//
// # Start
//
// Load a zone with [LoadZone], write events as [Event] values, put them on the
// time line with [Place].
package calendar
