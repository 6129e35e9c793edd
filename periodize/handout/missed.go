package handout

import (
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// aims are those that people miss, the dearest first; the small conveniences are
// none.
var aims = []struct{ id, word string }{
	{"important-48h", "no heavy leg work in the 48 h before an important game"},
	{"empty-run", "no pause longer than 3 dates"},
	{"week-full-body", "a full-body session"},
	{"second-lift", "a second lift"},
	{"break-session", "a third full-body session in the break"},
	{"primer-important", "a primer on the day before the game"},
	{"primer", "a primer on the day before the game"},
	{"second-full-body", "a second full-body session"},
	{"recovery-after", "recovery on the day after the game"},
	{"recovery-count", "two recovery sessions"},
	{"lift-run", "no longer pause without a lift"},
}

// wayWords are the limits that stand in the way most. What is about health has
// no word here: "hold" is left out.
var wayWords = map[string]string{
	"heavy-before-game": "the next game is too near",
	"full-before-game":  "the next game is too near",
	"primer-window":     "not 12 to 36 h before it",
	"between-games":     "two games too close together",
	"game-date":         "it is a game date",
	"after-game":        "the last game is too near",
	"event-overlap":     "the time is taken",
	"open-hours":        "no open hours",
	"latest-end":        "it would end too late",
	"sleep":             "sleep comes first",
	"sessions-a-date":   "one session a date",
	"exam-date":         "exams",
	"exam-minutes":      "exams",
	"exam-count":        "exams",
	"long-haul":         "a long trip",
	"lifts-in-7":        "enough lifts in 7 dates",
	"lifts-a-date":      "one lift a date",
	"heavy-gap":         "heavy leg work needs a gap",
	"minor-lift-dates":  "no lifts on successive dates under 18",
	"free-date":         "a free date is kept",
	"no-free-date":      "a free date is kept",
	"double-fixture":    "two games on one date",
	"session-length":    "too little room",
}

// missedIn says which aims of some dates were not kept, the dearest first, and
// what stood in the way.
func (b *Book) missedIn(from, to calendar.Date) (out []string) {
	for _, a := range aims {
		for _, m := range b.plan.Missed {
			if m.Aim != a.id || m.To.Before(from) || m.From.After(to) {
				continue
			}
			if s := b.missText(a.word, m); !slices.Contains(out, s) {
				out = append(out, s)
			}
		}
	}
	return out
}

func (b *Book) missText(out string, m season.Missed) string {
	if e, ok := b.byID[m.Event]; ok {
		out += " (" + b.name(e) + ", " + say.Day(e.Date) + ")"
	} else if m.From == m.To {
		out += " (" + say.Day(m.From) + ")"
	}
	var ways []string
	for _, w := range m.InTheWay {
		word := wayWords[rule.Family(w.Rule)]
		if word != "" && !strings.Contains(strings.Join(ways, "; "), word) {
			ways = append(ways, word)
		}
	}
	if len(ways) > 2 {
		ways = ways[:2]
	}
	if len(ways) > 0 {
		out += ": " + strings.Join(ways, "; ")
	}
	return out
}
