package handout

import (
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
)

// parentWords is the most words of a parent's note, head, cautions and foot
// included.
const parentWords = 150

// Parent is a note for parents about one week: when the sessions and games are,
// which dates are free, and the cautions, in 150 words at most, all told. It
// never says anything about health. Any date of the week says which; the error
// is a *[season.InputError] for one that the plan does not have.
func (b *Book) Parent(in calendar.Date) (Sheet, error) {
	if !b.plan.Period.Contains(in) {
		return Sheet{}, b.outside(in)
	}
	from, to := b.weekOf(in)
	sheet := func(p ...block) Sheet {
		s := b.sheet("note", "For parents, "+say.BetweenYear(from, to), p)
		s.who = firstWords(b.who(), 3)
		return s
	}
	if p, ok := b.refused(); ok {
		return sheet(p...), nil
	}
	var f points
	var end paragraph
	fits := func(f points, end paragraph) bool { return words(sheet(f, end, parentKey(f)).Text()) <= parentWords }
	for _, x := range b.parentFacts(from, to) {
		if next := append(f[:len(f):len(f)], x); fits(next, end) {
			f = next
		}
	}
	for _, s := range []paragraph{"Missed sessions are not made up.", " Questions? Ask the coach."} {
		if fits(f, end+s) {
			end += s
		}
	}
	return sheet(f, end, parentKey(f)), nil
}

// parentKey explains the words of a note that not everybody knows.
func parentKey(f points) (out keyBlock) {
	for _, x := range f {
		if meaning := parentMeanings[x.word]; meaning != "" {
			out = append(out, keyEntry{word: x.word, meaning: meaning})
		}
	}
	return out
}

var parentMeanings = map[string]string{
	"Gym":  "strength or easy recovery, with a coach",
	"Free": "nothing planned",
}

// parentFacts is what there is to say, the most important first.
func (b *Book) parentFacts(from, to calendar.Date) points {
	var sessions, games, free []string
	exams := false
	for d := from; !d.After(to); d = d.AddDays(1) {
		t := b.at(d)
		for _, s := range t.sessions {
			sessions = append(sessions, say.Weekday(d)+" "+b.sessionThere(s).clocks())
		}
		for _, g := range t.games {
			switch {
			case !g.Active():
			case g.DateOnly:
				games = append(games, say.Weekday(d)+" (time open)")
			default:
				games = append(games, say.Weekday(d)+" "+say.Clock(b.gameThere(g).start.Clock))
			}
		}
		for _, e := range t.events {
			exams = exams || e.Kind == calendar.Exam
		}
		if len(t.sessions)+len(t.events) == 0 && !slices.ContainsFunc(t.games, func(g calendar.Placed) bool { return g.Active() }) {
			free = append(free, say.Weekday(d))
		}
	}
	out := points{{"Gym", []string{"no sessions"}}}
	if len(sessions) > 0 {
		out[0].items = shortened(sessions, 8)
	}
	if len(games) > 0 {
		out = append(out, point{"Games", shortened(games, 5)})
	}
	if exams {
		out = append(out, point{"Exams", []string{"sessions are short and early"}})
	}
	if len(free) > 0 {
		out = append(out, point{"Free", []string{strings.Join(free, ", ")}})
	}
	return out
}

// shortened keeps the first of a list, and says that there is more.
func shortened(items []string, most int) []string {
	if len(items) <= most {
		return items
	}
	return append(items[:most:most], "and more")
}

// words counts the words of a text: runs without a space that hold a letter or a
// digit.
func words(s string) (n int) {
	for _, f := range strings.Fields(s) {
		if strings.ContainsFunc(f, func(r rune) bool {
			return r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r >= 0x80
		}) {
			n++
		}
	}
	return n
}

func firstWords(s string, n int) string {
	f := strings.Fields(s)
	return strings.Join(f[:min(n, len(f))], " ")
}
