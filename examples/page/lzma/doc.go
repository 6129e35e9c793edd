// Package lzma packs the engine: the compiled program is a third smaller in the
// LZMA format than with gzip, and a browser unpacks it in a fraction of a second.
//
// It writes the "LZMA alone" format as its author's public specification
// describes it (Igor Pavlov, LZMA specification, draft of 2015; from memory), with
// lc=4, lp=0, pb=0 and the size in the header. The page has the other half, in
// JavaScript; the tests read the stream with a third program.
package lzma
