// Package blanks reads and fills texts with blanks, "ends {hours} before the next
// game". There is no way to write a brace that opens none.
package blanks

import "strings"

// Names are the names of the blanks, in the order of the text.
func Names(text string) (out []string) {
	for _, part := range strings.Split(text, "{")[1:] {
		name, _, _ := strings.Cut(part, "}")
		out = append(out, name)
	}
	return out
}

// Fill puts values into a text, once: braces in a value stay as they are, and so
// does a blank without a value.
func Fill(text string, value func(name string) (string, bool)) string {
	var b strings.Builder
	b.Grow(len(text) + 24)
	for {
		before, rest, open := strings.Cut(text, "{")
		b.WriteString(before)
		if !open {
			return b.String()
		}
		name, after, closed := strings.Cut(rest, "}")
		v, known := value(name)
		if !closed || !known {
			b.WriteByte('{')
			text = rest
			continue
		}
		b.WriteString(v)
		text = after
	}
}
