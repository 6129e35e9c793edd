module example.org/weft/internal/oracle/lpcheck

go 1.23.0

require (
	example.org/weft v0.0.0
	gonum.org/v1/gonum v0.16.0
	pgregory.net/rapid v1.3.0
)

replace example.org/weft => ../../..
