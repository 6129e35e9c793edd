package handout_test

import (
	"context"
	"errors"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
)

// wrong checks that an error is the input's and names each of some things.
func wrong(t *testing.T, what string, err error, names ...string) {
	t.Helper()
	var bad *season.InputError
	if !errors.As(err, &bad) {
		t.Errorf("%s: %v, want an *season.InputError", what, err)
		return
	}
	for _, n := range names {
		if !strings.Contains(err.Error(), n) {
			t.Errorf("%s: %q does not name %q", what, err, n)
		}
	}
	for _, p := range bad.Problems {
		if p.Reason == "" || p.Remedy == "" || p.Class != calendar.ClassError {
			t.Errorf("%s: problem %+v", what, p)
		}
	}
}

func TestWhatIsNoBook(t *testing.T) {
	req := read(t, twoWeeks)
	plan := planned(t, req)
	_, err := handout.New(nil, plan, handout.Options{})
	wrong(t, "no request", err, "give both")
	_, err = handout.New(req, nil, handout.Options{})
	wrong(t, "no plan", err, "give both")
	_, err = handout.New(req, plan, handout.Options{Paper: 7})
	wrong(t, "paper", err, "A4 or Letter")

	other := *plan
	other.Zone, other.Period.To = "Asia/Kolkata", plan.Period.To.AddDays(-1)
	_, err = handout.New(req, &other, handout.Options{})
	wrong(t, "zone and period", err, "Asia/Kolkata", "2026-11-16 to 2026-11-28")

	next, err := season.Apply(*req, season.Move("g8", "2026-11-20T18:00"))
	if err != nil {
		t.Fatal(err)
	}
	_, err = handout.New(&next, plan, handout.Options{})
	wrong(t, "other events", err, "other events")

	broken := *plan
	broken.Sessions = append([]season.Session(nil), plan.Sessions...)
	broken.Sessions[2].Kind = "marathon"
	_, err = handout.New(req, &broken, handout.Options{})
	wrong(t, "kind", err, "plan/sessions/2/kind")
}

func TestDatesOutside(t *testing.T) {
	req := read(t, twoWeeks)
	plan := planned(t, req)
	b := open(t, req, plan, handout.Options{})
	for _, d := range []calendar.Date{{}, day(15), day(30), day(30).AddDays(400)} {
		_, err := b.Month(d)
		wrong(t, "month", err, "2026-11-16")
		_, err = b.Week(d)
		wrong(t, "week", err, "2026-11-29")
		_, err = b.Coach(d)
		wrong(t, "coach", err, "date")
		_, err = b.Parent(d)
		wrong(t, "parent", err, "date")
	}
	_, err := b.Session(exercise.Card{Session: "elsewhere"})
	wrong(t, "card", err, "elsewhere")
	_, err = handout.Physio(day(16))
	wrong(t, "nobody", err, "nobody")
	_, err = handout.Physio(day(16), handout.PhysioCase{})
	wrong(t, "no book", err, "cases/0/book")
	_, err = handout.NewWall("x", day(20), day(19), nil, b)
	wrong(t, "wall", err, "books/0", "2026-11-20")
}

// A wall has one clock.
func TestWallOfTwoZones(t *testing.T) {
	a := read(t, twoWeeks)
	b := read(t, strings.Replace(twoWeeks, "Europe/Berlin", "America/Halifax", 1))
	_, err := handout.NewWall("x", day(16), day(20), open(t, a, planned(t, a), handout.Options{}), open(t, b, planned(t, b), handout.Options{}))
	wrong(t, "two zones", err, "books/1", "America/Halifax")
}

