package say_test

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

func date(t *testing.T, s string) calendar.Date {
	t.Helper()
	d, err := calendar.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text string
		n    int
		want string
	}{
		{"", 10, ""}, {"one two three", 8, "one two|three"}, {"abcdefghijkl", 8, "abcdefgh|ijkl"}, {"a abcdefghijkl b", 8, "a|abcdefgh|ijkl b"}, {"x", 1, "x"},
	} {
		if got := strings.Join(say.Wrap(c.text, c.n), "|"); got != c.want {
			t.Errorf("Wrap(%q, %d) = %q, want %q", c.text, c.n, got, c.want)
		}
	}
}

// Wrapping loses nothing but space, no line is too long, and none ends where the
// next word, or a first part of it that fills a line, would have had room.
func TestWrapFills(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`([a-zé]{0,19} ?){0,9}`).Draw(t, "text")
		width := rapid.IntRange(8, 17).Draw(t, "width")
		got := say.Wrap(text, width)
		if strings.ReplaceAll(strings.Join(got, ""), " ", "") != strings.ReplaceAll(text, " ", "") {
			t.Fatalf("%q became %q", text, got)
		}
		for i, line := range got {
			n := utf8.RuneCountInString(line)
			if n > width {
				t.Fatalf("%q has %d characters", line, n)
			}
			if i == 0 {
				continue
			}
			word, _, _ := strings.Cut(line, " ")
			before := utf8.RuneCountInString(got[i-1])
			if before < width && before+1+utf8.RuneCountInString(word) <= width {
				t.Fatalf("%q had room for %q", got[i-1], word)
			}
		}
	})
}

func TestPage(t *testing.T) {
	p := say.Page{Width: 17}
	p.Line("head \x1b[2J  ")
	p.Hang("é - ", "one two three four")
	q := say.Page{Width: 17}
	q.Line("more")
	p.Append(&q)
	if want := "head " + calendar.Inert("\x1b[2J") + "\né - one two three\n    four\nmore\n"; p.String() != want {
		t.Errorf("%q, not %q", p.String(), want)
	}
}

func TestPadClip(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{say.Pad("né", 4), "né  "}, {say.Pad("longer", 4), "longer"},
		{say.Clip(" a\tname\n", 6), "a name"}, {say.Clip("a name", 5), "a n.."}, {say.Clip("ab cdef", 5), "ab.."}, {say.Clip("éééééé", 5), "ééé.."},
	} {
		if c.got != c.want {
			t.Errorf("%q, not %q", c.got, c.want)
		}
	}
}

func TestDates(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"2026-11-08", "2026-11-08", "8 Nov"}, {"2026-11-08", "2026-11-19", "8-19 Nov"}, {"2026-12-28", "2027-01-03", "28 Dec - 3 Jan"}, {"2026-11-08", "2027-11-09", "8 Nov - 9 Nov"},
	} {
		from, to := date(t, c.from), date(t, c.to)
		if got := say.Between(from, to); got != c.want {
			t.Errorf("Between(%s, %s) = %q, want %q", c.from, c.to, got, c.want)
		}
		if got := say.BetweenYear(from, to); got != c.want+" "+c.to[:4] {
			t.Errorf("BetweenYear(%s, %s) = %q", c.from, c.to, got)
		}
	}
	// The names are those of package time.
	for d, i := date(t, "2026-08-27"), 0; i < 400; d, i = d.AddDays(1), i+1 {
		x, err := time.Parse("2006-01-02", d.String())
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct{ got, form string }{
			{say.Month(d), "January"}, {say.Weekday(d), "Mon"}, {say.Short(d), "2 Jan"}, {say.Day(d), "Mon 2 Jan"}, {say.DayYear(d), "Mon 2 Jan 2006"},
		} {
			if want := x.Format(c.form); c.got != want {
				t.Errorf("%s: %q, not %q", d, c.got, want)
			}
		}
	}
	c, err := calendar.ParseClock("17:05")
	if err != nil {
		t.Fatal(err)
	}
	if got := say.Clocks(c, c+55*60+59); got != "17:05-18:00" {
		t.Errorf("clocks %s", got)
	}
}

func TestCounts(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{say.Count(0, "game"), "0 games"}, {say.Count(1, "game"), "1 game"}, {say.Count(17, "game"), "17 games"},
		{say.ToGame(48*time.Hour-time.Second, "Tornby"), "47 h to Tornby"},
		{say.ToGame(167*time.Hour+59*time.Minute, "Tornby"), "167 h to Tornby"},
		{say.ToGame(168*time.Hour, "Tornby"), "7 days to Tornby"},
		{say.ToGame(215*time.Hour, "Tornby"), "8 days to Tornby"},
	} {
		if c.got != c.want {
			t.Errorf("%q, not %q", c.got, c.want)
		}
	}
}

func TestNames(t *testing.T) {
	for _, k := range season.Kinds() {
		if w := say.Kind(k); w == "" || w != strings.ToLower(w) {
			t.Errorf("%s is called %q", k, w)
		}
	}
	for _, k := range calendar.Kinds() {
		if say.Event(calendar.Event{Kind: k}) == "" {
			t.Errorf("%s has no word", k)
		}
	}
	exam := calendar.Event{Kind: calendar.Exam}
	exam.ID = exam.ContentID()
	for _, c := range []struct{ got, want string }{
		{say.Kind(season.Trimmed), "trimmed full-body"},
		{say.Event(calendar.Event{Kind: calendar.Practice, Hard: true}), "hard practice"},
		{say.Name(calendar.Event{Opponent: "Hessel Strand", Title: "cup", ID: "g7"}, "game", 24), "Hessel Strand"},
		{say.Name(calendar.Event{Title: "cup", ID: "g7"}, "game", 24), "cup"},
		{say.Name(calendar.Event{ID: "g7"}, "game", 24), "g7"},
		{say.Name(calendar.Event{}, "trip", 24), "the trip"},
		{say.Name(exam, "exam", 24), "the exam"},
		{say.Name(calendar.Event{Opponent: "Hessel Strand"}, "game", 9), "Hessel.."},
		{say.Where("Tornby", calendar.AtAway), "at Tornby"},
		{say.Where("Tornby", calendar.AtNeutral), "Tornby, neutral"},
		{say.Where("Tornby", ""), "Tornby"},
	} {
		if c.got != c.want {
			t.Errorf("%q, not %q", c.got, c.want)
		}
	}
}

func TestUsualPlace(t *testing.T) {
	for _, c := range []struct{ places, want string }{
		{"", ""}, {"b", "b"}, {"b a", "a"}, {"b a b", "b"}, {"c b a c b", "b"},
	} {
		var list []season.Session
		for _, p := range strings.Fields(c.places) {
			list = append(list, season.Session{Place: p})
		}
		if got := say.UsualPlace(list); got != c.want {
			t.Errorf("%s: %q", c.places, got)
		}
	}
}
