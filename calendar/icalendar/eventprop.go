package icalendar

import (
	"fmt"
	"strconv"
	"strings"

	"example.org/weft/calendar"
)

// once marks a property that may come once; of several the first is used, as by
// other readers.
func (p *parser) once(bit uint32, pr *property) bool {
	if p.cur.seen&bit != 0 {
		p.rep.ask(CodeTwice, pr.line, pr.name, pr.value, fmt.Sprintf("a second %s in the VEVENT of line %d; the first is used", pr.name, p.cur.line), "remove one of them")
		return false
	}
	p.cur.seen |= bit
	return true
}

const remedyTime = "write 20261108T140000 with a TZID, 20261108T190000Z, or 20261108 with VALUE=DATE"

func (p *parser) eventProperty(pr *property) {
	d := p.cur
	switch pr.name {
	case "UID":
		if p.once(onceUID, pr) {
			d.uid = p.uid(pr)
		}
	case "DTSTART":
		if p.once(onceStart, pr) {
			d.start, _ = p.moment(pr, pr.value)
		}
	case "DTEND":
		if p.once(onceEnd, pr) {
			d.end, _ = p.moment(pr, pr.value)
		}
	case "DURATION":
		if p.once(onceDuration, pr) {
			p.eventDuration(pr)
		}
	case "RECURRENCE-ID":
		if p.once(onceRecurID, pr) {
			d.more().recurID, _ = p.moment(pr, pr.value)
			switch r := strings.TrimSpace(upper(pr.get("RANGE"))); r {
			case "":
			case "THISANDFUTURE":
				d.future = true
			default:
				p.rep.ask(CodeValue, pr.line, pr.name, r, "a RANGE that is not known; only this occurrence is changed", "use THISANDFUTURE, or export each changed event on its own")
			}
		}
	case "RRULE", "EXRULE":
		p.eventRule(pr)
	case "RDATE":
		p.eventRDate(pr)
	case "EXDATE":
		s := d.more()
		for _, v := range p.list(pr) {
			if m, ok := p.moment(pr, v); ok {
				s.exdates = append(s.exdates, m)
			}
		}
	case "SUMMARY":
		if d.seen&onceSummary != 0 {
			p.rep.warn(CodeTwice, pr.line, pr.name, pr.value, "a second SUMMARY; the first is used", "remove one of them")
			return
		}
		d.seen |= onceSummary
		d.summary = unescapeText(pr.value)
	case "STATUS":
		if p.once(onceStatus, pr) {
			p.eventStatus(pr)
		}
	case "SEQUENCE":
		if p.once(onceSequence, pr) {
			n, err := strconv.ParseInt(strings.TrimSpace(pr.value), 10, 32)
			if err != nil || n < 0 {
				p.rep.warn(CodeValue, pr.line, pr.name, pr.value, "not a whole number from 0; it counts as 0", "write 0, 1, 2, ...")
				return
			}
			d.seq = int(n)
		}
	case "DTSTAMP":
		// Only an order among versions of the event: a bad one is none.
		if m, err := parseMoment(pr.value); err == nil {
			d.stamp = m.local
		}
	case "CATEGORIES":
		p.eventCategories(pr)
	case "X-MICROSOFT-CDO-ALLDAYEVENT":
		d.allDay = strings.EqualFold(strings.TrimSpace(pr.value), "TRUE")
	case "METHOD", "TZID":
		p.rep.warn(CodeStructure, pr.line, pr.name, pr.value, "it says nothing of an event; the line is left out", "remove it, or give it its place in the calendar")
	default:
		if dropped[pr.name] {
			return
		}
		p.keep(pr)
	}
}

func (p *parser) uid(pr *property) string {
	uid := strings.TrimSpace(unescapeText(pr.value))
	if strings.IndexFunc(uid, isControl) >= 0 {
		p.rep.warn(CodeControl, pr.line, pr.name, uid, "line breaks were left out", "use printable text as UID")
		uid = strings.TrimSpace(strings.Map(func(r rune) rune {
			if isControl(r) {
				return -1
			}
			return r
		}, uid))
	}
	return uid
}

