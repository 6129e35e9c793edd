package season

import (
	"sort"

	"example.org/weft/internal/jsonread"
)

// Codes of the problems of a request or a plan. Those of the JSON text itself,
// such as "syntax" or "unknown", are in ProblemCodes too.
const (
	CodeSchemaNewer   = "schema-newer"   // written for a later version
	CodeSchemaMissing = "schema-missing" // warning: taken as Schema
	CodeLimit         = "limit"          // more than a limit allows
	CodeControl       = "control"        // warning: a control character in a text
	CodeEncoding      = "encoding"       // a text that is not UTF-8
	CodeLength        = "length"         // a text too long, or an empty id
	CodeMore          = "more"           // counts the problems not listed

	CodeDate    = "date"    // not a date
	CodeClock   = "clock"   // not a time of day
	CodeWall    = "wall"    // not a wall time
	CodeInstant = "instant" // not an instant with an offset
	CodeMonth   = "month"   // not a month of a year
	CodeMass    = "mass"    // not a mass with a unit
	CodeZone    = "zone"    // missing, unknown or no place: a fixed offset, Local
	CodeChoice  = "choice"  // not one of the allowed words
	CodeRange   = "range"   // a number out of range
	CodeMissing = "missing" // not given

	CodeTimeSkipped = "time-skipped" // the clock jumps over it
	CodeTimeDoubled = "time-doubled" // question: the first of two is used
	CodeEnd         = "end"          // at or before the start
	CodeGameLong    = "game-long"    // a game over 12 h
	CodeEventLong   = "event-long"   // warning: practice, skills or exam over 12 h
	CodeDateOnly    = "date-only"    // question: games without a time of day
	CodeGameEnd     = "game-end"     // question: games without an end
	CodeExamTime    = "exam-time"    // question: exams without a time of day
	CodeUnusedEnd   = "end-unused"   // warning: actual end of an event without a time
	CodeKitEmpty    = "kit-empty"    // warning: a place with nothing but a floor

	CodeIDTwice         = "id-twice"         // one id, different content
	CodeRepeated        = "repeated"         // warning: the same again, used once
	CodeRevisionOld     = "revision-old"     // warning: an older revision after a newer one
	CodeReplaced        = "replaced"         // warning: a newer revision follows
	CodeEventTwice      = "event-twice"      // question: one event, two ids, different content
	CodeGamesOverlap    = "games-overlap"    // question
	CodeBorn            = "born"             // in the future, or more than 100 years ago
	CodeAgeMissing      = "age-missing"      // question
	CodeTrainingMissing = "training-missing" // question
	CodeTrainingAge     = "training-age"     // more training than life
	CodeFuture          = "future"           // dated after now
	CodeClosing         = "closing"          // closes before it opens
	CodeSpan            = "span"             // ends before it begins
	CodeContradiction   = "contradiction"    // two statements that cannot both hold
	CodePinUnused       = "pin-unused"       // warning: outside the period, or past
	CodeBeforeUnused    = "before-unused"    // warning: a date that is not before the period
	CodeUnknownPlace    = "place-unknown"    // a pin at no place of the list
	CodeNowAfter        = "now-after-period" // warning: nothing is left to plan
	CodeSideMissing     = "side-missing"     // question
	CodeByMissing       = "by-missing"       // warning: an instruction of nobody
	CodeUnknownEvent    = "event-unknown"    // an edit of no event of the request
	CodeEdit            = "edit"             // an edit that this event does not take
)

// ProblemCodes returns every code that a problem of this package can have,
// sorted.
func ProblemCodes() []string {
	all := append(jsonread.Codes(),
		CodeSchemaNewer, CodeSchemaMissing, CodeLimit, CodeDate, CodeClock, CodeWall, CodeInstant, CodeMonth, CodeMass,
		CodeZone, CodeTimeSkipped, CodeTimeDoubled, CodeEnd, CodeGameLong, CodeEventLong, CodeDateOnly, CodeGameEnd, CodeExamTime,
		CodeUnusedEnd, CodeKitEmpty, CodeIDTwice, CodeRepeated, CodeRevisionOld, CodeReplaced, CodeEventTwice, CodeGamesOverlap,
		CodeBorn, CodeAgeMissing, CodeTrainingMissing, CodeTrainingAge, CodeFuture, CodeClosing, CodeSpan,
		CodeContradiction, CodePinUnused, CodeBeforeUnused, CodeUnknownPlace, CodeNowAfter, CodeSideMissing, CodeByMissing,
		CodeUnknownEvent, CodeEdit)
	sort.Strings(all)
	return all
}
