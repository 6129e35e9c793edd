package ruletest_test

import (
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/weft/calendar"
	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/rule/ruletest"
	"example.org/weft/periodize/season"
)

func TestShapesAgreeWithTheirDefinitions(t *testing.T) {
	for _, name := range []string{"Europe/Lisbon", "America/St_Johns", "Pacific/Auckland", "Pacific/Kiritimati"} {
		zone, err := calendar.LoadZone(name)
		if err != nil {
			t.Fatal(err)
		}
		rapid.Check(t, func(t *rapid.T) {
			draw := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "n") }
			days := ruletest.Days(draw, zone)
			w := rule.Which{}
			if draw(2) == 0 {
				w.Kinds = []season.Kind{season.FullBody, season.Primer, season.Recovery}
			}
			points := 5 * draw(2)
			for _, r := range []rule.Custom{
				rule.AtMost("at-most", "", draw(5), 1+draw(10), points, w),
				rule.Apart("apart", "", time.Duration(1+draw(120))*time.Hour, points, w),
			} {
				if err := ruletest.Check(r, days); err != nil {
					t.Fatal(err)
				}
			}
		})
	}
}

// wrong forgets that a session of yesterday counts.
type wrong struct{}

func (wrong) Init() uint64 { return 0 }
func (wrong) Step(s uint64, _ rule.Day, _ rule.Session) (uint64, rule.Verdict) {
	return 1, rule.Verdict{Forbid: s == 1}
}
func (wrong) EndDay(uint64, rule.Day) (uint64, rule.Verdict) { return 0, rule.Verdict{} }

func TestCheckFindsADifference(t *testing.T) {
	zone, err := calendar.LoadZone("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	right := rule.AtMost("at-most", "", 1, 2, 0, rule.Which{})
	r := rule.Custom{ID: "wrong", Memory: wrong{}, Plain: right.Plain}
	found := false
	rapid.Check(t, func(t *rapid.T) {
		days := ruletest.Days(func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "n") }, zone)
		found = found || ruletest.Check(r, days) != nil
	})
	if !found {
		t.Error("a memory that forgets was not found out")
	}
}

func ExampleCheck() {
	zone, err := calendar.LoadZone("Europe/Lisbon")
	if err != nil {
		fmt.Println(err)
		return
	}
	r := rule.AtMost("three-in-five", "at most three sessions in five dates", 3, 5, 0, rule.Which{})
	seed := uint64(1)
	draw := func(n int) int { // a small generator; a test would use its own
		seed = seed*6364136223846793005 + 1442695040888963407
		return int(seed>>33) % n
	}
	fmt.Println(ruletest.Check(r, ruletest.Days(draw, zone)))
	// Output: <nil>
}

func ExampleDays() {
	zone, err := calendar.LoadZone("Europe/Lisbon")
	if err != nil {
		fmt.Println(err)
		return
	}
	days := ruletest.Days(func(n int) int { return n - 1 }, zone)
	fmt.Println(len(days), days[0].Date)
	// Output: 30 2032-12-20
}
