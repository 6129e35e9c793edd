package handout

import (
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Marks are drawn with plain paths, without patterns and without references, so
// that a picture can stand anywhere and twice on a page. Units are pixels.

// box is a rectangle.
type box struct{ x, y, w, h int }

func (m *markup) rect(class string, r box) {
	m.open("rect", "class", class, "x", itoa(r.x), "y", itoa(r.y), "width", itoa(r.w), "height", itoa(r.h))
	m.close("rect")
}

func (m *markup) path(class, d string) {
	if d == "" {
		return
	}
	m.open("path", "class", class, "d", d)
	m.close("path")
}

// segment writes a straight line for the attribute d of a path.
func segment(b *strings.Builder, x1, y1, x2, y2 int) {
	b.WriteString("M" + itoa(x1) + " " + itoa(y1) + "L" + itoa(x2) + " " + itoa(y2))
}

// across are horizontal lines in a box, so many pixels apart.
func across(r box, step int) string {
	var b strings.Builder
	for y := r.y + step; y < r.y+r.h; y += step {
		segment(&b, r.x, y, r.x+r.w, y)
	}
	return b.String()
}

// upright are vertical lines.
func upright(r box, step int) string {
	var b strings.Builder
	for x := r.x + step; x < r.x+r.w; x += step {
		segment(&b, x, r.y, x, r.y+r.h)
	}
	return b.String()
}

// slanted are lines that rise from left to right at 45 degrees, cut at the box.
func slanted(r box, step int) string {
	var b strings.Builder
	for k := step; k < r.w+r.h; k += step {
		x1, y1 := r.x, r.y+k
		if k > r.h {
			x1, y1 = r.x+k-r.h, r.y+r.h
		}
		x2, y2 := r.x+k, r.y
		if k > r.w {
			x2, y2 = r.x+r.w, r.y+k-r.w
		}
		segment(&b, x1, y1, x2, y2)
	}
	return b.String()
}

// fallen are slanted lines the other way.
func fallen(r box, step int) string {
	var b strings.Builder
	for k := step; k < r.w+r.h; k += step {
		x1, y1 := r.x, r.y+r.h-k
		if k > r.h {
			x1, y1 = r.x+k-r.h, r.y
		}
		x2, y2 := r.x+k, r.y+r.h
		if k > r.w {
			x2, y2 = r.x+r.w, r.y+r.h-(k-r.w)
		}
		segment(&b, x1, y1, x2, y2)
	}
	return b.String()
}

// dotted are small crosses in rows that are shifted against each other.
func dotted(r box, step int) string {
	var b strings.Builder
	row := 0
	for y := r.y + step/2; y < r.y+r.h; y += step {
		for x := r.x + step/2 + row%2*step/2; x < r.x+r.w; x += step {
			segment(&b, x, y, x, y+1)
		}
		row++
	}
	return b.String()
}

// shadeHatch is the hatch of a shaded stretch.
func shadeHatch(k shadeKind, r box) string {
	switch k {
	case shadeBreak:
		return across(r, 6)
	case shadeTrip:
		return dotted(r, 4)
	case shadeExam:
		return upright(r, 4)
	case shadeBusy:
		return fallen(r, 8)
	}
	return slanted(r, 5)
}

// sessionMark draws a session into a box that hangs from its upper edge.
func (m *markup) sessionMark(k season.Kind, r box) {
	x, y, w, h := r.x, r.y, r.w, r.h
	switch k {
	case season.FullBody:
		m.rect("lift full", r)
	case season.Trimmed: // full above, empty where a set is missing
		m.rect("lift", r)
		m.rect("lift full", box{x, y, w, h * 3 / 5})
	case season.Primer: // a wedge
		m.path("lift full", "M"+itoa(x)+" "+itoa(y)+"h"+itoa(w)+"L"+itoa(x+w/2)+" "+itoa(y+h)+"z")
	case season.Recovery: // round and empty
		m.open("rect", "class", "lift", "x", itoa(x), "y", itoa(y), "width", itoa(w), "height", itoa(h), "rx", itoa(w/2))
		m.close("rect")
	case season.PostGame: // rungs
		m.rect("lift", r)
		m.path("fine", across(r, 4))
	case season.Eccentric: // crossed
		m.rect("lift", r)
		m.path("fine", slanted(r, 4)+fallen(r, 4))
	default:
		m.rect("lift", r)
	}
}

// gameMark draws a game: a stem on the line below and a head whose middle is at
// x, y.
func (m *markup) gameMark(e calendar.Placed, x, y, foot int) {
	class := "game full"
	switch e.Status.Settled() {
	case calendar.Provisional:
		class = "game"
	case calendar.IfNecessary:
		class = "game dash"
	}
	stem := "game"
	if e.DateOnly {
		stem = "game dash"
	}
	m.path(stem, "M"+itoa(x)+" "+itoa(foot)+"V"+itoa(y+4))
	switch e.Home {
	case calendar.AtHome:
		m.open("circle", "class", class, "cx", itoa(x), "cy", itoa(y), "r", "4")
		m.close("circle")
	case calendar.AtAway:
		m.path(class, "M"+itoa(x-5)+" "+itoa(y+4)+"h10L"+itoa(x)+" "+itoa(y-5)+"z")
	default:
		m.rect(class, box{x - 4, y - 4, 8, 8})
	}
	if e.Importance == calendar.Important {
		m.path("bar", "M"+itoa(x-5)+" "+itoa(y-8)+"h10")
	}
}
