package icalendar

import (
	"fmt"
	"strings"

	"example.org/weft/calendar"
)

// noEnd is what becomes of an event whose end cannot be right.
const noEnd = "it counts as an event without an end"

// moment reads one date or time with the TZID of its property. An end that cannot
// be read is none.
func (p *parser) moment(pr *property, v string) (moment, bool) {
	bad := func(reason string) (moment, bool) {
		if pr.name == "DTEND" {
			p.rep.ask(CodeValue, pr.line, pr.name, v, reason+"; "+noEnd, remedyTime)
		} else {
			p.rep.fail(CodeValue, pr.line, pr.name, v, reason, remedyTime)
		}
		return moment{}, false
	}
	m, err := parseMoment(v)
	if err != nil {
		return bad(err.Error())
	}
	m.line = int32(pr.line)
	if strings.EqualFold(pr.get("VALUE"), "DATE") && !m.isDate() {
		return bad("VALUE=DATE with a time")
	}
	if y, _, _ := ymd(int(floorDay(m.local))); y < calendar.FirstYear || y > calendar.LastYear {
		return p.farYear(pr, v)
	}
	if m.form == formFloating {
		if id := strings.TrimSpace(pr.get("TZID")); id != "" {
			z, ok := p.zoneIndex(id, pr)
			if !ok {
				return moment{}, false
			}
			m.form, m.zone = formZoned, z
		}
	}
	return m, true
}

// farYear: what lies outside the years that calendar knows is left out, since no
// season reaches there.
func (p *parser) farYear(pr *property, v string) (moment, bool) {
	reason := fmt.Sprintf("the year is outside %d to %d", calendar.FirstYear, calendar.LastYear)
	switch pr.name {
	case "DTSTART":
		p.rep.warn(CodeValue, pr.line, pr.name, v, reason+"; the event is left out", "correct the year")
	case "DTEND":
		p.rep.ask(CodeValue, pr.line, pr.name, v, reason+"; "+noEnd, "correct the year")
	case "RDATE", "EXDATE":
		p.rep.warn(CodeValue, pr.line, pr.name, v, reason+"; the date is left out", "correct the year")
	default:
		p.rep.fail(CodeValue, pr.line, pr.name, v, reason, "correct the year")
	}
	return moment{}, false
}

func floorDay(local int64) int64 {
	d, _ := splitLocal(local)
	return int64(d)
}
