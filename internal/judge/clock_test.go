package judge

import (
	"slices"
	"testing"
)

// Journeys over the date line. Instants are counted by hand from the rules of the
// IANA zones: Honolulu UTC-10 all year, Auckland UTC+13 in February.
const (
	honolulu = -10 * 3600
	auckland = 13 * 3600
)

// saturday is 2027-02-20, a Saturday, as a day number: 20003 is 2024-10-07.
const saturday = 20003 + 866

func utcMinute(day, hour, minute int) int64 { return int64(day)*1440 + int64(hour*60+minute) }

// east: Auckland, then from a landing on Saturday 07:45 (17:45 UTC) on Honolulu.
func east() []Offset {
	return []Offset{{utcMinute(saturday-30, 0, 0), auckland}, {utcMinute(saturday, 17, 45), honolulu}}
}

// west: Honolulu, then from a landing on Monday 06:55 (Sunday 17:55 UTC) on
// Auckland.
func west() []Offset {
	return []Offset{{utcMinute(saturday-30, 0, 0), honolulu}, {utcMinute(saturday+1, 17, 55), auckland}}
}

func TestDateAt(t *testing.T) {
	// From Sunday 08:00 in Auckland (Saturday 19:00 UTC) on the clock is that of
	// Honolulu, where it is Saturday 09:00 again.
	late := []Offset{{utcMinute(saturday-30, 0, 0), auckland}, {utcMinute(saturday, 19, 0), honolulu}}
	for _, c := range []struct {
		name    string
		offsets []Offset
		at      int64
		want    int
	}{
		{"Saturday begins in Auckland", east(), utcMinute(saturday-1, 11, 0), saturday},
		{"a minute before", east(), utcMinute(saturday-1, 10, 59), saturday - 1},
		{"east: Sunday 00:00 in Auckland, in the air", east(), utcMinute(saturday, 11, 0), saturday},
		{"east: landed on Saturday", east(), utcMinute(saturday, 17, 45), saturday},
		{"east: the end of Saturday in Honolulu", east(), utcMinute(saturday+1, 9, 59), saturday},
		{"east: Sunday", east(), utcMinute(saturday+1, 10, 0), saturday + 1},
		{"west: the evening of departure", west(), utcMinute(saturday+1, 9, 59), saturday},
		{"west: Sunday by the clock of departure", west(), utcMinute(saturday+1, 10, 0), saturday + 1},
		{"west: a minute before landing", west(), utcMinute(saturday+1, 17, 54), saturday + 1},
		{"west: landed on Monday", west(), utcMinute(saturday+1, 17, 55), saturday + 2},
		{"Sunday morning before a second Saturday", late, utcMinute(saturday, 18, 0), saturday},
		{"the second Saturday", late, utcMinute(saturday, 19, 0), saturday},
		{"and its end", late, utcMinute(saturday+1, 9, 59), saturday},
		{"Sunday at last", late, utcMinute(saturday+1, 10, 0), saturday + 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := dateAt(clocksOf(c.offsets), c.at); got != c.want {
				t.Errorf("date %d, want %d", got-saturday, c.want-saturday)
			}
		})
	}
}

// dateAt by its definition, minute by minute.
func TestDateAtBrute(t *testing.T) {
	for _, offsets := range [][]Offset{east(), west()} {
		clocks := clocksOf(offsets)
		least := saturday + 5
		for at := utcMinute(saturday+4, 0, 0); at >= utcMinute(saturday-4, 0, 0); at-- {
			seconds := offsets[0].Seconds
			if at >= offsets[1].From {
				seconds = offsets[1].Seconds
			}
			least = min(least, int((at*60+int64(seconds))/daySeconds))
			if got := dateAt(clocks, at); got != least {
				t.Fatalf("minute %d: date %d, want %d", at-utcMinute(saturday, 0, 0), got-saturday, least-saturday)
			}
			if d := dateAt(clocks, at); at < dateStart(clocks, d) || at >= dateStart(clocks, d+1) {
				t.Fatalf("minute %d: outside its date", at-utcMinute(saturday, 0, 0))
			}
		}
	}
}

