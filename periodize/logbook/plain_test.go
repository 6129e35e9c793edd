package logbook_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// plain is what holds for one athlete, worked out from the words of the
// documentation without regard to time.
type plain struct {
	under map[string][]logbook.Entry // by id, each thing said once
	ids   []string
}

func plainOf(t interface{ Fatal(...any) }, entries []logbook.Entry, athlete string) plain {
	p := plain{under: map[string][]logbook.Entry{}}
	for _, e := range entries {
		if e.Athlete != athlete {
			continue
		}
		i := slices.IndexFunc(p.under[e.ID], func(o logbook.Entry) bool { return says(t, o, true) == says(t, e, true) })
		switch {
		case i < 0:
			p.under[e.ID] = append(p.under[e.ID], e)
		case first(e, p.under[e.ID][i]):
			p.under[e.ID][i] = e
		}
	}
	for id, list := range p.under {
		p.ids = append(p.ids, id)
		for _, e := range list {
			if to := target(e); to != "" && p.under[to] == nil {
				p.ids = append(p.ids, to)
			}
		}
	}
	slices.Sort(p.ids)
	p.ids = slices.Compact(p.ids)
	return p
}

func first(a, b logbook.Entry) bool {
	return a.Recorded.Before(b.Recorded) || a.Recorded.Equal(b.Recorded) && a.Source < b.Source
}

// says is what an entry says as text; its place in the log only if wanted.
func says(t interface{ Fatal(...any) }, e logbook.Entry, place bool) string {
	e.Recorded, e.Source = instant("2026-12-01T00:00:00Z"), ""
	if !place {
		e.ID, e.Replaces = "any", ""
	}
	l, err := logbook.NewLog(e)
	if err != nil {
		t.Fatal(err)
	}
	return written(t, l)
}

func target(e logbook.Entry) string {
	if v, ok := e.What.(logbook.Void); ok {
		return v.Of
	}
	return e.Replaces
}

// circular reports whether what an entry corrects leads back to its own id.
func (p plain) circular(e logbook.Entry) bool {
	reached := map[string]bool{target(e): true}
	for range p.ids {
		for id := range reached {
			for _, o := range p.under[id] {
				if to := target(o); to != "" {
					reached[to] = true
				}
			}
		}
	}
	return reached[e.ID]
}

// holds is what holds for an id: disputed, gone, or one entry.
func (p plain) holds(t interface{ Fatal(...any) }, id string) (state string, entry logbook.Entry) {
	var outcomes []logbook.Entry
	for _, by := range p.ids {
		for _, c := range p.under[by] {
			if target(c) != id {
				continue
			}
			if p.circular(c) {
				return "disputed", entry
			}
			switch state, e := p.holds(t, by); state {
			case "disputed":
				return state, entry
			case "stands":
				outcomes = append(outcomes, e)
			}
		}
	}
	own := p.under[id]
	switch {
	case len(outcomes) == 0 && len(own) == 0:
		return "gone", entry
	case len(outcomes) == 0 && len(own) > 1:
		return "disputed", entry
	case len(outcomes) == 0:
		return "stands", own[0]
	}
	entry = outcomes[0]
	for _, o := range outcomes[1:] {
		voids := 0
		for _, e := range []logbook.Entry{o, entry} {
			if _, ok := e.What.(logbook.Void); ok {
				voids++
			}
		}
		if voids == 1 || voids == 0 && says(t, o, false) != says(t, entry, false) {
			return "disputed", entry
		}
		if first(o, entry) || !first(entry, o) && o.ID < entry.ID {
			entry = o
		}
	}
	if _, ok := entry.What.(logbook.Void); ok {
		return "gone", entry
	}
	return "stands", entry
}

