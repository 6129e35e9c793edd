package handout_test

import (
	"fmt"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/handout"
	"example.org/weft/periodize/season"
)

// day is a date of November 2026.
func day(n int) calendar.Date {
	d, err := calendar.NewDate(2026, 11, n)
	if err != nil {
		fmt.Println(err)
	}
	return d
}

// body prints a sheet without what every sheet has at its foot.
func body(s handout.Sheet, err error) {
	if err != nil {
		fmt.Println(err)
		return
	}
	text, _, _ := strings.Cut(s.Text(), "\n- Pain")
	fmt.Println(text)
}

func ExampleBook_Month() {
	body(book(twoWeeks).Month(day(20)))
	// Output:
	// NOVEMBER 2026
	// a7  (invented example)
	// ================================================================================
	// 3 games, 10 sessions: 2 full-body, 1 trimmed full-body, 3 primer, 4 recovery.
	//
	//   Mon 16  17:00-17:35 primer
	//   Tue 17  19:30-21:15 GAME Tornby, home
	//   Wed 18  17:00-17:40 recovery
	//   Thu 19  17:00-17:45 trimmed full-body
	//           18:30-20:00 hard practice
	//   Fri 20  17:00-17:35 primer
	//   Sat 21  18:00-19:45 GAME at Solager
	//   Sun 22  10:00-10:40 recovery
	//
	//   Mon 23  17:00-17:55 full-body
	//   Tue 24  17:00-17:40 recovery
	//   Wed 25  -
	//   Thu 26  17:00-17:55 full-body
	//   Fri 27  17:00-17:35 primer
	//   Sat 28  18:00-19:45 GAME Dunmose, home
	//   Sun 29  10:00-10:40 recovery
	//
	//
	// Key  full-body: strength for the whole body, the most work; trimmed full-body:
	//      the same with one set less; primer: short and fast, fresh at the end;
	//      recovery: easy
}

func ExampleBook_Week() {
	body(book(twoWeeks).Week(day(24)))
	// Output:
	// WEEK 23-29 NOV 2026
	// a7  (invented example)
	// ================================================================================
	// 1 game, 5 sessions: 2 full-body, 1 primer, 2 recovery.
	//   Mon 23 Nov  [ ] 17:00-17:55  full-body          55 min, 120 h to Dunmose,
	//                                                   first full-body of the week
	//   Tue 24 Nov  [ ] 17:00-17:40  recovery           40 min, 96 h to Dunmose, easy
	//                                                   work of the week
	//   Wed 25 Nov  free
	//   Thu 26 Nov  [ ] 17:00-17:55  full-body          55 min, 48 h to Dunmose,
	//                                                   second full-body of the week
	//   Fri 27 Nov  [ ] 17:00-17:35  primer             35 min, 24 h to Dunmose, fresh
	//                                                   for the game
	//   Sat 28 Nov      18:00-19:45  GAME               Dunmose, home
	//   Sun 29 Nov  [ ] 10:00-10:40  recovery           40 min, the day after the game
	//
	// Key  full-body: strength for the whole body, the most work; primer: short and
	//      fast, fresh at the end; recovery: easy
}

func ExampleBook_Coach() {
	body(book(twoWeeks).Coach(day(16)))
	// Output:
	// FOR THE HEAD COACH, 16-29 NOV 2026
	// a7  (invented example)
	// ================================================================================
	// 3 games, 10 sessions: 2 full-body, 1 trimmed full-body, 3 primer, 4 recovery.
	// Game                            Last heavy leg work ends  Primer
	// Tue 17 Nov 19:30 Tornby, home   none planned              Mon 17:00-17:35
	// Sat 21 Nov 18:00 at Solager     48 h before, Thu 17:45    Fri 17:00-17:35
	// Sat 28 Nov 18:00 Dunmose, home  48 h before, Thu 17:55    Fri 17:00-17:35
	//
	// IN THE GYM
	// 16-22 Nov     Mon 17:00 primer; Wed 17:00 recovery; Thu 17:00 trimmed full-body;
	//               Fri 17:00 primer; Sun 10:00 recovery
	// 23-29 Nov     Mon 17:00 full-body; Tue 17:00 recovery; Thu 17:00 full-body; Fri
	//               17:00 primer; Sun 10:00 recovery
	//
	// COULD NOT BE HAD
	// - a second full-body session: enough lifts in 7 dates; it is a game date
	//
	// Key  full-body: strength for the whole body, the most work; trimmed full-body:
	//      the same with one set less; primer: short and fast, fresh at the end;
	//      recovery: easy
}

