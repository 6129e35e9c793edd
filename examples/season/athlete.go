package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// maxAthleteBytes is far above what an athlete with all lists can need.
const maxAthleteBytes = 4 << 20

// athleteFile is the text of an athlete, looked at just closely enough to make a
// request of it.
type athleteFile struct {
	text      []byte
	given     bool
	object    bool // well-formed, with an object at the top
	whole     bool // {"athlete": ...} with places or rules, not the athlete alone
	schema    bool // it names the schema itself
	bad       bool // reported, nothing more to say
	zone      calendar.Zone
	hasZone   bool
	at        int // where the fields of the athlete begin
	empty     bool
	pushed    int // characters set in front of the first line's
	weekStart time.Weekday
}

func (l *loader) athleteText() (f athleteFile) {
	f.weekStart = time.Weekday(rule.Default().Value("week-start"))
	if l.opt.athlete == "" {
		return f
	}
	f.given = true
	text, ok := l.bytes(l.opt.athlete, maxAthleteBytes)
	if !ok {
		f.bad = true
		return f
	}
	f.text = text
	if !bytes.HasPrefix(bytes.TrimLeft(text, " \t\r\n"), []byte("{")) {
		return f
	}
	f.object = true
	var top map[string]json.RawMessage
	if json.Unmarshal(text, &top) != nil { // the reader will say where it is broken
		f.whole = bytes.Contains(text, []byte(`"athlete"`))
		f.schema = bytes.Contains(text, []byte(`"schema"`))
		f.hasZone = true
		return f
	}
	_, f.whole = top["athlete"]
	_, f.schema = top["schema"]
	if _, period := top["period"]; f.whole && period {
		l.add(wrong("athlete", shown(l.opt.athlete)+" /period", "", "this is a whole request", "give it as -request"))
		f.bad = true
		return f
	}
	var zone string
	if f.whole {
		f.at, f.empty = inside(text, "athlete")
		var a struct {
			Athlete map[string]json.RawMessage
			Rules   []season.Override
		}
		if json.Unmarshal(text, &a) == nil {
			_, f.hasZone = a.Athlete["zone"]
			_ = json.Unmarshal(a.Athlete["zone"], &zone)
			if set, _ := rule.New(a.Rules); set != nil {
				f.weekStart = time.Weekday(set.Value("week-start"))
			}
		}
	} else {
		f.at, f.empty = inside(text, "")
		_, f.hasZone = top["zone"]
		_ = json.Unmarshal(top["zone"], &zone)
	}
	if zone != "" {
		f.zone, _ = calendar.LoadZone(zone) // its fault is found when the athlete is read
	}
	return f
}

// inside returns the offset just behind the brace that opens the object of a
// field of the top object, or of the top object itself; empty if nothing is in it.
func inside(text []byte, field string) (at int, empty bool) {
	dec := json.NewDecoder(bytes.NewReader(text))
	_, _ = dec.Token()
	if field != "" {
		for dec.More() {
			name, err := dec.Token()
			if err != nil || name == field {
				break
			}
			var skip json.RawMessage
			if dec.Decode(&skip) != nil {
				break
			}
		}
		if t, err := dec.Token(); err != nil || t != json.Delim('{') {
			return 0, false // no object; found when the athlete is read
		}
	}
	return int(dec.InputOffset()), !dec.More()
}

// readAthlete makes a request of the athlete, without events. The text is set
// into that of a request on its own lines, so that lines in problems stay right.
func (l *loader) readAthlete(f athleteFile, period season.Period, now time.Time, zone calendar.Zone) *season.Request {
	switch {
	case f.bad:
		return nil
	case !f.given:
		if zone.IsZero() {
			if !failed(l.problems) {
				l.add(wrong("zone", "-zone", "", "no zone is named anywhere", "give -zone, such as Europe/Berlin"))
			}
			return nil
		}
		return &season.Request{Period: period, Now: now, Athlete: season.Athlete{ID: "athlete", Zone: zone, TrainingAgeMonths: -1}}
	case f.hasZone && !zone.IsZero() && !f.zone.IsZero() && !zone.Equal(f.zone):
		l.add(calendar.Problem{Code: "zone", Class: calendar.ClassWarning, Path: shown(l.opt.athlete), Field: "zone", Value: f.zone.Name(),
			Reason: "the plan is made in " + zone.Name() + ", the zone of -zone", Remedy: "leave one of them out"})
	}
	text := f.text
	if f.object && !f.hasZone && f.at > 0 && !zone.IsZero() {
		text = f.insert(text, f.at, field("zone", zone.Name(), f.empty))
	}
	if f.object {
		text = f.asRequest(text, period)
	}
	req, notes, err := season.RequestReader{Strict: l.opt.strict}.Read(bytes.NewReader(text))
	var bad *season.InputError
	if errors.As(err, &bad) {
		kept := l.mine(&f, bad.Problems)
		l.add(kept...)
		if f.whole {
			l.overrides(l.opt.athlete, f.text, bad.Problems)
		}
		return nil
	}
	if err != nil {
		l.add(wrong("athlete", shown(l.opt.athlete), "", err.Error(), "check the file"))
		return nil
	}
	l.add(l.mine(&f, notes)...)
	req.Now = now
	if !zone.IsZero() {
		req.Athlete.Zone = zone
	}
	if req.Athlete.ID == "" {
		req.Athlete.ID = "athlete"
	}
	return req
}

// mine keeps the problems that are about the athlete's file, with its pointers.
func (l *loader) mine(f *athleteFile, problems []calendar.Problem) []calendar.Problem {
	var out []calendar.Problem
	for _, p := range problems {
		switch {
		case strings.HasPrefix(p.Path, "/period"), p.Code == "schema-missing":
			continue // not the file's
		case f.object && !f.whole:
			p.Path = strings.TrimPrefix(p.Path, "/athlete")
		}
		p.Reason = f.columns(p.Reason)
		out = append(out, p)
	}
	return named(l.opt.athlete, out)
}

// asRequest makes the text of a request of an athlete's. Without a period the
// reader checks the rest and misses only that.
func (f *athleteFile) asRequest(text []byte, period season.Period) []byte {
	head := ""
	if !f.schema || !f.whole {
		head = `"schema":1,`
	}
	if period.Days() > 0 {
		b, _ := json.Marshal(period)
		head += `"period":` + string(b) + `,`
	}
	if !f.whole {
		return append(f.insert(text, 0, `{`+head+`"athlete":`), '}')
	}
	return f.insert(text, bytes.IndexByte(text, '{')+1, head)
}

// insert sets something into the text, and remembers how far that pushes the
// rest of the first line.
func (f *athleteFile) insert(text []byte, at int, what string) []byte {
	if bytes.IndexByte(text[:at], '\n') < 0 {
		f.pushed += utf8.RuneCountInString(what)
	}
	return append(append(append([]byte{}, text[:at]...), what...), text[at:]...)
}

var firstLine = regexp.MustCompile(`\b(line 1, column |first at 1:)(\d+)`)

// columns corrects places on the first line.
func (f *athleteFile) columns(reason string) string {
	return firstLine.ReplaceAllStringFunc(reason, func(s string) string {
		m := firstLine.FindStringSubmatch(s)
		n, err := strconv.Atoi(m[2])
		if err != nil {
			return s
		}
		return m[1] + strconv.Itoa(max(1, n-f.pushed))
	})
}

func field(name, value string, last bool) string {
	b, _ := json.Marshal(value)
	s := `"` + name + `":` + string(b)
	if !last {
		s += ","
	}
	return s
}
