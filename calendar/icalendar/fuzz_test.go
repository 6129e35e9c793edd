package icalendar

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
)

func seeds(f *testing.F) {
	for _, s := range []string{
		"",
		"BEGIN:VCALENDAR",
		ics(event("UID:g1", "SUMMARY:Sch\xc3", " \xb6n", berlinStart, "DURATION:PT2H", `X-A;B="c:d",e;F=^n:g\, h`)),
		ics(officeZone, event("UID:g1", "DTSTART;TZID=Customized Time Zone:20261108T140000", "DTEND;TZID=Customized Time Zone:20261108T160000")),
		ics(newYorkZone, event("UID:g1", "DTSTART;TZID=Club/Time:20261108T140000", "RRULE:FREQ=WEEKLY;UNTIL=20270301T000000Z")),
		ics(event("UID:p", "DTSTART;TZID=America/Halifax:20261020T180000", "RRULE:FREQ=WEEKLY;COUNT=6", "EXDATE:20261103T220000Z", "RDATE;VALUE=PERIOD:20261024T130000Z/PT45M"),
			event("UID:p", "RECURRENCE-ID;TZID=America/Halifax:20261027T180000", "DTSTART;TZID=America/Halifax:20261028T170000", "STATUS:CANCELLED")),
		ics(event("UID:d", "DTSTART;VALUE=DATE:20261030", "DTEND;VALUE=DATE:20261101", "RRULE:FREQ=MONTHLY;BYMONTHDAY=-2", "CATEGORIES:exam,a\\,b")),
		ics(event("UID:u", "DTSTART:20261101T053000Z", "DTEND:20261101T063000Z", "DESCRIPTION:First", "bring water", "", "end"), event("DTSTART:20260308T023000")),
		ics("METHOD:CANCEL", "X-WR-TIMEZONE:Europe/Berlin", event("UID:x", "DTSTART:20261108T140000", "METHOD:CANCEL", "TZID:x", "RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30")),
		ics(event("UID:x", "DTSTART:20261108T000000", "DTEND:20261109T000000", "X-MICROSOFT-CDO-ALLDAYEVENT:TRUE")),
		strings.ReplaceAll(ics(event("UID:g1", berlinStart)), "\r\n", "\r"),
		ics(event("UID:p", "DTSTART;TZID=America/Halifax:20261020T180000", "DURATION:PT1H", "RRULE:FREQ=WEEKLY;COUNT=6"),
			event("UID:p", "RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=America/Halifax:20261027T180000", "DTSTART;VALUE=DATE:20261029"),
			event("UID:p", "RECURRENCE-ID;RANGE=THISANDFUTURE:20261110T220000Z", "DTSTART;TZID=Asia/Tokyo:20261110T180000", "DURATION:P1DT2H")),
		ics(event("UID:p", "DTSTART;VALUE=DATE:16040510", "RRULE:FREQ=YEARLY"), event("UID:p", "DTSTART:20261108 1400", "RRULE:FREQ=HOURLY;INTERVAL=5;BYMINUTE=3,7;BYSETPOS=-1"), event("UID:"+strings.Repeat("u", 250), berlinStart, "RDATE:20261109")),
		"BEGIN:VCALNDAR\r\n" + event("UID:a", berlinStart, "BEGIN:VALARM", event("UID:b", berlinStart, "RRULE:FREQ=SECONDLY", "DTEND:20261108T130001Z", "CATEGORIES:closure")) + "\r\n" + ics(ics(event("DTSTART:20261131T140000"))),
	} {
		f.Add([]byte(s), true)
		f.Add([]byte(s), false)
	}
	for _, tt := range ruleExamples {
		f.Add([]byte(ics(event("UID:x", "DTSTART;TZID=America/New_York:"+tt.start, "RRULE:"+tt.rule))), true)
	}
}

func fuzzOptions(t testing.TB, span bool) Options {
	o := Options{Limits: Limits{Bytes: 1 << 20, Events: 3000, Work: 1_000_000}}
	if span {
		o.From, o.To = date(t, "2026-01-01"), date(t, "2027-12-31")
		o.DefaultZone = zone(t, "America/Halifax")
	}
	return o
}

