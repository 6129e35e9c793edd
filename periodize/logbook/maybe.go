package logbook

// Maybe is a value that may not be known. The zero value is unknown, which is
// not zero.
type Maybe[T comparable] struct {
	Value T
	Known bool
}

// Told is a known value.
func Told[T comparable](v T) Maybe[T] { return Maybe[T]{v, true} }

// settled is the one form of a value that is not known.
func (m Maybe[T]) settled() Maybe[T] {
	if !m.Known {
		return Maybe[T]{}
	}
	return m
}
