// Package columns chooses one column from each of many groups at the least cost
// so that shared rows stay within their limits, where the columns are too many to
// be written down: a Pricer is asked for them, given a price of each row.
//
// It knows nothing of calendars or training. Costs, prices and bounds are
// integers; floating point appears only in the linear program (LP), whose duals
// suggest prices.
//
// # Why the bound holds
//
// Take any prices p >= 0 of the rows. For every choice of columns that keeps the
// limits, its cost is at least its cost plus the sum of p times (use - limit),
// because use - limit is never positive. The least of that over all choices, limits
// left aside, falls apart into one question to the Pricer for each group. So
//
//	bound(p) = sum over groups of min (cost + p.use) - p.limit
//
// is at most the best cost, whatever p is: rounding in the linear program can make
// the bound weak and never wrong. A row may be exceeded at Problem.Over for each
// unit, which keeps every problem solvable; prices are then at most Over.
//
// # The search
//
// At each node the linear program over the columns known so far is solved, its
// duals, moved towards the prices of the best bound, go to the Pricer, and new
// columns come back, until bound and program meet. If the program's answer is
// fractional, some group uses some row partly: one child demands that use, the
// other forbids it. Nodes are taken in a fixed order and counted, never timed, so
// that the answer repeats on every machine and for any number of workers.
package columns
