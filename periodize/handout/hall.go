package handout

import (
	"cmp"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
)

// hallSlots is how many slots a page of the hall's chart takes.
const hallSlots = 16

// Hall is the chart of a hall for whoever runs it: its slots in order of time,
// a square a place, with who has one. Dates are kept together where they fit.
func (w Wall) Hall(hall Label, slots ...Slot) Sheet {
	list := slices.Clone(slots)
	slices.SortStableFunc(list, func(x, y Slot) int { return cmp.Or(x.Date.Compare(y.Date), cmp.Compare(x.From, y.From)) })
	s := w.Sheet()
	s.wide, s.class, s.title, s.pages = false, "hall", "Hall: "+say.Clip(string(hall), 40), nil
	s.id.period = say.BetweenYear(w.From, w.To)
	for len(list) > 0 {
		n := min(hallSlots, len(list))
		for k := n; k > 0 && n < len(list); k-- { // where a date ends
			if list[k-1].Date != list[k].Date {
				n = k
				break
			}
		}
		f := Slots(list[:n])
		f.title = "" // the sheet has it
		s.pages = append(s.pages, page{paragraph(dates(list[0].Date, list[n-1].Date)), f})
		list = list[n:]
	}
	if len(s.pages) == 0 {
		s.pages = []page{{paragraph("The hall has no slots from " + say.Day(w.From) + " to " + say.Day(w.To) + ".")}}
	}
	return s
}

func dates(from, to calendar.Date) string {
	if from.IsZero() || to.IsZero() {
		return ""
	}
	return say.BetweenYear(from, to)
}
