package logbook_test

import (
	"bytes"
	"slices"
	"testing"
	"time"

	"example.org/weft/periodize/logbook"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func drawLog(t *rapid.T, entries []logbook.Entry) logbook.Log {
	l, err := logbook.NewLog(entries...)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// TestMergeLaws: a log is a set. Order, grouping and repetition of merges make no
// difference.
func TestMergeLaws(t *testing.T) {
	z := zone(t, "Europe/Copenhagen")
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawLog(t, drawEntries(t, z, 8)), drawLog(t, drawEntries(t, z, 8)), drawLog(t, drawEntries(t, z, 8))
		same := func(law string, x, y logbook.Log) {
			if d := cmp.Diff(written(t, x), written(t, y)); d != "" {
				t.Fatalf("%s: %s", law, d)
			}
		}
		same("commutative", logbook.Merge(a, b), logbook.Merge(b, a))
		same("associative", logbook.Merge(logbook.Merge(a, b), c), logbook.Merge(a, logbook.Merge(b, c)))
		same("all at once", logbook.Merge(a, b, c), logbook.Merge(c, logbook.Merge(b, a)))
		same("idempotent", logbook.Merge(a, a), a)
		same("absorbing", logbook.Merge(a, b, a), logbook.Merge(a, b))
		same("neutral", logbook.Merge(a, logbook.Log{}), a)
		if d := cmp.Diff(shown(logbook.Merge(a, b).View("a")), shown(logbook.Merge(b, a, b).View("a"))); d != "" {
			t.Fatal(d)
		}
	})
}

// TestEntriesAreASet: the entries of a log make it again, in any order and with
// repetitions.
func TestEntriesAreASet(t *testing.T) {
	z := zone(t, "Europe/Copenhagen")
	rapid.Check(t, func(t *rapid.T) {
		entries := drawEntries(t, z, 10)
		l := drawLog(t, entries)
		again := append(rapid.Permutation(entries).Draw(t, "order"), entries...)
		if d := cmp.Diff(written(t, l), written(t, drawLog(t, again))); d != "" {
			t.Fatal(d)
		}
		if d := cmp.Diff(written(t, l), written(t, drawLog(t, l.Entries()))); d != "" {
			t.Fatal(d)
		}
		var parts []logbook.Log
		for _, a := range l.Athletes() {
			parts = append(parts, l.Of(a))
		}
		if d := cmp.Diff(written(t, l), written(t, logbook.Merge(parts...))); d != "" {
			t.Fatal(d)
		}
	})
}

// TestWrittenAndRead: what is written is read back as it was, from whatever order
// it was in.
func TestWrittenAndRead(t *testing.T) {
	z := zone(t, "Europe/Copenhagen")
	rapid.Check(t, func(t *rapid.T) {
		l := drawLog(t, drawEntries(t, z, 8))
		text := written(t, l)
		m, problems, err := logbook.Reader{Strict: true}.JSON(bytes.NewReader([]byte(text)))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range problems {
			if p.Code != logbook.CodeIDTwice {
				t.Fatal(p)
			}
		}
		if d := cmp.Diff(text, written(t, m)); d != "" {
			t.Fatal(d)
		}
	})
}

// TestLateEntriesLeaveThePast: whatever is told later, a log as of an instant
// stays what it was.
func TestLateEntriesLeaveThePast(t *testing.T) {
	z := zone(t, "Europe/Copenhagen")
	rapid.Check(t, func(t *rapid.T) {
		early, late := drawEntries(t, z, 8), drawEntries(t, z, 8)
		printed := instant("2026-11-20T14:00:00Z") // after all that is drawn
		for i := range late {
			late[i].Recorded = printed.Add(time.Duration(1+i) * time.Minute)
		}
		a := drawLog(t, early)
		all := logbook.Merge(a, drawLog(t, late))
		if d := cmp.Diff(written(t, a), written(t, all.AsOf(printed))); d != "" {
			t.Fatal(d)
		}
		if d := cmp.Diff(shown(a.View("a")), shown(all.AsOf(printed).View("a"))); d != "" {
			t.Fatal(d)
		}
	})
}

// TestFoldOneByOne: a fold that takes entries one after the other, in any order
// and with repetitions, is the fold of all of them.
func TestFoldOneByOne(t *testing.T) {
	z := zone(t, "Europe/Copenhagen")
	rapid.Check(t, func(t *rapid.T) {
		entries := drawEntries(t, z, 12)
		k := rapid.IntRange(0, len(entries)).Draw(t, "at first")
		fold := logbook.NewFold(drawLog(t, entries[:k]))
		for _, e := range append(slices.Clone(entries[k:]), rapid.Permutation(entries).Draw(t, "again")...) {
			if err := fold.Add(e); err != nil {
				t.Fatal(err)
			}
		}
		l := drawLog(t, entries)
		if d := cmp.Diff(l.Athletes(), fold.Athletes()); d != "" {
			t.Fatal(d)
		}
		for _, a := range append(l.Athletes(), "nobody") {
			if d := cmp.Diff(shown(l.View(a)), shown(fold.View(a))); d != "" {
				t.Fatalf("%q: %s", a, d)
			}
		}
	})
}
