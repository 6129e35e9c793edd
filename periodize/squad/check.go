package squad

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/intake"
	"example.org/weft/periodize/season"
)

// Codes of the problems of a squad. An athlete's own problems have the codes of
// package season, with the athlete in the path.
const (
	CodeTwice          = "id-twice"
	CodeMissing        = season.CodeMissing
	CodeRange          = season.CodeRange
	CodeLimit          = season.CodeLimit
	CodeClosing        = season.CodeClosing
	CodeZones          = "zones-differ"
	CodeNoSlot         = "no-slot" // an opening shorter than a slot
	CodeAway           = "hall-away"
	CodeUnknownHall    = "hall-unknown"    // of a coach
	CodeNoRatio        = "ratio-missing"   // question
	CodeNoCoach        = "coach-missing"   // question
	CodeHallAndPlace   = "hall-and-place"  // warning: an athlete's place is a hall
	CodeNoMinutes      = "minutes-missing" // question
	CodeUnknownAthlete = "athlete-unknown" // a name of nobody
)

// ProblemCodes returns every code that a problem of this package can have, with those
// of package season, sorted.
func ProblemCodes() []string {
	all := append(season.ProblemCodes(), CodeTwice, CodeMissing, CodeRange, CodeLimit, CodeClosing, CodeZones, CodeNoSlot, CodeAway, CodeUnknownHall,
		CodeNoRatio, CodeNoCoach, CodeHallAndPlace, CodeNoMinutes, CodeUnknownAthlete)
	slices.Sort(all)
	return slices.Compact(all)
}

// checker finds all problems of a request.
type checker struct {
	r    *Request
	list []calendar.Problem
	bad  map[string]bool // paths, in small letters, that the reader of a text reported
	skip map[string]bool // paths of athletes that it could not read
}

func (c *checker) add(class calendar.Class, code, path, value, reason, remedy string) {
	for p := strings.ToLower(path); p != "" && len(c.bad) > 0; p = p[:strings.LastIndexByte(p, '/')] {
		if c.bad[p] {
			return // reported already, or what holds it
		}
	}
	c.list = append(c.list, calendar.Problem{Code: code, Class: class, Path: path, Value: value, Reason: reason, Remedy: remedy})
}

func (c *checker) err(code, path, value, reason, remedy string) {
	c.add(calendar.ClassError, code, path, value, reason, remedy)
}

// Validate returns every problem of the squad and of each athlete's request,
// errors first. Paths are JSON pointers such as /athletes/3/events/0/start.
func (r *Request) Validate() []calendar.Problem {
	c := &checker{r: r}
	c.request(MaxDays)
	return c.problems()
}

// request checks all there is, but no list that is longer than its limit.
func (c *checker) request(most int) {
	before := len(c.list)
	dated := !c.bad["/period"] && !c.bad["/period/from"] && !c.bad["/period/to"]
	if dated {
		c.period(most)
	}
	dated = dated && len(c.list) == before
	c.now()
	if len(c.r.Athletes) == 0 {
		c.err(CodeMissing, "/athletes", "", "there is no athlete", "give at least one")
	}
	if len(c.r.Halls) == 0 {
		c.err(CodeMissing, "/halls", "", "there is no hall", "give the place that is shared")
	}
	halls := c.most("/halls", len(c.r.Halls), MaxHalls)
	if halls {
		c.halls()
	}
	if c.most("/coaches", len(c.r.Coaches), MaxCoaches) && halls {
		c.coaches()
	}
	if c.most("/ratios", len(c.r.Ratios), MaxRatios) {
		c.ratios()
	}
	if c.most("/athletes", len(c.r.Athletes), MaxAthletes) && halls {
		c.athletes()
		if dated {
			c.supervision()
		}
		c.affected()
	}
	c.between("/homePoints", c.r.HomePoints, 0, 1000, "give 1 to 1000, or 0 for the default")
	c.between("/kindPoints", c.r.KindPoints, 0, mostKindPoints, "give 0 to 100")
	c.between("/movePoints", c.r.MovePoints, 0, DefaultMovePoints, "give 1 to 10000, or 0 for the default")
}

