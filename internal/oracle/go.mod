module example.org/weft/internal/oracle

go 1.23.0

require (
	example.org/weft v0.0.0
	github.com/crillab/gophersat v1.4.0
)

require (
	github.com/govalues/decimal v0.1.36 // indirect
	github.com/rickb777/date/v2 v2.1.8 // indirect
	github.com/rickb777/period v1.0.9 // indirect
	github.com/rickb777/plural v1.4.2 // indirect
)

replace example.org/weft => ../..
