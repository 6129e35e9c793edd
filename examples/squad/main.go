// Command squad plans a month of an invented club of 30 athletes who share a hall:
// three teams with calendars of their own, eight places, one or two coaches.
//
//	squad                     the plan: who is in the hall when, and who is left out
//	squad -format json        the same for other programs
//	squad -format html        the chart of the hall to print; with -sheet wall, what
//	                          hangs on its wall in the first week
//	squad -worth              also: what one more place, coach or 30 minutes would buy
//	squad -broken 2           also: planned again with so many places less from the
//	                          second week on, and whom that moves
//	squad -request FILE       another squad, as package squad reads it
//
// # Flags
//
//	-format text|json|html    what is written to standard output
//	-sheet hall|wall          see above; html only
//	-out FILE                 write it to a file instead
//	-hall ID                  whose chart it is, if there are several; html only
//	-request FILE             a squad as JSON instead of the club
//	-issued FILE              its plan issued last, as -format json wrote it: as few people
//	                          as can be are moved, and the text says whom
//	-strict                   an unknown field of these is an error
//	-places N                 places in the club's hall, 8 if not given
//	-kinds N                  points, 0 to 100, that a session costs which is not of the kind
//	                          most in its slot; more keep kinds together
//	-worth, -broken N         see above; text only, -broken for the club alone
//	-workers N                athletes planned at the same time; it changes no plan
//	-quiet                    no line that counts on standard error
//
// The exit code is 0, 1 for a fault or an interrupt, and 2 for bad input, of which
// every problem is listed on standard error. The program reads no clock: the same
// flags give the same bytes.
package main

import (
	"context"
	"os"
	"os/signal"
	_ "time/tzdata" // zones also where none are installed
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
