package handout

import (
	"fmt"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// Sizes of the season strip, in pixels of its own.
const (
	stripWeeks = 4 // of a piece; pieces flow into as many columns as there is room for
	stripDay   = 12
	stripEdge  = 3
	stripWide  = stripWeeks*7*stripDay + 2*stripEdge
	stripTop   = 12 // below the words of congested spells
	stripLine  = 56 // foot of the games
	stripHang  = 70 // from here sessions hang
	stripRow   = 11 // of words at the bottom
	stripHead  = 33 // middle of a game's head
	headStep   = 12 // between the heads of two games on one date

	stripLabel = 25 // above a piece and between two
)

// stripRoom is what a page has for pieces in two columns. Measured in print.
var stripRoom = [...]int{A4: 800, Letter: 720}

// strip draws the pieces of a season strip.
type strip struct {
	b      *Book
	shades []stretch
	pieces []piece
}

// piece is some weeks of a strip.
type piece struct {
	from, to calendar.Date // whole weeks
	words    []placedWord  // below the sessions
	rows     int           // of words
	floor    int           // below the longest hanging date
}

// placedWord is a word below the sessions.
type placedWord struct {
	x, row int
	text   string
}

// Strip is the season at a glance: games above the line, sessions below it as
// long as they take, breaks, trips, exams and congested spells shaded, and a
// line at the plan's now.
func (b *Book) Strip() Figure {
	s := b.strip()
	return s.figure(s.pieces)
}

func (b *Book) strip() *strip {
	s := &strip{b: b, shades: b.stretches()}
	p := b.plan.Period
	for d := calendar.WeekStart(p.From, b.first); !d.After(p.To); d = d.AddDays(7 * stripWeeks) {
		s.pieces = append(s.pieces, s.piece(d))
	}
	return s
}

// figure is the strip, or the part of it that some pieces show.
func (s *strip) figure(pieces []piece) Figure {
	part := *s
	part.pieces = pieces
	from, to := pieces[0].from, pieces[len(pieces)-1].to
	return Figure{title: "Season strip", draw: part.html, plain: part.text, key: s.key(), table: s.b.dateTable(from, to)}
}

// pages parts the pieces so that each part fits on a page, two beside each other.
func (s *strip) pages() (out [][]piece) {
	used, first := 0, 0
	for i := 0; i < len(s.pieces); i += 2 {
		high := 0
		for _, p := range s.pieces[i:min(i+2, len(s.pieces))] {
			high = max(high, p.high()+stripLabel)
		}
		if used > 0 && used+high > stripRoom[s.b.opt.Paper] {
			out = append(out, s.pieces[first:i])
			used, first = 0, i
		}
		used += high
	}
	return append(out, s.pieces[first:])
}

func (p piece) high() int { return p.floor + p.rows*stripRow + 2 }

// depth is the length of a session's mark.
func depth(x *season.Session) int { return min(max(x.Minutes, 10), 90) * 3 / 5 }

func hanging(list []*season.Session) (y int) {
	for _, x := range list {
		y += depth(x) + 3
	}
	return y
}

// piece measures some weeks and finds a row for each word, so that none runs
// into another.
func (s *strip) piece(from calendar.Date) piece {
	p := piece{from: from, to: from.AddDays(7*stripWeeks - 1), floor: 36}
	for d := p.from; !d.After(p.to); d = d.AddDays(1) {
		p.floor = max(p.floor, hanging(s.b.at(d).sessions))
	}
	p.floor += stripHang + 3
	var ends []int
	for d := p.from; !d.After(p.to); d = d.AddDays(1) {
		for _, h := range s.shades {
			if h.kind == shadeDense || calendar.Later(h.from, p.from) != d || h.to.Before(d) {
				continue
			}
			w := wordWidth(h.word)
			x := min(stripEdge+d.DaysSince(p.from)*stripDay, stripWide-w)
			row := 0
			for row < len(ends) && ends[row] > x {
				row++
			}
			if row == len(ends) {
				ends = append(ends, 0)
			}
			ends[row] = x + w + 4
			p.words = append(p.words, placedWord{x, row, h.word})
		}
	}
	p.rows = len(ends)
	return p
}

// wordWidth is how wide a word of the picture may get, in any common typeface.
func wordWidth(s string) int { return len(s) * 5 }

func (s *strip) html(m *markup) {
	m.open("div", "class", "strip")
	for _, p := range s.pieces {
		s.draw(m, p)
	}
	m.close("div")
}

func (s *strip) draw(m *markup, p piece) {
	shown := say.BetweenYear(calendar.Later(p.from, s.b.plan.Period.From), calendar.Earlier(p.to, s.b.plan.Period.To))
	m.open("div", "class", "piece")
	m.el("p", shown)
	m.open("svg", "viewBox", "0 0 "+itoa(stripWide)+" "+itoa(p.high()), "role", "img", "aria-label", "Season strip, "+shown+". A table below says the same.")
	for _, h := range s.shades {
		s.shade(m, h, p)
	}
	for w := range stripWeeks + 1 {
		x := stripEdge + w*7*stripDay
		m.path("week", "M"+itoa(x)+" "+itoa(stripTop)+"V"+itoa(p.floor))
		if w < stripWeeks {
			m.el("text", say.Short(p.from.AddDays(7*w)), "x", itoa(x+2), "y", itoa(stripHang-4))
		}
	}
	m.path("axis", "M"+itoa(stripEdge)+" "+itoa(stripLine)+"H"+itoa(stripWide-stripEdge)+"M"+itoa(stripEdge)+" "+itoa(stripHang)+"H"+itoa(stripWide-stripEdge))
	for d := p.from; !d.After(p.to); d = d.AddDays(1) {
		if s.b.plan.Period.Contains(d) {
			s.date(m, d, stripEdge+d.DaysSince(p.from)*stripDay, p.floor)
		}
	}
	for _, w := range p.words {
		m.el("text", w.text, "x", itoa(w.x), "y", itoa(p.floor+8+w.row*stripRow))
	}
	s.now(m, p)
	m.close("svg")
	m.close("div")
	m.line()
}

// shade draws the part of a stretch that lies in a piece.
func (s *strip) shade(m *markup, h stretch, p piece) {
	if h.to.Before(p.from) || h.from.After(p.to) {
		return
	}
	first, last := calendar.Later(h.from, p.from), calendar.Earlier(h.to, p.to)
	r := box{stripEdge + first.DaysSince(p.from)*stripDay, stripHang, (last.DaysSince(first) + 1) * stripDay, p.floor - stripHang}
	if h.kind == shadeDense {
		r.y, r.h = stripTop, stripLine-stripTop
		x := min(r.x, stripWide-wordWidth(h.word))
		m.el("text", h.word, "x", itoa(max(x, 0)), "y", "9")
	}
	m.path("hatch", shadeHatch(h.kind, r))
}

// date draws the games, practices and sessions of a date. Whoever points at it
// reads what they are.
func (s *strip) date(m *markup, d calendar.Date, x, floor int) {
	t := s.b.at(d)
	m.open("g", "class", "date", "data-date", d.String())
	if rows := s.b.dateRows(d); len(rows) > 0 {
		m.el("title", say.DayYear(d)+": "+strings.Join(rows, "; "))
	} else {
		m.el("title", say.DayYear(d)+": nothing")
	}
	m.rect("hit", box{x, stripTop, stripDay, floor - stripTop})
	y := stripHead
	for _, g := range t.games {
		if !g.Active() {
			continue
		}
		m.open("g", "class", "event", "data-event", g.ID)
		m.gameMark(g, x+stripDay/2, y, stripLine)
		m.close("g")
		y = max(y-headStep, stripTop+5)
	}
	for _, e := range t.events {
		if e.Kind != calendar.Practice && e.Kind != calendar.Skills {
			continue
		}
		if first, _ := s.b.dates(e); first != d {
			continue
		}
		if e.Hard {
			m.rect("ink", box{x + stripDay/2 - 2, stripLine - 7, 4, 4})
		} else {
			m.rect("ink", box{x + stripDay/2 - 1, stripLine - 6, 2, 3})
		}
	}
	y = stripHang
	for _, p := range t.sessions {
		m.open("g", "class", "session", "data-session", p.ID)
		r := box{x + 2, y, stripDay - 4, depth(p)}
		m.sessionMark(p.Kind, r)
		switch stateWord(p.State) {
		case "done":
			m.path("tick", "M"+itoa(r.x+1)+" "+itoa(r.y+r.h+4)+"l2 2l4 -4")
		case "modified":
			m.path("tick", "M"+itoa(r.x)+" "+itoa(r.y+r.h+4)+"q2 -3 4 0t4 0")
		}
		m.close("g")
		y += r.h + 3
	}
	m.close("g")
}

// now draws the line that parts what is past from what is to come.
func (s *strip) now(m *markup, p piece) {
	d := s.b.today
	if d.IsZero() || d.Before(p.from) || d.After(p.to) || d.After(s.b.plan.Period.To) {
		return
	}
	day := s.b.zone.DaySpan(d)
	part := int(int64(stripDay) * int64(s.b.plan.Now.Sub(day.Start)/time.Minute) / max(1, int64(day.Duration()/time.Minute)))
	x := stripEdge + d.DaysSince(p.from)*stripDay + part
	m.path("now", "M"+itoa(x)+" "+itoa(stripTop)+"V"+itoa(p.floor)+"M"+itoa(x-4)+" "+itoa(stripTop)+"h8")
	m.el("text", "now", "x", itoa(min(x+4, stripWide-20)), "y", itoa(stripTop+9), "class", "strong")
}

// text is a line a week: letters for what each date holds.
func (s *strip) text(l *say.Page) {
	const cell, left = 5, 16
	head := say.Pad("", left)
	start := s.pieces[0].from
	last := calendar.Earlier(s.pieces[len(s.pieces)-1].to, s.b.plan.Period.To)
	for i := range 7 {
		head += say.Pad(say.Weekday(start.AddDays(i))[:2], cell)
	}
	l.Line(head)
	for from := start; !from.After(last); from = from.AddDays(7) {
		to := from.AddDays(6)
		line := say.Pad(say.Between(calendar.Later(from, s.b.plan.Period.From), calendar.Earlier(to, s.b.plan.Period.To)), left)
		for d := from; !d.After(to); d = d.AddDays(1) {
			line += say.Pad(s.letters(d), cell)
		}
		var words []string
		for _, h := range s.shades {
			if !h.to.Before(from) && !h.from.After(to) {
				words = append(words, h.word)
			}
		}
		if !s.b.today.IsZero() && !s.b.today.Before(from) && !s.b.today.After(to) {
			words = append(words, "now "+say.Weekday(s.b.today))
		}
		l.Hang(line, strings.Join(words, ", "))
	}
}

func (s *strip) letters(d calendar.Date) string {
	if !s.b.plan.Period.Contains(d) {
		return ""
	}
	t, out := s.b.at(d), ""
	for _, g := range t.games {
		switch {
		case !g.Active():
		case g.Status == calendar.Provisional || g.Status == calendar.IfNecessary:
			out += "g"
		default:
			out += "G"
		}
	}
	for _, p := range t.sessions {
		out += kindLetter(p.Kind)
	}
	for _, e := range t.events {
		if first, _ := s.b.dates(e); first == d && (e.Kind == calendar.Practice || e.Kind == calendar.Skills) {
			out += "p"
		}
	}
	if out == "" {
		return "-"
	}
	return say.Clip(out, 4)
}

// dateTable lists the dates of the period that hold anything.
func (b *Book) dateTable(from, to calendar.Date) table {
	t := table{caption: "Games and sessions by date", head: []string{"Date", "What"}}
	for d := calendar.Later(from, b.plan.Period.From); !d.After(calendar.Earlier(to, b.plan.Period.To)); d = d.AddDays(1) {
		if rows := b.dateRows(d); len(rows) > 0 {
			t.rows = append(t.rows, []string{say.DayYear(d), strings.Join(rows, "; ")})
		}
	}
	return t
}

// dateRows is what a date holds, in order of time, for a table or a title.
func (b *Book) dateRows(d calendar.Date) (out []string) {
	for _, x := range b.items(d) {
		out = append(out, strings.Join(strings.Fields(fmt.Sprintf("%s %s %s", x.when, x.what, x.note)), " "))
	}
	return out
}
