package season

import "strconv"

// EventPath is the JSON pointer of an event of a request.
func EventPath(i int) string { return "/events/" + strconv.Itoa(i) }
