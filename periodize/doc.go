// Package periodize places strength sessions around a season's fixtures.
//
// A [Planner] takes a request (see package season: athlete, calendar, hours,
// rules, what was done) and returns a plan: sessions at instants, each with its
// reason, and every aim that could not be kept with what stood in its way. Plans
// are proved best among the starts considered, and judged again from the
// definitions by code that shares nothing with the engine before they are
// returned.
//
// The package reads no clock, file or network. The same request gives the same
// plan on every machine.
//
// It does not diagnose, clear anyone to play, predict injury or replace a
// qualified coach, and it defers to clinicians and local rules.
package periodize
