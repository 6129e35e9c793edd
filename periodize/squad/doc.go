// Package squad plans athletes who share a gym: each with a calendar, rules and a
// log of its own, and one hall whose places, hours and coaches are fewer than they
// would all like.
//
// A [Planner] takes a [Request] and returns a [Plan]: for each athlete a plan as
// package periodize makes it, judged from the definitions, and for each slot of the
// hall who is there. Nobody is above a slot's capacity or outside supervision.
//
// # What is best
//
// The plans together have as few points as they can: the sum of what each athlete's
// aims miss, by the weights of the rule table, HomePoints for each lift at home and,
// where a plan was issued, what moving costs. That is proved, or Gap says by how much
// it may be off.
//
// Among plans with as few points, ties decide. Together they weigh less than half a
// point, so that they never cost one. They are searched for with a bound on the work,
// and nothing about them is proved: another plan with as few points may keep kinds more
// together or go by the line more strictly.
//
//   - one kind of session to a slot, so that one coach can run it: each slot of a
//     date is given to strength work (the full-body session, the trimmed one, which
//     is the same with a set less, and the eccentric one), to primers or to
//     recovery, so that most sessions fit, and a session of another kind costs a
//     tie. It weighs as much as a few places in the line. A start at a better time
//     is worth a point, so that slots stay mixed where unmixing them would cost one:
//     with KindPoints it may. The search is then as good but the bound does not know
//     of it, so that Gap holds what it costs. Mixed counts what is left;
//   - who comes first in the line gets the place: who had the fewest lifts in the
//     last 7 dates, then who played the fewest minutes in them, then the smallest
//     id. In each later week, of which no log tells yet, the line of each team, of
//     those who have the same games, moves on by a third. The line does not stand
//     above points: who cannot train at home, or would miss more, comes before it;
//   - a slot that starts far from what an athlete prefers goes to those whose turn it
//     is in that week, so that poor slots rotate.
//
// Planned again, as few people as can be are moved, since each costs MovePoints; then
// few sessions of each ([RuleMoves]). Both are part of the points that are proved.
//
// # How it is found, and what is proved
//
// The time of a hall is cut into slots. A price on each slot is a static cost of the
// engine, so the best plan of one athlete at given prices takes a millisecond and is
// exact. Prices come from a linear program over the plans found so far; they prove
// that no plan of the squad has fewer than Bound points, whatever was not looked at
// (internal/columns has the argument). Proof is "proved" if Points is Bound, else
// "bounded", and Gap says how far off the plan may be at most. As for a single
// athlete, proved means best among the starts considered: in a hall these are the
// starts of all slots.
//
// # What it is not for
//
// Squads are planned four to eight weeks ahead and rolled on: give the plan issued
// last with the next request, and each athlete's plan of the season as its Target. It
// makes no timetable of a hall that other people use too, and gives no coach a rota.
// All who share halls are planned in one zone; others are refused in words.
package squad