// take takes over the problems of a text that was read.
func (c *checker) take(d *decoder) {
	c.bad, c.skip = map[string]bool{}, d.failed
	type key struct{ path, code string }
	known := map[key]bool{}
	for _, p := range d.doc.Problems() {
		out := intake.Problem(p)
		if p.Line > 0 && out.Class == calendar.ClassError {
			out.Reason += fmt.Sprintf(" (line %d, column %d)", p.Line, p.Col)
		}
		c.list = append(c.list, out)
		known[key{out.Path, out.Code}] = true
		if out.Class == calendar.ClassError {
			c.bad[strings.ToLower(out.Path)] = true
		}
	}
	for _, p := range d.inner { // a fault of the text shows in the whole and in its part
		if _, ok := ofAll(p.Path); !ok && !known[key{p.Path, p.Code}] {
			c.list = append(c.list, p)
		}
	}
}

// ofAll reports whether a path of an athlete's request is one of what the squad
// shares, and what it is there.
func ofAll(path string) (string, bool) {
	rest, ok := strings.CutPrefix(path, "/athletes/")
	if !ok {
		return path, false
	}
	_, rest, _ = strings.Cut(rest, "/")
	head, _, _ := strings.Cut(rest, "/")
	return "/" + rest, head == "period" || head == "now" || head == "schema"
}

