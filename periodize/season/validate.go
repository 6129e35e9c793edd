package season

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/internal/jsonread"
)

// Validate checks a request built in Go as ReadRequest checks a text: the same
// checks, limits and codes, with the paths that the request has as JSON. A
// request with no error and no refusal among the problems can be planned.
//
// The zero Schema stands for the current one, an unset zone of an event or a log
// entry for the athlete's, a zero Now for the first instant of the period.
func (r Request) Validate() []calendar.Problem {
	var f finder
	checkRequest(&f, r, Limits{}.filled())
	return f.problems()
}

func checkRequest(f *finder, r Request, lim Limits) {
	if r.Schema > Schema || r.Schema < 0 {
		f.err(CodeSchemaNewer, "/schema", fmt.Sprint(r.Schema), fmt.Sprintf("this version knows schema 1 to %d", Schema), "update the library, or build the request for the older schema")
		return
	}
	c := checker{finder: f, r: r, lim: lim}
	c.period("/period", r.Period)
	c.now()
	c.athlete()
	if c.most("/events", len(r.Events), lim.Events) {
		c.events()
	}
	if c.most("/places", len(r.Places), MaxPlaces) {
		c.places()
	}
	if c.most("/rules", len(r.Rules), MaxOverrides) {
		c.rules()
	}
	if c.most("/club", len(r.Club), MaxClubRules) {
		c.clubRules()
	}
	if c.most("/log", len(r.Log), lim.Log) {
		c.log()
	}
	if c.most("/issued", len(r.Issued), lim.Issued) {
		for i, p := range r.Issued {
			c.plan(at("issued", i), p)
		}
	}
	if c.most("/pins", len(r.Pins), MaxPins) {
		c.pins()
	}
}

// checker checks a request. Each check leaves alone what another one, or the
// reader, has reported.
type checker struct {
	*finder
	r   Request
	lim Limits

	cutoff time.Time     // now, or what stands for it; zero if not known
	today  calendar.Date // its local date
}

// most reports whether a list is within its limit.
func (c *checker) most(path string, n, limit int) bool {
	if n > limit {
		c.err(CodeLimit, path, fmt.Sprint(n), fmt.Sprintf("more than %d entries", limit), "leave some out")
		return false
	}
	return true
}

func (c *checker) period(path string, p Period) {
	fromOK, toOK := c.date(path+"/from", p.From, true), c.date(path+"/to", p.To, true)
	switch {
	case !fromOK || !toOK:
	case p.To.Before(p.From):
		c.err(CodeSpan, path+"/to", p.To.String(), "it ends before it begins on "+p.From.String(), "give a last date on or after the first")
	case p.Days() > c.lim.PeriodDays:
		c.err(CodeLimit, path+"/to", p.To.String(), fmt.Sprintf("the period has %d dates, the limit is %d", p.Days(), c.lim.PeriodDays), "plan a shorter period")
	}
}

// now settles the instant before which all is past.
func (c *checker) now() {
	zone := c.r.Athlete.Zone
	switch {
	case !c.r.Now.IsZero() && !saneInstant(c.r.Now):
		c.err(CodeInstant, "/now", fmt.Sprint(c.r.Now.Year()), "the year is outside 1900 to 2199", "check the year")
		return
	case !c.r.Now.IsZero():
		c.cutoff = c.r.Now
	case c.unread("/now") || c.r.Period.From.IsZero() || zone.IsZero():
		return
	default:
		c.cutoff = zone.DayStart(c.r.Period.From)
	}
	if zone.IsZero() {
		return
	}
	c.today = calendar.DateOf(c.cutoff, zone)
	if c.r.Period.Days() > 0 && c.today.After(c.r.Period.To) {
		c.warn(CodeNowAfter, "/now", c.today.String(), "the period ended on "+c.r.Period.To.String()+": nothing is left to plan", "check now and the period")
	}
}

// date checks a date; an unset one is an error if it is needed.
func (c *checker) date(path string, d calendar.Date, needed bool) bool {
	if d.IsZero() {
		if needed {
			c.err(CodeMissing, path, "", "there is no date", "give a date such as 2026-11-08")
		}
		return !needed
	}
	if y, _, _ := d.YMD(); y < calendar.FirstYear || y > calendar.LastYear {
		c.err(CodeDate, path, d.String(), "the year is outside 1900 to 2199", "check the year")
		return false
	}
	return true
}

func (c *checker) clock(path string, t calendar.Clock) bool {
	if !t.Valid() {
		c.err(CodeClock, path, t.String(), "there is no such time of day", "give a time from 00:00 to 24:00")
		return false
	}
	return !c.unread(path)
}

