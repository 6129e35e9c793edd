package logbook_test

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
)

// fault is a row that somebody got wrong, with what a reader must say of it.
type fault struct {
	row  string
	want string // "class code column"
}

// faults are what tables of a club hold. @ is the athlete, # a number of its own.
var faults = []fault{
	{"session,f#,@,2026-11-10,17:00,full-body,done,,,,,,,2026-11-10T20:00:00Z,", ""}, // in order
	{"session,f#,@,10.11.2026,17:00,full-body,done,,,,,,,,", "error date date"},
	{"session,f#,@,2026-11-31,17:00,full-body,done,,,,,,,,", "error date date"},
	{"session,f#,@,2026-12-10,17:00,full-body,done,,,,,,,,", "error future date"},
	{"session,f#,@,2026-11-10,,full-body,done,,,,,,,,", "error missing time"},
	{"session,f#,@,2026-11-10,17.00,full-body,done,,,,,,,,", "error clock time"},
	{"session,f#,@,2026-11-10,17:00,fullbody,done,,,,,,,,", "error choice session"},
	{"session,f#,@,2026-11-10,17:00,full-body,done,,11,,,,,,", "error number rating"},
	{"session,f#,@,2026-11-10,17:00,full-body,missed,50,,,,,,,", "error contradiction state"},
	{"set,,@,,,,,,,s1,back-squat,100,5,,", "error mass load"},
	{"set,,@,,,,,,,s1,back-squat,225 pounds,5,,", "error mass load"},
	{"set,,@,,,,,,,s1,back-squat,\"102,5 kg\",5,,", "error mass load"},
	{"set,,@,,,,,,,s1,back-squat,100 kg,five,,", "error number reps"},
	{"set,,@,,,,,,,s77,back-squat,100 kg,5,,", "error set-of of"},
	{"set,,@,,,,,,,s1,,100 kg,5,,", "error missing exercise"},
	{"weighing,,@,2026-11-10,,,,,,,,,,,71 kg", "error choice kind"},
	{"body-mass,f#,@,2026-11-10,,,,,,,,,,,71", "error mass body_mass"},
	{"body-mass,f#,@,2026-11-10,,,,,,,,,,,710 kg", "error range body_mass"},
	{"game,f#,@,2026-11-10,19:00,,,400,,,,,,,", "error number minutes"},
	{"game,f#,@,2026-11-10,19:00,,,60,7.5,,,100 kg,,,", "warning column-unused load"},
	{"practice,p1,@,2026-11-11,19:00,,,80,5,,,,,,", "warning repeated p1"},
	{"practice,p1,@,2026-11-11,19:00,,,85,5,,,,,,", "question id-twice p1"},
	{"session,f#,@,2026-11-10,17:00,full-body,done,,,,,,,2026-11-30T08:00:00Z,", "error future recorded"},
	{"session,f#,@,2026-11-10,17:00,full-body,done,,,,,,,2026-11-09T08:00:00Z,", "error future date"},
}

