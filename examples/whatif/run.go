package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"iter"
	"os"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
)

// Exit codes.
const (
	exitDone  = 0
	exitFault = 1 // ours, or interrupted
	exitInput = 2
)

type options struct {
	fixtures, team, zone, out string
	log, now, causes, moves   string
	workers, seasons          int
	seed                      uint64
	quiet, fragile, branches  bool
}

func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	var opt options
	fs := flag.NewFlagSet("whatif", flag.ContinueOnError)
	fs.SetOutput(stderr)
	fs.StringVar(&opt.fixtures, "fixtures", "", "games and other events, CSV `FILE`; - is standard input")
	fs.StringVar(&opt.team, "team", "", "`NAME` of the team, for the table of a whole league")
	fs.StringVar(&opt.zone, "zone", "", "zone `NAME` such as Europe/Berlin, of rows that name none")
	fs.StringVar(&opt.log, "log", "", "what was done before, a log as CSV or JSON `FILE`: the table then tells when strength and speed may begin to fade")
	fs.StringVar(&opt.now, "now", "", "`INSTANT` before which all is past; none: the season is ahead")
	fs.StringVar(&opt.out, "out", "", "write the table as CSV to `FILE` too")
	fs.StringVar(&opt.causes, "causes", "", "also say what stood in the way of missed aims, as CSV to `FILE`; takes several times as long")
	fs.IntVar(&opt.workers, "workers", 0, "plans made at the same time; 0 is one a processor")
	fs.BoolVar(&opt.fragile, "fragile", false, "also move each fixture by two days either way")
	fs.StringVar(&opt.moves, "moves", "", "the same as -fragile, with each move of each fixture as CSV to `FILE`")
	fs.BoolVar(&opt.branches, "branches", false, "also plan for games that are played only if they are needed")
	fs.IntVar(&opt.seasons, "seasons", 0, "also plan so many seasons at random, 1000 in a usual run")
	fs.Uint64Var(&opt.seed, "seed", 1, "which seasons are drawn")
	fs.BoolVar(&opt.quiet, "quiet", false, "no line that counts")
	if err := fs.Parse(args); errors.Is(err, flag.ErrHelp) {
		return exitDone
	} else if err != nil {
		return exitInput
	}
	if fs.NArg() > 0 {
		fmt.Fprintf(stderr, "whatif: unexpected argument %q\n", fs.Arg(0))
		return exitInput
	}
	base, problems := load(opt, stdin)
	for _, p := range problems {
		fmt.Fprintln(stderr, p.Error())
	}
	if base == nil {
		return exitInput
	}
	kept, problems := remember(opt, base)
	for _, p := range problems {
		fmt.Fprintln(stderr, p.Error())
	}
	if failed(problems) {
		return exitInput
	}
	sweep := whatif.Sweep{Workers: opt.workers, Kept: kept}
	if opt.causes != "" {
		sweep.Planner = &periodize.Planner{} // which is not brief
	}
	if !opt.quiet {
		sweep.Progress = counting(stderr)
	}
	rows, err := questions(ctx, sweep, base)
	if !opt.quiet {
		fmt.Fprintln(stderr)
	}
	if err != nil {
		return fault(ctx, stderr, err)
	}
	heading(stdout, opt, base)
	if err := whatif.WriteText(stdout, slices.Values(rows)); err != nil {
		return fault(ctx, stderr, err)
	}
	for _, x := range []struct {
		file  string
		write func(io.Writer, iter.Seq[whatif.Row]) error
	}{{opt.out, whatif.WriteCSV}, {opt.causes, whatif.WriteCauses}} {
		if x.file == "" {
			continue
		}
		var b bytes.Buffer
		if err := x.write(&b, slices.Values(rows)); err != nil {
			return fault(ctx, stderr, err)
		}
		if err := os.WriteFile(x.file, b.Bytes(), 0o644); err != nil {
			return fault(ctx, stderr, err)
		}
	}
	sweep.Planner = nil // the rest reads figures alone
	var more bytes.Buffer
	opt.fragile = opt.fragile || opt.moves != ""
	if opt.fragile && err == nil {
		err = fragile(ctx, sweep, base, opt.moves, &more)
	}
	if opt.branches && err == nil {
		err = branches(ctx, sweep, base, &more)
	}
	if opt.seasons != 0 && err == nil {
		err = lottery(ctx, sweep, base, opt.seasons, opt.seed, &more)
	}
	if !opt.quiet && (opt.fragile || opt.seasons != 0) {
		fmt.Fprintln(stderr)
	}
	more.WriteString(key)
	if err == nil {
		_, err = stdout.Write(more.Bytes())
	}
	if err != nil {
		return fault(ctx, stderr, err)
	}
	return exitDone
}

// heading says whose season it is.
func heading(w io.Writer, opt options, base *season.Request) {
	what, mark := calendar.Inert(opt.fixtures), ""
	switch opt.fixtures {
	case "":
		what, mark = "a season of an invented volleyball club", "Invented example"
	case "-":
		what = "standard input"
	}
	fmt.Fprintf(w, "%-80s %17s\n%s\n", say.Clip("WHAT IF  "+what, 80), mark, strings.Repeat("=", 98))
	fmt.Fprintf(w, "%s to %s, planned as it is and with one thing changed\n\n", say.DayYear(base.Period.From), say.DayYear(base.Period.To))
}

const key = `
HOW TO READ
  lifts/w, full/w: lifts and full-body sessions a week; weeks<2: weeks with fewer than two lifts;
  empty: longest run of dates without a session; no lift: longest run of dates without a lift;
  changed: sessions that are not those of the first row; points: what is missed, by the weights of
  the rules, so fewer is better. missed: the aims, with the number of the first row in brackets.
  A plan clears nobody to play; clinicians, local rules and the coach who is there come first.
`

// questions plans the base and the variants.
func questions(ctx context.Context, sweep whatif.Sweep, base *season.Request) ([]whatif.Row, error) {
	var fatal error
	rows := slices.Collect(whatif.Rows(sweep.Run(ctx, base, slices.Values(variants(base))), &fatal))
	return rows, fatal
}

// counting returns what writes the line that counts.
func counting(w io.Writer) func(whatif.Progress) {
	return func(p whatif.Progress) {
		fmt.Fprintf(w, "\r%d planned, %d without a plan", p.Done, p.Failed)
	}
}

func fault(ctx context.Context, stderr io.Writer, err error) int {
	var bad *season.InputError
	switch {
	case errors.As(err, &bad):
		for _, p := range bad.Problems {
			fmt.Fprintln(stderr, p.Error())
		}
		return exitInput
	case ctx.Err() != nil:
		fmt.Fprintln(stderr, "whatif: interrupted")
	default:
		fmt.Fprintln(stderr, "whatif: "+calendar.Inert(err.Error()))
	}
	return exitFault
}
