package handout_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files")

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s (-update writes it):\n%s", name, d)
	}
}

// moved is the invented season after a game has moved, on the morning of the
// second date: the plan before it was handed out.
func moved(t *testing.T) (*season.Request, *season.Plan) {
	t.Helper()
	req := read(t, twoWeeks)
	first := planned(t, req)
	next, err := season.Apply(*req, season.Move("g8", "2026-11-22T16:00"))
	if err != nil {
		t.Fatal(err)
	}
	next.Now = time.Date(2026, 11, 17, 7, 30, 0, 0, time.UTC)
	next.Issued = []season.Plan{*first}
	return &next, planned(t, &next)
}

// pictures are those that are made of figures of other packages.
func pictures(on calendar.Date) string {
	return handout.RetentionBands(on, []handout.Retention{
		{Quality: "maximal strength", Last: on.AddDays(-4), Early: on.AddDays(21), Late: on.AddDays(31)},
		{Quality: "maximal speed", Last: on.AddDays(-9), Early: on.AddDays(-7), Late: on.AddDays(-1)},
		{Quality: "aerobic endurance"},
	}).HTML() + handout.WeekLoads([]handout.WeekLoad{
		{From: on.AddDays(-7), Loads: []handout.SourceLoad{{Source: handout.FromGames, Load: 640}, {Source: handout.FromPractice, Load: 1150, Unknown: 1}}},
		{From: on, Loads: []handout.SourceLoad{{Source: handout.FromGym, Load: 320}, {Source: handout.FromElsewhere, Load: 85}}},
	}).HTML() + handout.Slots([]handout.Slot{
		{Date: on, From: 16 * 3600, To: 16*3600 + 45*60, Kind: season.FullBody, Places: 4, Athletes: []handout.Label{"a7", "b4", "c9"}},
		{Date: on, From: 17 * 3600, To: 17*3600 + 45*60, Places: 1, Athletes: []handout.Label{"d2", "e5"}},
	}).HTML()
}

func TestGolden(t *testing.T) {
	req, plan := moved(t)
	b := open(t, req, plan, handout.Options{Name: "Athlete 7", Club: "Example Harriers", Example: true})
	sheets := map[string]handout.Sheet{}
	keep := func(name string) func(s handout.Sheet, err error) {
		return func(s handout.Sheet, err error) {
			t.Helper()
			if err != nil {
				t.Fatal(err)
			}
			sheets[name] = s
		}
	}
	on := date(t, "2026-11-18")
	keep("strip")(b.Season(), nil)
	keep("month")(b.Month(on))
	keep("week")(b.Week(on))
	keep("slip")(b.Slip(), nil)
	keep("coach")(b.Coach(on))
	keep("parent")(b.Parent(on))
	keep("physio")(handout.Physio(on, handout.PhysioCase{Book: b, Notes: []season.Note{{Text: "left groin 3 of 10"}}}))
	_, cards, err := exercise.Builder{}.Season(*plan, exercise.Club{Athlete: req.Athlete})
	if err != nil {
		t.Fatal(err)
	}
	keep("card")(b.Session(cards[len(cards)-1]))
	w, err := handout.NewWall("Example Harriers", on, on.AddDays(2), b)
	keep("wall")(w.Sheet(), err)
	for name, s := range sheets {
		golden(t, name+".text", s.Text())
		golden(t, name+".html", s.Fragment())
	}
	golden(t, "pictures.html", pictures(on))
	golden(t, "document.html", sheets["strip"].HTML())
	golden(t, "plan.csv", b.CSV())
}
