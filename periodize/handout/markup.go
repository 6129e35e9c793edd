package handout

import (
	"html"
	"strconv"
	"strings"

	"example.org/weft/calendar"
)

// markup collects HTML. Tags and names of attributes are constants of this
// package; whatever else gets in is escaped, its control characters made inert.
type markup struct{ b strings.Builder }

// safe is a text as it may stand in an element or a quoted attribute.
func safe(s string) string { return html.EscapeString(calendar.Inert(s)) }

// open begins an element; attrs are names and values in turn, an empty value
// leaves the attribute out.
func (m *markup) open(tag string, attrs ...string) {
	m.b.WriteByte('<')
	m.b.WriteString(tag)
	for i := 0; i+1 < len(attrs); i += 2 {
		if attrs[i+1] == "" {
			continue
		}
		m.b.WriteByte(' ')
		m.b.WriteString(attrs[i])
		m.b.WriteString(`="`)
		m.b.WriteString(safe(attrs[i+1]))
		m.b.WriteByte('"')
	}
	m.b.WriteByte('>')
}

func (m *markup) close(tag string) {
	m.b.WriteString("</")
	m.b.WriteString(tag)
	m.b.WriteByte('>')
}

func (m *markup) text(s string) { m.b.WriteString(safe(s)) }

// line ends a line of the source, for those who read it.
func (m *markup) line() { m.b.WriteByte('\n') }

// el writes an element that holds a text and nothing else.
func (m *markup) el(tag, text string, attrs ...string) {
	m.open(tag, attrs...)
	m.text(text)
	m.close(tag)
}

func itoa(n int) string { return strconv.Itoa(n) }
