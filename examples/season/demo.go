package main

import (
	invented "example.org/weft/internal/demo"
	"example.org/weft/periodize/season"
)

// demo is planned where no input is named.
func demo() *season.Request { return invented.Season() }
