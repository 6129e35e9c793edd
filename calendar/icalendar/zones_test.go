package icalendar

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.org/weft/calendar"
)

func instant(t testing.TB, e calendar.Event) string {
	t.Helper()
	r := e.Zone.Resolve(e.Start)
	return r.Instant.Format(time.RFC3339)
}

func TestZoneNames(t *testing.T) {
	for id, want := range map[string]string{
		"Europe/Berlin":                                        "Europe/Berlin",
		"/example.org/20260101_1/Europe/Berlin":                "Europe/Berlin",
		"/example.org/Tzfile/America/Argentina/Buenos_Aires":   "America/Argentina/Buenos_Aires",
		"W. Europe Standard Time":                              "Europe/Berlin",
		"w. europe standard time":                              "Europe/Berlin",
		"AUS Eastern Standard Time":                            "Australia/Sydney",
		"Newfoundland Standard Time":                           "America/St_Johns",
		"/example.org/UTC":                                     "UTC",
		"Tonga Standard Time":                                  "Pacific/Tongatapu",
		"Afghanistan Standard Time":                            "Asia/Kabul",
		"Yukon Standard Time":                                  "America/Whitehorse",
		"/freeform/" + strings.Repeat("a/", 10) + "Asia/Tokyo": "Asia/Tokyo",
	} {
		z, ok := namedZone(id)
		if !ok || z.Name() != want {
			t.Errorf("%s: %v %v", id, z, ok)
		}
	}
	for _, id := range []string{"", "Berlin", "/x/Berlin", "/x/EST", "EST", "Local", "../../etc/passwd", "/x/../Europe/Berlin/..", "Customized Time Zone", strings.Repeat("/", 10000), "UTC+02"} {
		if z, ok := namedZone(id); ok {
			t.Errorf("%q: %v", id, z)
		}
	}
}

// Every Windows name leads to a zone that exists, and the table is sorted.
func TestWindowsZones(t *testing.T) {
	for i, w := range windowsZones {
		if _, err := calendar.LoadZone(w[1]); err != nil {
			t.Errorf("%s: %v", w[0], err)
		}
		if i > 0 && windowsZones[i-1][0] >= w[0] {
			t.Errorf("%s is out of order", w[0])
		}
	}
}

// A definition as older office programs write it: rules without an end from 1601.
const officeZone = `BEGIN:VTIMEZONE
TZID:Customized Time Zone
BEGIN:STANDARD
DTSTART:16010101T030000
TZOFFSETFROM:+0200
TZOFFSETTO:+0100
RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=10
END:STANDARD
BEGIN:DAYLIGHT
DTSTART:16010101T020000
TZOFFSETFROM:+0100
TZOFFSETTO:+0200
RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=3
END:DAYLIGHT
END:VTIMEZONE`

// New York from 1967, as RFC 5545 section 3.6.5 shows it: rules that end and
// follow each other (from memory; compared here with the IANA data).
const newYorkZone = `BEGIN:VTIMEZONE
TZID:Club/Time
BEGIN:DAYLIGHT
DTSTART:19870405T020000
RRULE:FREQ=YEARLY;BYDAY=1SU;BYMONTH=4;UNTIL=20060402T070000Z
TZOFFSETFROM:-0500
TZOFFSETTO:-0400
TZNAME:EDT
END:DAYLIGHT
BEGIN:DAYLIGHT
DTSTART:20070311T020000
RRULE:FREQ=YEARLY;BYDAY=2SU;BYMONTH=3
TZOFFSETFROM:-0500
TZOFFSETTO:-0400
TZNAME:EDT
END:DAYLIGHT
BEGIN:STANDARD
DTSTART:19871025T020000
RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=10;UNTIL=20061029T060000Z
TZOFFSETFROM:-0400
TZOFFSETTO:-0500
TZNAME:EST
END:STANDARD
BEGIN:STANDARD
DTSTART:20071104T020000
RRULE:FREQ=YEARLY;BYDAY=1SU;BYMONTH=11
TZOFFSETFROM:-0400
TZOFFSETTO:-0500
TZNAME:EST
END:STANDARD
END:VTIMEZONE`

