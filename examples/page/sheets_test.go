package main

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	invented "example.org/weft/internal/demo"
	"example.org/weft/periodize"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
)

// paperSheet is a sheet as it is handed out.
type paperSheet struct {
	name  string
	sheet handout.Sheet
	plan  string // that its pages have to name
}

// everySheet writes each kind of sheet, from the invented season in its ninth
// week, after a game has moved; and those that are fullest of their kind.
func everySheet(t *testing.T, paper handout.Paper) (out []paperSheet) {
	t.Helper()
	var planner periodize.Planner
	plan := func(req *season.Request) *season.Plan {
		t.Helper()
		p, err := planner.Plan(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	first := invented.Season()
	issued := plan(first)
	req, err := season.Apply(*first, season.Move("g10", "2026-10-26T19:15"))
	if err != nil {
		t.Fatal(err)
	}
	req.Now = time.Date(2026, 10, 20, 6, 30, 0, 0, time.UTC)
	req.Issued = []season.Plan{*issued}
	req.Athlete.Restrictions = []season.Restriction{{Region: "adductors", Side: "left", From: invented.Date("2026-10-19"), By: "the physiotherapist"}}
	now := plan(&req)
	book := func(name string) *handout.Book {
		t.Helper()
		b, err := handout.New(&req, now, handout.Options{Paper: paper, Name: name, Club: "Example Harriers", Example: true})
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	b := book("Athlete 17")
	add := func(name string) func(s handout.Sheet, err error) {
		return func(s handout.Sheet, err error) {
			t.Helper()
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			out = append(out, paperSheet{name, s, now.ID[:8]})
		}
	}
	add("strip")(b.Season(), nil)
	for _, d := range b.Months() {
		add("month-" + d.String()[:7])(b.Month(d))
	}
	for _, d := range []string{"2026-10-20", "2026-10-27", "2026-11-10", "2026-12-28"} {
		add("week-" + d)(b.Week(invented.Date(d)))
		add("coach-" + d)(b.Coach(invented.Date(d)))
		add("parent-" + d)(b.Parent(invented.Date(d)))
	}
	add("slip")(b.Slip(), nil)
	_, cards, err := exercise.Builder{}.Season(*now, exercise.Club{Athlete: req.Athlete})
	if err != nil {
		t.Fatal(err)
	}
	seen := map[season.Kind]bool{}
	for _, c := range cards {
		if !seen[c.Kind] {
			seen[c.Kind] = true
			add("card-" + string(c.Kind))(b.Session(c))
		}
	}
	cases := []handout.PhysioCase{{Book: b, Notes: []season.Note{{Text: "left groin 3 of 10, second week"}}}}
	add("physio")(handout.Physio(invented.Date("2026-10-20"), cases...))
	for i := range 24 {
		cases = append(cases, handout.PhysioCase{Book: book(fmt.Sprintf("Athlete %d of a long name", 40+i)), Notes: []season.Note{{Text: strings.Repeat("left groin 3 of 10, second week, what loads the adductors is out; ", 1+i%4)}}})
	}
	add("physio-full")(handout.Physio(invented.Date("2026-10-20"), cases...))
	later := req
	later.Athlete.Hours = []season.Hours{{From: invented.Clock("17:30"), To: invented.Clock("22:00"), Days: []time.Weekday{0, 1, 2, 3, 4, 5, 6}}}
	moved, err := handout.New(&later, plan(&later), handout.Options{Paper: paper, Name: strings.Repeat("Long ", 9), Club: strings.Repeat("Club ", 9), Example: true})
	if err != nil {
		t.Fatal(err)
	}
	out = append(out, paperSheet{"slip-full", moved.Slip(), "plan "})
	wall, slots := hallOf(t, now, paper, b, book)
	add("wall")(wall.Sheet(), nil)
	add("hall")(wall.Hall("gym", slots...), nil)
	return out
}

// hallOf is a squad of one plan under several names, long and short, and its hall.
func hallOf(t *testing.T, now *season.Plan, paper handout.Paper, b *handout.Book, book func(string) *handout.Book) (handout.Wall, []handout.Slot) {
	t.Helper()
	books := []*handout.Book{b}
	for _, name := range []string{"Kim", "A very long name that nobody has", "WWWWWWWWWWWWWWWWWW", "Athlete 31", "Athlete 32", "Athlete 33", "Athlete 34", "Athlete 35", "Athlete 36", "Athlete 37", "Athlete 38"} {
		books = append(books, book(name))
	}
	from, to := invented.Date("2026-10-21"), invented.Date("2026-10-25")
	wall, err := handout.NewWall("Example Harriers", from, to, books...)
	if err != nil {
		t.Fatal(err)
	}
	wall.Entries[0].Modified, wall.Entries[1].Modified = true, true
	zone, err := calendar.LoadZone(now.Zone)
	if err != nil {
		t.Fatal(err)
	}
	var slots []handout.Slot
	for _, s := range now.Sessions {
		if s.Date.Before(from) || s.Date.After(to.AddDays(14)) {
			continue
		}
		x := handout.Slot{Date: s.Date, From: zone.Local(s.Start).Clock, To: zone.Local(s.End).Clock, Places: 8}
		for i := range 3 + len(slots)%8 {
			x.Athletes = append(x.Athletes, handout.Label(fmt.Sprintf("Athlete %d", 20+i)))
			x.Kinds = append(x.Kinds, []season.Kind{s.Kind, season.Primer}[i%2*(len(slots)%2)])
		}
		slots = append(slots, x)
	}
	return wall, slots
}

// TestSheetsInPrint prints every sheet on both papers and reads the print: each
// has its pages and no more, each page says which it is, and nothing on it is
// cut, lost, off the paper or upon something else.
func TestSheetsInPrint(t *testing.T) {
	for paper, size := range map[handout.Paper]printed{handout.A4: {595, 842}, handout.Letter: {612, 792}} {
		t.Run(fmt.Sprintf("%.0fx%.0f", size.wide, size.high), func(t *testing.T) {
			b := browse(t, desktop)
			for _, s := range everySheet(t, paper) {
				doc := s.sheet.HTML()
				b.show(doc, size)
				pages := b.pdf(fmt.Sprintf("sheet-%.0f-%s", size.wide, s.name))
				if len(pages) != s.sheet.Pages() {
					t.Errorf("%s: %d pages of paper for %d of the sheet", s.name, len(pages), s.sheet.Pages())
					continue
				}
				for i, p := range pages {
					at := fmt.Sprintf("%s, page %d", s.name, i+1)
					p.check(t, at, size)
					text := p.text()
					for _, want := range []string{fmt.Sprintf("page %d of %d", i+1, len(pages)), s.plan, "Europe/Copenhagen", "rules ", "supervised"} {
						if !strings.Contains(text, want) {
							t.Errorf("%s lacks %q", at, want)
						}
					}
				}
				if s.name == "wall" {
					readable(t, pages)
				}
				for _, fault := range b.cut() {
					t.Errorf("%s: %s", s.name, fault)
				}
				if lost := missingWords(b.words(), pages); len(lost) > 0 {
					t.Errorf("%s: not in print: %q", s.name, lost)
				}
			}
		})
	}
}

// readable holds the words of a wall above its key against three metres: a
// typeface of 17.6 mm, whose capitals have 12 mm. The box of a word is as high as
// the typeface at least.
func readable(t *testing.T, pages []sheetOfPaper) {
	t.Helper()
	for i, p := range pages {
		large := 0
		for _, w := range p.Words {
			if high := (w.Bottom - w.Top) / millimetre; high >= 17.6 {
				large++
			} else if high > 8 { // neither of the sheet nor of its small print
				t.Errorf("wall, page %d: %q is %.1f mm high", i+1, w.Text, high)
			}
		}
		if large < 6 { // day, date, month, times, kind, a name
			t.Errorf("wall, page %d: only %d words to be read from afar", i+1, large)
		}
	}
}
