package calendar_test

import (
	"fmt"
	"reflect"
	"testing"

	"example.org/weft/calendar"
)

func ExampleSplitExam() {
	zone, _ := calendar.LoadZone("Europe/Dublin")
	from, _ := calendar.ParseWall("2026-11-17T00:00")
	to, _ := calendar.ParseWall("2026-11-19T00:00") // the first date no longer taken
	exams := calendar.Event{ID: "mocks", Kind: calendar.Exam, Title: "Mock exams", Zone: zone, DateOnly: true, Start: from, End: to, HasEnd: true}
	for _, e := range calendar.SplitExam(exams) {
		p, _ := calendar.Place(e, calendar.Assumptions{})
		fmt.Println(e.ID, zone.Local(p.Span.Start), zone.Local(p.Span.End))
	}
	// Output:
	// mocks 2026-11-17T08:00 2026-11-17T17:00
	// mocks-2026-11-18 2026-11-18T08:00 2026-11-18T17:00
}

func TestSplitExam(t *testing.T) {
	exam := calendar.Event{ID: "x", Kind: calendar.Exam, Zone: zone(t, "Europe/Dublin"), DateOnly: true, Start: wall(t, "2026-11-17T00:00"), HasEnd: true}
	at := func(dates int) calendar.Event {
		e := exam
		e.End.Date = e.Start.Date.AddDays(dates)
		return e
	}
	for _, dates := range []int{2, 13, calendar.MaxExamDates} {
		got := calendar.SplitExam(at(dates))
		ids := map[string]bool{}
		for i, e := range got {
			ids[e.ID] = true
			if e.Start.Date != exam.Start.Date.AddDays(i) || e.HasEnd {
				t.Errorf("%d dates, exam %d: %s to %s", dates, i, e.Start, e.End)
			}
		}
		if len(got) != dates || len(ids) != dates || got[0].ID != "x" {
			t.Errorf("%d dates: %d exams, %d ids", dates, len(got), len(ids))
		}
	}
	timed, busy, nameless := at(3), at(3), at(3)
	timed.DateOnly, busy.Kind, nameless.ID = false, calendar.Busy, ""
	for _, e := range []calendar.Event{at(1), at(0), at(-2), at(calendar.MaxExamDates + 1), timed, busy, exam} {
		if got := calendar.SplitExam(e); len(got) != 1 || !reflect.DeepEqual(got[0], e) {
			t.Errorf("%v: %v", e, got)
		}
	}
	if got := calendar.SplitExam(nameless); len(got) != 3 || got[0].ID != nameless.ContentID() {
		t.Errorf("without an id: %v", got)
	}
	if _, err := calendar.Place(at(3), calendar.Assumptions{}); err != nil {
		t.Error(err)
	}
	p, err := calendar.Place(at(1), calendar.Assumptions{ExamFrom: 9 * 3600, ExamTo: 13 * 3600})
	if err != nil || !p.EndAssumed || p.Zone.Local(p.Span.Start) != wall(t, "2026-11-17T09:00") || p.Zone.Local(p.Span.End) != wall(t, "2026-11-17T13:00") {
		t.Errorf("%v %v", p, err)
	}
	if p := (calendar.Assumptions{ExamTo: 7 * 3600}).Check(); len(p) != 1 || p[0].Field != "examFrom" {
		t.Errorf("%v", p)
	}
}
