module example.org/weft

go 1.23.0

require (
	github.com/google/go-cmp v0.7.0
	github.com/rickb777/date/v2 v2.1.8
	github.com/teambition/rrule-go v1.8.2
	pgregory.net/rapid v1.3.0
)

require (
	github.com/govalues/decimal v0.1.36 // indirect
	github.com/rickb777/period v1.0.9 // indirect
	github.com/rickb777/plural v1.4.2 // indirect
)
