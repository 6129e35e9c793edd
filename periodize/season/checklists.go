package season

import (
	"fmt"

	"example.org/weft/calendar"
	"example.org/weft/internal/jsonread"
)

func (c *checker) places() {
	seen := map[string]int{}
	for i, p := range c.r.Places {
		path := at("places", i)
		c.id(path+"/id", p.ID, true)
		c.hours(path+"/hours", p.Hours)
		if c.most(path+"/closed", len(p.Closed), MaxClosed) {
			for j, s := range p.Closed {
				c.closed(path+at("closed", j), s)
			}
		}
		if c.most(path+"/kit", len(p.Kit), MaxKit) {
			for j, k := range p.Kit {
				c.id(path+at("kit", j), k, true)
			}
		}
		if p.Kit != nil && len(p.Kit) == 0 {
			c.warn(CodeKitEmpty, path+"/kit", "", "nothing is named: there is nothing but a floor, own weight only", "name what is there, or leave it out for an ordinary gym")
		}
		if j, ok := seen[p.ID]; ok && p.ID != "" {
			enc := encoder{zone: zoneText(map[calendar.Zone]string{})}
			if enc.text(enc.place(p.canonical())) == enc.text(enc.place(c.r.Places[j].canonical())) {
				c.warn(CodeRepeated, path+"/id", p.ID, "the same place stands at "+at("places", j)+": it is used once", "leave one out")
			} else {
				c.err(CodeIDTwice, path+"/id", p.ID, "the place at "+at("places", j)+" has the same id and other content", "give each place an id of its own")
			}
			continue
		}
		seen[p.ID] = i
	}
}

func (c *checker) closed(path string, p Period) {
	fromOK, toOK := c.date(path+"/from", p.From, true), c.date(path+"/to", p.To, true)
	if fromOK && toOK && p.To.Before(p.From) {
		c.err(CodeSpan, path+"/to", p.To.String(), "it ends before it begins on "+p.From.String(), "give a last date on or after the first")
	}
}

// rules checks the form of overrides. Whether a rule exists and what it takes is
// known to the table of rules.
func (c *checker) rules() {
	var enc encoder
	seen := map[string]int{}
	for i, o := range c.r.Rules {
		path := at("rules", i)
		c.id(path+"/rule", o.Rule, true)
		c.words(path+"/by", o.By)
		c.words(path+"/reason", o.Reason)
		for _, n := range []struct {
			field string
			value *int
		}{{"value", o.Value}, {"points", o.Points}} {
			if n.value != nil && (*n.value < 0 || *n.value > maxSetting) {
				c.err(CodeRange, path+at(n.field), fmt.Sprint(*n.value), "outside 0 to 1000000000", "check the number")
			}
		}
		given := o.Value != nil || o.Points != nil || c.unread(path+"/value") || c.unread(path+"/points")
		switch {
		case o.Off && given:
			c.err(CodeContradiction, path+"/off", "true", "a rule that is off, and has a value", "leave one of them out")
		case !o.Off && !given && !c.unread(path+"/off"):
			c.err(CodeMissing, path+"/value", "", "the entry changes nothing", "give a value, points or off")
		}
		if j, ok := seen[o.Rule]; ok && o.Rule != "" {
			if enc.text(o) == enc.text(c.r.Rules[j]) {
				c.warn(CodeRepeated, path+"/rule", o.Rule, "the same entry stands at "+at("rules", j), "leave one out")
			} else {
				c.err(CodeContradiction, path+"/rule", o.Rule, "the entry at "+at("rules", j)+" changes the same rule in another way", "keep one of them")
			}
			continue
		}
		seen[o.Rule] = i
	}
}

func (c *checker) log() {
	seen := map[string]int{}
	for i, d := range c.r.Log {
		path := at("log", i)
		c.id(path+"/id", d.ID, false)
		c.id(path+"/session", d.Session, false)
		c.choice(path+"/kind", string(d.Kind), sessionKinds())
		if d.Zone.IsZero() {
			d.Zone = c.r.Athlete.Zone
		}
		if d.ID == "" {
			d.ID = d.ContentID()
		}
		c.doneTime(path, d)
		if j, ok := seen[d.ID]; ok {
			first := c.r.Log[j]
			if first.Zone.IsZero() {
				first.Zone = c.r.Athlete.Zone
			}
			first.ID = d.ID
			if sameDone(first, d) {
				c.warn(CodeRepeated, path+"/id", d.ID, "the same entry stands at "+at("log", j)+": it is used once", "leave one out")
			} else {
				c.err(CodeIDTwice, path+"/id", d.ID, "the entry at "+at("log", j)+" has the same id and other content", "give each entry an id of its own")
			}
			continue
		}
		seen[d.ID] = i
	}
}

func sameDone(a, b Done) bool {
	same := a.Zone.Equal(b.Zone)
	a.Zone, b.Zone = calendar.Zone{}, calendar.Zone{}
	return same && a == b
}

