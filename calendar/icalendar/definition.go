package icalendar

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/weft/calendar"
)

// definition is a VTIMEZONE.
type definition struct {
	line int
	id   string
	obs  []observance
	done bool
	zone calendar.Zone

	refused bool // an error says that it cannot be used

	// The first thing that is wrong with it. It counts only when the zone is used.
	fault, faultField, faultValue string
	faultLine                     int

	// The first thing that is read although the format does not write it so.
	odd, oddField, oddValue string
	oddLine                 int
}

// observance is a STANDARD or DAYLIGHT of a VTIMEZONE.
type observance struct {
	line     int
	dst      bool
	start    moment
	from, to int
	seen     uint8
	name     string
	rules    []rule
	rdates   []moment
}

const (
	obsStart = 1 << iota
	obsFrom
	obsTo
)

const (
	maxObservances = 1000
	maxChanges     = 20_000
)

func (p *parser) observanceProperty(pr *property) {
	o := p.obs
	var err error
	switch pr.name {
	case "DTSTART":
		var note string
		o.start, note, err = looseMoment(pr.value)
		if err == nil && o.start.form != formFloating {
			note = "not a local time; read as one"
		}
		p.def.unusual(pr, note)
		o.seen |= obsStart
	case "TZOFFSETFROM":
		o.from, err = p.offset(pr)
		o.seen |= obsFrom
	case "TZOFFSETTO":
		o.to, err = p.offset(pr)
		o.seen |= obsTo
	case "TZNAME":
		if o.name == "" {
			o.name = abbreviation(unescapeText(pr.value))
		}
	case "RRULE":
		var r rule
		r, err = parseRule(pr.value)
		if err == nil && len(o.rules) >= maxRules {
			err = fmt.Errorf("more than %d rules", maxRules)
		}
		if err == nil && r.freq < daily {
			err = fmt.Errorf("a clock that changes within the day")
		}
		r.line = pr.line
		o.rules = append(o.rules, r)
	case "RDATE":
		for _, v := range p.list(pr) {
			var m moment
			if m, err = parseMoment(v); err != nil {
				break
			}
			o.rdates = append(o.rdates, m)
		}
	}
	if err != nil {
		p.def.broken(pr.line, pr.name, pr.value, err.Error())
	}
}

// offset reads an offset from UTC, also written +01:00, +01 or without its plus.
func (p *parser) offset(pr *property) (int, error) {
	o, err := parseOffset(pr.value)
	if err == nil {
		return o, nil
	}
	s := strings.Replace(strings.TrimSpace(pr.value), ":", "", 2)
	if s != "" && s[0] != '+' && s[0] != '-' {
		s = "+" + s
	}
	if len(s) == 3 {
		s += "00"
	}
	if o, err2 := parseOffset(s); err2 == nil {
		p.def.unusual(pr, "read as "+s)
		return o, nil
	}
	return 0, err
}

// unusual notes, but for an empty reason, the first thing that is read although
// the format does not write it so.
func (d *definition) unusual(pr *property, reason string) {
	if d.odd == "" && reason != "" {
		d.odd, d.oddLine, d.oddField, d.oddValue = reason, pr.line, pr.name, strings.Clone(clip(pr.value))
	}
}

// broken notes the first fault of a definition. It is reported by customZone
// alone, since the zone may be one of IANA or not be used at all.
func (d *definition) broken(line int, field, value, reason string) {
	if d.fault == "" {
		d.fault, d.faultLine, d.faultField, d.faultValue = reason, line, field, strings.Clone(clip(value))
	}
}

// abbreviation returns a TZNAME if it is short plain ASCII, or nothing.
func abbreviation(s string) string {
	if s = strings.TrimSpace(s); len(s) > 10 {
		return ""
	}
	for i := 0; i < len(s); i++ {
		if s[i] < '!' || s[i] > '~' {
			return ""
		}
	}
	return strings.Clone(s)
}

func (p *parser) finishObservance() {
	switch {
	case len(p.def.obs) >= maxObservances:
		p.def.broken(p.obs.line, "BEGIN", "", fmt.Sprintf("more than %d changes in one zone", maxObservances))
	case p.obs.seen == obsStart|obsTo && len(p.obs.rules)+len(p.obs.rdates) == 0:
		p.def.unusual(&property{name: "TZOFFSETFROM", line: p.obs.line}, "missing; read as TZOFFSETTO")
		p.obs.from = p.obs.to
		p.def.obs = append(p.def.obs, *p.obs)
	case p.obs.seen != obsStart|obsFrom|obsTo:
		p.def.broken(p.obs.line, "BEGIN", "", "DTSTART, TZOFFSETFROM or TZOFFSETTO is missing")
	default:
		p.def.obs = append(p.def.obs, *p.obs)
	}
}

