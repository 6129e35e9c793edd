package whatif_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"iter"
	"runtime"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize"
	"example.org/weft/periodize/season"
	"example.org/weft/periodize/whatif"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func all(t *testing.T, v any) string {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// A sweep gives what planning the variants one by one gives, whatever the number
// of workers.
func TestSweepEqualsOneByOne(t *testing.T) {
	base := club(3)
	ctx := context.Background()
	for _, issued := range []bool{false, true} {
		var want []string
		planner := &periodize.Planner{Brief: true}
		plan, err := planner.Plan(ctx, base)
		if err != nil {
			t.Fatal(err)
		}
		want = append(want, all(t, plan))
		for _, c := range some() {
			req, _, err := whatif.Apply(*base, c)
			if err != nil {
				t.Fatal(err)
			}
			last := plan
			if !issued {
				last = nil
			}
			p, err := planner.Replan(ctx, &req, last)
			if err != nil {
				t.Fatal(err)
			}
			want = append(want, all(t, p))
		}
		var first string
		for _, workers := range []int{1, 2, 8} {
			sweep := whatif.Sweep{Workers: workers, Issued: issued}
			results := collect(t, sweep.Run(ctx, base, variants(some()...)))
			for i, r := range results {
				if r.Index != i || all(t, r.Plan) != want[i] {
					t.Errorf("issued %v, %d workers: result %d (index %d, %s) is another plan than one by one", issued, workers, i, r.Index, r.Name)
				}
			}
			if len(results) != len(want) {
				t.Fatalf("%d results, want %d", len(results), len(want))
			}
			got := all(t, results)
			if first == "" {
				first = got
			}
			if got != first {
				t.Errorf("issued %v: %d workers give other bytes than 1", issued, workers)
			}
		}
	}
}

// The figures of a row are those of a second count, by other means, over random
// seasons.
func TestRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{MinDates: 7, MaxDates: 21})
		plan, err := (&periodize.Planner{Brief: true}).Plan(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		row := whatif.RowOf(plan, req.Rules, nil)
		start := 1
		for _, o := range req.Rules {
			if o.Rule == "week-start" && o.Value != nil {
				start = *o.Value
			}
		}
		want := whatif.Row{Outcome: plan.Outcome, Proof: plan.Proof, Points: plan.Cost.Points, Bound: plan.Cost.Bound, Broken: plan.Cost.Broken,
			Sessions: len(plan.Sessions), Missed: row.Missed}
		for d := plan.Period.From; !d.After(plan.Period.To); d = d.AddDays(1) {
			if int(d.Weekday()) == start && !d.AddDays(6).After(plan.Period.To) {
				lifts, full := 0, 0
				for _, s := range plan.Sessions {
					if !s.Date.Before(d) && s.Date.Before(d.AddDays(7)) {
						if s.Kind != season.Recovery {
							lifts++
						}
						if s.HeavyLowerBody {
							full++
						}
					}
				}
				want.Weeks++
				want.Lifts += lifts
				want.FullBody += full
				if lifts <= 1 {
					want.WeeksUnderTwo++
				}
				if full < 1 {
					want.WeeksWithout++
				}
				if lifts < 2 || full == 0 {
					want.WeeksBelow++
				}
			}
			for e := d; !e.After(plan.Period.To); e = e.AddDays(1) {
				empty, noLift := true, true
				for _, s := range plan.Sessions {
					if !s.Date.Before(d) && !s.Date.After(e) {
						empty = false
						noLift = noLift && s.Kind == season.Recovery
					}
				}
				if n := e.DaysSince(d) + 1; empty {
					want.LongestEmpty = max(want.LongestEmpty, n)
				}
				if n := e.DaysSince(d) + 1; noLift {
					want.LongestNoLift = max(want.LongestNoLift, n)
				}
			}
		}
		var points int64
		for _, s := range plan.Sessions {
			want.Minutes += int(s.End.Sub(s.Start) / time.Minute)
		}
		count := 0
		for _, m := range row.Missed {
			points += m.Points
			count += m.Count
		}
		for _, m := range plan.Missed {
			points -= m.Points
		}
		if points != 0 || count != len(plan.Missed) {
			t.Fatalf("misses: %d counted, %d are there; points differ by %d", count, len(plan.Missed), points)
		}
		if diff := cmp.Diff(want, row); diff != "" {
			t.Fatalf("row (-want +got):\n%s", diff)
		}
	})
}

