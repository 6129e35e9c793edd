package handout

import (
	"cmp"
	"slices"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
)

// Source is where load of a week comes from.
type Source uint8

// The sources, in the order in which they are stacked.
const (
	FromGames Source = iota
	FromPractice
	FromGym
	FromElsewhere
	sources
)

// String is the source in words.
func (s Source) String() string {
	switch s {
	case FromGames:
		return "games"
	case FromPractice:
		return "practice"
	case FromGym:
		return "gym"
	case FromElsewhere:
		return "elsewhere"
	}
	return "unknown source"
}

// SourceLoad is the load of one source in a week.
type SourceLoad struct {
	Source  Source
	Load    int // effort rating x minutes, arbitrary units, not negative
	Unknown int // things that happened and have no load: unknown is not zero
}

// WeekLoad is a week with its loads.
type WeekLoad struct {
	From  calendar.Date
	Loads []SourceLoad
}

// maxWeekLoad bounds a week: 168 hours at an effort of 10 of 10 are 100,800.
const maxWeekLoad = 100_800

// weekSum is a week as it is drawn.
type weekSum struct {
	from    calendar.Date
	by      [sources]int
	total   int
	unknown int
}

// WeekLoads draws the load of each week as a stack of its sources. No line is
// drawn through them, no ratio taken: a week is what it was. What happened
// without a load is counted beside its week and is no zero. Negative loads, more
// than a week can hold and unknown sources are left out.
func WeekLoads(weeks []WeekLoad) Figure {
	var list []weekSum
	for _, w := range weeks {
		s := weekSum{from: w.From}
		for _, x := range w.Loads {
			if x.Source < sources && x.Load >= 0 && s.total+x.Load <= maxWeekLoad {
				s.by[x.Source] += x.Load
				s.total += x.Load
				s.unknown += min(max(x.Unknown, 0), 99)
			}
		}
		list = append(list, s)
	}
	slices.SortStableFunc(list, func(x, y weekSum) int { return cmp.Or(x.from.Compare(y.from), cmp.Compare(x.total, y.total)) })
	f := Figure{title: "Load by week", table: table{head: []string{"Week from", "Games", "Practice", "Gym", "Elsewhere", "Known", "Without a load"}}}
	for _, s := range list {
		row := []string{say.Short(s.from)}
		for _, n := range s.by {
			row = append(row, itoa(n))
		}
		f.table.rows = append(f.table.rows, append(row, itoa(s.total), itoa(s.unknown)))
	}
	f.draw = func(m *markup) { drawLoads(m, list) }
	for s := Source(0); s < sources; s++ {
		f.key = append(f.key, keyEntry{func(m *markup) { m.sourceBar(s, box{1, 2, 14, 12}) }, "", s.String(), ""})
	}
	f.key = append(f.key, keyEntry{func(m *markup) { m.unknownMark(1, 2) }, "", "?", "happened, load not known"})
	return f
}

// sourceBar fills a part of a stack: solid, slanted, rungs or dots.
func (m *markup) sourceBar(s Source, r box) {
	switch s {
	case FromGames:
		m.rect("game full", r)
	case FromPractice:
		m.rect("game", r)
		m.path("hatch", slanted(r, 4))
	case FromGym:
		m.rect("lift", r)
		m.path("fine", across(r, 3))
	default:
		m.rect("lift", r)
		m.path("fine", dotted(r, 4))
	}
}

func (m *markup) unknownMark(x, y int) {
	m.rect("game dash", box{x, y, 14, 12})
	m.el("text", "?", "x", itoa(x+5), "y", itoa(y+9), "class", "strong")
}

// Sizes of the picture of loads: a row a week, bars to the right.
const (
	loadName = 46
	loadWide = 342
	loadRow  = 18
)

func drawLoads(m *markup, list []weekSum) {
	most := 1
	for _, s := range list {
		most = max(most, s.total)
	}
	room := loadWide - loadName - 62
	m.open("svg", "viewBox", "0 0 "+itoa(loadWide)+" "+itoa(max(len(list)*loadRow, 4)), "role", "img", "aria-label", say.Count(len(list), "week")+" of load by source. A table below says the same.")
	for i, s := range list {
		y, x := i*loadRow, loadName
		m.el("text", say.Short(s.from), "x", "0", "y", itoa(y+12))
		sum := 0
		for k, n := range s.by {
			sum += n
			end := loadName + sum*room/most
			if n > 0 {
				m.sourceBar(Source(k), box{x, y + 2, max(end-x, 1), 12})
			}
			x = max(x, end)
		}
		m.el("text", itoa(s.total), "x", itoa(x+4), "y", itoa(y+12))
		if s.unknown > 0 {
			m.unknownMark(loadWide-28, y+2)
			m.el("text", itoa(s.unknown), "x", itoa(loadWide-11), "y", itoa(y+12))
		}
	}
	m.close("svg")
	m.line()
}
