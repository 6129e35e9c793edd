package judge

import (
	"slices"
	"testing"
)

// monday is 2024-10-07; tests count dates from it, in a zone without offset.
const monday = 20003

const far = int64(1) << 30

func instant(day, hours, minutes int) int64 {
	return int64(monday+day)*1440 + int64(hours*60+minutes)
}

// ses is a session of that many minutes.
func ses(kind Kind, day, hours, minutes, length int) Session {
	start := hours*60 + minutes
	return Session{
		Kind: kind, Start: instant(day, hours, minutes), End: instant(day, hours, minutes+length),
		Date: monday + day, StartClock: start, EndClock: start + length,
	}
}

func forced(s Session) Session {
	s.Forced = true
	return s
}

// ev is an event of that many minutes.
func ev(kind EventKind, day, hours, minutes, length int) Event {
	start := hours*60 + minutes
	return Event{
		Kind: kind, Start: instant(day, hours, minutes), End: instant(day, hours, minutes+length),
		Date: monday + day, StartClock: start, EndClock: start + length,
	}
}

func game(day, hours, minutes int) Event { return ev(Game, day, hours, minutes, 120) }

func important(e Event) Event {
	e.Important = true
	return e
}

func dateOnly(day int) Event {
	e := ev(Game, day, 9, 0, 13*60)
	e.DateOnly = true
	return e
}

type edit func(*Input)

// born sets an age of that many years, with the birthday half a year away.
func born(years int) edit {
	return func(in *Input) { in.Athlete.BornYear, in.Athlete.BornMonth = 2024-years, 3 }
}

func months(n int) edit        { return func(in *Input) { in.Athlete.TrainingAgeMonths = n } }
func optedIn(in *Input)        { in.Athlete.PostGame = true }
func ageless(in *Input)        { in.Athlete.AgeKnown = false }
func until(day int) edit       { return func(in *Input) { in.To = monday + day } }
func from(day int) edit        { return func(in *Input) { in.From = monday + day } }
func prefer(clock ...int) edit { return func(in *Input) { in.PreferredStart = clock } }

// with is four weeks of an adult with three years of training and everything
// open, changed and filled by the items.
func with(items ...any) Input {
	in := Input{
		From: monday, To: monday + 27, FirstWeekday: 1,
		Athlete:     Athlete{BornYear: 1998, BornMonth: 3, AgeKnown: true, TrainingAgeMonths: 36},
		AthleteOpen: []Span{{-far, far}},
		PlaceOpen:   [][]Span{{{-far, far}}},
	}
	for _, item := range items {
		switch x := item.(type) {
		case Event:
			in.Events = append(in.Events, x)
		case Session:
			in.Sessions = append(in.Sessions, x)
		case func(*Input):
			x(&in)
		case edit:
			x(&in)
		default:
			panic("unknown item")
		}
	}
	return in
}

func judge(t *testing.T, in Input) Verdict {
	t.Helper()
	v, err := Judge(in, Default())
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// breaking returns the sessions in breach of a rule.
func breaking(v Verdict, rule string) []int {
	var sessions []int
	for _, b := range slices.Concat(v.Illegal, v.Breaches) {
		if b.Rule == rule {
			sessions = append(sessions, b.Session)
		}
	}
	slices.Sort(sessions)
	return sessions
}

// missing returns the misses of an aim.
func missing(v Verdict, aim string) []Miss {
	var misses []Miss
	for _, m := range v.Misses {
		if m.Aim == aim {
			misses = append(misses, m)
		}
	}
	return misses
}

func pointsOf(v Verdict, rule string) int64 {
	for _, c := range v.ByRule {
		if c.Rule == rule {
			return c.Points
		}
	}
	return 0
}
