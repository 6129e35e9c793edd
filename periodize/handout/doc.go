// Package handout writes what people read: one sheet an audience, from one plan,
// as text and as HTML with inline SVG.
//
// # Contract
//
// [New] puts a plan beside its request; the methods of the [Book] it returns
// write the sheets. A [Sheet] has pages, each with what it is, whose it is, which
// plan and rules it comes from and the cautions. A [Figure] is a picture that
// stands in sheets and alone. The same plan gives the same bytes.
//
// Nothing is said by colour alone: every mark has a shape or a hatch and a word
// in the key, and behind every picture stands a table. Colours keep a contrast of
// 4.5 to 1 for words, on white and on dark ground; print is always on white.
// Whatever comes from the input is escaped, its control characters inert. The
// HTML holds no script, no reference and no address, so nothing is requested.
//
// What others than the athlete, a physiotherapist and the coach read has nothing
// about health: a session that was changed on the day says "modified", never why.
//
// # Not for
//
// Planning, and words of another language: a plan's notes carry codes and values
// for that.
//
// # Start
//
//	book, err := handout.New(request, plan, handout.Options{})
//	page := book.Season().HTML()
package handout
