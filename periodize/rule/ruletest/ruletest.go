// Package ruletest checks rules of one's own: that a memory says what its plain
// definition says, on random runs of dates, and that it keeps to what a memory
// may do.
package ruletest

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// Source gives random whole numbers, 0 to n-1. A *rand.Rand's Intn is one, and
// so is a draw of a property test.
type Source func(n int) int

// Days makes a run of dates with random sessions, and random events of the
// kinds given.
func Days(draw Source, zone calendar.Zone, events ...calendar.Event) []rule.Day {
	first := calendar.DateFromDayNumber(19000 + draw(4000))
	n := 1 + draw(30)
	days := make([]rule.Day, n)
	for i := range days {
		d := &days[i]
		d.Date = first.AddDays(i)
		if i > 0 {
			d.Before = days[i-1].Events
		}
		if len(events) > 0 && draw(3) == 0 {
			e := events[draw(len(events))]
			length := e.End.Date.DaysSince(e.Start.Date)
			e.Start.Date, e.End.Date = d.Date, d.Date.AddDays(length)
			if e.Zone.IsZero() {
				e.Zone = zone
			}
			if p, err := calendar.Place(e, calendar.Assumptions{}); err == nil {
				d.Events = append(d.Events, p)
			}
		}
		at := 6 * 60
		for k := draw(3); k > 0; k-- {
			at += draw(400)
			length := 30 + 5*draw(7)
			if at+length > 24*60 {
				break
			}
			s := rule.Session{Kind: season.Kinds()[draw(len(season.Kinds()))], Date: d.Date,
				From: calendar.Clock(at * 60), To: calendar.Clock((at + length) * 60), Place: "gym"}
			s.Start = zone.Resolve(calendar.Wall{Date: d.Date, Clock: s.From}).Instant
			s.End = s.Start.Add(time.Duration(length) * time.Minute)
			d.Sessions = append(d.Sessions, s)
			at += length
		}
	}
	return days
}

// Check runs a rule's memory over the dates and compares it with the plain
// definition, date by date: how often it forbids and what it charges. The error
// names the first date on which they differ, or what the memory may not do.
func Check(r rule.Custom, days []rule.Day) error {
	if problems := rule.CheckCustom([]rule.Custom{r}); len(problems) > 0 {
		return problems[0]
	}
	if r.Memory == nil {
		return nil
	}
	type sum struct{ forbids, points int }
	want := map[calendar.Date]sum{}
	for _, f := range r.Plain(days) {
		s := want[f.Date]
		if f.Verdict.Forbid {
			s.forbids++
		}
		s.points += f.Verdict.Points
		want[f.Date] = s
	}
	state := r.Memory.Init()
	for _, d := range days {
		var got sum
		hear := func(v rule.Verdict) error {
			if v.Points < 0 || v.Points > rule.HighestPoints {
				return fmt.Errorf("ruletest: %s: %s charges %d points, want 0 to %d", r.ID, d.Date, v.Points, rule.HighestPoints)
			}
			if v.Forbid {
				got.forbids++
			}
			got.points += v.Points
			return nil
		}
		for _, s := range d.Sessions {
			next, v := r.Memory.Step(state, d, s)
			if again, w := r.Memory.Step(state, d, s); again != next || w != v {
				return fmt.Errorf("ruletest: %s: %s: two answers to one question", r.ID, d.Date)
			}
			if err := hear(v); err != nil {
				return err
			}
			state = next
		}
		next, v := r.Memory.EndDay(state, d)
		if v.Forbid {
			return fmt.Errorf("ruletest: %s: %s: the end of a date may not be forbidden", r.ID, d.Date)
		}
		if err := hear(v); err != nil {
			return err
		}
		state = next
		if got != want[d.Date] {
			return fmt.Errorf("ruletest: %s: %s: the memory forbids %d and charges %d, the plain definition %d and %d",
				r.ID, d.Date, got.forbids, got.points, want[d.Date].forbids, want[d.Date].points)
		}
	}
	return nil
}
