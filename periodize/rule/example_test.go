package rule_test

import (
	"fmt"

	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

func ExampleTable() {
	for _, r := range rule.Table() {
		if r.Kind == rule.Aim && r.Points >= 500 {
			fmt.Println(r.Points, r.ID)
		}
	}
	// Output:
	// 2500 important-48h
	// 2240 empty-run
	// 1120 week-full-body
	// 560 second-lift
}

func ExampleFind() {
	r, ok := rule.Find("latest-end-minor")
	fmt.Println(ok, r.Kind, r.Default, r.Unit, r.Minors)
	fmt.Println(r.Doc)
	// Output:
	// true limit 1230 clock minutes true
	// latest end of a session, under 18
}

func ExampleFamily() {
	fmt.Println(rule.Family("latest-end-minor"), rule.Family("heavy-gap"))
	// Output: latest-end heavy-gap
}

func ExampleDefault() {
	set := rule.Default()
	fmt.Println(set.Version(), set.Value("heavy-before-game"), set.Points("primer"), set.On("sleep"))
	// Output: 1 24 240 true
}

func ExampleNew() {
	hours := 30
	set, problems := rule.New([]season.Override{
		{Rule: "heavy-before-game", Value: &hours},
		{Rule: "long-haul", Off: true},
	})
	fmt.Println(set.Value("heavy-before-game"), set.On("long-haul"), len(problems))
	fmt.Println(set.Version() == rule.Default().Version())
	// Output:
	// 30 false 0
	// false
}

// A safeguard of minors is loosened only by a named adult with a reason.
func ExampleNew_problems() {
	late := 21 * 60
	_, problems := rule.New([]season.Override{
		{Rule: "latest-end-minor", Value: &late},
		{Rule: "hevy-gap", Value: &late},
	})
	for _, p := range problems {
		fmt.Println(p)
	}
	// Output:
	// /rules/0: error: by "latest-end-minor" - a safeguard of minors is loosened without a named adult and a reason; give by and reason, or tighten it instead
	// /rules/1: error: rule "hevy-gap" - there is no such rule; did you mean "heavy-gap"?
}
