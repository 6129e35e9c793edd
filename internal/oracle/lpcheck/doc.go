// Package lpcheck compares the linear program of package columns with gonum's
// simplex method and with CBC, as second opinions. It has tests only, and is a
// module of its own so that nothing else depends on gonum.
package lpcheck
