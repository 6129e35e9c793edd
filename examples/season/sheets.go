package main

import (
	"fmt"

	"example.org/weft/calendar"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
)

// sheetNames are the sheets that can be asked for by name.
var sheetNames = []string{"strip", "month", "week", "card", "slip", "wall", "coach", "parent", "physio"}

const wallDates = 7 // on a wall sheet

// checkSheet says what is wrong with the flags about sheets.
func (o *options) checkSheet(bad func(format string, a ...any)) {
	switch {
	case o.sheet == "" && o.on != "":
		bad("-on says which date a -sheet is about, and there is none")
	case o.sheet == "":
	case !known(o.sheet, sheetNames):
		bad("unknown sheet %q: it is one of %v", o.sheet, sheetNames)
	case o.format != "text" && o.format != "html":
		bad("-sheet is for -format text and html")
	case o.why != "" || o.card != "":
		bad("-sheet, -card and -why: ask for one of them")
	}
}

// handouts writes what people read: the sheet that is asked for, or for html
// without one the season, the changes if there are any, and every month.
func handouts(opt *options, in *input, plan *season.Plan) ([]byte, error) {
	b, err := handout.New(in.request, plan, handout.Options{Example: in.demo})
	if err != nil {
		return nil, err
	}
	if opt.format == "csv" {
		return []byte(b.CSV()), nil
	}
	var sheets []handout.Sheet
	if opt.sheet != "" {
		sheets, err = sheetsOf(opt.sheet, in, plan, b)
	} else {
		sheets, err = wholeSeason(plan, b)
	}
	if err != nil {
		return nil, err
	}
	if opt.format == "html" {
		return []byte(handout.Document("Season plan", sheets...)), nil
	}
	var out []byte
	for i, s := range sheets {
		if i > 0 {
			out = append(out, '\n')
		}
		out = append(out, s.Text()...)
	}
	return out, nil
}

func wholeSeason(plan *season.Plan, b *handout.Book) ([]handout.Sheet, error) {
	sheets := []handout.Sheet{b.Season()}
	if len(plan.Changes) > 0 {
		sheets = append(sheets, b.Slip())
	}
	for _, d := range b.Months() {
		s, err := b.Month(d)
		if err != nil {
			return nil, err
		}
		sheets = append(sheets, s)
	}
	return sheets, nil
}

// sheetsOf are the sheets of a name: one, but for the cards of a date.
func sheetsOf(name string, in *input, plan *season.Plan, b *handout.Book) ([]handout.Sheet, error) {
	on := in.on
	if on.IsZero() { // the date of now, where that is one of the plan
		on = calendar.DateOf(plan.Now, in.request.Athlete.Zone)
	}
	if !plan.Period.Contains(on) {
		on = plan.Period.From
	}
	var s handout.Sheet
	var err error
	switch name {
	case "strip":
		s = b.Season()
	case "month":
		s, err = b.Month(on)
	case "week":
		s, err = b.Week(on)
	case "slip":
		s = b.Slip()
	case "coach":
		s, err = b.Coach(on)
	case "parent":
		s, err = b.Parent(on)
	case "physio":
		s, err = handout.Physio(on, handout.PhysioCase{Book: b})
	case "wall":
		var w handout.Wall
		w, err = handout.NewWall("", on, on.AddDays(wallDates-1), b)
		s = w.Sheet()
	case "card":
		return cardSheets(in, plan, b, on)
	}
	return []handout.Sheet{s}, err
}

func cardSheets(in *input, plan *season.Plan, b *handout.Book, on calendar.Date) ([]handout.Sheet, error) {
	_, cards, err := fill(in, plan)
	if err != nil {
		return nil, err
	}
	var sheets []handout.Sheet
	for _, c := range cards {
		if c.Date != on {
			continue
		}
		s, err := b.Session(c)
		if err != nil {
			return nil, err
		}
		sheets = append(sheets, s)
	}
	if len(sheets) == 0 {
		return nil, &season.InputError{Problems: []calendar.Problem{wrong("date", "-on", on.String(), "there is no session on this date", fmt.Sprintf("ask about a date with one, such as %s", firstSession(plan)))}}
	}
	return sheets, nil
}

func firstSession(plan *season.Plan) string {
	if len(plan.Sessions) == 0 {
		return "none: the plan has no session"
	}
	return plan.Sessions[0].Date.String()
}
