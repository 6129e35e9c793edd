package icalendar

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/teambition/rrule-go"
	"pgregory.net/rapid"

	"example.org/weft/calendar"
)

// days turns "1997 Sep 2,4,9-11 Oct 2 1998 Jan 1" into dates.
func days(t testing.TB, s string) []string {
	t.Helper()
	var out []string
	var year, month int
	for _, f := range strings.Fields(s) {
		if m := strings.Index("JanFebMarAprMayJunJulAugSepOctNovDec", f); m >= 0 && len(f) == 3 {
			month = m/3 + 1
			continue
		}
		var y int
		if n, err := fmt.Sscanf(f, "%d", &y); n == 1 && err == nil && y > 1000 {
			year = y
			continue
		}
		for _, p := range strings.Split(f, ",") {
			var a, b int
			if n, _ := fmt.Sscanf(p, "%d-%d", &a, &b); n == 1 {
				b = a
			} else if n != 2 {
				t.Fatalf("bad day %q", p)
			}
			for d := a; d <= b; d++ {
				out = append(out, fmt.Sprintf("%04d-%02d-%02d", year, month, d))
			}
		}
	}
	return out
}

// The dated examples of RFC 5545, section 3.8.5.3. Those with * were seen in the
// source, the others are from memory; all agree with rrule-go v1.8.2
// (TestRuleExamplesOracle). For rules without an end, upTo ends the list.
var ruleExamples = []struct{ start, rule, upTo, want string }{
	{"19970902T090000", "FREQ=DAILY;COUNT=10", "", "1997 Sep 2-11"},                                                              // *
	{"19970902T090000", "FREQ=DAILY;UNTIL=19971224T000000Z", "", "1997 Sep 2-30 Oct 1-31 Nov 1-30 Dec 1-23"},                     // *
	{"19970902T090000", "FREQ=DAILY;INTERVAL=2", "19971010", "1997 Sep 2,4,6,8,10,12,14,16,18,20,22,24,26,28,30 Oct 2,4,6,8,10"}, //
	{"19970902T090000", "FREQ=DAILY;INTERVAL=10;COUNT=5", "", "1997 Sep 2,12,22 Oct 2,12"},                                       //
	{"19980101T090000", "FREQ=YEARLY;UNTIL=20000131T140000Z;BYMONTH=1;BYDAY=SU,MO,TU,WE,TH,FR,SA", "", "1998 Jan 1-31 1999 Jan 1-31 2000 Jan 1-31"},
	{"19980101T090000", "FREQ=DAILY;UNTIL=20000131T140000Z;BYMONTH=1", "", "1998 Jan 1-31 1999 Jan 1-31 2000 Jan 1-31"},
	{"19970902T090000", "FREQ=WEEKLY;COUNT=10", "", "1997 Sep 2,9,16,23,30 Oct 7,14,21,28 Nov 4"},
	{"19970902T090000", "FREQ=WEEKLY;UNTIL=19971224T000000Z", "", "1997 Sep 2,9,16,23,30 Oct 7,14,21,28 Nov 4,11,18,25 Dec 2,9,16,23"},
	{"19970902T090000", "FREQ=WEEKLY;INTERVAL=2;WKST=SU", "19980220", "1997 Sep 2,16,30 Oct 14,28 Nov 11,25 Dec 9,23 1998 Jan 6,20 Feb 3,17"},
	{"19970902T090000", "FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH", "", "1997 Sep 2,4,9,11,16,18,23,25,30 Oct 2"},
	{"19970902T090000", "FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH", "", "1997 Sep 2,4,9,11,16,18,23,25,30 Oct 2"}, // *
	{"19970901T090000", "FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR", "", "1997 Sep 1,3,5,15,17,19,29 Oct 1,3,13,15,17,27,29,31 Nov 10,12,14,24,26,28 Dec 8,10,12,22"},
	{"19970902T090000", "FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH", "", "1997 Sep 2,4,16,18,30 Oct 2,14,16"},                  // *
	{"19970905T090000", "FREQ=MONTHLY;COUNT=10;BYDAY=1FR", "", "1997 Sep 5 Oct 3 Nov 7 Dec 5 1998 Jan 2 Feb 6 Mar 6 Apr 3 May 1 Jun 5"}, // *
	{"19970905T090000", "FREQ=MONTHLY;UNTIL=19971224T000000Z;BYDAY=1FR", "", "1997 Sep 5 Oct 3 Nov 7 Dec 5"},
	{"19970907T090000", "FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU", "", "1997 Sep 7,28 Nov 2,30 1998 Jan 4,25 Mar 1,29 May 3,31"},
	{"19970922T090000", "FREQ=MONTHLY;COUNT=6;BYDAY=-2MO", "", "1997 Sep 22 Oct 20 Nov 17 Dec 22 1998 Jan 19 Feb 16"},
	{"19970928T090000", "FREQ=MONTHLY;BYMONTHDAY=-3", "19980301", "1997 Sep 28 Oct 29 Nov 28 Dec 29 1998 Jan 29 Feb 26"},
	{"19970902T090000", "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15", "", "1997 Sep 2,15 Oct 2,15 Nov 2,15 Dec 2,15 1998 Jan 2,15"},
	{"19970930T090000", "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1", "", "1997 Sep 30 Oct 1,31 Nov 1,30 Dec 1,31 1998 Jan 1,31 Feb 1"},
	{"19970910T090000", "FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15", "", "1997 Sep 10-15 1999 Mar 10-13"},
	{"19970902T090000", "FREQ=MONTHLY;INTERVAL=2;BYDAY=TU", "19980401", "1997 Sep 2,9,16,23,30 Nov 4,11,18,25 1998 Jan 6,13,20,27 Mar 3,10,17,24,31"},
	{"19970610T090000", "FREQ=YEARLY;COUNT=10;BYMONTH=6,7", "", "1997 Jun 10 Jul 10 1998 Jun 10 Jul 10 1999 Jun 10 Jul 10 2000 Jun 10 Jul 10 2001 Jun 10 Jul 10"},
	{"19970310T090000", "FREQ=YEARLY;INTERVAL=2;COUNT=10;BYMONTH=1,2,3", "", "1997 Mar 10 1999 Jan 10 Feb 10 Mar 10 2001 Jan 10 Feb 10 Mar 10 2003 Jan 10 Feb 10 Mar 10"},
	{"19970101T090000", "FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200", "", "1997 Jan 1 Apr 10 Jul 19 2000 Jan 1 Apr 9 Jul 18 2003 Jan 1 Apr 10 Jul 19 2006 Jan 1"},
	{"19970519T090000", "FREQ=YEARLY;BYDAY=20MO", "19991231", "1997 May 19 1998 May 18 1999 May 17"},
	{"19970512T090000", "FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO", "19991231", "1997 May 12 1998 May 11 1999 May 17"},
	{"19970313T090000", "FREQ=YEARLY;BYMONTH=3;BYDAY=TH", "19991231", "1997 Mar 13,20,27 1998 Mar 5,12,19,26 1999 Mar 4,11,18,25"},
	{"19970605T090000", "FREQ=YEARLY;BYDAY=TH;BYMONTH=6,7,8", "19991231", "1997 Jun 5,12,19,26 Jul 3,10,17,24,31 Aug 7,14,21,28 1998 Jun 4,11,18,25 Jul 2,9,16,23,30 Aug 6,13,20,27 1999 Jun 3,10,17,24 Jul 1,8,15,22,29 Aug 5,12,19,26"},
	{"19970913T090000", "FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13", "19980630", "1997 Sep 13 Oct 11 Nov 8 Dec 13 1998 Jan 10 Feb 7 Mar 7 Apr 11 May 9 Jun 13"},
	{"19961105T090000", "FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8", "20041231", "1996 Nov 5 2000 Nov 7 2004 Nov 2"},
	{"19970904T090000", "FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3", "", "1997 Sep 4 Oct 7 Nov 6"},
	{"19970929T090000", "FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2", "19980331", "1997 Sep 29 Oct 30 Nov 27 Dec 30 1998 Jan 29 Feb 26 Mar 30"},
	{"19970805T090000", "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", "", "1997 Aug 5,10,19,24"}, // *
	{"19970805T090000", "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", "", "1997 Aug 5,17,19,31"}, // *
	{"20070115T090000", "FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5", "", "2007 Jan 15,30 Feb 15 Mar 15,30"},  // *
}

