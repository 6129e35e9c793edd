package jsonread

// Defaults of [Limits]. A season with 100,000 events of ten fields each is
// about 1.1 million values in 25 MB.
const (
	DefaultBytes       = 64 << 20
	DefaultDepth       = 32
	DefaultNodes       = 4_000_000
	DefaultStringBytes = 64 << 10
	DefaultNameBytes   = 256
	DefaultProblems    = 100

	// MaxBytes is the most that any limit can allow: positions are 32 bits.
	MaxBytes = 1 << 30
)

// Limits bound what a text may hold. A field that is zero or negative stands
// for its default; Bytes above [MaxBytes] stands for MaxBytes.
type Limits struct {
	Bytes       int64 // length of the whole text
	Depth       int   // arrays and objects inside one another
	Nodes       int   // values of any kind, containers included
	StringBytes int   // one string, as written between its quotes
	NameBytes   int   // one field name, as written between its quotes
}

func (l Limits) filled() Limits {
	if l.Bytes <= 0 {
		l.Bytes = DefaultBytes
	}
	l.Bytes = min(l.Bytes, MaxBytes)
	if l.Depth <= 0 {
		l.Depth = DefaultDepth
	}
	if l.Nodes <= 0 {
		l.Nodes = DefaultNodes
	}
	if l.StringBytes <= 0 {
		l.StringBytes = DefaultStringBytes
	}
	if l.NameBytes <= 0 {
		l.NameBytes = DefaultNameBytes
	}
	return l
}

// Options say how a text is read. The zero value is ready for use.
type Options struct {
	Limits Limits

	// Strict makes an unknown field an error; else it is a warning.
	Strict bool

	// Private names fields whose content no problem may show, at any depth and
	// with all they hold, such as "restrictions". Case and small misspellings
	// do not matter: showing too little does no harm.
	Private []string

	// Problems is the most problems that [Document.Problems] lists before one
	// that counts the rest; zero or negative stands for [DefaultProblems].
	Problems int
}
