package handout

import (
	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// kindMeaning is the line of a key.
func kindMeaning(k season.Kind) string {
	switch k {
	case season.FullBody:
		return "strength for the whole body, the most work"
	case season.Trimmed:
		return "the same with one set less"
	case season.Primer:
		return "short and fast, fresh at the end"
	case season.Recovery:
		return "easy"
	case season.PostGame:
		return "30 minutes straight after a game"
	case season.Eccentric:
		return "harder, slow lowering, in breaks only"
	}
	return ""
}

// kindLetter stands for a kind where there is room for one letter.
func kindLetter(k season.Kind) string {
	switch k {
	case season.FullBody:
		return "F"
	case season.Trimmed:
		return "T"
	case season.Primer:
		return "P"
	case season.Recovery:
		return "R"
	case season.PostGame:
		return "O"
	case season.Eccentric:
		return "E"
	}
	return "?"
}

// eventWord is for people who do not plan: what matters to them of a time that is
// taken is that it is.
func eventWord(e calendar.Event) string {
	switch e.Kind {
	case calendar.Travel:
		return "trip"
	case calendar.Busy:
		return "not free"
	}
	return say.Event(e)
}

// stateWord says on a shared sheet what became of a session: never why.
func stateWord(s season.State) string {
	switch s {
	case season.DoneState:
		return "done"
	case season.Eased, season.Swapped, season.Held:
		return "modified"
	}
	return ""
}

// cautions stand on every sheet.
func cautions() []string {
	return []string{
		"Pain above 5 of 10, sharp, at night or with a limp: stop and tell an adult.",
		"Fever, chest symptoms, fainting or a knock to the head: no training until a clinician clears it.",
		"Under 18: supervised only.",
		"Weights are starting points: keep the stated repetitions in reserve. Warm up 10-15 minutes.",
		"Adult averages, not measurements of you. No medical advice; clears nobody to play.",
	}
}
