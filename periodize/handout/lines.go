package handout

import "example.org/weft/internal/say"

// textWidth is the widest line of a sheet as text.
const textWidth = 80

func newLines() say.Page { return say.Page{Width: textWidth} }
