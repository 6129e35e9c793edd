package icalendar_test

import (
	"fmt"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/calendar/icalendar"
)

func ExampleRead() {
	const file = `BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//invented//club//EN
BEGIN:VEVENT
UID:g7
SUMMARY:Harbour Herons v Invented Town
DTSTART;TZID=Europe/Berlin:20261114T160000
DTEND;TZID=Europe/Berlin:20261114T180000
END:VEVENT
BEGIN:VEVENT
UID:p1
CATEGORIES:practice
SUMMARY:Practice
DTSTART;TZID=Europe/Berlin:20261020T180000
DURATION:PT1H30M
RRULE:FREQ=WEEKLY;BYDAY=TU,TH
EXDATE;TZID=Europe/Berlin:20261110T180000
END:VEVENT
END:VCALENDAR
`
	from, _ := calendar.ParseDate("2026-11-09")
	result, problems, err := icalendar.Read(strings.NewReader(file), "club.ics", icalendar.Options{
		From: from, To: from.AddDays(6),
	})
	fmt.Println(len(problems), err)
	for _, e := range result.Events {
		fmt.Println(e.ID, e.Kind, e.Start, e.End.Clock, e.Zone, e.Title)
	}
	// Output:
	// 0 <nil>
	// p1#2026-11-12T18:00 practice 2026-11-12T18:00 19:30 Europe/Berlin Practice
	// g7 game 2026-11-14T16:00 18:00 Europe/Berlin Harbour Herons v Invented Town
}

func ExampleRead_problems() {
	const file = `BEGIN:VCALENDAR
BEGIN:VEVENT
UID:g1
DTSTART;TZID=Europe/Belrin:20261114T160000
END:VEVENT
BEGIN:VEVENT
UID:g2
DTSTART:20261315T160000
END:VEVENT
END:VCALENDAR
`
	result, problems, err := icalendar.Read(strings.NewReader(file), "club.ics", icalendar.Options{})
	fmt.Println(len(result.Events), err)
	for _, p := range problems {
		fmt.Println(p.Path, p.Class, p.Code, p.Value)
	}
	// Output:
	// 0 <nil>
	// club.ics:4 error zone-unknown Europe/Belrin
	// club.ics:8 question value 20261315T160000
}

func ExampleWrite() {
	zone, err := calendar.LoadZone("Australia/Lord_Howe")
	if err != nil {
		fmt.Println(err)
		return
	}
	start, _ := calendar.ParseWall("2026-11-17T18:30")
	made, _ := time.Parse(time.RFC3339, "2026-09-21T14:13:20Z")
	var file strings.Builder
	err = icalendar.Write(&file, icalendar.Calendar{Entries: []icalendar.Entry{{
		UID: "s4@weft.example", Start: start, End: start.AddMinutes(50), Zone: zone,
		Summary: "Full body, 50 min", Stamp: made,
	}}})
	fmt.Println(strings.ReplaceAll(file.String(), "\r\n", "\n"), err)
	// Output:
	// BEGIN:VCALENDAR
	// VERSION:2.0
	// PRODID:-//weft//season//EN
	// CALSCALE:GREGORIAN
	// BEGIN:VTIMEZONE
	// TZID:Australia/Lord_Howe
	// BEGIN:DAYLIGHT
	// DTSTART:20261004T020000
	// TZOFFSETFROM:+1030
	// TZOFFSETTO:+1100
	// TZNAME:+11
	// END:DAYLIGHT
	// END:VTIMEZONE
	// BEGIN:VEVENT
	// UID:s4@weft.example
	// DTSTAMP:20260921T141320Z
	// DTSTART;TZID=Australia/Lord_Howe:20261117T183000
	// DTEND;TZID=Australia/Lord_Howe:20261117T192000
	// SEQUENCE:0
	// STATUS:CONFIRMED
	// SUMMARY:Full body\, 50 min
	// END:VEVENT
	// END:VCALENDAR
	//  <nil>
}

func ExampleEntryOf() {
	zone, err := calendar.LoadZone("America/Halifax")
	if err != nil {
		fmt.Println(err)
		return
	}
	start, _ := calendar.ParseWall("2026-11-14T16:00")
	made, _ := time.Parse(time.RFC3339, "2026-09-21T14:13:20Z")
	e := icalendar.EntryOf(calendar.Event{
		ID: "g7", Kind: calendar.Game, Title: "Home game", Start: start, Zone: zone, Status: calendar.Postponed,
	}, made)
	fmt.Println(e.UID, e.Summary, e.Categories, e.Cancelled, e.End.IsZero())
	// Output:
	// g7 Home game [game] true true
}
