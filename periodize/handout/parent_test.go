package handout_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"example.org/weft/internal/situations"
	"example.org/weft/periodize/handout"
)

// person is a request of one week and what follows it.
func person(born, training, events string) string {
	return fmt.Sprintf(`{"schema": 1, "period": {"from": "2027-05-17", "to": "2027-05-30"},
	"athlete": {"id": "a7", "born": %q, "zone": "Europe/Dublin", "trainingAgeYears": %s}, "events": [%s]}`, born, training, events)
}

// event writes an event on a day of May 2027.
func event(id, kind string, day int, from, to, more string) string {
	return fmt.Sprintf(`{"id": %q, "kind": %q, "start": "2027-05-%02dT%s", "end": "2027-05-%02dT%s"%s}`, id, kind, day, from, day, to, more)
}

func join(events ...string) string { return strings.Join(events, ",") }

// Weeks as they come: of each, the whole note has at most 150 words and says
// what parents ask for.
func TestParentsNote(t *testing.T) {
	var exams, practices []string
	for day := 17; day <= 21; day++ {
		exams = append(exams, event(fmt.Sprint("x", day), "exam", day, "09:00", "12:00", ""))
	}
	for day := 17; day <= 23; day++ {
		practices = append(practices, event(fmt.Sprint("p", day), "practice", day, "17:30", "19:00", ""))
	}
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"exams and a game", person("2010-02", "2", join(append(exams, event("g1", "game", 22, "13:00", "14:30", ""))...)), []string{"Exams", "Sat 13:00"}},
		{"five games in three days", person("2010-02", "2", join(
			event("g1", "game", 21, "10:00", "10:50", ""), event("g2", "game", 21, "17:00", "17:50", ""), event("g3", "game", 22, "09:30", "10:20", ""),
			event("g4", "game", 22, "16:30", "17:20", ""), event("g5", "game", 23, "11:00", "11:50", ""))), []string{"Fri 10:00", "Fri 17:00", "Sat 09:30", "Sat 16:30", "Sun 11:00"}},
		{"two games on one date", person("2012-03", "1", join(event("g1", "game", 22, "10:00", "11:20", ""), event("g2", "game", 22, "17:30", "19:00", ""))), []string{"Sat 10:00 Sat 17:30"}},
		{"beginner of 13", person("2014-01", "0", join(event("g1", "game", 23, "11:00", "12:15", ""))), []string{"Sun 11:00", "Free"}},
		{"practice on every date", person("2011-09", "2", join(practices...)), []string{"Gym"}},
		{"if necessary", person("2003-09", "4", join(event("g1", "game", 18, "19:00", "21:30", `, "status": "if-necessary"`), event("g2", "game", 20, "19:00", "21:30", ""))), []string{"Tue 19:00 Thu 19:00"}},
		{"no time yet", person("2010-02", "2", `{"id": "g1", "kind": "game", "start": "2027-05-22"}`), []string{"Sat (time open)"}},
		{"nothing known", person("2010-02", "2", ""), []string{"Gym"}},
		{"child of ten", person("2017-02", "0", ""), []string{"No sessions are planned"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			req := read(t, c.text)
			b := open(t, req, planned(t, req), handout.Options{Name: strings.Repeat("Ann ", 30), Club: strings.Repeat("Club ", 40), Example: true})
			s, err := b.Parent(req.Period.From)
			if err != nil {
				t.Fatal(err)
			}
			html, _ := parse(t, s.Fragment())
			if n, m := countWords(s.Text()), countWords(html); n > parentMost || m > parentMost {
				t.Errorf("%d words, %d as HTML", n, m)
			}
			plain := strings.Join(strings.Fields(s.Text()), " ")
			for _, w := range c.want {
				if !strings.Contains(plain, w) {
					t.Errorf("the note lacks %q:\n%s", w, s.Text())
				}
			}
		})
	}
}

// Every worked situation of the planner, every week of it: the note has at most
// 150 words.
func TestParentsNoteOfEveryScenario(t *testing.T) {
	most, notes := 0, 0
	situations.Each(t, filepath.Join("..", "..", "testdata", "scenarios"), 27, func(t *testing.T, a situations.Archive) {
		req := read(t, a.Sections["request.json"])
		b := open(t, req, planned(t, req), handout.Options{Name: "Ada Brook Cole", Club: "Tarn Ottermark", Example: true})
		for _, d := range b.Weeks() {
			s, err := b.Parent(d)
			if err != nil {
				t.Fatal(err)
			}
			html, _ := parse(t, s.Fragment())
			n := max(countWords(s.Text()), countWords(html))
			if n > parentMost {
				t.Errorf("%s: %d words", d, n)
			}
			most, notes = max(most, n), notes+1
		}
	})
	t.Logf("%d notes, of %d words at most", notes, most)
}
