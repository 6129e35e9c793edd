package icalendar

import (
	"fmt"
	"strings"

	"example.org/weft/calendar"
)

// zoneKey: a TZID has its meaning within one VCALENDAR.
type zoneKey struct {
	cal int
	id  string
}

// zoneTable numbers the TZIDs in use and, once the file is read, resolves each
// of them once.
type zoneTable struct {
	index map[zoneKey]int32
	uses  []zoneUse
	defs  map[zoneKey]*definition
	named map[string]calendar.Zone // zero: not known
}

type zoneUse struct {
	key      zoneKey
	line     int // of its first use
	resolved bool
	zone     calendar.Zone // zero: no such zone, reported
}

func (p *parser) zoneIndex(id string, pr *property) (int32, bool) {
	key := zoneKey{int(p.cal), id}
	if i, ok := p.zones.index[key]; ok {
		return i, true
	}
	if len(p.zones.uses) >= p.lim.Zones {
		p.rep.fail(CodeLimit, pr.line, pr.name, id, fmt.Sprintf("more than %d different zones", p.lim.Zones), "raise the limit on zones")
		return 0, false
	}
	key.id = strings.Clone(id)
	i := int32(len(p.zones.uses))
	p.zones.index[key] = i
	p.zones.uses = append(p.zones.uses, zoneUse{key: key, line: pr.line})
	return i, true
}

// zone resolves the i-th TZID. An unknown one is reported once, where it is first
// used.
func (p *parser) zone(i int32) calendar.Zone {
	u := &p.zones.uses[i]
	if u.resolved {
		return u.zone
	}
	u.resolved = true
	if z, ok := namedZone(u.key.id); ok {
		u.zone = z
		return z
	}
	if def := p.zones.defs[u.key]; def != nil {
		class := calendar.ClassError
		if !p.declared(int32(u.key.cal)).IsZero() || !p.opt.LastZone.IsZero() {
			class = calendar.ClassWarning
		}
		if z, ok := p.customZone(def, class); ok || def.refused {
			u.zone = z
			return z
		}
	}
	if z, ok := p.guessedZone(u); ok {
		u.zone = z
		return z
	}
	reason, remedy := "neither an IANA zone nor defined by a VTIMEZONE of this calendar", "use an IANA name such as Europe/Berlin"
	if _, err := calendar.LoadZone(u.key.id); err != nil {
		if e, ok := err.(*calendar.ValueError); ok {
			reason, remedy = reason+": "+e.Reason, e.Remedy
		}
	}
	p.rep.fail(CodeZoneUnknown, u.line, "TZID", u.key.id, reason, remedy)
	return calendar.Zone{}
}

// guessedZone reads a TZID that names no zone as what it most likely means, and
// says so: another spelling of a zone, a fixed offset, else the calendar's own
// zone.
func (p *parser) guessedZone(u *zoneUse) (calendar.Zone, bool) {
	id := strings.TrimSpace(u.key.id)
	plain := lettersOf(id)
	for _, name := range calendar.ZoneNames() {
		if strings.EqualFold(name, id) || plain != "" && lettersOf(name) == plain {
			if z, err := calendar.LoadZone(name); err == nil {
				p.rep.warn(CodeZoneAssumed, u.line, "TZID", u.key.id, "read as "+name, "write "+name)
				return z, true
			}
		}
	}
	if z, ok := fixedZone(id); ok {
		p.rep.ask(CodeZoneAssumed, u.line, "TZID", u.key.id, "a fixed offset from UTC: it is used as it stands, through clock changes too", "name the place, such as Europe/Berlin")
		return z, true
	}
	z := p.home(int32(u.key.cal))
	if z.IsZero() {
		z = p.opt.LastZone
	}
	if !z.IsZero() {
		p.rep.ask(CodeZoneUnknown, u.line, "TZID", u.key.id, "neither an IANA zone nor one that a VTIMEZONE of this calendar defines: read in "+z.Name(), "use an IANA name such as Europe/Berlin")
		return z, true
	}
	return calendar.Zone{}, false
}

// lettersOf is a name without what different spellings write between its words,
// "" for one with digits or signs, in which that has a meaning.
func lettersOf(name string) string {
	if strings.ContainsAny(name, "0123456789+") {
		return ""
	}
	return strings.ToLower(strings.NewReplacer("/", "", "-", "", "_", "", " ", "").Replace(name))
}

