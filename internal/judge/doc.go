// Package judge recomputes, from the plain definitions, what is wrong with a
// plan of strength sessions around fixtures: every breach of a limit and every
// missed aim, with its points.
//
// It is a second opinion. It imports nothing of this module and shares no code
// with whatever made the plan: one small function a rule, brute loops over
// dates and windows, no search. It never says how a plan could be better.
//
// All input is integers: instants are minutes since 1970-01-01T00:00Z, dates
// are days since 1970-01-01, clocks are minutes since the local midnight of the
// date on which a thing starts and may pass 1440. The caller resolves zones; a
// date-only game arrives as 09:00 to 22:00 of its date.
//
// Gaps are elapsed minutes from the end of a session to the start of a game,
// never differences of dates.
//
// Start with [Default] and [Judge].
package judge