// Any bytes: no panic, work within its limit, nothing half done.
func FuzzRead(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte, span bool) {
		opt := fuzzOptions(t, span)
		res, ps, err := Read(bytes.NewReader(data), "f.ics", opt)
		if err != nil {
			t.Fatal(err)
		}
		// One period of a rule is looked at before its work is counted.
		if res.Work > opt.Limits.Work+366*maxTimesOfDay || len(res.Events) > opt.Limits.Events || res.Lines > len(data)+1 {
			t.Fatalf("work %d, %d events, %d lines", res.Work, len(res.Events), res.Lines)
		}
		failed := false
		for _, p := range ps {
			failed = failed || p.Class == calendar.ClassError
			if p.Code == "" || p.Reason == "" || p.Remedy == "" || !strings.HasPrefix(p.Path, "f.ics") {
				t.Fatalf("%+v", p)
			}
		}
		if failed && res.Events != nil {
			t.Fatal("events despite errors")
		}
		ids := map[string]bool{}
		for i, e := range res.Events {
			if e.ID == "" || ids[e.ID] || e.Zone.IsZero() || e.Start.IsZero() || !e.Kind.Known() || !e.Status.Known() {
				t.Fatalf("%+v", e)
			}
			ids[e.ID] = true
			if i > 0 && res.Events[i-1].Start.Compare(e.Start) > 0 {
				t.Fatal("not sorted")
			}
			if p := placed(e); p[1] != "" && p[1] <= p[0] {
				t.Fatalf("%s ends before it starts: %v", show(e), p)
			}
		}
		again, ps2, _ := Read(bytes.NewReader(data), "f.ics", opt)
		if d := cmp.Diff(showAll(res.Events), showAll(again.Events)); d != "" || !slices.Equal(ps, ps2) {
			t.Fatalf("another result the second time: %s", d)
		}
	})
}

// essence is what of an event must survive being written and read.
type essence struct {
	Kind     calendar.Kind
	Status   calendar.Status
	Title    string
	Revision int
	DateOnly bool
	Placed   [2]string
	Unknown  []string
}

func essences(es []calendar.Event) map[string]essence {
	out := map[string]essence{}
	for _, e := range es {
		x := essence{e.Kind, e.Status, written(e.Title), e.Revision, e.DateOnly, placed(e), nil}
		for _, p := range e.Unknown {
			s, ok := propertyText(p)
			if !ok {
				s = "cannot be written: " + p.Name
			}
			x.Unknown = append(x.Unknown, s)
		}
		slices.Sort(x.Unknown)
		out[e.ID] = x
	}
	return out
}

// What is read can be written and read again to the same events.
func FuzzRoundTrip(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte, span bool) {
		opt := fuzzOptions(t, true)
		opt.DefaultKind = calendar.Skills
		first, _, err := Read(bytes.NewReader(data), "f.ics", opt)
		if err != nil || len(first.Events) == 0 {
			return
		}
		var c Calendar
		for _, e := range first.Events {
			c.Entries = append(c.Entries, EntryOf(e, stamp))
		}
		var b bytes.Buffer
		if err := Write(&b, c); err != nil {
			t.Fatal(err)
		}
		for _, l := range bytes.SplitAfter(b.Bytes(), []byte("\r\n")) {
			if len(l) > 77 || bytes.ContainsAny(bytes.TrimSuffix(l, []byte("\r\n")), "\r\n\x00") {
				t.Fatalf("bad line %q", l)
			}
		}
		opt.Limits = Limits{Line: 1 << 20}
		second, ps, err := Read(bytes.NewReader(b.Bytes()), "g.ics", opt)
		if err != nil || second.Events == nil {
			t.Fatal(err, ps, b.String())
		}
		if d := cmp.Diff(essences(first.Events), essences(second.Events)); d != "" {
			t.Fatalf("(-first +second):\n%s\n%s", d, b.String())
		}
		var b2 bytes.Buffer
		if !span {
			return
		}
		c.Entries = nil
		for _, e := range second.Events {
			c.Entries = append(c.Entries, EntryOf(e, stamp))
		}
		if err := Write(&b2, c); err != nil {
			t.Fatal(err)
		}
		third, _, _ := Read(&b2, "g.ics", opt)
		if d := cmp.Diff(essences(second.Events), essences(third.Events)); d != "" {
			t.Fatalf("(-second +third):\n%s", d)
		}
	})
}
