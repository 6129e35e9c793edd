package handout

import (
	"fmt"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// Sheet is what one audience gets: one or more pages.
type Sheet struct {
	paper Paper
	wide  bool // landscape
	class string
	id    identity
	title string
	who   string // below the title
	pages []page
	fine  bool // cautions belong on it
}

// page is the blocks of one page.
type page []block

// identity says on each page which plan it is.
type identity struct {
	period, zone, plan, rules string
	example                   bool
}

func (b *Book) identity() identity {
	p := b.plan
	return identity{
		period:  say.Between(p.Period.From, p.Period.From) + " " + itoa(year(p.Period.From)) + " - " + say.BetweenYear(p.Period.To, p.Period.To),
		zone:    p.Zone,
		plan:    fmt.Sprintf("%s, revision %d", p.ID, p.Revision),
		rules:   fmt.Sprintf("%s, engine %d", p.RulesVersion, p.Engine),
		example: b.opt.Example,
	}
}

func year(d calendar.Date) int {
	y, _, _ := d.YMD()
	return y
}

// sheet begins a sheet of a plan.
func (b *Book) sheet(class, title string, pages ...page) Sheet {
	who := b.who()
	if b.opt.Club != "" {
		who += ", " + say.Clip(b.opt.Club, 40)
	}
	return Sheet{paper: b.opt.Paper, class: class, id: b.identity(), title: title, who: who, pages: pages, fine: true}
}

// Title is the heading of the sheet.
func (s Sheet) Title() string { return s.title }

// Pages is how many pages the sheet has.
func (s Sheet) Pages() int { return len(s.pages) }

// HTML is the sheet as a document of its own: style and pictures inside, no
// script, no outside request.
func (s Sheet) HTML() string { return Document(s.title+", "+s.who, s) }

// Document puts sheets behind each other in one HTML document, each with its own
// pages. It is printed on the paper of the first one.
func Document(title string, sheets ...Sheet) string {
	var m markup
	m.b.WriteString("<!doctype html>\n")
	m.open("html", "lang", "en")
	m.open("head")
	m.open("meta", "charset", "utf-8")
	m.open("meta", "name", "viewport", "content", "width=device-width,initial-scale=1")
	m.open("meta", "http-equiv", "Content-Security-Policy", "content", "default-src 'none'; style-src 'unsafe-inline'")
	m.el("title", title)
	m.open("style")
	paper, wide := A4, false
	if len(sheets) > 0 {
		paper, wide = sheets[0].paper, sheets[0].wide
	}
	m.b.WriteString(Style(paper))
	size := paper.css()
	if wide { // for printers that know no named pages
		size += " landscape"
	}
	m.b.WriteString("@page{size:" + size + ";margin:12mm}body{margin:0}")
	m.close("style")
	m.close("head")
	m.line()
	m.open("body", "class", "weft")
	m.open("main")
	for _, s := range sheets {
		m.b.WriteString(s.Fragment())
	}
	m.close("main")
	m.close("body")
	m.close("html")
	m.line()
	return m.b.String()
}

// Fragment is the sheet without a document around it: a section a page, for an
// element of class "weft" in a page that has [Style].
func (s Sheet) Fragment() string {
	var m markup
	for i, p := range s.pages {
		class := "sheet " + s.class
		if s.wide {
			class += " wide"
		}
		m.open("section", "class", class, "aria-label", fmt.Sprintf("%s, page %d of %d", s.title, i+1, len(s.pages)))
		m.open("header")
		if i == 0 {
			m.el("h1", s.title)
		} else {
			m.el("p", s.title, "class", "again")
		}
		m.open("p", "class", "who")
		m.text(s.who)
		if s.id.example {
			m.text(" ")
			m.el("b", "Invented example", "class", "example")
		}
		m.close("p")
		m.close("header")
		m.line()
		m.open("div", "class", "body")
		for _, b := range p {
			b.html(&m)
		}
		m.close("div")
		s.foot(&m, i)
		m.close("section")
		m.line()
	}
	return m.b.String()
}

func (s Sheet) foot(m *markup, i int) {
	m.open("footer")
	if s.fine {
		m.open("p", "class", "care")
		m.text(strings.Join(cautions(), " "))
		m.close("p")
	}
	m.open("p", "class", "plate")
	for _, x := range s.plate() {
		m.el("span", x)
	}
	m.el("span", fmt.Sprintf("page %d of %d", i+1, len(s.pages)))
	m.close("p")
	m.close("footer")
}

// plate says which plan a page belongs to.
func (s Sheet) plate() []string {
	return []string{s.id.period, s.id.zone, "plan " + s.id.plan, "rules " + s.id.rules}
}

// textWidth is the widest line of a sheet as text.
const textWidth = 80

func newLines() say.Page { return say.Page{Width: textWidth} }

// Text is the sheet in characters, at most 80 a line.
func (s Sheet) Text() string {
	l := newLines()
	for i, p := range s.pages {
		if i > 0 {
			l.Line("")
		}
		l.Line(strings.ToUpper(s.title))
		who := s.who
		if s.id.example {
			who += "  (invented example)"
		}
		l.Line(who)
		l.Line(strings.Repeat("=", textWidth))
		for _, b := range p {
			b.text(&l)
		}
		l.Line("")
		if s.fine {
			for _, c := range cautions() {
				l.Hang("- ", c)
			}
		}
		l.Hang("", strings.Join(append(s.plate(), fmt.Sprintf("page %d of %d", i+1, len(s.pages))), "; "))
	}
	return l.String()
}

// refused stands in place of a plan that was not made: never why, which may be
// about health.
func (b *Book) refused() (page, bool) {
	if b.plan.Outcome != season.Refused {
		return nil, false
	}
	return page{paragraph("No sessions are planned at the moment. Ask the coach.")}, true
}

// Season is the season strip as a sheet.
func (b *Book) Season() Sheet {
	if p, ok := b.refused(); ok {
		return b.sheet("season", "Season strip", p)
	}
	s := b.strip()
	var pages []page
	for _, part := range s.pages() {
		f := s.figure(part)
		f.title = "" // the sheet has it
		pages = append(pages, page{f})
	}
	return b.sheet("season", "Season strip", pages...)
}
