package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

// Exit codes.
const (
	exitDone  = 0
	exitFault = 1 // ours, or interrupted
	exitInput = 2
)

// defaultPlaces is how many the club's hall has.
const defaultPlaces = 8

type options struct {
	format, sheet, hall, out string
	request, issued          string
	places, broken, workers  int
	kinds                    int
	worth, strict, quiet     bool
}

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	var opt options
	set := flag.NewFlagSet("squad", flag.ContinueOnError)
	set.SetOutput(stderr)
	set.StringVar(&opt.format, "format", "text", "`text`, json or html")
	set.StringVar(&opt.sheet, "sheet", "hall", "html: `hall`, the chart of the hall, or wall, who trains when in the first week")
	set.StringVar(&opt.hall, "hall", "", "html: the `ID` of the hall whose chart it is")
	set.StringVar(&opt.request, "request", "", "plan the squad in `FILE` instead of the club")
	set.StringVar(&opt.issued, "issued", "", "its plan issued last, in `FILE`")
	set.IntVar(&opt.kinds, "kinds", 0, "points that a session costs which is not of its slot's kind")
	set.BoolVar(&opt.strict, "strict", false, "an unknown field is an error")
	set.StringVar(&opt.out, "out", "", "write to `FILE`")
	set.IntVar(&opt.places, "places", defaultPlaces, "places in the hall")
	set.IntVar(&opt.broken, "broken", 0, "plan again with so many places less")
	set.IntVar(&opt.workers, "workers", 2, "athletes planned at the same time")
	set.BoolVar(&opt.worth, "worth", false, "also say what more room would buy")
	set.BoolVar(&opt.quiet, "quiet", false, "no line that counts")
	if err := set.Parse(args); errors.Is(err, flag.ErrHelp) {
		return exitDone
	} else if err != nil {
		return exitInput
	}
	switch {
	case set.NArg() > 0:
		fmt.Fprintf(stderr, "squad: unexpected argument %q\n", set.Arg(0))
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
	case opt.request == "" && (opt.issued != "" || opt.strict):
		fmt.Fprintln(stderr, "squad: -issued and -strict go with -request")
		return exitInput
	case opt.request != "" && (opt.places != defaultPlaces || opt.broken != 0):
		fmt.Fprintln(stderr, "squad: -places and -broken are for the club: change the request instead")
		return exitInput
	case opt.request == "" && opt.places < 1:
		fmt.Fprintf(stderr, "squad: -places %d: use 1 or more\n", opt.places)
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
			fmt.Fprintf(stderr, "\r%s, %s, at least %d points", say.Count(p.Rounds, "round"), say.Count(p.Nodes, "node"), p.Bound)
		}
	}
	req, err := given(opt, stderr)
	if err != nil {
		return err
	}
	if opt.kinds != 0 {
		req.KindPoints = opt.kinds
	}
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
		return writeSheet(w, req, first, opt)
	}
	writePlan(w, req, first, opt.request == "")
	if req.Issued != nil {
		writeMoved(w, req, first)
	}
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

// given is the request of the files, or the club. Questions and warnings of a request
// stand in its plan too.
func given(opt options, stderr io.Writer) (*squad.Request, error) {
	if opt.request == "" {
		return club(opt.places), nil
	}
	f, err := os.Open(opt.request)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	req, list, err := squad.RequestReader{Strict: opt.strict}.Read(f)
	if err != nil {
		return nil, err
	}
	for _, p := range list {
		fmt.Fprintln(stderr, p.Error())
	}
	if opt.issued != "" {
		g, err := os.Open(opt.issued)
		if err != nil {
			return nil, err
		}
		defer g.Close()
		if req.Issued, err = squad.ReadPlan(g); err != nil {
			return nil, err
		}
	}
	return req, nil
}

func code(ctx context.Context, err error, stderr io.Writer) int {
	var bad *season.InputError
	var file *fs.PathError
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
	case errors.As(err, &file):
		fmt.Fprintln(stderr, "squad: "+calendar.Inert(err.Error()))
		return exitInput
	default:
		fmt.Fprintln(stderr, "squad: "+calendar.Inert(err.Error()))
	}
	return exitFault
}
