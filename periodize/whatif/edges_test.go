package whatif_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"iter"
	"slices"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/load"
	"example.org/weft/periodize"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
)

// told is a log in which a heavy session is done on a date.
func told(date string) logbook.View {
	zone := seasontest.Zone("Europe/Oslo")
	e := logbook.Entry{ID: "s", Zone: zone, What: logbook.Session{Session: season.FullBody, State: logbook.Done}}
	e.Start.Date, e.Start.Clock = seasontest.Date(date), clock(17, 0)
	e.Recorded = zone.DayStart(e.Start.Date.AddDays(1))
	l, err := logbook.NewLog(e)
	if err != nil {
		panic(err) // of a test
	}
	return l.View("")
}

// dates are written, "" for none.
func dates(list ...*calendar.Date) (out []string) {
	for _, d := range list {
		if d == nil {
			out = append(out, "")
			continue
		}
		out = append(out, d.String())
	}
	return out
}

// A gym closed for eight weeks lets strength reach its early edge, 25 dates after
// the last heavy session: by hand from the plan. The base does not.
func TestEdgesOfASweep(t *testing.T) {
	base := club(12)
	closed := whatif.ClosePlace("gym", season.Period{From: seasontest.Date("2026-11-16"), To: seasontest.Date("2027-01-10")})
	sweep := whatif.Sweep{Kept: &whatif.Kept{View: told("2026-10-29"), Plays: logbook.Told(70)}}
	results := collect(t, sweep.Run(context.Background(), base, variants(closed)))
	for i, r := range results {
		if len(r.Row.Edges) != len(logbook.Qualities()) {
			t.Fatalf("%d edges", len(r.Row.Edges))
		}
		e := r.Row.Edges[load.MaximalStrength]
		last := seasontest.Date("2026-10-29")
		want := ""
		for d := r.Plan.Period.From; !d.After(r.Plan.Period.To) && want == ""; d = d.AddDays(1) {
			if slices.ContainsFunc(r.Plan.Sessions, func(s season.Session) bool { return s.Date == d && s.HeavyLowerBody }) {
				last = d
			}
			if d.DaysSince(last) >= 25 {
				want = d.String()
			}
		}
		if (want != "") != (i == 1) || fmt.Sprint(dates(e.Sooner, e.Later)) != fmt.Sprint([]string{want, want}) {
			t.Errorf("%s: %+v, want %q", r.Name, e, want)
		}
	}
	plain := collect(t, (&whatif.Sweep{}).Run(context.Background(), base, variants(closed)))
	if plain[0].Row.Edges != nil {
		t.Error("edges that nobody asked for")
	}

	rows := func(list []whatif.Result) iter.Seq[whatif.Row] {
		return func(yield func(whatif.Row) bool) {
			for _, r := range list {
				if !yield(r.Row) {
					return
				}
			}
		}
	}
	var table, plainTable, text, js bytes.Buffer
	if err := whatif.WriteCSV(&table, rows(results)); err != nil {
		t.Fatal(err)
	}
	if err := whatif.WriteCSV(&plainTable, rows(plain)); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(plainTable.String(), "edge_") {
		t.Error("columns that nobody asked for")
	}
	cells, err := csv.NewReader(&table).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := slices.Index(cells[0], "edge_sooner_maximal_strength")
	if edge := results[1].Row.Edges[load.MaximalStrength].Sooner.String(); at < 0 || cells[1][at] != "" || cells[2][at] != edge || len(cells[0]) != len(cells[2]) {
		t.Errorf("%v", cells)
	}
	if err := whatif.WriteText(&text, rows(results)); err != nil {
		t.Fatal(err)
	}
	if want := "at its edge: maximal strength " + results[1].Row.Edges[load.MaximalStrength].Sooner.String(); !strings.Contains(text.String(), want) {
		t.Errorf("%q is not in\n%s", want, text.String())
	}
	if err := whatif.WriteJSON(&js, rows(results)); err != nil {
		t.Fatal(err)
	}
	var back []whatif.Row
	if err := json.Unmarshal(js.Bytes(), &back); err != nil || len(back) != 2 || fmt.Sprint(dates(back[1].Edges[load.MaximalStrength].Sooner)) != fmt.Sprint(dates(results[1].Row.Edges[load.MaximalStrength].Sooner)) {
		t.Errorf("%v %s", err, js.String())
	}
}

func ExampleEdgesOf() {
	req := club(6)
	plan, err := new(periodize.Planner).Plan(context.Background(), req)
	if err != nil {
		fmt.Println(err)
		return
	}
	bare := *plan
	bare.Sessions = nil // a season without strength sessions
	for _, p := range []*season.Plan{plan, &bare} {
		for _, e := range whatif.EdgesOf(p, req, whatif.Kept{View: told("2026-10-29"), Plays: logbook.Told(70)}) {
			if e.Quality == load.MaximalStrength.String() {
				fmt.Printf("%s: %q\n", e.Quality, dates(e.Sooner))
			}
		}
	}
	// Output:
	// maximal strength: [""]
	// maximal strength: ["2026-11-23"]
}
