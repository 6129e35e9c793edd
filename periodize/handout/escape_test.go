package handout_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
)

// hostile puts a text wherever an input has room for one.
func hostile(t fatal, text string) (*season.Request, *season.Plan, *handout.Book) {
	req := read(t, twoWeeks)
	req.Athlete.Restrictions = []season.Restriction{{Region: "adductors", By: text, From: req.Period.From}}
	for i := range req.Events {
		req.Events[i].Opponent, req.Events[i].Title, req.Events[i].Competition = text, text, text
	}
	req.Events = append(req.Events, calendar.Event{
		ID: "b" + text, Kind: calendar.Busy, Title: text, Zone: req.Athlete.Zone,
		Start: calendar.Wall{Date: date(t, "2026-11-18")}, End: calendar.Wall{Date: date(t, "2026-11-19")}, HasEnd: true, DateOnly: true,
	})
	req.Places = []season.Place{{ID: "p" + text, Closed: []season.Period{{From: date(t, "2026-11-20"), To: date(t, "2026-11-20")}}}}
	if slices.ContainsFunc(req.Validate(), func(p calendar.Problem) bool { return p.Class == calendar.ClassError }) {
		return nil, nil, nil // such a name is no input at all
	}
	plan := planned(t, req)
	for i := range plan.Sessions {
		plan.Sessions[i].Why = append(plan.Sessions[i].Why, season.Note{Code: "x", Class: season.Why, Text: text})
	}
	b, err := handout.New(req, plan, handout.Options{Name: "n" + text, Club: text})
	if err != nil {
		return nil, nil, nil
	}
	return req, plan, b
}

// checkEscaped holds every sheet and picture against the strict reader, and says
// whether the text was seen whole anywhere.
func checkEscaped(t fatal, text string) (seen bool) {
	req, plan, b := hostile(t, text)
	if b == nil {
		return true
	}
	on := req.Period.From
	sheets := shared(t, b, plan)
	_, list, err := exercise.Builder{}.Season(*plan, exercise.Club{Athlete: season.Athlete{Zone: req.Athlete.Zone}})
	if err != nil {
		t.Fatalf("%v", err)
	}
	for _, c := range list[:1] {
		c.Notes = append(c.Notes, season.Note{Text: text})
		c.Blocks[1].Name = text
		c.Blocks[1].Items[0].Exercise.Name, c.Blocks[1].Items[0].Exercise.Effort, c.Blocks[1].Items[0].Exercise.Reps = text, text, text
		s, err := b.Session(c)
		if err != nil {
			t.Fatalf("%v", err)
		}
		sheets["card"] = s
	}
	s, err := handout.Physio(on, handout.PhysioCase{Book: b, Notes: []season.Note{{Text: text}}})
	if err != nil {
		t.Fatalf("%v", err)
	}
	sheets["physio"] = s
	html := []string{
		handout.Slots([]handout.Slot{{Date: on, From: 3600, To: 7200, Kind: season.Kind(text), Places: 2, Athletes: []handout.Label{handout.Label(text)}}}).HTML(),
		handout.RetentionBands(on, []handout.Retention{{Quality: text, Last: on, Early: on, Late: on.AddDays(3)}}).HTML(),
		handout.Wall{Team: handout.Label(text), Zone: handout.Label(text), Plans: []handout.Label{handout.Label(text)}, From: on, To: on, Entries: []handout.WallEntry{{
			Athlete: handout.Label(text), Date: on, Kind: season.Kind(text), Place: handout.Label(text),
		}}}.Sheet().Fragment(),
		b.Strip().HTML(),
	}
	for _, s := range sheets {
		html = append(html, s.Fragment())
		if strings.ContainsFunc(s.Text(), func(r rune) bool { return r < ' ' && r != '\n' }) {
			t.Errorf("a control character gets into the text")
		}
	}
	for _, h := range html {
		got, _ := parse(t, h)
		seen = seen || strings.Contains(got, calendar.Inert(text))
		if strings.ContainsFunc(h, func(r rune) bool { return r < ' ' && r != '\n' || r == 0x7f || r == 0x202e }) {
			t.Errorf("a control character gets into the HTML")
		}
	}
	doc := handout.Document(text, sheets["card"])
	_, after, _ := strings.Cut(doc, "<title>")
	title, _, _ := strings.Cut(after, "</title>")
	if strings.ContainsAny(title, "<>\"") {
		t.Errorf("the title of the document is %q", title)
	}
	return seen
}

var hostileTexts = []string{
	"<script>alert(1)</script>", `"><img src=x onerror=alert(1)>`, "</style><script>", "]]>", "<!--", "&lt;b&gt;", "javascript:x", "' onload='x",
	"a\x1b[31mb", "a\u202eb", "=1+1", "</svg><foreignObject>", "a\tb", strings.Repeat("w", 150), "<b",
}

func TestEverythingIsEscaped(t *testing.T) {
	used := 0
	for _, text := range hostileTexts {
		if !checkEscaped(t, text) {
			t.Errorf("%q is on no sheet: nothing was tested", text)
		}
		if _, _, b := hostile(t, text); b != nil {
			used++
		}
	}
	if used < len(hostileTexts)-3 {
		t.Errorf("only %d of %d texts are names that a request takes", used, len(hostileTexts))
	}
}

func FuzzEscaping(f *testing.F) {
	for _, text := range hostileTexts {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 400 {
			t.Skip("longer than any name may be")
		}
		checkEscaped(t, text)
	})
}
