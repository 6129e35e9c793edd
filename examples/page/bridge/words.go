package bridge

import (
	"fmt"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// On the page sessions and events are headings, so that their words begin with a
// capital letter.

func kindWord(k season.Kind) string { return upper(say.Kind(k)) }

func eventWord(e calendar.Event) string {
	if e.Kind == calendar.Travel {
		return "Trip"
	}
	return upper(say.Event(e))
}

var optInWords = map[season.OptIn]string{
	season.OptPostGame:   "30 minutes straight after a game, where a place is open",
	season.OptLowRepSets: "main lifts of 3 to 5 repetitions, after three years of training",
}

var stateWords = map[season.State]string{
	season.AsWritten: "as written", season.Eased: "eased", season.Swapped: "swapped", season.Held: "held", season.DoneState: "done",
}

// name is what people call an event.
func name(e calendar.Event) string {
	text := e.Title
	if e.Kind == calendar.Game {
		text = e.Opponent
		if text == "" {
			text = e.Title
		}
		if e.Home == calendar.AtAway && text != "" {
			text = "at " + text
		}
	}
	return calendar.Inert(strings.Join(strings.Fields(text), " "))
}

func gameNotes(e calendar.Event) string {
	var parts []string
	if e.Competition != "" {
		parts = append(parts, calendar.Inert(e.Competition))
	}
	if e.Importance == calendar.Important {
		parts = append(parts, "important")
	}
	switch e.Status.Settled() {
	case calendar.Provisional:
		parts = append(parts, "provisional")
	case calendar.IfNecessary:
		parts = append(parts, "only if necessary")
	case calendar.Postponed:
		parts = append(parts, "postponed")
	case calendar.Cancelled:
		parts = append(parts, "cancelled")
	}
	return strings.Join(parts, ", ")
}

// spanText is "5–9 Sep 2026", "28 Sep – 4 Oct 2026", or with both years.
func spanText(from, to calendar.Date) string {
	x, _, _ := from.YMD()
	y, _, _ := to.YMD()
	switch {
	case x != y:
		return fmt.Sprintf("%s %d – %s %d", say.Short(from), x, say.Short(to), y)
	case from == to:
		return fmt.Sprintf("%s %d", say.Short(to), y)
	case say.Month(from) == say.Month(to):
		return fmt.Sprintf("%d–%s %d", say.DayOf(from), say.Short(to), y)
	}
	return fmt.Sprintf("%s – %s %d", say.Short(from), say.Short(to), y)
}

func listOf(parts []string) string {
	switch len(parts) {
	case 0:
		return ""
	case 1:
		return parts[0]
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

func notes(list []season.Note) []string {
	out := make([]string, 0, len(list))
	for _, n := range list {
		out = append(out, calendar.Inert(n.Text))
	}
	return out
}

// lower begins a word with a small letter.
func lower(s string) string { return strings.ToLower(s[:min(1, len(s))]) + s[min(1, len(s)):] }

// upper begins a word with a capital letter.
func upper(s string) string { return strings.ToUpper(s[:min(1, len(s))]) + s[min(1, len(s)):] }
