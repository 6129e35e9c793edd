package season_test

import (
	"fmt"
	"testing"

	"example.org/weft/periodize/season"
)

func TestAgeOn(t *testing.T) {
	for _, c := range []struct {
		born season.YearMonth
		on   string
		want int
		ok   bool
	}{
		{season.YearMonth{}, "2026-11-09", 0, false},
		{season.YearMonth{Year: 2013, Month: 11}, "2026-11-01", 12, true},
		{season.YearMonth{Year: 2013, Month: 11}, "2026-11-29", 12, true},
		{season.YearMonth{Year: 2013, Month: 11}, "2026-11-30", 13, true}, // the last day of the month
		{season.YearMonth{Year: 2013, Month: 10}, "2026-11-01", 13, true},
		{season.YearMonth{Year: 2013, Month: 12}, "2026-11-30", 12, true},
		{season.YearMonth{Year: 2008, Month: 2}, "2027-02-27", 18, true},
		{season.YearMonth{Year: 2008, Month: 2}, "2027-02-28", 19, true},
		{season.YearMonth{Year: 2008, Month: 2}, "2028-02-28", 19, true}, // a leap year has one more
		{season.YearMonth{Year: 2008, Month: 2}, "2028-02-29", 20, true},
	} {
		got, ok := c.born.AgeOn(day(c.on))
		if got != c.want || ok != c.ok {
			t.Errorf("born %s, on %s: %d %v, want %d %v", c.born, c.on, got, ok, c.want, c.ok)
		}
	}
}

func ExampleYearMonth_AgeOn() {
	// The birthday is taken to be the last of the month.
	born := season.YearMonth{Year: 2010, Month: 11}
	fmt.Println(born.AgeOn(day("2026-11-29")))
	fmt.Println(born.AgeOn(day("2026-11-30")))
	// Output:
	// 15 true
	// 16 true
}

// Training age is written in years and read back in the same months.
func TestTrainingAgeMonths(t *testing.T) {
	req := season.Request{
		Period:  season.Period{From: day("2026-11-09"), To: day("2026-11-15")},
		Athlete: season.Athlete{Zone: zoneOf("Europe/Berlin")},
	}
	for months := -1; months <= 80*12; months++ {
		req.Athlete.TrainingAgeMonths = months
		var back season.Request
		if err := back.UnmarshalJSON(marshal(t, req)); err != nil {
			t.Fatal(err)
		}
		if got := back.Athlete.TrainingAgeMonths; got != months {
			t.Fatalf("%d months became %d", months, got)
		}
	}
}

func TestTrainingAgeYears(t *testing.T) {
	for text, want := range map[string]int{"3": 36, "2.5": 30, "0": 0, "0.25": 3, "1.99": 23, "2.0": 24, "80": 960} {
		var req season.Request
		text := `{"schema": 1, "period": {"from": "2110-11-09", "to": "2110-11-15"}, "athlete": {"born": "2020-01", "zone": "UTC", "trainingAgeYears": ` + text + `}}`
		if err := req.UnmarshalJSON([]byte(text)); err != nil {
			t.Fatal(err)
		}
		if got := req.Athlete.TrainingAgeMonths; got != want {
			t.Errorf("%s: %d months, want %d", text, got, want)
		}
	}
}

func TestOptedIn(t *testing.T) {
	a := season.Athlete{OptIns: []season.OptIn{season.OptLowRepSets}}
	if a.OptedIn(season.OptPostGame) || !a.OptedIn(season.OptLowRepSets) {
		t.Error(a.OptIns)
	}
}
