package load_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/weft/load"
	"github.com/google/go-cmp/cmp"
)

// reasons lists what an error says, without values and remedies.
func reasons(err error) []string {
	var in *load.InputError
	if !errors.As(err, &in) {
		return nil
	}
	var rs []string
	for _, p := range in.Problems {
		if p.Value == "" || p.Remedy == "" {
			rs = append(rs, "incomplete problem")
		}
		rs = append(rs, p.Path+"|"+p.Reason)
	}
	return rs
}

func TestParseMass(t *testing.T) {
	for _, r := range []struct {
		text    string
		want    load.Mass
		reasons []string
	}{
		{"100 kg", 100_000, nil},
		{"100kg", 100_000, nil},
		{"0 kg", 0, nil},
		{"007.50 kg", 7500, nil},
		{"225 lb", 102_058, nil},
		{"500 g", 500, nil},
		{"10000 kg", load.MaxMass, nil},
		{"9999999.999999999 g", 10_000_000, nil},
		{"", 0, []string{"|a load without a unit", "|no number"}},
		{"100", 0, []string{"|a load without a unit"}},
		{"kg", 0, []string{"|no number"}},
		{"-5", 0, []string{"|a load without a unit", "|a load is not negative"}},
		{"-5 kg", 0, []string{"|a load is not negative"}},
		{"+5 kg", 0, []string{"|not a plain decimal number"}},
		{"1e3 kg", 0, []string{"|not a plain decimal number"}},
		{"NaN kg", 0, []string{"|not a plain decimal number"}},
		{"NaN", 0, []string{`|unknown unit "NaN"`, "|no number"}},
		{"Inf", 0, []string{`|unknown unit "Inf"`, "|no number"}},
		{"100 KG", 0, []string{`|unknown unit "KG"`}},
		{"225 lbs", 0, []string{`|unknown unit "lbs"`}},
		{"100,5 kg", 0, []string{"|a comma in the number"}},
		{".5 kg", 0, []string{"|not a plain decimal number"}},
		{"5. kg", 0, []string{"|not a plain decimal number"}},
		{"1.2.3 kg", 0, []string{"|not a plain decimal number"}},
		{"1  kg", 0, []string{"|not a plain decimal number"}},
		{" 1 kg", 0, []string{"|not a plain decimal number"}},
		{"1 kg ", 0, []string{"|a load without a unit", "|not a plain decimal number"}},
		{"1\u00a0kg", 0, []string{"|not a plain decimal number"}},
		{"١٠ kg", 0, []string{"|not a plain decimal number"}},
		{"10000.001 kg", 0, []string{"|over 10000 kg"}},
		{"9999999 lb", 0, []string{"|over 10000 kg"}},
		{"12345678 g", 0, []string{"|too many digits"}},
		{"1.0000000001 kg", 0, []string{"|too many digits"}},
		{strings.Repeat("1", 40) + " kg", 0, []string{"|longer than 32 bytes"}},
	} {
		m, err := load.ParseMass(r.text)
		if m != r.want || (err != nil) != (r.reasons != nil) {
			t.Errorf("%q: %d, %v", r.text, m, err)
		}
		if d := cmp.Diff(r.reasons, reasons(err)); d != "" {
			t.Errorf("%q: %s", r.text, d)
		}
	}
}

func TestMassJSON(t *testing.T) {
	for _, r := range []struct {
		text string
		want load.Mass
		ok   bool
	}{
		{`"100 kg"`, 100_000, true},
		{`{"grams": 102500}`, 102_500, true},
		{` { "grams" : 0 } `, 0, true},
		{`100`, 0, false},
		{`-1`, 0, false},
		{`null`, 0, false},
		{`true`, 0, false},
		{`[]`, 0, false},
		{`"100"`, 0, false},
		{`{"grams": -1}`, 0, false},
		{`{"grams": 1.5}`, 0, false},
		{`{"grams": 1e3}`, 0, false},
		{`{"grams": "1"}`, 0, false},
		{`{"grams": 10000001}`, 0, false},
		{`{"grams": 99999999999999999999}`, 0, false},
		{`{"GRAMS": 1}`, 0, false},
		{`{"grams": 1, "grams": 2}`, 0, false},
		{`{"grams": 1, "more": 2}`, 0, false},
		{`{}`, 0, false},
	} {
		m := load.Mass(7)
		err := json.Unmarshal([]byte(r.text), &m)
		if (err == nil) != r.ok || r.ok && m != r.want || !r.ok && m != 7 {
			t.Errorf("%s: %d, %v", r.text, m, err)
		}
		if !r.ok && reasons(err) == nil {
			t.Errorf("%s: error %T says nothing", r.text, err)
		}
	}
	// What a caller may pass without encoding/json in front.
	for _, text := range []string{"", "{", `"`, `{"grams":1}}`, "\x00", "-"} {
		m := load.Mass(7)
		if err := m.UnmarshalJSON([]byte(text)); err == nil || m != 7 {
			t.Errorf("%q: %d, %v", text, m, err)
		}
	}
	if _, err := json.Marshal(load.Mass(-1)); err == nil {
		t.Error("a negative load was written")
	}
}

