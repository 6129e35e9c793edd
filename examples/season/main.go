// Command season plans strength sessions around a season's fixtures and prints
// the plan week by week, each session with its reason.
//
//	season                                   an invented demo: a season of handball
//	season -fixtures games.csv               around a table of games
//	season -fixtures league.csv -team T05    one team of a league's table
//	season -fixtures club.ics -fixtures school.ics -athlete athlete.json
//	season -request request.json             a whole request
//
// # Input
//
//	-request FILE     a request as package season describes it; "-" is standard input
//	-fixtures FILE    games and other events, a table (CSV) or a calendar (iCalendar);
//	                  may be given several times, "-" is standard input; at most 64 MiB
//	                  each; with -from and -to only what lies around them is kept of a
//	                  list of 20,000 events or more, else 100,000 events in all
//	-team NAME        the team, for the table of a whole league
//	-columns LIST     names that columns of the tables have, such as
//	                  date=Spieltag,time=Anstoss; common English ones are known
//	-dates ORDER      of dates such as 3/4/2027: dmy or mdy; left out they are errors
//	-zone NAME        zone of rows and calendars that name none, and of the plan; left
//	                  out: the athlete's, else that of the first fixture
//	-athlete FILE     the athlete of a request, or {"athlete": ..., "places": ..., "rules": ...}
//	-from, -to DATE   first and last date; left out: the weeks from that of the first game
//	                  to that of the last, whole ones, because weekly aims bind only there
//	-now INSTANT      what began before it is fixed; left out: the first instant of the
//	                  first date, so that nothing is past
//	-issued FILE      a plan that was handed out earlier (written with -format json); may
//	                  be given several times, the newest last
//	-log FILE         what was done, a log as package logbook reads it: JSON by the name
//	                  .json, else a table (CSV); needs -now. Sessions done or missed go
//	                  to the request, sets to the loads of -card, notes that name a kind
//	                  of session or a day become preferences
//	-keep             with -log: plan with the aim that maximal strength and speed stay
//	                  inside the bands of what training leaves behind: two rules of
//	                  the request's club, which -report proposes where they are needed
//	-strict           unknown fields of a JSON text are errors
//
// Without an athlete the age is unknown: the plan keeps to the safeguards of a
// young beginner and says so at its top.
//
// # Output
//
//	-format text      for people (the default); -v adds all reasons and every missed aim
//	-format json      the plan, as package season describes it
//	-format ics       the sessions as a calendar
//	-format html      the season strip, the changes and every month, to print
//	-format csv       games and sessions as a table for spreadsheets
//	-sheet NAME       text and html: one sheet instead: strip, month, week, card, slip,
//	                  wall, coach, parent, physio
//	-on DATE          the date a sheet is about; left out: that of now
//	-why DATE         explain a date instead: what is there and why, what else could be
//	                  there or where else, at which price, and what is forbidden by what
//	-card DATE        the cards of a date instead: exercises, sets, repetitions, loads
//	-cards            with -format json: the exercises of every session too
//	-report           what the log says instead: what needs somebody, what was done with
//	                  both bounds, each lift, what is kept, tests, load by week. Alone it
//	                  reports on the demo, whose log is made up too
//	-out FILE         instead of standard output; written whole or not at all
//
// The exit code is 0 if there is a plan, 1 for a fault of this program or an
// interrupt, 2 for bad input, of which every problem is listed on standard error
// and nothing is written, and 3 if nothing may be planned: the output says why.
// (go run turns every other code than 0 into 1; the built program does not.)
//
// # A change on a Tuesday
//
// Keep the plan that was handed out (-format json -out plan.json). When a fixture
// moves, plan again with the new list, -issued plan.json and -now: what is past
// stays, the next 24 hours stay unless they have become unsafe, and as little else
// changes as keeps the aims. A slip at the top of the text says what changed and
// why, and whom to tell: the athlete, and each place whose times are others now.
// Keep every plan that was handed out and give all of them: a game that moves back
// then brings back the plan before.
//
// The program reads no clock. The same input gives the same bytes on every
// machine.
package main

import (
	"context"
	"os"
	"os/signal"
	_ "time/tzdata" // zones also where none are installed

	"example.org/weft/periodize"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	p := program{
		planner: new(periodize.Planner),
		stdin:   os.Stdin, stdout: os.Stdout, stderr: os.Stderr,
		open: openFile,
	}
	code := p.run(ctx, os.Args[1:])
	stop()
	os.Exit(code)
}
