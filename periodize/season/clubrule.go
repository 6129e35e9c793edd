package season

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"example.org/weft/calendar"
)

// ClubRule is a rule of one club or athlete, as data: a request carries it, and
// it is planned with as exactly as the table's. Which sessions it is about is said
// by Kinds, Days and clock times; what is left empty picks all.
type ClubRule struct {
	ID    string // lower-case words joined by hyphens, none of the table's
	Says  string // the limit or aim in words, printed where it is missed
	Shape ClubShape

	Kinds []Kind
	Days  []time.Weekday
	From  calendar.Clock // sessions that take any time of From to To; both 0 is any
	To    calendar.Clock

	// Points is what each session of too much costs, 1 to 10,000; 0 makes the rule
	// a limit. ClubCost and ClubAtLeast need it; ClubForbid and ClubAfter are
	// limits.
	Points int
	// Minutes that must pass, for ClubAfter and ClubApart.
	Minutes int
	// Most sessions in any run of Dates dates, 1 to 10, for ClubAtMost.
	Most int
	// Least dates with such a session in any run of Dates dates, for ClubAtLeast: 1
	// to 3, in a run of 2 to 60 dates, for three of them up to 28.
	Least int
	Dates int
	// Before are dates before the period on which there was such a session, for
	// ClubAtLeast. A run that reaches back behind the earliest of them, or without
	// them behind the period, is not judged: what was there is not known.
	Before []calendar.Date
	// EventKind and EventTitle pick the events of ClubAfter, by either or both, and
	// those that count for ClubAtLeast as a session does.
	EventKind  calendar.Kind
	EventTitle string
}

// ClubShape is what a club's rule does.
type ClubShape string

// The shapes.
const (
	ClubForbid  ClubShape = "forbid"   // no such session
	ClubCost    ClubShape = "cost"     // each costs Points
	ClubAfter   ClubShape = "after"    // none within Minutes of the end of an event, on the date it began or the next
	ClubAtMost  ClubShape = "at-most"  // at most Most in any Dates dates
	ClubApart   ClubShape = "apart"    // at least Minutes from the end of one to the start of the next
	ClubAtLeast ClubShape = "at-least" // on Least of any Dates dates or more, else their last costs Points
)

// ClubShapes returns all shapes.
func ClubShapes() []ClubShape {
	return []ClubShape{ClubForbid, ClubCost, ClubAfter, ClubAtMost, ClubApart, ClubAtLeast}
}

// Limits of a club's rule.
const (
	MaxClubRules   = 20
	MaxClubPoints  = 10_000
	MaxClubDates   = 10 // of ClubAtMost
	MaxClubMost    = 6
	MaxClubLeast   = 3
	MaxClubRun     = 60          // dates of ClubAtLeast
	MaxClubRun3    = 28          // for three of them
	MaxClubBefore  = 60          // dates before the period
	MaxClubMinutes = 7 * 24 * 60 // of ClubApart
	MaxClubAfter   = 24 * 60     // minutes of ClubAfter
)

func (r ClubRule) canonical() ClubRule {
	r.Days = canonicalDays(r.Days)
	r.Kinds = uniqueKey(r.Kinds, func(k Kind) string { return string(k) })
	r.Before = uniqueKey(r.Before, calendar.Date.String)
	return r
}

// clubNumber is a number of a rule, which only some shapes take.
type clubNumber struct {
	field       string
	value       int
	least, most int
	in          []ClubShape
	optional    bool
}

func (r ClubRule) numbers() []clubNumber {
	minutes, shortest, longest := MaxClubMinutes, 1, MaxClubDates
	if r.Shape == ClubAfter {
		minutes = MaxClubAfter
	}
	if r.Shape == ClubAtLeast {
		shortest, longest = 2, MaxClubRun
		if r.Least >= MaxClubLeast {
			longest = MaxClubRun3
		}
	}
	return []clubNumber{
		{"points", r.Points, 1, MaxClubPoints, []ClubShape{ClubCost, ClubAtMost, ClubApart, ClubAtLeast}, r.Shape != ClubCost && r.Shape != ClubAtLeast},
		{"minutes", r.Minutes, 1, minutes, []ClubShape{ClubAfter, ClubApart}, false},
		{"most", r.Most, 0, MaxClubMost, []ClubShape{ClubAtMost}, false},
		{"least", r.Least, 1, MaxClubLeast, []ClubShape{ClubAtLeast}, false},
		{"dates", r.Dates, shortest, longest, []ClubShape{ClubAtMost, ClubAtLeast}, false},
	}
}