// readZone returns the zone that a definition makes. It stands behind the event,
// which is allowed.
func readZone(t testing.TB, def, id string) calendar.Zone {
	t.Helper()
	res, ps := read(t, ics(event("UID:g1", "DTSTART;TZID="+id+":20261108T140000"), def), Options{})
	if len(ps) > 0 || len(res.Events) != 1 {
		t.Fatal(ps)
	}
	return res.Events[0].Zone
}

func TestCustomZone(t *testing.T) {
	for _, tt := range []struct {
		def, id, iana string
		from, to      int
	}{
		{officeZone, "Customized Time Zone", "Europe/Berlin", 1997, 2199},
		{newYorkZone, "Club/Time", "America/New_York", 1988, 2199},
	} {
		got, want := readZone(t, tt.def, tt.id), zone(t, tt.iana)
		if !got.Custom() || got.Name() != tt.id {
			t.Errorf("%v is not custom", got)
		}
		for y := tt.from; y <= tt.to; y++ {
			for n := dayNumber(y, 1, 1); n <= dayNumber(y, 12, 31); n++ {
				w := calendar.Wall{Date: calendar.DateFromDayNumber(n), Clock: 12 * 3600}
				if g, x := got.Resolve(w), want.Resolve(w); !g.Instant.Equal(x.Instant) {
					t.Fatalf("%s: %s is %s, in %s %s", tt.id, w, g.Instant, tt.iana, x.Instant)
				}
			}
		}
	}
}

// An IANA name stands for the IANA data, whatever the file defines.
func TestNameBeatsDefinition(t *testing.T) {
	def := strings.Replace(officeZone, "Customized Time Zone", "Asia/Tokyo", 1)
	res, ps := read(t, ics(def, event("UID:g1", "DTSTART;TZID=Asia/Tokyo:20261108T140000")), Options{})
	if len(ps) > 0 || instant(t, res.Events[0]) != "2026-11-08T05:00:00Z" {
		t.Errorf("%v %v", ps, showAll(res.Events))
	}
}

// Where no option gives a zone, the calendar's own is taken, then that of last
// resort.
func TestZoneOfCalendar(t *testing.T) {
	const floating, utc, paris = "DTSTART:20261108T140000", "DTSTART:20261109T140000Z", "DTSTART;TZID=Europe/Paris:20261110T140000"
	last := Options{LastZone: zone(t, "Asia/Tokyo")}
	for _, tt := range []struct {
		name, text string
		opt        Options
		want       string
		problems   []string
	}{
		{"named by another event", ics(event("UID:a", floating), event("UID:b", utc), event("UID:c", paris)), last, "14:00 Europe/Paris, 15:00 Europe/Paris, 14:00 Europe/Paris", []string{"question zone-assumed 14"}},
		{"defined", ics(officeZone, event("UID:a", floating), event("UID:b", utc)), last, "14:00 Customized Time Zone, 15:00 Customized Time Zone", []string{"question zone-assumed 4"}},
		{"in another calendar", ics(event("UID:a", floating)) + ics(event("UID:c", paris)), last, "14:00 Asia/Tokyo, 14:00 Europe/Paris", []string{"question zone-missing 6"}},
		{"nowhere", ics(event("UID:a", floating), event("UID:b", "DTSTART;VALUE=DATE:20261109")), last, "14:00 Asia/Tokyo, 00:00 Asia/Tokyo", []string{"question zone-missing 6"}},
		{"nowhere, and no last resort", ics(event("UID:a", floating)), Options{}, "", []string{"error zone-missing 6"}},
		{"unknown", ics(event("UID:a", "DTSTART;TZID=Hall:20261108T140000")), last, "14:00 Asia/Tokyo", []string{"question zone-unknown 6"}},
		{"unknown, beside a known one", ics(event("UID:a", "DTSTART;TZID=Hall:20261108T140000"), event("UID:c", paris)), Options{}, "14:00 Europe/Paris, 14:00 Europe/Paris", []string{"question zone-unknown 6", "question zone-assumed 10"}},
		{"of the calendar, badly defined, and used", ics("X-WR-TIMEZONE:Hall", "BEGIN:VTIMEZONE\r\nTZID:Hall\r\nEND:VTIMEZONE", event("UID:a", floating), event("UID:b", "DTSTART;TZID=Hall:20261109T140000")), Options{}, "", []string{"warning zone-unknown 4", "warning zone-invalid 5", "error zone-missing 10", "error zone-unknown 14"}},
		{"spelt otherwise", ics(event("UID:a", "DTSTART;TZID=US-Eastern:20261108T140000"), event("UID:b", "DTSTART;TZID=america/new york:20261109T140000")), Options{}, "14:00 US/Eastern, 14:00 America/New_York", []string{"warning zone-assumed 6", "warning zone-assumed 10"}},
	} {
		res, ps := read(t, tt.text, tt.opt)
		var got []string
		for _, e := range res.Events {
			got = append(got, e.Start.Clock.String()+" "+e.Zone.Name())
		}
		if s := strings.Join(got, ", "); s != tt.want {
			t.Errorf("%s: %s", tt.name, s)
		}
		if d := cmp.Diff(tt.problems, brief(ps)); d != "" {
			t.Errorf("%s: problems (-want +got):\n%s%v", tt.name, d, ps)
		}
	}
}