// A table of a squad of 30 with faults strewn in: every faulty row is named by its
// line, once, with its column and a remedy, and no other row is. Without the
// errors all other rows are in the log.
func TestMessySquad(t *testing.T) {
	r := rand.New(rand.NewSource(20261126))
	for _, errors := range []bool{true, false} {
		table := "kind,id,athlete,date,time,session,state,minutes,rating,of,exercise,load,reps,recorded,body_mass\n"
		line, entries := 1, 0
		var want []string
		put := func(row, athlete string) {
			line++
			table += strings.NewReplacer("@", athlete, "#", fmt.Sprint(line)).Replace(row) + "\n"
		}
		for n := range 30 {
			a := fmt.Sprintf("a%02d", n)
			put("session,s1,@,2026-11-09,17:00,full-body,done,55,6,,,,,2026-11-09T18:00:00Z,", a)
			put("set,,@,,,,,,,s1,back-squat,100 kg,5,,", a)
			put("set,,@,,,,,,,s1,back-squat,225 lb,5,,", a)
			put("practice,p1,@,2026-11-11,19:00,,,80,5,,,,,,", a)
			put("body-mass,b1,@,2026-11-12,,,,,,,,,,,71.3 kg", a)
			entries += 3
			for range 4 {
				f := faults[r.Intn(len(faults))]
				if !errors && strings.HasPrefix(f.want, "error") {
					continue
				}
				put(f.row, a)
				if f.want == "" || strings.HasPrefix(f.want, "warning column") {
					entries++
				}
				if f.want != "" {
					want = append(want, fmt.Sprintf("%d %s", line, f.want))
				}
			}
		}
		l, problems, err := reader(t).CSV(strings.NewReader(table), "log.csv")
		var got []string
		for _, p := range append(problems, problemsOf(err)...) {
			at := p.Field
			if p.Code == "repeated" || p.Code == "id-twice" {
				at = p.Value
			}
			got = append(got, fmt.Sprintf("%s %s %s %s", strings.TrimPrefix(p.Path, "log.csv:"), p.Class, p.Code, at))
			if p.Reason == "" || p.Remedy == "" {
				t.Errorf("%+v", p)
			}
		}
		if errors { // where there are errors, ids are not compared yet
			want = slices.DeleteFunc(want, func(s string) bool { return strings.HasSuffix(s, " p1") })
		} else {
			ids := 0
			for _, w := range want {
				if strings.HasSuffix(w, "id-twice p1") {
					ids++
				}
			}
			if clashes := len(l.Clashes()); len(l.Athletes()) != 30 || l.Len() < entries || l.Len() > entries+ids || ids > 0 != (clashes > 0) {
				t.Errorf("%d entries of %d athletes, want %d and up to %d that clash; %d clashes", l.Len(), len(l.Athletes()), entries, ids, clashes)
			}
		}
		slices.Sort(want)
		slices.Sort(got)
		if d := cmp.Diff(want, slices.Compact(got)); d != "" {
			t.Errorf("errors %v: %s", errors, d)
		}
	}
}

// One wrong value, first or later, in kilograms or pounds, is asked about once, is
// not used, and does not hold back what is right.
func TestWrongWeighings(t *testing.T) {
	adult := logbook.MassOptions{Today: day("2026-12-31"), Born: ofAge}
	days := func(after ...int) map[int]int {
		out := map[int]int{}
		for i, d := range after {
			out[d] = 80_000 + 200*(i%3)
		}
		return out
	}
	for name, c := range map[string]struct {
		right map[int]int
		wrong map[int]int
	}{
		"first, in pounds":         {days(1, 2, 4, 8, 40), map[int]int{0: 177_000}},
		"in the middle":            {days(0, 2, 9), map[int]int{4: 177_000}},
		"after six weeks":          {days(0, 2, 50), map[int]int{44: 171_000}},
		"before six weeks of none": {days(0, 2, 50), map[int]int{3: 36_000}},
		"the last":                 {days(0, 2, 50), map[int]int{51: 8_000 * 2}},
	} {
		all := map[int]int{}
		for k, v := range c.right {
			all[k] = v
		}
		for k, v := range c.wrong {
			all[k] = v
		}
		p, _ := newLog(t, weighed(all)...).View("").BodyMass(adult)
		clean, _ := newLog(t, weighed(c.right)...).View("").BodyMass(adult)
		if d := cmp.Diff(fmt.Sprint(clean.Weeks), fmt.Sprint(p.Weeks)); d != "" || len(p.Questions) != len(c.wrong) || len(clean.Questions) > 0 {
			t.Errorf("%s: %s %v", name, d, p.Questions)
		}
	}
}

