// Package exercise fills planned sessions with what an athlete does in them: a
// [Card] of exercises, sets, repetitions, kilograms and rests that takes exactly
// the minutes there are, and on the day the card that a report leads to, or
// none.
//
// # Contract
//
// A [Builder] makes a card from an [Input]: kind, minutes and date of the
// session, athlete, kit, and what was done before. [Builder.Season] does so for
// all sessions of a plan. The same input gives the same card; no input is
// changed; every problem of an input is reported at once, and what is known of
// health is in no problem's text.
//
// The minutes of a card's blocks add up to its minutes, rests and changes of
// place included. Each load can be built from the kit, is rounded down, and
// carries its evidence: the set or test, its date and age, the equation and how
// uncertain it is. What a log says comes next of a lift ([NextLoad]) goes before
// what follows from a maximum. Without a value, with one older than 84 days or from more
// than 12 repetitions there are no kilograms but an effort, and the first set
// decides. No load comes from body mass, and a beginner's never from a maximum.
// A full-body card has push, pull, lower body and trunk, or says what is missing
// and why.
//
// [Builder.Today] answers a [CheckIn] by written thresholds with a [Result]:
// [AsWritten], [Eased], [Swapped] or [Held]. A held day has no card. Nothing
// here computes that somebody is cleared. [Card.Wall] is all that may hang on a
// wall. What the day does to the rest of the week is a plan's matter, and so
// periodize.Planner.Today shows it.
//
// [Builder.Test] makes a test of strength, and refuses one to beginners for whom
// no named adult answers.
//
// Catalogue, kit, check-in and profile are read from JSON and written to it:
// [ReadCatalogue], [Catalogue.ReadKit], [Catalogue.ReadCheckIn],
// [Catalogue.ReadProfile].
//
// # How a card is chosen
//
// A kind of session has a shape: groups of two or three slots. Exercises that
// kit, training age, age and the body rule out are no candidates. The rest have
// stated costs, and the cheapest filling of all slots and rounds in the minutes
// is found exactly: first the four patterns, then rounds, power and
// correctives, then continuity of the main lifts within a block of six weeks,
// then variety in the others; breaks cut blocks. Nothing that was not done before
// is chosen within two dates before a game or in exams.
//
// Over a week the sets of each region stay in a band, lower where games are less
// than 96 hours apart, with indirect sets counted as halves; a session that would
// leave the week under it takes a second exercise of the region, and where even
// that does not do the card says so. Each movement pattern has a band of its own: a
// week with two full-body sessions has knee and hip, across and up, pulled across
// and down. A week of exams aims at half the sets of the
// three weeks before. Power comes first within two dates before a game, a full
// second round in breaks.
//
// # Sources
//
// Repetitions, reserve, rounds, rests, gaps and thresholds are common practice
// (no source) but where a comment names one: rests of the main lift follow the
// strength row of the Essentials of Strength Training and Conditioning (NSCA),
// loads of minors stay under 80 % (Lloyd et al. 2014, BJSM 48:498-505, from
// memory), steps under 10 % (ACSM 2009, MSSE 41:687-708). They are averages
// from adults, not measurements of an athlete.
//
// # Not for
//
// Diagnosis, clearance, rehabilitation, or coaching technique: a card names an
// exercise and a qualified adult teaches it.
//
// # Start
//
//	club := exercise.Club{Athlete: request.Athlete}
//	filled, cards, err := exercise.Builder{}.Season(*plan, club)
//	input, card, err := exercise.Builder{}.Written(*plan, club, cards[0].Session)
//	result, err := exercise.Builder{}.Today(input, card, exercise.CheckIn{Minutes: 20})
//	week, err := planner.Today(ctx, request, plan, card, result)
package exercise