func ExampleBook_Parent() {
	body(book(twoWeeks).Parent(day(16)))
	// Output:
	// FOR PARENTS, 16-22 NOV 2026
	// a7  (invented example)
	// ================================================================================
	// Gym           Mon 17:00-17:35
	//               Wed 17:00-17:40
	//               Thu 17:00-17:45
	//               Fri 17:00-17:35
	//               Sun 10:00-10:40
	// Games         Tue 19:30
	//               Sat 18:00
	// Missed sessions are not made up. Questions? Ask the coach.
	//
	// Key  Gym: strength or easy recovery, with a coach
}

// A game moves; the slip says what that changes.
func ExampleBook_Slip() {
	req, err := season.ReadRequest(strings.NewReader(twoWeeks))
	if err != nil {
		fmt.Println(err)
		return
	}
	first := plan(req)
	next, err := season.Apply(*req, season.Move("g9", "2026-11-28T12:00"))
	if err != nil {
		fmt.Println(err)
		return
	}
	next.Issued = []season.Plan{*first}
	b, err := handout.New(&next, plan(&next), handout.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	body(b.Slip(), nil)
	// Output:
	// CHANGE OF PLAN
	// a7
	// ================================================================================
	//
	// NEWS
	// - Dunmose moves from Sat 28 Nov 2026 18:00 to Sat 28 Nov 2026 12:00.
	//
	// WHAT CHANGES
	// What                As handed out       Now                  Because
	// full-body becomes   Thu 26 Nov          Thu 26 Nov           the next game is
	// trimmed full-body   17:00-17:55         17:00-17:45          too near (Dunmose,
	//                                                              Sat 28 Nov)
	// 9 sessions as before.
	//
	// TELL
	// - the athlete
	// - gym: no longer Thu 26 Nov 17:00-17:55; now Thu 26 Nov 17:00-17:45
	//
	// Key  full-body: strength for the whole body, the most work; trimmed full-body:
	//      the same with one set less
}

// The card of a session has the exercises of package exercise and boxes for what
// was done.
func ExampleBook_Session() {
	req, err := season.ReadRequest(strings.NewReader(twoWeeks))
	if err != nil {
		fmt.Println(err)
		return
	}
	p := plan(req)
	_, cards, err := exercise.Builder{}.Season(*p, exercise.Club{Athlete: req.Athlete})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := handout.New(req, p, handout.Options{Name: "Athlete 7"})
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := b.Session(cards[0])
	fmt.Println(err, s.Title(), s.Pages())
	fmt.Println(strings.Contains(s.Text(), "[____ kg x ___]"), strings.Contains(s.HTML(), "Afterwards"))
	// Output:
	// <nil> Primer 1
	// true true
}

func ExampleBook_Season() {
	s := book(twoWeeks).Season()
	fmt.Println(s.Title(), s.Pages(), strings.Count(s.Fragment(), "<svg viewBox=\"0 0 342"))
	// Output:
	// Season strip 1 1
}

func ExampleBook_CSV() {
	for _, row := range strings.Split(book(twoWeeks).CSV(), "\r\n")[:3] {
		fmt.Println(row)
	}
	// Output:
	// date,weekday,start,end,zone,kind,what,minutes,place,status,importance,id
	// 2026-11-16,Mon,17:00,17:35,Europe/Berlin,session,primer,35,gym,,,2026-11-16-primer
	// 2026-11-17,Tue,19:30,21:15,Europe/Berlin,game,"Tornby, home",,,confirmed,unknown,g7
}

func ExamplePhysio() {
	note := season.Note{Text: "left groin 3 of 10 on Tue 17 Nov: what loads the adductors is out"}
	body(handout.Physio(day(17), handout.PhysioCase{Book: book(twoWeeks), Notes: []season.Note{note}}))
	// Output:
	// FOR THE PHYSIOTHERAPIST, TUE 17 NOV 2026
	// all athletes  (invented example)
	// ================================================================================
	// For the physiotherapist only: not for walls, chats or other staff.
	// Athlete  What is known
	// a7       Left groin 3 of 10 on Tue 17 Nov: what loads the adductors is out.
	//
	// Key  of 10: as the athlete says it: 0 nothing, 10 the worst
}

// A squad on the wall: who trains when, and no reasons.
func ExampleNewWall() {
	w, err := handout.NewWall("Example Harriers", day(23), day(24), book(twoWeeks))
	if err != nil {
		fmt.Println(err)
		return
	}
	w.Entries = append(w.Entries, handout.WallEntry{
		Athlete: "b4", Date: day(23), From: 17 * 3600, To: 17*3600 + 55*60, Kind: season.FullBody, Place: "gym", Modified: true,
	})
	body(w.Sheet(), nil)
	// Output:
	// GYM
	// Example Harriers  (invented example)
	// ================================================================================
	// Mon 23 Nov  17:00-17:55  full-body  gym
	//     a7
	//     b4 modified
	//
	// Key  full-body: strength for the whole body, the most work; modified: not as
	//      written: see your own card
}

func ExampleSlots() {
	fmt.Print(handout.Slots([]handout.Slot{
		{Date: day(19), From: 16 * 3600, To: 16*3600 + 45*60, Kind: season.FullBody, Places: 4, Athletes: []handout.Label{"a7", "b4", "c9"}},
		{Date: day(19), From: 17 * 3600, To: 17*3600 + 45*60, Kind: season.Primer, Places: 1, Athletes: []handout.Label{"d2", "e5"}},
	}).Text())
	// Output:
	// PLACES IN THE HALL
	//
	// Slot                    Session    Taken               Who
	// Thu 19 Nov 16:00-16:45  full-body  3 of 4              a7, b4, c9
	// Thu 19 Nov 17:00-17:45  primer     2 of 1, 1 too many  d2, e5
}

// Maximal strength lasts about 30 days, 5 more or less, speed 5 and 3 (see
// package load).
func ExampleRetentionBands() {
	fmt.Print(handout.RetentionBands(day(17), []handout.Retention{
		{Quality: "maximal strength", Last: day(12), Early: day(12).AddDays(25), Late: day(12).AddDays(35)},
		{Quality: "maximal speed", Last: day(11), Early: day(13), Late: day(19)},
		{Quality: "aerobic endurance"},
	}).Text())
	// Output:
	// HOW LONG IT LASTS
	//
	// Quality            Last trained   Held until  Fading until  Now
	// maximal strength   12 Nov         7 Dec       17 Dec        held
	// maximal speed      11 Nov         13 Nov      19 Nov        fading
	// aerobic endurance  no date known  -           -             not known
}

func ExampleWeekLoads() {
	fmt.Print(handout.WeekLoads([]handout.WeekLoad{
		{From: day(9), Loads: []handout.SourceLoad{{Source: handout.FromGames, Load: 640}, {Source: handout.FromPractice, Load: 1150, Unknown: 1}, {Source: handout.FromGym, Load: 430}}},
		{From: day(16), Loads: []handout.SourceLoad{{Source: handout.FromGames, Load: 1290}, {Source: handout.FromGym, Load: 320}}},
	}).Text())
	// Output:
	// LOAD BY WEEK
	//
	// Week from  Games  Practice  Gym  Elsewhere  Known  Without a load
	// 9 Nov      640    1150      430  0          2220   1
	// 16 Nov     1290   0         320  0          1610   0
}

func ExampleDocument() {
	b := book(twoWeeks)
	week, err := b.Week(day(16))
	if err != nil {
		fmt.Println(err)
		return
	}
	doc := handout.Document("Two sheets", b.Season(), week)
	fmt.Println(strings.Count(doc, "<section class=\"sheet"), strings.Contains(doc, "<script"), strings.Contains(doc, "http:"))
	// Output:
	// 2 false false
}

func ExampleWall_Hall() {
	w := handout.Wall{Team: "U18", Zone: "Europe/Oslo", Rules: "1", From: day(19), To: day(20), Plans: []handout.Label{"p1"}, Example: true}
	s := w.Hall("weights room",
		handout.Slot{Date: day(20), From: 16 * 3600, To: 17 * 3600, Places: 3},
		handout.Slot{Date: day(19), From: 16 * 3600, To: 17 * 3600, Kind: season.FullBody, Places: 3, Athletes: []handout.Label{"a7", "b4"}})
	fmt.Println(s.Title(), s.Pages())
	fmt.Println(strings.Contains(s.Text(), "Fri 20 Nov 16:00-17:00  free       0 of 3"))
	// Output:
	// Hall: weights room 1
	// true
}