// A variant that does not fit is reported in its place and the rest goes on.
func TestSweepFailures(t *testing.T) {
	var seen []whatif.Progress
	sweep := whatif.Sweep{Workers: 3, Progress: func(p whatif.Progress) { seen = append(seen, p) }}
	list := []whatif.Change{whatif.Cancel("g01"), whatif.Cancel("nobody"), whatif.SetRule(season.Override{Rule: "primer", Value: number(3)}), whatif.Cancel("g02")}
	var names []string
	failed := 0
	for r, err := range sweep.Run(context.Background(), club(2), variants(list...)) {
		names = append(names, r.Name)
		var v *whatif.VariantError
		switch {
		case errors.As(err, &v):
			failed++
			if r.Plan != nil || r.Row.Error == "" || v.Index != r.Index || !strings.Contains(v.Error(), r.Name) {
				t.Errorf("failed variant: %+v %v", r, v)
			}
		case err != nil:
			t.Fatal(err)
		}
	}
	if got, want := strings.Join(names, "; "), "base; cancel g01; cancel nobody; primer 3; cancel g02"; got != want {
		t.Errorf("names %q, want %q", got, want)
	}
	if failed != 2 || len(seen) != 5 || seen[4] != (whatif.Progress{Done: 5, Failed: 2, Name: "cancel g02"}) {
		t.Errorf("%d failed, progress %+v", failed, seen)
	}
	bad := club(2)
	bad.Period = season.Period{}
	n := 0
	for _, err := range sweep.Run(context.Background(), bad, variants(list...)) {
		if n++; err == nil || n > 1 {
			t.Errorf("a base that cannot be planned: error %v, result %d", err, n)
		}
	}
}

// endless yields variants for ever and counts them.
func endless(asked *atomic.Int64) iter.Seq[whatif.Variant] {
	return func(yield func(whatif.Variant) bool) {
		for n := 0; ; n++ {
			asked.Add(1)
			if !yield(whatif.Variant{Name: fmt.Sprint(n), Change: whatif.MoveDays("g01", n%5-2)}) {
				return
			}
		}
	}
}

// Variants are asked for as room is made, and everything ends with the loop or
// the context.
func TestSweepIsBounded(t *testing.T) {
	before := runtime.NumGoroutine()
	for _, workers := range []int{1, 4} {
		var asked atomic.Int64
		got := int64(0)
		sweep := whatif.Sweep{Workers: workers}
		for _, err := range sweep.Run(context.Background(), club(1), endless(&asked)) {
			if err != nil {
				t.Fatal(err)
			}
			// Those under way, and one that waits for a worker.
			if ahead := asked.Load() - got; ahead > int64(2*workers)+1 {
				t.Fatalf("%d variants ahead with %d workers", ahead, workers)
			}
			if got++; got > 12 {
				break
			}
		}
		ctx, cancel := context.WithCancel(context.Background())
		var last error
		n := 0
		for _, err := range sweep.Run(ctx, club(1), endless(&asked)) {
			if last = err; n == 5 {
				cancel()
			}
			n++
		}
		cancel()
		if !errors.Is(last, context.Canceled) {
			t.Errorf("cancelled: last error %v", last)
		}
		if n > 7+2*workers {
			t.Errorf("cancelled after 6 results, %d came", n)
		}
	}
	for range 100 {
		if runtime.NumGoroutine() <= before {
			return
		}
		runtime.Gosched()
		time.Sleep(time.Millisecond)
	}
	t.Errorf("%d goroutines before, %d after", before, runtime.NumGoroutine())
}

func TestWriters(t *testing.T) {
	sweep := whatif.Sweep{Workers: 2}
	list := func(yield func(whatif.Variant) bool) {
		for _, v := range []whatif.Variant{
			{Name: "=HYPERLINK(\"x\")", Change: whatif.Cancel("g01")}, {Name: "+1\x1b[31m", Change: whatif.Cancel("g02")},
			{Name: strings.Repeat("å", 60)}, {Name: "lost", Change: whatif.Cancel("nobody")},
		} {
			if !yield(v) {
				return
			}
		}
	}
	var fatal error
	rows := slices.Collect(whatif.Rows(sweep.Run(context.Background(), club(2), list), &fatal))
	if fatal != nil || len(rows) != 5 {
		t.Fatalf("%d rows, %v", len(rows), fatal)
	}
	var b bytes.Buffer
	if err := whatif.WriteCSV(&b, slices.Values(rows)); err != nil {
		t.Fatal(err)
	}
	table, err := csv.NewReader(bytes.NewReader(b.Bytes())).ReadAll()
	if err != nil || len(table) != 6 {
		t.Fatalf("%d lines, %v", len(table), err)
	}
	for i, line := range table {
		for j, cell := range line {
			if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
				t.Errorf("line %d, %s: %q runs in a spreadsheet", i, table[0][j], cell)
			}
			if calendar.Inert(cell) != cell {
				t.Errorf("line %d, %s: %q is not inert", i, table[0][j], cell)
			}
		}
	}
	at := slices.Index(table[0], "points_primer")
	if at < 0 || table[1][at] == "" {
		t.Errorf("no column of an aim: %q", table[0])
	}
	// A variant without a plan has no figures that a sum could take in.
	for i, cell := range table[5] {
		if filled := i < 3; filled != (cell != "") {
			t.Errorf("without a plan, %s is %q", table[0][i], cell)
		}
	}
	b.Reset()
	if err := whatif.WriteJSON(&b, slices.Values(rows)); err != nil {
		t.Fatal(err)
	}
	var back []whatif.Row
	if err := json.Unmarshal(b.Bytes(), &back); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(rows, back); diff != "" {
		t.Errorf("JSON reads back otherwise:\n%s", diff)
	}
	b.Reset()
	if err := whatif.WriteJSON(&b, slices.Values([]whatif.Row{})); err != nil || json.Unmarshal(b.Bytes(), &back) != nil || len(back) != 0 {
		t.Errorf("no rows: %q %v", b.String(), err)
	}
	b.Reset()
	if err := whatif.WriteText(&b, slices.Values(rows)); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "\x1b") || len(rows) != 5 || slices.ContainsFunc(strings.Split(b.String(), "\n"), func(s string) bool { return utf8.RuneCountInString(s) > 98 }) || !strings.Contains(b.String(), "no plan: ") {
		t.Errorf("text:\n%s", b.String())
	}
	cancelled := cancelledSweep()
	for row := range whatif.Rows(cancelled, &fatal) {
		t.Errorf("row %+v", row)
	}
	if !errors.Is(fatal, context.Canceled) {
		t.Errorf("rows of a cancelled sweep: %v", fatal)
	}
}

