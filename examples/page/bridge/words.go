package bridge

import (
	"fmt"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

var kindWords = map[season.Kind]string{
	season.FullBody: "Full-body", season.Trimmed: "Trimmed full-body", season.Primer: "Primer",
	season.Recovery: "Recovery", season.PostGame: "Post-game", season.Eccentric: "Eccentric",
}

func kindWord(k season.Kind) string {
	if w, ok := kindWords[k]; ok {
		return w
	}
	return string(k)
}

var optInWords = map[season.OptIn]string{
	season.OptPostGame:   "30 minutes straight after a game, where a place is open",
	season.OptLowRepSets: "main lifts of 3 to 5 repetitions, after three years of training",
}

var stateWords = map[season.State]string{
	season.AsWritten: "as written", season.Eased: "eased", season.Swapped: "swapped", season.Held: "held", season.DoneState: "done",
}

func eventWord(e calendar.Event) string {
	switch e.Kind {
	case calendar.Game:
		return "Game"
	case calendar.Practice:
		if e.Hard {
			return "Hard practice"
		}
		return "Practice"
	case calendar.Skills:
		return "Skills practice"
	case calendar.Travel:
		return "Trip"
	case calendar.Exam:
		return "Exam"
	case calendar.Closure:
		return "Closed"
	}
	return "Busy"
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

func monthName(d calendar.Date) string {
	_, m, _ := d.YMD()
	return time.Month(m).String()
}

// dayText is "Mon 5 Sep".
func dayText(d calendar.Date) string {
	_, _, day := d.YMD()
	return fmt.Sprintf("%s %d %s", d.Weekday().String()[:3], day, monthName(d)[:3])
}

// spanText is "5–9 Sep 2026", "28 Sep – 4 Oct 2026", or with both years.
func spanText(from, to calendar.Date) string {
	y, _, b := to.YMD()
	x, _, a := from.YMD()
	switch {
	case x != y:
		return fmt.Sprintf("%d %s %d – %d %s %d", a, monthName(from)[:3], x, b, monthName(to)[:3], y)
	case from == to:
		return fmt.Sprintf("%d %s %d", b, monthName(to)[:3], y)
	case monthName(from) == monthName(to):
		return fmt.Sprintf("%d–%d %s %d", a, b, monthName(to)[:3], y)
	}
	return fmt.Sprintf("%d %s – %d %s %d", a, monthName(from)[:3], b, monthName(to)[:3], y)
}

func countOf(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
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
