package handout

import (
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// physioRoom is how many athletes a page of the list has.
const physioRoom = 9

// PhysioCase is an athlete on the physiotherapist's list: a book, and the notes
// for the physiotherapist that the reports of the day led to.
type PhysioCase struct {
	Book  *Book
	Notes []season.Note
}

// Physio is the list for the physiotherapist on a date: restrictions, holds and
// what the day's reports say. It is the one sheet about health, says so on each
// page, and is for nobody else. An athlete with nothing to say is left out.
func Physio(on calendar.Date, cases ...PhysioCase) (Sheet, error) {
	var books []*Book
	var rows [][]string
	for i, c := range cases {
		if c.Book == nil {
			return Sheet{}, &season.InputError{Problems: []calendar.Problem{{
				Code: "handout", Class: calendar.ClassError, Path: "cases/" + itoa(i) + "/book", Reason: "there is no plan here", Remedy: "leave the case out",
			}}}
		}
		books = append(books, c.Book)
		if points := c.points(on); len(points) > 0 {
			rows = append(rows, []string{c.Book.who(), strings.Join(points, ". ") + "."})
		}
	}
	if len(books) == 0 {
		return Sheet{}, &season.InputError{Problems: []calendar.Problem{{
			Code: "handout", Class: calendar.ClassError, Path: "cases", Reason: "there is nobody to list", Remedy: "give at least one plan",
		}}}
	}
	slices.SortStableFunc(rows, func(x, y []string) int { return strings.Compare(x[0], y[0]) })
	s := books[0].sheet("physio", "For the physiotherapist, "+say.DayYear(on))
	s.id.plan, s.who = planList(books), books[0].squad()
	const only = "For the physiotherapist only: not for walls, chats or other staff."
	for part := range slices.Chunk(rows, physioRoom) {
		s.pages = append(s.pages, page{paragraph(only), table{head: []string{"Athlete", "What is known"}, rows: part}, physioKey(part)})
	}
	if len(rows) == 0 {
		s.pages = []page{{paragraph(only), paragraph("Nothing is known that stands against training as planned.")}}
	}
	return s, nil
}

// physioKey explains the words of some rows.
func physioKey(rows [][]string) (out keyBlock) {
	for _, k := range []struct{ sign, word, meaning string }{
		{"HOLD", "hold", "no session until a named clinician clears it, also when its date has passed"},
		{"Restriction", "restriction", "exercises that load this part are left out, others take their place"},
		{" of 10", "of 10", "as the athlete says it: 0 nothing, 10 the worst"},
	} {
		if slices.ContainsFunc(rows, func(r []string) bool { return strings.Contains(r[1], k.sign) }) {
			out = append(out, keyEntry{word: k.word, meaning: k.meaning})
		}
	}
	return out
}

func planList(books []*Book) string {
	var ids []string
	for _, b := range books {
		ids = append(ids, b.plan.ID)
	}
	return listed(ids)
}

// listed names the first three of some ids, each once.
func listed(ids []string) string {
	slices.Sort(ids)
	if ids = slices.Compact(ids); len(ids) > 3 {
		return strings.Join(ids[:3], ", ") + " and " + itoa(len(ids)-3) + " more"
	}
	return strings.Join(ids, ", ")
}

// points are what is known of an athlete on a date.
func (c PhysioCase) points(on calendar.Date) (out []string) {
	for _, h := range c.Book.req.Athlete.Holds {
		switch {
		case h.From.After(on):
		case h.ClearedBy != "" && !h.ClearedOn.After(on):
			out = append(out, "Hold since "+say.Short(h.From)+" cleared on "+say.Short(h.ClearedOn)+" by "+say.Clip(h.ClearedBy, 40))
		default:
			x := "HOLD since " + say.Short(h.From) + ", not cleared"
			if !h.Until.IsZero() {
				x += " (" + map[bool]string{true: "its date has passed", false: "until " + say.Short(h.Until)}[h.Until.Before(on)] + "; only a clinician ends it)"
			}
			out = append(out, x)
		}
	}
	for _, r := range c.Book.req.Athlete.Restrictions {
		if !r.From.IsZero() && r.From.After(on) || !r.To.IsZero() && r.To.Before(on) {
			continue
		}
		x := "Restriction: " + strings.TrimSpace(say.Clip(r.Side, 10)+" "+say.Clip(r.Region, 40))
		if !r.To.IsZero() {
			x += " until " + say.Short(r.To)
		}
		if r.By != "" {
			x += ", by " + say.Clip(r.By, 40)
		}
		out = append(out, x)
	}
	for _, n := range c.Notes {
		out = append(out, upper(say.Clip(n.Text, 300)))
	}
	return out
}

// squad is who a list is about.
func (b *Book) squad() string {
	if b.opt.Club == "" {
		return "all athletes"
	}
	return say.Clip(b.opt.Club, 40)
}
