package logbook

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/weft/calendar"
)

func TestSmoke(t *testing.T) {
	berlin, err := calendar.LoadZone("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	const text = "\xef\xbb\xbfkind;id;date;time;planned;session;of;exercise;load;reps;left;effort;rating;minutes\r\n" +
		"session;s1;2026-11-10;17:00;p1;full-body;;;;;;;7.5;55\r\n" +
		"set;;;;;;s1;back-squat;100 kg;5;2;;;\r\n" +
		"set;;;;;;s1;back-squat;135 lb;5;;8.5;;\r\n"
	rd := Reader{Zone: berlin, Recorded: time.Unix(1_794_500_000, 0)}
	l, problems, err := rd.CSV(strings.NewReader(text), "log.csv")
	fmt.Println(l.Len(), problems, err)
	var b bytes.Buffer
	fmt.Println(l.WriteJSON(&b))
	fmt.Println(b.String())
	m, problems, err := Reader{Strict: true}.JSON(&b)
	fmt.Println(m.Len(), problems, err)
	_, _, err = rd.CSV(strings.NewReader(strings.NewReplacer("8.5", "11", "135 lb", "135", ";5;2;", ";NaN;-2;", "2026-11-10", "2027-11-10").Replace(text)), "log.csv")
	fmt.Println(err)
	_, _, err = rd.JSON(strings.NewReader(`{"schema":1,"zone":"Europe/Berlin","recorded":"2026-11-10T18:30:00Z","entries":[
	{"kind":"sesion"},
	{"kind":"session","start":"2026-11-10T17:00","session":"full-body","state":"done","sets":[{"exercise":"x","load":100,"effort":11},{"exercise":"y","load":"100","left":-1,"reps":0}]},
	{"kind":"wellness","start":"2026-11-11","scale":"hooper","sleep":9,"mood":3}]}`))
	fmt.Println(err)
}
