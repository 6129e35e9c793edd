package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/calendar/fixture"
	"example.org/weft/periodize/season"
)

// load returns the base request, none if a problem forbids it.
func load(opt options, stdin io.Reader) (*season.Request, []calendar.Problem) {
	if opt.fixtures == "" {
		return demo(), nil
	}
	var problems []calendar.Problem
	wrong := func(path, value, reason, remedy string) {
		problems = append(problems, calendar.Problem{Code: "input", Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy})
	}
	read := fixture.Options{Team: opt.team}
	if opt.zone != "" {
		z, err := calendar.LoadZone(opt.zone)
		var v *calendar.ValueError
		if errors.As(err, &v) {
			problems = append(problems, v.Problem("zone", "-zone", ""))
		}
		read.DefaultZone = z
	}
	in, name := stdin, "standard input"
	if opt.fixtures != "-" {
		name = opt.fixtures
		f, err := os.Open(opt.fixtures)
		if err != nil {
			wrong(name, "", "it cannot be read", "check the name")
			return nil, problems
		}
		defer f.Close()
		in = f
	}
	events, found, err := fixture.Read(in, name, read)
	if err != nil {
		wrong(name, "", err.Error(), "check the file")
	}
	problems = append(problems, found...)
	var first, last calendar.Date
	var zone calendar.Zone
	for _, e := range events {
		if e.Kind != calendar.Game {
			continue
		}
		if first.IsZero() || e.Start.Date.Before(first) {
			first, zone = e.Start.Date, e.Zone
		}
		if e.Start.Date.After(last) {
			last = e.Start.Date
		}
	}
	if first.IsZero() && !failed(problems) {
		wrong(name, "", "no game is in it", "give a table with games")
	}
	if failed(problems) {
		return nil, problems
	}
	if n := ahead(events, opt.now == ""); n > 0 {
		problems = append(problems, calendar.Problem{Code: "input", Class: calendar.ClassWarning, Path: name, Value: fmt.Sprint(n),
			Reason: "so many games have been played; they count as still to come", Remedy: "give -now if the season is under way"})
	}
	// Weekly aims bind in whole weeks.
	period := season.Period{From: calendar.WeekStart(first, time.Monday), To: calendar.WeekStart(last, time.Monday).AddDays(6)}
	return athlete(zone, period, events), problems
}

// ahead makes games that have been played games to come, if the season is looked at
// from before its first date, and returns how many there are.
func ahead(events []calendar.Event, whole bool) int {
	n := 0
	for i := range events {
		if e := &events[i]; whole && e.Kind == calendar.Game && e.Status == calendar.Played {
			e.Status, e.ActualEnd, e.HasActualEnd = calendar.Confirmed, calendar.Wall{}, false
			n++
		}
	}
	return n
}

func failed(list []calendar.Problem) bool {
	for _, p := range list {
		if p.Class == calendar.ClassError || p.Class == calendar.ClassRefusal {
			return true
		}
	}
	return false
}
