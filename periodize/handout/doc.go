// Package handout writes what people read: one sheet an audience, from one plan,
// as text and as HTML with inline SVG.
//
// # Contract
//
// [New] puts a plan beside its request; the methods of the [Book] it returns
// write the sheets:
//
//	Season    the season strip                         for all
//	Month     a month on a page                        for the athlete
//	Week      a week, with reasons and boxes to tick   for the athlete
//	Session   a session, with boxes for each set       for the athlete alone
//	Slip      what changes, why, whom to tell          for all it concerns
//	Coach     two weeks on half a page                 for the head coach
//	Parent    a week in at most 150 words              for parents
//	CSV       sessions and games                       for spreadsheets
//
// [Physio] is the list for the physiotherapist and [Wall] what hangs on a wall,
// each of several books. [RetentionBands], [WeekLoads] and [Slots] are pictures
// of figures that other packages have. A [Sheet] has pages, each with what it is,
// whose it is, the cautions, and the period, zone, plan and rules it comes from;
// wherever there are marks, a key. Pages fit on A4 or US Letter. [Document] puts
// sheets behind each other. The same plan gives the same bytes.
//
// Nothing is said by colour alone: every mark has a shape or a hatch and a word
// in the key, and behind every picture stands a table. Words and marks have a
// contrast of 4.5 to 1 or more on their ground, light or dark (WCAG 2.1, 1.4.3);
// print is always on white. Times are those of the plan's zone; what takes place
// where the clock shows something else says "time there". Whatever comes from the
// input is escaped, its control characters inert. The HTML holds no script, no
// link and no address, so nothing is requested.
//
// What others than the athlete and the physiotherapist read has nothing about
// health: a session that was changed on the day says "modified", never why, a
// hold is "ask the coach", and a [Wall] has no field for it.
//
// # Not for
//
// Planning, and words of another language: a plan's notes carry codes and values
// for that. A calendar for a telephone is written by package calendar/icalendar.
//
// # Start
//
//	book, err := handout.New(request, plan, handout.Options{})
//	page := book.Season().HTML()
package handout
