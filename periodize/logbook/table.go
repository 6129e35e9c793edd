package logbook

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"example.org/weft/calendar"
)

// row is one record of a table with the line it starts on.
type row struct {
	line  int
	cells []string
}

// table is a text taken apart into rows, with the place of each column.
type table struct {
	*finder
	name  string
	rows  []row
	at    map[string]int // column to cell
	width int            // column names
}

func (t *table) path(line int) string {
	if line == 0 {
		return t.name
	}
	return fmt.Sprintf("%s:%d", t.name, line)
}

func (t *table) say(line int, class calendar.Class, code, field, value, reason, remedy string) {
	if privateColumn(field) && value != "" {
		value = hidden
	}
	t.line = line
	t.put(calendar.Problem{Code: code, Class: class, Path: t.path(line), Field: field, Value: value, Reason: reason, Remedy: remedy})
}

func (t *table) fail(line int, code, field, value, reason, remedy string) {
	t.say(line, calendar.ClassError, code, field, value, reason, remedy)
}

// split takes the text apart as RFC 4180 has it, with comma, semicolon or tab.
func (t *table) split(data []byte, lim Limits) bool {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		t.fail(1, CodeEncoding, "", "", "the table is written in UTF-16", "save it as CSV in UTF-8")
		return false
	}
	comma, skip := separator(data)
	r := csv.NewReader(bytes.NewReader(data[skip:]))
	r.Comma, r.FieldsPerRecord, r.TrimLeadingSpace = comma, -1, comma != '\t'
	lines := bytes.Count(data[:skip], []byte("\n"))
	for {
		cells, err := r.Read()
		if err == io.EOF {
			return true
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			t.fail(lines+bad.StartLine, CodeTable, "", "", "the quotes of this row do not match: it is not read, nor is what an open quote takes in",
				`put the whole cell in quotes and double each quote inside: "the ""big"" game"`)
			continue
		}
		if err != nil {
			t.fail(0, CodeTable, "", "", err.Error(), "check the table")
			return false
		}
		at, _ := r.FieldPos(0)
		line := lines + at
		if blank(cells) {
			continue
		}
		switch {
		case len(t.rows) > lim.Rows:
			t.fail(line, CodeLimit, "", "", fmt.Sprintf("more than %d rows", lim.Rows), "split the table")
			return true
		case len(cells) > MaxColumns:
			t.fail(line, CodeLimit, "", "", fmt.Sprintf("more than %d columns", MaxColumns), "leave out what is not needed")
			continue
		}
		for i, s := range cells {
			if len(s) > MaxCell {
				t.fail(line, CodeLength, "", "", fmt.Sprintf("column %d has more than %d bytes", i+1, MaxCell), "shorten it; a quote may be missing")
				s = ""
			}
			cells[i] = strings.TrimSpace(s)
		}
		t.rows = append(t.rows, row{line, cells})
	}
}

func blank(cells []string) bool {
	return !slices.ContainsFunc(cells, func(s string) bool { return strings.TrimSpace(s) != "" })
}

// separator returns what stands between the cells, judged by the first line
// alone, and the length of a leading line such as "sep=;" that spreadsheets
// write.
func separator(data []byte) (comma rune, skip int) {
	first := data
	if i := bytes.IndexByte(data, '\n'); i >= 0 {
		first = data[:i]
	}
	if rest, ok := bytes.CutPrefix(bytes.ToLower(bytes.TrimRight(first, "\r")), []byte("sep=")); ok && len(rest) == 1 && bytes.ContainsAny(rest, ",;\t") {
		return rune(rest[0]), min(len(first)+1, len(data))
	}
	best, most := ',', 0
	for _, c := range []byte(",;\t") {
		if n := bytes.Count(first, []byte{c}); n > most {
			best, most = rune(c), n
		}
	}
	return best, 0
}

func fold(s string) string {
	return strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(strings.TrimSpace(s)))
}

// header finds the columns in the first row, which it takes off.
func (t *table) header(columns map[string]string, strict bool) bool {
	ours, before := Columns(), t.fatal
	t.at = map[string]int{}
	if len(t.rows) == 0 {
		t.fail(0, CodeMissing, "", "", "the table is empty, not even a row of column names", "name the columns in the first row: "+strings.Join(ours[:4], ", ")+" ...")
		return false
	}
	head := t.rows[0]
	t.rows, t.width = t.rows[1:], len(head.cells)
	taken := map[int]string{}
	for _, our := range slices.Sorted(maps.Keys(columns)) {
		i := slices.IndexFunc(head.cells, func(s string) bool { return fold(s) == fold(columns[our]) })
		switch {
		case !slices.Contains(ours, our):
			t.fail(0, CodeColumn, "Columns", our, "no column of this package", oneOf(our, ours))
		case i < 0 || columns[our] == "":
			t.fail(head.line, CodeColumn, our, columns[our], "the table has no column of this name", "its columns are "+strings.Join(head.cells, ", "))
		default:
			taken[i], t.at[our] = our, i
		}
	}
	for i, cell := range head.cells {
		name := fold(cell)
		_, twice := t.at[name]
		switch {
		case taken[i] != "" || name == "" && !t.filled(i):
		case name == "":
			t.say(head.line, calendar.ClassWarning, CodeColumn, fmt.Sprintf("column %d", i+1), "", "the column has no name and is not read", "name it, or take it out")
		case twice && columns[name] == "":
			t.fail(head.line, CodeColumn, name, cell, "two columns have the same name", "keep one of them")
		case !twice && slices.Contains(ours, name):
			t.at[name] = i
		default:
			class := calendar.ClassWarning
			if strict {
				class = calendar.ClassError
			}
			t.say(head.line, class, CodeColumn, "", cell, "unknown column: it is not read", oneOf(name, ours))
		}
	}
	if _, ok := t.at["kind"]; !ok {
		t.fail(head.line, CodeColumn, "kind", "", "the table has no column kind", "add it: each row says whether it is a session, a set, a game ...")
		return false
	}
	return t.fatal == before
}

// filled reports whether any row has something in a column.
func (t *table) filled(i int) bool {
	return slices.ContainsFunc(t.rows, func(r row) bool { return i < len(r.cells) && r.cells[i] != "" })
}
