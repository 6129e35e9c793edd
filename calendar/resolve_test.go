package calendar_test

import (
	"testing"
	"time"
	_ "time/tzdata"

	"example.org/weft/calendar"
	"pgregory.net/rapid"
)

func zone(t testing.TB, name string) calendar.Zone {
	t.Helper()
	z, err := calendar.LoadZone(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func wall(t testing.TB, s string) calendar.Wall {
	t.Helper()
	w, err := calendar.ParseWall(s)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func instant(t testing.TB, s string) time.Time {
	t.Helper()
	v, err := time.Parse(time.RFC3339, s)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The rule is RFC 5545, section 3.3.5 (seen in source, New York 2007 among its
// examples); the other instants are derived from the IANA data.
func TestResolve(t *testing.T) {
	for _, c := range []struct {
		zone, wall string
		fit        calendar.Fit
		instant    string
		earlier    string
		later      string
	}{
		{"America/New_York", "2007-03-11T02:30", calendar.Skipped, "2007-03-11T07:30:00Z", "2007-03-11T06:59:00Z", "2007-03-11T07:00:00Z"},
		{"America/New_York", "2007-11-04T01:30", calendar.Doubled, "2007-11-04T05:30:00Z", "2007-11-04T05:30:00Z", "2007-11-04T06:30:00Z"},
		{"America/New_York", "2026-03-08T02:30", calendar.Skipped, "2026-03-08T07:30:00Z", "2026-03-08T06:59:00Z", "2026-03-08T07:00:00Z"},
		{"Europe/London", "2025-10-26T01:30", calendar.Doubled, "2025-10-26T00:30:00Z", "2025-10-26T00:30:00Z", "2025-10-26T01:30:00Z"},
		{"Europe/Berlin", "2026-10-25T02:30", calendar.Doubled, "2026-10-25T00:30:00Z", "2026-10-25T00:30:00Z", "2026-10-25T01:30:00Z"},
		{"Australia/Lord_Howe", "2025-10-05T02:15", calendar.Skipped, "2025-10-04T15:45:00Z", "2025-10-04T15:29:00Z", "2025-10-04T15:30:00Z"},
		{"Australia/Lord_Howe", "2025-04-06T01:45", calendar.Doubled, "2025-04-05T14:45:00Z", "2025-04-05T14:45:00Z", "2025-04-05T15:15:00Z"},
		// The edges of a gap and of an overlap.
		{"Europe/Berlin", "2027-03-28T01:59:59", calendar.Exact, "2027-03-28T00:59:59Z", "2027-03-28T00:59:59Z", "2027-03-28T00:59:59Z"},
		{"Europe/Berlin", "2027-03-28T02:00", calendar.Skipped, "2027-03-28T01:00:00Z", "2027-03-28T00:59:00Z", "2027-03-28T01:00:00Z"},
		{"Europe/Berlin", "2027-03-28T02:59:59", calendar.Skipped, "2027-03-28T01:59:59Z", "2027-03-28T00:59:00Z", "2027-03-28T01:00:00Z"},
		{"Europe/Berlin", "2027-03-28T03:00", calendar.Exact, "2027-03-28T01:00:00Z", "2027-03-28T01:00:00Z", "2027-03-28T01:00:00Z"},
		{"Europe/Berlin", "2026-10-25T02:00", calendar.Doubled, "2026-10-25T00:00:00Z", "2026-10-25T00:00:00Z", "2026-10-25T01:00:00Z"},
		{"Europe/Berlin", "2026-10-25T03:00", calendar.Exact, "2026-10-25T02:00:00Z", "2026-10-25T02:00:00Z", "2026-10-25T02:00:00Z"},
		// A date that never was, and a midnight that never was.
		{"Pacific/Apia", "2011-12-30T12:00", calendar.Skipped, "2011-12-30T22:00:00Z", "2011-12-30T09:59:00Z", "2011-12-30T10:00:00Z"},
		{"America/Santiago", "2024-09-08T00:30", calendar.Skipped, "2024-09-08T04:30:00Z", "2024-09-08T03:59:00Z", "2024-09-08T04:00:00Z"},
		// The end of a date is the start of the next.
		{"Europe/Berlin", "2026-10-24T24:00", calendar.Exact, "2026-10-24T22:00:00Z", "2026-10-24T22:00:00Z", "2026-10-24T22:00:00Z"},
		// The last day of a leap year, where package time returns bounds that
		// have passed.
		{"America/New_York", "2028-12-31T02:30", calendar.Exact, "2028-12-31T07:30:00Z", "2028-12-31T07:30:00Z", "2028-12-31T07:30:00Z"},
		{"Australia/Sydney", "2096-12-31T23:30", calendar.Exact, "2096-12-31T12:30:00Z", "2096-12-31T12:30:00Z", "2096-12-31T12:30:00Z"},
		{"UTC", "2026-11-08T14:00", calendar.Exact, "2026-11-08T14:00:00Z", "2026-11-08T14:00:00Z", "2026-11-08T14:00:00Z"},
	} {
		r := zone(t, c.zone).Resolve(wall(t, c.wall))
		if r.Fit != c.fit || !r.Instant.Equal(instant(t, c.instant)) ||
			!r.Earlier.Equal(instant(t, c.earlier)) || !r.Later.Equal(instant(t, c.later)) {
			t.Errorf("%s %s: got %v %v [%v, %v], want %v %s [%s, %s]", c.zone, c.wall,
				r.Fit, r.Instant, r.Earlier, r.Later, c.fit, c.instant, c.earlier, c.later)
		}
		if r.Instant.Location() != time.UTC {
			t.Errorf("%s %s: instant not in UTC", c.zone, c.wall)
		}
	}
}

func TestResolveUnset(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	w := wall(t, "2026-11-08T14:00")
	for name, r := range map[string]calendar.Resolution{
		"zone":  calendar.Zone{}.Resolve(w),
		"date":  z.Resolve(calendar.Wall{Clock: 60}),
		"clock": z.Resolve(calendar.Wall{Date: w.Date, Clock: calendar.EndOfDay + 1}),
	} {
		if r.Fit != calendar.Unresolved || !r.Instant.IsZero() {
			t.Errorf("unset %s: got %+v", name, r)
		}
	}
}

// Derived from the IANA zones.
func TestElapsed(t *testing.T) {
	for _, c := range []struct {
		fromZone, from, toZone, to string
		want                       time.Duration
	}{
		{"Europe/Berlin", "2026-10-24T16:45", "Europe/Berlin", "2026-10-25T16:00", 24*time.Hour + 15*time.Minute},
		{"Europe/Berlin", "2027-03-27T16:15", "Europe/Berlin", "2027-03-28T16:30", 23*time.Hour + 15*time.Minute},
		{"America/Chicago", "2026-10-31T19:30", "America/Chicago", "2026-11-01T19:00", 24*time.Hour + 30*time.Minute},
		{"Australia/Adelaide", "2026-10-03T14:30", "Australia/Adelaide", "2026-10-04T15:00", 23*time.Hour + 30*time.Minute},
		{"Australia/Lord_Howe", "2026-10-03T14:30", "Australia/Lord_Howe", "2026-10-04T15:00", 24 * time.Hour},
		{"America/New_York", "2026-03-07T19:00", "America/New_York", "2026-03-10T19:00", 71 * time.Hour},
		{"Pacific/Auckland", "2027-02-20T16:00", "Pacific/Honolulu", "2027-02-20T19:00", 26 * time.Hour},
	} {
		a := zone(t, c.fromZone).Resolve(wall(t, c.from)).Instant
		b := zone(t, c.toZone).Resolve(wall(t, c.to)).Instant
		got := calendar.Gap(calendar.Span{Start: a, End: a}, calendar.Span{Start: b, End: b})
		if got != c.want {
			t.Errorf("%s %s to %s %s: got %v, want %v", c.fromZone, c.from, c.toZone, c.to, got, c.want)
		}
	}
}

// offsetsAround samples the offsets of a location every quarter of an hour, which
// no zone of the IANA data is shorter than after 1900, from 27 h before an instant to
// 27 h after it. It uses instant-to-local conversion only, which is never in doubt.
func offsetsAround(loc *time.Location, at int64) (samples []int64, offsets []int64) {
	for t := at - 27*3600; t <= at+27*3600; t += 900 {
		_, off := time.Unix(t, 0).In(loc).Zone()
		samples = append(samples, t)
		offsets = append(offsets, int64(off))
	}
	return samples, offsets
}

// checkResolve compares Resolve with the definition: the instants that show a
// wall time are those t with t + offset(t) = wall; the first of them counts, and
// if there is none the offset that held before the clock jumped over it.
func checkResolve(t interface {
	Errorf(string, ...any)
}, z calendar.Zone, local int64, samples, offsets []int64) {
	loc := z.Location()
	offset := func(at int64) int64 {
		_, off := time.Unix(at, 0).In(loc).Zone()
		return int64(off)
	}
	var shown []int64
	seen := map[int64]bool{}
	for _, o := range offsets {
		at := local - o
		if !seen[at] && offset(at) == o {
			shown = append(shown, at)
		}
		seen[at] = true
	}
	day := local / 86400
	if local%86400 < 0 {
		day--
	}
	w := calendar.Wall{Date: calendar.DateFromDayNumber(int(day)), Clock: calendar.Clock(local - day*86400)}
	r := z.Resolve(w)
	lo, hi := int64(0), int64(0)
	for i, at := range shown {
		if i == 0 || at < lo {
			lo = at
		}
		if i == 0 || at > hi {
			hi = at
		}
	}
	switch len(shown) {
	case 0:
		before := int64(0)
		for i, at := range samples {
			if at+offsets[i] < local {
				before = offsets[i]
			} else {
				break
			}
		}
		e, l := r.Earlier.Unix(), r.Later.Unix()
		if r.Fit != calendar.Skipped || r.Instant.Unix() != local-before ||
			e+offset(e) >= local || (e+offset(e))%60 != 0 || l-e > 60 ||
			l+offset(l) <= local || l-1+offset(l-1) >= local {
			t.Errorf("%s %s: skipped, got %+v", z, w, r)
		}
	case 1:
		if r.Fit != calendar.Exact || r.Instant.Unix() != lo || r.Earlier != r.Instant || r.Later != r.Instant {
			t.Errorf("%s %s: exact %d, got %+v", z, w, lo, r)
		}
	default:
		if r.Fit != calendar.Doubled || r.Instant.Unix() != lo || r.Earlier.Unix() != lo || r.Later.Unix() != hi {
			t.Errorf("%s %s: doubled %d %d, got %+v", z, w, lo, hi, r)
		}
	}
	if r.Fit != calendar.Skipped && z.Local(r.Instant) != w {
		t.Errorf("%s %s: the instant shows %s", z, w, z.Local(r.Instant))
	}
}

// Every change of every zone of the list from 2000 to 2037, at the edges of its
// gap or overlap and inside; one zone in seven in short mode.
func TestResolveEveryTransition(t *testing.T) {
	const from, until = 946684800, 2145916800 // 2000-01-01 and 2038-01-01, UTC
	zones, changes, walls := 0, 0, 0
	for i, name := range calendar.ZoneNames() {
		z, err := calendar.LoadZone(name)
		if err != nil {
			continue // fixed offsets under a name are refused; counted below
		}
		zones++
		if testing.Short() && i%7 != 0 {
			continue
		}
		loc := z.Location()
		_, last := time.Unix(from, 0).In(loc).Zone()
		listed := z.Transitions(calendar.Span{Start: time.Unix(from, 0), End: time.Unix(until, 0)})
		found := 0
		for at := int64(from); at < until; at += 86400 {
			_, off := time.Unix(at+86400, 0).In(loc).Zone()
			if off == last {
				continue
			}
			changes++
			found++
			lo, hi := at, at+86400
			for hi-lo > 1 {
				mid := (lo + hi) / 2
				if _, o := time.Unix(mid, 0).In(loc).Zone(); o == last {
					lo = mid
				} else {
					hi = mid
				}
			}
			samples, offsets := offsetsAround(loc, hi)
			a, b := int64(last), int64(off)
			for _, o := range []int64{min(a, b), max(a, b), (a + b) / 2} {
				for _, d := range []int64{-3600, -61, -60, -1, 0, 1, 59, 60, 1799} {
					checkResolve(t, z, hi+o+d, samples, offsets)
					walls++
				}
			}
			last = off
		}
		// The daily walk misses two changes within one day; there are none.
		if len(listed) != found {
			t.Errorf("%s: Transitions lists %d changes, the walk finds %d", name, len(listed), found)
		}
	}
	if zones < 550 {
		t.Errorf("only %d zones could be loaded", zones)
	}
	t.Logf("%d zones, %d changes, %d wall times", zones, changes, walls)
}

func TestResolveAnyWall(t *testing.T) {
	names := calendar.ZoneNames()
	rapid.Check(t, func(t *rapid.T) {
		z, err := calendar.LoadZone(rapid.SampledFrom(names).Draw(t, "zone"))
		if err != nil {
			t.Skip()
		}
		day := rapid.Int64Range(-25567, 84005).Draw(t, "day") // 1900-01-01 to 2199-12-31
		if rapid.Bool().Draw(t, "new year's eve") {
			year := rapid.IntRange(1900, 2199).Draw(t, "year")
			d, _ := calendar.NewDate(year, 12, 31)
			day = int64(d.DayNumber())
		}
		local := day*86400 + rapid.Int64Range(0, 86399).Draw(t, "second")
		samples, offsets := offsetsAround(z.Location(), local)
		checkResolve(t, z, local, samples, offsets)
	})
}

// A custom zone with the transitions of an IANA zone must agree with it, and one
// with random offsets must agree with the definition.
func TestRuleZone(t *testing.T) {
	for _, name := range []string{"Europe/Berlin", "Australia/Lord_Howe", "Pacific/Apia", "Africa/Casablanca"} {
		z := zone(t, name)
		span := calendar.Span{Start: instant(t, "2000-01-01T00:00:00Z"), End: instant(t, "2038-01-01T00:00:00Z")}
		list := z.Transitions(span)
		first, _ := z.OffsetAt(span.Start)
		own, err := calendar.NewRuleZone("own", calendar.Transition{Offset: first}, list)
		if err != nil {
			t.Fatal(err)
		}
		if !own.Custom() || own.Equal(z) || own.Name() != "own" {
			t.Errorf("%s: the copy calls itself %q, custom %v", name, own.Name(), own.Custom())
		}
		for _, change := range list {
			w := z.Local(change.At)
			for m := -150; m <= 150; m += 15 {
				v := w.AddMinutes(m)
				if a, b := z.Resolve(v), own.Resolve(v); a != b {
					t.Fatalf("%s %s: %+v, copy %+v", name, v, a, b)
				}
			}
		}
	}
}

func TestRuleZoneRandom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 6).Draw(t, "n")
		at := int64(1_790_000_100)
		var list []calendar.Transition
		offset := rapid.IntRange(-56, 56)
		first := calendar.Transition{Offset: 900 * offset.Draw(t, "first")}
		for range n {
			at += 900 * rapid.Int64Range(1, 120).Draw(t, "step")
			list = append(list, calendar.Transition{At: time.Unix(at, 0), Offset: 900 * offset.Draw(t, "offset"), DST: rapid.Bool().Draw(t, "dst")})
		}
		z, err := calendar.NewRuleZone("random", first, list)
		if err != nil {
			t.Fatal(err)
		}
		local := at + 900*rapid.Int64Range(-300, 100).Draw(t, "local")
		samples, offsets := offsetsAround(z.Location(), local)
		checkResolve(t, z, local, samples, offsets)
	})
}

func TestRuleZoneRefused(t *testing.T) {
	at := instant(t, "2026-10-25T01:00:00Z")
	day := calendar.Transition{At: at, Offset: 3600}
	many := make([]calendar.Transition, 10_001)
	kinds := make([]calendar.Transition, 260)
	for i := range kinds {
		kinds[i] = calendar.Transition{At: at.Add(time.Duration(i) * time.Hour), Offset: i}
	}
	for name, c := range map[string]struct {
		zone  string
		first calendar.Transition
		list  []calendar.Transition
	}{
		"no name":      {"", day, nil},
		"offset":       {"x", calendar.Transition{Offset: 86400}, nil},
		"order":        {"x", day, []calendar.Transition{day, day}},
		"abbreviation": {"x", calendar.Transition{Abbrev: "a\x00b"}, nil},
		"fraction":     {"x", day, []calendar.Transition{{At: at.Add(1)}}},
		"too many":     {"x", day, many},
		"kinds":        {"x", day, kinds},
	} {
		if z, err := calendar.NewRuleZone(c.zone, c.first, c.list); err == nil || !z.IsZero() {
			t.Errorf("%s: accepted", name)
		}
	}
}

func TestDaySpan(t *testing.T) {
	for _, c := range []struct {
		zone, date string
		hours      float64
	}{
		{"Europe/Berlin", "2027-03-28", 23},
		{"Europe/Berlin", "2026-10-25", 25},
		{"Europe/Berlin", "2026-10-26", 24},
		{"Australia/Lord_Howe", "2025-10-05", 23.5},
		{"Pacific/Apia", "2011-12-30", 0},
		{"America/Santiago", "2024-09-08", 23},
	} {
		d, _ := calendar.ParseDate(c.date)
		z := zone(t, c.zone)
		s := z.DaySpan(d)
		if got := s.Duration().Hours(); got != c.hours {
			t.Errorf("%s %s: %v h, want %v", c.zone, c.date, got, c.hours)
		}
		if s.Valid() && (calendar.DateOf(s.Start, z) != d || calendar.DateOf(s.Start.Add(-1), z) == d) {
			t.Errorf("%s %s: starts at %v", c.zone, c.date, s.Start)
		}
	}
}

func TestLoadZone(t *testing.T) {
	for _, c := range []struct{ name, remedy string }{
		{"", "name the place, such as Europe/Berlin"},
		{"Local", "name the place, such as Europe/Berlin"},
		{"local", "name the place, such as Europe/Berlin"},
		{"+02:00", "name the place, such as Europe/Berlin"},
		{"UTC+2", "name the place, such as Europe/Berlin"},
		{"GMT-5", "name the place, such as Europe/Berlin"},
		{"Etc/GMT+5", "name the place, such as Europe/Berlin"},
		{"EST", "name the place, such as Europe/Berlin"},
		{"Europe/Berlln", "did you mean Europe/Berlin?"},
		{"europe/berlin", "did you mean Europe/Berlin?"},
		{"EUROPE/BERLIN", "did you mean Europe/Berlin?"},
		{"Berlin", "did you mean Europe/Berlin?"},
		{"New York", "did you mean America/New_York?"},
		{"America/NewYork", "did you mean America/New_York?"},
		{"posix/Europe/Berlin", "did you mean Europe/Berlin?"},
		{"../../etc/passwd", "name the place, such as Europe/Berlin"},
		{"Europe/Berlin\x00", "did you mean Europe/Berlin?"},
		{"Atlantis/Poseidonis", "name the place, such as Europe/Berlin"},
	} {
		z, err := calendar.LoadZone(c.name)
		e, ok := err.(*calendar.ValueError)
		if !ok || !z.IsZero() {
			t.Errorf("%q: accepted, or error %v of another type", c.name, err)
			continue
		}
		if e.Remedy != c.remedy || e.Value != c.name {
			t.Errorf("%q: %v", c.name, e)
		}
	}
	for _, name := range []string{"UTC", "Etc/UTC", "GMT", "Europe/Berlin", "CET", "America/Argentina/Buenos_Aires"} {
		if z, err := calendar.LoadZone(name); err != nil || z.Name() != name {
			t.Errorf("%q: %v", name, err)
		}
	}
}

func BenchmarkResolve(b *testing.B) {
	z := zone(b, "Europe/Berlin")
	for _, c := range []struct{ name, wall string }{
		{"plain", "2026-11-12T19:45"}, {"gap", "2027-03-28T02:30"}, {"overlap", "2026-10-25T02:30"},
	} {
		w := wall(b, c.wall)
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				z.Resolve(w)
			}
		})
	}
}
