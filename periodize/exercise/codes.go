package exercise

import (
	"example.org/weft/internal/codebook"
	"example.org/weft/periodize/season"
)

// codes lists every note of this package.
var codes = func() codebook.Book {
	out := codebook.Book{}
	add := out.Add
	why, finding, question, warning := season.Why, season.Finding, season.Question, season.Warning
	// Why an exercise stands on the card.
	add(why, "pick-continued", "main lift of this block, since {date}")
	add(why, "pick-maximum", "a maximum is known for it")
	add(why, "pick-alternate", "the other lower-body pattern than last time")
	add(why, "pick-varied", "not used in the last sessions")
	add(why, "pick-fits", "best fit for kit, minutes and training age")
	add(why, "pick-only", "the only one that kit and training age leave")
	add(why, "pick-kept", "as on the card written before")
	add(why, "pick-one-side", "on the {side} only")
	add(why, "pick-own", "the athlete's own, in every warm-up")
	add(why, "pick-warm", "raises, loosens and wakes up")
	add(why, "pick-ramp", "lighter sets before the first work set")
	add(why, "pick-test", "to be tested")
	add(why, "pick-easy-piece", "at a pace at which talking is easy, about 130 to 145 beats a minute for adults")
	// What shaped the card.
	add(why, "card-exam", "exam date: half the usual sets, nothing new")
	add(why, "card-congested", "two games less than 96 h apart this week: less volume, the same loads")
	add(why, "card-fast", "a game within two dates: power first, no second exercise for the legs")
	add(why, "card-build", "in a break: a full second round of strength")
	add(why, "card-trimmed", "trimmed: a set less on each exercise, no eccentric emphasis")
	add(why, "card-volume", "{region}: {sets} sets this week already, {most} are the most: few today")
	add(finding, "card-volume-low", "{region} this week: fewer sets than {least}, namely {sets}; games, minutes or body leave no more")
	add(finding, "card-pattern-low", "{pattern} this week: fewer sets than {least}, namely {sets}; games, minutes, kit or body leave no more")
	add(why, "card-restart", "{days} dates without a lift: one set less, no progress credited")
	add(why, "card-restart-14", "{days} dates without a lift: one set less and 10 % less load")
	add(why, "card-restart-28", "{days} dates without a lift: as a beginner's week, the first set decides the load")
	add(why, "card-after-illness", "back from illness: reduced work until {date}")
	add(why, "card-bench", "{minutes} minutes played: the full rounds")
	add(why, "card-starter", "{minutes} minutes played: two rounds")
	add(why, "card-familiar", "a game within two dates or exams: nothing new")
	add(why, "card-keeper", "goalkeeper: short starts and sideways power before long sprints")
	add(why, "card-older", "{age} years: soft landings and a longer warm-up")
	add(why, "card-supervised", "under 18: only with a qualified adult present, technique first")
	add(why, "card-growth", "growth spurt as told: no hard landings, no eccentric emphasis")
	add(why, "card-eccentric", "break: slow lowering early in it")
	add(why, "card-warm-short", "the warm-up is {minutes} minutes, shorter than the usual 10, for want of time")
	add(why, "card-test", "a test of {exercise}, {reps} repetitions: the last load done well counts, nothing else heavy today")
	add(finding, "card-test-override", "testing a beginner is against the default: {by} answers for it: {reason}")
	add(finding, "card-omits", "no {region} work: {reason}")
	add(finding, "card-spare", "not needed: {minutes} min of the time given")
	add(finding, "card-bench-recovery", "{minutes} minutes played in the last game: this athlete could do a full-body session instead")
	add(question, "question-side", "no side is given: both are taken. Which side is it?")
	add(question, "question-heel-knee", "growing fast: do heels or knees hurt after training?")
	add(question, "question-jump", "{exercise}: {load} on {date} is far from {last} before it and is not used. Is it right, and in which unit?")
	// Where a load comes from.
	add(why, "load-tested", "tested {max} on {date}, {age} days ago, repeats within about 4 % (Grgic et al. 2020); {reps} with {left} left is {percent} % by {curve}{off}, {raw} before rounding down")
	add(why, "load-set", "estimate {max} ({low} to {high}) by {curve} from {set} on {date}, {age} days ago; {reps} with {left} left{off} is {raw} before rounding down")
	add(why, "load-estimated", "estimate {max} on {date}, {age} days ago, of unknown origin; {reps} with {left} left{off} is {raw} by {curve} before rounding down")
	add(why, "load-last", "last lifted {set} on {date}, {age} days ago; the same load, {reps} repetitions")
	add(why, "load-step", "last lifted {set} on {date}, {age} days ago, all repetitions with enough left: the smallest step up")
	add(why, "load-next", "{next} comes next by the sets of {date}, {age} days ago{off}: {raw} before rounding down")
	add(why, "load-next-other", "{next} for {asked} with {leaving} left comes next by the sets of {date}, {age} days ago; {reps} with {left} left{off} is {raw} by {curve} before rounding down")
	add(why, "load-ramp", "{percent} % of the work load, rounded down")
	add(why, "load-test", "{percent} % of what is expected; a step more while all repetitions are done well")
	add(why, "load-none", "no maximum is known: a weight that could be lifted {left} more times")
	add(why, "load-heaviest", "{load} is the heaviest there is: repetitions rise, stop with {left} left")
	add(why, "load-too-many", "the last set had more than 12 repetitions: no estimate, the first set decides")
	add(why, "load-stale", "the newest value is {age} days old, more than 84: the first set decides")
	add(why, "load-learning", "a learner's load follows technique, not a maximum: a weight that could be lifted {left} more times")
	add(why, "load-restart", "after the gap the first set decides: a weight that could be lifted {left} more times")
	add(why, "load-light", "{raw} is less than the lightest that can be built here: the first set decides")
	add(why, "load-body", "own weight: stop with {left} left")
	add(why, "load-unlisted", "the loads of this kit are not told: a weight that could be lifted {left} more times")
	// The day.
	add(why, "day-as-written", "nothing stands against it")
	add(why, "day-pain-continue", "pain of 0 to 2 of 10: continue, stop if it rises")
	add(why, "day-pain-modify", "pain of 3 to 5 of 10: what loads the sore part is out, the same patterns stay")
	add(why, "day-not-clear", "an earlier complaint is not clear for two sessions yet: what loads that part stays out")
	add(why, "day-squeeze", "squeeze test more than 10 % under the baseline: what loads the adductors is out")
	add(why, "day-restriction", "a restriction by a named role stands, whatever is felt today")
	add(why, "day-soreness-ease", "muscle soreness of 4 to 6 of 10: one set less, 5 % less load")
	add(why, "day-soreness-swap", "muscle soreness of 7 or more of 10: what loads that part is out today")
	add(why, "day-sleep", "less than 5 hours of sleep: one set less, 5 % less load")
	add(why, "day-energy", "energy of 3 or less of 10: one set less, 5 % less load")
	add(why, "day-both", "little sleep and little energy: 10 % less load")
	add(why, "day-minutes", "{minutes} minutes today instead of {planned}: the patterns stay, rounds and extras go")
	add(why, "day-shorter-kind", "held as a trimmed full-body session: a set less on each exercise")
	add(why, "day-kit", "other kit than planned: the same patterns with what is there")
	add(why, "day-instead", "{exercise}: out, {reason}; {instead} instead")
	add(why, "day-out", "{exercise}: out, {reason}")
	add(finding, "hold-pain", "pain above 5 of 10: no session today; see a clinician")
	add(finding, "hold-cough", "groin pain when coughing: no session; see a clinician")
	add(finding, "hold-ill", "ill: no session until one whole date is free of fever and illness")
	add(finding, "hold-sign", "{sign}: no session until a named clinician has cleared it")
	add(finding, "hold-standing", "on hold until a named clinician clears it, whatever the expected date")
	add(finding, "hold-under-12", "under 12 years: bodyweight skills with a qualified coach only, no card is made")
	add(finding, "day-refer", "third week of the complaint: refer, although it is mild")
	add(finding, "day-physio", "for the physiotherapist's list: {region}, {side}, {pain} of 10")
	// After the first set.
	add(why, "first-stay", "within one repetition of the target: the load stays")
	add(why, "first-up", "{left} left where {target} were asked for: one step up")
	add(why, "first-down", "{left} left where {target} were asked for: down to what leaves {target}")
	add(why, "first-found", "the first set decides: {max} estimated by {curve} from {set}")
	add(why, "first-no-step", "{left} left, but the next step is more than 10 %: more repetitions instead")
	add(why, "first-guess", "more than 12 repetitions to failure: take a heavier weight and try again, no estimate")
	add(warning, "first-lightest", "too heavy, and nothing lighter can be built: take the easier relative")
	return out
}()

// Codes returns every note code of this package, sorted.
func Codes() []season.NoteCode { return codes.Codes() }

// note makes a note of a code. kv are names and values in turn.
func note(code string, kv ...any) season.Note { return codes.Note(code, kv...) }