func (c *checker) clubRules() {
	seen := map[string]int{}
	for i, r := range c.r.Club {
		path := at("club", i)
		c.id(path+"/id", r.ID, true)
		c.words(path+"/says", r.Says)
		var shapes []string
		for _, s := range ClubShapes() {
			shapes = append(shapes, string(s))
		}
		if !c.unread(path + "/shape") {
			if c.choice(path+"/shape", string(r.Shape), shapes) {
				c.clubNumbers(path, r)
				c.clubBefore(path, r)
			}
		}
		for j, k := range r.Kinds {
			c.choice(path+at("kinds", j), string(k), sessionKinds())
		}
		c.weekdays(path+"/days", r.Days)
		if r.From != 0 || r.To != 0 {
			fromOK, toOK := c.clock(path+"/from", r.From), c.clock(path+"/to", r.To)
			if fromOK && toOK && r.To <= r.From {
				c.err(CodeClosing, path+"/to", r.To.String(), "it ends at or before it begins at "+r.From.String(), "give hours past midnight as two rules, one to 24:00 and one from 00:00")
			}
		}
		c.words(path+"/event/title", r.EventTitle)
		if r.EventKind != "" {
			var kinds []string
			for _, k := range calendar.Kinds() {
				kinds = append(kinds, string(k))
			}
			c.choice(path+"/event/kind", string(r.EventKind), kinds)
		}
		if j, ok := seen[r.ID]; ok && r.ID != "" {
			var enc encoder
			if enc.text(wireClubOf(r.canonical())) == enc.text(wireClubOf(c.r.Club[j].canonical())) {
				c.warn(CodeRepeated, path+"/id", r.ID, "the same rule stands at "+at("club", j)+": it is used once", "leave one out")
			} else {
				c.err(CodeIDTwice, path+"/id", r.ID, "the rule at "+at("club", j)+" has the same id and other content", "give each rule an id of its own")
			}
			continue
		}
		seen[r.ID] = i
	}
}

func (c *checker) clubNumbers(path string, r ClubRule) {
	for _, n := range r.numbers() {
		where := path + "/" + n.field
		switch {
		case c.unread(where):
		case !slices.Contains(n.in, r.Shape):
			if n.value != 0 {
				c.err(CodeContradiction, where, fmt.Sprint(n.value), "a rule of the shape "+string(r.Shape)+" has no "+n.field, "leave it out, or choose another shape")
			}
		case n.value == 0 && n.optional:
		case n.value < n.least || n.value > n.most:
			c.err(CodeRange, where, fmt.Sprint(n.value), fmt.Sprintf("outside %d to %d", n.least, n.most), "give a number in between")
		}
	}
	event := r.EventKind != "" || r.EventTitle != ""
	switch {
	case c.unread(path + "/event"):
	case r.Shape == ClubAfter && !event && !c.unread(path+"/event/kind") && !c.unread(path+"/event/title"):
		c.err(CodeMissing, path+"/event", "", "no event is named", `give {"kind": ...}, {"title": ...} or both`)
	case r.Shape != ClubAfter && r.Shape != ClubAtLeast && event:
		c.err(CodeContradiction, path+"/event", r.EventTitle, "a rule of the shape "+string(r.Shape)+" has no event", "leave it out, or choose the shape after")
	}
}

func (c *checker) clubBefore(path string, r ClubRule) {
	if len(r.Before) == 0 {
		return
	}
	if r.Shape != ClubAtLeast {
		c.err(CodeContradiction, path+"/before", "", "a rule of the shape "+string(r.Shape)+" has no dates before", "leave them out, or choose the shape at-least")
		return
	}
	if !c.most(path+"/before", len(r.Before), MaxClubBefore) {
		return
	}
	for i, d := range r.Before {
		where := path + at("before", i)
		if c.date(where, d, true) && !c.r.Period.From.IsZero() && !d.Before(c.r.Period.From) {
			c.warn(CodeBeforeUnused, where, d.String(), "it is not before the period, whose sessions count by themselves: it is not used", "leave it out, or log the session")
		}
	}
}

// MarshalJSON writes the rule as it stands in a request. What no reader takes is
// written as it is; [Request.MarshalJSON] finds it.
func (r ClubRule) MarshalJSON() ([]byte, error) { return json.Marshal(wireClubOf(r)) }

type wireClubRule struct {
	ID      string         `json:"id"`
	Says    string         `json:"says,omitempty"`
	Shape   string         `json:"shape"`
	Kinds   []Kind         `json:"kinds,omitempty"`
	Days    []string       `json:"days,omitempty"`
	From    string         `json:"from,omitempty"`
	To      string         `json:"to,omitempty"`
	Points  int            `json:"points,omitempty"`
	Minutes int            `json:"minutes,omitempty"`
	Most    *int           `json:"most,omitempty"`
	Least   int            `json:"least,omitempty"`
	Dates   int            `json:"dates,omitempty"`
	Before  []string       `json:"before,omitempty"`
	Event   *wireClubEvent `json:"event,omitempty"`
}

type wireClubEvent struct {
	Kind  string `json:"kind,omitempty"`
	Title string `json:"title,omitempty"`
}

func wireClubOf(r ClubRule) wireClubRule {
	w := wireClubRule{ID: r.ID, Says: r.Says, Shape: string(r.Shape), Kinds: r.Kinds, Days: each(r.Days, dayWord),
		Points: r.Points, Minutes: r.Minutes, Least: r.Least, Dates: r.Dates, Before: each(r.Before, calendar.Date.String)}
	if r.From != 0 || r.To != 0 {
		w.From, w.To = r.From.String(), r.To.String()
	}
	if r.Shape == ClubAtMost || r.Most != 0 {
		w.Most = clonePointer(&r.Most)
	}
	if r.EventKind != "" || r.EventTitle != "" {
		w.Event = &wireClubEvent{string(r.EventKind), r.EventTitle}
	}
	return w
}
