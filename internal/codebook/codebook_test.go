package codebook_test

import (
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/internal/codebook"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
)

func TestNotes(t *testing.T) {
	b := codebook.Book{}
	b.Add(season.Why, "why-last", "last lifted {set} on {date}, {age} days ago")
	b.Add(season.Question, "question-side", "which side?")
	date, err := calendar.ParseDate("2026-11-23")
	if err != nil {
		t.Fatal(err)
	}
	got := b.Note("why-last", "set", "3 x 5", "date", date, "age", 17)
	want := season.Note{Code: "why-last", Class: season.Why, Text: "last lifted 3 x 5 on 2026-11-23, 17 days ago",
		Values: season.Values{"set": season.Str("3 x 5"), "date": season.Str("2026-11-23"), "age": season.Int(17)}}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff(season.Note{Code: "question-side", Class: season.Question, Text: "which side?"}, b.Note("question-side")); d != "" {
		t.Error(d)
	}
	codes := []season.NoteCode{
		{Code: "question-side", Class: season.Question, Text: "which side?"},
		{Code: "why-last", Class: season.Why, Params: []string{"set", "date", "age"}, Text: "last lifted {set} on {date}, {age} days ago"},
	}
	for range 2 { // what a caller does to the first answer does not show in the second
		answer := b.Codes()
		if d := cmp.Diff(codes, answer); d != "" {
			t.Error(d)
		}
		answer[1].Params[0] = "other"
	}
}
