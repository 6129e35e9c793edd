// Package logbook keeps what was done, and says what follows from it: which
// sessions count, what each lift is worth now, and whether its load goes up,
// stays or comes down.
//
// # Contract
//
// A [Log] is a set of entries with ids. Nothing in it is changed or deleted: an
// entry that was wrong is replaced or voided by a later one. [Merge] unites
// copies of a log in any order, any number of times, with the same result. One
// id under which two things are told is a question: both stay visible and
// neither counts.
//
// [Log.View] folds the log of an athlete to what holds now; a [Fold] does the
// same one entry at a time. What several entries tell of one session or event is
// put together, unless they contradict each other; what was told without a name
// finds its planned session or event by [View.Linked]. What was not told is
// unknown, and unknown is not zero: counts come as the least and the most they
// can be. What is told late changes what follows, never what was printed before:
// see [Log.AsOf].
//
// Loads advance on evidence alone: on sets that were done, with repetitions to
// spare, never on work that was missed or not logged. Implausible values are
// questions, and are not used until somebody confirms them.
//
// [Edges] says how long ago each quality was trained enough to keep it, and when
// it reaches the edge of a band under a plan; [Proposals] makes aims of that, as
// rules that a request carries. [View.Changes] reads tests against their noise,
// and [TestDates] says on which dates one can stand. [View.Loads] draws the load
// with its missing dates missing. [View.Findings] is the short list for a coach,
// empty when nothing is wrong; [View.Preferences] makes rules of a person's notes.
//
// Readers take JSON and CSV, as [Log.WriteJSON] and [Log.WriteCSV] write them,
// have stated limits, find every problem at once, and never panic. Nothing here
// reads a clock, and no input is changed.
//
// # Health
//
// Wellness, body mass and a person's own words are health data. No problem shows
// their values. What reads them must keep them from walls and from other
// athletes.
//
// # Not for
//
// It diagnoses and clears nobody, predicts no injury and no performance, and
// sets no body mass to reach. It is no record of medical treatment: illness,
// pain and holds are not kept here. An estimated maximum is no test, and no
// reason to test one. It keeps no names, photos or addresses: athletes are
// opaque ids, sources are roles.
//
// # Start
//
//	log, problems, err := logbook.Reader{Now: now, Zone: berlin}.CSV(file, "log.csv")
//	view := log.View("a7")
package logbook
