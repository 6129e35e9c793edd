// Package jsonread reads JSON written by people and by programs we do not
// know, and reports every problem of a text at once. Each problem carries its
// path (RFC 6901), line, column, the value as printable text, the reason and
// what to do about it.
//
// # Contract
//
// [Read] checks the text as a whole and never panics. A fault inside one
// value (a number such as 007, NaN, a bad escape, bad UTF-8, half a surrogate
// pair, a trailing comma, a name given twice, text after the end) is recorded
// and reading goes on. A fault after which the structure is a guess (a missing
// comma or bracket, a comment, a limit on bytes, nesting or count) ends the
// reading; then [Document.Root] is absent, so no half of a text is ever used.
//
// Typed access ([Value.Int], [Value.String], [Value.Text], ...) returns false
// where the value is missing or wrong and records why. It is silent for a
// value that was reported already, so that one fault gives one problem and a
// caller may simply read on to the end.
//
// These are errors: null in any place (a field that has no value is left out;
// null never stands for a default), two fields of one name in an object, a
// name that differs from a known one only in its case, U+0000 in a string,
// bad UTF-8. These are warnings: a byte order mark, other control characters
// in strings, and unknown fields unless [Options.Strict] is set.
//
// Work and memory are linear in the length of the text. The same text gives
// the same problems in the same order: by position, then in the order of the
// calls that found them.
//
// A [Document] is not safe for concurrent use: reading records problems.
//
// # Not for
//
// Writing JSON, streams of several values, filling structs by reflection, or
// floating point: numbers are whole ([Value.Int]) or fixed-point
// ([Value.Decimal]).
package jsonread
