package handout

import (
	"strings"

	"example.org/weft/internal/say"
)

// paragraph is a block of running text.
type paragraph string

func (p paragraph) html(m *markup)   { m.el("p", string(p)) }
func (p paragraph) text(l *say.Page) { l.Hang("", string(p)) }

// heading begins a part of a page.
type heading string

func (h heading) html(m *markup) { m.el("h2", string(h)) }

func (h heading) text(l *say.Page) {
	l.Line("")
	l.Line(strings.ToUpper(string(h)))
}

// list is short points.
type list []string

func (x list) html(m *markup) {
	if len(x) == 0 {
		return
	}
	m.open("ul")
	for _, s := range x {
		m.el("li", s)
	}
	m.close("ul")
}

func (x list) text(l *say.Page) {
	for _, s := range x {
		l.Hang("- ", s)
	}
}

// facts are words and what they stand for.
type facts [][2]string

func (x facts) html(m *markup) {
	m.open("dl", "class", "facts")
	for _, f := range x {
		m.el("dt", f[0])
		m.el("dd", f[1])
	}
	m.close("dl")
}

func (x facts) text(l *say.Page) {
	for _, f := range x {
		l.Hang(say.Pad(f[0], 14), f[1])
	}
}

// points are words with what belongs to each, one thing a line.
type points []point

type point struct {
	word  string
	items []string
}

func (x points) html(m *markup) {
	m.open("dl", "class", "facts")
	for _, p := range x {
		m.el("dt", p.word)
		for _, s := range p.items {
			m.el("dd", s)
		}
	}
	m.close("dl")
}

func (x points) text(l *say.Page) {
	for _, p := range x {
		label := p.word
		for _, s := range p.items {
			l.Hang(say.Pad(label, 14), s)
			label = ""
		}
	}
}

// more cuts a list to so many points and says how many are left.
func more(points []string, most int) list {
	if len(points) <= most {
		return points
	}
	return append(append(list(nil), points[:most-1]...), "and "+itoa(len(points)-most+1)+" more")
}
