// Package rule holds the rules of planning as data: one table, in which every
// number has an id, a unit, a default, a range and a source, and the set of them
// with which a request is planned.
//
// # Contract
//
// Limits are prohibitions that no plan breaks. Aims are needs, each with the
// points that a miss costs. Facts are numbers the others are computed with. Ids
// are stable. [New] applies what a request overrides, reports everything wrong
// with it at once, and never changes the table; safeguards of minors are loosened
// only with a named adult and a reason.
//
// What each rule means, exactly, is written in definitions.md beside this file.
//
// # Not for
//
// It judges nothing and plans nothing: see package periodize.
package rule
