// Package loadcheck compares package load with gonum/stat, as a second opinion.
// It has tests only, and is a module of its own so that nothing else depends on
// gonum.
package loadcheck