// Definitions that other readers understand are used, with a warning.
func TestOddZone(t *testing.T) {
	for name, lines := range map[string][]string{
		"no offset before":  {"DTSTART:19700101T000000", "TZOFFSETTO:+0330"},
		"hours alone":       {"DTSTART:19700101T000000", "TZOFFSETFROM:+03", "TZOFFSETTO:+0330"},
		"a colon":           {"DTSTART:19700101T000000", "TZOFFSETFROM:+03:30", "TZOFFSETTO:+0330"},
		"no plus":           {"DTSTART:19700101T000000", "TZOFFSETFROM:0330", "TZOFFSETTO:0330"},
		"a start in UTC":    {"DTSTART:19700101T000000Z", "TZOFFSETFROM:+0330", "TZOFFSETTO:+0330"},
		"a start at a date": {"DTSTART;VALUE=DATE:19700101", "TZOFFSETFROM:+0330", "TZOFFSETTO:+0330"},
	} {
		def := "BEGIN:VTIMEZONE\r\nTZID:Club\r\nBEGIN:STANDARD\r\n" + strings.Join(lines, "\r\n") + "\r\nEND:STANDARD\r\nEND:VTIMEZONE"
		res, ps := read(t, ics(def, event("UID:g1", "DTSTART;TZID=Club:20261108T140000")), Options{})
		if len(ps) != 1 || ps[0].Class != calendar.ClassWarning || ps[0].Code != CodeZoneInvalid || len(res.Events) != 1 || instant(t, res.Events[0]) != "2026-11-08T10:30:00Z" {
			t.Errorf("%s: %v %v", name, ps, showAll(res.Events))
		}
	}
}