func TestRuleExamples(t *testing.T) {
	for _, tt := range ruleExamples {
		t.Run(tt.rule, func(t *testing.T) {
			opt := Options{}
			if tt.upTo != "" {
				opt.From, opt.To = date(t, "1990-01-01"), date(t, tt.upTo[:4]+"-"+tt.upTo[4:6]+"-"+tt.upTo[6:])
			}
			res, ps := read(t, ics(event("UID:x", "DTSTART;TZID=America/New_York:"+tt.start, "RRULE:"+tt.rule)), opt)
			if len(ps) > 0 {
				t.Fatal(ps)
			}
			var got []string
			for _, e := range res.Events {
				got = append(got, e.Start.Date.String())
				if e.Start.Clock.String() != "09:00" {
					t.Errorf("%s is not at 09:00", e.Start)
				}
			}
			if d := cmp.Diff(days(t, tt.want), got); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
		})
	}
}

// Two more examples of the section: an excluded start, and several times a day.
func TestRuleExamplesMore(t *testing.T) {
	opt := Options{From: date(t, "1997-01-01"), To: date(t, "2000-12-31")}
	res, ps := read(t, ics(event("UID:x", "DTSTART;TZID=America/New_York:19970902T090000",
		"EXDATE;TZID=America/New_York:19970902T090000", "RRULE:FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13")), opt)
	var got []string
	for _, e := range res.Events {
		got = append(got, e.Start.Date.String())
	}
	if d := cmp.Diff(days(t, "1998 Feb 13 Mar 13 Nov 13 1999 Aug 13 2000 Oct 13"), got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if d := cmp.Diff([]string{"warning rule-start 8"}, brief(ps)); d != "" {
		t.Error(d)
	}
	opt.To = date(t, "1997-09-03")
	res, _ = read(t, ics(event("UID:x", "DTSTART;TZID=America/New_York:19970902T090000",
		"RRULE:FREQ=DAILY;BYHOUR=9,10,11,12,13,14,15,16;BYMINUTE=0,20,40")), opt)
	if len(res.Events) != 48 || res.Events[1].Start.String() != "1997-09-02T09:20" || res.Events[47].Start.String() != "1997-09-03T16:40" {
		t.Errorf("%d events: %v", len(res.Events), showAll(res.Events))
	}
}

// The examples of the section that repeat within a day, from 09:00 on 1997-09-02
// in New York. Seen in the text of RFC 5545; of the first, erratum 3883 notes that
// its UNTIL, 17:00 UTC, is 13:00 there, so that 15:00 is no more in it.
var withinExamples = []struct{ rule, want string }{
	{"FREQ=HOURLY;INTERVAL=3;UNTIL=19970902T170000Z", "2 09:00 12:00"},
	{"FREQ=HOURLY;INTERVAL=3;UNTIL=19970902T210000Z", "2 09:00 12:00 15:00"},
	{"FREQ=MINUTELY;INTERVAL=15;COUNT=6", "2 09:00 09:15 09:30 09:45 10:00 10:15"},
	{"FREQ=MINUTELY;INTERVAL=90;COUNT=4", "2 09:00 10:30 12:00 13:30"},
	{"FREQ=MINUTELY;INTERVAL=20;BYHOUR=9,10,11,12,13,14,15,16", "2 09:00 09:20 09:40 10:00 10:20 10:40 11:00 11:20 11:40 12:00 12:20 12:40 13:00 13:20 13:40 14:00 14:20 14:40 15:00 15:20 15:40 16:00 16:20 16:40 " +
		"3 09:00 09:20 09:40 10:00 10:20 10:40 11:00 11:20 11:40 12:00 12:20 12:40 13:00 13:20 13:40 14:00 14:20 14:40 15:00 15:20 15:40 16:00 16:20 16:40"},
}

func TestRuleExamplesWithin(t *testing.T) {
	for _, tt := range withinExamples {
		opt := Options{From: date(t, "1997-09-02"), To: date(t, "1997-09-03")}
		res, ps := read(t, ics(event("UID:x", "DTSTART;TZID=America/New_York:19970902T090000", "RRULE:"+tt.rule)), opt)
		var got []string
		day := 0
		for _, e := range res.Events {
			if _, _, d := e.Start.Date.YMD(); d != day {
				day = d
				got = append(got, itoa(d))
			}
			got = append(got, e.Start.Clock.String())
		}
		if s := strings.Join(got, " "); s != tt.want || len(ps) > 0 {
			t.Errorf("%s: %s %v", tt.rule, s, ps)
		}
	}
}

// Without an end such a series takes no time, and who wants none of it says so.
func TestReminders(t *testing.T) {
	for _, tt := range []struct {
		lines    []string
		opt      Options
		events   int
		problems []string
	}{
		{nil, Options{}, 3, nil},
		{nil, Options{NoReminders: true}, 0, []string{"question kind-assumed 4"}},
		{[]string{"CATEGORIES:skills"}, Options{NoReminders: true}, 3, nil},
		{[]string{"DURATION:PT20M"}, Options{NoReminders: true}, 3, []string{"warning kind-assumed 4"}},
		{nil, Options{NoReminders: true, DefaultKind: calendar.Exam}, 3, nil},
	} {
		res, ps := read(t, ics(event(append([]string{"UID:x", "DTSTART;TZID=America/New_York:19970902T090000", "RRULE:FREQ=HOURLY;COUNT=3"}, tt.lines...)...)), tt.opt)
		if d := cmp.Diff(tt.problems, brief(ps)); d != "" || len(res.Events) != tt.events {
			t.Errorf("%v: %d events, problems (-want +got):\n%s", tt.lines, len(res.Events), d)
		}
	}
}

// What section 3.3.10 forbids is read as other readers do, or the rule is not
// used; both is a question.
func TestRuleQuestions(t *testing.T) {
	for _, tt := range []struct {
		rule   string
		events int
		say    string
	}{
		{"FREQ=DAILY;COUNT=0", 1, "COUNT=0 is read as 1"},
		{"FREQ=DAILY;COUNT=-3", 1, "not a whole number"},
		{"FREQ=DAILY;INTERVAL=0;COUNT=2", 2, "INTERVAL=0 is read as 1"},
		{"FREQ=DAILY;INTERVAL=-4;COUNT=2", 2, "INTERVAL=-4 is read as 1"},
		{"FREQ=DAILY;COUNT=2;COUNT=3", 1, "twice"},
		{"FREQ=DAILY;UNTIL=soon", 1, "not a date"},
		{"FREQ=DAILY;UNTIL=1997-09-05T09:00:00", 4, "read as the time that it says"},
		{"COUNT=3", 1, "FREQ is missing"},
		{"FREQ=FORTNIGHTLY", 1, "unknown"},
		{"FREQ=WEEKLY;BYDAY=1TU;COUNT=2", 2, "a number goes with"},
		{"FREQ=YEARLY;BYWEEKNO=36;BYDAY=1TU;COUNT=2", 2, "a number goes with"},
		{"FREQ=MONTHLY;BYDAY=6TU,1TU;COUNT=2", 2, "no such weekday"},
		{"FREQ=MONTHLY;BYDAY=0TU;COUNT=2", 1, "no weekday"},
		{"FREQ=MONTHLY;BYMONTHDAY=32;COUNT=2", 1, "out of range"},
		{"FREQ=MONTHLY;BYMONTHDAY=0;COUNT=2", 1, "out of range"},
		{"FREQ=MONTHLY;BYSETPOS=1;COUNT=2", 2, "another BY part"},
		{"FREQ=MONTHLY;BYWEEKNO=36;COUNT=2", 2, "read as a limit"},
		{"FREQ=WEEKLY;BYMONTHDAY=2;COUNT=2", 2, "read as a limit"},
		{"FREQ=DAILY;COUNT=2;EVERY=3", 2, "no part"},
		{"FREQ=DAILY;COUNT=2;BYDAY=", 2, "is empty"},
		{"RSCALE=HEBREW;FREQ=YEARLY;COUNT=2", 1, "Gregorian"},
		{"FREQ=MONTHLY;COUNT=2;SKIP=BACKWARD", 2, "left out"},
		{"FREQ=DAILY;BYHOUR", 1, "NAME=value"},
		{"FREQ=DAILY;BYHOUR=" + numbers(24) + ";BYMINUTE=" + numbers(60) + ";BYSECOND=1,2", 1, "1,440 times"},
	} {
		res, ps := read(t, ics(event("UID:x", "DTSTART;TZID=America/New_York:19970902T090000", "RRULE:"+tt.rule)), Options{From: date(t, "1990-01-01"), To: date(t, "2004-12-31")})
		if len(ps) != 1 || ps[0].Code != CodeRule || ps[0].Class != calendar.ClassQuestion || !strings.Contains(ps[0].Reason, tt.say) || len(res.Events) != tt.events {
			t.Errorf("%s: %d events, %v", tt.rule, len(res.Events), ps)
		}
	}
	// A count beyond all dates is one.
	res, ps := read(t, ics(event("UID:x", "DTSTART;TZID=America/New_York:19970902T090000", "RRULE:FREQ=YEARLY;COUNT=99999999999999999999")), Options{})
	if len(res.Events) != 203 || len(ps) > 0 {
		t.Errorf("%d events, %v", len(res.Events), ps)
	}
	// A date has no times within it.
	_, ps = read(t, ics(event("UID:x", "DTSTART;VALUE=DATE:19970902", "RRULE:FREQ=HOURLY;COUNT=3")), Options{DefaultZone: zone(t, "Europe/Berlin")})
	if d := cmp.Diff([]string{"question rule 7"}, brief(ps)); d != "" {
		t.Error(d)
	}
}

// numbers lists 0 to n-1.
func numbers(n int) string {
	var s []string
	for i := range n {
		s = append(s, itoa(i))
	}
	return strings.Join(s, ",")
}

// fataler is what *testing.T and *rapid.T have in common.
type fataler interface {
	Helper()
	Fatalf(string, ...any)
}

// oracle expands a rule with rrule-go, in floating time.
func oracle(t fataler, rule string, start int64, to int64) []int64 {
	t.Helper()
	o, err := rrule.StrToROption(rule)
	if err != nil {
		t.Fatalf("%s: %v", rule, err)
	}
	o.Dtstart = time.Unix(start, 0).UTC()
	r, err := rrule.NewRRule(*o)
	if err != nil {
		t.Fatalf("%s: %v", rule, err)
	}
	var out []int64
	for _, x := range r.Between(o.Dtstart, time.Unix(to, 0).UTC(), true) {
		out = append(out, x.Unix())
	}
	return out
}

func expandAll(t fataler, text string, start, from, to int64) ([]int64, bool, int64) {
	t.Helper()
	r, err := parseRule(text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	var after func(int64) bool
	if r.hasUntil {
		after = func(l int64) bool { return l > r.until.local }
	}
	m := meter{limit: 10_000_000}
	var out []int64
	matched, err := r.expand(start, false, from, to, after, &m, func(l int64) bool { out = append(out, l); return true })
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return out, matched, m.used
}

// same compares two lists and shows where they part.
func same(t fataler, what string, a, b []int64) {
	t.Helper()
	for i := 0; i < max(len(a), len(b)); i++ {
		if i >= len(a) || i >= len(b) || a[i] != b[i] {
			show := func(x []int64) (s []string) {
				for _, v := range x[min(max(i-2, 0), len(x)):min(i+3, len(x))] {
					s = append(s, wallOf(v).String())
				}
				return s
			}
			t.Fatalf("%s differ at %d of %d and %d: %v, %v", what, i, len(a), len(b), show(a), show(b))
		}
	}
}

func TestRuleExamplesOracle(t *testing.T) {
	for _, tt := range ruleExamples {
		start, err := parseMoment(tt.start)
		if err != nil {
			t.Fatal(err)
		}
		to := start.local + 20*366*daySeconds
		got, _, _ := expandAll(t, tt.rule, start.local, start.local, to)
		if d := cmp.Diff(oracle(t, tt.rule, start.local, to), got); d != "" {
			t.Errorf("%s (-oracle +got):\n%s", tt.rule, d)
		}
	}
}

// randomRule draws rules on which RFC 5545 and rrule-go agree: BYWEEKNO comes
// with BYDAY, because the RFC takes the weekday from the start and rrule-go takes
// the whole week; BYDAY is numbered throughout or not at all, because rrule-go
// wants both of MO,1MO at once. Week -53 or -52 may begin in the year before, where
// rrule-go does not look; days of January in week 52 it counts to week 53 where
// the week does not begin on Monday. BYSETPOS of a week: rrule-go leaves the days before the
// start out of its first week.
func randomRule(t *rapid.T) string {
	ints := func(label string, lo, hi, lowest int) string {
		one := rapid.IntRange(lo, hi)
		if lowest < 0 {
			one = rapid.OneOf(one, rapid.IntRange(lowest, -lo))
		}
		var s []string
		// Distinct: rrule-go gives a time twice when its rule names it twice.
		for _, v := range rapid.SliceOfNDistinct(one, 1, 3, rapid.ID[int]).Draw(t, label) {
			s = append(s, itoa(v))
		}
		return strings.Join(s, ",")
	}
	freq := rapid.SampledFrom([]string{"DAILY", "WEEKLY", "MONTHLY", "YEARLY"}).Draw(t, "freq")
	parts := []string{"FREQ=" + freq, "INTERVAL=" + itoa(rapid.IntRange(1, 5).Draw(t, "interval"))}
	maybe := func(label string) bool { return rapid.IntRange(0, 3).Draw(t, label) == 0 }
	by := false
	if maybe("bymonth") {
		parts, by = append(parts, "BYMONTH="+ints("month", 1, 12, 0)), true
	}
	if freq != "WEEKLY" && maybe("bymonthday") {
		parts, by = append(parts, "BYMONTHDAY="+ints("monthday", 1, 31, -31)), true
	}
	weekNo := freq == "YEARLY" && maybe("byweekno")
	if weekNo {
		parts, by = append(parts, "BYWEEKNO="+ints("weekno", 1, 51, -50)), true
	}
	if freq == "YEARLY" && maybe("byyearday") {
		parts, by = append(parts, "BYYEARDAY="+ints("yearday", 1, 366, -366)), true
	}
	if weekNo || maybe("byday") {
		var s []string
		numbered := (freq == "MONTHLY" || freq == "YEARLY" && !weekNo) && rapid.Bool().Draw(t, "numbered")
		for i := rapid.IntRange(1, 4).Draw(t, "days"); i > 0; i-- {
			d := rapid.SampledFrom(weekdayNames[:]).Draw(t, "day")
			if numbered {
				d = itoa(rapid.SampledFrom([]int{1, 2, 3, 4, 5, -1, -2, -3, -4, -5}).Draw(t, "nth")) + d
			}
			s = append(s, d)
		}
		parts, by = append(parts, "BYDAY="+strings.Join(s, ",")), true
	}
	if maybe("byhour") {
		parts, by = append(parts, "BYHOUR="+ints("hour", 0, 23, 0)), true
	}
	if by && freq != "WEEKLY" && maybe("bysetpos") {
		parts = append(parts, "BYSETPOS="+ints("pos", 1, 8, -8))
	}
	if maybe("wkst") {
		parts = append(parts, "WKST="+rapid.SampledFrom(weekdayNames[:]).Draw(t, "wkst"))
	}
	return strings.Join(parts, ";")
}

// The expansion agrees with rrule-go on random rules. Where the rule does not
// give its own start, RFC 5545 counts the start as the first occurrence and
// rrule-go leaves it out.
func TestRuleOracle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := randomRule(t)
		start := int64(rapid.IntRange(dayNumber(1995, 1, 1), dayNumber(2035, 1, 1)).Draw(t, "start"))*daySeconds +
			int64(rapid.IntRange(0, 47).Draw(t, "half hours"))*1800
		to := start + 8*366*daySeconds
		got, matched, used := expandAll(t, text, start, start, to)
		want := oracle(t, text, start, to)
		if !matched {
			got = got[1:]
		}
		same(t, text+" from "+wallOf(start).String()+", oracle and own", want, got)
		if used > 8*366*30 {
			t.Fatalf("%s took %d units of work", text, used)
		}
		// A window shows the same occurrences as the whole.
		from := start + int64(rapid.IntRange(0, 5000).Draw(t, "from"))*daySeconds
		until := from + int64(rapid.IntRange(0, 800).Draw(t, "length"))*daySeconds
		part, _, _ := expandAll(t, text, start, from, until)
		var inside []int64
		whole, _, _ := expandAll(t, text, start, start, until)
		for _, x := range whole {
			if x >= from {
				inside = append(inside, x)
			}
		}
		same(t, text+", whole and window", inside, part)
		// COUNT ends the same list early.
		n := rapid.IntRange(1, 20).Draw(t, "count")
		counted, _, _ := expandAll(t, text+";COUNT="+itoa(n), start, start, to)
		if len(whole) > n && until <= to {
			same(t, text+" and with COUNT="+itoa(n), whole[:n], counted)
		}
	})
}

