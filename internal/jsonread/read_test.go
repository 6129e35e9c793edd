package jsonread_test

import (
	"encoding/json"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"example.org/weft/internal/jsonread"
	"github.com/google/go-cmp/cmp"
)

// parsed are texts and all that is wrong with them before anyone asks for a
// field. Only those without "whole" lose their structure.
var parsed = []struct {
	name, text string
	limits     jsonread.Limits
	whole      bool
	want       []string
}{
	{name: "good", text: " {\"a\": [1, -2.5e3, true, false, \"x\"], \"b\": {}, \"c\": []}\r\n", whole: true},
	{name: "scalar", text: `"é\u00e9\ud83d\ude00\/"`, whole: true},
	{name: "empty", text: " \n", want: []string{`1:1: error: there is no value in the text; give one JSON value`}},
	{name: "order mark", text: "\xEF\xBB\xBF{\"a\": 01}", whole: true, want: []string{
		`1:1: warning: U+FEFF: the text starts with a byte order mark; save it as UTF-8 without one`,
		`1:7: error: /a: 01: a number has no leading zero in JSON; leave the leading zero out, or put text such as a date in double quotes`,
	}},
	{name: "only an order mark", text: "\xEF\xBB\xBF", want: []string{
		`1:1: warning: U+FEFF: the text starts with a byte order mark; save it as UTF-8 without one`,
		`1:1: error: there is no value in the text; give one JSON value`,
	}},
	{name: "UTF-16", text: "\xFF\xFE{\x00}\x00", want: []string{`1:1: error: the text is UTF-16; save it as UTF-8`}},
	{name: "UTF-16 without a mark", text: "{\x00}\x00", want: []string{
		`1:2: error: \u0000: a field name in double quotes is wanted; save the text as UTF-8, without the character NUL`}},
	{name: "bad UTF-8", text: "{\"a\": \"x\xC3(\",\n \"b\xFF\": 1}", whole: true, want: []string{
		`1:9: error: /a: \xc3: this byte is not UTF-8; save the text as UTF-8`,
		"2:4: error: /b\uFFFD: \\xff: this byte is not UTF-8; save the text as UTF-8",
	}},
	{name: "bad UTF-8 outside a string", text: "[\xFF]", want: []string{
		`1:2: error: /0: \xff: a value is wanted; save the text as UTF-8`}},
	{name: "surrogates", text: `["\ud83d", "\ude00x", "\ud83d\u0041", "\ud83d\ude00"]`, whole: true, want: []string{
		`1:3: error: /0: ud83d: half of a surrogate pair stands alone; write the character itself, or both halves`,
		`1:13: error: /1: ude00: half of a surrogate pair stands alone; write the character itself, or both halves`,
		`1:24: error: /2: ud83d: half of a surrogate pair stands alone; write the character itself, or both halves`,
	}},
	{name: "control characters", text: "[\"a\\u0000\", \"b\\u001b[2J\", \"c\u202e\", \"d\\t\\n\", \"e\tf\"]", whole: true, want: []string{
		`1:4: error: /0: U+0000: the string holds the character NUL; remove it`,
		`1:15: warning: /1: \u001b: the string holds a character that controls how text is shown; remove it if it is not meant`,
		`1:29: warning: /2: \u202e: the string holds a character that controls how text is shown; remove it if it is not meant`,
		`1:44: error: /4: \t: a control character stands bare in a string; remove it or write it as an escape such as \t`,
	}},
	{name: "escapes", text: `["\x41", "\u12G4", "C:\dir"]`, whole: true, want: []string{
		`1:3: error: /0: a backslash starts no known escape here; write the backslash itself as \\; the escapes are \" \\ \/ \b \f \n \r \t and \u with four hexadecimal digits`,
		`1:11: error: /1: a backslash starts no known escape here; write the backslash itself as \\; the escapes are \" \\ \/ \b \f \n \r \t and \u with four hexadecimal digits`,
		`1:23: error: /2: a backslash starts no known escape here; write the backslash itself as \\; the escapes are \" \\ \/ \b \f \n \r \t and \u with four hexadecimal digits`,
	}},
	{name: "words", text: `[NaN, -Infinity, True, None, 007, +1, 1., .5, 0x1F, 2026-11-08, abc, -, 1e]`, whole: true, want: []string{
		`1:2: error: /0: NaN: this is not a number in JSON; give a finite number, or leave the field out`,
		`1:7: error: /1: -Infinity: this is not a number in JSON; give a finite number, or leave the field out`,
		`1:18: error: /2: True: true and false are written in small letters, without a sign; write true`,
		`1:24: error: /3: None: this stands for no value; leave the field out`,
		`1:30: error: /4: 007: a number has no leading zero in JSON; leave the leading zero out, or put text such as a date in double quotes`,
		`1:35: error: /5: +1: a number has no plus sign in JSON; leave the + out`,
		`1:39: error: /6: 1.: a decimal point has digits on both sides in JSON; write a digit before and after the point`,
		`1:43: error: /7: .5: a decimal point has digits on both sides in JSON; write a digit before and after the point`,
		`1:47: error: /8: 0x1F: numbers are decimal in JSON; write the number with the digits 0 to 9`,
		`1:53: error: /9: 2026-11-08: this is not a number in JSON; write a number such as 12 or 7.5, or put text such as a date in double quotes`,
		`1:65: error: /10: abc: this is not a JSON value; put text in double quotes`,
		`1:70: error: /11: -: this is not a JSON value; put text in double quotes`,
		`1:73: error: /12: 1e: this is not a number in JSON; write a number such as 12 or 7.5, or put text such as a date in double quotes`,
	}},
	{name: "commas too many", text: "{\"a\": [1,\n ],}", whole: true, want: []string{
		`1:9: error: /a: ,: a comma follows the last element; remove the comma`,
		`2:3: error: ,: a comma follows the last field; remove the comma`,
	}},
	{name: "comma missing", text: `{"a": 01 "b": 2}`, want: []string{
		`1:7: error: /a: 01: a number has no leading zero in JSON; leave the leading zero out, or put text such as a date in double quotes`,
		`1:10: error: ": a comma or } is wanted after the field; add it`,
	}},
	{name: "value missing", text: `{"a":, "b": 2}`, want: []string{`1:6: error: /a: ,: a value is wanted; add it, or remove this character`}},
	{name: "colon missing", text: `{"a" 1}`, want: []string{`1:6: error: /a: 1: a colon is wanted after the field name; add it`}},
	{name: "name without quotes", text: `{a: 1}`, want: []string{`1:2: error: a: a field name in double quotes is wanted; add it`}},
	{name: "typographic quotes", text: `{“a”: 1}`, want: []string{"1:2: error: \u201c: a field name in double quotes is wanted; use straight double quotes: \""}},
	{name: "comment", text: "[1, // one\n2]", want: []string{`1:5: error: /1: /: a value is wanted; remove the comment: JSON has none`}},
	{name: "no-break space", text: "[1,\u00a02]", want: []string{`1:4: error: /1: \u00a0: a value is wanted; remove the invisible character`}},
	{name: "open string", text: "{\"a\": \"x,\n\"b\": 1}", want: []string{`1:7: error: /a: the string is not closed on its line; close it with ", and write line ends inside it as \n`}},
	{name: "bare return", text: "[\"x\r\"]", want: []string{`1:2: error: /0: the string is not closed on its line; close it with ", and write line ends inside it as \n`}},
	{name: "open name", text: `{"a`, want: []string{`1:2: error: the text ends inside a field name; close it with "`}},
	{name: "ends in an object", text: `{"a": {"b": 1}`, want: []string{`1:15: error: the text ends inside an object; close it with }`}},
	{name: "ends in an array", text: `{"a": [1, `, want: []string{`1:11: error: /a: the text ends inside an array; close it with ]`}},
	{name: "ends before a value", text: `{"a":`, want: []string{`1:6: error: /a: a value is wanted, but the text ends; add it`}},
	{name: "trailing", text: "{}\n{}", whole: true, want: []string{`2:1: error: {: more text follows after the value; remove what follows, or put all values in one array`}},
	{name: "duplicates", text: "{\"a\": 1,\n \"\\u0061\": 2, \"b\": {\"c\": 1, \"c\": 1, \"c\": 1}}", whole: true, want: []string{
		`2:2: error: /a: the field is given twice, first at 1:2; keep one of the two`,
		`2:29: error: /b/c: the field is given twice, first at 2:21; keep one of the two`,
		`2:37: error: /b/c: the field is given twice, first at 2:21; keep one of the two`,
	}},
	{name: "pointer escapes", text: `{"a/b~c\n": [{"": tru}]}`, whole: true, want: []string{
		`1:19: error: /a~1b~0c\n/0/: tru: this is not a JSON value; put text in double quotes`,
	}},
	{name: "bytes", text: `[1, 2, 3]`, limits: jsonread.Limits{Bytes: 8}, want: []string{
		`error: the text is longer than 8 bytes; split it, or leave out what is not needed`}},
	{name: "depth", text: "[\n[{\"a\": []}]]", limits: jsonread.Limits{Depth: 3}, want: []string{
		`2:8: error: /0/0/a: arrays and objects lie more than 3 deep in one another; flatten the text`}},
	{name: "nodes", text: `[1, 2, 3]`, limits: jsonread.Limits{Nodes: 3}, want: []string{
		`1:8: error: the text holds more than 3 values; split it, or leave out what is not needed`}},
	{name: "lengths", text: `{"four": "abcde", "three": "abc"}`, limits: jsonread.Limits{StringBytes: 4, NameBytes: 4}, whole: true, want: []string{
		`1:10: error: /four: "abcde": the string is longer than 4 bytes; shorten it`,
		`1:19: error: /three: the field name is longer than 4 bytes; shorten it`,
	}},
	{name: "at the limits", text: `[[[1]]]`, limits: jsonread.Limits{Bytes: 7, Depth: 3, Nodes: 4}, whole: true},
}

