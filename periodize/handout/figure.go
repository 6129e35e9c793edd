package handout

import (
	"strings"
	"unicode/utf8"
)

// block is a part of a page that can be written both ways.
type block interface {
	html(m *markup)
	text(l *lines)
}

// Figure is a picture with its key and, behind it, a table that says the same.
type Figure struct {
	title string
	draw  func(m *markup) // one or more svg elements
	plain func(l *lines)  // nil: the table
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
	var l lines
	f.text(&l)
	return l.b.String()
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

func (f Figure) text(l *lines) {
	if f.title != "" {
		l.line(strings.ToUpper(f.title))
		l.line("")
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
		l.line("")
		l.hang("Key  ", strings.Join(parts, "; "))
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

const columnGap = 2

// text sets the columns as wide as they need be; the last one wraps.
func (t table) text(l *lines) {
	wide := make([]int, len(t.head))
	for _, r := range append([][]string{t.head}, t.rows...) {
		for i, c := range r {
			wide[i] = max(wide[i], utf8.RuneCountInString(clip(c, textWidth)))
		}
	}
	for i, w := range wide { // of a table that is too wide, no column takes more than its share
		wide[i] = min(w, max(12, textWidth/len(wide)))
	}
	for _, r := range append([][]string{t.head}, t.rows...) {
		label := ""
		for i, c := range r {
			if i == len(r)-1 {
				l.hang(label, c)
			} else {
				label += pad(clip(c, wide[i]), wide[i]+columnGap)
			}
		}
	}
}
