package jsonread

// lines finds the line and column of an offset in constant time after one pass
// over the text: it keeps the place of every stride-th byte.
type lines struct {
	src   []byte
	base  int32 // after a byte order mark, which has no width
	marks []place
}

type place struct{ line, col int32 }

const stride = 4096

// step moves a place over bytes. A column is counted at the first byte of a
// character, so that a mark may fall inside one.
func (p place) step(b []byte) place {
	for _, c := range b {
		switch {
		case c == '\n':
			p.line++
			p.col = 1
		case c&0xC0 != 0x80:
			p.col++
		}
	}
	return p
}

func (l *lines) at(off int32) (line, col int) {
	if l.marks == nil {
		p := place{1, 1}
		for b := l.src[l.base:]; ; b = b[stride:] {
			l.marks = append(l.marks, p)
			if len(b) <= stride {
				break
			}
			p = p.step(b[:stride])
		}
	}
	off = max(off, l.base)
	k := (off - l.base) / stride
	if int(k) == len(l.marks) { // the end of a text of whole strides
		k--
	}
	p := l.marks[k].step(l.src[l.base+k*stride : off])
	return int(p.line), int(p.col)
}
