// Package oracle asks other programs the questions that the engine answers. The
// same season is written as an integer program for CBC and as clauses with
// weights for gophersat, from the definitions of the rules and not from their
// automata, and short seasons are judged plan by plan. It holds tests and a
// comparison of times, nothing that the library needs.
package oracle
