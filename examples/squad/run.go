package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

// Exit codes.
const (
	exitDone  = 0
	exitFault = 1 // ours, or interrupted
	exitInput = 2
)

type options struct {
	format, sheet, out      string
	places, broken, workers int
	worth, quiet            bool
}

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	var opt options
	fs := flag.NewFlagSet("squad", flag.ContinueOnError)
	fs.SetOutput(stderr)
	fs.StringVar(&opt.format, "format", "text", "`text`, json or html")
	fs.StringVar(&opt.sheet, "sheet", "hall", "html: `hall`, the chart of the hall, or wall, who trains when in the first week")
	fs.StringVar(&opt.out, "out", "", "write to `FILE`")
	fs.IntVar(&opt.places, "places", 8, "places in the hall")
	fs.IntVar(&opt.broken, "broken", 0, "plan again with so many places less")
	fs.IntVar(&opt.workers, "workers", 2, "athletes planned at the same time")
	fs.BoolVar(&opt.worth, "worth", false, "also say what more room would buy")
	fs.BoolVar(&opt.quiet, "quiet", false, "no line that counts")
	if err := fs.Parse(args); errors.Is(err, flag.ErrHelp) {
		return exitDone
	} else if err != nil {
		return exitInput
	}
	switch {
	case fs.NArg() > 0:
		fmt.Fprintf(stderr, "squad: unexpected argument %q\n", fs.Arg(0))
		return exitInput
	case opt.format != "text" && opt.format != "json" && opt.format != "html":
		fmt.Fprintf(stderr, "squad: -format %q: use text, json or html\n", opt.format)
		return exitInput
	case opt.sheet != "hall" && opt.sheet != "wall":
		fmt.Fprintf(stderr, "squad: -sheet %q: use hall or wall\n", opt.sheet)
		return exitInput
	case opt.format != "text" && (opt.worth || opt.broken != 0):
		fmt.Fprintln(stderr, "squad: -worth and -broken are written as text only")
		return exitInput
	case opt.broken < 0 || opt.broken >= max(opt.places, 1):
		fmt.Fprintf(stderr, "squad: -broken %d: leave at least one of %d places, or none broken\n", opt.broken, opt.places)
		return exitInput
	}
	var b bytes.Buffer
	err := plan(ctx, opt, &b, stderr)
	if !opt.quiet {
		fmt.Fprintln(stderr)
	}
	if err == nil && opt.out != "" {
		err = os.WriteFile(opt.out, b.Bytes(), 0o644)
	} else if err == nil {
		_, err = stdout.Write(b.Bytes())
	}
	return code(ctx, err, stderr)
}

// plan writes the plan, and what else was asked for.
func plan(ctx context.Context, opt options, w *bytes.Buffer, stderr io.Writer) error {
	planner := squad.Planner{Workers: opt.workers}
	if !opt.quiet {
		planner.Progress = func(p squad.Progress) {
			fmt.Fprintf(stderr, "\r%d rounds, %d nodes, at least %d points", p.Rounds, p.Nodes, p.Bound)
		}
	}
	req := club(opt.places)
	first, err := planner.Plan(ctx, req)
	if err != nil {
		return err
	}
	if opt.format == "json" {
		enc := json.NewEncoder(w)
		enc.SetIndent("", " ")
		return enc.Encode(first)
	}
	if opt.format == "html" {
		return writeSheet(w, req, first, opt.sheet)
	}
	writePlan(w, req, first)
	if opt.worth {
		list, err := planner.Worth(ctx, req)
		if err != nil {
			return err
		}
		writeWorth(w, list)
	}
	if opt.broken > 0 {
		next := *req
		next.Halls = append([]squad.Hall(nil), req.Halls...)
		next.Halls[0].Capacity -= opt.broken
		zone := req.Athletes[0].Season.Athlete.Zone
		next.Now = zone.DayStart(req.Period.From.AddDays(7))
		again, err := planner.Replan(ctx, &next, first)
		if err != nil {
			return err
		}
		writeMoved(w, &next, again)
	}
	return nil
}

func code(ctx context.Context, err error, stderr io.Writer) int {
	var bad *season.InputError
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &bad):
		for _, p := range bad.Problems {
			fmt.Fprintln(stderr, p.Error())
		}
		return exitInput
	case ctx.Err() != nil:
		fmt.Fprintln(stderr, "squad: interrupted")
	default:
		fmt.Fprintln(stderr, "squad: "+calendar.Inert(err.Error()))
	}
	return exitFault
}
