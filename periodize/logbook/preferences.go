package logbook

import (
	"hash/fnv"
	"strconv"
	"strings"
	"time"

	"example.org/weft/periodize/season"
)

// remarkPoints is what a session costs that somebody would rather not have: less
// than what convenience may cost in a week. Common practice, no source.
const remarkPoints = 15

// Preference is what a person's note makes of the placing of sessions: a small
// price, never a ban. It goes when its note is voided or replaced.
type Preference struct {
	Rule   season.ClubRule // for a request's Club
	Entry  string          // id of the note
	Source Source          // role of who wrote it
	Told   time.Time
}

// Preferences are the notes that name a kind of session or days of the week, as
// rules that a request carries: each such session on such a day costs a little. A
// note's own words are not repeated, since they may tell of health: its rule says
// who wrote it, when, and what it does. Of more than a request may carry the
// newest are taken.
//
// Notes that name neither change nothing; each is listed in unplaced.
func (v View) Preferences() (list []Preference, unplaced []season.Note) {
	for i := range v.Entries {
		e := &v.Entries[i]
		r, ok := e.What.(Remark)
		if !ok {
			continue
		}
		if r.Session == "" && len(r.Days) == 0 {
			n := note("remark-unplaced", "source", string(e.Source), "whom", byWhom(e.Source), "date", e.Date(), "entry", e.ID)
			n.Subject.Dates = append(n.Subject.Dates, e.Date())
			unplaced = append(unplaced, n)
			continue
		}
		kind, days := "session", ""
		rule := season.ClubRule{ID: "note-" + shortID(e.ID), Shape: season.ClubCost, Points: remarkPoints}
		if r.Session != "" {
			rule.Kinds, kind = []season.Kind{r.Session}, string(r.Session)
		}
		for _, d := range weekdays {
			for _, x := range r.Days {
				if x == d {
					rule.Days = append(rule.Days, d)
					days += " " + d.String()
				}
			}
		}
		if days != "" {
			days = " on" + days
		}
		rule.Says = note("remark-rule", "source", string(e.Source), "whom", byWhom(e.Source), "date", e.Date(), "kind", kind, "days", days).Text
		list = append(list, Preference{rule, e.ID, e.Source, e.Recorded})
	}
	if n := len(list); n > season.MaxClubRules {
		list = list[n-season.MaxClubRules:]
	}
	return list, unplaced
}

var weekdays = [...]time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday}

func byWhom(s Source) string {
	if s == "" {
		return "somebody"
	}
	return "the " + string(s)
}

// shortID names an entry within the letters that ids of rules have.
func shortID(id string) string {
	h := fnv.New64a()
	_, _ = h.Write([]byte(id))
	s := strconv.FormatUint(h.Sum64(), 36)
	return strings.Repeat("0", 13-len(s)) + s
}
