module example.org/weft

go 1.23.0

require (
	github.com/google/go-cmp v0.7.0
	github.com/rickb777/date/v2 v2.1.8
	pgregory.net/rapid v1.3.0
)
