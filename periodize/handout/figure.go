package handout

import (
	"strings"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
)

// block is a part of a page that can be written both ways.
type block interface {
	html(m *markup)
	text(l *say.Page)
}

// Figure is a picture with its key and, behind it, a table that says the same.
type Figure struct {
	title string
	draw  func(m *markup)   // one or more svg elements
	plain func(l *say.Page) // nil: the table
	key   []keyEntry
	table table
}

// keyEntry explains one mark of a picture.
type keyEntry struct {
	draw          func(m *markup) // into 16 x 16
	letter        string          // in text
	word, meaning string
}

// Title is what the picture shows.
func (f Figure) Title() string { return f.title }

// HTML is the picture as a figure element: inline SVG, key and table. Its looks
// come from [Style]; it makes no request and holds no script. Elements carry
// data-date, data-session and data-event with the date and the ids they show, so
// that a program can find them.
func (f Figure) HTML() string {
	var m markup
	f.html(&m)
	return m.b.String()
}

// Text is the picture in characters.
func (f Figure) Text() string {
	l := newLines()
	f.text(&l)
	return l.String()
}

func (f Figure) html(m *markup) {
	m.open("figure", "class", "weft-figure")
	if f.title != "" {
		m.el("figcaption", f.title)
	}
	f.draw(m)
	keyBlock(f.key).html(m)
	m.line()
	m.open("details")
	m.el("summary", "The same as a table")
	f.table.html(m)
	m.close("details")
	m.close("figure")
	m.line()
}

func (f Figure) text(l *say.Page) {
	if f.title != "" {
		l.Line(strings.ToUpper(f.title))
		l.Line("")
	}
	if f.plain == nil {
		f.table.text(l)
		return
	}
	f.plain(l)
	var parts []string
	for _, k := range f.key {
		switch {
		case k.letter == "":
			continue
		case k.meaning == "":
			parts = append(parts, k.letter+" "+k.word)
		default:
			parts = append(parts, k.letter+" "+k.word+" ("+k.meaning+")")
		}
	}
	if len(parts) > 0 {
		l.Line("")
		l.Hang("Key  ", strings.Join(parts, "; "))
	}
}

// table is rows under a head.
type table struct {
	caption string
	head    []string
	rows    [][]string
}

func (t table) html(m *markup) {
	m.open("table")
	if t.caption != "" {
		m.el("caption", t.caption)
	}
	m.open("thead")
	m.open("tr")
	for _, h := range t.head {
		m.el("th", h, "scope", "col")
	}
	m.close("tr")
	m.close("thead")
	m.open("tbody")
	for _, r := range t.rows {
		m.open("tr")
		for i, c := range r {
			if i == 0 {
				m.el("th", c, "scope", "row")
			} else {
				m.el("td", c)
			}
		}
		m.close("tr")
		m.line()
	}
	m.close("tbody")
	m.close("table")
}

const (
	columnGap = 2
	narrowest = 8
)

// widths are those of the columns as text: as wide as they need be, and where
// that is too wide, the widest give way.
func (t table) widths() []int {
	wide := make([]int, len(t.head))
	sum := columnGap * (len(wide) - 1)
	for i := range wide {
		for _, r := range append([][]string{t.head}, t.rows...) {
			wide[i] = max(wide[i], min(utf8.RuneCountInString(calendar.Inert(r[i])), textWidth))
		}
		sum += wide[i]
	}
	for ; sum > textWidth; sum-- {
		most := 0
		for i := range wide {
			if wide[i] > wide[most] {
				most = i
			}
		}
		if wide[most] <= narrowest {
			break
		}
		wide[most]--
	}
	return wide
}

func (t table) text(l *say.Page) {
	wide := t.widths()
	for _, r := range append([][]string{t.head}, t.rows...) {
		cells, most := make([][]string, len(r)), 0
		for i, c := range r {
			cells[i] = say.Wrap(c, wide[i])
			most = max(most, len(cells[i]))
		}
		for k := range most {
			line := ""
			for i := range cells {
				part := ""
				if k < len(cells[i]) {
					part = cells[i][k]
				}
				line += say.Pad(part, wide[i]+columnGap)
			}
			l.Line(line)
		}
	}
}