func TestBrokenZone(t *testing.T) {
	obs := func(lines ...string) string {
		return "BEGIN:VTIMEZONE\r\nTZID:Club\r\nBEGIN:STANDARD\r\n" + strings.Join(lines, "\r\n") + "\r\nEND:STANDARD\r\nEND:VTIMEZONE"
	}
	for name, def := range map[string]string{
		"no offset":   obs("DTSTART:19700101T000000", "TZOFFSETFROM:+0100"),
		"bad offset":  obs("DTSTART:19700101T000000", "TZOFFSETFROM:CET", "TZOFFSETTO:+0100"),
		"no start":    obs("TZOFFSETFROM:+0100", "TZOFFSETTO:+0100"),
		"hourly":      obs("DTSTART:19700101T000000", "TZOFFSETFROM:+0100", "TZOFFSETTO:+0100", "RRULE:FREQ=HOURLY"),
		"daily":       obs("DTSTART:19700101T000000", "TZOFFSETFROM:+0100", "TZOFFSETTO:+0100", "RRULE:FREQ=DAILY"),
		"empty":       "BEGIN:VTIMEZONE\r\nTZID:Club\r\nEND:VTIMEZONE",
		"bad RDATE":   obs("DTSTART:19700101T000000", "TZOFFSETFROM:+0100", "TZOFFSETTO:+0100", "RDATE:x"),
		"not defined": "",
	} {
		text := ics(event("UID:g1", "DTSTART;TZID=Club:20261108T140000"), event("UID:g2", "DTSTART;TZID=Club:20261109T140000"))
		if def != "" {
			text = ics(def, event("UID:g1", "DTSTART;TZID=Club:20261108T140000"), event("UID:g2", "DTSTART;TZID=Club:20261109T140000"))
		}
		_, ps := read(t, text, Options{})
		if len(ps) != 1 || ps[0].Class != calendar.ClassError || ps[0].Code != CodeZoneInvalid && ps[0].Code != CodeZoneUnknown {
			t.Errorf("%s: %v", name, ps)
		}
		// Unused, the definition is no problem.
		if _, ps := read(t, strings.ReplaceAll(text, "TZID=Club", "TZID=Europe/Berlin"), Options{}); len(ps) > 0 {
			t.Errorf("%s, unused: %v", name, ps)
		}
	}
	_, ps := read(t, ics(event("UID:g1", "DTSTART;TZID=Europe/Belrin:20261108T140000")), Options{})
	if len(ps) != 1 || !strings.Contains(ps[0].Remedy, "Europe/Berlin") {
		t.Errorf("no hint: %v", ps)
	}
}

// RFC 5545 section 3.3.5 (first two seen in the source, the others derived from
// the IANA data).
func TestClockChanges(t *testing.T) {
	for _, tt := range []struct{ zone, local, want, problem string }{
		{"America/New_York", "20070311T023000", "2007-03-11T07:30:00Z", "warning time-skipped 6"},
		{"America/New_York", "20071104T013000", "2007-11-04T05:30:00Z", "warning time-doubled 6"},
		{"America/New_York", "20260308T023000", "2026-03-08T07:30:00Z", "warning time-skipped 6"},
		{"Europe/London", "20251026T013000", "2025-10-26T00:30:00Z", "warning time-doubled 6"},
		{"Europe/Berlin", "20261025T023000", "2026-10-25T00:30:00Z", "warning time-doubled 6"},
		{"Australia/Lord_Howe", "20251005T021500", "2025-10-04T15:45:00Z", "warning time-skipped 6"},
		{"Australia/Lord_Howe", "20250406T014500", "2025-04-05T14:45:00Z", "warning time-doubled 6"},
	} {
		res, ps := read(t, ics(event("UID:g1", "DTSTART;TZID="+tt.zone+":"+tt.local)), Options{})
		if d := cmp.Diff([]string{tt.problem}, brief(ps)); d != "" || instant(t, res.Events[0]) != tt.want {
			t.Errorf("%s %s: %s %s", tt.zone, tt.local, instant(t, res.Events[0]), d)
		}
	}
}

// placed returns start and end as instants, "" for none.
func placed(e calendar.Event) [2]string {
	if e.DateOnly {
		end := e.Start.Date.AddDays(1)
		if e.HasEnd {
			end = e.End.Date
		}
		return [2]string{e.Start.Date.String(), end.String()}
	}
	start := e.Zone.Resolve(e.Start).Instant
	out := [2]string{start.Format(time.RFC3339)}
	if e.HasEnd {
		z := e.EndZone
		if z.IsZero() {
			z = e.Zone
		}
		r := z.Resolve(e.End)
		if r.Fit == calendar.Doubled && r.Instant.Before(start) {
			r.Instant = r.Later
		}
		out[1] = r.Instant.Format(time.RFC3339)
	}
	return out
}