// randomWithin draws rules finer than a day. rrule-go v1.8.2 applies BYSETPOS to
// these as well; what it leaves out of the first period (times before the start)
// RFC 5545 counts, so BYSETPOS comes with a start at the begin of a period only.
func randomWithin(t *rapid.T) (text string, unit int64) {
	freq := rapid.SampledFrom([]string{"HOURLY", "MINUTELY", "SECONDLY"}).Draw(t, "freq")
	unit = frequencies[freq].unit()
	interval := rapid.OneOf(rapid.IntRange(1, 9), rapid.IntRange(1, int(3*daySeconds/unit))).Draw(t, "interval")
	parts := []string{"FREQ=" + freq, "INTERVAL=" + itoa(interval)}
	some := func(name string, lo, hi, odds int) {
		if rapid.IntRange(0, odds).Draw(t, name) > 0 {
			return
		}
		var s []string
		for _, v := range rapid.SliceOfNDistinct(rapid.IntRange(lo, hi), 1, 4, rapid.ID[int]).Draw(t, name+" values") {
			s = append(s, itoa(v))
		}
		parts = append(parts, name+"="+strings.Join(s, ","))
	}
	some("BYMONTH", 1, 12, 6)
	some("BYMONTHDAY", 1, 28, 6)
	some("BYYEARDAY", 1, 366, 9)
	some("BYHOUR", 0, 23, 3)
	some("BYMINUTE", 0, 59, 3)
	some("BYSECOND", 0, 59, 3)
	if rapid.IntRange(0, 3).Draw(t, "byday") == 0 {
		parts = append(parts, "BYDAY="+rapid.SampledFrom(weekdayNames[:]).Draw(t, "day")+","+rapid.SampledFrom([]string{"TU", "SA"}).Draw(t, "other"))
	}
	if rapid.IntRange(0, 4).Draw(t, "bysetpos") == 0 && len(parts) > 2 {
		parts = append(parts, "BYSETPOS="+rapid.SampledFrom([]string{"1", "-1", "2,-1", "3"}).Draw(t, "pos"))
	}
	return strings.Join(parts, ";"), unit
}