func sessionKinds() (out []string) {
	for _, k := range Kinds() {
		out = append(out, string(k))
	}
	return out
}

func (c *checker) doneTime(path string, d Done) {
	if c.unread(path+"/zone") || d.Zone.IsZero() {
		return
	}
	if !c.wall(path+"/start", d.Zone, d.Start) {
		return
	}
	start := d.Zone.Resolve(d.Start).Instant
	const future = "dated after now: work that is not done yet is no log"
	if !c.cutoff.IsZero() && start.After(c.cutoff) {
		c.err(CodeFuture, path+"/start", d.Start.String(), future, "check the date, or give the now at which it was logged")
		return
	}
	if !d.HasEnd || !c.wallEnd(path+"/end", d.Zone, d.End) {
		return
	}
	r := d.Zone.Resolve(d.End)
	end := r.Instant
	if r.Fit == calendar.Doubled && end.Before(start) {
		end = r.Later
	}
	switch {
	case !end.After(start):
		c.err(CodeEnd, path+"/end", d.End.String(), "it ends at or before its start at "+d.Start.String(), "give an end after the start, or none")
	case end.Sub(start) > calendar.MaxGame:
		c.err(CodeEnd, path+"/end", d.End.String(), "the session lasts "+hoursText(end.Sub(start))+", more than 12 h", "check date and time of start and end")
	case !c.cutoff.IsZero() && end.After(c.cutoff):
		c.err(CodeFuture, path+"/end", d.End.String(), future, "check the date, or give the now at which it was logged")
	}
}

func (c *checker) pins() {
	type key struct {
		date  calendar.Date
		start calendar.Clock // -1: none given
	}
	var (
		enc   encoder
		seen  = map[string]int{}
		at0   = map[key]int{}
		none  = map[calendar.Date]int{}
		some  = map[calendar.Date]int{}
		ids   []string
		known = map[string]bool{}
		zones = map[string]calendar.Zone{}
	)
	for _, p := range c.r.Places {
		ids, known[p.ID], zones[p.ID] = append(ids, p.ID), true, p.Zone
	}
	for i, p := range c.r.Pins {
		path := at("pins", i)
		if !c.date(path+"/date", p.Date, true) {
			continue
		}
		text := enc.text(wirePinOf(p))
		if j, ok := seen[text]; ok {
			c.warn(CodeRepeated, path, p.Date.String(), "the same pin stands at "+at("pins", j), "leave one out")
			continue
		}
		seen[text] = i
		c.id(path+"/place", p.Place, false)
		switch {
		case p.None && (p.Kind != "" || p.Start != nil || p.Place != ""):
			c.err(CodeContradiction, path+"/none", "true", "a pin that keeps the date free, and names a session", "leave one of them out")
			continue
		case !p.None && p.Kind == "" && !c.unread(path+"/kind") && !c.unread(path+"/none"):
			c.err(CodeMissing, path+"/kind", "", "the pin names no kind of session", `give a kind, or "none": true to keep the date free`)
		case !p.None:
			c.choice(path+"/kind", string(p.Kind), sessionKinds())
		}
		if p.Start != nil && c.clock(path+"/start", *p.Start) {
			zone := c.r.Athlete.Zone
			if z := zones[p.Place]; !z.IsZero() {
				zone = z
			}
			c.wall(path+"/start", zone, calendar.Wall{Date: p.Date, Clock: *p.Start})
		}
		if p.Place != "" && len(ids) > 0 && !known[p.Place] {
			remedy := "name a place of the list"
			if near, ok := jsonread.Closest(p.Place, ids); ok {
				remedy = "did you mean " + calendar.Inert(near) + "?"
			}
			c.err(CodeUnknownPlace, path+"/place", p.Place, "there is no such place in the request", remedy)
		}
		c.pinDate(path, p)

		other, mine := some, none
		if !p.None {
			other, mine = none, some
		}
		if j, ok := other[p.Date]; ok {
			c.err(CodeContradiction, path+"/date", p.Date.String(), "the pin at "+at("pins", j)+" says the opposite of the same date", "keep one of them")
		}
		mine[p.Date] = i
		if p.None || p.Start == nil {
			continue
		}
		k := key{p.Date, *p.Start}
		if j, ok := at0[k]; ok {
			c.err(CodeContradiction, path+"/start", p.Start.String(), "the pin at "+at("pins", j)+" has another session at the same time", "keep one of them")
		}
		at0[k] = i
	}
}

func (c *checker) pinDate(path string, p Pin) {
	switch period := c.r.Period; {
	case period.Days() > 0 && !period.Contains(p.Date):
		c.warn(CodePinUnused, path+"/date", p.Date.String(), "outside the period: the pin is not used", "leave it out, or plan that date")
	case !c.today.IsZero() && p.Date.Before(c.today):
		c.warn(CodePinUnused, path+"/date", p.Date.String(), "before now, "+c.today.String()+": what is past is not planned", "log what was done")
	}
}
