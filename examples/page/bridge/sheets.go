package bridge

import (
	"example.org/weft/periodize/handout"
)

// Markup is HTML written by package handout, which escapes all input.
type Markup struct {
	HTML string `json:"html"`
}

func (d *Desk) book() (*handout.Book, error) {
	return handout.New(d.req, d.plan, handout.Options{Example: d.invented})
}

// strip is the picture of the season.
func (d *Desk) strip() (any, error) {
	b, err := d.book()
	if err != nil {
		return nil, err
	}
	return Markup{b.Strip().HTML()}, nil
}

// sheets are what can be printed besides the page itself.
var sheets = []struct {
	id, text string
	write    func(*handout.Book) handout.Sheet
}{
	{"season", "Season strip", (*handout.Book).Season},
}

type sheetArgs struct {
	Sheet string `json:"sheet"`
}

// sheet is one of the sheets, for an element of class "weft".
func (d *Desk) sheet(a sheetArgs) (any, error) {
	for _, s := range sheets {
		if s.id != a.Sheet {
			continue
		}
		b, err := d.book()
		if err != nil {
			return nil, err
		}
		return Markup{s.write(b).Fragment()}, nil
	}
	return nil, wrong("sheet", a.Sheet, "there is no such sheet", "choose another")
}
