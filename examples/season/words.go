package main

import (
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// shortWhy is the phrase of a reason where its numbers stand beside it already.
var shortWhy = map[string]string{
	"why-first-full-body":  "first full-body",
	"why-second-full-body": "second full-body",
	"why-full-body-open":   "full-body, no game known after it",
	"why-extra-full-body":  "one more, there is room",
	"why-trimmed":          "one set less, the game is near",
	"why-trimmed-after":    "one set less, soon after the game",
	"why-primer":           "fresh for the game",
	"why-primer-late":      "fresh, less than 24 h before",
	"why-recovery-after":   "the day after the game",
	"why-recovery-between": "easy and short between two games",
	"why-recovery-count":   "one of the week's 2 to 3",
	"why-recovery-run":     "keeps a run of empty dates short",
	"why-post-game":        "straight after the game",
	"why-post-game-open":   "straight after the game",
	"why-eccentric":        "first half of the break",
	"why-second-lift":      "second lift of the week",
	"why-short-exam":       "short, because of the exam",
}

// telling orders the reasons of which one is shown: a lower one says more.
var telling = map[string]int{
	"why-pinned": -4, "why-short-exam": -3, "why-trimmed": -2, "why-trimmed-after": -2, "why-trimmed-hard": -2, "why-trimmed-short": -2, "why-eccentric": -1,
}

// whyWords is the one short phrase of a session.
func whyWords(s *season.Session) string {
	best := -1
	for i, n := range s.Why {
		if n.Code == "why-done" {
			continue // its state says so
		}
		if best < 0 || telling[n.Code] < telling[s.Why[best].Code] {
			best = i
		}
	}
	if best < 0 {
		return ""
	}
	if w, ok := shortWhy[s.Why[best].Code]; ok {
		return w
	}
	return s.Why[best].Text
}

// aimWords are the aims as a coach says them.
var aimWords = map[string]string{
	"important-48h":    "no heavy lower-body work in the 48 h before an important game",
	"empty-run":        "no long run of empty dates",
	"week-full-body":   "a full-body session in each week",
	"second-lift":      "two lifts in each week",
	"primer-important": "a primer on the day before an important game",
	"primer":           "a primer on the day before a game",
	"second-full-body": "a second full-body session in each week",
	"recovery-after":   "recovery on the day after a game",
	"recovery-count":   "2 to 3 recovery sessions in each week",
	"break-session":    "3 full-body sessions in a week of a break",
	"near-game":        "heavy lower-body work 48 h and more before a game",
	"size":             "the larger session where it is allowed",
	"primer-timing":    "a primer 24 h and more before its game",
	"start-time":       "a start near the preferred hour",
	"practice-order":   "a lift before the practice of its date, or 3 h after",
	"hard-day":         "no full-size session on the date of a hard practice",
	"lift-run":         "no long run of dates without a lift",
}

// limitWords are the limits that stand in the way most.
var limitWords = map[string]string{
	"heavy-before-game": "too near the game for heavy lower-body work",
	"full-before-game":  "too near the game for a full-size session",
	"primer-window":     "outside the 12 to 36 h before the game",
	"between-games":     "between two games less than 24 h apart",
	"game-date":         "the date of a game",
	"after-game":        "too soon after the game",
	"post-game":         "no post-game session possible",
	"event-overlap":     "the time is taken",
	"open-hours":        "outside the open hours",
	"latest-end":        "it would end too late",
	"sleep":             "sleep after a late end",
	"sessions-a-date":   "one session a date",
	"exam-date":         "exams",
	"exam-minutes":      "exams",
	"exam-count":        "few sessions on exam dates",
	"hold":              "on hold",
	"lifts-in-7":        "no more lifts in any 7 dates",
	"heavy-gap":         "rest between heavy lower-body sessions",
	"minor-lift-dates":  "minors do not lift on consecutive dates",
	"free-date":         "a free date for a minor",
	"no-free-date":      "few sessions where a minor has no free date",
	"long-haul":         "a long journey just before",
	"double-fixture":    "two games the day before",
	"session-length":    "the room is too short",

	"eccentric-before-game": "too near the game for an eccentric session",
	"eccentric-place":       "eccentric work only in the first half of a break, for trained adults",
	"eccentric-count":       "no more eccentric sessions in a week",
}

func ruleDoc(id string) string {
	if r, ok := rule.Find(id); ok {
		return r.Doc
	}
	return id
}

func aimWord(id string) string {
	if w, ok := aimWords[id]; ok {
		return w
	}
	return ruleDoc(id)
}

// limitWord says a limit that stood in the way.
func limitWord(id string) string {
	if w, ok := limitWords[rule.Family(id)]; ok {
		return w
	}
	return ruleDoc(id)
}

func isAim(id string) bool {
	r, ok := rule.Find(id)
	return ok && r.Kind == rule.Aim
}

// convenience reports whether an aim is one of those that only tip the scales.
func convenience(id string) bool {
	r, ok := rule.Find(id)
	return ok && r.Kind == rule.Aim && r.Priority >= conveniencePriority
}

const conveniencePriority = 10
