package history

import (
	"example.org/weft/calendar"
	"example.org/weft/internal/layered"
	"example.org/weft/internal/starts"
	"example.org/weft/periodize/season"
)

// Ready is a request made ready for the engine: what there is to choose from, and
// its rules over days compiled. Refused says that nothing may be planned; then
// nothing is compiled.
type Ready struct {
	Request  season.Request // canonical
	Model    *starts.Model
	Compiled *layered.Model
	Refused  bool
	Notes    []calendar.Problem
}
