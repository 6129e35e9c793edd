package main

import (
	"fmt"
	"io"
	"slices"
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
func writePlan(w io.Writer, r *squad.Request, p *squad.Plan, example bool) {
	head := "SQUAD PLAN"
	if example {
		head += fmt.Sprintf("%*s", width-len(head), "Invented example")
	}
	fmt.Fprintf(w, "%s\n%s\n", head, strings.Repeat("=", width))
	line := func(name, format string, args ...any) {
		fmt.Fprintf(w, "%-16s %s\n", name, fmt.Sprintf(format, args...))
	}
	line("Period", "%s to %s, %s", say.Day(p.Period.From), say.Day(p.Period.To), say.Count(p.Period.Days(), "date"))
	line("Times", "local in %s", p.Zone)
	line("Athletes", "%d", len(p.Athletes))
	for i := range r.Halls {
		h := &r.Halls[i]
		name := "Hall"
		if len(r.Halls) > 1 {
			name += " " + calendar.Inert(h.Place.ID)
		}
		line(name, "%s, slots of %d min and %d to change over", say.Count(h.Capacity, "place"), h.SlotMinutes, h.ChangeMinutes)
	}
	if p.Proof == season.Proved {
		line("Outcome", "proved: of the starts considered no plan for all misses less (%d points)", p.Points)
	} else {
		line("Outcome", "%d points; no plan has fewer than %d", p.Points, p.Bound)
	}
	line("Alone", "%d points if each had the hall alone: sharing costs %d", p.Alone, p.Points-p.Alone)
	if p.Mixed > 0 {
		line("Mixed slots", "%d hold more than one kind; -kinds N lets keeping kinds apart cost points", p.Mixed)
	}
	if example {
		line("Demo", "club, teams, athletes and dates are made up")
	}
	writeHall(w, r, p)
	writeLeftOut(w, p)
	writeNotes(w, p)
}

// writeHall is the chart of the halls: each slot with how full it is, and who is there
// by kind; below them who lifts at a place of its own.
func writeHall(w io.Writer, r *squad.Request, p *squad.Plan) {
	for i := range p.Slots {
		s := &p.Slots[i]
		if i == 0 || p.Slots[i-1].Date != s.Date {
			if i == 0 || week(p, p.Slots[i-1].Date) != week(p, s.Date) {
				fmt.Fprintf(w, "\nWeek from %s\n", say.Day(p.Period.From.AddDays(7*week(p, s.Date))))
			}
			fmt.Fprintf(w, "  %s\n", say.Day(s.Date))
		}
		full := strings.Repeat("#", len(s.Seats)) + strings.Repeat(".", max(0, s.Capacity-len(s.Seats)))
		head := fmt.Sprintf("    %s-%s %s %2d", s.Start.Format("15:04"), s.End.Format("15:04"), full, len(s.Seats))
		if len(r.Halls) > 1 {
			head += " " + calendar.Inert(s.Hall)
		}
		var who groups
		for _, seat := range s.Seats {
			who.add(string(seat.Kind), seat.Athlete)
		}
		who.write(w, head)
		if i == len(p.Slots)-1 || p.Slots[i+1].Date != s.Date {
			var own groups
			for _, a := range p.Athletes {
				for _, x := range a.Plan.Sessions {
					if x.Date == s.Date && x.Kind.Lift() && !shared(r, x.Place) {
						own.add(string(x.Kind), a.Athlete)
					}
				}
			}
			if len(own.names) > 0 {
				own.write(w, fmt.Sprintf("%-*s", len(head), "    not in the hall"))
			}
		}
	}
}

// week is the week of the period that a date is in, from 0.
func week(p *squad.Plan, d calendar.Date) int { return d.DaysSince(p.Period.From) / 7 }

func shared(r *squad.Request, place string) bool {
	return slices.ContainsFunc(r.Halls, func(h squad.Hall) bool { return h.Place.ID == place })
}

// groups are names under headings, both in the order in which they came.
type groups struct {
	names []string
	who   map[string][]string
}

func (g *groups) add(name, athlete string) {
	if g.who == nil {
		g.who = map[string][]string{}
	}
	if len(g.who[name]) == 0 {
		g.names = append(g.names, name)
	}
	g.who[name] = append(g.who[name], calendar.Inert(athlete))
}

// write writes a line for each heading, the first behind head.
func (g *groups) write(w io.Writer, head string) {
	if len(g.names) == 0 {
		fmt.Fprintln(w, head)
	}
	for _, name := range g.names {
		lines := say.Wrap(strings.Join(g.who[name], " "), max(20, 2*width-len(head)-40))
		for _, l := range lines {
			fmt.Fprintf(w, "%s  %-17s %s\n", head, name, l)
			head, name = strings.Repeat(" ", len(head)), ""
		}
	}
}

// writeLeftOut says date by date who finds no place, why, and what instead.
func writeLeftOut(w io.Writer, p *squad.Plan) {
	fmt.Fprintf(w, "\nNo place in the hall: %d\n", len(p.LeftOut))
	if len(p.LeftOut) == 0 {
		return
	}
	fmt.Fprintln(w, `  First come those without whom the plan for all would miss more. Where that leaves a choice: who has
  the fewest lifts in the last 7 dates, then the fewest minutes, then the smallest id; in later weeks
  each team's line moves on.`)
	for i := 0; i < len(p.LeftOut); {
		d := p.LeftOut[i].Date
		var who groups
		for ; i < len(p.LeftOut) && p.LeftOut[i].Date == d; i++ {
			x := &p.LeftOut[i]
			who.add(instead(p, x), x.Athlete)
		}
		fmt.Fprintf(w, "  %s%s\n", say.Day(d), crowd(p, d))
		for _, name := range who.names {
			for _, l := range say.Wrap(strings.Join(who.who[name], " "), width-44) {
				fmt.Fprintf(w, "    %-38s %s\n", name, l)
				name = ""
			}
		}
	}
}

// instead says what somebody does who finds no place.
func instead(p *squad.Plan, x *squad.LeftOut) string {
	for _, a := range p.Athletes {
		for _, s := range a.Plan.Sessions {
			switch {
			case a.Athlete != x.Athlete || x.Home == "" || s.ID != x.Home:
			case s.Date == x.Date:
				return fmt.Sprintf("%s, at %s", s.Kind, calendar.Inert(s.Place))
			default:
				return fmt.Sprintf("%s, at %s %s", s.Kind, calendar.Inert(s.Place), say.Day(s.Date))
			}
		}
	}
	return fmt.Sprintf("%s, nothing instead", x.Kind)
}

// crowd is by how much the halls are too narrow on a date.
func crowd(p *squad.Plan, d calendar.Date) string {
	out := ""
	for _, f := range p.Findings {
		if f.Code != squad.FindingNarrow || len(f.Subject.Dates) != 1 || f.Subject.Dates[0] != d {
			continue
		}
		v := func(name string) string { return f.Values[name].String() }
		out += fmt.Sprintf(", %s: %s want a place, %s to a slot: %s x %s - %s = %s min needed, %s open", v("hall"), v("wanted"), v("room"), v("slots"), v("each"), v("change"), v("needed"), v("open"))
	}
	return out
}

func writeNotes(w io.Writer, p *squad.Plan) {
	told := map[calendar.Date]bool{}
	for _, x := range p.LeftOut {
		told[x.Date] = true
	}
	var rows []string
	for _, f := range p.Findings {
		if f.Code != squad.FindingNarrow || !told[f.Subject.Dates[0]] {
			rows = append(rows, f.Text)
		}
	}
	for _, x := range p.Assumed {
		rows = append(rows, x.Error())
	}
	if len(rows) > 0 {
		fmt.Fprintln(w, "\nTo know")
	}
	for _, row := range rows {
		fmt.Fprintf(w, "  %s\n", row)
	}
	fmt.Fprint(w, `
Stop and tell an adult if pain is above 5 of 10, sharp, at night or makes you limp. No training
with fever, chest symptoms, fainting or after a knock to the head until a clinician clears it.
Under 18 only supervised. Local rules, clinicians and the coach who is there come first.
`)
}

func writeWorth(w io.Writer, list []squad.Worth) {
	fmt.Fprint(w, "\nWhat more room would buy, over the period\n")
	fmt.Fprintf(w, "  %-36s %14s %8s %12s %20s\n", "", "prices suggest", "saves", "left out", "lifts there a week")
	name := map[squad.Offer]string{squad.OnePlace: "one more place in each slot", squad.OneCoach: "one more coach", squad.ThirtyMinutes: "30 minutes more a date"}
	for _, x := range list {
		sign := "+"
		if x.LiftsAWeek < 0 {
			sign = "-"
		}
		tenths := max(x.LiftsAWeek, -x.LiftsAWeek)
		fmt.Fprintf(w, "  %-36s %14d %8d %12d %20s\n", name[x.Offer]+", "+calendar.Inert(x.Hall), x.Estimate, x.Points, -x.Served, fmt.Sprintf("%s%d.%d", sign, tenths/10, tenths%10))
	}
	fmt.Fprint(w, "  Points as above: a second lift of a week missed is 560, a second full-body session 120, a lift at\n  home instead of in the hall 6.\n")
}

// writeMoved writes a slip for everybody whom planning again moves.
func writeMoved(w io.Writer, r *squad.Request, p *squad.Plan) {
	from := p.Period.From
	if !r.Now.IsZero() {
		from = calendar.DateOf(r.Now, r.Athletes[0].Season.Athlete.Zone)
	}
	own := 0
	for _, s := range p.Moved {
		if s.Affected {
			own++
		}
	}
	fmt.Fprintf(w, "\nPlanned again from %s with %s: %d moved", say.Day(from), say.Count(r.Halls[0].Capacity, "place"), len(p.Moved))
	if own > 0 {
		fmt.Fprintf(w, ", %d of them because their own calendar changed", own)
	}
	fmt.Fprintln(w)
	zone := r.Athletes[0].Season.Athlete.Zone
	for _, s := range p.Moved {
		fmt.Fprintf(w, "  %s\n", calendar.Inert(s.Athlete))
		for _, l := range slipLines(p, &s, zone) {
			fmt.Fprintf(w, "    %s\n", l)
		}
	}
}

// slipLines are the lines of a slip, by date.
func slipLines(p *squad.Plan, s *squad.Slip, zone calendar.Zone) []string {
	place := map[string]string{} // that a session has now, if it changed
	for _, x := range s.Places {
		place[x.Session] = ", at " + calendar.Inert(x.To)
	}
	day := func(t time.Time) calendar.Date { return calendar.DateOf(t, zone) }
	clock := func(t time.Time) string { return t.In(zone.Location()).Format("15:04") }
	type row struct {
		at   time.Time
		text string
	}
	var rows []row
	add := func(at time.Time, kind season.Kind, what string) {
		rows = append(rows, row{at, fmt.Sprintf("%-10s %s  %-17s  %s", say.Day(day(at)), clock(at), kind, what)})
	}
	seen := map[string]bool{}
	for _, c := range s.Changes {
		seen[c.Session] = true
		switch {
		case c.From == nil:
			add(*c.To, c.Kind, "new"+place[c.Session])
		case c.To == nil:
			add(*c.From, c.Kind, "dropped")
		default:
			now, old := "now "+clock(*c.To), c.Kind
			if day(*c.From) != day(*c.To) {
				now = "now " + say.Day(day(*c.To)) + " " + clock(*c.To)
			}
			if c.OldKind != "" {
				now, old = now+" "+string(c.Kind), c.OldKind
			}
			add(*c.From, old, now+place[c.Session])
		}
	}
	for _, a := range p.Athletes {
		for _, x := range a.Plan.Sessions {
			if a.Athlete == s.Athlete && place[x.ID] != "" && !seen[x.ID] {
				add(x.Start, x.Kind, "now"+strings.TrimPrefix(place[x.ID], ","))
			}
		}
	}
	slices.SortStableFunc(rows, func(a, b row) int { return a.at.Compare(b.at) })
	var out []string
	for _, r := range rows {
		out = append(out, r.text)
	}
	return out
}