// problems returns the list, each problem once and errors first.
func (c *checker) problems() []calendar.Problem {
	seen := map[calendar.Problem]bool{}
	var out []calendar.Problem
	for _, p := range c.list {
		if !seen[p] {
			seen[p] = true
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(a, b calendar.Problem) int { return intake.Rank(a.Class) - intake.Rank(b.Class) })
	if n := len(out); n > MaxProblems {
		out = append(out[:MaxProblems], calendar.Problem{Code: season.CodeMore, Class: calendar.ClassWarning,
			Reason: fmt.Sprintf("and %d more problems", n-MaxProblems), Remedy: "mend the listed ones first"})
	}
	return out
}

// most reports whether a list is within its limit.
func (c *checker) most(path string, n, limit int) bool {
	if n > limit {
		c.err(CodeLimit, path, strconv.Itoa(n), fmt.Sprintf("more than %d entries", limit), "leave some out")
	}
	return n <= limit
}

func (c *checker) period(most int) {
	p := c.r.Period
	switch {
	case p.From.IsZero() || p.To.IsZero():
		c.err(CodeMissing, "/period", "", "the first or the last date is missing", "give both")
	case !sane(p.From):
		c.err(season.CodeDate, "/period/from", p.From.String(), "the year is outside 1900 to 2199", "check the year")
	case !sane(p.To):
		c.err(season.CodeDate, "/period/to", p.To.String(), "the year is outside 1900 to 2199", "check the year")
	case p.To.Before(p.From):
		c.err(season.CodeSpan, "/period/to", p.To.String(), "it ends before it begins on "+p.From.String(), "give a last date on or after the first")
	case p.Days() > most:
		c.err(CodeLimit, "/period/to", p.To.String(), fmt.Sprintf("the period has %d dates, the limit of a squad is %d", p.Days(), most),
			"plan four to eight weeks and roll on: the plan issued last is the start of the next")
	}
}

// sane reports whether a date is one that the zones know.
func sane(d calendar.Date) bool {
	y, _, _ := d.YMD()
	return y >= calendar.FirstYear && y <= calendar.LastYear
}

// now checks the instant before which all is past.
func (c *checker) now() {
	if t := c.r.Now; !t.IsZero() && (t.UTC().Year() <= calendar.FirstYear || t.UTC().Year() >= calendar.LastYear) {
		c.err(season.CodeInstant, "/now", strconv.Itoa(t.Year()), "the year is outside 1900 to 2199", "check the year")
	}
}

// between reports a number outside its range.
func (c *checker) between(path string, n, low, high int, remedy string) {
	if n < low || n > high {
		c.err(CodeRange, path, strconv.Itoa(n), fmt.Sprintf("outside %d to %d", low, high), remedy)
	}
}

func (c *checker) halls() {
	seen := map[string]int{}
	for i := range c.r.Halls {
		h := &c.r.Halls[i]
		path := "/halls/" + strconv.Itoa(i)
		if h.Place.ID == "" {
			c.err(CodeMissing, path+"/id", "", "the hall has no id", "name it")
		} else if j, ok := seen[h.Place.ID]; ok {
			c.err(CodeTwice, path+"/id", h.Place.ID, fmt.Sprintf("hall %d has the same id", j), "give each hall once")
		}
		seen[h.Place.ID] = i
		if h.Place.Away {
			c.err(CodeAway, path+"/away", "true", "a hall that is shared does not travel", "give away places with the athletes")
		}
		c.between(path+"/capacity", h.Capacity, 1, MaxCapacity, "give how many athletes train at a time; leave out a hall that is closed")
		c.between(path+"/slotMinutes", h.SlotMinutes, shortMinutes, MaxMinutes, "give the length of a slot, 45 to 60 minutes for a full-body session")
		c.between(path+"/changeMinutes", h.ChangeMinutes, 0, MaxMinutes, "give the minutes between two slots, 0 if none are needed")
		if len(h.Place.Hours) == 0 {
			c.err(CodeMissing, path+"/hours", "", "the hall has no opening hours", "give them: slots are cut from them")
		}
		c.hours(path+"/hours", h.Place.Hours)
		c.closed(path+"/closed", h.Place.Closed)
		for j, o := range h.Place.Hours {
			if open := int(o.To-o.From) / 60; open > 0 && open < h.SlotMinutes {
				c.add(calendar.ClassWarning, CodeNoSlot, fmt.Sprintf("%s/hours/%d", path, j), o.From.String()+"-"+o.To.String(),
					fmt.Sprintf("%d min open, a slot takes %d", open, h.SlotMinutes), "open longer, or cut shorter slots")
			}
		}
	}
}

func (c *checker) hours(path string, hours []season.Hours) {
	c.most(path, len(hours), season.MaxHours)
	for i, h := range hours {
		at := fmt.Sprintf("%s/%d", path, i)
		if !h.From.Valid() || !h.To.Valid() {
			c.err(season.CodeClock, at, "", "not a time of day", "use 00:00 to 24:00")
		} else if h.To <= h.From {
			c.err(CodeClosing, at+"/to", h.To.String(), "it closes at or before it opens at "+h.From.String(), "give a closing time after the opening, or two entries for a night")
		}
		if len(h.Days) == 0 {
			c.err(CodeMissing, at+"/days", "", "no days are given", "name at least one")
		}
	}
}

func (c *checker) closed(path string, spans []season.Period) {
	c.most(path, len(spans), season.MaxClosed)
	for i, p := range spans {
		if !p.From.IsZero() && !sane(p.From) || !p.To.IsZero() && !sane(p.To) {
			c.err(season.CodeDate, fmt.Sprintf("%s/%d", path, i), p.From.String()+" "+p.To.String(), "the year is outside 1900 to 2199", "check the year")
		} else if p.Days() == 0 {
			c.err(season.CodeSpan, fmt.Sprintf("%s/%d", path, i), p.From.String()+" "+p.To.String(), "a date is missing, or it ends before it begins", "give both dates in order")
		}
	}
}

func (c *checker) coaches() {
	seen := map[string]bool{}
	for i := range c.r.Coaches {
		x := &c.r.Coaches[i]
		path := "/coaches/" + strconv.Itoa(i)
		switch {
		case x.ID == "":
			c.err(CodeMissing, path+"/id", "", "the coach has no id", "give one, no name is needed")
		case seen[x.ID]:
			c.err(CodeTwice, path+"/id", x.ID, "the same coach stands here twice", "give one entry with all hours: a coach watches one hall")
		}
		seen[x.ID] = true
		known := func(h Hall) bool { return h.Place.ID == x.Hall }
		if x.Hall == "" && len(c.r.Halls) > 1 {
			c.err(CodeMissing, path+"/hall", "", "there are several halls", "say which one this coach watches")
		} else if x.Hall != "" && !slices.ContainsFunc(c.r.Halls, known) {
			c.err(CodeUnknownHall, path+"/hall", x.Hall, "there is no such hall", "use the id of a hall of the list")
		}
		c.hours(path+"/hours", x.Hours)
		c.closed(path+"/away", x.Away)
	}
}

func (c *checker) ratios() {
	seen := map[int]bool{}
	for i, x := range c.r.Ratios {
		path := "/ratios/" + strconv.Itoa(i)
		c.between(path+"/athletes", x.Athletes, 1, MaxCapacity, "give how many athletes one coach may watch")
		c.between(path+"/under", x.Under, 0, 100, "give an age in years, 0 for all")
		if seen[x.Under] {
			c.err(CodeTwice, path+"/under", strconv.Itoa(x.Under), "this age stands here twice", "give each age once")
		}
		seen[x.Under] = true
	}
}

// affected checks the names of Affected.
func (c *checker) affected() {
	known := map[string]bool{}
	for i := range c.r.Athletes {
		known[c.r.Athletes[i].id()] = true
	}
	for i, id := range c.r.Affected {
		if !known[id] && len(c.skip) == 0 {
			c.err(CodeUnknownAthlete, "/affected/"+strconv.Itoa(i), id, "there is no such athlete", "use the id of an athlete of the squad")
		}
	}
}
