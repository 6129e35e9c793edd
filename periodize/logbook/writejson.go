package logbook

import (
	"bufio"
	"io"
)

// WriteJSON writes a log as Reader.JSON reads it: one entry a line, sorted by
// athlete, id and what they say, so that equal logs have equal bytes and merged
// files differ by lines. The error is that of w.
func (l Log) WriteJSON(w io.Writer) error {
	b := bufio.NewWriter(w)
	b.WriteString("{\"schema\":1,\"entries\":[")
	for i := range l.list {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
		wire := wireOf(&l.list[i])
		b.Write(encoded(&wire))
	}
	b.WriteString("\n]}\n")
	return b.Flush()
}