func lines(d *jsonread.Document) []string {
	var out []string
	for _, p := range d.Problems() {
		out = append(out, p.String())
	}
	return out
}

func TestRead(t *testing.T) {
	for _, c := range parsed {
		t.Run(c.name, func(t *testing.T) {
			for _, r := range []io.Reader{strings.NewReader(c.text), iotest.OneByteReader(strings.NewReader(c.text)), iotest.DataErrReader(strings.NewReader(c.text))} {
				d := jsonread.Read(r, jsonread.Options{Limits: c.limits})
				if diff := cmp.Diff(c.want, lines(d)); diff != "" {
					t.Error(diff)
				}
				if got := d.Root().Present(); got != c.whole {
					t.Errorf("root present: %v, want %v", got, c.whole)
				}
			}
		})
	}
}

func TestDepth(t *testing.T) {
	// encoding/json gives up beyond 10,000; the stack of ours is its own.
	for _, c := range []struct {
		limit, deep int
		want        bool
	}{{0, jsonread.DefaultDepth, true}, {0, jsonread.DefaultDepth + 1, false}, {10_000, 10_000, true}, {10_000, 10_001, false}, {1 << 20, 1 << 20, true}} {
		text := strings.Repeat("[", c.deep) + strings.Repeat("]", c.deep)
		d := jsonread.Read(strings.NewReader(text), jsonread.Options{Limits: jsonread.Limits{Depth: c.limit}})
		if d.OK() != c.want || d.WellFormed() != c.want {
			t.Errorf("limit %d, %d deep: %v", c.limit, c.deep, d.Problems())
		}
		if c.deep <= 10_001 && c.limit > 0 && json.Valid([]byte(text)) != c.want {
			t.Errorf("encoding/json differs at %d", c.deep)
		}
	}
}

