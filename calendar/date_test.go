package calendar_test

import (
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
	"pgregory.net/rapid"
)

func date(t testing.TB, s string) calendar.Date {
	t.Helper()
	d, err := calendar.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// ISO 8601; derived, several seen in the standard.
func TestISOWeek(t *testing.T) {
	for _, c := range []struct {
		date       string
		year, week int
		weekday    time.Weekday
	}{
		{"2003-12-29", 2004, 1, time.Monday},
		{"2005-01-01", 2004, 53, time.Saturday},
		{"2008-12-29", 2009, 1, time.Monday},
		{"2010-01-03", 2009, 53, time.Sunday},
		{"2012-12-31", 2013, 1, time.Monday},
		{"2020-12-31", 2020, 53, time.Thursday},
		{"2021-01-03", 2020, 53, time.Sunday},
		{"2022-12-31", 2022, 52, time.Saturday},
		{"2024-12-30", 2025, 1, time.Monday},
		{"2026-12-31", 2026, 53, time.Thursday},
	} {
		d := date(t, c.date)
		if y, w := d.ISOWeek(); y != c.year || w != c.week || d.Weekday() != c.weekday {
			t.Errorf("%s: got %d-W%d %v, want %d-W%d %v", c.date, y, w, d.Weekday(), c.year, c.week, c.weekday)
		}
	}
}

// 71 years of 400 have 53 weeks (derived); the 300 years that dates cover are
// checked against the definition: the week of a date is that of its Thursday.
func TestISOWeekLongYears(t *testing.T) {
	long := 0
	for y := 1; y <= 400; y++ {
		// 28 December is always in the last week of its year.
		d := calendar.DateFromDayNumber(dayNumber(2000+y, 12, 28))
		if _, w := d.ISOWeek(); w == 53 {
			long++
		}
	}
	if long != 71 {
		t.Errorf("%d long years of 400, want 71", long)
	}
	first, last := date(t, "1900-01-01"), date(t, "2199-12-31")
	for d := first; !d.After(last); d = d.AddDays(1) {
		thursday := calendar.WeekStart(d, time.Monday).AddDays(3)
		y, _, _ := thursday.YMD()
		new, _ := calendar.NewDate(y, 1, 1)
		wantYear, wantWeek := y, thursday.DaysSince(new)/7+1
		if gotYear, gotWeek := d.ISOWeek(); gotYear != wantYear || gotWeek != wantWeek {
			t.Fatalf("%s: got %d-W%d, want %d-W%d", d, gotYear, gotWeek, wantYear, wantWeek)
		}
	}
}

// dayNumber counts days since 1970-01-01 by the rule of leap years alone.
func dayNumber(y, m, d int) int {
	leap := func(y int) bool { return y%4 == 0 && (y%100 != 0 || y%400 == 0) }
	n := 0
	for i := 1970; i < y; i++ {
		n += 365
		if leap(i) {
			n++
		}
	}
	for i := y; i < 1970; i++ {
		n -= 365
		if leap(i) {
			n--
		}
	}
	months := [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	for i := 1; i < m; i++ {
		n += months[i-1]
		if i == 2 && leap(y) {
			n++
		}
	}
	return n + d - 1
}

func TestDateLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y, m, d := rapid.IntRange(1900, 2199).Draw(t, "y"), rapid.IntRange(1, 12).Draw(t, "m"), rapid.IntRange(1, 28).Draw(t, "d")
		v, err := calendar.NewDate(y, m, d)
		if err != nil {
			t.Fatal(err)
		}
		if v.DayNumber() != dayNumber(y, m, d) || calendar.DateFromDayNumber(v.DayNumber()) != v {
			t.Fatalf("%s is day %d, want %d", v, v.DayNumber(), dayNumber(y, m, d))
		}
		if (int(v.Weekday())+7-4)%7 != (v.DayNumber()%7+7)%7 { // 1970-01-01 was a Thursday
			t.Fatalf("%s is a %v", v, v.Weekday())
		}
		var back calendar.Date
		text, err := v.MarshalText()
		if err != nil || back.UnmarshalText(text) != nil || back != v || v.String() != string(text) {
			t.Fatalf("%s: %s, %v", v, text, err)
		}
		n := rapid.IntRange(-5000, 5000).Draw(t, "n")
		w := v.AddDays(n)
		if w.DaysSince(v) != n || w.AddDays(-n) != v || w.After(v) != (n > 0) || w.Before(v) != (n < 0) || w.Compare(v) != -v.Compare(w) || w.Equal(v) != (n == 0) {
			t.Fatalf("%s + %d = %s", v, n, w)
		}
		first := time.Weekday(rapid.IntRange(0, 6).Draw(t, "first"))
		start := calendar.WeekStart(v, first)
		if back := v.DaysSince(start); start.Weekday() != first || back < 0 || back > 6 {
			t.Fatalf("the week of %s starts %s", v, start)
		}
	})
}

