// Package demo holds the invented season that the programs show when they are
// given no input: a handball club, Ulvesund, and an athlete of 20 who has trained
// with weights for three years and studies on the side. Club, opponents and dates
// are made up.
package demo
