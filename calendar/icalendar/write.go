package icalendar

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/weft/calendar"
)

const productID = "-//weft//season//EN"

// Write writes a calendar: lines end with CRLF and are folded at 75 octets
// between runes, texts are escaped, control characters left out, and each zone
// comes with a VTIMEZONE that holds over the span of the entries. Entries are
// sorted by start and UID; the same entries give the same bytes.
//
// The error is a *WriteError with every problem, before anything is written, or
// that of the writer w.
func Write(w io.Writer, c Calendar) error {
	rs, problems := resolve(c.Entries)
	if len(problems) > 0 {
		return &WriteError{problems}
	}
	rs = sorted(rs)
	zones := usedZones(rs)
	f := &folder{w: bufio.NewWriter(w)}
	f.line("BEGIN:VCALENDAR")
	f.line("VERSION:2.0")
	f.line("PRODID:" + productID)
	f.line("CALSCALE:GREGORIAN")
	if name := escapeText(c.Name); name != "" {
		f.line("X-WR-CALNAME:" + name)
	}
	for _, z := range zones.list {
		z.write(f)
	}
	for i := range rs {
		rs[i].write(f, zones)
	}
	f.line("END:VCALENDAR")
	if f.err == nil {
		f.err = f.w.Flush()
	}
	if f.err != nil {
		return fmt.Errorf("icalendar: writing: %w", f.err)
	}
	return nil
}

// folder writes content lines, folded by section 3.1.
type folder struct {
	w   *bufio.Writer
	err error
}

func (f *folder) line(s string) {
	const most = 75
	room := most
	for len(s) > room {
		cut := room
		for cut > 0 && !utf8.RuneStart(s[cut]) {
			cut--
		}
		if cut == 0 { // no rune is that long; only invalid text comes here
			cut = room
		}
		f.put(s[:cut])
		f.put("\r\n ")
		s, room = s[cut:], most-1
	}
	f.put(s)
	f.put("\r\n")
}

func (f *folder) put(s string) {
	if f.err == nil {
		_, f.err = f.w.WriteString(s)
	}
}

func (r *resolvedEntry) write(f *folder, zones *zoneList) {
	f.line("BEGIN:VEVENT")
	f.line("UID:" + escapeText(r.UID))
	f.line("DTSTAMP:" + utcText(r.Stamp))
	f.line("DTSTART" + timeText(r.Start, r.Zone, r.AllDay, zones))
	if r.hasEnd {
		if r.endInUTC {
			f.line("DTEND:" + utcText(r.end.Instant))
		} else {
			f.line("DTEND" + timeText(r.End, r.endZone(), r.AllDay, zones))
		}
	}
	f.line("SEQUENCE:" + itoa(r.Sequence))
	switch {
	case r.Cancelled:
		f.line("STATUS:CANCELLED")
	case r.Provisional:
		f.line("STATUS:TENTATIVE")
	default:
		f.line("STATUS:CONFIRMED")
	}
	text := func(name, v string) {
		if v = escapeText(v); v != "" {
			f.line(name + ":" + v)
		}
	}
	text("SUMMARY", r.Summary)
	text("DESCRIPTION", r.Description)
	text("LOCATION", r.Location)
	var cats []string
	for _, c := range r.Categories {
		if c = escapeText(c); c != "" {
			cats = append(cats, c)
		}
	}
	if len(cats) > 0 {
		f.line("CATEGORIES:" + strings.Join(cats, ","))
	}
	for _, p := range r.Properties {
		if line, ok := propertyText(p); ok {
			f.line(line)
		}
	}
	f.line("END:VEVENT")
}

// taken are the properties that an Entry has fields for, and those that would
// change what the others mean.
var taken = map[string]bool{
	"BEGIN": true, "END": true, "UID": true, "DTSTAMP": true, "DTSTART": true, "DTEND": true,
	"DURATION": true, "SEQUENCE": true, "STATUS": true, "SUMMARY": true, "RRULE": true, "RDATE": true,
	"EXDATE": true, "EXRULE": true, "RECURRENCE-ID": true, "METHOD": true, "TZID": true,
	"X-MICROSOFT-CDO-ALLDAYEVENT": true,
}

// propertyText writes a kept property; ok is false for one that has no place in
// the file.
func propertyText(p calendar.Property) (string, bool) {
	name := strings.ToUpper(p.Name)
	if n := nameEnd(name + ":"); n == 0 || n != len(name) || taken[name] || rawLine(name+":", n) {
		return "", false
	}
	var params []param
	for _, q := range p.Params {
		if n := nameEnd(q.Name + ":"); n == 0 || n != len(q.Name) || len(q.Values) == 0 {
			return "", false
		}
		params = append(params, param{strings.ToUpper(q.Name), q.Values})
	}
	return name + paramText(params) + ":" + rawValue(p.Value), true
}

// rawValue makes a raw value safe to stand on a line.
func rawValue(s string) string {
	if strings.IndexFunc(s, isControl) < 0 && utf8.ValidString(s) {
		return s
	}
	s = strings.NewReplacer("\r\n", `\n`, "\r", `\n`, "\n", `\n`).Replace(s)
	return strings.Map(func(r rune) rune {
		if isControl(r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}

func timeText(w calendar.Wall, z calendar.Zone, allDay bool, zones *zoneList) string {
	if allDay {
		return ";VALUE=DATE:" + dateText(w.Date)
	}
	if w.Clock == calendar.EndOfDay {
		w = calendar.Wall{Date: w.Date.AddDays(1)}
	}
	t := dateText(w.Date) + clockText(w.Clock)
	if isUTC(z) {
		return ":" + t + "Z"
	}
	return ";TZID=" + escapeParam(zones.id(z)) + ":" + t
}

func isUTC(z calendar.Zone) bool { return z.Name() == "UTC" && !z.Custom() }

func dateText(d calendar.Date) string { return strings.ReplaceAll(d.String(), "-", "") }

func clockText(c calendar.Clock) string {
	return fmt.Sprintf("T%02d%02d%02d", c/3600, c/60%60, c%60)
}

func utcText(t time.Time) string { return t.UTC().Format("20060102T150405Z") }

func itoa(n int) string { return strconv.Itoa(n) }
