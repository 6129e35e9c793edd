package logbook

import (
	"example.org/weft/internal/codebook"
	"example.org/weft/periodize/season"
)

// codes lists every note of this package.
var codes = func() codebook.Book {
	out := codebook.Book{}
	add := out.Add
	add(season.Question, "question-clash", "two things are told under the id {id}: neither counts; which is right?")
	add(season.Question, "question-corrections", "the corrections of {id} disagree, or go in a circle: none counts; which is right?")
	add(season.Question, "question-twice", "two entries tell different things of the planned session {planned}: neither counts; which is right?")
	add(season.Question, "question-together", "the entries {entries} tell different things of one {kind} at {start}: none counts; which is right?")
	add(season.Question, "question-unlogged", "nothing is told of {kind} on {date}: did it happen?")
	add(season.Warning, "log-target", "the entry {id} is about {of}, which is not in the log")
	add(season.Warning, "log-exercise", "{exercise} is no exercise of the catalogue: its sets are not used")
	add(season.Warning, "log-exercise-near", "{exercise} is no exercise of the catalogue: its sets are not used. Did you mean {near}?")
	add(season.Question, "question-jump", "{exercise}: {what} on {date} is far from {before} and is not used. Is it right, and in which unit? Confirm or replace {entry}")
	add(season.Question, "question-jumps", "{exercise}: {what} on {date}, and {more} more like it since, are far from {before} and are not used. Are they right, and in which unit? Confirm or replace {entry} first")
	// What a lift is worth.
	add(season.Why, "estimate-none", "nothing done says what it is worth")
	add(season.Why, "estimate-sets", "estimate {max} ({low} to {high}) by {curve}, the newest from {set} on {date}, {age} days ago; sessions taken together: {sessions}")
	add(season.Why, "estimate-floor", "at least {max} by {curve} from {set} on {date}, {age} days ago: repetitions left were not told")
	add(season.Why, "estimate-tested", "{max} ({low} to {high}): tested on {date}, {age} days ago; values taken together: {sessions}; a test repeats within about 4 % (Grgic et al. 2020)")
	add(season.Why, "estimate-given", "estimate {max} ({low} to {high}) on {date}, {age} days ago, of unknown origin")
	add(season.Why, "estimate-stale", "the newest value, {max} on {date}, is {age} days old, more than 84: the first set decides")
	// What comes next.
	add(season.Why, "progress-none", "no set of {exercise} with load and repetitions is logged: the first set decides")
	add(season.Why, "progress-stale", "last lifted {load} on {date}, {age} days ago, more than 84: the first set decides")
	add(season.Why, "progress-no-card", "last lifted {load} on {date} ({set}), outside a card: the same load")
	add(season.Why, "progress-no-reserve", "{sets} x {reps} at {load} done on {date}, but not how many were left: the same load")
	add(season.Why, "progress-short", "not all sets of {reps} at {load} are logged on {date}: {done} with all repetitions, {sets} asked for; the same load")
	add(season.Why, "progress-hold", "{sets} x {reps} at {load} done on {date}, the hardest set {set}, where {left} were to be left: the same load")
	add(season.Why, "progress-advance", "{sets} x {reps} at {load} done on {date}, the hardest set {set}, more than the {left} to be left: the smallest step up, {next}")
	add(season.Why, "progress-big-step", "{sets} x {reps} at {load} done on {date} with more than {left} left, but the next step, {next}, is over 10 %: more repetitions first")
	add(season.Why, "progress-no-step", "{sets} x {reps} at {load} done on {date} with more than {left} left, but nothing heavier can be built: more repetitions first")
	add(season.Why, "progress-drop", "{set} at most on {date}, where {sets} x {reps} with {left} left were asked for: down to {next}")
	add(season.Why, "progress-lightest", "{set} at most on {date}, too heavy, and nothing lighter can be built: take the easier relative")
	add(season.Why, "progress-failed-drop", "{set} on {date}, outside a card: down to {next}")
	add(season.Why, "progress-failed-lightest", "{set} on {date}, outside a card, and nothing lighter can be built: take the easier relative")
	moreCodes(add)
	return out
}()

// Codes returns every note code of this package, sorted.
func Codes() []season.NoteCode { return codes.Codes() }

// note makes a note of a code. kv are names and values in turn.
func note(code string, kv ...any) season.Note { return codes.Note(code, kv...) }