func (p *parser) finishDefinition() {
	d := p.def
	if d.id == "" {
		p.rep.warn(CodeZoneInvalid, d.line, "TZID", "", "a VTIMEZONE without a TZID is not used", "add its TZID")
		return
	}
	key := zoneKey{int(p.cal), d.id}
	if p.zones.defs == nil {
		p.zones.defs = map[zoneKey]*definition{}
	}
	if old := p.zones.defs[key]; old != nil {
		p.rep.warn(CodeZoneInvalid, d.line, "TZID", d.id, fmt.Sprintf("a second definition of this zone; that of line %d is used", old.line), "remove one of them")
		return
	}
	if len(p.zones.defs) >= p.lim.Zones {
		p.rep.fail(CodeLimit, d.line, "TZID", d.id, fmt.Sprintf("more than %d definitions of zones", p.lim.Zones), "raise the limit on zones")
		return
	}
	p.zones.defs[key] = d
}

// change is one onset of an observance.
type change struct {
	at   int64 // instant, Unix seconds
	obs  int
	from int
}

// customZone works out a VTIMEZONE up to the last year that dates can have. The
// offset before its first change is the TZOFFSETFROM of that change.
func (p *parser) customZone(d *definition, class calendar.Class) (calendar.Zone, bool) {
	if d.done {
		return d.zone, !d.zone.IsZero()
	}
	d.done = true
	refuse := func(line int, field, value, reason string) (calendar.Zone, bool) {
		d.refused = class == calendar.ClassError
		p.rep.add(class, CodeZoneInvalid, line, field, value, fmt.Sprintf("the definition of zone %q cannot be used: %s", clip(d.id), reason), "correct the VTIMEZONE, or use an IANA name as TZID")
		return calendar.Zone{}, false
	}
	if d.odd != "" {
		p.rep.warn(CodeZoneInvalid, d.oddLine, d.oddField, d.oddValue, fmt.Sprintf("in the definition of zone %q: %s", clip(d.id), d.odd), "correct the VTIMEZONE, or use an IANA name as TZID")
	}
	if d.fault != "" {
		return refuse(d.faultLine, d.faultField, d.faultValue, d.fault)
	}
	if len(d.obs) == 0 {
		return refuse(d.line, "BEGIN", "VTIMEZONE", "it has neither STANDARD nor DAYLIGHT")
	}
	var all []change
	for i := range d.obs {
		o := &d.obs[i]
		add := func(local int64) bool {
			if len(all) <= maxChanges {
				all = append(all, change{local - int64(o.from), i, o.from})
			}
			return len(all) <= maxChanges
		}
		if len(o.rules) == 0 {
			add(o.start.local)
		}
		for _, r := range o.rules {
			var after func(int64) bool
			if r.hasUntil {
				until := r.until.local
				switch r.until.form {
				case formUTC:
					until += int64(o.from)
				case formDate:
					until += daySeconds - 1
				}
				after = func(local int64) bool { return local > until }
			}
			if _, err := r.expand(o.start.local, false, o.start.local, lastLocal, after, &p.meter, add); err != nil {
				return refuse(r.line, "RRULE", "", err.Error())
			}
		}
		for _, m := range o.rdates {
			if m.form == formUTC {
				m.local += int64(o.from)
			}
			add(m.local)
		}
		if len(all) > maxChanges {
			return refuse(o.line, "BEGIN", "", fmt.Sprintf("more than %d changes of the clock", maxChanges))
		}
	}
	slices.SortStableFunc(all, func(a, b change) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	z, err := ruleZone(d, all)
	if err != nil {
		return refuse(d.line, "BEGIN", "VTIMEZONE", err.Error())
	}
	d.zone = z
	return z, true
}

// ruleZone makes the zone; changes before the first year that dates can have are
// folded into the offset that holds first.
func ruleZone(d *definition, all []change) (calendar.Zone, error) {
	earliest := int64(dayNumber(calendar.FirstYear, 1, 1)-2) * daySeconds
	first := calendar.Transition{Offset: all[0].from}
	var list []calendar.Transition
	for _, c := range all {
		o := &d.obs[c.obs]
		t := calendar.Transition{At: time.Unix(c.at, 0).UTC(), Offset: o.to, DST: o.dst, Abbrev: o.name}
		switch n := len(list); {
		case c.at < earliest:
			first = t
		case n > 0 && list[n-1].At.Equal(t.At):
			list[n-1] = t // the later one in the file
		default:
			list = append(list, t)
		}
	}
	return calendar.NewRuleZone(d.id, first, list)
}
