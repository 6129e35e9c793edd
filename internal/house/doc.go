// Package house has tests only, about the repository itself: which package may
// import which, what library code may not touch, that exported names are
// documented and shown in examples, and that the README says what is true.
package house
