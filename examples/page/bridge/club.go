package bridge

import (
	"fmt"
	"slices"
	"strings"

	"example.org/weft/calendar"
	"example.org/weft/internal/say"
	"example.org/weft/periodize/season"
)

// ClubRule is a rule of the club as the form has it: one that the request has
// already, by its id and in words, or a new one in parts.
type ClubRule struct {
	ID   string `json:"id"`   // "" of a new one
	Text string `json:"text"` // of one that is there: what it says

	Says   string   `json:"says"`
	Shape  string   `json:"shape"`
	Kinds  []string `json:"kinds"`
	Days   string   `json:"days"`  // "Mon-Fri"; "": every day
	Hours  string   `json:"hours"` // "18:00-24:00"; "": any time
	Most   string   `json:"most"`
	Least  string   `json:"least"`
	Dates  string   `json:"dates"`
	Apart  string   `json:"apart"` // hours
	After  string   `json:"after"` // kind of event
	Points string   `json:"points"`
}

// clubShape is a shape with the fields it has in the form. "points!" has to be
// there, "points" makes an aim of what is a limit without it.
type clubShape struct {
	shape season.ClubShape
	text  string
	parts []string
}

var clubShapes = []clubShape{
	{season.ClubForbid, "never such a session", nil},
	{season.ClubCost, "rather no such session", []string{"points!"}},
	{season.ClubAtMost, "at most so many in some dates", []string{"most", "dates", "points"}},
	{season.ClubAtLeast, "on so many of some dates at least", []string{"least", "dates", "points!"}},
	{season.ClubApart, "so many hours between two", []string{"apart", "points"}},
	{season.ClubAfter, "none for some hours after an event", []string{"after", "apart"}},
}

// clubText says a rule in plain words.
func clubText(r season.ClubRule) string {
	which := which(r)
	var out string
	switch r.Shape {
	case season.ClubForbid:
		out = "No " + which
	case season.ClubCost:
		out = "Rather no " + which
	case season.ClubAfter:
		event := calendar.Inert(r.EventTitle)
		switch {
		case event == "":
			event = "an event of the kind " + lower(string(r.EventKind))
		case r.EventKind != "":
			event = fmt.Sprintf("“%s” (%s)", event, r.EventKind)
		default:
			event = "“" + event + "”"
		}
		out = "No " + which + " within " + hours(r.Minutes) + " after " + event
	case season.ClubAtMost:
		out = fmt.Sprintf("At most %d in any %s: %s", r.Most, say.Count(r.Dates, "date"), which)
	case season.ClubAtLeast:
		out = fmt.Sprintf("On %d of any %s at least: %s", r.Least, say.Count(r.Dates, "date"), which)
	case season.ClubApart:
		out = "At least " + hours(r.Minutes) + " between two: " + which
	default:
		out = string(r.Shape)
	}
	if r.Points > 0 {
		out += fmt.Sprintf("; an aim, %s each time", say.Count(r.Points, "point"))
	} else {
		out += "; a limit"
	}
	if r.Says != "" {
		out = strings.TrimRight(calendar.Inert(r.Says), ".!? ") + ". " + out
	}
	return out
}

// which sessions a rule is about.
func which(r season.ClubRule) string {
	out := "session"
	if len(r.Kinds) > 0 {
		var kinds []string
		for _, k := range r.Kinds {
			kinds = append(kinds, say.Kind(k))
		}
		out = strings.Join(kinds, " or ")
	}
	if len(r.Days) > 0 {
		out += " on " + daysText(r.Days)
	}
	if r.From != 0 || r.To != 0 {
		out += " between " + say.Clock(r.From) + " and " + say.Clock(r.To)
	}
	return out
}

func hours(minutes int) string {
	if minutes%60 == 0 {
		return fmt.Sprintf("%d h", minutes/60)
	}
	return say.Count(minutes, "minute")
}

func clubOf(req *season.Request) []ClubRule {
	out := []ClubRule{}
	for _, r := range req.Club {
		out = append(out, ClubRule{ID: r.ID, Text: clubText(r), Kinds: []string{}})
	}
	return out
}