func cancelledSweep() iter.Seq2[whatif.Result, error] {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var s whatif.Sweep
	return s.Run(ctx, club(1), nil)
}

func TestDiff(t *testing.T) {
	zone := seasontest.Zone("Europe/Oslo").Location()
	at := func(day, hour int, kind season.Kind) season.Session {
		d := seasontest.Date("2026-11-02").AddDays(day)
		start, _ := time.ParseInLocation("2006-01-02 15", fmt.Sprintf("%s %02d", d, hour), zone)
		return season.Session{Date: d, Start: start, End: start.Add(time.Hour), Kind: kind}
	}
	a := &season.Plan{Sessions: []season.Session{at(0, 17, season.FullBody), at(1, 17, season.Recovery), at(3, 17, season.Primer)}}
	b := &season.Plan{Sessions: []season.Session{at(0, 17, season.FullBody), at(1, 17, season.Primer), at(3, 16, season.Primer)}}
	var got bytes.Buffer
	if err := whatif.WriteDiff(&got, a, b, false); err != nil {
		t.Fatal(err)
	}
	want := `  Mon 2026-11-02 17:00  full-body          full-body
* Tue 2026-11-03 17:00  recovery           primer
* Thu 2026-11-05 16:00  -                  primer
* Thu 2026-11-05 17:00  primer             -
3 of 4 differ
`
	if diff := cmp.Diff(want, got.String()); diff != "" {
		t.Error(diff)
	}
	if len(whatif.Diff(nil, nil)) != 0 || len(whatif.Diff(a, nil)) != 3 || len(whatif.Diff(nil, b)) != 3 {
		t.Error("plans that are not there")
	}
}

// Causes are counted once for each miss, over random seasons, and no brief planner
// names any.
func TestCauses(t *testing.T) {
	named := 0
	rapid.Check(t, func(t *rapid.T) {
		req := seasontest.Request(t, seasontest.Options{MinDates: 7, MaxDates: 14})
		plan, err := (&periodize.Planner{}).Plan(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		want := map[string]int{} // misses of an aim that a rule stood in the way of
		for i, m := range plan.Missed {
			seen := map[string]bool{}
			for _, w := range m.InTheWay {
				if !seen[w.Rule] {
					want[m.Aim+" "+w.Rule]++
				}
				seen[w.Rule] = true
			}
			plan.Missed[i].InTheWay = slices.Clone(m.InTheWay)
		}
		row := whatif.RowOf(plan, req.Rules, nil)
		got := map[string]int{}
		for _, m := range row.Missed {
			for i, c := range m.Causes {
				named++
				if got[m.Aim+" "+c.Rule] += c.Count; c.Count > m.Count {
					t.Fatalf("%s: %s stands in the way of %d of %d", m.Aim, c.Rule, c.Count, m.Count)
				}
				if i > 0 && c.Count > m.Causes[i-1].Count {
					t.Fatalf("%s: not the most frequent first: %v", m.Aim, m.Causes)
				}
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatal(diff)
		}
		brief, err := (&periodize.Planner{Brief: true}).Plan(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range whatif.RowOf(brief, req.Rules, nil).Missed {
			if len(m.Causes) > 0 {
				t.Fatalf("causes that nobody looked for: %v", m)
			}
		}
	})
	if named == 0 {
		t.Error("no cause was named")
	}
}
