package icalendar

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.org/weft/calendar"
)

// Read reads a calendar. The name stands in the path of each problem, as in
// "club.ics:120", and with the line of its component in Event.Source.
//
// Problems come sorted by line, errors and warnings together; if one of them is
// of class error, the result has no events. The error is that of the reader r
// alone. Read keeps no state and reads no clock: the same bytes and options give
// the same result.
//
// Time and memory grow with the size of the input and with the occurrences asked
// for, both within opt.Limits.
func Read(r io.Reader, name string, opt Options) (Result, []calendar.Problem, error) {
	lim := opt.Limits.settled()
	p := &parser{
		sc:    newScanner(r, lim.Bytes, lim.Line),
		opt:   opt,
		lim:   lim,
		rep:   report{name: name, limit: lim.Problems},
		zones: zoneTable{index: map[zoneKey]int32{}},
		meter: meter{limit: lim.Work},
		bare:  -1,
	}
	p.checkOptions()
	p.file()
	res := Result{Name: p.calName, Method: p.firstMethod, Bytes: p.sc.total, Lines: p.sc.line - 1}
	if p.sc.err != nil {
		return res, p.rep.done(), fmt.Errorf("icalendar: reading %s: %w", calendar.Inert(name), p.sc.err)
	}
	res.Events = p.assemble()
	res.Work = p.meter.used
	if p.rep.failed() {
		res.Events = nil
	}
	return res, p.rep.done(), nil
}

type component uint8

const (
	compSkip component = iota
	compCalendar
	compEvent
	compZone
	compObservance
)

type frame struct {
	kind  component
	name  string
	line  int
	draft int32 // of an event
	cal   int32 // that is current again when a calendar is closed
}

type parser struct {
	sc    *scanner
	opt   Options
	lim   Limits
	rep   report
	meter meter

	stack      []frame
	components int
	events     int
	dates      int
	kept       int
	last       int // line last read
	left       int // events left out, because their start cannot be read
	anyCal     bool
	bare       int32 // the calendar of events outside any, -1 for none
	cal        int32 // the open calendar, in cals
	junk       bool  // text outside a calendar was seen
	cals       []calInfo
	drafts     []draft
	zones      zoneTable
	intern     map[string]string

	cur *draft      // the open VEVENT
	def *definition // the open VTIMEZONE
	obs *observance // the open STANDARD or DAYLIGHT

	held   property // waits for raw lines that belong to its value
	isHeld bool
	extra  []byte
	rawAt  int
	rawN   int

	calName, firstMethod string
}

// calInfo is what a VCALENDAR says about its events.
type calInfo struct {
	method   string
	zoneName string // X-WR-TIMEZONE
	zoneLine int
	homeDone bool
	homeZone calendar.Zone // that of zoneName, once it is known
	ownDone  bool
	ownZone  calendar.Zone // see parser.ownZone
}

func (p *parser) checkOptions() {
	from, to := p.opt.From, p.opt.To
	if from.IsZero() != to.IsZero() || !from.IsZero() && to.Before(from) {
		p.rep.fail(CodeOptions, 0, "From, To", from.String()+" to "+to.String(), "not a span of dates", "give both, the earlier one first, or neither")
	}
	if k := p.opt.DefaultKind; k != "" && !k.Known() {
		p.rep.fail(CodeOptions, 0, "DefaultKind", string(k), "unknown kind of event", "use game, practice, skills, travel, exam, closure or busy")
	}
}

// file reads all lines.
func (p *parser) file() {
	for {
		text, line, ok := p.sc.next()
		if !ok {
			break
		}
		p.last = line
		if p.inSkipped() && !bracket(text) {
			continue
		}
		if !p.line(text, line) {
			return
		}
	}
	p.flush()
	switch {
	case p.sc.err != nil:
		return
	case p.sc.tooBig:
		p.rep.fail(CodeLimit, p.sc.line, "", "", fmt.Sprintf("the file is larger than %d bytes", p.lim.Bytes), "split it, or raise the limit on bytes")
		return
	}
	for i := len(p.stack) - 1; i >= 0; i-- {
		f := p.stack[i]
		p.rep.fail(CodeTruncated, p.last, "END", f.name, fmt.Sprintf("the file ends inside %s, which begins on line %d", f.name, f.line), "fetch the file again: it is not whole")
	}
	if !p.anyCal {
		p.rep.fail(CodeNotCalendar, 1, "", "", "no BEGIN:VCALENDAR: this is not an iCalendar file", "export the calendar as .ics (iCalendar, UTF-8)")
	}
}

