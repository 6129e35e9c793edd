package logbook_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

func practice(minutes int, rating load.SessionRating) logbook.Practice {
	return logbook.Practice{Minutes: logbook.Told(minutes), Rating: logbook.Told(rating)}
}

func lift(minutes int, rating load.SessionRating) logbook.Session {
	return logbook.Session{Session: season.FullBody, State: logbook.Done, Minutes: logbook.Told(minutes), Rating: logbook.Told(rating)}
}

// foster is the worked week 300, 480, 0, 450, 120, 630, 0 of Foster 1998 and Foster
// et al. 2001: monotony 1.133 and strain 2243 with the sample deviation, 1.223 and
// 2422 with that of the population (derived from the definition).
func foster() []logbook.Entry {
	return []logbook.Entry{
		entry("mon", "2026-11-16", practice(60, 5)),
		entry("tue-a", "2026-11-17T07:30", lift(50, 6)), entry("tue-b", "2026-11-17", practice(30, 6)),
		entry("wed", "2026-11-18T17:00", logbook.Session{Session: season.Recovery, State: logbook.Missed}),
		entry("thu", "2026-11-19", practice(90, 5)),
		entry("fri", "2026-11-20T17:00", logbook.Session{Session: season.Primer, State: logbook.Done, Minutes: logbook.Told(40), Rating: logbook.Told(load.SessionRating(3))}),
		entry("sat", "2026-11-21", logbook.Game{Minutes: logbook.Told(70), Rating: logbook.Told(load.SessionRating(9))}),
	}
}

func near(got logbook.Maybe[float64], want float64) bool {
	return got.Known && math.Abs(got.Value-want) <= 5e-4*want
}

func TestWeekOfLoads(t *testing.T) {
	v := newLog(t, foster()...).View("")
	o := logbook.LoadOptions{Setting: logbook.Setting{Today: day("2026-11-22")}, Period: season.Period{From: day("2026-11-16"), To: day("2026-11-22")}}
	p := v.Loads(o)
	if w := p.Weeks[0]; len(p.Weeks) != 1 || w.Missing != 1 || w.Monotony.Known || w.Strain.Known || w.Total.Least != 1980 || !w.Total.Open || !p.Days[6].Missing {
		t.Errorf("with a date of which nothing is told: %+v", w)
	}
	o.EmptyIsRest = true
	for _, c := range []struct {
		divisor          load.Divisor
		monotony, strain float64
	}{{load.Sample, 1.133, 2243}, {load.Population, 1.223, 2422}} {
		o.Divisor = c.divisor
		w := v.Loads(o).Weeks[0]
		if !w.Total.Known() || w.Total.Most != 1980 || w.Missing != 0 || !near(w.Monotony, c.monotony) ||
			math.Abs(float64(w.Strain.Value)-c.strain) > 0.5 || w.Lifts.Most != 420 || w.Practices.Most != 930 || w.Games.Most != 630 {
			t.Errorf("%+v", w)
		}
	}
	sunday := time.Sunday
	o.Week = &sunday
	if w := v.Loads(o).Weeks; len(w) != 2 || w[0].From != day("2026-11-15") || w[0].Missing != 1 || w[1].Missing != 6 {
		t.Errorf("weeks from Sunday: %+v", w)
	}
}

