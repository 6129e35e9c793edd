package main

import (
	"strings"
	"testing"
)

func TestFlags(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want []string // on standard error
	}{
		{"unknown flag", []string{"-colour"}, []string{"-colour", "usage: season"}},
		{"unknown format", []string{"-format", "pdf"}, []string{`unknown format "pdf"`, "usage: season"}},
		{"sheet", []string{"-sheet", "poster"}, []string{`unknown sheet "poster"`, "physio"}},
		{"sheet of a table", []string{"-sheet", "week", "-format", "csv"}, []string{"-sheet is for -format text and html"}},
		{"sheet and card", []string{"-sheet", "week", "-card", "2026-11-10"}, []string{"ask for one of them"}},
		{"date of no sheet", []string{"-on", "2026-11-10"}, []string{"there is none"}},
		{"argument", []string{"games.csv"}, []string{`unexpected argument "games.csv"`}},
		{"twice", []string{"-from", "2026-11-02", "-from", "2026-11-03"}, []string{"given twice"}},
		{"empty", []string{"-request", ""}, []string{"it is empty"}},
		{"request and others", []string{"-request", "r.json", "-fixtures", "f.csv", "-athlete", "a.json", "-zone", "Europe/Berlin", "-team", "T01"},
			[]string{"leave out -fixtures", "leave out -athlete", "leave out -zone", "leave out -team"}},
		{"team without fixtures", []string{"-team", "T01"}, []string{"-team picks games of -fixtures"}},
		{"columns without fixtures", []string{"-columns", "date=Tag", "-dates", "dmy"}, []string{"-columns is for tables of -fixtures", "-dates is for tables"}},
		{"columns, dates", []string{"-fixtures", "f.csv", "-columns", "date,=x,time=", "-dates", "ymd"},
			[]string{`"date" is not NAME=COLUMN`, `"=x" is not`, `"time=" is not`, `unknown order "ymd" of dates`}},
		{"zone of the demo", []string{"-zone", "Europe/Berlin"}, []string{"the demo has its own"}},
		{"strict of nothing", []string{"-strict"}, []string{"-strict is for"}},
		{"verbose json", []string{"-v", "-format", "json"}, []string{"-v is for -format text"}},
		{"standard input twice", []string{"-fixtures", "-", "-athlete", "-"}, []string{"standard input (-) can be read only once"}},
		{"two at once", []string{"-format", "pdf", "x"}, []string{`unknown format "pdf"`, `unexpected argument "x"`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := run(t, nil, c.args...)
			if got.code != exitInput || got.stdout != "" {
				t.Errorf("exit %d with %q on standard output, want %d and nothing", got.code, got.stdout, exitInput)
			}
			for _, w := range c.want {
				if !strings.Contains(got.stderr, w) {
					t.Errorf("standard error lacks %q:\n%s", w, got.stderr)
				}
			}
		})
	}
}

func TestHelp(t *testing.T) {
	got := run(t, nil, "-h")
	if got.code != exitPlanned || !strings.Contains(got.stderr, "-fixtures") || got.stdout != "" {
		t.Errorf("exit %d, %q", got.code, got.stderr)
	}
}
