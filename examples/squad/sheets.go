package main

import (
	"io"

	"example.org/weft/calendar"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/squad"
)

// writeSheet writes the chart of the hall, or what hangs on its wall in the first
// week.
func writeSheet(w io.Writer, r *squad.Request, p *squad.Plan, sheet string) error {
	byID := map[string]*season.Request{}
	for i := range r.Athletes {
		byID[r.Athletes[i].Season.Athlete.ID] = &r.Athletes[i].Season
	}
	var books []*handout.Book
	for i := range p.Athletes {
		own := *byID[p.Athletes[i].Athlete]
		own.Period = p.Athletes[i].Plan.Period
		b, err := handout.New(&own, p.Athletes[i].Plan, handout.Options{Example: true})
		if err != nil {
			return err
		}
		books = append(books, b)
	}
	to := p.Period.To
	if sheet == "wall" {
		to = p.Period.From.AddDays(6)
	}
	wall, err := handout.NewWall("club of 30", p.Period.From, to, books...)
	if err != nil {
		return err
	}
	out := wall.Sheet()
	if sheet == "hall" {
		out = wall.Hall(handout.Label(r.Halls[0].Place.ID), slots(p)...)
	}
	_, err = io.WriteString(w, out.HTML())
	return err
}

// slots are those of the hall as the chart takes them.
func slots(p *squad.Plan) []handout.Slot {
	zone, _ := calendar.LoadZone(p.Zone)
	var out []handout.Slot
	for i := range p.Slots {
		s := &p.Slots[i]
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
