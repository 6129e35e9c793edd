package main

import (
	"fmt"
	"strings"

	"example.org/weft/internal/say"
)

// width is the widest line of the text.
const width = 98

// page is text with sections.
type page struct{ say.Page }

// title begins a section.
func (p *page) title(s string) {
	p.Line("")
	p.Line(s)
}

// fact writes a labelled line of the head.
func (p *page) fact(label, text string) { p.Hang(say.Pad(label, 17), text) }

// listed joins the first few of a list.
func listed(items []string, most int) string {
	if len(items) == 0 {
		return "none"
	}
	if len(items) > most {
		return strings.Join(items[:most], "; ") + fmt.Sprintf("; and %d more", len(items)-most)
	}
	return strings.Join(items, "; ")
}