type stuck struct{}

func (stuck) Read([]byte) (int, error) { return 0, nil }

func TestReadersThatFail(t *testing.T) {
	for _, c := range []struct {
		name string
		r    io.Reader
		want string
	}{
		{"error", io.MultiReader(strings.NewReader("[1"), iotest.ErrReader(errors.New("line\x1b cut"))), `error: the text cannot be read: line\u001b cut; give it again`},
		{"stuck", stuck{}, `error: the text cannot be read: multiple Read calls return no data or error; give it again`},
		{"nil", nil, `error: the text cannot be read: there is no reader; give it again`},
	} {
		d := jsonread.Read(c.r, jsonread.Options{})
		if diff := cmp.Diff([]string{c.want}, lines(d)); diff != "" {
			t.Errorf("%s: %s", c.name, diff)
		}
		if d.Root().Present() || d.OK() {
			t.Errorf("%s: half a text was kept", c.name)
		}
	}
}

func TestProblemsAreCapped(t *testing.T) {
	// 7 warnings first, then 5 errors: with room for 6, all errors and the
	// first warning are listed, by position.
	text := `["` + strings.Repeat(`\u0007`, 7) + `", ` + strings.TrimSuffix(strings.Repeat("nan, ", 5), ", ") + `]`
	d := jsonread.Read(strings.NewReader(text), jsonread.Options{Problems: 6})
	var got []string
	for _, p := range d.Problems() {
		got = append(got, p.Class.String()+" "+p.Code+" "+p.Pointer)
	}
	want := []string{"warning control /0", "error syntax /1", "error syntax /2", "error syntax /3", "error syntax /4", "error syntax /5", "warning more "}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if more := d.Problems()[6].Reason; more != "and 6 more: 0 errors, 6 warnings" {
		t.Error(more)
	}

	d = jsonread.Read(strings.NewReader("["+strings.Repeat("x,", 1000)+"x]"), jsonread.Options{})
	list := d.Problems()
	if last := list[len(list)-1]; len(list) != 101 || last.Reason != "and 901 more: 901 errors, 0 warnings" || last.Class != jsonread.Error {
		t.Errorf("%d problems, the last %v", len(list), last)
	}
	if list[99].Pointer != "/99" {
		t.Errorf("the early ones are kept, got %v", list[99])
	}
	if errs, warns := d.Counts(); errs != 1001 || warns != 0 {
		t.Errorf("counted %d, %d", errs, warns)
	}
}

