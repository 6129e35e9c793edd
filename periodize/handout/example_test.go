package handout_test

import (
	"context"
	"fmt"
	"strings"
	_ "time/tzdata"

	"example.org/weft/periodize"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
)

// twoWeeks is an invented request of two weeks with three games.
const twoWeeks = `{
  "schema": 1,
  "period": {"from": "2026-11-16", "to": "2026-11-29"},
  "athlete": {"id": "a7", "born": "2001-05", "zone": "Europe/Berlin", "trainingAgeYears": 4,
    "hours": [{"days": ["mon", "tue", "wed", "thu", "fri"], "from": "15:00", "to": "21:00"},
      {"days": ["sat", "sun"], "from": "09:00", "to": "20:00"}]},
  "events": [
    {"id": "g7", "kind": "game", "start": "2026-11-17T19:30", "end": "2026-11-17T21:15", "home": "home", "opponent": "Tornby"},
    {"id": "g8", "kind": "game", "start": "2026-11-21T18:00", "end": "2026-11-21T19:45", "home": "away", "opponent": "Solager"},
    {"id": "g9", "kind": "game", "start": "2026-11-28T18:00", "end": "2026-11-28T19:45", "home": "home", "opponent": "Dunmose"},
    {"id": "p1", "kind": "practice", "start": "2026-11-19T18:30", "end": "2026-11-19T20:00", "hard": true}
  ]
}`

func plan(req *season.Request) *season.Plan {
	p, err := new(periodize.Planner).Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
	}
	return p
}

// book plans a request and opens the book of its sheets.
func book(text string) *handout.Book {
	req, err := season.ReadRequest(strings.NewReader(text))
	if err != nil {
		fmt.Println(err)
		return nil
	}
	b, err := handout.New(req, plan(req), handout.Options{Example: true})
	if err != nil {
		fmt.Println(err)
	}
	return b
}

func ExampleNew() {
	fmt.Print(book(twoWeeks).Strip().Text())
	// Output:
	// SEASON STRIP
	//
	//                 Mo   Tu   We   Th   Fr   Sa   Su
	// 16-22 Nov       P    G    R    Tp   P    G    R
	// 23-29 Nov       F    R    -    F    P    G    R
	//
	// Key  G game at home; p practice; F full-body (strength for the whole body, the
	//      most work); T trimmed full-body (the same with one set less); P primer
	//      (short and fast, fresh at the end); R recovery (easy)
}

func ExampleStyle() {
	css := handout.Style(handout.Letter)
	fmt.Println(strings.Contains(css, "@page weft-tall{size:letter"), strings.Contains(css, "url("))
	// Output: true false
}
