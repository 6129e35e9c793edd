// Package whatif asks what a season would be like if something were otherwise:
// a game moved, a gym closed, one practice more, another rule.
//
// # Contract
//
// A [Change] is a value. [Apply] makes a new request with changes made and says
// what they touched. A [Sweep] plans a base request and any number of variants,
// in parallel and in bounded memory, and yields their results in the order of the
// variants. [Fragility] moves each fixture by some days. A [Fork] plans for
// several calendars of which one will come true, a [Tree] for decisions that fall
// one after the other. A [Lottery] plans many seasons drawn at random. The number
// of workers never changes a result, no request is changed, and nothing here reads
// a clock.
//
// A sweep keeps the memory of one plan for the next, some megabytes a worker.
//
// # Not for
//
// Results compare plans by the planner's own measure. They say nothing about
// what an athlete will be able to do, and no probability here is one of injury.
//
// # Start
//
// Make a Sweep, hand Run a request and a list of variants, and write [Rows] with
// [WriteText] or [WriteCSV].
package whatif
