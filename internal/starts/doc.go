// Package starts turns a request into what the engine chooses from: for each
// date the sensible starts of each kind of session, what each costs by itself,
// and which limits forbid the others.
//
// A start is sensible if it is the one nearest to the preferred time, the
// earliest or the latest of its room, or lies on the edge of a limit that is
// counted in hours. What depends on other sessions is not known here: that is
// the business of the rules over days.
package starts
