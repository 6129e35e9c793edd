package icalendar

import (
	"fmt"
	"strings"

	"example.org/weft/calendar"
)

// noEnd is what becomes of an event whose end cannot be right.
const noEnd = "it counts as an event without an end"

// moment reads one date or time with the TZID of its property. What cannot be
// read is reported, with what becomes of it; see unread.
func (p *parser) moment(pr *property, v string) (moment, bool) {
	m, note, err := looseMoment(v)
	if err != nil {
		return moment{}, p.unread(CodeValue, pr, v, err.Error(), remedyTime)
	}
	m.line = int32(pr.line)
	if pr.name != "DTSTART" && pr.name != "DTEND" && isFar(m) { // of those, finishEvent knows more
		return p.farYear(pr, v)
	}
	if strings.EqualFold(pr.get("VALUE"), "DATE") && !m.isDate() {
		note = "VALUE=DATE with a time; the time counts"
		if m.form == formFloating && m.local == floorDay(m.local)*daySeconds {
			m.form, note = formDate, "VALUE=DATE with a time; the date counts"
		}
	}
	if note != "" {
		p.rep.ask(CodeValue, pr.line, pr.name, v, note, remedyTime)
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

// unread asks about a value that cannot be read and says what becomes of it: an
// event whose start is not known is left out, the others do without. It returns
// false.
func (p *parser) unread(code string, pr *property, v, reason, remedy string) bool {
	what := "it is left out"
	switch pr.name {
	case "DTSTART":
		what = "the event is left out"
		p.cur.lost = true
	case "RECURRENCE-ID":
		what = "the event stands by itself"
		p.cur.alone = true
	case "DTEND", "DURATION":
		what = noEnd
	case "RRULE":
		what = "the event does not repeat by it"
	case "EXRULE":
		what = "it takes nothing away"
	case "RDATE", "EXDATE":
		what = "the date is left out"
	}
	p.rep.ask(code, pr.line, pr.name, v, reason+"; "+what, remedy)
	return false
}

// isFar tells whether a moment lies outside the years that calendar knows.
func isFar(m moment) bool {
	y, _, _ := ymd(int(floorDay(m.local)))
	return y < calendar.FirstYear || y > calendar.LastYear
}

var yearsKnown = fmt.Sprintf("the year is outside %d to %d", calendar.FirstYear, calendar.LastYear)

// farYear: what lies outside the years that calendar knows is left out, since no
// season reaches there.
func (p *parser) farYear(pr *property, v string) (moment, bool) {
	if pr.name == "RDATE" || pr.name == "EXDATE" {
		p.rep.warn(CodeValue, pr.line, pr.name, v, yearsKnown+"; the date is left out", "correct the year")
		return moment{}, false
	}
	return moment{}, p.unread(CodeValue, pr, v, yearsKnown, "correct the year")
}

// farEvent settles an event that begins or ends in a far year. A series may begin
// there, such as the birthdays of a phone, which begin in 1604: what of it falls
// into the known years is read.
func (p *parser) farEvent(d *draft) {
	start := isFar(d.start)
	y, _, _ := ymd(int(floorDay(d.start.local)))
	switch early := y < calendar.FirstYear; {
	case start && !(early && d.repeats() && !d.isOverride()):
		p.rep.warn(CodeValue, int(d.start.line), "DTSTART", wallOf(d.start.local).String(), yearsKnown+"; the event is left out", "correct the year")
		d.start = moment{}
	case start, d.end.form == formNone, !isFar(d.end):
	default:
		p.rep.ask(CodeValue, int(d.end.line), "DTEND", wallOf(d.end.local).String(), yearsKnown+"; "+noEnd, "correct the year")
		d.end = moment{}
	}
}

func floorDay(local int64) int64 {
	d, _ := splitLocal(local)
	return int64(d)
}
