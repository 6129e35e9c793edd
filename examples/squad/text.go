package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

const width = 98

// writePlan writes the hall week by week, then who is left out and what else there
// is to know.
func writePlan(w io.Writer, r *squad.Request, p *squad.Plan) {
	fmt.Fprintf(w, "SQUAD PLAN%*s\n%s\n", width-10, "Invented example", strings.Repeat("=", width))
	line := func(name, format string, args ...any) {
		fmt.Fprintf(w, "%-16s %s\n", name, fmt.Sprintf(format, args...))
	}
	line("Period", "%s to %s, %d dates", say.Day(p.Period.From), say.Day(p.Period.To), p.Period.Days())
	line("Times", "local in %s", p.Zone)
	line("Athletes", "%d", len(p.Athletes))
	h := &r.Halls[0]
	line("Hall", "%d places, slots of %d min and %d to change over", h.Capacity, h.SlotMinutes, h.ChangeMinutes)
	if p.Proof == season.Proved {
		line("Outcome", "proved: of the starts considered no plan for all misses less (%d points)", p.Points)
	} else {
		line("Outcome", "%d points; no plan has fewer than %d", p.Points, p.Bound)
	}
	line("Alone", "%d points if each had the hall alone: sharing costs %d", p.Alone, p.Points-p.Alone)
	line("Demo", "club, teams, athletes and dates are made up")
	writeHall(w, p)
	writeLeftOut(w, p)
	writeNotes(w, p)
}

// writeHall is the chart of the hall: each slot with how full it is, and who is
// there by kind.
func writeHall(w io.Writer, p *squad.Plan) {
	for i := range p.Slots {
		s := &p.Slots[i]
		if i == 0 || p.Slots[i-1].Date != s.Date {
			if s.Date.DaysSince(p.Period.From)%7 == 0 {
				fmt.Fprintf(w, "\nWeek from %s\n", say.Day(s.Date))
			}
			fmt.Fprintf(w, "  %s\n", say.Day(s.Date))
		}
		full := strings.Repeat("#", len(s.Seats)) + strings.Repeat(".", max(0, s.Capacity-len(s.Seats)))
		head := fmt.Sprintf("    %s-%s %s %2d", s.Start.Format("15:04"), s.End.Format("15:04"), full, len(s.Seats))
		if len(s.Seats) == 0 {
			fmt.Fprintln(w, head)
			continue
		}
		for k, kind := range s.Kinds {
			if k > 0 {
				head = strings.Repeat(" ", len(head))
			}
			var who []string
			for _, seat := range s.Seats {
				if seat.Kind == kind {
					who = append(who, seat.Athlete)
				}
			}
			fmt.Fprintf(w, "%s  %-17s %s\n", head, kind, strings.Join(who, " "))
		}
	}
}

func writeLeftOut(w io.Writer, p *squad.Plan) {
	fmt.Fprintf(w, "\nNo place in the hall: %d\n", len(p.LeftOut))
	for _, x := range p.LeftOut {
		fmt.Fprintf(w, "  %s  %s\n", x.Athlete, x.Text)
	}
}

func writeNotes(w io.Writer, p *squad.Plan) {
	if len(p.Findings)+len(p.Assumed) > 0 {
		fmt.Fprintln(w, "\nTo know")
	}
	for _, f := range p.Findings {
		fmt.Fprintf(w, "  %s\n", f.Text)
	}
	for _, x := range p.Assumed {
		fmt.Fprintf(w, "  %s\n", x.Error())
	}
	fmt.Fprint(w, `
Stop and tell an adult if pain is above 5 of 10, sharp, at night or makes you limp. No training
with fever, chest symptoms, fainting or after a knock to the head until a clinician clears it.
Under 18 only supervised. Local rules, clinicians and the coach who is there come first.
`)
}

func writeWorth(w io.Writer, list []squad.Worth) {
	fmt.Fprintf(w, "\nWhat more room would buy\n  %-26s %14s %9s %14s\n", "", "prices suggest", "saves", "lifts a week")
	name := map[squad.Offer]string{squad.OnePlace: "one more place", squad.OneCoach: "one more coach", squad.ThirtyMinutes: "30 minutes more a date"}
	for _, x := range list {
		fmt.Fprintf(w, "  %-26s %14d %9d %+12d.%d\n", name[x.Offer], x.Estimate, x.Points, x.LiftsAWeek/10, max(x.LiftsAWeek, -x.LiftsAWeek)%10)
	}
}

// writeMoved writes a slip for everybody whom planning again moves.
func writeMoved(w io.Writer, r *squad.Request, p *squad.Plan) {
	fmt.Fprintf(w, "\nPlanned again from %s with %d places: %d moved\n", say.Day(calendar.DateOf(r.Now, r.Athletes[0].Season.Athlete.Zone)), r.Halls[0].Capacity, len(p.Moved))
	at := func(t *time.Time) string { return t.Format("Mon 2 Jan 15:04") }
	for _, s := range p.Moved {
		fmt.Fprintf(w, "  %s\n", s.Athlete)
		for _, c := range s.Changes {
			switch {
			case c.From == nil:
				fmt.Fprintf(w, "    %-8s %s %s\n", c.Change, c.Kind, at(c.To))
			case c.To == nil:
				fmt.Fprintf(w, "    %-8s %s %s\n", c.Change, c.Kind, at(c.From))
			default:
				fmt.Fprintf(w, "    %-8s %s %s to %s\n", c.Change, c.Kind, at(c.From), at(c.To))
			}
		}
		for _, c := range s.Places {
			fmt.Fprintf(w, "    %-8s %s, %s to %s\n", "place", at(&c.Start), c.From, c.To)
		}
	}
}
