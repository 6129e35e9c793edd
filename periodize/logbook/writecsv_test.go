package logbook_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"

	"example.org/weft/calendar"
	"example.org/weft/load"
	"example.org/weft/periodize/logbook"
	"example.org/weft/periodize/season"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// asTable is a log as CSV. ok is false if it holds what a table cannot keep.
func asTable(t interface{ Fatalf(string, ...any) }, l logbook.Log) (text string, ok bool) {
	var b bytes.Buffer
	if err := l.WriteCSV(&b); err != nil {
		for _, p := range problemsOf(err) {
			if p.Code != logbook.CodeControl || p.Remedy == "" {
				t.Fatalf("%v", p)
			}
		}
		if len(problemsOf(err)) == 0 || b.Len() > 0 {
			t.Fatalf("%v, after %d bytes", err, b.Len())
		}
		return "", false
	}
	return b.String(), true
}

// againAsTable checks that a log is read back from its table as it was, and that
// no cell of the table begins as a formula does.
func againAsTable(t interface{ Fatalf(string, ...any) }, rd logbook.Reader, l logbook.Log) {
	text, ok := asTable(t, l)
	if !ok {
		return
	}
	m, _, err := logbook.Reader{Strict: true, Now: rd.Now}.CSV(strings.NewReader(text), "log.csv")
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	var a, b bytes.Buffer
	if err := l.WriteJSON(&a); err != nil {
		t.Fatalf("%v", err)
	}
	if err := m.WriteJSON(&b); err != nil {
		t.Fatalf("%v", err)
	}
	if a.String() != b.String() {
		t.Fatalf("%s\n%s", cmp.Diff(a.String(), b.String()), text)
	}
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatalf("%v", err)
	}
	for _, r := range rows {
		for _, c := range r {
			if c != "" && strings.ContainsRune("=+-@\t\r\uff1d\uff0b\uff0d\uff20", []rune(c)[0]) {
				t.Fatalf("a spreadsheet would run %q", c)
			}
		}
	}
}

func TestLogsReadBackFromTables(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	rapid.Check(t, func(t *rapid.T) {
		l, err := logbook.NewLog(drawEntries(t, z, 12)...)
		if err != nil {
			t.Fatal(err)
		}
		againAsTable(t, logbook.Reader{}, l)
	})
}

// Texts that spreadsheets run, spaces that tables lose, and what has to be quoted.
func TestHostileTexts(t *testing.T) {
	texts := []string{"=SUM(A1:A9)", "+49", "-1", "@x", "'=x", "''-", "'", " a", "a ", "\ta", "a\n", "\u00a0a", "a '", "' a", " ", " '", "' '", "\"a\", b;", "a\nb", "\uff1dx", "tom's", "'tom'", "\ufeffx", "sep=;"}
	var list []logbook.Entry
	for i, x := range texts {
		e := entry(x, "2026-11-10", logbook.Remark{Text: x})
		e.Athlete = x
		list = append(list, e, entry("s"+x, fmt.Sprintf("2026-11-11T%02d:00", i%24), logbook.Session{Session: season.FullBody, State: logbook.Done,
			Sets: []logbook.Set{{Exercise: x, Reps: logbook.Told(5)}, {Exercise: "x" + x, Load: logbook.Told(load.Mass(0))}}}))
	}
	l := newLog(t, list...)
	if _, ok := asTable(t, l); !ok {
		t.Fatal("no table")
	}
	againAsTable(t, logbook.Reader{}, l)
}

// A session over midnight, one with two facts under its id, and times to the
// second are kept.
func TestTimesOfTables(t *testing.T) {
	at := func(id, start, end string, sets ...logbook.Set) logbook.Entry {
		e := entry(id, start, logbook.Session{Session: season.FullBody, State: logbook.Done, Sets: sets})
		e.End, e.HasEnd, e.Recorded = wall(end), true, instant("2026-11-20T08:00:00Z")
		return e
	}
	l := newLog(t, at("a", "2026-11-10T23:10", "2026-11-11T00:20"), at("b", "2026-11-10T12:00:05", "2026-11-11T00:00"), at("c", "2026-11-10T12:00", "2026-11-10T24:00"),
		at("d", "2026-11-12T17:00", "2026-11-12T17:45", set(100, 5, 2), set(90, 5, 2)), at("d", "2026-11-12T17:00", "2026-11-12T17:50", set(100, 5, 1)))
	againAsTable(t, logbook.Reader{}, l)
}

func TestTablesThatCannotBe(t *testing.T) {
	l := newLog(t, entry("n", "2026-11-10", logbook.Remark{Text: "a\r\nb"}))
	var b bytes.Buffer
	err := l.WriteCSV(&b)
	if list := problemsOf(err); len(list) != 1 || list[0].Path != "/entries/0/text" || strings.Contains(err.Error(), "a\r") || b.Len() > 0 {
		t.Errorf("%v", err)
	}
	if err := newLog(t, entry("n", "2026-11-10", logbook.Remark{Text: "x"})).WriteCSV(failing{}); err == nil {
		t.Error("the error of the writer is lost")
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, fmt.Errorf("full") }

func FuzzWriteCSV(f *testing.F) {
	f.Add("n1", "a7", "back-squat", "=1+1", "' x '")
	f.Add("=", " ", "'", "\u202e", "a\nb\n")
	z := berlin()
	f.Fuzz(func(t *testing.T, id, athlete, exercise, text, reason string) {
		told := instant("2026-11-20T08:00:00Z")
		l, err := logbook.NewLog(
			logbook.Entry{ID: id, Athlete: athlete, Recorded: told, Zone: z, Start: calendar.Wall{Date: day("2026-11-10")}, DateOnly: true, What: logbook.Remark{Text: text}},
			logbook.Entry{ID: id + "s", Athlete: athlete, Recorded: told, Zone: z, Start: calendar.Wall{Date: day("2026-11-10"), Clock: 61_200},
				What: logbook.Session{Planned: text, Session: season.Primer, State: logbook.Done, Sets: []logbook.Set{{Exercise: exercise}}}},
			logbook.Entry{ID: id + "v", Athlete: athlete, Recorded: told, What: logbook.Void{Of: id, Reason: reason}})
		if err != nil {
			return // ids that are empty, too long, no UTF-8
		}
		againAsTable(t, logbook.Reader{}, l)
	})
}

func ExampleLog_WriteCSV() {
	log, err := logbook.NewLog(
		entry("s1", "2026-11-10T17:00", logbook.Session{Session: season.FullBody, State: logbook.Done, Sets: []logbook.Set{
			{Exercise: "back-squat", Load: logbook.Told(100 * load.Kilogram), Reps: logbook.Told(5), Left: logbook.Told(2)}}}),
		entry("n1", "2026-11-11", logbook.Remark{Text: "-10 % felt right"}))
	if err != nil {
		fmt.Println(err)
		return
	}
	var b strings.Builder
	err = log.WriteCSV(&b)
	for _, line := range strings.Split(b.String(), "\r\n") {
		fmt.Println(line)
	}
	fmt.Println(err)
	// Output:
	// kind,id,date,time,tz,recorded,of,session,state,exercise,load,reps,left,text
	// note,n1,2026-11-11,,Europe/Berlin,2026-11-11T23:00:00Z,,,,,,,,'-10 % felt right
	// session,s1,2026-11-10,17:00,Europe/Berlin,2026-11-10T23:00:00Z,,full-body,done,,,,,
	// set,,,,,,s1,,,back-squat,100 kg,5,2,
	//
	// <nil>
}
