package logbook_test

import (
	"fmt"
	"os"
	"strings"
	"time"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/exercise"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
)

// table is a log of an invented athlete.
const table = `kind,id,date,time,planned,session,of,exercise,load,reps,left,rating,minutes
session,s1,2026-11-10,17:00,p1,full-body,,,,,,7,55
set,,,,,,s1,back-squat,100 kg,5,3,,
set,,,,,,s1,back-squat,100 kg,5,3,,
set,,,,,,s1,back-squat,100 kg,5,4,,
game,g1,2026-11-14,19:30,,,,,,,,8,62
`

func readTable() logbook.Log {
	berlin, err := calendar.LoadZone("Europe/Berlin")
	if err != nil {
		fmt.Println(err)
	}
	told := time.Unix(1_794_902_400, 0) // 2026-11-17 08:00 UTC
	log, _, err := logbook.Reader{Athlete: "a7", Zone: berlin, Recorded: told, Now: told}.CSV(strings.NewReader(table), "log.csv")
	if err != nil {
		fmt.Println(err) // every problem, each with line, column, value and remedy
	}
	return log
}

// A table is read, and says what the next load is and why.
func Example() {
	given := logbook.Given{
		Today:   calendar.DateFromDayNumber(20_775), // 2026-11-18
		Athlete: season.Athlete{Born: season.YearMonth{Year: 1999, Month: 5}, TrainingAgeMonths: 50},
		Kit:     exercise.Gym(),
		Cards:   []exercise.Card{card("p1", "back-squat", 3, 5, 2)}, // three sets of five, two to be left
	}
	lifts, _, err := readTable().View("a7").Progress(given)
	if err != nil {
		fmt.Println(err)
	}
	for _, l := range lifts {
		fmt.Println(l.Exercise, l.Step, l.Next.Value)
		fmt.Println(l.Why.Text)
		fmt.Println(l.Basis.Text)
		fmt.Println(l.Estimate.Evidence.String())
	}
	// Output:
	// back-squat advance 102.5 kg
	// 3 x 5 at 100 kg done on 2026-11-10, the hardest set 100 kg x 5, 3 left, more than the 2 to be left: the smallest step up, 102.5 kg
	// estimate 126.7 kg (113 kg to 140.3 kg) by epley, the newest from 100 kg x 5, 3 left on 2026-11-10, 8 days ago; sessions taken together: 1
	// 100 kg x 5, 3 left
}

// The bounds of what can be known are shown, and asked once.
func ExampleView_Tally() {
	log := readTable()
	berlin, _ := calendar.LoadZone("Europe/Berlin")
	from := calendar.DateFromDayNumber(20_766) // Monday, 2026-11-09
	thursday := berlin.DayStart(from.AddDays(3)).Add(17 * time.Hour)
	tally := log.View("a7").Tally(logbook.Past{
		Period:  season.Period{From: from, To: from.AddDays(6)},
		Planned: []season.Session{{ID: "p2", Kind: season.FullBody, Date: from.AddDays(3), Start: thursday, End: thursday.Add(time.Hour)}},
		Now:     berlin.DayStart(from.AddDays(7)), Zone: berlin,
	})
	fmt.Println("lifts", tally.Lifts.Least, "to", tally.Lifts.Most)
	fmt.Println("longest empty run", tally.EmptyRun.Least, "to", tally.EmptyRun.Most)
	for _, q := range tally.Questions {
		fmt.Println(q.Text)
	}
	// Output:
	// lifts 1 to 2
	// longest empty run 3 to 5
	// nothing is told of full-body on 2026-11-12: did it happen?
}

// Copies of a log that were carried apart are merged in any order. An entry that
// was wrong is replaced, and stays visible.
func ExampleMerge() {
	log := readTable()
	game := log.Entries()[0]
	game.Recorded = game.Recorded.Add(time.Hour)
	game.ID, game.Replaces = "g1-minutes", "g1"
	game.What = logbook.Game{Minutes: logbook.Told(71)}
	fixed, err := logbook.NewLog(game)
	if err != nil {
		fmt.Println(err)
	}
	all := logbook.Merge(fixed, log, fixed)
	fmt.Println(all.Len(), "entries,", len(all.Clashes()), "clashes")
	for _, e := range all.View("a7").Entries {
		fmt.Println(e.Date(), e.What.Kind(), e.ID)
	}
	// What had been told before is what it was.
	fmt.Println(all.AsOf(game.Recorded.Add(-time.Minute)).Len(), len(all.Future(game.Recorded)))
	// Output:
	// 3 entries, 0 clashes
	// 2026-11-10 session s1
	// 2026-11-14 game g1-minutes
	// 2 0
}

// A fold takes one entry after the other.
func ExampleNewFold() {
	fold := logbook.NewFold(readTable())
	void := logbook.Entry{Athlete: "a7", Recorded: time.Unix(1_794_906_000, 0), What: logbook.Void{Of: "g1", Reason: "another athlete"}}
	if err := fold.Add(void); err != nil {
		fmt.Println(err)
	}
	fmt.Println(fold.Athletes(), len(fold.View("a7").Entries))
	// Output:
	// [a7] 1
}

