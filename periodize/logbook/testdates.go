package logbook

import (
	"slices"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// How tests are placed: every 4 to 8 weeks, never within 48 h before a game or on
// the day after one. Common practice, no source.
const (
	testSoonest   = 28 // dates
	testMiddle    = 42
	testLatest    = 56
	testLateCost  = 1000 // for each date beyond
	testNoLift    = 4    // a date without a lift of its own
	testEasyDate  = 8    // a date that was to be easy
	testLightLift = 2
)

const testBeforeGame = 48 * time.Hour

// Testing says what is to be tested.
type Testing struct {
	Last    calendar.Date // of the test before; unset: none
	Maximal bool          // up to what can be lifted once
	Athlete season.Athlete
}

// TestDate is a date on which a test can stand.
type TestDate struct {
	Date    calendar.Date
	Session string // id of the lift in whose place or at whose begin it stands, "" if there is none
	After   int    // dates since the test before; 0 for the first
	Late    bool   // more than 8 weeks after it: no earlier date was allowed
}

// Pin holds the lift with which a test stands where a plan has it, as a pin that a
// request carries: the season is then planned around it, until the pin is taken out.
// ok is false for a test without a lift, and for a lift that is not of the plan. The
// error is that of a plan without a known zone.
//
// A pin stays when a game moves; what it then breaks is reported with the plan, and
// TestDates should be asked again.
func (d TestDate) Pin(plan *season.Plan) (pin season.Pin, ok bool, err error) {
	if plan == nil || d.Session == "" {
		return season.Pin{}, false, nil
	}
	i := slices.IndexFunc(plan.Sessions, func(s season.Session) bool { return s.ID == d.Session && s.Date == d.Date })
	if i < 0 {
		return season.Pin{}, false, nil
	}
	s := &plan.Sessions[i]
	var start calendar.Clock
	if s.Local != nil {
		start = s.Local.Start.Clock
	} else {
		zone, err := calendar.LoadZone(plan.Zone)
		if err != nil {
			return season.Pin{}, false, err
		}
		start = zone.Local(s.Start).Clock
	}
	return season.Pin{Date: s.Date, Kind: s.Kind, Start: &start, Place: s.Place}, true, nil
}

// TestDates proposes dates for a test in a plan: 4 to 8 weeks apart, as near to 6
// as may be, rather with a full-body session of the plan than without one, never
// within 48 h before a game, on its date or on the day after. Without a session
// the test may end as late as the date does. Where no date within 8 weeks is
// allowed the next one is late. Games that may not take place count as games.
//
// Maximal tests are refused for athletes under 14 or of unknown age and for
// beginners: then there is no date, and a note says why. The error is that of a
// plan without a known zone.
func TestDates(plan *season.Plan, t Testing) (dates []TestDate, refused []season.Note, err error) {
	if plan == nil || plan.Period.Days() == 0 {
		return nil, nil, nil
	}
	zone, err := calendar.LoadZone(plan.Zone)
	if err != nil {
		return nil, nil, err
	}
	age, known := t.Athlete.Born.AgeOn(plan.Period.From)
	if t.Maximal && (!known || age < 14 || t.Athlete.TrainingAgeMonths < 12) {
		return nil, []season.Note{note("test-refused")}, nil
	}
	list := testable(plan, zone)
	// best[i] is the least cost of tests up to and with that on list[i].
	best, from := make([]int, len(list)), make([]int, len(list))
	end := func(last calendar.Date) int { return testLateCost * max(0, plan.Period.To.DaysSince(last)-testLatest) }
	none := 0
	if t.Last.IsZero() {
		none = testLateCost * plan.Period.Days()
	} else {
		none = end(t.Last)
	}
	winner, least := -1, none
	for i, x := range list {
		best[i], from[i] = -1, -1
		if t.Last.IsZero() {
			best[i] = x.Date.DaysSince(plan.Period.From) + x.cost
		} else if c, ok := testGap(x.Date.DaysSince(t.Last)); ok {
			best[i] = c + x.cost
		}
		for j := range i {
			c, ok := testGap(x.Date.DaysSince(list[j].Date))
			if !ok || best[j] < 0 {
				continue
			}
			if c += best[j] + x.cost; best[i] < 0 || c < best[i] {
				best[i], from[i] = c, j
			}
		}
		if best[i] >= 0 && best[i]+end(x.Date) < least {
			winner, least = i, best[i]+end(x.Date)
		}
	}
	for i := winner; i >= 0; i = from[i] {
		x := list[i].TestDate
		before := t.Last
		if from[i] >= 0 {
			before = list[from[i]].Date
		}
		if !before.IsZero() {
			x.After = x.Date.DaysSince(before)
			x.Late = x.After > testLatest
		}
		dates = append([]TestDate{x}, dates...)
	}
	return dates, nil, nil
}

// testGap is what a gap between two tests costs; ok is false for one too short.
func testGap(dates int) (cost int, ok bool) {
	if dates < testSoonest {
		return 0, false
	}
	off := dates - testMiddle
	return max(off, -off) + testLateCost*max(0, dates-testLatest), true
}

type candidate struct {
	TestDate
	cost int
}

// testable are the dates on which a test is allowed.
func testable(plan *season.Plan, zone calendar.Zone) (out []candidate) {
	games := map[calendar.Date]bool{}
	for _, g := range plan.Games {
		games[g.Date] = true
	}
	lifts := map[calendar.Date]*season.Session{}
	easy := map[calendar.Date]bool{}
	for i := range plan.Sessions {
		s := &plan.Sessions[i]
		switch {
		case !s.Kind.Lift():
			easy[s.Date] = true
		case s.Kind != season.PostGame && (lifts[s.Date] == nil || s.Kind == season.FullBody):
			lifts[s.Date] = s
		}
	}
	for i := range plan.Period.Days() {
		d := plan.Period.From.AddDays(i)
		if games[d] || games[d.AddDays(-1)] || !plan.Now.Before(zone.DayStart(d.AddDays(1))) {
			continue
		}
		x := candidate{TestDate{Date: d}, testNoLift}
		ends := zone.DayStart(d.AddDays(1))
		if s := lifts[d]; s != nil {
			x.Session, ends, x.cost = s.ID, s.End, testLightLift
			if s.Kind == season.FullBody {
				x.cost = 0
			}
		} else if easy[d] {
			x.cost = testEasyDate
		}
		near := false
		for _, g := range plan.Games {
			gap := g.Start.Sub(ends)
			near = near || gap >= 0 && gap < testBeforeGame
		}
		if !near {
			out = append(out, x)
		}
	}
	return out
}