func TestDateUnset(t *testing.T) {
	var z calendar.Date
	if !z.IsZero() || z.String() != "" || !z.AddDays(9).IsZero() || z.DaysSince(date(t, "2026-11-08")) != 0 || z.DayNumber() != 0 {
		t.Error("an unset date is used as a date")
	}
	if text, err := z.MarshalText(); err != nil || len(text) > 0 {
		t.Errorf("got %q, %v", text, err)
	}
	if y, m, d := z.YMD(); y != 0 || m != 0 || d != 0 {
		t.Error("an unset date has a year")
	}
	d := date(t, "2026-11-08")
	if d.UnmarshalText(nil) == nil || d != date(t, "2026-11-08") {
		t.Error("the empty text is taken for a date, or destroys one")
	}
}

// Loops over dates end, also at the edge of the years that can be written.
func TestDateEdge(t *testing.T) {
	last := date(t, "2199-12-31")
	next := last.AddDays(1)
	if next.String() != "2200-01-01" || !next.After(last) {
		t.Errorf("after the last date comes %q", next)
	}
	if _, err := next.MarshalText(); err == nil {
		t.Error("2200-01-01 can be written, but not read")
	}
	const most = int(^uint(0) >> 1)
	for _, n := range []int{most, -most, 4_000_000, -4_000_000} {
		if d := last.AddDays(n); !d.IsZero() {
			t.Errorf("%d days later: %s", n, d)
		}
	}
	if !calendar.DateFromDayNumber(most).IsZero() || !calendar.DateFromDayNumber(-most).IsZero() {
		t.Error("a day number beyond the years is a date")
	}
}

func TestParseDateRefused(t *testing.T) {
	for _, c := range []struct{ text, remedy string }{
		{"03/04/2027", "write 2027-04-03 if the day comes first, 2027-03-04 if the month does"},
		{"13/04/2027", "write 2027-04-13 if that is meant"},
		{"04/13/2027", "write 2027-04-13 if that is meant"},
		{"05.05.2027", "write 2027-05-05 if that is meant"},
		{"3.4.27", "write 2027-04-03 if the day comes first, 2027-03-04 if the month does"},
		{"2027/04/03", "write 2027-04-03 if that is meant"},
		{"2027-4-3", "write 2027-04-03 if that is meant"},
		{"20270403", "write 2027-04-03 if that is meant"},
		{"3 Apr 2027", "write 2027-04-03 if that is meant"},
		{"April 3, 2027", "write 2027-04-03 if that is meant"},
		{"2027 April 3", "write 2027-04-03 if that is meant"},
		{"2027-04-03T14:00", "write the date alone: 2027-04-03"},
		{" 2027-04-03", "write 2027-04-03 if that is meant"},
		{"", "write dates as YYYY-MM-DD"},
		{"soon", "write dates as YYYY-MM-DD"},
		{"32/32/2027", "write dates as YYYY-MM-DD"},
		{"2027-02-29", "give a day that exists"},
		{"2027-00-10", "give a day that exists"},
		{"2027-13-10", "give a day that exists"},
		{"2027-06-31", "give a day that exists"},
		{"1899-12-31", "give a day that exists"},
		{"2200-01-01", "give a day that exists"},
		{"2027-04-0\u0663", "write dates as YYYY-MM-DD"},
		{"+027-04-03", "write dates as YYYY-MM-DD"},
	} {
		d, err := calendar.ParseDate(c.text)
		v, ok := err.(*calendar.ValueError)
		if !ok || !d.IsZero() || v.Value != c.text || v.Reason == "" || !strings.Contains(v.Remedy, c.remedy) {
			t.Errorf("%q: got %v, %v, want %q", c.text, d, err, c.remedy)
		}
	}
}