func TestMassText(t *testing.T) {
	for _, r := range []struct {
		m      load.Mass
		kg, lb string
	}{
		{0, "0 kg", "0 lb"}, {1, "0.001 kg", "0 lb"}, {102_500, "102.5 kg", "225.97 lb"},
		{102_058, "102.058 kg", "225 lb"}, {-2500, "-2.5 kg", "-5.51 lb"}, {-1, "-0.001 kg", "0 lb"},
		{math.MinInt64, "-9223372036854775.808 kg", ""}, {math.MaxInt64, "9223372036854775.807 kg", ""},
	} {
		if got := r.m.String(); got != r.kg {
			t.Errorf("%d: %s, want %s", r.m, got, r.kg)
		}
		if got := r.m.Text(load.InPounds); r.lb != "" && got != r.lb {
			t.Errorf("%d: %s, want %s", r.m, got, r.lb)
		}
	}
}

func TestMassOfNumbers(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -0.001, 10_000.001, 1e300} {
		if _, err := load.Kilograms(x); reasons(err) == nil {
			t.Errorf("%v kg was taken", x)
		}
		if _, err := load.Pounds(x * 3); reasons(err) == nil {
			t.Errorf("%v lb was taken", x*3)
		}
	}
	for x, want := range map[float64]load.Mass{0: 0, 0.0005: 0, 0.0015: 1, 0.00151: 2, 10_000: load.MaxMass, math.Copysign(0, -1): 0} {
		if m, err := load.Kilograms(x); m != want || err != nil {
			t.Errorf("%v kg is %d, %v", x, m, err)
		}
	}
}

func TestParseDay(t *testing.T) {
	for text, want := range map[string]load.Day{"1970-01-01": 0, "1969-12-31": -1, "2026-11-08": 20765, "0001-01-01": -719162, "9999-12-31": 2932896} {
		if d, err := load.ParseDay(text); d != want || err != nil {
			t.Errorf("%s is %d, %v", text, d, err)
		}
	}
	for _, text := range []string{"", "2026-02-30", "2026-2-03", "03/04/2027", "2026-11-08T00:00", "0000-01-01", "20261108", "10000-01-01", "2026-11-8 "} {
		if _, err := load.ParseDay(text); reasons(err) == nil {
			t.Errorf("%q was taken", text)
		}
	}
	if got := load.Day(math.MaxInt32).String(); got != "not a date" {
		t.Error(got)
	}
	if _, err := load.Day(math.MinInt32).MarshalText(); err == nil {
		t.Error("no date was written")
	}
	if _, ok := load.Day(2932896).Plus(1); ok {
		t.Error("a date after the year 9999")
	}
	if _, ok := load.Day(0).Plus(math.MaxInt); ok {
		t.Error("a date beyond all")
	}
}

func TestCurveText(t *testing.T) {
	for _, c := range load.Curves() {
		for _, c := range []load.Curve{c, c.Beyond12()} {
			b, err := c.MarshalText()
			var back load.Curve
			if err != nil || back.UnmarshalText(b) != nil || back != c {
				t.Errorf("%v came back as %v", c, back)
			}
		}
	}
	var c load.Curve
	if err := c.UnmarshalText([]byte("Epley")); reasons(err) == nil {
		t.Error("a name in another case was taken")
	}
	if _, err := load.Curve(50).MarshalText(); reasons(err) == nil {
		t.Error("an unknown curve was written")
	}
	if got := load.Curve(50).String(); got != "curve(50)" {
		t.Error(got)
	}
	if _, err := load.Regression(50).MarshalText(); reasons(err) == nil {
		t.Error("an unknown regression was written")
	}
}

