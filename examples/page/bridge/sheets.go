package bridge

import (
	"example.org/weft/calendar"
	"example.org/weft/periodize/handout"
)

// Markup is HTML written by package handout, which escapes all input.
type Markup struct {
	HTML string `json:"html"`
}

func (d *Desk) book() (*handout.Book, error) {
	return handout.New(d.req, d.plan, handout.Options{Example: d.invented})
}

// sheets are what can be printed besides the page itself. date picks the month or
// the week.
var sheets = []struct {
	id, text, about string
	write           func(d *Desk, b *handout.Book, date calendar.Date) (handout.Sheet, error)
}{
	{"month", "A month", "For the athlete, on one page.", func(_ *Desk, b *handout.Book, x calendar.Date) (handout.Sheet, error) { return b.Month(x) }},
	{"week", "A week", "For the athlete, day by day.", func(_ *Desk, b *handout.Book, x calendar.Date) (handout.Sheet, error) { return b.Week(x) }},
	{"card", "The card of a session", "Exercises, sets and loads, with boxes to fill in: the next session from that date on.", (*Desk).cardSheet},
	{"season", "Season at a glance", "The picture of the whole season.", func(_ *Desk, b *handout.Book, _ calendar.Date) (handout.Sheet, error) { return b.Season(), nil }},
	{"slip", "Change slip", "What is not as it was handed out, and whom to tell.", func(_ *Desk, b *handout.Book, _ calendar.Date) (handout.Sheet, error) { return b.Slip(), nil }},
	{"coach", "Half a page for the head coach", "What matters of a week.", func(_ *Desk, b *handout.Book, x calendar.Date) (handout.Sheet, error) { return b.Coach(x) }},
	{"parent", "A note for parents", "What a week holds, in a few words.", func(_ *Desk, b *handout.Book, x calendar.Date) (handout.Sheet, error) { return b.Parent(x) }},
}

// cardSheet is the card of the first session on a date or after it.
func (d *Desk) cardSheet(b *handout.Book, date calendar.Date) (handout.Sheet, error) {
	if err := d.fill(); err != nil {
		return handout.Sheet{}, err
	}
	for _, c := range d.cards {
		if !c.Date.Before(date) {
			return b.Session(c)
		}
	}
	return handout.Sheet{}, wrong("date", date.String(), "no session to train from stands on this date or after it", "choose an earlier date")
}

type sheetArgs struct {
	Sheet string `json:"sheet"`
	Date  string `json:"date"`
}

// sheet is one of the sheets, for an element of class "weft".
func (d *Desk) sheet(a sheetArgs) (any, error) {
	date, err := calendar.ParseDate(a.Date)
	if err != nil {
		return nil, valueError("date", err)
	}
	for _, s := range sheets {
		if s.id != a.Sheet {
			continue
		}
		b, err := d.book()
		if err != nil {
			return nil, err
		}
		out, err := s.write(d, b, date)
		if err != nil {
			return nil, err
		}
		return Markup{out.Fragment()}, nil
	}
	return nil, wrong("sheet", a.Sheet, "there is no such sheet", "choose another")
}
