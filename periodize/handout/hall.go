package handout

import (
	"cmp"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
)

// hallRoom is what a page has for slots, two beside each other, in tenths of a
// millimetre. Measured in print.
var hallRoom = [...]int{A4: 2130, Letter: 1950}

// Hall is the chart of a hall for whoever runs it: its slots in order of time,
// a square a place, with who has one. Dates are kept together where they fit.
func (w Wall) Hall(hall Label, slots ...Slot) Sheet {
	list := slices.Clone(slots)
	slices.SortStableFunc(list, func(x, y Slot) int { return cmp.Or(x.Date.Compare(y.Date), cmp.Compare(x.From, y.From)) })
	s := w.Sheet()
	s.wide, s.class, s.title, s.pages = false, "hall", "Hall: "+say.Clip(string(hall), 40), nil
	s.id.period = say.BetweenYear(w.From, w.To)
	for len(list) > 0 {
		n := slotsOfPage(list, hallRoom[min(w.Paper, Letter)])
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

// slotsOfPage is how many of some slots a page takes, up to the end of a date
// where it takes one whole.
func slotsOfPage(list []Slot, room int) int {
	n := 0
	for used := 0; n < len(list); n += 2 {
		pair := list[n:min(n+2, len(list))]
		high := pair[0].high()
		high = max(high, pair[len(pair)-1].high())
		if n > 0 && used+high > room {
			break
		}
		used += high
	}
	n = min(n, len(list))
	for k := n; k > 0 && n < len(list); k-- {
		if list[k-1].Date != list[k].Date {
			return k
		}
	}
	return n
}

// high is about what a slot takes in print: its head, its squares and its names.
func (s Slot) high() int {
	const line, letters = 49, 42
	squares := (min(max(s.Places, len(s.Athletes), 1), maxPlaces) + slotAcross - 1) / slotAcross
	head := len(s.when()) + 2 + len(s.what()) + len(s.taken())
	return 48 + line*(1+head/letters) + 72*squares + line*(1+len(s.who())/letters)
}

func dates(from, to calendar.Date) string {
	if from.IsZero() || to.IsZero() {
		return ""
	}
	return say.BetweenYear(from, to)
}