// club reads the rules of the form: what was there stays as it was, what is not
// in the form is gone.
func (r *reader) club(before []season.ClubRule, list []ClubRule) []season.ClubRule {
	var out []season.ClubRule
	taken := map[string]bool{}
	for _, x := range before {
		taken[x.ID] = true
	}
	for i, c := range list {
		at := fmt.Sprintf("club/%d/", i)
		if c.ID == "" {
			out = append(out, r.newClub(at, c, taken))
			continue
		}
		j := slices.IndexFunc(before, func(x season.ClubRule) bool { return x.ID == c.ID })
		if j < 0 {
			r.bad(at+"id", c.ID, "there is no such rule of the club", "reload the page")
			continue
		}
		out = append(out, before[j])
	}
	return out
}

// newClub reads a new rule. Whether its numbers may be is for package season to
// say.
func (r *reader) newClub(at string, c ClubRule, taken map[string]bool) season.ClubRule {
	i := slices.IndexFunc(clubShapes, func(s clubShape) bool { return string(s.shape) == c.Shape })
	if i < 0 {
		r.bad(at+"shape", c.Shape, "there is no such rule", "choose one of the list")
		return season.ClubRule{}
	}
	out := season.ClubRule{ID: newID(c, taken), Says: strings.TrimSpace(c.Says), Shape: clubShapes[i].shape}
	taken[out.ID] = true
	for _, k := range c.Kinds {
		out.Kinds = append(out.Kinds, season.Kind(k))
	}
	if days := strings.TrimSpace(c.Days); days != "" {
		out.Days, _, _ = r.days(at+"days", days+" 00:00", `write days, such as "Mon-Fri" or "Sat, Sun"`)
	}
	if text := strings.TrimSpace(c.Hours); text != "" {
		if h := r.hours(at+"hours", text); len(h) == 1 {
			out.From, out.To = h[0].From, h[0].To
		} else if len(h) > 1 {
			r.bad(at+"hours", text, "a rule has one span of hours", "write it as 18:00-24:00, and the rest as a rule of its own")
		}
	}
	for _, p := range clubShapes[i].parts {
		switch p {
		case "most":
			out.Most = r.part(at+"most", c.Most, true)
		case "least":
			out.Least = r.part(at+"least", c.Least, true)
		case "dates":
			out.Dates = r.part(at+"dates", c.Dates, true)
		case "apart":
			out.Minutes = 60 * r.part(at+"apart", c.Apart, true)
		case "points", "points!":
			out.Points = r.part(at+"points", c.Points, p == "points!")
		case "after":
			out.EventKind = calendar.Kind(c.After)
		}
	}
	return out
}

// part is a number of a rule, 0 for one that is left out.
func (r *reader) part(where, text string, needed bool) int {
	text = strings.TrimSpace(text)
	if text == "" {
		if needed {
			r.bad(where, "", "the number is missing", "write it in digits")
		}
		return 0
	}
	n, ok := r.number(where, text, false)
	if ok && (n < 0 || n > 10*season.MaxClubPoints) { // so that no sum of it overflows
		r.bad(where, text, "the number is too large or below nothing", "write a smaller one")
		return 0
	}
	return n
}

// newID is a word for a rule that no other rule has: of what it says, else of its
// shape.
func newID(c ClubRule, taken map[string]bool) string {
	words := strings.FieldsFunc(strings.ToLower(c.Says), func(x rune) bool { return (x < 'a' || x > 'z') && (x < '0' || x > '9') })
	if len(words) > 5 {
		words = words[:5]
	}
	base := "own-" + strings.Join(append(words, ""), "-")
	if len(words) == 0 || len(base) > 50 {
		base = "own-" + c.Shape + "-"
	}
	id := strings.TrimSuffix(base, "-")
	for n := 2; taken[id]; n++ {
		id = fmt.Sprintf("%s%d", base, n)
	}
	return id
}