// id checks an id: not empty if it is needed, not too long, printable.
func (c *checker) id(path, s string, needed bool) {
	if s == "" {
		if needed {
			c.err(CodeMissing, path, "", "there is no id", "give one")
		}
		return
	}
	c.chars(path, s, MaxIDRunes, false)
}

// words checks a free text.
func (c *checker) words(path, s string) { c.chars(path, s, MaxTextRunes, false) }

func (c *checker) chars(path, s string, most int, private bool) {
	shown := s
	if private && s != "" {
		shown = hidden
	}
	if !utf8.ValidString(s) {
		c.err(CodeEncoding, path, shown, "the text is not UTF-8", "give it as UTF-8")
		return
	}
	if utf8.RuneCountInString(s) > most {
		c.err(CodeLength, path, shown, fmt.Sprintf("more than %d characters", most), "shorten it")
	}
	if strings.ContainsRune(s, 0) {
		c.err(jsonread.CodeNUL, path, shown, "the text holds the character NUL", "remove it")
		return
	}
	if strings.IndexFunc(s, intake.Controls) >= 0 && !c.bad[strings.ToLower(path)+controlMark] {
		c.warn(CodeControl, path, shown, "the text holds a character that controls how text is shown", "remove it if it is not meant")
	}
}

// choice checks a word against the allowed ones.
func (c *checker) choice(path, word string, allowed []string) bool {
	for _, a := range allowed {
		if a == word {
			return true
		}
	}
	remedy := "use one of: " + strings.Join(allowed, ", ")
	if near, ok := jsonread.Closest(word, allowed); ok {
		remedy = "did you mean " + near + "? It is one of: " + strings.Join(allowed, ", ")
	}
	reason := "the word is not known here"
	if word == "" {
		reason = "no word is given"
	}
	c.err(CodeChoice, path, word, reason, remedy)
	return false
}

// wall resolves a wall time that people wrote. ok is false if it does not occur
// or cannot be resolved; a doubled one is a question.
func (c *checker) wall(path string, z calendar.Zone, w calendar.Wall) (ok bool) {
	return c.resolve(path, z, w, "the first is used")
}

// wallEnd is wall for an end.
func (c *checker) wallEnd(path string, z calendar.Zone, w calendar.Wall) (ok bool) {
	return c.resolve(path, z, w, "the first after the start is used")
}

func (c *checker) resolve(path string, z calendar.Zone, w calendar.Wall, used string) (ok bool) {
	if w.IsZero() {
		c.err(CodeMissing, path, "", "there is no date", "give a date and a time such as 2026-11-08T14:00")
		return false
	}
	if !c.date(path, w.Date, true) || !c.clock(path, w.Clock) || z.IsZero() {
		return false
	}
	switch r := z.Resolve(w); r.Fit {
	case calendar.Skipped:
		c.err(CodeTimeSkipped, path, w.String(), "the clock in "+z.Name()+" jumps over this time",
			"give "+z.Local(r.Earlier).String()+" or "+z.Local(r.Later).String())
		return false
	case calendar.Doubled:
		c.ask(CodeTimeDoubled, path, w.String(), "the clock in "+z.Name()+" shows this time twice: "+used,
			"move it by an hour if the second is meant")
	}
	return true
}

// hours checks opening hours or hours an athlete has.
func (c *checker) hours(path string, list []Hours) {
	if !c.most(path, len(list), MaxHours) {
		return
	}
	for i, h := range list {
		p := path + at(i)
		c.days(p+"/days", h.Days)
		fromOK, toOK := c.clock(p+"/from", h.From), c.clock(p+"/to", h.To)
		if fromOK && toOK && h.To <= h.From {
			remedy := "give a later end"
			if h.To < h.From {
				remedy = "give hours past midnight as two entries, one to 24:00 and one from 00:00"
			}
			c.err(CodeClosing, p+"/to", h.To.String(), "it closes at or before it opens at "+h.From.String(), remedy)
		}
	}
}

func (c *checker) days(path string, days []time.Weekday) {
	if len(days) == 0 {
		c.err(CodeMissing, path, "", "there are no days", "give days such as mon and thu")
	}
	c.weekdays(path, days)
}

func (c *checker) weekdays(path string, days []time.Weekday) {
	seen := map[time.Weekday]bool{}
	for i, d := range days {
		switch {
		case d < time.Sunday || d > time.Saturday:
			c.err(CodeRange, path+at(i), fmt.Sprint(int(d)), "there is no such day of the week", "use time.Sunday to time.Saturday")
		case seen[d]:
			c.warn(CodeRepeated, path+at(i), dayWord(d), "the day is named twice", "leave one out")
		}
		seen[d] = true
	}
}
