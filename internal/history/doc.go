// Package history holds the default rules over days, as automata: what a
// session costs or forbids because of the sessions before it. The rules about
// one session alone are in package starts.
//
// Each automaton remembers as little as it can. Limits forbid in Step and never
// at the end of a day, so that resting is always allowed; a limit broken by a
// session that is forced is charged as broken instead.
package history