// What Write writes, Read reads to the same instants: also when the zone is known
// to the reader by its VTIMEZONE alone.
func TestWriteRead(t *testing.T) {
	names := []string{
		"Australia/Lord_Howe", "Europe/Dublin", "Africa/Casablanca", "America/Halifax", "Pacific/Chatham", "America/Santiago",
		"America/New_York", "Asia/Kathmandu", "Pacific/Apia", "Asia/Tehran", "America/St_Johns", "Antarctica/Troll", "UTC",
	}
	var zones []calendar.Zone
	for _, n := range names {
		zones = append(zones, zone(t, n))
	}
	text := rapid.StringOf(rapid.OneOf(rapid.Rune(), rapid.SampledFrom([]rune("\\;,:\"\r\n\t^ "))))
	rapid.Check(t, func(t *rapid.T) {
		var c Calendar
		for i := rapid.IntRange(1, 12).Draw(t, "n"); i > 0; i-- {
			z := rapid.SampledFrom(zones).Draw(t, "zone")
			day := rapid.IntRange(dayNumber(1990, 1, 1), dayNumber(2045, 1, 1)).Draw(t, "day")
			sec := rapid.IntRange(0, 288).Draw(t, "five minutes") * 300
			e := Entry{
				UID: "e" + itoa(i), Zone: z, Stamp: stamp, Summary: text.Draw(t, "summary"), Description: text.Draw(t, "description"),
				Sequence: rapid.IntRange(0, 9).Draw(t, "sequence"), Cancelled: rapid.Bool().Draw(t, "cancelled"),
				AllDay: rapid.IntRange(0, 4).Draw(t, "all day") == 0,
				Start:  calendar.Wall{Date: calendar.DateFromDayNumber(day), Clock: calendar.Clock(sec)},
			}
			if e.AllDay {
				e.Start.Clock = 0
				if n := rapid.IntRange(0, 3).Draw(t, "days"); n > 0 {
					e.End = calendar.Wall{Date: e.Start.Date.AddDays(n)}
				}
			} else if n := rapid.IntRange(0, 40).Draw(t, "length") * 300; n > 0 {
				e.End = z.Local(z.Resolve(e.Start).Instant.Add(time.Duration(n) * time.Second))
				if _, ps := resolve([]Entry{e}); len(ps) > 0 {
					e.End = calendar.Wall{} // the second pass of a doubled hour
				}
			}
			c.Entries = append(c.Entries, e)
		}
		var b bytes.Buffer
		if err := Write(&b, c); err != nil {
			t.Fatal(err)
		}
		want := map[string][2]string{}
		for _, e := range c.Entries {
			want[e.UID] = placed(calendar.Event{Start: e.Start, End: e.End, HasEnd: !e.End.IsZero(), DateOnly: e.AllDay, Zone: e.Zone})
		}
		// The second time, no reader can know the names of the zones.
		unnamed := b.String()
		for _, n := range names[:12] {
			unnamed = strings.ReplaceAll(unnamed, n, "Q "+strings.ReplaceAll(n, "/", "-"))
		}
		for _, s := range []string{b.String(), unnamed} {
			res, ps, err := Read(strings.NewReader(s), "t.ics", Options{DefaultZone: zones[0]})
			if err != nil || slices.ContainsFunc(ps, func(p calendar.Problem) bool {
				return p.Code != CodeTimeDoubled && p.Code != CodeTimeSkipped && p.Code != CodeKind
			}) {
				t.Fatalf("%v %v\n%s", err, ps, s)
			}
			got := map[string][2]string{}
			for _, e := range res.Events {
				got[e.ID] = placed(e)
			}
			if d := cmp.Diff(want, got); d != "" {
				t.Fatalf("(-want +got):\n%s\n%s", d, s)
			}
			for _, e := range res.Events {
				i := slices.IndexFunc(c.Entries, func(x Entry) bool { return x.UID == e.ID })
				if x := c.Entries[i]; e.Title != written(x.Summary) || e.Revision != x.Sequence || x.Cancelled != (e.Status == calendar.Cancelled) {
					t.Fatalf("%q %d %s, want %q %d", e.Title, e.Revision, e.Status, written(x.Summary), x.Sequence)
				}
			}
		}
	})
}

// written is a text as it may stand in a file.
func written(s string) string { return unescapeText(escapeText(s)) }

