package jsonread_test

import (
	"fmt"
	"strings"

	"example.org/weft/internal/jsonread"
)

func Example() {
	const text = `{
  "id": "g7",
  "start": "08/11/2026",
  "Kind": "game",
  "minutes": 90.0,
  "minutes": 80,
  "tags": ["home", null]
}`
	d := jsonread.Read(strings.NewReader(text), jsonread.Options{})
	f := d.Root().Object()
	id, _ := f.Required("id").String(1, 64)
	f.Required("start").Text("a date such as 2026-11-08", func(s string) error {
		if len(s) != 10 || s[4] != '-' {
			return fmt.Errorf("the order of day and month is a guess")
		}
		return nil
	})
	f.Required("kind").Enum("game", "practice")
	f.Optional("minutes").Int(1, 720)
	tags, _ := f.Optional("tags").Array(10)
	for _, tag := range tags {
		tag.String(1, 20)
	}
	f.Done()

	fmt.Println(id, d.OK())
	for _, p := range d.Problems() {
		fmt.Println(p)
	}
	// Output:
	// g7 false
	// 3:12: error: /start: "08/11/2026": the order of day and month is a guess; write a date such as 2026-11-08
	// 4:3: error: /Kind: capital and small letters differ in names; write "kind"
	// 5:14: error: /minutes: 90.0: a whole number is wanted; write it without a decimal point
	// 6:3: error: /minutes: the field is given twice, first at 5:3; keep one of the two
	// 7:20: error: /tags/1: null: null stands for no value; leave the element out
}

func ExampleRead() {
	d := jsonread.Read(strings.NewReader("[1,\n 2,,]"), jsonread.Options{})
	fmt.Println(d.Root().Present())
	for _, p := range d.Problems() {
		fmt.Printf("line %d, column %d, %s: %s\n", p.Line, p.Col, p.Code, p.Reason)
	}
	// Output:
	// false
	// line 2, column 4, syntax: a value is wanted
}

func ExampleOptions() {
	const text = `{"restrictions": "no sprints", "notes": 1}`
	d := jsonread.Read(strings.NewReader(text), jsonread.Options{Strict: true, Private: []string{"restrictions"}})
	f := d.Root().Object()
	f.Optional("restrictions").Array(10)
	f.Done()
	for _, p := range d.Problems() {
		fmt.Println(p)
	}
	// Output:
	// 1:18: error: /restrictions: (private): an array is wanted, not a string; put it in brackets: [ ]
	// 1:32: error: /notes: the field is not known and is not read; remove it
}

func ExampleDocument_Counts() {
	d := jsonread.Read(strings.NewReader(`[NaN, 01, "\u0007"]`), jsonread.Options{})
	fmt.Println(d.Counts())
	// Output: 2 1
}

func ExampleCodes() {
	fmt.Println(jsonread.Codes()[:3])
	// Output: [unreadable too-large too-deep]
}

func ExampleValue_Decimal() {
	d := jsonread.Read(strings.NewReader(`[7.5, 11, 8.25]`), jsonread.Options{})
	efforts, _ := d.Root().Array(10)
	for _, v := range efforts {
		fmt.Println(v.Decimal(1, 0, 100))
	}
	fmt.Println(d.Problems()[0])
	// Output:
	// 75 true
	// 0 false
	// 0 false
	// 1:7: error: /1: 11: the number is out of range; give a number from 0 to 10 with at most 1 decimal
}

func ExampleValue_Report() {
	d := jsonread.Read(strings.NewReader(`{"from": 9, "to": 8}`), jsonread.Options{})
	f := d.Root().Object()
	from, _ := f.Required("from").Int(0, 24)
	end := f.Required("to")
	if to, ok := end.Int(0, 24); ok && to < from {
		end.Report(jsonread.Error, "order", "it closes before it opens", "swap the two")
	}
	f.Done()
	fmt.Println(d.Problems()[0])
	// Output: 1:19: error: /to: 8: it closes before it opens; swap the two
}

func ExampleFields_Members() {
	d := jsonread.Read(strings.NewReader(`{"lifts": 2, "recovery": 3}`), jsonread.Options{})
	rules, _ := d.Root().Object().Members(100)
	for _, r := range rules {
		n, _ := r.Value.Int(0, 7)
		fmt.Println(r.Name, n)
	}
	// Output:
	// lifts 2
	// recovery 3
}

func ExampleClosest() {
	fmt.Println(jsonread.Closest("Europ/Dublin", []string{"Europe/Berlin", "Europe/Dublin"}))
	// Output: Europe/Dublin true
}

func ExampleInert() {
	fmt.Println(jsonread.Inert("Under 15s\x1b[2J <b>", 12))
	// Output: Under 15s\u001b[2…
}
