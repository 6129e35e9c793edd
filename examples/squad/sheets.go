package main

import (
	"io"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

// writeSheet writes the chart of the hall, or what hangs on its wall in the first
// week.
func writeSheet(w io.Writer, r *squad.Request, p *squad.Plan, opt options) error {
	hall, title, example := opt.hall, "squad", opt.request == ""
	if hall == "" {
		hall = r.Halls[0].Place.ID
	} else if !slices.ContainsFunc(r.Halls, func(h squad.Hall) bool { return h.Place.ID == hall }) {
		return &season.InputError{Problems: []calendar.Problem{{Code: squad.CodeUnknownHall, Class: calendar.ClassError, Field: "-hall", Value: hall,
			Reason: "there is no such hall", Remedy: "use the id of a hall of the request"}}}
	}
	if example {
		title = "club of 30"
	}
	byID := map[string]*season.Request{}
	for i := range r.Athletes {
		byID[r.Athletes[i].Season.Athlete.ID] = &r.Athletes[i].Season
	}
	var books []*handout.Book
	for i := range p.Athletes {
		own := *byID[p.Athletes[i].Athlete]
		own.Period = p.Athletes[i].Plan.Period
		b, err := handout.New(&own, p.Athletes[i].Plan, handout.Options{Example: example})
		if err != nil {
			return err
		}
		books = append(books, b)
	}
	to := p.Period.To
	if opt.sheet == "wall" {
		if week := p.Period.From.AddDays(6); week.Before(to) {
			to = week
		}
	}
	wall, err := handout.NewWall(handout.Label(title), p.Period.From, to, books...)
	if err != nil {
		return err
	}
	out := wall.Sheet()
	if opt.sheet == "hall" {
		out = wall.Hall(handout.Label(hall), slots(p, hall)...)
	}
	_, err = io.WriteString(w, out.HTML())
	return err
}

// slots are those of a hall as the chart takes them.
func slots(p *squad.Plan, hall string) []handout.Slot {
	zone, _ := calendar.LoadZone(p.Zone)
	var out []handout.Slot
	for i := range p.Slots {
		s := &p.Slots[i]
		if s.Hall != hall {
			continue
		}
		x := handout.Slot{Date: s.Date, From: zone.Local(s.Start).Clock, To: zone.Local(s.End).Clock, Places: s.Capacity}
		if len(s.Kinds) == 1 {
			x.Kind = s.Kinds[0]
		}
		for _, seat := range s.Seats {
			x.Athletes, x.Kinds = append(x.Athletes, handout.Label(seat.Athlete)), append(x.Kinds, seat.Kind)
		}
		out = append(out, x)
	}
	return out
}
