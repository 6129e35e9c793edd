package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/calendar/fixture"
)

// options are the flags as written; dates and instants are read with the input,
// so that their problems are listed with all others.
type options struct {
	request  string
	fixtures []string
	team     string
	columns  string // NAME=COLUMN, with commas between them
	dates    string // dmy or mdy
	zone     string
	athlete  string
	from, to string
	now      string
	issued   []string
	strict   bool
	verbose  bool
	format   string
	out      string
	why      string // a date
	card     string // a date
	cards    bool
	checkin  string
	kit      string
	profile  string
	sheet    string
	on       string // a date
	log      string
	report   bool
	keep     bool
}

var formats = []string{"text", "json", "ics", "html", "csv"}

// demo reports whether no input is named.
func (o *options) demo() bool {
	return o.request == "" && len(o.fixtures) == 0 && o.athlete == ""
}

const usage = `usage: season [flags]

Plans strength sessions around a season's fixtures. Without flags: an invented demo.

`

// parseFlags reads the arguments. Everything wrong with them has been printed,
// with the usage, when it returns an error.
func parseFlags(args []string, stderr io.Writer) (*options, error) {
	o := &options{format: "text"}
	fs := flag.NewFlagSet("season", flag.ContinueOnError)
	fs.SetOutput(stderr)
	fs.Usage = func() {
		fmt.Fprint(stderr, usage)
		fs.PrintDefaults()
	}
	seen := map[string]bool{}
	one := func(name string, to *string, text string) {
		fs.Func(name, text, func(s string) error {
			if seen[name] {
				return errors.New("given twice")
			}
			if s == "" {
				return errors.New("it is empty")
			}
			seen[name] = true
			*to = s
			return nil
		})
	}
	many := func(name string, to *[]string, text string) {
		fs.Func(name, text, func(s string) error {
			if s == "" {
				return errors.New("it is empty")
			}
			*to = append(*to, s)
			return nil
		})
	}
	one("request", &o.request, "a whole request, JSON `FILE`; - is standard input")
	many("fixtures", &o.fixtures, "games and other events, CSV or iCalendar `FILE`; repeatable, - is standard input")
	one("team", &o.team, "`NAME` of the team, for the table of a whole league")
	one("columns", &o.columns, "`LIST` of names that columns of the tables have, such as date=Spieltag,time=Anstoss")
	one("dates", &o.dates, "`ORDER` of dates such as 3/4/2027 in the tables, dmy or mdy; left out: they are errors")
	one("zone", &o.zone, "zone `NAME` such as Europe/Berlin, of rows that name none and of the plan")
	one("athlete", &o.athlete, "the athlete, JSON `FILE`")
	one("from", &o.from, "first `DATE`; left out: the first day of the week of the first game")
	one("to", &o.to, "last `DATE`; left out: the last day of the week of the last game")
	one("now", &o.now, "`INSTANT` such as 2026-11-03T10:00:00+01:00 before which all is fixed; left out: nothing is past")
	many("issued", &o.issued, "a plan handed out earlier, JSON `FILE`; repeatable, newest last")
	fs.BoolVar(&o.strict, "strict", false, "unknown fields of a JSON text are errors")
	fs.BoolVar(&o.verbose, "v", false, "text: all reasons and every missed aim")
	one("format", &o.format, "`NAME` of the output format: text, json, ics, html or csv (default text)")
	one("why", &o.why, "explain a `DATE` instead of printing the plan")
	one("card", &o.card, "print the session cards of a `DATE` instead of the plan: exercises, sets, loads")
	one("checkin", &o.checkin, "with -card: the report of that day, JSON `FILE`; prints the session it leads to and the rest of the week")
	one("kit", &o.kit, "with -card or -cards: what there is to train with, JSON `FILE`, instead of the kit of the places")
	one("profile", &o.profile, "with -card or -cards: the athlete's own prehab, and what to avoid, JSON `FILE`")
	fs.BoolVar(&o.cards, "cards", false, "text: with the main lifts of every session; json: with all its exercises")
	one("sheet", &o.sheet, "text and html: one sheet instead of the plan: `NAME` is strip, month, week, card, slip, wall, coach, parent or physio")
	one("on", &o.on, "the `DATE` a -sheet is about; left out: that of now")
	one("log", &o.log, "what was done, JSON or CSV `FILE` by its name; with -now")
	fs.BoolVar(&o.report, "report", false, "print what the log says instead of the plan: done, lifts, what is kept, tests, load, findings; alone: of the demo")
	fs.BoolVar(&o.keep, "keep", false, "with -log: plan with the aim to keep maximal strength and speed inside their bands")
	one("out", &o.out, "write to `FILE`, whole or not at all")
	if err := fs.Parse(args); err != nil {
		return nil, err
	}
	var problems []string
	bad := func(format string, a ...any) { problems = append(problems, fmt.Sprintf(format, a...)) }
	for _, a := range fs.Args() {
		bad("unexpected argument %q", a)
	}
	if !known(o.format, formats) {
		bad("unknown format %q: it is text, json, ics, html or csv", o.format)
	}
	if o.why != "" && o.format != "text" && known(o.format, formats) {
		bad("-why is for -format text")
	}
	if o.card != "" && o.format != "text" && known(o.format, formats) {
		bad("-card is for -format text")
	}
	if o.card != "" && o.why != "" {
		bad("-card and -why: ask for one of them")
	}
	if o.checkin != "" && o.card == "" {
		bad("-checkin is the report of a day: name it with -card")
	}
	for _, f := range []struct{ name, file string }{{"kit", o.kit}, {"profile", o.profile}} {
		if f.file != "" && o.card == "" && !o.cards && !o.report {
			bad("-%s is for -card and -cards, and for -report", f.name)
		}
	}
	if o.cards && o.format != "json" && o.format != "text" && known(o.format, formats) {
		bad("-cards is for -format text and json")
	}
	o.checkSheet(bad)
	o.checkLog(bad)
	if o.verbose && o.format != "text" && known(o.format, formats) {
		bad("-v is for -format text")
	}
	for _, f := range []struct {
		name  string
		given bool
	}{{"fixtures", len(o.fixtures) > 0}, {"athlete", o.athlete != ""}, {"zone", o.zone != ""}, {"team", o.team != ""}} {
		if o.request != "" && f.given {
			bad("-request is a whole request: leave out -%s", f.name)
		}
	}
	if o.request == "" && o.team != "" && len(o.fixtures) == 0 {
		bad("-team picks games of -fixtures, and there are none")
	}
	for _, f := range []struct{ name, text string }{{"columns", o.columns}, {"dates", o.dates}} {
		if f.text != "" && len(o.fixtures) == 0 {
			bad("-%s is for tables of -fixtures, and there are none", f.name)
		}
	}
	if o.dates != "" && o.dates != string(fixture.DayFirst) && o.dates != string(fixture.MonthFirst) {
		bad("unknown order %q of dates: it is dmy or mdy", o.dates)
	}
	for _, x := range strings.Split(o.columns, ",") {
		if ours, theirs, ok := strings.Cut(x, "="); o.columns != "" && (!ok || ours == "" || theirs == "") {
			bad("-columns: %q is not NAME=COLUMN, such as date=Spieltag", x)
		}
	}
	if o.demo() && o.zone != "" {
		bad("-zone is for -fixtures or -athlete; the demo has its own")
	}
	if o.strict && o.request == "" && o.athlete == "" && o.log == "" {
		bad("-strict is for -request, -athlete and -log, and there is none")
	}
	inputs := 0
	for _, name := range append([]string{o.request, o.athlete, o.checkin, o.kit, o.profile, o.log}, append(o.issued, o.fixtures...)...) {
		if name == "-" {
			inputs++
		}
	}
	if inputs > 1 {
		bad("standard input (-) can be read only once")
	}
	if len(problems) == 0 {
		return o, nil
	}
	for _, p := range problems {
		fmt.Fprintln(stderr, "season: "+calendar.Inert(p))
	}
	fs.Usage()
	return nil, errors.New("bad flags")
}

// columnNames are the names of -columns.
func (o *options) columnNames() map[string]string {
	if o.columns == "" {
		return nil
	}
	out := map[string]string{}
	for _, x := range strings.Split(o.columns, ",") {
		ours, theirs, _ := strings.Cut(x, "=")
		out[strings.TrimSpace(ours)] = strings.TrimSpace(theirs)
	}
	return out
}

func known(word string, words []string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}
