package logbook_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"example.org/weft/load"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// weighed has weighings in grams on dates so many days after Monday 6 July 2026.
func weighed(grams map[int]int) []logbook.Entry {
	var out []logbook.Entry
	for after, g := range grams {
		d := day("2026-07-06").AddDays(after).String()
		out = append(out, entry("m"+d, d, logbook.BodyMass{Mass: load.Mass(g)}))
	}
	return out
}

// weeks has three weighings a week, at 100 g below, at and 100 g above a mean.
func weeks(means ...int) []logbook.Entry {
	grams := map[int]int{}
	for i, m := range means {
		grams[7*i], grams[7*i+2], grams[7*i+5] = m-100, m, m+100
	}
	return weighed(grams)
}

func ExampleProtectedMass_Questions() {
	view := diary(entry("b1", "2026-11-10", logbook.BodyMass{Mass: 50_000}), entry("b2", "2026-11-12", logbook.BodyMass{Mass: 110_000}))
	mass := view.ProtectedBodyMass(logbook.MassOptions{Today: day("2026-11-16")})
	_, ok := mass.Questions("coach")
	questions, _ := mass.Questions(logbook.ForGuardian)
	fmt.Println(ok, questions[0].Text)
	// Output: false the weighing of 2026-11-12 is far from the one before and is not used. Is it right, and in which unit? Confirm or replace b2
}

var ofAge = season.YearMonth{Year: 2001, Month: 3}

func TestBodyMassOfAdults(t *testing.T) {
	off := season.Period{From: day("2026-07-06"), To: day("2026-08-02")} // four weeks
	for _, c := range []struct {
		name  string
		means []int
		kept  int // thousandths; -1: not told
		want  string
	}{
		{"kept", []int{80_000, 81_000, 82_000, 83_000, 82_800, 82_700}, 900, ""},
		{"a third left", []int{80_000, 81_000, 82_000, 83_000, 81_000, 81_000}, 333, "mass-gain"},
		{"no gain beyond fluid", []int{80_000, 80_400, 80_800, 81_200, 81_000, 80_900}, -1, ""},
		{"lost beyond fluid", []int{80_000, 80_000, 80_000, 80_000, 78_100, 78_300}, -1, "mass-below"},
		{"on the edge of fluid", []int{80_000, 80_000, 80_000, 80_000, 78_400, 78_400}, -1, ""},
		{"one week only", []int{80_000, 80_000, 80_000, 80_000, 79_900, 78_300}, -1, ""},
		{"higher", []int{80_000, 80_000, 80_000, 80_000, 81_700, 81_900}, -1, "mass-above"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, ok := newLog(t, weeks(c.means...)...).View("").BodyMass(logbook.MassOptions{Born: ofAge, Off: off})
			if !ok || len(p.Weeks) != len(c.means) || int(p.Weeks[1].Mean) != c.means[1] || p.Weeks[1].Weighings != 3 {
				t.Fatalf("%v %+v", ok, p)
			}
			got := ""
			for _, n := range p.Findings {
				got += n.Code
				for _, m := range c.means {
					if strings.Contains(n.Text, fmt.Sprint(m/1000)) {
						t.Errorf("a value is in the text: %s", n.Text)
					}
				}
			}
			if got != c.want || p.Kept.Known != (c.kept >= 0) || c.kept >= 0 && p.Kept.Value != c.kept {
				t.Errorf("%q, kept %+v; want %q, %d", got, p.Kept, c.want, c.kept)
			}
		})
	}
}

func TestBodyMassOfMinorsIsProtected(t *testing.T) {
	v := newLog(t, weeks(51_300, 52_700)...).View("")
	for _, born := range []season.YearMonth{{}, {Year: 2009, Month: 7}} {
		if p, ok := v.BodyMass(logbook.MassOptions{Born: born}); ok || len(p.Weeks) > 0 {
			t.Errorf("born %s: %+v", born, p)
		}
	}
	p := v.ProtectedBodyMass(logbook.MassOptions{})
	text, err := json.Marshal(map[string]any{"mass": p, "list": []logbook.ProtectedMass{p}, "at": &p})
	if err != nil {
		t.Fatal(err)
	}
	all := string(text) + fmt.Sprint(p) + fmt.Sprintf("%v %+v %#v %s %d %q", p, p, p, p, p, &p) + fmt.Sprintf("%+v %#v", struct{ p logbook.ProtectedMass }{p}, struct{ P *logbook.ProtectedMass }{&p})
	for _, leak := range []string{"51300", "52700", "51.3", "2026", "Weighings"} {
		if strings.Contains(all, leak) {
			t.Errorf("%q is in %s", leak, all)
		}
	}
	for _, who := range []logbook.Audience{"", "coach", "wall", "athlete"} {
		if weeks, ok := p.For(who); ok || weeks != nil {
			t.Errorf("handed to %q", who)
		}
	}
	if weeks, ok := p.For(logbook.ForClinician); !ok || len(weeks) != 2 || weeks[1].Mean != 52_700 {
		t.Errorf("%v %v", weeks, ok)
	}
}

func TestWeekOfOneWeighing(t *testing.T) {
	p, ok := newLog(t, weighed(map[int]int{3: 80_300, 9: 79_100, 10: 79_500})...).View("").BodyMass(logbook.MassOptions{Born: ofAge})
	if !ok || len(p.Weeks) != 2 || p.Weeks[0].Weighings != 1 || p.Weeks[1].Mean != 79_300 {
		t.Errorf("%v %+v", ok, p)
	}
}

func TestImplausibleWeighings(t *testing.T) {
	list := weighed(map[int]int{0: 80_300, 2: 176_900, 4: 80_100})
	p, ok := newLog(t, list...).View("").BodyMass(logbook.MassOptions{Born: ofAge})
	if !ok || len(p.Weeks) != 1 || p.Weeks[0].Mean != 80_200 || p.Weeks[0].Weighings != 2 || len(p.Questions) != 1 || strings.Contains(p.Questions[0].Text, "176") {
		t.Errorf("%v %+v", ok, p)
	}
	sure := append(list, logbook.Entry{ID: "c", Recorded: instant("2026-09-01T10:00:00Z"), What: logbook.Confirm{Of: "m2026-07-08"}})
	if p, _ := newLog(t, sure...).View("").BodyMass(logbook.MassOptions{Born: ofAge}); p.Weeks[0].Weighings != 2 || len(p.Questions) != 1 {
		t.Errorf("confirmed, and the next is far from it: %+v", p)
	}
}

func ExampleView_BodyMass() {
	off := season.Period{From: day("2026-07-06"), To: day("2026-08-02")}
	p, ok := diary(weeks(80_000, 81_000, 82_000, 83_000, 82_600)...).BodyMass(logbook.MassOptions{Born: ofAge, Off: off})
	fmt.Println(ok, p.Gain.Value, "gained,", p.Kept.Value, "thousandths of it kept,", len(p.Findings), "findings")
	// Output: true 3 kg gained, 866 thousandths of it kept, 0 findings
}

func ExampleProtectedMass_For() {
	p := diary(weeks(51_300)...).ProtectedBodyMass(logbook.MassOptions{})
	_, coach := p.For("coach")
	weeks, clinician := p.For(logbook.ForClinician)
	fmt.Println(p, coach, clinician, len(weeks))
	// Output: (private) false true 1
}
