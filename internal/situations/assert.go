package situations

import (
	"fmt"
	"strconv"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/periodize/season"
)

// Compare says what is wrong with a number, "" if nothing is; ops are = <= >=.
func Compare(got int, op, text string) string {
	want, err := strconv.Atoi(text)
	if err != nil {
		return err.Error()
	}
	if !map[string]bool{"=": got == want, "<=": got <= want, ">=": got >= want}[op] {
		return fmt.Sprint("got ", got)
	}
	return ""
}

// Those are the sessions of some kinds on some dates. Kinds stand with commas
// between them; besides the plan's own there are lift, heavy and session.
func Those(sessions []season.Session, kinds string, from, to calendar.Date) (out []season.Session) {
	for _, s := range sessions {
		for _, k := range strings.Split(kinds, ",") {
			is := k == string(s.Kind) || k == "session" || k == "lift" && s.Kind.Lift() || k == "heavy" && s.Kind.HeavyLowerBody()
			if is && !s.Date.Before(from) && !s.Date.After(to) {
				out = append(out, s)
				break
			}
		}
	}
	return out
}

// Ends are the two sides of "a..b"; of "a" both are a.
func Ends(span string) (from, to string) {
	from, to, two := strings.Cut(span, "..")
	if !two {
		to = from
	}
	return from, to
}
