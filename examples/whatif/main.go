// Command whatif asks what a season would be like if something were otherwise: it
// plans an invented season, or one read from a table of fixtures, with a list of
// changes, and prints a table of the results.
//
//	whatif                            the invented demo
//	whatif -fixtures games.csv        one team's games
//	whatif -fixtures league.csv -team T05
//	whatif -fixtures games.csv -out results.csv
//
// # Input
//
//	-fixtures FILE   games and other events, a table (CSV); "-" is standard input
//	-team NAME       the team, for the table of a whole league
//	-zone NAME       zone of rows that name none
//	-now INSTANT     what is before it is past; none: the whole season is ahead
//	-log FILE        what was done before, as package logbook reads it: JSON by the
//	                 name .json, else CSV. The table then names the first date on which
//	                 strength and speed were last trained so long ago that they may
//	                 begin to fade, and the CSV has columns for all qualities
//	-workers N       plans made at the same time; 0 is one a processor. It changes no result
//
// # Output
//
//	the table on standard output, one line that counts on standard error
//	-out FILE        the table as CSV too
//	-causes FILE     also: what stood in the way of missed aims, as CSV
//	-fragile         also: what happens where fixtures move by two days either way
//	-moves FILE      the same, with each move of each fixture as CSV
//	-branches        also: plans for games that are played only if they are needed
//	-seasons N       also: N seasons at random, 1000 in a usual run; -seed chooses them
//	-quiet           no line that counts
//
// The athlete is an invented adult. Change athlete.go and variants.go to ask
// other questions: that is what this program is for.
//
// The exit code is 0, 1 for a fault or an interrupt, and 2 for bad input, of which
// every problem is listed on standard error. The program reads no clock: the same
// input gives the same bytes.
package main

import (
	"context"
	"os"
	"os/signal"
	_ "time/tzdata" // zones also where none are installed
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
