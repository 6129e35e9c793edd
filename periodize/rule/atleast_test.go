package rule_test

import (
	"fmt"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// run makes dates from 12 November 2026 on; "x" has a full-body session, "p" a
// primer, "." nothing.
func run(marks string) []rule.Day {
	first, err := calendar.ParseDate("2026-11-12")
	if err != nil {
		panic(err)
	}
	var days []rule.Day
	for i, c := range marks {
		d := rule.Day{Date: first.AddDays(i)}
		switch c {
		case 'x':
			d.Sessions = []rule.Session{{Kind: season.FullBody, Date: d.Date}}
		case 'p':
			d.Sessions = []rule.Session{{Kind: season.Primer, Date: d.Date}}
		}
		days = append(days, d)
	}
	return days
}

func TestAtLeast(t *testing.T) {
	heavy := rule.Which{Kinds: []season.Kind{season.FullBody}}
	before := run("x")[0].Date.AddDays(-2) // 10 November
	for _, c := range []struct {
		name, marks string
		need        rule.Need
		want        string // dates that cost, by day of the month
	}{
		{"a run of three", "x...x", rule.Need{Dates: 3}, "[15]"},
		{"each date beyond", "x.....x", rule.Need{Dates: 3}, "[15 16 17]"},
		{"primers are other sessions", "xp.p.x", rule.Need{Dates: 3}, "[15 16]"},
		{"what was before is not known", "..x..", rule.Need{Dates: 4}, "[]"},
		{"what was before is known", "...x.", rule.Need{Dates: 4, Before: []calendar.Date{before}}, "[14]"},
		{"two in five", "x..x..x", rule.Need{Least: 2, Dates: 5}, "[17]"},
		{"two in three", "x..x..x", rule.Need{Least: 2, Dates: 3}, "[14 15 16 17 18]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.need.Points, c.need.Which = 4, heavy
			got := []int{}
			for _, f := range rule.AtLeast("heavy", "", c.need).Plain(run(c.marks)) {
				_, _, day := f.Date.YMD()
				got = append(got, day)
			}
			if fmt.Sprint(got) != c.want {
				t.Errorf("costs on %v, want %s", got, c.want)
			}
		})
	}
}

func ExampleAtLeast() {
	r := rule.AtLeast("strength-kept", "a heavy session in any ten dates",
		rule.Need{Dates: 10, Points: 40, Which: rule.Which{Kinds: []season.Kind{season.FullBody, season.Trimmed}}})
	for _, f := range r.Plain(run("x...........x")) {
		fmt.Println(f.Date, f.Verdict.Points)
	}
	// Output:
	// 2026-11-22 40
	// 2026-11-23 40
}