func (p *parser) inSkipped() bool {
	return len(p.stack) > 0 && p.stack[len(p.stack)-1].kind == compSkip
}

// bracket tells the lines that matter inside a component that is passed over.
func bracket(b []byte) bool {
	return len(b) >= 4 && (b[0]|0x20 == 'b' && b[1]|0x20 == 'e' || b[0]|0x20 == 'e' && b[1]|0x20 == 'n')
}

// line handles one content line; false ends the reading.
func (p *parser) line(text []byte, line int) bool {
	raw, notUTF8, control := cleanText(text)
	if line == 1 && len(text) >= 2 && (string(text[:2]) == "\xff\xfe" || string(text[:2]) == "\xfe\xff") {
		p.rep.fail(CodeEncoding, line, "", "", "the file is UTF-16", "save it as UTF-8")
		return false
	}
	n := nameEnd(raw)
	if rawLine(raw, n) {
		p.raw(raw, line)
		return true
	}
	p.flush()
	if notUTF8 {
		p.rep.warn(CodeEncoding, line, "", raw, "bytes that are not UTF-8 were replaced by U+FFFD", "save the file as UTF-8")
	}
	if control {
		p.rep.warn(CodeControl, line, "", raw, "control characters were left out", "remove them at the source")
	}
	pr := &p.held
	pr.line, pr.long = line, p.sc.truncated
	if err := pr.parse(raw, n, p.lim.Params); err != nil {
		p.malformed(pr, raw, err)
		return true
	}
	switch pr.name {
	case "BEGIN":
		return p.begin(strings.TrimSpace(upper(pr.value)), line)
	case "END":
		p.end(strings.TrimSpace(upper(pr.value)), line)
		return true
	}
	p.isHeld, p.extra, p.rawN = true, p.extra[:0], 0
	return true
}

// malformed reports a line that has not the shape of a property. What it would
// have said is missing, as if its value could not be read.
func (p *parser) malformed(pr *property, raw string, err error) {
	reason, remedy := err.Error(), "write NAME;PARAMETER=value:value"
	if err == errParamCount {
		reason, remedy = fmt.Sprintf("more than %d parameters", p.lim.Params), "remove them, or raise the limit on parameters"
	}
	p.lostLine(CodeLine, pr, raw, reason, remedy)
}

// lostLine reports a line that is not used, by what it is needed for.
func (p *parser) lostLine(code string, pr *property, value, reason, remedy string) {
	switch top := p.top(); {
	case pr.name == "BEGIN" || pr.name == "END":
		p.rep.fail(code, pr.line, pr.name, value, reason, remedy)
	case top == compEvent && needed[pr.name]:
		p.unread(code, pr, value, reason, remedy)
	case top == compZone, top == compObservance:
		p.def.broken(pr.line, pr.name, value, reason)
	case code != CodeLimit || !dropped[pr.name]:
		p.rep.warn(code, pr.line, pr.name, value, reason+"; the line is left out", remedy)
	}
}

// raw joins a line without a property name to the value before it.
func (p *parser) raw(raw string, line int) {
	if len(p.stack) == 0 {
		p.outside(raw, line)
		return
	}
	if p.inSkipped() {
		return
	}
	if !p.isHeld || !isText(p.held.name) || p.top() != compEvent {
		p.rep.warn(CodeRawLine, line, "", raw, "not a property, and no text before it to belong to; the line is left out", "remove the line, or write line breaks in a text as \\n")
		return
	}
	if p.rawN == 0 {
		p.rawAt = line
	}
	p.rawN++
	if p.held.long || len(p.held.value)+len(p.extra)+len(raw)+2 > p.lim.Line {
		p.held.long = true
		return
	}
	p.extra = append(append(p.extra, '\\', 'n'), raw...)
}