// Which problems are listed depends on their place, not on who asked first.
func TestTheEarlyOnesAreListed(t *testing.T) {
	d := jsonread.Read(strings.NewReader("["+strings.Repeat("1,", 49)+"1]"), jsonread.Options{Problems: 3})
	list, _ := d.Root().Array(50)
	for i := range list {
		list[(i*7+30)%50].Int(2, 3)
	}
	var got []string
	for _, p := range d.Problems() {
		got = append(got, p.Pointer+" "+p.Code)
	}
	if diff := cmp.Diff([]string{"/0 range", "/1 range", "/2 range", " more"}, got); diff != "" {
		t.Error(diff)
	}
}

func TestPositions(t *testing.T) {
	// The place of the last character against a plain count over the runes
	// before it, in texts around and beyond the stride of the index.
	for _, n := range []int{0, 1, 584, 585, 586, 818, 819, 820, 1023, 1024, 1025, 1365, 1366, 4095, 4096, 4097, 9000} {
		for _, fill := range []string{" ", "\"é\",\n", "\"日\",\t", "\"😀\" ,\r\n", "1,\n\n"} {
			for _, mark := range []string{"", "\uFEFF"} {
				text := "[" + strings.Repeat(fill, n) + "?"
				line, col := 1, 1
				for _, r := range text[:len(text)-1] {
					col++
					if r == '\n' {
						line, col = line+1, 1
					}
				}
				list := jsonread.Read(strings.NewReader(mark+text), jsonread.Options{}).Problems()
				if last := list[len(list)-1]; last.Line != line || last.Col != col {
					t.Errorf("%d of %q: at %d:%d, want %d:%d", n, fill, last.Line, last.Col, line, col)
				}
			}
		}
	}
}
