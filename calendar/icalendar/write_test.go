package icalendar

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"example.org/weft/calendar"
)

func wall(t testing.TB, s string) calendar.Wall {
	t.Helper()
	w, err := calendar.ParseWall(s)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

var stamp = time.Unix(1_790_000_000, 0) // 2026-09-21T14:13:20Z

func TestWrite(t *testing.T) {
	c := Calendar{Name: "Autumn; plan", Entries: []Entry{
		{
			UID: "s2@example.org", Start: wall(t, "2026-11-17T18:30"), End: wall(t, "2026-11-17T19:20"),
			Zone: zone(t, "America/Halifax"), Summary: "Full body, 50 min\x07", Categories: []string{"strength"},
			Description: "Warm up; then:\r\nsquat 3 \\ 5\nbench", Sequence: 3, Stamp: stamp,
		},
		{
			UID: "s1@example.org", Start: wall(t, "2026-10-31T24:00"), Zone: zone(t, "America/Halifax"),
			Summary: strings.Repeat("ü", 50), Cancelled: true, Stamp: stamp,
			Properties: []calendar.Property{
				{Name: "X-NOTE", Params: []calendar.Param{{Name: "X-P", Values: []string{"a:b", `"q"`}}}, Value: "kept\nas it is"},
				{Name: "BEGIN", Value: "VALARM"},
				{Name: "no name", Value: "x"},
			},
		},
		{UID: "d1", Start: wall(t, "2026-12-24T00:00"), End: wall(t, "2026-12-27T00:00"), AllDay: true, Zone: zone(t, "America/Halifax"), Stamp: stamp},
		{UID: "u1", Start: wall(t, "2026-12-01T09:00"), Zone: zone(t, "UTC"), Provisional: true, Stamp: stamp},
	}}
	want := strings.ReplaceAll(`BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//weft//season//EN
CALSCALE:GREGORIAN
X-WR-CALNAME:Autumn\; plan
BEGIN:VTIMEZONE
TZID:America/Halifax
BEGIN:DAYLIGHT
DTSTART:20260308T020000
TZOFFSETFROM:-0400
TZOFFSETTO:-0300
TZNAME:ADT
END:DAYLIGHT
BEGIN:STANDARD
DTSTART:20261101T020000
TZOFFSETFROM:-0300
TZOFFSETTO:-0400
TZNAME:AST
END:STANDARD
END:VTIMEZONE
BEGIN:VEVENT
UID:s1@example.org
DTSTAMP:20260921T141320Z
DTSTART;TZID=America/Halifax:20261101T000000
SEQUENCE:0
STATUS:CANCELLED
SUMMARY:üüüüüüüüüüüüüüüüüüüüüüüüüüüüüüüüü
 üüüüüüüüüüüüüüüüü
X-NOTE;X-P="a:b",^'q^':kept\nas it is
END:VEVENT
BEGIN:VEVENT
UID:s2@example.org
DTSTAMP:20260921T141320Z
DTSTART;TZID=America/Halifax:20261117T183000
DTEND;TZID=America/Halifax:20261117T192000
SEQUENCE:3
STATUS:CONFIRMED
SUMMARY:Full body\, 50 min
DESCRIPTION:Warm up\; then:\nsquat 3 \\ 5\nbench
CATEGORIES:strength
END:VEVENT
BEGIN:VEVENT
UID:u1
DTSTAMP:20260921T141320Z
DTSTART:20261201T090000Z
SEQUENCE:0
STATUS:TENTATIVE
END:VEVENT
BEGIN:VEVENT
UID:d1
DTSTAMP:20260921T141320Z
DTSTART;VALUE=DATE:20261224
DTEND;VALUE=DATE:20261227
SEQUENCE:0
STATUS:CONFIRMED
END:VEVENT
END:VCALENDAR
`, "\n", "\r\n")
	var b bytes.Buffer
	if err := Write(&b, c); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(want, b.String()); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	for _, l := range strings.Split(b.String(), "\r\n") {
		if len(l) > 75 || !utf8.ValidString(l) {
			t.Errorf("line of %d octets: %q", len(l), l)
		}
	}
	c.Entries[0], c.Entries[3] = c.Entries[3], c.Entries[0]
	var again bytes.Buffer
	if err := Write(&again, c); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("the order of the entries shows in the bytes", err)
	}
}

func TestWriteRefuses(t *testing.T) {
	berlin := zone(t, "Europe/Berlin")
	ok := Entry{UID: "a", Start: wall(t, "2026-11-17T18:30"), Zone: berlin, Stamp: stamp}
	entries := make([]Entry, 9)
	for i := range entries {
		entries[i] = ok
		entries[i].UID = "e" + itoa(i)
	}
	entries[0].UID = "  "
	entries[1].UID = "e2"
	entries[3].UID = "x\r\nBEGIN:VEVENT"
	entries[4].Zone = calendar.Zone{}
	entries[5].Start = calendar.Wall{}
	entries[6].End = ok.Start
	entries[7].Stamp = time.Time{}
	entries[8].Sequence, entries[8].Cancelled, entries[8].Provisional = -1, true, true
	var b bytes.Buffer
	err := Write(&b, Calendar{Entries: entries})
	var we *WriteError
	if !errors.As(err, &we) || b.Len() > 0 {
		t.Fatalf("err %v, %d bytes written", err, b.Len())
	}
	var got []string
	for _, p := range we.Problems {
		got = append(got, p.Path+" "+p.Field)
		if p.Reason == "" || p.Remedy == "" {
			t.Errorf("%v has no reason or remedy", p)
		}
	}
	want := []string{
		"/entries/0 UID", "/entries/2 UID", "/entries/3 UID", "/entries/4 Zone", "/entries/5 Start",
		"/entries/6 End", "/entries/7 Stamp", "/entries/8 Sequence", "/entries/8 Provisional",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

type failing struct{ n int }

func (f *failing) Write(p []byte) (int, error) {
	if f.n -= len(p); f.n < 0 {
		return 0, errors.New("disk full")
	}
	return len(p), nil
}

func TestWriteError(t *testing.T) {
	err := Write(&failing{50}, Calendar{})
	if err == nil || !strings.Contains(err.Error(), "disk full") {
		t.Errorf("err = %v", err)
	}
}
