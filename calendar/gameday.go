package calendar

import (
	"fmt"
	"slices"
)

// Offset is the distance of a date to a game.
type Offset struct {
	Days int  // negative before the game, positive after it, 0 on its date
	Game Date // the local date on which the game starts
}

// String returns G, G-1, G+2.
func (o Offset) String() string {
	if o.Days == 0 {
		return "G"
	}
	return fmt.Sprintf("G%+d", o.Days)
}

// GameDay returns the distance of a date to the nearest game, and to both games
// if two are equally near, the earlier game first. The games may be in any order.
// The result is empty if there is no game or d is unset.
func GameDay(d Date, games []Date) []Offset {
	if d.IsZero() {
		return nil
	}
	var before, after Date
	for _, g := range games {
		switch {
		case g.IsZero():
		case g == d:
			return []Offset{{0, g}}
		case g.Before(d):
			if before.IsZero() || g.After(before) {
				before = g
			}
		default:
			if after.IsZero() || g.Before(after) {
				after = g
			}
		}
	}
	since, until := d.DaysSince(before), after.DaysSince(d)
	var out []Offset
	if !before.IsZero() && (after.IsZero() || since <= until) {
		out = append(out, Offset{since, before})
	}
	if !after.IsZero() && (before.IsZero() || until <= since) {
		out = append(out, Offset{-until, after})
	}
	return out
}

// GameDates returns the dates of the first and the last active game, whatever the
// order of the events. Both are unset if there is none.
func GameDates(events []Event) (first, last Date) {
	for _, e := range events {
		if e.Kind != Game || !e.Active() {
			continue
		}
		if first.IsZero() || e.Start.Date.Before(first) {
			first = e.Start.Date
		}
		last = Later(last, e.Start.Date)
	}
	return first, last
}

// RunClass names a run of game-free dates by its length.
type RunClass string

const (
	NormalRun RunClass = "normal"    // 1 to 6 dates
	OpenWeek  RunClass = "open-week" // 7 to 9 dates
	Break     RunClass = "break"     // 10 dates or more
)

// Limits of the classes, in game-free dates. Common practice, no source.
const (
	OpenWeekDays = 7
	BreakDays    = 10
)

// Run is a stretch of game-free dates between two known games.
type Run struct {
	From, To       Date // first and last game-free date inside the asked period
	Days           int
	Class          RunClass
	Before, Behind Date // the games in front of it and behind it
}

// GameFreeRuns returns the runs of game-free dates between consecutive known
// games, in order. Dates before the first and after the last game are unknown and
// no run. Dates outside from to to are unknown too: a run that reaches out of the
// period is cut, and counts and is classed by what is left. An unset from or to
// sets no bound. The games may be in any order.
func GameFreeRuns(games []Date, from, to Date) []Run {
	sorted := sortedDates(games)
	var out []Run
	for i := 1; i < len(sorted); i++ {
		r := Run{
			From: sorted[i-1].AddDays(1), To: sorted[i].AddDays(-1),
			Before: sorted[i-1], Behind: sorted[i],
		}
		if !from.IsZero() && r.From.Before(from) {
			r.From = from
		}
		if !to.IsZero() && r.To.After(to) {
			r.To = to
		}
		if r.To.Before(r.From) {
			continue
		}
		r.Days = r.To.DaysSince(r.From) + 1
		switch {
		case r.Days >= BreakDays:
			r.Class = Break
		case r.Days >= OpenWeekDays:
			r.Class = OpenWeek
		default:
			r.Class = NormalRun
		}
		out = append(out, r)
	}
	return out
}

// sortedDates returns the set dates once each, in order.
func sortedDates(in []Date) []Date {
	out := make([]Date, 0, len(in))
	for _, d := range in {
		if !d.IsZero() {
			out = append(out, d)
		}
	}
	slices.SortFunc(out, Date.Compare)
	return slices.Compact(out)
}