// keep adds a property to those that are kept as they are.
func (p *parser) keep(pr *property) {
	d := p.cur
	if len(d.unknown) >= p.lim.Properties {
		if len(d.unknown) == p.lim.Properties {
			p.rep.warn(CodeLimit, pr.line, pr.name, "", fmt.Sprintf("more than %d other properties in one event; the rest is left out", p.lim.Properties), "remove them, or raise the limit on properties")
			d.unknown = append(d.unknown, calendar.Property{})
		}
		return
	}
	was := p.kept
	p.kept++
	for i := range pr.params {
		p.kept += len(pr.params[i].values)
	}
	if p.kept > p.lim.Kept {
		if was <= p.lim.Kept {
			p.rep.warn(CodeLimit, pr.line, pr.name, "", fmt.Sprintf("more than %d other properties and parameters in the file; the rest is left out", p.lim.Kept), "split the file, or raise the limit on kept properties")
		}
		return
	}
	k := calendar.Property{Name: p.name(pr.name), Value: pr.value}
	if len(pr.params) > 0 {
		k.Params = make([]calendar.Param, 0, len(pr.params))
		for _, q := range pr.params {
			k.Params = append(k.Params, calendar.Param{Name: p.name(q.name), Values: q.values})
		}
	}
	d.unknown = append(d.unknown, k)
}

// name returns one copy of each property or parameter name, so that a kept name
// does not keep its line in memory.
func (p *parser) name(s string) string {
	if v, ok := p.intern[s]; ok {
		return v
	}
	s = strings.Clone(s)
	if p.intern == nil {
		p.intern = map[string]string{}
	}
	if len(p.intern) < 1000 {
		p.intern[s] = s
	}
	return s
}

func (p *parser) eventStatus(pr *property) {
	switch v := strings.TrimSpace(upper(pr.value)); v {
	case "CONFIRMED":
		p.cur.status = calendar.Confirmed
	case "TENTATIVE":
		p.cur.status = calendar.Provisional
	case "CANCELLED", "CANCELED":
		p.cur.status = calendar.Cancelled
	default:
		p.rep.warn(CodeValue, pr.line, pr.name, v, "unknown status; the event counts as confirmed", "use CONFIRMED, TENTATIVE or CANCELLED")
	}
}

// eventCategories takes the kind from the list and keeps the rest of it.
func (p *parser) eventCategories(pr *property) {
	d := p.cur
	parts := rawList(pr.value)
	rest := parts[:0]
	for _, c := range parts {
		k := calendar.Kind(strings.ToLower(strings.TrimSpace(unescapeText(c))))
		switch {
		case !k.Known():
			rest = append(rest, c)
		case d.kind == "":
			d.kind = k
		case d.kind != k:
			p.rep.warn(CodeTwice, pr.line, pr.name, string(k), fmt.Sprintf("a second kind of event; it stays a %s", d.kind), "give one kind")
			rest = append(rest, c)
		}
	}
	if v := strings.Join(rest, ","); strings.TrimSpace(v) != "" {
		pr.value = v
		p.keep(pr)
	}
}

// rawList splits at unescaped commas and leaves the escapes.
func rawList(s string) []string {
	var out []string
	from := 0
	for i := 0; i < len(s); i++ {
		switch s[i] {
		case '\\':
			i++
		case ',':
			out = append(out, s[from:i])
			from = i + 1
		}
	}
	return append(out, s[from:])
}

func (p *parser) eventDuration(pr *property) {
	v, err := parseDuration(pr.value)
	switch {
	case err != nil:
		p.rep.ask(CodeValue, pr.line, pr.name, pr.value, err.Error()+"; "+noEnd, "write for example PT2H, PT1H30M, P1D or P1W")
	case v.negative():
		p.rep.ask(CodeValue, pr.line, pr.name, pr.value, "an event cannot last less than nothing; "+noEnd, "give a duration above 0")
	default:
		p.cur.dur, p.cur.durLine = v, int32(pr.line)
	}
}

func (p *parser) eventRule(pr *property) {
	const remedy = "write for example FREQ=WEEKLY;BYDAY=TU,TH;COUNT=20, or export the dates one by one"
	s := p.cur.more()
	if len(s.rules)+len(s.exRules) >= maxRules {
		p.rep.ask(CodeLimit, pr.line, pr.name, "", fmt.Sprintf("more than %d rules in one event; the rest is left out", maxRules), "write one rule for an event")
		return
	}
	r, err := parseRule(pr.value)
	if err != nil {
		what := "; the event does not repeat by it"
		if pr.name == "EXRULE" {
			what = "; it takes nothing away"
		}
		p.rep.ask(CodeRule, pr.line, pr.name, pr.value, err.Error()+what, remedy)
		return
	}
	r.line = pr.line
	if len(r.notes) > 0 {
		p.rep.ask(CodeRule, pr.line, pr.name, pr.value, strings.Join(r.notes, "; "), remedy)
		r.notes = nil
	}
	if r.count > 0 && r.hasUntil {
		p.rep.warn(CodeRule, pr.line, pr.name, pr.value, "COUNT and UNTIL in one rule; the one that ends it first holds", "remove one of them")
	}
	if pr.name == "RRULE" {
		s.rules = append(s.rules, r)
	} else {
		s.exRules = append(s.exRules, r)
	}
}

