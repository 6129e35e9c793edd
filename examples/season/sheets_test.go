package main

import (
	"strings"
	"testing"
)

// Every sheet of the demo, as text and to print.
func TestSheets(t *testing.T) {
	if testing.Short() {
		t.Skip("draws every sheet of a season")
	}
	want := map[string]string{
		"strip": "SEASON STRIP", "month": "NOVEMBER 2026", "week": "WEEK 9-15 NOV 2026", "card": "PRIMER", "slip": "CHANGE OF PLAN",
		"wall": "GYM", "coach": "FOR THE HEAD COACH, 9-22 NOV 2026", "parent": "FOR PARENTS, 9-15 NOV 2026", "physio": "FOR THE PHYSIOTHERAPIST, THU 12 NOV 2026",
	}
	for _, name := range sheetNames {
		text := run(t, nil, "-sheet", name, "-on", "2026-11-12")
		if text.code != exitPlanned || !strings.HasPrefix(text.stdout, want[name]+"\n") || !strings.Contains(text.stdout, "(invented example)") {
			t.Errorf("%s: exit %d, %s\n%.300s", name, text.code, text.stderr, text.stdout)
		}
		html := run(t, nil, "-sheet", name, "-on", "2026-11-12", "-format", "html")
		if html.code != exitPlanned || !strings.HasPrefix(html.stdout, "<!doctype html>") || strings.Count(html.stdout, "Invented example") != strings.Count(html.stdout, "<section class=\"sheet") {
			t.Errorf("%s: exit %d, %s\n%.300s", name, html.code, html.stderr, html.stdout)
		}
	}
}

func TestSeasonToPrint(t *testing.T) {
	html := run(t, nil, "-format", "html").stdout
	for _, want := range []string{"Season strip", "August 2026", "September 2026", "May 2027", "</html>"} {
		if !strings.Contains(html, want) {
			t.Errorf("the season lacks %q", want)
		}
	}
	for _, never := range []string{"<script", "http:", "https:", "src=", "href=", "Change of plan"} {
		if strings.Contains(html, never) {
			t.Errorf("the season has %q", never)
		}
	}
}

func TestDatesOfSheets(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"-sheet", "week", "-on", "2028-02-29"}, "-on"},
		{[]string{"-sheet", "week", "-on", "2027-02-29"}, "-on"},
		{[]string{"-sheet", "card", "-on", "2026-12-25"}, "no session on this date"},
	} {
		if got := run(t, nil, c.args...); got.code != exitInput || got.stdout != "" || !strings.Contains(got.stderr, c.want) {
			t.Errorf("%v: exit %d, %s", c.args, got.code, got.stderr)
		}
	}
	first := run(t, nil, "-sheet", "week") // nothing is past: the first week
	if !strings.HasPrefix(first.stdout, "WEEK 31 AUG - 6 SEP 2026") {
		t.Errorf("without a date: %.100s", first.stdout)
	}
}

func TestTable(t *testing.T) {
	a := run(t, files{"games.csv": smallTable, "a.json": smallAthlete}, "-fixtures", "games.csv", "-athlete", "a.json", "-format", "csv")
	lines := strings.Split(smallTable, "\n")
	for i, j := 1, len(lines)-2; i < j; i, j = i+1, j-1 {
		lines[i], lines[j] = lines[j], lines[i]
	}
	b := run(t, files{"games.csv": strings.Join(lines, "\n"), "a.json": smallAthlete}, "-fixtures", "games.csv", "-athlete", "a.json", "-format", "csv")
	if a.code != exitPlanned || a != b || !strings.Contains(a.stdout, ",game,") || !strings.Contains(a.stdout, ",session,full-body,") {
		t.Errorf("exit %d, and with permuted rows %d:\n%s", a.code, b.code, a.stdout)
	}
}