// What is wrong with a text is told at once.
func ExampleReadJSON() {
	_, err := logbook.ReadJSON(strings.NewReader(`{"schema": 1, "zone": "Europe/Berlin", "recorded": "2026-11-10T18:00:00Z", "entries": [
 {"kind": "session", "start": "2026-11-10T17:00", "session": "full-body", "state": "done",
  "sets": [{"exercise": "back-squat", "load": 100, "effort": 11}]},
 {"kind": "game", "start": "2026-11-14T19:30"}]}`))
	fmt.Println(err)
	// Output:
	// /entries/0/sets/0/load: error: "100" - a load without a unit (line 3, column 47); write it as text with its unit, such as "100 kg"
	// /entries/0/sets/0/effort: error: "11" - the number is out of range (line 3, column 62); give a number from 1 to 10 with at most 1 decimal
	// /entries/1/start: error: "2026-11-14T19:30" - it was told at 2026-11-10T18:00:00Z, before it happened (entry at line 4); log what was done, after it was done
}

func ExampleReader_JSON() {
	text := `{"schema": 1, "zone": "Europe/Berlin", "recorded": "2026-11-10T18:00:00Z", "entries": [
 {"kind": "test", "start": "2026-11-09", "name": "back-squat", "protocol": "1rm", "unit": "lb", "value": 315}]}`
	log, problems, err := logbook.Reader{Strict: true}.JSON(strings.NewReader(text))
	fmt.Println(len(problems), err)
	test, _ := log.Entries()[0].What.(logbook.Test)
	mass, _ := test.Mass()
	fmt.Println(test.Value.Float(), test.Unit, "=", mass)
	// Output:
	// 0 <nil>
	// 315 lb = 142.882 kg
}

func ExampleLog_WriteJSON() {
	if err := readTable().WriteJSON(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// {"schema":1,"entries":[
	// {"id":"g1","athlete":"a7","kind":"game","recorded":"2026-11-17T08:00:00Z","start":"2026-11-14T19:30","zone":"Europe/Berlin","rating":8,"minutes":62},
	// {"id":"s1","athlete":"a7","kind":"session","recorded":"2026-11-17T08:00:00Z","start":"2026-11-10T17:00","zone":"Europe/Berlin","planned":"p1","session":"full-body","state":"done","rating":7,"minutes":55,"sets":[{"exercise":"back-squat","load":"100 kg","reps":5,"left":3},{"exercise":"back-squat","load":"100 kg","reps":5,"left":3},{"exercise":"back-squat","load":"100 kg","reps":5,"left":4}]}
	// ]}
}

// The log goes into the next request, and into the next card.
func ExampleView_Done() {
	view := readTable().View("a7")
	for _, d := range view.Done() {
		fmt.Println(d.Session, d.Kind, d.Start, d.End, d.Missed)
	}
	history, err := view.History(logbook.Given{Today: calendar.DateFromDayNumber(20_775)})
	fmt.Println(history.Lifts, history.Played, len(history.Sets), err)
	// Output:
	// p1 full-body 2026-11-10T17:00 2026-11-10T17:55 false
	// [2026-11-10] [{2026-11-14 62}] 1 <nil>
}

func ExampleMaxima() {
	lifts, _, _ := readTable().View("a7").Progress(logbook.Given{})
	for _, m := range logbook.Maxima(lifts) {
		fmt.Println(m.Exercise, load.Mass(m.Grams), m.Kind, m.Date)
	}
	// Output:
	// back-squat 126.667 kg estimated 2026-11-10
}

// Unknown is not zero, and a rating below 5 gives no number in reserve.
func ExampleSet_Reserve() {
	for _, s := range []logbook.Set{{}, {Left: logbook.Told(0)}, {Effort: 8.5}, {Effort: 4}, {Failed: true}} {
		fmt.Println(s.Reserve())
	}
	// Output:
	// 0 false
	// 0 true
	// 1.5 true
	// 0 false
	// 0 true
}

func ExampleEntry_ContentID() {
	e := readTable().Entries()[0]
	e.ID = ""
	id := e.ContentID()
	e.Recorded = e.Recorded.Add(time.Hour)
	fmt.Println(id, id == e.ContentID())
	// Output:
	// game-famytehrqe2iqinb true
}

// The words of a log.
func ExampleKinds() {
	fmt.Println(logbook.Kinds())
	fmt.Println(logbook.Sources(), logbook.States(), logbook.OfVoid.Dated())
	for _, s := range logbook.Scales() {
		low, high := s.Range()
		worse, _ := s.HigherIsWorse()
		fmt.Println(s, low, high, worse)
	}
	fmt.Println(logbook.Units())
	fmt.Println(len(logbook.Columns()), logbook.Columns()[:3])
	// Output:
	// [session game practice wellness body-mass test note void confirm]
	// [athlete coach staff device import] [done missed unknown] false
	// hooper 1 7 true
	// mclean 1 5 false
	// [kg lb cm m s ms m/s W W/kg N reps level beats/min]
	// 40 [kind id date]
}

func ExampleCodes() {
	for _, c := range logbook.Codes() {
		if c.Code == "question-unlogged" {
			fmt.Println(c.Class, c.Params)
		}
	}
	// Output:
	// question [kind date]
}