// outside warns, once, of text that is in no calendar.
func (p *parser) outside(raw string, line int) {
	if !p.junk {
		p.junk = true
		p.rep.warn(CodeStructure, line, "", raw, "text outside VCALENDAR is left out", "remove it")
	}
}

// flush handles the property that waited for raw lines.
func (p *parser) flush() {
	if !p.isHeld {
		return
	}
	p.isHeld = false
	if p.rawN > 0 {
		p.held.value += string(p.extra)
		p.rep.warn(CodeRawLine, p.rawAt, p.held.name, "", fmt.Sprintf("%d raw line(s) joined to %s of line %d", p.rawN, p.held.name, p.held.line), "write line breaks in a text as \\n")
	}
	pr, top := &p.held, p.top()
	if top == compSkip && len(p.stack) > 0 {
		return
	}
	if pr.long {
		p.lostLine(CodeLimit, pr, pr.value, fmt.Sprintf("the line is longer than %d bytes", p.lim.Line), "shorten it, or raise the limit on lines")
		return
	}
	switch top {
	case compEvent:
		p.eventProperty(pr)
	case compObservance:
		p.observanceProperty(pr)
	case compZone:
		if pr.name == "TZID" {
			p.def.id = strings.TrimSpace(unescapeText(pr.value))
		}
	case compCalendar:
		p.calendarProperty(pr)
	default:
		if len(p.stack) == 0 {
			p.outside(pr.name, pr.line)
		}
	}
}

func (p *parser) calendarProperty(pr *property) {
	c := &p.cals[p.cal]
	switch pr.name {
	case "METHOD":
		c.method = strings.TrimSpace(upper(pr.value))
		if p.firstMethod == "" {
			p.firstMethod = c.method
		}
	case "X-WR-TIMEZONE":
		c.zoneName, c.zoneLine = strings.TrimSpace(unescapeText(pr.value)), pr.line
	case "X-WR-CALNAME", "NAME":
		if p.calName == "" {
			p.calName = unescapeText(pr.value)
		}
	case "CALSCALE":
		if v := strings.TrimSpace(pr.value); !strings.EqualFold(v, "GREGORIAN") {
			p.rep.ask(CodeValue, pr.line, pr.name, v, "only the Gregorian calendar is known; dates are read as Gregorian", "export the calendar with Gregorian dates")
		}
	}
}

// begin opens a component; false ends the reading.
func (p *parser) begin(name string, line int) bool {
	if len(p.stack) >= p.lim.Depth {
		p.rep.fail(CodeLimit, line, "BEGIN", name, fmt.Sprintf("more than %d components inside each other", p.lim.Depth), "check the file: no calendar program writes this")
		return false
	}
	if p.components++; p.components > p.lim.Components {
		p.rep.fail(CodeLimit, line, "BEGIN", name, fmt.Sprintf("more than %d components", p.lim.Components), "split the file, or raise the limit on components")
		return false
	}
	f := frame{kind: compSkip, name: name, line: line, cal: p.cal}
	switch parent := p.top(); {
	case name == "VCALENDAR":
		f.kind, p.anyCal = compCalendar, true
		p.inside(name, line)
		p.newCalendar()
	case name == "VEVENT":
		if p.events++; p.events > p.lim.Events {
			p.rep.fail(CodeLimit, line, "BEGIN", name, fmt.Sprintf("more than %d events", p.lim.Events), "split the file, or raise the limit on events")
			return false
		}
		f.kind, f.draft = compEvent, int32(len(p.drafts))
		if !slices.ContainsFunc(p.stack, func(f frame) bool { return f.kind == compCalendar }) {
			p.bareEvent(line)
		}
		p.inside(name, line)
		p.drafts = append(p.drafts, draft{line: int32(line), cal: p.cal})
		p.cur = &p.drafts[f.draft]
	case parent == compCalendar && name == "VTIMEZONE":
		f.kind = compZone
		p.def = &definition{line: line}
	case parent == compZone && (name == "STANDARD" || name == "DAYLIGHT"):
		f.kind = compObservance
		p.obs = &observance{line: line, dst: name == "DAYLIGHT"}
	case len(p.stack) == 0:
		p.rep.warn(CodeStructure, line, "BEGIN", name, "a component outside VCALENDAR is left out", "put it between BEGIN:VCALENDAR and END:VCALENDAR")
	}
	p.stack = append(p.stack, f)
	return true
}