// Rules within the day agree with rrule-go on random rules. It walks on without
// an end where nothing fits, so it is asked for no more than what is there.
func TestRuleWithinOracle(t *testing.T) {
	compared, drawn := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		drawn++
		text, unit := randomWithin(t)
		start := int64(rapid.IntRange(dayNumber(1995, 1, 1), dayNumber(2035, 1, 1)).Draw(t, "start"))*daySeconds + int64(rapid.IntRange(0, daySeconds-1).Draw(t, "second"))
		if strings.Contains(text, "BYSETPOS") {
			start -= start % unit
		}
		to := start + 30_000*unit
		whole, matched, used := expandAll(t, text, start, start, to)
		if used > 200_000*60 {
			t.Fatalf("%s took %d units of work", text, used)
		}
		own := whole
		if !matched {
			own = own[1:]
		}
		if n := min(len(own), 60); n > 0 {
			compared++
			same(t, text+" from "+wallOf(start).String()+", oracle and own", oracle(t, text+";COUNT="+itoa(n), start, to), own[:n])
		}
		// A window shows the same occurrences as the whole.
		from := start + rapid.Int64Range(0, to-start).Draw(t, "from")
		until := min(to, from+rapid.Int64Range(0, 5000*unit).Draw(t, "length"))
		part, _, _ := expandAll(t, text, start, from, until)
		inside := whole[:0:0]
		for _, x := range whole {
			if x >= from && x <= until {
				inside = append(inside, x)
			}
		}
		same(t, text+", whole and window", inside, part)
		n := rapid.IntRange(1, 20).Draw(t, "count")
		counted, _, _ := expandAll(t, text+";COUNT="+itoa(n), start, start, to)
		same(t, text+" and with COUNT="+itoa(n), whole[:min(n, len(whole))], counted)
	})
	if 5*compared < drawn { // three of five have occurrences
		t.Errorf("only %d of %d rules compared", compared, drawn)
	}
}

