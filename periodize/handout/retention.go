package handout

import (
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
)

// Retention is how long a quality is held after its last sufficient stimulus. A
// quality does not fall off a cliff: between Early and Late it fades.
type Retention struct {
	Quality     string
	Last        calendar.Date // of the last stimulus; zero: none is known
	Early, Late calendar.Date // held until Early, no longer relied on after Late
}

// stands says how a quality stands on a date.
func (r Retention) stands(now calendar.Date) string {
	switch {
	case r.Last.IsZero():
		return "not known"
	case !now.After(r.Early):
		return "held"
	case !now.After(r.Late):
		return "fading"
	}
	return "train it again"
}

// Sizes of the retention picture.
const (
	bandName = 118
	bandWide = 342
	bandHigh = 22
	bandTop  = 16
)

// RetentionBands draws a band for each quality from its last stimulus to where
// it is no longer relied on, and a line at now. The bands are expert averages of
// trained adults (see load.Quality), not measurements.
func RetentionBands(now calendar.Date, list []Retention) Figure {
	f := Figure{title: "How long it lasts", table: table{head: []string{"Quality", "Last trained", "Held until", "Fading until", "Now"}}}
	rows := slices.DeleteFunc(slices.Clone(list), func(r Retention) bool {
		return !r.Last.IsZero() && (r.Early.Before(r.Last) || r.Late.Before(r.Early))
	})
	from, to := now, now
	for _, r := range rows {
		line := []string{say.Clip(r.Quality, 24), "no date known", "-", "-", r.stands(now)}
		if !r.Last.IsZero() {
			from, to = calendar.Earlier(from, r.Last), calendar.Later(to, r.Late)
			line[1], line[2], line[3] = say.Short(r.Last), say.Short(r.Early), say.Short(r.Late)
		}
		f.table.rows = append(f.table.rows, line)
	}
	f.draw = func(m *markup) { drawBands(m, now, from, to, rows) }
	f.key = []keyEntry{
		{func(m *markup) { m.rect("lift full", box{1, 4, 14, 8}) }, "", "held", ""},
		{func(m *markup) { m.fading(box{1, 4, 14, 8}) }, "", "fading", "sooner in some, later in others"},
		{func(m *markup) { m.path("now", "M8 0V16M4 0h8") }, "", "line", "now"},
	}
	return f
}

func (m *markup) fading(r box) {
	m.rect("lift", r)
	m.path("fine", slanted(r, 4))
}

func drawBands(m *markup, now, from, to calendar.Date, rows []Retention) {
	days := max(to.DaysSince(from)+1, 1)
	at := func(d calendar.Date) int { return bandName + d.DaysSince(from)*(bandWide-bandName-4)/days }
	high := bandTop + len(rows)*bandHigh + 4
	m.open("svg", "viewBox", "0 0 "+itoa(bandWide)+" "+itoa(high), "role", "img", "aria-label", "Retention bands from "+say.Between(from, to)+". A table below says the same.")
	for i, r := range rows {
		y := bandTop + i*bandHigh
		m.path("week", "M0 "+itoa(y+bandHigh)+"H"+itoa(bandWide))
		m.el("text", say.Clip(r.Quality, 22), "x", "0", "y", itoa(y+14))
		if r.Last.IsZero() {
			m.el("text", "not known", "x", itoa(bandName+4), "y", itoa(y+14))
			continue
		}
		a, b, c := at(r.Last), at(r.Early), at(r.Late)
		m.rect("lift full", box{a, y + 6, max(b-a, 1), 9})
		m.fading(box{b, y + 6, max(c-b, 1), 9})
	}
	x := at(now)
	m.path("now", "M"+itoa(x)+" "+itoa(bandTop-2)+"V"+itoa(high-4)+"M"+itoa(x-4)+" "+itoa(bandTop-2)+"h8")
	m.el("text", "now, "+say.Short(now), "x", itoa(min(x, bandWide-56)), "y", "9", "class", "strong")
	m.close("svg")
	m.line()
}