// TZIDs that name no zone: read as what they most likely mean, and said; refused
// where nothing says what they mean. Fixed offsets by hand: 18:00 less the offset.
func TestGuessedZones(t *testing.T) {
	for _, c := range []struct {
		tzid, utc, problem string
		opt                Options
	}{
		{"europe/berlin", "2026-11-08T17:00", "warning zone-assumed 6", Options{}},
		{"GMT+0100", "2026-11-08T17:00", "question zone-assumed 6", Options{}},
		{"UTC-3", "2026-11-08T21:00", "question zone-assumed 6", Options{}},
		{"+05:45", "2026-11-08T12:15", "question zone-assumed 6", Options{}},
		{"Etc/GMT-1", "2026-11-08T17:00", "question zone-assumed 6", Options{}},
		{"Etc/GMT+11", "2026-11-09T05:00", "question zone-assumed 6", Options{}},
		{"Customized Time Zone", "2026-11-08T17:00", "question zone-unknown 6", Options{DefaultZone: zone(t, "Europe/Berlin")}},
		{"Customized Time Zone", "", "error zone-unknown 6", Options{}},
		{"GMT+15", "", "error zone-unknown 6", Options{}},
		{"GMT+", "", "error zone-unknown 6", Options{}},
	} {
		t.Run(c.tzid, func(t *testing.T) {
			res, ps := read(t, ics(event("UID:g1", "DTSTART;TZID="+`"`+c.tzid+`"`+":20261108T180000")), c.opt)
			if len(ps) != 1 || string(ps[0].Class)+" "+ps[0].Code+" "+strings.TrimPrefix(ps[0].Path, "t.ics:") != c.problem {
				t.Errorf("problems %v", ps)
			}
			if c.utc == "" {
				return
			}
			if len(res.Events) != 1 {
				t.Fatalf("%d events", len(res.Events))
			}
			e := res.Events[0]
			if got := e.Zone.Resolve(e.Start).Instant.Format("2006-01-02T15:04"); got != c.utc {
				t.Errorf("%s, want %s", got, c.utc)
			}
		})
	}
}

// 24:00 is the midnight that ends the day, ISO 8601.
func TestHour24(t *testing.T) {
	res, ps := read(t, ics(event("UID:g1", "DTSTART;TZID=Europe/Berlin:20261108T220000", "DTEND;TZID=Europe/Berlin:20261108T240000")), Options{})
	if len(ps) > 0 || len(res.Events) != 1 || res.Events[0].End.String() != "2026-11-09T00:00" {
		t.Errorf("%v %+v", ps, res.Events)
	}
}

// A definition that cannot be used is none: with a zone to read it in it is a
// question, without one an error.
func TestBrokenDefinition(t *testing.T) {
	text := ics("BEGIN:VTIMEZONE", "TZID:Hall", "END:VTIMEZONE", event("UID:g1", "DTSTART;TZID=Hall:20261108T180000"))
	if _, ps := read(t, text, Options{}); len(ps) != 1 || ps[0].Class != calendar.ClassError {
		t.Errorf("problems %v", ps)
	}
	res, ps := read(t, text, Options{DefaultZone: zone(t, "Europe/Berlin")})
	if len(ps) != 2 || ps[0].Code != CodeZoneInvalid || ps[1].Class != calendar.ClassQuestion || len(res.Events) != 1 || res.Events[0].Zone.Name() != "Europe/Berlin" {
		t.Errorf("problems %v, events %+v", ps, res.Events)
	}
}

// A date in a series of times is read at the time of the start.
func TestDateAmongTimes(t *testing.T) {
	res, ps := read(t, ics(event("UID:g1", "DTSTART;TZID=Europe/Berlin:20261108T181500", "RDATE;VALUE=DATE:20261121,20261129")), Options{})
	var got []string
	for _, e := range res.Events {
		got = append(got, e.Start.String())
	}
	if strings.Join(got, " ") != "2026-11-08T18:15 2026-11-21T18:15 2026-11-29T18:15" || len(ps) != 2 || ps[0].Class != calendar.ClassQuestion {
		t.Errorf("%v %v", got, ps)
	}
}
