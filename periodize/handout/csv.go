package handout

import (
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
)

// csvHead are the columns of the table.
var csvHead = []string{"date", "weekday", "start", "end", "zone", "kind", "what", "minutes", "place", "status", "importance", "id"}

// CSV is the plan as a table for spreadsheets: a row for each session and game,
// in order of time, times as the clock of the
// named zone shows them, lines ended by CRLF (RFC 4180). A
// cell that a spreadsheet could take for a formula begins with an apostrophe, so
// that it stays text. It says nothing about health.
func (b *Book) CSV() string {
	var out strings.Builder
	csvRow(&out, csvHead)
	for d := b.plan.Period.From; !d.After(b.plan.Period.To); d = d.AddDays(1) {
		for _, x := range b.items(d) {
			switch {
			case x.session != nil:
				s := x.session
				t := b.sessionThere(s)
				csvRow(&out, []string{
					d.String(), say.Weekday(d), say.Clock(t.start.Clock), say.Clock(t.end.Clock), t.zone, "session", say.Kind(s.Kind), itoa(s.Minutes), s.Place, stateWord(s.State), "", s.ID,
				})
			case x.game != nil:
				csvRow(&out, b.csvGame(d, x.game))
			}
		}
	}
	return out.String()
}

func (b *Book) csvGame(d calendar.Date, g *calendar.Placed) []string {
	t := b.gameThere(*g)
	start, end := say.Clock(t.start.Clock), say.Clock(t.end.Clock)
	switch {
	case g.DateOnly:
		start, end = "", ""
	case g.EndAssumed:
		end = ""
	}
	return []string{
		d.String(), say.Weekday(d), start, end, t.zone, "game", b.where(*g), "", "", string(g.Status.Settled()), string(g.Importance.Settled()), g.ID,
	}
}

func csvRow(out *strings.Builder, cells []string) {
	for i, c := range cells {
		if i > 0 {
			out.WriteByte(',')
		}
		out.WriteString(csvCell(c))
	}
	out.WriteString("\r\n")
}

// csvCell makes a text inert for spreadsheets and quotes it where it must be.
// Which first characters begin a formula is common practice among them: = + - @,
// behind spaces too, and the wide forms of the same.
func csvCell(s string) string {
	s = calendar.Inert(s)
	if t := strings.TrimLeft(s, " "); t != "" && strings.ContainsRune("=+-@\uff1d\uff0b\uff0d\uff20", []rune(t)[0]) {
		s = "'" + s
	}
	if strings.ContainsAny(s, `",`) || strings.HasPrefix(s, " ") || strings.HasSuffix(s, " ") {
		s = `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	}
	return s
}
