package say

import (
	"fmt"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Kind is what people call a kind of session.
func Kind(k season.Kind) string {
	if k == season.Trimmed {
		return "trimmed full-body"
	}
	return string(k) // the others are their own words
}

// Event is what people call a kind of event.
func Event(e calendar.Event) string {
	switch e.Kind {
	case calendar.Practice:
		if e.Hard {
			return "hard practice"
		}
		return "practice"
	case calendar.Skills:
		return "skills practice"
	case calendar.Closure:
		return "closed"
	}
	return string(e.Kind)
}

// Name is what people call an event: its opponent, title or id, in at most so
// many characters; else "the" and a word for its kind.
func Name(e calendar.Event, word string, most int) string {
	n := e.Opponent
	if n == "" {
		n = e.Title
	}
	if n == "" {
		n = e.ID
	}
	if n == "" || n == e.ContentID() {
		n = "the " + word
	}
	return Clip(n, most)
}

// Where is the name of a game with its place: "at Brakhavn", "Tornby, home".
func Where(name, home string) string {
	switch home {
	case calendar.AtAway:
		return "at " + name
	case calendar.AtHome, calendar.AtNeutral:
		return name + ", " + home
	}
	return name
}

// ToGame is "50 h to Brakhavn", or "8 days to Brakhavn" for a week and more.
func ToGame(gap time.Duration, name string) string {
	h := Hours(gap)
	if h >= 24*7 {
		return fmt.Sprintf("%d days to %s", h/24, name)
	}
	return fmt.Sprintf("%d h to %s", h, name)
}

// UsualPlace is the place of most sessions, the first by name of several: where
// none is named, it is meant.
func UsualPlace(sessions []season.Session) (usual string) {
	n := map[string]int{}
	for _, s := range sessions {
		n[s.Place]++
	}
	for p, k := range n {
		if k > n[usual] || k == n[usual] && p < usual {
			usual = p
		}
	}
	return usual
}