// maxRules bounds the rules of one event.
const maxRules = 20

func (p *parser) eventRDate(pr *property) {
	for _, v := range p.list(pr) {
		first, second, isPeriod := strings.Cut(v, "/")
		m, ok := p.moment(pr, first)
		if !ok {
			continue
		}
		out := period{moment: m}
		if isPeriod {
			if strings.HasPrefix(strings.TrimSpace(second), "P") {
				dur, err := parseDuration(second)
				if err != nil || dur.negative() {
					p.unread(CodeValue, pr, v, "the period has no right duration", "write start/PT2H")
					continue
				}
				out.dur, out.hasDur = dur, true
			} else if out.end, ok = p.moment(pr, second); !ok {
				continue
			}
			if m.isDate() || out.end.isDate() {
				p.unread(CodeValue, pr, v, "a period goes from a time to a time", "write 20261108T140000/PT2H")
				continue
			}
		}
		s := p.cur.more()
		s.rdates = append(s.rdates, out)
	}
}

// list splits a comma-separated list and counts its entries against the limit.
func (p *parser) list(pr *property) []string {
	n := strings.Count(pr.value, ",") + 1
	if p.dates += n; p.dates > p.lim.Dates {
		if p.dates-n <= p.lim.Dates {
			p.rep.fail(CodeLimit, pr.line, pr.name, "", fmt.Sprintf("more than %d dates in RDATE and EXDATE", p.lim.Dates), "split the file, or raise the limit on dates")
		}
		return nil
	}
	return strings.Split(pr.value, ",")
}

// finishEvent checks what can be known without zones. An event with an error is
// not looked at again: its start is unset.
func (p *parser) finishEvent() {
	d := p.cur
	if len(d.unknown) > p.lim.Properties {
		d.unknown = d.unknown[:p.lim.Properties]
	}
	switch {
	case d.lost:
		d.start = moment{}
		p.left++
	case d.seen&onceStart == 0:
		p.rep.ask(CodeMissing, int(d.line), "DTSTART", "", "the event has no start; it is left out", "add DTSTART")
	}
	if d.start.form != formNone {
		p.farEvent(d)
	}
	if d.start.form == formNone {
		return // reported
	}
	if d.seen&onceEnd != 0 && d.durLine != 0 {
		p.rep.warn(CodeTwice, int(d.durLine), "DURATION", "", "DTEND and DURATION in one event; DTEND is used", "remove one of them")
		d.dur, d.durLine = duration{}, 0
	}
	if d.allDay {
		p.markedAllDay(d)
	}
	p.endFits(d)
}

// endFits takes away an end that does not go with the start.
func (p *parser) endFits(d *draft) {
	switch {
	case d.end.form != formNone && d.end.isDate() != d.start.isDate():
		p.rep.ask(CodeEnd, int(d.end.line), "DTEND", "", "start and end are not both dates or both times; "+noEnd, "write both in the same way")
		d.end = moment{}
	case d.start.isDate() && d.dur.seconds != 0:
		p.rep.ask(CodeEnd, int(d.durLine), "DURATION", "", "an event of whole days lasts whole days; it takes one day", "write for example P1D")
		d.dur, d.durLine = duration{}, 0
	case !d.start.isDate() || d.end.form == formNone || d.end.local > d.start.local:
	case d.end.local < d.start.local:
		p.rep.ask(CodeEnd, int(d.end.line), "DTEND", "", "the event ends before it starts; it takes one day", "correct DTSTART or DTEND")
		d.end = moment{}
	default:
		p.rep.warn(CodeEnd, int(d.end.line), "DTEND", "", "the event ends when it starts; it takes that one day", "write the first day that is free again")
		d.end = moment{}
	}
}

// markedAllDay turns midnight to midnight into dates where the event says that
// this is meant.
func (p *parser) markedAllDay(d *draft) {
	midnight := func(m moment) bool { return m.local == floorDay(m.local)*daySeconds }
	if d.start.isDate() || d.start.form == formUTC || d.end.form == formUTC || !midnight(d.start) || !midnight(d.end) || d.dur.seconds%daySeconds != 0 || d.repeats() || d.isOverride() {
		return
	}
	d.start.form = formDate
	if d.end.form != formNone {
		d.end.form = formDate
	}
	d.dur = duration{days: d.dur.days + int(d.dur.seconds/daySeconds)}
}
