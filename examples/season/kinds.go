package main

import (
	"strings"
	"unicode"

	"example.org/weft/calendar"
	"example.org/weft/calendar/icalendar"
)

// kindWordsIn are the words of a title that say what an event of a calendar is
// where no category does. A title that also speaks of a game is one of a game.
var kindWordsIn = map[string]calendar.Kind{
	"practice": calendar.Practice, "practise": calendar.Practice, "training": calendar.Practice,
	"allenamento": calendar.Practice, "entrenamiento": calendar.Practice, "entraînement": calendar.Practice, "träning": calendar.Practice,
	"trening": calendar.Practice, "træning": calendar.Practice, "treino": calendar.Practice, "treenit": calendar.Practice,
	"skills": calendar.Skills,
	"travel": calendar.Travel, "flight": calendar.Travel, "bus": calendar.Travel, "coach": calendar.Travel,
	"exam": calendar.Exam, "exams": calendar.Exam,
	"game": calendar.Game, "match": calendar.Game, "v": calendar.Game, "vs": calendar.Game, "friendly": calendar.Game,
	"cup": calendar.Game, "final": calendar.Game, "league": calendar.Game, "tournament": calendar.Game,
}

// byTitle decides the kind of an event by its title.
func byTitle(d icalendar.Description) (calendar.Kind, bool) {
	var found calendar.Kind
	words := strings.FieldsFunc(strings.ToLower(d.Summary), func(r rune) bool { return !unicode.IsLetter(r) })
	for _, w := range words {
		switch k := kindWordsIn[w]; {
		case k == calendar.Game:
			return "", false // a game, as without any word
		case k != "" && found == "":
			found = k
		}
	}
	return found, found != ""
}

// titled counts what was decided by titles, to say so.
type titled struct{ n int }

func (t *titled) classify(d icalendar.Description) (calendar.Kind, bool) {
	k, ok := byTitle(d)
	if ok {
		t.n++
	}
	return k, ok
}
