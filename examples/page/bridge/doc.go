// Package bridge stands between a page and the library: it holds what the page
// works on, answers its questions, and speaks JSON in both directions. It draws
// nothing and knows no browser, so that it is tested like any other package.
//
// A [Desk] has one request and the plan for it. What changes them is either done
// at once (a file, the athlete, rules) or shown first and then accepted (a game
// that moves, another place for a session). Reports of a day are answered and
// forgotten: nothing of them is in the request, and so in no file.
package bridge
