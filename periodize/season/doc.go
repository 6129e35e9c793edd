// Package season holds the nouns of planning: a [Request], which is everything a
// plan is made from, the [Plan] that answers it, and the [Note], which is one
// thing a plan says. All are plain values.
//
// # Contract
//
// [ReadRequest] and [Request.Validate] find every problem of a request at once,
// each with path, value, reason and remedy: errors and refusals forbid planning,
// questions and warnings do not. Both make the same checks and stay within the
// same [Limits]. What is known of a person's health, restrictions and holds, is
// in no problem's text. Names are kept as they were given; whoever prints them
// makes them inert.
//
// [Request.Canonical] takes the order and the repetitions out of a request, and
// [Request.Digest] names what is left. [Apply] makes a new request with some
// events changed. A request or plan that was written as JSON reads back as it
// was. Nothing here changes its arguments, reads a clock or panics.
//
// # A request as JSON
//
// Only period and the athlete's zone must be given; born and trainingAgeYears
// are asked for if missing.
//
//	schema    1
//	period    {from, to}: dates, both included
//	now       instant with its offset; what starts before it is past
//	athlete   {id, born "2007-03", zone, trainingAgeYears 2.5, role,
//	           hours [{days ["mon"], from "16:00", to "20:30"}], prefer [{days, start}],
//	           maxima [{exercise, load "100 kg", kind tested|estimated, date}],
//	           restrictions [{region, side left|right|both, from, to, by}],
//	           holds [{from, until, clearedBy, clearedOn}], optIns ["post-game"]}
//	events    [{id, kind, team, title, start, end, zone, endZone, actualEnd, status,
//	           importance, hard, home home|away|neutral, opponent, competition, round,
//	           revision}]: start and end are wall times "2026-11-08T14:00", or dates
//	           alone, and then end is the last date
//	places    [{id, hours, closed [{from, to}], kit ["bar"], away}]
//	rules     [{rule, value, points, off, by, reason}]
//	club      [{id, says, shape forbid|cost|after|at-most|apart|at-least, kinds, days,
//	           from, to, points, minutes, most, least, dates, before ["2026-11-08"],
//	           event {kind, title}}]: see [ClubRule]
//	log       [{id, session, kind, start, end, zone, missed}]: wall times
//	issued    [plan], newest last
//	pins      [{date, kind, start "17:00", place, none}]
//
// A mass is "100 kg", "225 lb" or {"grams": 100000}. null stands for nothing:
// leave the field out.
//
// # Not for
//
// Whether a rule exists and what it takes is not known here, nor whether an
// athlete may train; so an age of 9 is no problem of a request, and a refusal of
// the planner.
//
// # Start
//
// Read a request with [ReadRequest], or fill in a [Request] and ask
// [Request.Validate].
package season