// A plan that was refused for a reason of health says so to nobody.
func TestRefusedPlan(t *testing.T) {
	req := read(t, strings.Replace(twoWeeks, `"hours"`, `"holds": [{"from": "2026-11-02"}], "hours"`, 1))
	plan, err := new(periodize.Planner).Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	young := read(t, strings.Replace(twoWeeks, "2001-05", "2016-05", 1))
	refused, err := new(periodize.Planner).Plan(context.Background(), young)
	if err != nil {
		t.Fatal(err)
	}
	if refused.Outcome != season.Refused {
		t.Fatalf("a child of ten is %s", refused.Outcome)
	}
	for name, s := range shared(t, open(t, young, refused, handout.Options{}), refused) {
		if kind, _, _ := strings.Cut(name, " "); kind != "wall" && !strings.Contains(s.Text(), "No sessions are planned") {
			t.Errorf("%s:\n%s", name, s.Text())
		}
	}
	for name, s := range shared(t, open(t, req, plan, handout.Options{}), plan) {
		if strings.Contains(s.Text(), "hold") {
			t.Errorf("%s tells of a hold:\n%s", name, s.Text())
		}
	}
}

// Capitals are 0.688 of the size of Liberation Sans (measured on a printed page),
// which is less than in the other typefaces of the style sheet: 0.700 in Segoe
// UI, 0.714 in Noto Sans, 0.716 in Arial (from memory).
func TestWallIsReadAtThreeMetres(t *testing.T) {
	m := regexp.MustCompile(`\.wall \.big\{font-size:([0-9.]+)mm`).FindStringSubmatch(handout.Style(handout.A4))
	if m == nil {
		t.Fatal("the wall has no size in millimetres")
	}
	size, err := strconv.ParseFloat(m[1], 64)
	if err != nil || 0.688*size < 3000/250.0 {
		t.Errorf("capitals of %.1f mm, want a 250th of three metres", 0.688*size)
	}
}

func TestPapers(t *testing.T) {
	req := read(t, twoWeeks)
	plan := planned(t, req)
	for paper, size := range map[handout.Paper]string{handout.A4: "@page{size:A4;", handout.Letter: "@page{size:letter;"} {
		b := open(t, req, plan, handout.Options{Paper: paper})
		if doc := b.Season().HTML(); !strings.Contains(doc, size) || !strings.Contains(doc, "break-after:page") {
			t.Errorf("paper %d has no %s", paper, size)
		}
		w, err := handout.NewWall("x", day(16), day(20), b)
		if doc := w.Sheet().HTML(); err != nil || !strings.Contains(doc, strings.TrimSuffix(size, ";")+" landscape") {
			t.Errorf("a wall on paper %d is not landscape (%v)", paper, err)
		}
	}
}

// What is drawn of slots is bounded.
func TestSlotsAreBounded(t *testing.T) {
	many := handout.Slots([]handout.Slot{{Date: day(16), Places: 1 << 30}, {Date: day(17), Places: -5}}).HTML()
	if n := strings.Count(many, "<rect"); n > 500 {
		t.Errorf("%d squares", n)
	}
	parse(t, many)
}

// Loads that are none, and bands that run backwards, are left out.
func TestPicturesOfOddData(t *testing.T) {
	html := handout.WeekLoads([]handout.WeekLoad{{From: day(16), Loads: []handout.SourceLoad{
		{Source: 9, Load: 7001}, {Source: handout.FromGym, Load: -7002}, {Source: handout.FromGym, Load: 431}, {Source: handout.FromGames, Load: 1 << 30},
	}}}).HTML() + handout.RetentionBands(day(16), []handout.Retention{{Quality: "backwards", Last: day(16), Early: day(12), Late: day(20)}, {Quality: "unknown"}}).HTML()
	text, _ := parse(t, html)
	for _, gone := range []string{"7001", "7002", "backwards", strconv.Itoa(1 << 30)} {
		if strings.Contains(text, gone) {
			t.Errorf("%s is shown", gone)
		}
	}
	if !strings.Contains(text, "431") || !strings.Contains(text, "not known") {
		t.Errorf("what is right is not shown: %s", text)
	}
	parse(t, handout.WeekLoads(nil).HTML()+handout.RetentionBands(day(16), nil).HTML()+handout.Slots(nil).HTML())
}