// Work is bounded by the length of a log, whatever is in it: thirty thousand sessions
// at one time, as many under one name, as many loads that are not used.
func TestHostileLogs(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	const n = 30_000
	var together, named, far []logbook.Entry
	far = append(far, did("a", "", "1990-01-01", z, set(20, 5, 2)))
	for i := range n {
		e := did(fmt.Sprint("e", i), "", "2026-11-10", z, set(float64(20+i%50), 5, 2))
		together = append(together, e)
		e.What = did("", "p", "2026-11-10", z, set(float64(20+i%50), 5, 2)).What
		named = append(named, e)
		far = append(far, did(fmt.Sprint("e", i), "", day("1990-01-02").AddDays(i%10_000).String(), z, set(200+float64(i%2), 5, 2)))
	}
	v := newLog(t, together...).View("")
	if len(v.Entries)+len(v.Disputed) == 0 {
		t.Error("nothing is left")
	}
	v = newLog(t, named...).View("")
	if len(v.Entries) != 0 || len(v.Disputed) != 1 || len(v.Questions) != 1 || len(v.Questions[0].Text) > 200 {
		t.Errorf("%d count, %d disputes", len(v.Entries), len(v.Disputed))
	}
	lifts, _, err := newLog(t, far...).View("").Progress(logbook.Given{})
	if err != nil || len(lifts) != 1 || len(lifts[0].Questions) > 10 {
		t.Error(len(lifts), err)
	}
}

// A name that is nearly one of the catalogue is asked back, another is named alone.
func TestMistypedExercises(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	x, y := set(40, 5, 2), set(40, 5, 2)
	x.Exercise, y.Exercise = "goblet squad", "tyre flip"
	_, warnings, err := newLog(t, did("a", "", "2026-11-10", z, x, y)).View("").Progress(logbook.Given{})
	if err != nil || len(warnings) != 2 || warnings[0].Code != "log-exercise-near" || !strings.HasSuffix(strings.ToLower(warnings[0].Text), "did you mean goblet squat?") || warnings[1].Code != "log-exercise" {
		t.Errorf("%v %v", warnings, err)
	}
}

// A run of values far from what was known is one question, and all of them hold
// once the first is confirmed.
func TestOneQuestionForARun(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	list := []logbook.Entry{did("a", "", "2026-11-02", z, set(50, 5, 2))}
	for i, d := range []string{"2026-11-05", "2026-11-09", "2026-11-12", "2026-11-16"} {
		list = append(list, did(fmt.Sprint("b", i), "", d, z, set(112.5+2.5*float64(i), 5, 2)))
	}
	g := logbook.Given{Today: day("2026-11-17"), Athlete: lifter(), Kit: exercise.Gym()}
	l, ok, err := newLog(t, list...).View("").Lift("back-squat", g)
	if !ok || err != nil || len(l.Questions) != 1 || l.Last.Value != 50*load.Kilogram || l.Questions[0].Values["more"].Number != 3 || l.Questions[0].Values["entry"].Text != "b0" || len(l.Questions[0].Subject.Dates) != 4 {
		t.Errorf("%+v %v", l.Questions, l.Last)
	}
	list = append(list, logbook.Entry{ID: "c", Recorded: instant("2028-12-31T00:00:00Z"), What: logbook.Confirm{Of: "b0"}})
	if l, _, _ = newLog(t, list...).View("").Lift("back-squat", g); len(l.Questions) > 0 || l.Last.Value != 120*load.Kilogram {
		t.Errorf("confirmed: %+v %v", l.Questions, l.Last)
	}
}

// What lies after the date of a list is not on it.
func TestFindingsOfADate(t *testing.T) {
	l := newLog(t, entry("a", "2026-10-01", logbook.Test{Name: "jump", Unit: logbook.InCm, Value: 38_200}), entry("b", "2026-11-12", logbook.Test{Name: "jump", Unit: logbook.InCm, Value: 34_000}),
		entry("x", "2026-11-12T17:00", done(season.FullBody)), entry("x", "2026-11-12T18:00", done(season.FullBody)))
	a := attention(t, "2026-11-11")
	a.Tests.Noise = []logbook.Noise{{Name: "jump", Unit: logbook.InCm, Error: 800, Source: "the club"}}
	if got := codesOf(t, l.View(""), a); got != "ask-entries" { // a clash is asked about at once
		t.Errorf("%q", got)
	}
	a.Today = day("2026-11-14")
	if got := codesOf(t, l.View(""), a); got != "ask-entries test-lower" {
		t.Errorf("%q", got)
	}
}