// flight is travel by instants; its date does not matter here.
func flight(from, to int64) Event {
	return Event{Kind: Travel, Start: from, End: to, Date: saturday, StartClock: 1320, EndClock: 1500}
}

func TestLostDates(t *testing.T) {
	landing := utcMinute(saturday+1, 17, 55)
	for _, c := range []struct {
		name    string
		offsets []Offset
		events  []Event
		want    []int // from Saturday on
	}{
		// Sunday begins in the air, 10:00 UTC, and is over with the landing.
		{"west", west(), []Event{flight(utcMinute(saturday+1, 8, 0), landing)}, []int{1}},
		{"west, with a game on it", west(), []Event{flight(utcMinute(saturday+1, 8, 0), landing),
			{Kind: Game, Start: landing - 90, End: landing, Date: saturday + 1}}, nil},
		{"west, two hours of it at the airport", west(), []Event{flight(utcMinute(saturday+1, 12, 0), landing)}, nil},
		{"west, one minute less", west(), []Event{flight(utcMinute(saturday+1, 11, 59), landing)}, []int{1}},
		{"no trip between zones", west()[:1], []Event{flight(landing-40*60, landing)}, nil},
		{"east: no date is lost", east(), []Event{flight(utcMinute(saturday, 9, 0), utcMinute(saturday, 17, 45))}, nil},
		// Samoa moved over the date line and had no 30 December 2011.
		{"a date that the clock skips", []Offset{{utcMinute(saturday-30, 0, 0), -10 * 3600}, {utcMinute(saturday, 10, 0), 14 * 3600}}, nil, []int{0}},
		{"no clock", nil, []Event{flight(landing-40*60, landing)}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			in := Input{From: saturday - 5, To: saturday + 8, Events: c.events, Offsets: c.offsets}
			var got []int
			for d := range newSeason(in, Default()).lost {
				got = append(got, d-saturday)
			}
			slices.Sort(got)
			if !slices.Equal(got, c.want) {
				t.Errorf("lost %v, want %v", got, c.want)
			}
		})
	}
}

// A lost date makes no empty date, and parts no lifts of a minor.
func TestLostDateInRuns(t *testing.T) {
	in := with(func(in *Input) { in.Athlete.BornYear = 2010 })
	in.From, in.To = saturday-3, saturday+3
	in.Events = []Event{flight(utcMinute(saturday+1, 8, 0), utcMinute(saturday+1, 17, 55))}
	in.Offsets = west()
	lift := func(date int, start int64) Session {
		return Session{Kind: Primer, Start: start, End: start + 35, Date: date, StartClock: 600, EndClock: 635}
	}
	// Saturday 10:00 in Honolulu is 20:00 UTC; Monday 10:00 in Auckland is Sunday
	// 21:00 UTC: 25 h apart, and no date lived between them.
	in.Sessions = []Session{lift(saturday, utcMinute(saturday, 20, 0)), lift(saturday+2, utcMinute(saturday+1, 21, 0))}
	v := judge(t, in)
	if got := breaking(v, MinorLiftDates); !slices.Equal(got, []int{1}) {
		t.Errorf("lifts on neighbouring dates: %v", got)
	}
	in.Offsets = nil
	if got := breaking(judge(t, in), MinorLiftDates); len(got) > 0 {
		t.Errorf("with no clock: %v", got)
	}
	in.Offsets, in.Sessions = west(), nil
	if got := missing(judge(t, in), EmptyRun); len(got) != 3 || got[0].From != saturday-3 || got[0].To != saturday || got[2].Got != 6 {
		t.Errorf("empty dates: %+v", got)
	}
}

// The date of a session follows from the clock.
func TestDateOfSession(t *testing.T) {
	in := with()
	in.From, in.To, in.Offsets = saturday-3, saturday+3, east()
	in.Sessions = []Session{{Kind: Recovery, Start: utcMinute(saturday, 11, 30), End: utcMinute(saturday, 12, 0), Date: saturday + 1}}
	problems := Check(in, Default())
	if len(problems) != 1 || problems[0].Path != "Sessions[0].Date" {
		t.Errorf("problems %+v", problems)
	}
	in.Sessions[0].Date = saturday // it comes again
	if problems := Check(in, Default()); len(problems) > 0 {
		t.Errorf("problems %+v", problems)
	}
}