// counting lists what counts, as text.
func (p plain) counting(t interface{ Fatal(...any) }) (out []string) {
	counts := map[string]logbook.Entry{}
	for _, id := range p.ids {
		root := len(p.under[id]) == 0
		for _, e := range p.under[id] {
			root = root || target(e) == "" || p.circular(e)
		}
		if state, e := p.holds(t, id); root && state == "stands" && e.What.Kind().Dated() {
			counts[says(t, e, true)] = e
		}
	}
	for text, e := range counts {
		// All that tell of the same as e, of the same as those, and so on.
		same := map[string]logbook.Entry{text: e}
		for range counts {
			for _, x := range same {
				for other, o := range counts {
					if oneThing(x, o, counts) {
						same[other] = o
					}
				}
			}
		}
		if one, ok := speaks(same); ok && isBase(text, same) {
			out = append(out, says(t, one, true))
		}
	}
	slices.Sort(out)
	return out
}

// oneThing reports whether two entries tell of one session, game or practice, of
// all that count.
func oneThing(a, b logbook.Entry, all map[string]logbook.Entry) bool {
	name := func(e logbook.Entry) (name, kind string) {
		switch x := e.What.(type) {
		case logbook.Session:
			return x.Planned, string(x.Session)
		case logbook.Game:
			return x.Event, "game"
		case logbook.Practice:
			return x.Event, "practice"
		}
		return "", ""
	}
	// The time that is taken, as far as it is told.
	overlap := func(a, b logbook.Entry) bool {
		_, x := name(a)
		_, y := name(b)
		if x != y || x == "" || a.DateOnly || b.DateOnly {
			return false
		}
		end := func(e logbook.Entry) time.Time {
			at, _ := e.At()
			minutes := 1
			switch x := e.What.(type) {
			case logbook.Session:
				minutes = max(minutes, x.Minutes.Value)
			case logbook.Practice:
				minutes = max(minutes, x.Minutes.Value)
			}
			if e.HasEnd {
				return e.Zone.Resolve(e.End).Instant
			}
			return at.Add(time.Duration(minutes) * time.Minute)
		}
		from, _ := a.At()
		to, _ := b.At()
		return from.Before(end(b)) && to.Before(end(a))
	}
	// Whether one without a name is joined to what else there is at its time.
	free := func(e logbook.Entry) bool {
		n, _ := name(e)
		names := map[string]bool{}
		for _, o := range all {
			if other, _ := name(o); other != "" && overlap(e, o) {
				names[other] = true
			}
		}
		return n == "" && len(names) < 2
	}
	atOnce := overlap(a, b) && (free(a) || free(b))
	switch x := a.What.(type) {
	case logbook.Session:
		y, ok := b.What.(logbook.Session)
		return ok && (x.Planned != "" && x.Planned == y.Planned || atOnce)
	case logbook.Game:
		y, ok := b.What.(logbook.Game)
		return ok && (x.Event != "" && x.Event == y.Event || atOnce)
	case logbook.Practice:
		y, ok := b.What.(logbook.Practice)
		return ok && (x.Event != "" && x.Event == y.Event || atOnce)
	}
	return false
}

// isBase reports whether an entry is the one that others are added to.
func isBase(text string, same map[string]logbook.Entry) bool {
	e := same[text]
	sets := func(e logbook.Entry) int {
		s, _ := e.What.(logbook.Session)
		return min(len(s.Sets), 1)
	}
	for other, o := range same {
		if other != text && (sets(o) > sets(e) || sets(o) == sets(e) && (first(o, e) || !first(e, o) && o.ID < e.ID)) {
			return false
		}
	}
	return true
}