// fixedZone reads names such as GMT+0100, UTC-3, +05:30 and Etc/GMT-1, whose sign
// is the other way round.
func fixedZone(id string) (calendar.Zone, bool) {
	s, sign := upper(id), 1
	switch {
	case strings.HasPrefix(s, "ETC/GMT"):
		s, sign = s[len("ETC/GMT"):], -1
	case strings.HasPrefix(s, "GMT"), strings.HasPrefix(s, "UTC"):
		s = strings.TrimSpace(s[3:])
	}
	if len(s) < 2 || s[0] != '+' && s[0] != '-' {
		return calendar.Zone{}, false
	}
	if s[0] == '-' {
		sign = -sign
	}
	s = strings.Replace(s[1:], ":", "", 1)
	if len(s)%2 == 1 {
		s = "0" + s
	}
	h, ok := digits(s, 0, 2)
	m := 0
	if ok && len(s) > 2 {
		m, ok = digits(s, 2, 2)
	}
	if !ok || len(s) > 4 || h > 14 || m > 59 {
		return calendar.Zone{}, false
	}
	z, err := calendar.NewRuleZone(id, calendar.Transition{Offset: sign * (h*3600 + m*60)}, nil)
	return z, err == nil
}

// namedZone finds IANA data for a TZID: by its name, by the end of a path such as
// /example.org/20260101/Europe/Berlin, or by its Windows name.
func namedZone(id string) (calendar.Zone, bool) {
	const maxZoneName = 255
	if id == "" || len(id) > maxZoneName {
		return calendar.Zone{}, false
	}
	if name, ok := windowsZone(id); ok {
		id = name
	}
	if id[0] != '/' {
		if z, err := calendar.LoadZone(id); err == nil {
			return z, true
		}
	}
	// IANA names have three parts at most. A single word at the end of a path is
	// no zone but UTC, since "EST" or "Cuba" may be anything there.
	parts := strings.Split(id, "/")
	for n := min(3, len(parts)-1); n >= 1; n-- {
		end := strings.Join(parts[len(parts)-n:], "/")
		if n == 1 && end != "UTC" {
			break
		}
		if z, err := calendar.LoadZone(end); err == nil {
			return z, true
		}
	}
	return calendar.Zone{}, false
}

// home is the zone of floating times and dates in a calendar, and the one in
// which instants are dated.
func (p *parser) home(cal int32) calendar.Zone {
	z := p.declared(cal)
	c := &p.cals[cal]
	if z.IsZero() && !c.ownDone {
		c.ownDone = true
		if own, line, ok := p.ownZone(cal); ok {
			c.ownZone = own
			p.rep.ask(CodeZoneAssumed, line, "TZID", own.Name(), "the first zone of the calendar: dates, and times without a zone or in UTC, are read in it too", "give a default zone")
		}
	}
	if z.IsZero() {
		return c.ownZone
	}
	return z
}

// declared is the zone that the options or X-WR-TIMEZONE give a calendar.
func (p *parser) declared(cal int32) calendar.Zone {
	if !p.opt.DefaultZone.IsZero() {
		return p.opt.DefaultZone
	}
	c := &p.cals[cal]
	if c.zoneName == "" || c.homeDone {
		return c.homeZone
	}
	c.homeDone = true
	z, ok := p.zones.byName(c.zoneName, p.lim.Zones)
	if def := p.zones.defs[zoneKey{int(cal), c.zoneName}]; def != nil && !ok {
		z, ok = p.customZone(def, calendar.ClassWarning)
	}
	if ok {
		c.homeZone = z
		p.rep.warn(CodeZoneAssumed, c.zoneLine, "X-WR-TIMEZONE", c.zoneName, "dates, and times without a zone or in UTC, are read in this zone", "give a default zone")
	} else {
		p.rep.warn(CodeZoneUnknown, c.zoneLine, "X-WR-TIMEZONE", c.zoneName, "not a known zone; it is not used", "give a default zone")
	}
	return c.homeZone
}

// ownZone is the first zone that the events of a calendar name, or the first that
// it defines.
func (p *parser) ownZone(cal int32) (z calendar.Zone, line int, ok bool) {
	for _, u := range p.zones.uses {
		if u.key.cal != int(cal) {
			continue
		}
		if z, ok = p.zones.byName(u.key.id, p.lim.Zones); ok {
			return z, u.line, true
		}
		if def := p.zones.defs[u.key]; def != nil {
			if z, ok = p.customZone(def, calendar.ClassWarning); ok {
				return z, u.line, true
			}
		}
	}
	var first *definition
	for key, def := range p.zones.defs {
		if key.cal == int(cal) && (first == nil || def.line < first.line) {
			first = def
		}
	}
	if first == nil {
		return calendar.Zone{}, 0, false
	}
	if z, ok = p.zones.byName(first.id, p.lim.Zones); !ok {
		z, ok = p.customZone(first, calendar.ClassWarning)
	}
	return z, first.line, ok
}

// byName is namedZone with a memory, since a file may hold many calendars. It
// knows no more than limit names.
func (t *zoneTable) byName(id string, limit int) (calendar.Zone, bool) {
	z, ok := t.named[id]
	if !ok && len(t.named) < limit {
		z, _ = namedZone(id)
		if t.named == nil {
			t.named = map[string]calendar.Zone{}
		}
		t.named[id] = z
	}
	return z, !z.IsZero()
}
