package load_test

import (
	"fmt"

	"example.org/weft/load"
)

// From a set that was done to the bar of the next one.
func Example() {
	set, err := load.ParseMass("60 kg")
	if err != nil {
		fmt.Println(err)
		return
	}
	best, ok := load.Epley.OneRepMaxAt(set, 6, 8) // six repetitions, two in reserve
	fmt.Println(best.Load, best.Method, best.Doubtful, ok)

	work, ok := load.Epley.LoadAt(best.Load, 5, 8)
	fmt.Println(work, ok)

	rack, err := load.NewRack(load.MensBar, load.GymDiscs())
	if err != nil {
		fmt.Println(err)
		return
	}
	bar, ok := rack.AtMost(work)
	fmt.Println(bar.Total, bar.PerSide, ok)
	// Output:
	// 76 kg epley false true
	// 61.621 kg true
	// 60 kg [20 kg] true
}

func ExampleParseMass() {
	for _, s := range []string{"102.5 kg", "225 lb", "100", "-5"} {
		m, err := load.ParseMass(s)
		fmt.Println(m, err)
	}
	// Output:
	// 102.5 kg <nil>
	// 102.058 kg <nil>
	// 0 kg "100": a load without a unit; add kg, g or lb
	// 0 kg "-5": a load without a unit; add kg, g or lb
	// "-5": a load is not negative; give a load from 0 to 10000 kg
}

func ExampleMass() {
	m := 100*load.Kilogram + 500*load.Gram
	fmt.Println(m, m.Kilograms(), m.Text(load.InPounds), fmt.Sprintf("%.3f", m.Pounds()))

	b, err := m.MarshalJSON()
	fmt.Println(string(b), err)
	err = m.UnmarshalJSON([]byte(`"225 lb"`))
	fmt.Println(m, err)
	err = m.UnmarshalJSON([]byte(`225`))
	fmt.Println(m, err)
	// Output:
	// 100.5 kg 100.5 221.56 lb 221.565
	// {"grams":100500} <nil>
	// 102.058 kg <nil>
	// 102.058 kg "225": a load without a unit; write it as text with its unit, such as "100 kg"
}

func ExampleKilograms() {
	fmt.Println(load.Kilograms(102.5))
	_, err := load.Kilograms(-1)
	fmt.Println(err)
	// Output:
	// 102.5 kg <nil>
	// -1 kg: a load is not negative; give a load from 0 to 10000 kg
}

func ExamplePounds() {
	fmt.Println(load.Pounds(225))
	// Output: 102.058 kg <nil>
}

func ExampleInputError() {
	_, err := load.NewRack(0, []load.Disc{{Mass: 25_000, Pairs: -1}})
	in, ok := err.(*load.InputError)
	if !ok {
		return
	}
	for _, p := range in.Problems {
		fmt.Println(p.String())
	}
	fmt.Println(in.Error() == in.Problems[0].String()+"\n"+in.Problems[1].String())
	// Output:
	// bar: 0 kg: not above 0 and at most 500 kg; give the mass of the empty bar
	// discs[0].pairs: -1: fewer than none; give the pairs there are, or Plenty
	// true
}

func ExamplePercent_Of() {
	fmt.Println(load.Percent(82.5).Of(141 * load.Kilogram))
	// Output: 116.325 kg true
}

func ExampleParseDay() {
	d, err := load.ParseDay("2026-01-05")
	fmt.Println(int(d), err)
	_, err = load.ParseDay("05/01/2026")
	fmt.Println(err)
	// Output:
	// 20458 <nil>
	// "05/01/2026": not a date; write year, month and day as 2026-11-08
}

func ExampleDay() {
	var d load.Day
	err := d.UnmarshalText([]byte("2026-02-26"))
	fmt.Println(d.String(), err)
	later, ok := d.Plus(5)
	fmt.Println(later, ok)
	b, err := later.MarshalText()
	fmt.Println(string(b), err)
	// Output:
	// 2026-02-26 <nil>
	// 2026-03-03 true
	// 2026-03-03 <nil>
}