func TestRuleNeverHangs(t *testing.T) {
	// No such day ever: the walk ends with the years that dates have.
	got, _, used := expandAll(t, "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30", 0, 0, lastLocal)
	if len(got) != 1 || used > 1000 {
		t.Errorf("%d occurrences, %d units of work", len(got), used)
	}
	got, _, used = expandAll(t, "FREQ=DAILY;BYMONTH=2;BYMONTHDAY=31", 0, 0, lastLocal)
	if len(got) != 1 || used > 200_000 {
		t.Errorf("%d occurrences, %d units of work", len(got), used)
	}
	// Seconds that never come, and those that always do.
	m := meter{limit: 2_000_000}
	for _, text := range []string{"FREQ=SECONDLY;BYMONTH=2;BYMONTHDAY=30", "FREQ=MINUTELY;INTERVAL=60;BYMINUTE=7", "FREQ=SECONDLY;COUNT=100000000;BYHOUR=3;BYMINUTE=4;BYSECOND=5", "FREQ=SECONDLY"} {
		r, err := parseRule(text)
		if err != nil {
			t.Fatal(err)
		}
		m.used = 0
		n := 0
		if _, err := r.expand(1, false, 1, lastLocal, nil, &m, func(int64) bool { n++; return n < 50_000 }); n > 100_000 || m.used > m.limit+1 || err != nil && err != errWork {
			t.Errorf("%s: %d occurrences, %d units of work, %v", text, n, m.used, err)
		}
	}
	// Many rules that cost much meet the limit of the file.
	var b strings.Builder
	for i := 0; i < 2000; i++ {
		b.WriteString(event("UID:"+itoa(i), "DTSTART;TZID=Europe/Berlin:19000101T090000", "RRULE:FREQ=DAILY;COUNT=100000;BYMONTH=2;BYMONTHDAY=31") + "\r\n")
	}
	res, ps := read(t, ics(strings.TrimSpace(b.String())), Options{From: date(t, "2026-01-01"), To: date(t, "2026-12-31"), Limits: Limits{Work: 1_000_000}})
	limit := slices.ContainsFunc(ps, func(p calendar.Problem) bool { return p.Code == CodeLimit && p.Class == calendar.ClassError })
	if res.Events != nil || !limit || res.Work > 1_100_000 {
		t.Errorf("work %d, %v", res.Work, brief(ps)[:min(3, len(ps))])
	}
}
