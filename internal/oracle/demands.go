package oracle

import (
	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// past writes a log of the week before the period, and now and then of its first
// dates too, with now behind them.
func (m *maker) past() {
	lived := 0
	if m.Odds(4) {
		lived = m.Int(1, min(7, m.o.Days-1))
	}
	d := m.from.AddDays(-7)
	end := m.from.AddDays(lived)
	for d = d.AddDays(m.Int(0, 4)); d.Before(end); d = d.AddDays(m.Int(1, 3)) {
		m.n++
		l := season.Done{ID: pick(m.Source, "l", "m") + d.String(), Kind: pick(m.Source, season.FullBody, season.Recovery, season.Primer, season.Trimmed),
			Start: calendar.Wall{Date: d, Clock: at(pick(m.Source, 17*60, 10*60, 18*60+25))}, Missed: m.Odds(8)}
		if m.zone.Resolve(l.Start).Fit == calendar.Exact {
			m.req.Log = append(m.req.Log, l)
		}
	}
	if lived > 0 {
		m.req.Now = m.zone.DayStart(end)
	}
}

func (m *maker) pins() {
	used := map[calendar.Date]bool{}
	for range pick(m.Source, 0, 0, 1, 2, 3, 4) {
		d := m.from.AddDays(m.Int(0, m.o.Days-1))
		if used[d] || !m.req.Now.IsZero() && d.DayNumber() < m.from.DayNumber()+7 {
			continue
		}
		used[d] = true
		p := season.Pin{Date: d}
		switch m.Int(0, 3) {
		case 0:
			p.None = true
		case 1:
			p.Kind = m.kind()
		default:
			c := at(pick(m.Source, 17*60, 10*60, 18*60, 7*60+30))
			p.Kind, p.Start = m.kind(), &c
		}
		m.req.Pins = append(m.req.Pins, p)
	}
}

func (m *maker) kind() season.Kind {
	return pick(m.Source, season.FullBody, season.Trimmed, season.Primer, season.Recovery, season.Eccentric)
}

// holds: one without clearance, late in the period.
func (m *maker) holds() {
	if m.Odds(10) {
		m.req.Athlete.Holds = append(m.req.Athlete.Holds, season.Hold{From: m.from.AddDays(m.Int(m.o.Days/2, m.o.Days-1))})
	}
}

func (m *maker) override(id string) *season.Override {
	for i := range m.req.Rules {
		if m.req.Rules[i].Rule == id {
			return &m.req.Rules[i]
		}
	}
	m.req.Rules = append(m.req.Rules, season.Override{Rule: id})
	return &m.req.Rules[len(m.req.Rules)-1]
}

// points sets what the optional aims cost, and under stress what all do.
func (m *maker) points() {
	give := func(id string, points int) { m.override(id).Points = &points }
	if m.o.Load {
		give("week-load", 4)
		give("load-ramp", 3)
	}
	if m.o.Rolling {
		give("rolling-count", 3)
		give("rolling-load", 2)
	}
	if !m.o.Stress {
		return
	}
	for _, r := range rule.Table() {
		if r.Kind != rule.Aim || r.Points == 0 {
			continue
		}
		give(r.ID, pick(m.Source, 0, 1, m.Int(1, 9), m.Int(1, 99), m.Int(1, 999), m.Int(1, rule.HighestPoints)))
	}
}

// values changes a number of a rule now and then.
func (m *maker) values() {
	give := func(id string, value int) { m.override(id).Value = &value }
	if m.Odds(6) {
		give("heavy-gap", pick(m.Source, 44, 60, 72, 90))
	}
	if m.Odds(6) {
		give("empty-run", pick(m.Source, 1, 2, 4, 5))
	}
	if m.Odds(6) {
		give("lift-run", pick(m.Source, 1, 2, 5))
	}
	if m.Odds(6) {
		give("lifts-in-7", pick(m.Source, 2, 4))
	}
	if m.Odds(6) {
		give("recovery-least", pick(m.Source, 0, 1, 3))
	}
	if m.Odds(6) {
		give("break-session", pick(m.Source, 1, 2, 4))
	}
	if m.Odds(8) {
		give("week-start", pick(m.Source, 0, 3, 6))
	}
	if m.Odds(8) {
		give("exam-count", pick(m.Source, 0, 1))
	}
	if m.o.Load && m.Odds(4) {
		give("week-load-least", pick(m.Source, 300, 700))
		give("load-ramp", pick(m.Source, 0, 150, 420))
	}
	if m.o.Rolling && m.Odds(2) {
		give("rolling-count", pick(m.Source, 2, 3, 4))
		give("rolling-load", pick(m.Source, 300, 450, 600))
	}
}
