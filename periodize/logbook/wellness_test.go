package logbook_test

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"example.org/weft/load"
	"example.org/weft/periodize/logbook"
)

// hooper has sums of four ratings on dates in a row up to the Monday of 16 November
// 2026; 0 is a morning that was not told.
func hooper(sums ...int) (list []logbook.Entry) {
	for i, s := range sums {
		if s == 0 {
			continue
		}
		d := day("2026-11-16").AddDays(i + 1 - len(sums)).String()
		w := logbook.Wellness{Scale: logbook.HooperScale}
		for k, to := range []*logbook.Maybe[int]{&w.Sleep, &w.Fatigue, &w.Stress, &w.Soreness} {
			*to = logbook.Told((s + k) / 4)
		}
		list = append(list, entry("w"+d, d, w))
	}
	return list
}

// Before the last week 10 and 12 in turn are told, at least 14 of them: mean 11,
// standard deviation 1.024 to 1.038 (derived), so that one is reached at 13, and two
// and a quarter on average at a sum of 39.9 to 40.0 over three.
func TestWellnessRun(t *testing.T) {
	usual := []int{10, 12, 10, 12, 10, 12, 10, 12, 10, 12, 10, 12, 10, 12, 10, 12, 10, 12, 10, 12}
	for _, c := range []struct {
		name  string
		last  []int
		run   int
		known bool
	}{
		{"as usual", []int{12, 12, 12}, 0, true},
		{"three worse", []int{13, 13, 13}, 0, true},
		{"three far worse", []int{13, 13, 14}, 3, true},
		{"two only", []int{12, 14, 14}, 0, true},
		{"better", []int{8, 8, 8}, 0, true},
		{"one not told between", []int{10, 14, 0, 13, 14}, 3, true},
		{"spread over a week", []int{14, 0, 0, 0, 14, 14}, 0, false},
		{"old news", []int{14, 14, 14, 0, 0, 0}, 0, false},
		{"told the day before yesterday", []int{14, 14, 14, 0, 0}, 3, true},
		{"five in a row", []int{14, 13, 13, 14, 14}, 5, true},
	} {
		run, known := newLog(t, hooper(append(usual, c.last...)...)...).View("").WellnessRun(day("2026-11-16"))
		if run.Mornings != c.run || known != c.known {
			t.Errorf("%s: %+v %v", c.name, run, known)
		}
	}
	v := func(sums ...int) logbook.View { return newLog(t, hooper(sums...)...).View("") }
	if _, ok := v(append(usual[3:], 14, 14, 14)...).WellnessRun(day("2026-11-16")); ok {
		t.Error("13 mornings are enough")
	}
	if _, ok := v(8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 14, 14, 14).WellnessRun(day("2026-11-16")); ok {
		t.Error("who always tells the same has a spread")
	}
	// On the scale whose best is highest the same mornings are better.
	turned := hooper(append(usual, 14, 14, 14)...)
	for i := range turned {
		w := turned[i].What.(logbook.Wellness)
		w.Scale = logbook.McLeanScale
		turned[i].What = w
	}
	if run, ok := newLog(t, turned...).View("").WellnessRun(day("2026-11-16")); !ok || run.Mornings != 0 {
		t.Errorf("%+v %v", run, ok)
	}
}

func TestWellnessIsFound(t *testing.T) {
	l := newLog(t, hooper(10, 12, 10, 12, 10, 12, 10, 12, 10, 12, 10, 12, 10, 12, 10, 12, 10, 12, 15, 15, 15)...)
	list, err := l.View("").Findings(attention(t, "2026-11-16"))
	if err != nil || len(list) != 1 || list[0].Note.Code != "wellness-run" {
		t.Fatal(list, err)
	}
	for _, health := range []string{"15", "45", "sleep", "score"} {
		if text := fmt.Sprint(list); strings.Contains(strings.NewReplacer("2026-11-15", "").Replace(text), health) {
			t.Errorf("%q is shown: %s", health, text)
		}
	}
}

// rated draws ratings of a scale of 1 to 7 around 3, each of which resembles that of
// the day before by so much.
type rated struct {
	r     *rand.Rand
	like  float64
	state [4]float64
	off   float64 // of all ratings
}

func (x *rated) morning() (w logbook.Wellness) {
	w.Scale = logbook.HooperScale
	all := x.r.NormFloat64()
	for k, to := range []*logbook.Maybe[int]{&w.Sleep, &w.Fatigue, &w.Stress, &w.Soreness} {
		fresh := 0.6*all + 0.8*x.r.NormFloat64() // ratings of a morning resemble each other
		x.state[k] = x.like*x.state[k] + math.Sqrt(1-x.like*x.like)*fresh
		*to = logbook.Told(min(max(int(math.Round(3+x.off+x.state[k])), 1), 7))
	}
	return w
}

// How often a list of a Monday has a run though nothing is wrong, and how soon one
// is found where all ratings get worse by one and a half points. Drawn, seeded.
func TestFalseAlarmsOfWellness(t *testing.T) {
	athletes := 60
	if testing.Short() {
		athletes = 20
	}
	for _, c := range []struct {
		like float64
		most float64 // runs in 100 weeks
	}{{0, 0.3}, {0.3, 0.7}, {0.6, 2}} {
		weeks, runs, unknown, found, late := 0, 0, 0, 0, 0
		for n := range athletes {
			x := &rated{r: rand.New(rand.NewSource(int64(n + 1))), like: c.like}
			var fold logbook.Fold
			start, after := day("2026-08-03"), -1
			for i := range 25 * 7 {
				d := start.AddDays(i)
				if i == 24*7 {
					x.off = 1.5
				}
				if x.r.Float64() > 0.15 { // some mornings are not told
					if err := fold.Add(entry("w"+d.String(), d.String(), x.morning())); err != nil {
						t.Fatal(err)
					}
				}
				switch run, ok := fold.View("").WellnessRun(d); {
				case i >= 24*7:
					if run.Mornings > 0 && after < 0 {
						after = i - 24*7
					}
				case i%7 != 0 || i < 21:
				case !ok:
					unknown++
				default:
					weeks++
					if run.Mornings > 0 {
						runs++
					}
				}
			}
			if found++; after < 0 {
				late++
			}
		}
		t.Logf("likeness %.1f: %d of %d weeks with a run (%.2f of 100), %d not known; %d of %d athletes found within a week", c.like, runs, weeks, 100*float64(runs)/float64(weeks), unknown, found-late, found)
		if 100*float64(runs) > c.most*float64(weeks) || 100*late > 40*found {
			t.Error("the stated rates do not hold")
		}
	}
}

func ExampleView_WellnessRun() {
	var entries []logbook.Entry
	for i, sleep := range []int{3, 2, 3, 2, 3, 2, 3, 2, 3, 2, 3, 2, 3, 2, 3, 2, 3, 2, 6, 6, 5} {
		d := day("2026-11-16").AddDays(i - 20).String()
		entries = append(entries, entry(d, d, logbook.Wellness{Scale: logbook.HooperScale, Sleep: logbook.Told(sleep)}))
	}
	run, ok := diary(entries...).WellnessRun(day("2026-11-16"))
	fmt.Println(ok, run.Mornings, run.From, run.To, run.Usual, load.HooperScore(0).HigherIsWorse())
	// Output: true 3 2026-11-14 2026-11-16 14 true
}
