package season

import (
	"fmt"

	"example.org/weft/calendar"
	"example.org/weft/load"
)

// oldest is the age in years beyond which a month of birth is a slip.
const oldest = 100

func (c *checker) athlete() {
	a := c.r.Athlete
	c.id("/athlete/id", a.ID, false)
	c.words("/athlete/role", a.Role)
	if a.Zone.IsZero() {
		c.err(CodeZone, "/athlete/zone", "", "no time zone given", "name the place, such as Europe/Berlin")
	}
	c.age(a)
	c.hours("/athlete/hours", a.Hours)
	if c.most("/athlete/prefer", len(a.Prefer), MaxHours) {
		for i, p := range a.Prefer {
			c.days(at("athlete", "prefer", i, "days"), p.Days)
			c.clock(at("athlete", "prefer", i, "start"), p.Start)
		}
	}
	if c.most("/athlete/maxima", len(a.Maxima), MaxMaxima) {
		for i, m := range a.Maxima {
			c.maximum(at("athlete", "maxima", i), m)
		}
	}
	if c.most("/athlete/restrictions", len(a.Restrictions), MaxRestrictions) {
		for i, r := range a.Restrictions {
			c.restriction(at("athlete", "restrictions", i), r)
		}
	}
	if c.most("/athlete/holds", len(a.Holds), MaxHolds) {
		for i, h := range a.Holds {
			c.hold(at("athlete", "holds", i), h)
		}
	}
	if c.most("/athlete/optIns", len(a.OptIns), MaxOptIns) {
		seen := map[OptIn]bool{}
		for i, o := range a.OptIns {
			path := at("athlete", "optIns", i)
			if c.choice(path, string(o), optInWords()) && seen[o] {
				c.warn(CodeRepeated, path, string(o), "it is named twice", "leave one out")
			}
			seen[o] = true
		}
	}
}

func (c *checker) age(a Athlete) {
	const path = "/athlete/born"
	age, known := a.Born.AgeOn(c.today)
	switch b := a.Born; {
	case b == (YearMonth{}):
		c.ask(CodeAgeMissing, path, "", "the age is not known: the safeguards of a 13- to 15-year-old beginner are used", `give the month of birth, such as "2007-03"`)
	case b.Month < 1 || b.Month > 12 || b.Year < 1 || b.Year > 9999:
		c.err(CodeMonth, path, b.String(), "there is no such month", "give year and month, such as 2007-03")
		known = false
	case c.today.IsZero():
	case after(b, c.today):
		c.err(CodeBorn, path, b.String(), "born after "+c.today.String(), "check the year")
		known = false
	case age > oldest:
		c.err(CodeBorn, path, b.String(), fmt.Sprintf("an age of %d years", age), "check the year")
		known = false
	}
	const training = "/athlete/trainingAgeYears"
	switch m := a.TrainingAgeMonths; {
	case m == -1:
		c.ask(CodeTrainingMissing, training, "", "the training age is not known: a beginner's rules are used", "give the years of regular supervised strength training, such as 2.5")
	case m < -1 || m > maxTrainingMonths:
		c.err(CodeRange, training, fmt.Sprint(m), "months outside 0 to 960", "give the months of regular supervised strength training, or -1 if unknown")
	case known && m > (age+1)*12:
		c.err(CodeTrainingAge, training, yearsText(m), fmt.Sprintf("more years of training than of life: the age is %d", age), "check both")
	}
}

// after reports whether a month begins after a date.
func after(b YearMonth, d calendar.Date) bool {
	y, m, _ := d.YMD()
	return b.Year > y || b.Year == y && b.Month > m
}

func (c *checker) maximum(path string, m Maximum) {
	c.id(path+"/exercise", m.Exercise, true)
	switch {
	case m.Grams < 0 || m.Grams > int64(load.MaxMass):
		c.err(CodeRange, path+"/load", load.Mass(m.Grams).String(), "a load is from 0 to 10000 kg", "check the number")
	case m.Grams == 0:
		c.err(CodeRange, path+"/load", load.Mass(m.Grams).String(), "a best of nothing", "give the load, or leave the entry out")
	}
	c.choice(path+"/kind", m.Kind, maximumKinds())
	if c.date(path+"/date", m.Date, true) && !c.today.IsZero() && m.Date.After(c.today) {
		c.err(CodeFuture, path+"/date", m.Date.String(), "dated after now, "+c.today.String(), "give the date on which it was lifted")
	}
}

// Problems of restrictions and holds name the field and never its value.

func (c *checker) restriction(path string, r Restriction) {
	c.private(path+"/region", r.Region, true)
	c.private(path+"/by", r.By, false)
	switch r.Side {
	case "left", "right", "both":
	case "":
		c.ask(CodeSideMissing, path+"/side", "", "no side is given: both are taken", "say left, right or both")
	default:
		c.err(CodeChoice, path+"/side", hidden, "the word is not known here", "use left, right or both")
	}
	if r.By == "" {
		c.warn(CodeByMissing, path+"/by", "", "nobody is named for this instruction", "give the role of who set it, such as physiotherapist")
	}
	fromOK := c.privateDate(path+"/from", r.From, true)
	if c.privateDate(path+"/to", r.To, false) && fromOK && !r.To.IsZero() && r.To.Before(r.From) {
		c.err(CodeSpan, path+"/to", hidden, "it ends before it begins", "give a last date on or after the first, or none")
	}
}

func (c *checker) hold(path string, h Hold) {
	c.private(path+"/clearedBy", h.ClearedBy, false)
	fromOK := c.privateDate(path+"/from", h.From, true)
	if c.privateDate(path+"/until", h.Until, false) && fromOK && !h.Until.IsZero() && h.Until.Before(h.From) {
		c.err(CodeSpan, path+"/until", hidden, "it ends before it begins", "give a date on or after the first, or none")
	}
	clearedOK := c.privateDate(path+"/clearedOn", h.ClearedOn, false)
	switch {
	case c.unread(path+"/clearedBy") || !clearedOK:
	case h.ClearedBy == "" && !h.ClearedOn.IsZero():
		c.err(CodeContradiction, path+"/clearedBy", "", "a date of clearance, and nobody who cleared", "give the role of the clinician who cleared the athlete, or leave the date out")
	case h.ClearedBy != "" && h.ClearedOn.IsZero():
		c.err(CodeContradiction, path+"/clearedOn", "", "cleared on no date", "give the date of clearance, or leave clearedBy out")
	case h.ClearedOn.IsZero():
	case fromOK && h.ClearedOn.Before(h.From):
		c.err(CodeContradiction, path+"/clearedOn", hidden, "cleared before the hold began", "check both dates")
	case !c.today.IsZero() && h.ClearedOn.After(c.today):
		c.err(CodeFuture, path+"/clearedOn", hidden, "dated after now", "a clearance counts once it is given: leave it out until then")
	}
}

func (c *checker) private(path, s string, needed bool) {
	if s == "" && needed {
		c.err(CodeMissing, path, "", "there is no text", "give one")
	}
	c.chars(path, s, MaxTextRunes, true)
}

func (c *checker) privateDate(path string, d calendar.Date, needed bool) bool {
	if d.IsZero() {
		if needed {
			c.err(CodeMissing, path, "", "there is no date", "give a date such as 2026-11-08")
		}
		return !needed && !c.unread(path)
	}
	if y, _, _ := d.YMD(); y < calendar.FirstYear || y > calendar.LastYear {
		c.err(CodeDate, path, hidden, "the year is outside 1900 to 2199", "check the year")
		return false
	}
	return true
}
