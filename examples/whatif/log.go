package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
)

// remember sets the instant from which the season is ahead, and reads what was done
// before it: the sessions go into the base, and the first dates at the edge of each
// quality are counted from them. Without a log it returns nil.
func remember(opt options, base *season.Request) (*whatif.Kept, []calendar.Problem) {
	bad := func(path, value, reason, remedy string) []calendar.Problem {
		return []calendar.Problem{{Code: "input", Class: calendar.ClassError, Path: path, Value: value, Reason: reason, Remedy: remedy}}
	}
	if opt.now != "" {
		now, err := time.Parse(time.RFC3339, opt.now)
		if err != nil {
			return nil, bad("-now", opt.now, "it is no instant", "give one with its offset, such as 2026-11-10T08:00:00+01:00")
		}
		base.Now = now
	}
	if opt.log == "" {
		return nil, nil
	}
	now := base.Now
	if now.IsZero() { // nothing of the season is past
		now = base.Athlete.Zone.DayStart(base.Period.From)
	}
	f, err := os.Open(opt.log)
	if err != nil {
		return nil, bad(opt.log, "", "it cannot be read", "check the name")
	}
	defer f.Close()
	log, problems, err := readLog(f, opt.log, logbook.Reader{Now: now, Athlete: base.Athlete.ID, Zone: base.Athlete.Zone, Recorded: now})
	var wrong *season.InputError
	switch {
	case errors.As(err, &wrong):
		return nil, wrong.Problems
	case err != nil:
		return nil, bad(opt.log, "", err.Error(), "give another file")
	}
	if told := log.Athletes(); len(told) > 0 && !slices.Contains(told, base.Athlete.ID) {
		return nil, append(problems, bad(opt.log, base.Athlete.ID, "the log tells nothing of this athlete",
			fmt.Sprintf("leave the athlete out, or call it %s, not %s", base.Athlete.ID, calendar.Inert(told[0])))...)
	}
	view := log.View(base.Athlete.ID)
	base.Log = append(base.Log, view.Done()...)
	return &whatif.Kept{View: view, Plays: usualMinutes(&view)}, problems
}

func readLog(r io.Reader, name string, rd logbook.Reader) (logbook.Log, []calendar.Problem, error) {
	if strings.EqualFold(filepath.Ext(name), ".json") {
		return rd.JSON(r)
	}
	return rd.CSV(r, name)
}

// usualMinutes are the minutes of the middle one of the last games that are told,
// seven at most.
func usualMinutes(v *logbook.View) logbook.Maybe[int] {
	var minutes []int
	for i := len(v.Entries) - 1; i >= 0 && len(minutes) < 7; i-- {
		if g, ok := v.Entries[i].What.(logbook.Game); ok && g.Minutes.Known {
			minutes = append(minutes, g.Minutes.Value)
		}
	}
	if len(minutes) == 0 {
		return logbook.Maybe[int]{}
	}
	slices.Sort(minutes)
	return logbook.Told(minutes[(len(minutes)-1)/2])
}
