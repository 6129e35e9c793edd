package icalendar

import (
	"bytes"
	"io"
)

// scanner turns bytes into unfolded content lines. Lines end with CRLF, LF or
// CR; empty lines are passed over, also between a line and its continuation,
// because doubled line ends are common in mailed files. Folds are undone on
// octets, before the text is read as UTF-8, since a fold may cut a rune.
type scanner struct {
	r         io.Reader
	buf       []byte
	pos, end  int
	eof       bool
	err       error // from the reader; never io.EOF
	total     int64
	maxBytes  int64
	maxLine   int
	line      int // number of the physical line that begins at pos
	afterCR   bool
	text      []byte
	truncated bool // the line was longer than maxLine; text holds its head
	tooBig    bool // maxBytes reached
}

func newScanner(r io.Reader, maxBytes int64, maxLine int) *scanner {
	return &scanner{r: r, buf: make([]byte, 64<<10), maxBytes: maxBytes, maxLine: maxLine, line: 1}
}

// fill makes at least one byte available, or reports false at the end.
func (s *scanner) fill() bool {
	for s.pos == s.end {
		if s.eof {
			return false
		}
		s.pos, s.end = 0, 0
		empty := 0
		for s.end == 0 && !s.eof {
			n, err := s.r.Read(s.buf)
			if n < 0 || n > len(s.buf) {
				n, err = 0, io.ErrNoProgress
			}
			s.end = n
			if err != nil {
				s.eof = true
				if err != io.EOF {
					s.err = err
				}
			}
			if n == 0 {
				if empty++; empty > 100 && !s.eof {
					s.eof, s.err = true, io.ErrNoProgress
				}
			}
		}
		if s.total == 0 && s.end > 0 {
			s.skipBOM()
		}
		s.total += int64(s.end)
		if s.total > s.maxBytes {
			s.tooBig, s.eof = true, true
			s.pos, s.end = 0, 0
			return false
		}
		if s.afterCR && s.pos < s.end {
			s.afterCR = false
			if s.buf[s.pos] == '\n' {
				s.pos++
			}
		}
	}
	return true
}

// skipBOM passes over a UTF-8 byte order mark at the head of the file.
func (s *scanner) skipBOM() {
	for s.end < 3 && !s.eof {
		n, err := s.r.Read(s.buf[s.end:])
		if n < 0 || n > len(s.buf)-s.end {
			n, err = 0, io.ErrNoProgress
		}
		s.end += n
		if err != nil {
			s.eof = true
			if err != io.EOF {
				s.err = err
			}
		} else if n == 0 {
			break
		}
	}
	if bytes.HasPrefix(s.buf[:s.end], []byte("\xef\xbb\xbf")) {
		s.pos = 3
	}
}

// physical appends the rest of the physical line to text and consumes its end.
func (s *scanner) physical() {
	for s.fill() {
		// A short window keeps a file with CR ends from being searched to the
		// end of the buffer for each line.
		chunk := s.buf[s.pos:min(s.end, s.pos+512)]
		cut := bytes.IndexByte(chunk, '\n')
		if cut < 0 {
			cut = len(chunk)
		}
		if cr := bytes.IndexByte(chunk[:cut], '\r'); cr >= 0 {
			cut = cr
		}
		s.add(chunk[:cut])
		if cut == len(chunk) {
			s.pos += cut
			continue
		}
		s.eol(s.pos + cut)
		return
	}
}

// eol consumes the line end that begins at index i of buf.
func (s *scanner) eol(i int) {
	s.line++
	s.pos = i + 1
	if s.buf[i] == '\r' {
		if s.pos < s.end {
			if s.buf[s.pos] == '\n' {
				s.pos++
			}
		} else {
			s.afterCR = true
		}
	}
}

func (s *scanner) add(b []byte) {
	if room := s.maxLine - len(s.text); len(b) > room {
		b = b[:max(room, 0)]
		s.truncated = true
	}
	s.text = append(s.text, b...)
}

// next returns the next content line and the number of its first physical
// line. The bytes are valid until the call after.
func (s *scanner) next() (text []byte, line int, ok bool) {
	s.text, s.truncated = s.text[:0], false
	s.blank()
	if !s.fill() {
		return nil, s.line, false
	}
	line = s.line
	s.physical()
	for {
		s.blank()
		if !s.fill() {
			break
		}
		if c := s.buf[s.pos]; c != ' ' && c != '\t' {
			break
		}
		s.pos++
		s.physical()
	}
	return s.text, line, true
}

// blank passes over empty physical lines.
func (s *scanner) blank() {
	for s.fill() && (s.buf[s.pos] == '\r' || s.buf[s.pos] == '\n') {
		s.eol(s.pos)
	}
}
