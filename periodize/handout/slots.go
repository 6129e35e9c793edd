package handout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// Slot is a time in the hall with so many places.
type Slot struct {
	Date     calendar.Date
	From, To calendar.Clock
	Kind     season.Kind   // of all who come; "" if they do different things
	Places   int           // 1 to 200
	Athletes []Label       // who has a place
	Kinds    []season.Kind // where Kind is "": of each athlete, in their order
}

// slotAcross is how many places are drawn side by side.
const slotAcross = 12

// maxPlaces bounds what is drawn of a slot.
const maxPlaces = 200

// Slots is the hall slot by slot: a square a place, filled where somebody has
// it, and who that is. Slots are drawn in order of time; more athletes than
// places are drawn and said.
func Slots(slots []Slot) Figure {
	list := slices.Clone(slots)
	slices.SortStableFunc(list, func(x, y Slot) int {
		return cmp.Or(x.Date.Compare(y.Date), cmp.Compare(x.From, y.From), cmp.Compare(x.To, y.To), strings.Compare(string(x.Kind), string(y.Kind)))
	})
	f := Figure{title: "Places in the hall", table: table{head: []string{"Slot", "Session", "Taken", "Who"}}}
	for _, s := range list {
		f.table.rows = append(f.table.rows, []string{s.when(), s.what(), s.taken(), s.who()})
	}
	f.draw = func(m *markup) {
		for _, s := range list {
			s.draw(m)
		}
	}
	f.key = []keyEntry{
		{func(m *markup) { m.rect("lift full", box{2, 2, 12, 12}) }, "", "taken", ""},
		{func(m *markup) { m.rect("lift", box{2, 2, 12, 12}) }, "", "free", ""},
		{func(m *markup) { m.over(box{2, 2, 12, 12}) }, "", "crossed", "more than there is room for"},
	}
	return f
}

func (s Slot) when() string {
	out := say.Clock(s.From) + "-" + say.Clock(s.To)
	if s.Date.IsZero() {
		return out
	}
	return say.Day(s.Date) + " " + out
}

func (s Slot) what() string {
	switch {
	case len(s.Athletes) == 0:
		return "free"
	case s.Kind != "":
		return say.Kind(s.Kind)
	}
	var words []string
	for _, g := range s.groups() {
		words = append(words, g.word)
	}
	if len(words) == 0 {
		return "mixed"
	}
	return joined(words)
}

// slotGroup is who does the same in a slot.
type slotGroup struct {
	word  string
	names []string
}

// groups are those of a slot in which people do different things, in the order of
// the kinds; none where nobody said who does what.
func (s Slot) groups() (out []slotGroup) {
	if s.Kind != "" || len(s.Kinds) != len(s.Athletes) {
		return nil
	}
	for _, k := range season.Kinds() {
		g := slotGroup{word: say.Kind(k)}
		for i, a := range s.Athletes {
			if s.Kinds[i] == k {
				g.names = append(g.names, say.Clip(string(a), 24))
			}
		}
		if len(g.names) > 0 {
			out = append(out, g)
		}
	}
	return out
}

// joined is "a", "a and b" or "a, b and c".
func joined(words []string) string {
	if n := len(words) - 1; n > 0 {
		return strings.Join(words[:n], ", ") + " and " + words[n]
	}
	return strings.Join(words, "")
}

func (s Slot) taken() string {
	out := fmt.Sprintf("%d of %d", len(s.Athletes), max(s.Places, 0))
	if n := len(s.Athletes) - s.Places; n > 0 {
		out += fmt.Sprintf(", %d too many", n)
	}
	return out
}

// who has a place; where people do different things, who does which.
func (s Slot) who() string {
	if list := s.groups(); len(list) > 1 {
		parts := make([]string, len(list))
		for i, g := range list {
			parts[i] = g.word + ": " + strings.Join(g.names, ", ")
		}
		return strings.Join(parts, "; ")
	}
	names := make([]string, len(s.Athletes))
	for i, a := range s.Athletes {
		names[i] = say.Clip(string(a), 24)
	}
	return strings.Join(names, ", ")
}

// over is a square with a cross.
func (m *markup) over(r box) {
	m.rect("game", r)
	m.path("game", "M"+itoa(r.x)+" "+itoa(r.y)+"l"+itoa(r.w)+" "+itoa(r.h)+"M"+itoa(r.x+r.w)+" "+itoa(r.y)+"l-"+itoa(r.w)+" "+itoa(r.h))
}

func (s Slot) draw(m *markup) {
	const side, gap, perRow = 12, 4, slotAcross
	n := min(max(s.Places, len(s.Athletes), 1), maxPlaces)
	rows := (n + perRow - 1) / perRow
	m.open("div", "class", "slot")
	m.open("p")
	m.el("b", s.when())
	m.text(" " + s.what() + ", " + s.taken())
	m.close("p")
	m.open("svg", "viewBox", "0 0 "+itoa(perRow*(side+gap))+" "+itoa(rows*(side+gap)), "role", "img", "aria-label", s.when()+": "+s.taken())
	for i := range n {
		r := box{i%perRow*(side+gap) + 1, i/perRow*(side+gap) + 1, side, side}
		switch {
		case i >= s.Places:
			m.over(r)
		case i < len(s.Athletes):
			m.rect("lift full", r)
		default:
			m.rect("lift", r)
		}
	}
	m.close("svg")
	m.el("p", s.who())
	m.close("div")
	m.line()
}