func TestRackReportsAllProblems(t *testing.T) {
	_, err := load.NewRack(-1, []load.Disc{{Mass: 0, Pairs: 1}, {Mass: 5000, Pairs: -2}, {Mass: 200_000, Pairs: 1}})
	want := []string{
		"bar|not above 0 and at most 500 kg",
		"discs[0].mass|not above 0 and at most 100 kg",
		"discs[1].pairs|fewer than none",
		"discs[2].mass|not above 0 and at most 100 kg",
	}
	if d := cmp.Diff(want, reasons(err)); d != "" {
		t.Error(d)
	}
	if _, err := load.NewRack(20_000, make([]load.Disc, 65)); reasons(err) == nil {
		t.Error("65 kinds of discs were taken")
	}
	var none *load.Rack
	if _, ok := none.AtMost(20_000); ok {
		t.Error("a nil rack built a load")
	}
	if _, ok := (&load.Rack{}).Above(20_000); ok {
		t.Error("an empty rack built a load")
	}
}

// The worst case of a rack: discs that share no divisor, plenty of each.
func TestRackOfGramsIsExact(t *testing.T) {
	rack, err := load.NewRack(20_000, []load.Disc{{Mass: 1, Pairs: load.Plenty}, {Mass: 99_999, Pairs: load.Plenty}})
	if err != nil {
		t.Fatal(err)
	}
	l, ok := rack.AtMost(20_000 + 2*123_456)
	if !ok || l.Total != 20_000+2*123_456 || len(l.PerSide) != 1+23_457 {
		t.Errorf("%v with %d discs", l.Total, len(l.PerSide))
	}
	l, ok = rack.AtMost(math.MaxInt64)
	if !ok || l.Total != 20_000+1_000_000 {
		t.Errorf("the heaviest is %v", l.Total)
	}
	if _, ok := rack.Above(math.MaxInt64); ok {
		t.Error("there is a heavier one")
	}
	if _, ok := rack.Above(l.Total); ok {
		t.Error("there is a heavier one than the heaviest")
	}
}

func TestSeriesReportsAllProblems(t *testing.T) {
	_, err := load.NewSeries([]load.Dated{{0, 1}, {0, load.AU(math.NaN())}, {0, -1}}, 5, 4)
	want := []string{
		"from, to|not a run of 1 to 36525 dates",
		"entries[1].load|not a load from 0 to 1e9 AU",
		"entries[2].load|not a load from 0 to 1e9 AU",
	}
	if d := cmp.Diff(want, reasons(err)); d != "" {
		t.Error(d)
	}
	_, err = load.NewSeries([]load.Dated{{20_458, 6e8}, {20_458, 5e8}}, 20_457, 20_458)
	if d := cmp.Diff([]string{"entries of 2026-01-05|more than 1e9 AU on one date"}, reasons(err)); d != "" {
		t.Error(d)
	}
	_, err = load.NewTracker(load.TrackerOptions{Divisor: 9, Seed: load.Seed{Given: true, Acute: -1}, Impulse: load.ImpulseModel{Tau1: 5, Tau2: 5}})
	if d := cmp.Diff([]string{
		"divisor|no such divisor",
		"seed|not loads from 0 to 1e9 AU",
		"impulse|a model out of its ranges, or equal time constants",
	}, reasons(err)); d != "" {
		t.Error(d)
	}
}

func TestTrackerTakesItsDivisor(t *testing.T) {
	if _, err := load.NewTracker(load.TrackerOptions{Divisor: load.Population + 1}); reasons(err) == nil {
		t.Error("an unknown divisor was taken")
	}
	tracker, err := load.NewTracker(load.TrackerOptions{Divisor: load.Population})
	if err != nil {
		t.Fatal(err)
	}
	days := week(300, 480, 0, 450, 120, 630, 0)
	for _, d := range days {
		tracker.Add(d)
	}
	got, ok1 := tracker.Week()
	want, ok2 := load.Week(days, load.Population)
	if got != want || !ok1 || !ok2 {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// Acute and chronic loads, and the model, are off unless asked for.
func TestTrackerKeepsTheWeekAlone(t *testing.T) {
	var tracker load.Tracker
	for range 60 {
		tracker.Add(load.Known(100))
	}
	tracker.Add(load.Known(0))
	if w, ok := tracker.Week(); !ok || w.Total != 600 {
		t.Errorf("week %+v, %v", w, ok)
	}
	for name, f := range map[string]func() (load.AcuteChronic, bool){
		"coupled": tracker.Coupled, "uncoupled": tracker.Uncoupled, "exponential": tracker.Exponential,
	} {
		if _, ok := f(); ok {
			t.Error(name, "was not asked for")
		}
	}
	if _, ok := tracker.Impulse(); ok {
		t.Error("no model was given")
	}
}