func TestWhatIsNotToldIsBounded(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	event, err := calendar.Place(calendar.Event{ID: "e", Kind: calendar.Practice, Zone: z, Start: wall("2026-11-17T18:00"), End: wall("2026-11-17T19:20"), HasEnd: true}, calendar.Assumptions{})
	if err != nil {
		t.Fatal(err)
	}
	issued := []season.Session{{ID: "p", Kind: season.FullBody, Date: day("2026-11-17"), Minutes: 55}}
	unrated := logbook.Practice{Event: "e", Minutes: logbook.Told(70)}
	ended := entry("x", "2026-11-17T18:00", logbook.Practice{Event: "e", Rating: logbook.Told(load.SessionRating(4))})
	ended.End, ended.HasEnd = wall("2026-11-17T19:15"), true
	for _, c := range []struct {
		name    string
		entries []logbook.Entry
		want    logbook.Range // of the practice and the session together
		missing bool
	}{
		{"nothing told", nil, logbook.Range{Most: 800 + 550}, true},
		{"no rating", []logbook.Entry{entry("x", "2026-11-17", unrated)}, logbook.Range{Most: 700 + 550}, true},
		{"no minutes", []logbook.Entry{entry("x", "2026-11-17", logbook.Practice{Event: "e", Rating: logbook.Told(load.SessionRating(4))})}, logbook.Range{Most: 320 + 550}, true},
		{"minutes from start and end", []logbook.Entry{ended, entry("y", "2026-11-17T12:00", logbook.Session{Planned: "p", Session: season.FullBody, State: logbook.Missed})}, logbook.Range{Least: 300, Most: 300}, false},
		{"not there at all", []logbook.Entry{entry("x", "2026-11-17", logbook.Practice{Event: "e", Minutes: logbook.Told(0)}),
			entry("y", "2026-11-17T12:00", logbook.Session{Planned: "p", Session: season.FullBody, State: logbook.Missed})}, logbook.Range{}, false},
		{"nobody knows of the session", []logbook.Entry{entry("x", "2026-11-17", practice(60, 5)),
			entry("y", "2026-11-17T12:00", logbook.Session{Planned: "p", Session: season.FullBody, State: logbook.Unknown})}, logbook.Range{Least: 300, Most: 300 + 800 + 550}, true},
		{"two tell different things", []logbook.Entry{
			entry("x", "2026-11-17", logbook.Practice{Event: "e", Minutes: logbook.Told(60), Rating: logbook.Told(load.SessionRating(4))}),
			entry("y", "2026-11-17", logbook.Practice{Event: "e", Minutes: logbook.Told(60), Rating: logbook.Told(load.SessionRating(6))}),
			entry("z", "2026-11-17T12:00", logbook.Session{Planned: "p", Session: season.FullBody, State: logbook.Missed})}, logbook.Range{Least: 240, Most: 360}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := logbook.LoadOptions{Setting: logbook.Setting{Today: day("2026-11-18"), Issued: issued, Events: []calendar.Placed{event}},
				Period: season.Period{From: day("2026-11-17"), To: day("2026-11-17")}}
			d := newLog(t, c.entries...).View("").Loads(o).Days[0]
			if d.Total != c.want || d.Missing != c.missing || d.Rest != (!c.missing && c.want.Most == 0) {
				t.Errorf("%+v, want %+v", d, c.want)
			}
		})
	}
}

// Weekly totals 3, 3, 3, 5 in hundreds, spread evenly: coupled 1.429 (Williams et
// al. 2017, BJSM 51:209-210, seen for the result; the days are our inference).
func TestRatioOnlyIfAsked(t *testing.T) {
	var entries []logbook.Entry
	for i := range 28 {
		minutes := 60
		if i >= 21 {
			minutes = 100
		}
		d := day("2026-10-26").AddDays(i)
		entries = append(entries, entry(d.String(), d.String(), practice(minutes, 5)))
	}
	v := newLog(t, entries...).View("")
	if p := v.Loads(logbook.LoadOptions{}); p.Weeks[3].Ratio.Known || len(p.Notes) != 0 || p.Weeks[3].Monotony.Known {
		t.Errorf("not asked for: %+v %v", p.Weeks[3], p.Notes)
	}
	p := v.Loads(logbook.LoadOptions{Ratio: true})
	if !near(p.Weeks[3].Ratio, 1.429) || p.Weeks[2].Ratio.Known || len(p.Notes) != 1 || p.Notes[0].Code != "load-ratio" {
		t.Errorf("asked for: %+v %v", p.Weeks, p.Notes)
	}
	gap := newLog(t, entries[1:]...).View("")
	if p := gap.Loads(logbook.LoadOptions{Ratio: true, Period: season.Period{From: day("2026-10-26"), To: day("2026-11-22")}}); p.Weeks[3].Ratio.Known {
		t.Errorf("a date is missing: %+v", p.Weeks[3])
	}
}

func ExampleView_Loads() {
	p := diary(foster()...).Loads(logbook.LoadOptions{Period: season.Period{From: day("2026-11-16"), To: day("2026-11-22")},
		Setting: logbook.Setting{Today: day("2026-11-22")}, EmptyIsRest: true})
	for _, d := range p.Days[:3] {
		fmt.Println(d.Date, "lifts", d.Lifts.Most, "practices", d.Practices.Most, "games", d.Games.Most, "known", d.Total.Known())
	}
	w := p.Weeks[0]
	fmt.Printf("%s: %.0f, monotony %.2f, strain %.0f\n", w.From, float64(w.Total.Most), w.Monotony.Value, float64(w.Strain.Value))
	// Output:
	// 2026-11-16 lifts 0 practices 300 games 0 known true
	// 2026-11-17 lifts 300 practices 180 games 0 known true
	// 2026-11-18 lifts 0 practices 0 games 0 known true
	// 2026-11-16: 1980, monotony 1.13, strain 2243
}