// speaks puts together what entries tell, each fact by its name; ok is false if
// two differ in one.
func speaks(same map[string]logbook.Entry) (one logbook.Entry, ok bool) {
	facts := map[string]map[string]bool{}
	put := func(name string, known bool, value any) {
		if known {
			if facts[name] == nil {
				facts[name] = map[string]bool{}
			}
			facts[name][fmt.Sprintf("%v", value)] = true
		}
	}
	for text, e := range same {
		put("date", true, e.Start.Date)
		put("end", e.HasEnd, e.End)
		switch x := e.What.(type) {
		case logbook.Session:
			put("name", x.Planned != "", x.Planned)
			put("kind", true, x.Session)
			put("state", x.State != logbook.Unknown, x.State)
			put("minutes", x.Minutes.Known, x.Minutes)
			put("rating", x.Rating.Known, x.Rating)
			put("sets", len(x.Sets) > 0, x.Sets)
		case logbook.Game:
			put("name", x.Event != "", x.Event)
			put("minutes", x.Minutes.Known, x.Minutes)
			put("rating", x.Rating.Known, x.Rating)
		case logbook.Practice:
			put("name", x.Event != "", x.Event)
			put("minutes", x.Minutes.Known, x.Minutes)
			put("rating", x.Rating.Known, x.Rating)
			put("sprinted", x.Sprinted.Known, x.Sprinted)
		}
		if isBase(text, same) {
			one = e
		}
	}
	for _, values := range facts {
		if len(values) > 1 {
			return one, false
		}
	}
	for _, o := range same {
		if o.HasEnd && !one.HasEnd && o.Start == one.Start {
			one.End, one.HasEnd = o.End, true
		}
		switch x := one.What.(type) {
		case logbook.Session:
			y := o.What.(logbook.Session)
			x.Planned = max(x.Planned, y.Planned)
			if x.State == logbook.Unknown {
				x.State = y.State
			}
			x.Minutes, x.Rating = known(x.Minutes, y.Minutes), known(x.Rating, y.Rating)
			one.What = x
		case logbook.Game:
			y := o.What.(logbook.Game)
			x.Event = max(x.Event, y.Event)
			x.Minutes, x.Rating = known(x.Minutes, y.Minutes), known(x.Rating, y.Rating)
			one.What = x
		case logbook.Practice:
			y := o.What.(logbook.Practice)
			x.Event = max(x.Event, y.Event)
			x.Minutes, x.Rating, x.Sprinted = known(x.Minutes, y.Minutes), known(x.Rating, y.Rating), known(x.Sprinted, y.Sprinted)
			one.What = x
		}
	}
	return one, true
}

func known[T comparable](a, b logbook.Maybe[T]) logbook.Maybe[T] {
	if a.Known {
		return a
	}
	return b
}

// TestWhatHolds compares the fold with the plain definition.
func TestWhatHolds(t *testing.T) {
	z := zone(t, "Europe/Copenhagen")
	rapid.Check(t, func(t *rapid.T) {
		entries := drawEntries(t, z, 9)
		p := plainOf(t, entries, "a")
		v := drawLog(t, entries).View("a")
		var got []string
		for _, e := range v.Entries {
			got = append(got, says(t, e, true))
		}
		slices.Sort(got)
		if d := cmp.Diff(p.counting(t), got); d != "" {
			t.Fatalf("-plain +fold: %s", d)
		}
		if !slices.IsSortedFunc(v.Entries, func(a, b logbook.Entry) int {
			x, _ := a.At()
			y, _ := b.At()
			return x.Compare(y)
		}) {
			t.Fatal("not in the order of time")
		}
		confirmed := map[string]bool{}
		for _, id := range p.ids {
			if state, e := p.holds(t, id); state == "stands" && len(p.under[id]) == 1 && e.ID == id {
				if c, ok := e.What.(logbook.Confirm); ok {
					confirmed[c.Of] = true
				}
			}
		}
		for _, id := range []string{"s1", "s2", "s3", "c1", "c2", "c3", "x", "none"} {
			if v.Confirmed(id) != confirmed[id] {
				t.Fatalf("confirmed %s: %v", id, v.Confirmed(id))
			}
		}
	})
}

