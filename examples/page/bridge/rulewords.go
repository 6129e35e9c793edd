package bridge

import (
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// short are the rules as a coach says them in passing. The whole sentence, with
// its number and source, stands among the rules of the request.
var short = map[string]string{
	"important-48h":    "nothing heavy for the legs in the last days before an important game",
	"empty-run":        "no long run of empty dates",
	"week-full-body":   "one full-body session in the week",
	"second-lift":      "two lifts in the week",
	"primer-important": "a primer before an important game",
	"primer":           "a primer before the game",
	"second-full-body": "a second full-body session in the week",
	"recovery-after":   "recovery on the day after the game",
	"recovery-count":   "two to three recovery sessions in the week",
	"break-session":    "the fuller weeks of a break",
	"near-game":        "heavy work well away from the game",
	"size":             "the fuller kind of session",
	"primer-timing":    "the best hour for a primer",
	"start-time":       "the best start of the day",
	"practice-order":   "lifting before practice, or well after it",
	"hard-day":         "no full session on the day of a hard practice",
	"lift-run":         "no long run of dates without a lift",
	"change":           "what was handed out stays",

	"heavy-before-game":     "heavy work for the legs, too near the game",
	"full-before-game":      "a full-size session, too near the game",
	"eccentric-before-game": "an eccentric session, too near the game",
	"primer-window":         "not in the hours before a game that suit a primer",
	"between-games":         "two games close together, with room for recovery only",
	"game-date":             "the day of a game",
	"after-game":            "too soon after the game",
	"post-game":             "no game just before, no place open, or not opted in",
	"post-game-next":        "the next game follows too soon",
	"event-overlap":         "the time is taken",
	"open-hours":            "outside the hours there are",
	"latest-end":            "it would end too late",
	"sleep":                 "too little sleep after a late end",
	"sessions-a-date":       "a session stands there already",
	"exam-date":             "exams",
	"exam-minutes":          "exams leave room for a short session only",
	"exam-count":            "sessions on exam dates are few",
	"hold":                  "on hold until a clinician clears it",
	"lifts-in-7":            "enough lifts within seven dates",
	"heavy-gap":             "legs need longer between two heavy sessions",
	"minor-lift-dates":      "under 18 no lifts on two dates in a row",
	"free-date":             "a date kept free, under 18",
	"no-free-date":          "few sessions where no date is free, under 18",
	"long-haul":             "a long journey just behind",
	"double-fixture":        "two games on the day before, under 18",
	"session-length":        "the room is too short",
	"eccentric-place":       "eccentric work is for the first half of a break, and for trained adults",
	"eccentric-count":       "enough eccentric sessions in the week",
}

// names are what people call the events and the club's own rules of a request.
type names struct{ events, rules map[string]string }

func namesOf(req *season.Request) names {
	n := names{events: eventNames(placed(req)), rules: map[string]string{}}
	for _, r := range req.Club {
		n.rules[r.ID] = calendar.Inert(r.Says)
		if r.Says == "" {
			n.rules[r.ID] = lower(clubText(r))
		}
	}
	return n
}

// rule says a rule in a few words.
func (n names) rule(id string) string {
	if w := n.rules[id]; w != "" {
		return w
	}
	for _, x := range []string{id, rule.Family(id)} {
		if w, ok := short[x]; ok {
			return w
		}
	}
	if r, ok := rule.Find(id); ok && r.Doc != "" {
		return r.Doc
	}
	return strings.ReplaceAll(calendar.Inert(id), "-", " ")
}

// because is the cause of a change in words, with the names of games.
func (names names) because(n season.Note) string {
	event := names.events[n.Subject.Event]
	switch n.Code {
	case "cause-limit", "cause-limit-alone":
		if event != "" {
			return names.rule(n.Rule) + " (" + event + ")"
		}
		return names.rule(n.Rule)
	case "cause-game-moved", "cause-game-gone", "cause-game-new":
		if event != "" {
			return "because of " + event
		}
		return "because a game is gone"
	}
	return calendar.Inert(n.Text)
}