// inside warns of a calendar or an event that begins inside another component
// than a calendar: mostly one whose end is missing. It is read like any other, as
// other readers do.
func (p *parser) inside(name string, line int) {
	if len(p.stack) == 0 {
		return
	}
	f := p.stack[len(p.stack)-1]
	if f.kind == compCalendar && name == "VEVENT" {
		return
	}
	p.rep.warn(CodeStructure, line, "BEGIN", name, fmt.Sprintf("it begins inside the %s of line %d; both are read", clip(f.name), f.line), "close that one before it")
}

func (p *parser) newCalendar() {
	p.cal = int32(len(p.cals))
	p.cals = append(p.cals, calInfo{})
}

// bareEvent makes a calendar for events that stand in none.
func (p *parser) bareEvent(line int) {
	p.anyCal = true
	if p.bare >= 0 {
		p.cal = p.bare
		return
	}
	p.newCalendar()
	p.bare = p.cal
	p.rep.warn(CodeStructure, line, "BEGIN", "VEVENT", "an event outside VCALENDAR; it is read", "put it between BEGIN:VCALENDAR and END:VCALENDAR")
}

func (p *parser) end(name string, line int) {
	at := -1
	for i := len(p.stack) - 1; i >= 0; i-- {
		if p.stack[i].name == name {
			at = i
			break
		}
	}
	switch {
	case at >= 0:
	case len(p.stack) > 0 && !(components[name] && components[p.stack[len(p.stack)-1].name]):
		// A name that no component has, here or at its BEGIN, is a slip of the pen.
		at = len(p.stack) - 1
		p.rep.warn(CodeStructure, line, "END", name, fmt.Sprintf("nothing of this name is open; it closes the %s of line %d", clip(p.stack[at].name), p.stack[at].line), "write END:"+p.stack[at].name)
	default:
		p.rep.warn(CodeStructure, line, "END", name, "it closes nothing; the line is left out", "remove the line")
		return
	}
	for i := len(p.stack) - 1; i >= at; i-- {
		f := p.stack[i]
		if i > at {
			p.rep.ask(CodeStructure, line, "END", name, fmt.Sprintf("the %s of line %d is still open; it ends here", clip(f.name), f.line), "close it with END:"+f.name)
		}
		p.stack = p.stack[:i]
		p.close(f)
	}
}

// components are the names that an END may have without being a slip.
var components = map[string]bool{
	"VCALENDAR": true, "VEVENT": true, "VTODO": true, "VJOURNAL": true, "VFREEBUSY": true, "VTIMEZONE": true,
	"STANDARD": true, "DAYLIGHT": true, "VALARM": true, "VAVAILABILITY": true, "AVAILABLE": true,
	"PARTICIPANT": true, "VLOCATION": true, "VRESOURCE": true, "VCARD": true, "VPOLL": true, "VOTER": true,
}

// close finishes a component; the stack holds what is still open around it.
func (p *parser) close(f frame) {
	switch f.kind {
	case compCalendar:
		p.cal = f.cal
	case compEvent:
		p.finishEvent()
		p.cur = nil
		for i := len(p.stack) - 1; i >= 0 && p.cur == nil; i-- {
			if p.stack[i].kind == compEvent {
				p.cur = &p.drafts[p.stack[i].draft]
			}
		}
	case compObservance:
		p.finishObservance()
		p.obs = nil
	case compZone:
		p.finishDefinition()
		p.def = nil
	}
}

// top is the kind of the innermost open component.
func (p *parser) top() component {
	if len(p.stack) == 0 {
		return compSkip
	}
	return p.stack[len(p.stack)-1].kind
}