// TestTallyBounds: the bounds are the least and the most over all ways in which
// the unknown sessions may have gone.
func TestTallyBounds(t *testing.T) {
	z := zone(t, "Europe/Copenhagen")
	rapid.Check(t, func(t *rapid.T) {
		from := day("2026-11-02")
		past := logbook.Past{Period: season.Period{From: from, To: from.AddDays(8)}, Now: instant("2026-11-11T06:00:00Z"), Zone: z}
		var entries []logbook.Entry
		type one struct {
			day  int
			lift bool
		}
		var sure, open []one
		for i := range rapid.IntRange(0, 7).Draw(t, "sessions") {
			x := one{rapid.IntRange(0, 8).Draw(t, "day"), rapid.Bool().Draw(t, "lift")}
			kind := season.Recovery
			if x.lift {
				kind = season.Primer
			}
			id := fmt.Sprintf("p%d", i)
			start := z.Resolve(wall(from.AddDays(x.day).String() + "T17:00")).Instant
			past.Planned = append(past.Planned, season.Session{ID: id, Kind: kind, Date: from.AddDays(x.day), Start: start, End: start.Add(3_000_000_000_000)})
			e := logbook.Entry{ID: "e" + id, Recorded: past.Now, Start: wall(fmt.Sprintf("%sT17:0%d", from.AddDays(x.day), i)), Zone: z}
			s := logbook.Session{Planned: id, Session: kind}
			switch rapid.IntRange(0, 4).Draw(t, "told") {
			case 0, 1:
				s.State = logbook.Done
				sure = append(sure, x)
			case 2:
				s.State = logbook.Missed
			case 3:
				s.State = logbook.Unknown
				open = append(open, x)
			case 4:
				open = append(open, x)
				continue
			}
			e.What = s
			entries = append(entries, e)
		}
		count := func(list []one) (lifts, run int) {
			var filled [9]bool
			for _, x := range list {
				filled[x.day] = true
				if x.lift {
					lifts++
				}
			}
			n := 0
			for _, f := range filled { // all nine dates have ended by now
				if n++; f {
					n = 0
				}
				run = max(run, n)
			}
			return lifts, run
		}
		least, most := logbook.Bounds{Least: 99, Most: 99}, logbook.Bounds{}
		for mask := range 1 << len(open) {
			list := slices.Clone(sure)
			for i, x := range open {
				if mask>>i&1 == 1 {
					list = append(list, x)
				}
			}
			lifts, run := count(list)
			least.Least, most.Least = min(least.Least, lifts), max(most.Least, lifts)
			least.Most, most.Most = min(least.Most, run), max(most.Most, run)
		}
		got := drawLog(t, entries).View("").Tally(past)
		want := [2]logbook.Bounds{{Least: least.Least, Most: most.Least}, {Least: least.Most, Most: most.Most}}
		if d := cmp.Diff(want, [2]logbook.Bounds{got.Lifts, got.EmptyRun}); d != "" {
			t.Fatal(d)
		}
	})
}

// TestDeepCorrections: a chain of corrections holds up to MaxChain; beyond, all
// of it is disputed, and the time it takes stays small.
func TestDeepCorrections(t *testing.T) {
	z := zone(t, "Europe/Copenhagen")
	chain := func(n int) []logbook.Entry {
		var out []logbook.Entry
		for i := range n + 1 {
			e := logbook.Entry{ID: fmt.Sprintf("e%05d", i), Recorded: instant("2026-11-20T10:00:00Z"), Zone: z, Start: wall("2026-11-10T17:00"),
				What: logbook.Session{Session: season.FullBody, State: logbook.Done, Minutes: logbook.Told(i % 60)}}
			if i > 0 {
				e.Replaces = fmt.Sprintf("e%05d", i-1)
			}
			out = append(out, e)
		}
		return out
	}
	for _, c := range []struct{ corrections, counts int }{{1, 1}, {logbook.MaxChain, 1}, {logbook.MaxChain + 1, 0}, {20_000, 0}} {
		v := newLog(t, chain(c.corrections)...).View("")
		if len(v.Entries) != c.counts || len(v.Disputed) > 1 && c.corrections < 100 {
			t.Errorf("%d corrections: %d count, %d disputes", c.corrections, len(v.Entries), len(v.Disputed))
		}
		if c.counts == 1 && !strings.HasSuffix(v.Entries[0].ID, fmt.Sprint(c.corrections)) {
			t.Errorf("%d corrections: %s counts", c.corrections, v.Entries[0].ID)
		}
	}
}