func TestClock(t *testing.T) {
	for _, c := range []struct {
		text string
		want calendar.Clock
	}{{"00:00", 0}, {"19:45", 71100}, {"19:45:09", 71109}, {"24:00", 86400}} {
		got, err := calendar.ParseClock(c.text)
		if err != nil || got != c.want || got.String() != c.text {
			t.Errorf("%q: got %v (%d), %v", c.text, got, got, err)
		}
	}
	if got, err := calendar.ParseClock("24:00:00"); err != nil || got != calendar.EndOfDay {
		t.Errorf("24:00:00: %v, %v", got, err)
	}
	for _, c := range []struct{ text, remedy string }{
		{"7:45pm", "write 19:45 if that is meant"},
		{"7pm", "write 19:00 if that is meant"},
		{"12 AM", "write 00:00 if that is meant"},
		{"12:30 pm", "write 12:30 if that is meant"},
		{"9:00", "write 09:00 if that is meant"},
		{"19.45", "write 19:45 if that is meant"},
		{"1945", "write 19:45 if that is meant"},
		{"19h45", "write 19:45 if that is meant"},
		{"TBD", "leave the field empty"},
		{"19:45Z", "the zone in its own field"},
		{"19:45+01:00", "the zone in its own field"},
		{"24:01", "from 00:00 to 24:00"},
		{"23:60", "from 00:00 to 24:00"},
		{"", "HH:MM"},
		{"-1:30", "HH:MM"},
		{"evening", "HH:MM"},
	} {
		got, err := calendar.ParseClock(c.text)
		v, ok := err.(*calendar.ValueError)
		if !ok || got != 0 || !strings.Contains(v.Remedy, c.remedy) {
			t.Errorf("%q: got %v, %v", c.text, got, err)
		}
	}
	if _, err := calendar.Clock(-1).MarshalText(); err == nil {
		t.Error("a clock before midnight can be written")
	}
	if c, err := calendar.NewClock(19, 45); err != nil || c.String() != "19:45" {
		t.Error(c, err)
	}
	if _, err := calendar.NewClock(25, 0); err == nil {
		t.Error("25:00 is a time")
	}
}

func TestWall(t *testing.T) {
	a, b := wall(t, "2026-11-08T24:00"), wall(t, "2026-11-09T00:00")
	if a.Compare(b) != 0 || a.String() != "2026-11-08T24:00" {
		t.Error("24:00 is not 00:00 of the next date")
	}
	if got := wall(t, "2026-12-31T23:30").AddMinutes(45).String(); got != "2027-01-01T00:15" {
		t.Error(got)
	}
	for _, s := range []string{"", "2026-11-08", "2026-11-08 14:00", "2026-11-08T14:00Z", "2026-11-08T14:00+01:00", "2026-11-08T1400", "2026-02-30T10:00"} {
		if w, err := calendar.ParseWall(s); err == nil || !w.IsZero() {
			t.Errorf("%q: got %v", s, w)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		w := calendar.Wall{
			Date:  calendar.DateFromDayNumber(rapid.IntRange(-25567, 84005).Draw(t, "day")),
			Clock: calendar.Clock(rapid.Int32Range(0, 86400).Draw(t, "clock")),
		}
		text, err := w.MarshalText()
		var back calendar.Wall
		if err != nil || back.UnmarshalText(text) != nil || back != w {
			t.Fatalf("%v: %s, %v", w, text, err)
		}
	})
}

func FuzzParseDate(f *testing.F) {
	for _, s := range []string{"2026-11-08", "03/04/2027", "3 Apr 2027", "", "2026-02-30", "\xff/1/1", "20270403", "99999999-1-1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := calendar.ParseDate(s)
		if err != nil {
			if v, ok := err.(*calendar.ValueError); !ok || v.Reason == "" || v.Remedy == "" || !d.IsZero() {
				t.Fatalf("%q: %v", s, err)
			}
		} else if d.String() != s {
			t.Fatalf("%q is read as %s", s, d)
		}
		c, err := calendar.ParseClock(s)
		if err == nil && c.String() != strings.TrimSuffix(s, ":00") && c.String() != s {
			t.Fatalf("%q is read as %s", s, c)
		}
		if w, err := calendar.ParseWall(s); err == nil && w.Date.String() != s[:10] {
			t.Fatalf("%q is read as %s", s, w)
		}
	})
}

func FuzzLoadZone(f *testing.F) {
	for _, s := range []string{"Europe/Berlin", "europe/berlin", "UTC+2", "../x", "Local", "Etc/GMT+5", "\x00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		z, err := calendar.LoadZone(s)
		if err != nil {
			if v, ok := err.(*calendar.ValueError); !ok || v.Remedy == "" || !z.IsZero() {
				t.Fatalf("%q: %v", s, err)
			}
			return
		}
		if z.Name() != s || z.Location() == nil {
			t.Fatalf("%q is read as %q", s, z.Name())
		}
	})
}
