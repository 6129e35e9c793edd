package handout_test

import (
	"strings"
	"testing"

	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
)

// Every slot stands once in the chart, dates are not torn apart where they fit a
// page, and nothing is on it but names, kinds and times.
func TestHall(t *testing.T) {
	w := handout.Wall{Team: "U18", Zone: "Europe/Oslo", From: day(16), To: day(27), Plans: []handout.Label{"p1", "p2"}}
	var slots []handout.Slot
	for d := range 12 {
		for h := range 5 {
			slots = append(slots, handout.Slot{Date: day(16 + (d*5)%12), From: 15*3600 + 3600*4, To: 20 * 3600, Kind: season.Primer, Places: 2 + h, Athletes: []handout.Label{"a7"}})
		}
	}
	s := w.Hall("hall", slots...)
	if s.Pages() != 4 { // 16 to a page: three dates of five
		t.Errorf("%d pages", s.Pages())
	}
	parse(t, s.Fragment())
	html := s.HTML()
	if n := strings.Count(html, `class="slot"`); n != 60 {
		t.Errorf("%d slots drawn", n)
	}
	pages := strings.Split(html, "<section")[1:]
	for d := range 12 {
		on := 0
		for _, p := range pages {
			if strings.Contains(p, "<b>"+day(16 + d).Weekday().String()[:3]+" "+itoaDay(16+d)+" Nov") {
				on++
			}
		}
		if on != 1 {
			t.Errorf("the slots of day %d stand on %d pages", 16+d, on)
		}
	}
	if empty := w.Hall("hall"); empty.Pages() != 1 || !strings.Contains(empty.Text(), "no slots") {
		t.Errorf("an empty hall: %q", empty.Text())
	}
}

// A slot in which people do different things names all of them, and who does which.
func TestHallNamesBothKinds(t *testing.T) {
	slot := handout.Slot{Date: day(16), From: 16 * 3600, To: 17 * 3600, Places: 4, Athletes: []handout.Label{"a7", "b4", "c9"},
		Kinds: []season.Kind{season.Primer, season.FullBody, season.Primer}}
	html, text := handout.Slots([]handout.Slot{slot}).HTML(), handout.Slots([]handout.Slot{slot}).Text()
	words, _ := parse(t, html)
	for _, want := range []string{"full-body and primer, 3 of 4", "full-body: b4; primer: a7, c9"} {
		if !strings.Contains(words, want) {
			t.Errorf("no %q in %q", want, words)
		}
	}
	if !strings.Contains(strings.Join(strings.Fields(text), " "), "full-body and primer") || strings.Contains(text+html, "mixed") {
		t.Errorf("as text: %q", text)
	}
	slot.Kinds = nil // nobody says who does what
	if got := handout.Slots([]handout.Slot{slot}).Text(); !strings.Contains(got, "mixed") {
		t.Errorf("%q", got)
	}
}

func itoaDay(n int) string {
	return strings.TrimLeft(string(rune('0'+n/10))+string(rune('0'+n%10)), "0")
}
