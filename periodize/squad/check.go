package squad

import (
	"fmt"
	"slices"
	"strconv"

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

// checker finds all problems of a request.
type checker struct {
	r    *Request
	list []calendar.Problem
}

func (c *checker) add(class calendar.Class, code, path, value, reason, remedy string) {
	c.list = append(c.list, calendar.Problem{Code: code, Class: class, Path: path, Value: value, Reason: reason, Remedy: remedy})
}

func (c *checker) err(code, path, value, reason, remedy string) {
	c.add(calendar.ClassError, code, path, value, reason, remedy)
}

// Validate returns every problem of the squad and of each athlete's request,
// errors first. Paths are JSON pointers such as /athletes/3/events/0/start.
func (r *Request) Validate() []calendar.Problem {
	c := &checker{r: r}
	c.period()
	c.most("/athletes", len(r.Athletes), MaxAthletes)
	c.most("/halls", len(r.Halls), MaxHalls)
	c.most("/coaches", len(r.Coaches), MaxCoaches)
	c.most("/ratios", len(r.Ratios), MaxRatios)
	if len(r.Athletes) == 0 {
		c.err(CodeMissing, "/athletes", "", "there is no athlete", "give at least one")
	}
	if len(r.Halls) == 0 {
		c.err(CodeMissing, "/halls", "", "there is no hall", "give the place that is shared")
	}
	if len(c.list) == 0 { // lists of any length are only looked at within their limits
		c.halls()
		c.coaches()
		c.ratios()
		c.athletes()
		c.supervision()
		c.points()
	}
	slices.SortStableFunc(c.list, func(a, b calendar.Problem) int { return intake.Rank(a.Class) - intake.Rank(b.Class) })
	if n := len(c.list); n > MaxProblems {
		c.list = append(c.list[:MaxProblems], calendar.Problem{Code: season.CodeMore, Class: calendar.ClassWarning,
			Reason: fmt.Sprintf("and %d more problems", n-MaxProblems), Remedy: "mend the listed ones first"})
	}
	return c.list
}

func (c *checker) most(path string, n, limit int) {
	if n > limit {
		c.err(CodeLimit, path, strconv.Itoa(n), fmt.Sprintf("more than %d entries", limit), "leave some out")
	}
}

func (c *checker) period() {
	p := c.r.Period
	switch {
	case p.From.IsZero() || p.To.IsZero():
		c.err(CodeMissing, "/period", "", "the first or the last date is missing", "give both")
	case p.To.Before(p.From):
		c.err(season.CodeSpan, "/period/to", p.To.String(), "it ends before it begins on "+p.From.String(), "give a last date on or after the first")
	case p.Days() > MaxDays:
		c.err(CodeLimit, "/period/to", p.To.String(), fmt.Sprintf("the period has %d dates, the limit of a squad is %d", p.Days(), MaxDays),
			"plan four to eight weeks and roll on: the plan issued last is the start of the next")
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
		if p.Days() == 0 {
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

func (c *checker) points() {
	c.between("/homePoints", c.r.HomePoints, 0, 1000, "give 1 to 1000, or 0 for the default")
	c.between("/movePoints", c.r.MovePoints, 0, DefaultMovePoints, "give 1 to 10000, or 0 for the default")
	known := map[string]bool{}
	for i := range c.r.Athletes {
		known[c.r.Athletes[i].id()] = true
	}
	for i, id := range c.r.Affected {
		if !known[id] {
			c.err(CodeUnknownAthlete, "/affected/"+strconv.Itoa(i), id, "there is no such athlete", "use the id of an athlete of the squad")
		}
	}
}
