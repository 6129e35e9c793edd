package rule

import (
	"fmt"
	"time"

	"example.org/weft/periodize/season"
)

// Club makes rules of those that a request carries as data, which
// [season.Request.Validate] has found to be in order. Their text is what the club
// says of them, else it is made of their numbers.
func Club(list []season.ClubRule) []Custom {
	var out []Custom
	for _, r := range list {
		w := Which{Kinds: r.Kinds, Days: r.Days, From: r.From, To: r.To}
		wait := time.Duration(r.Minutes) * time.Minute
		doc := r.Says
		if doc == "" {
			doc = clubDoc(r)
		}
		var c Custom
		switch r.Shape {
		case season.ClubForbid:
			c = Forbid(r.ID, doc, w)
		case season.ClubCost:
			c = Costs(r.ID, doc, r.Points, w)
		case season.ClubAfter:
			c = After(r.ID, doc, Match{Kind: r.EventKind, Title: r.EventTitle}, wait, w)
		case season.ClubAtMost:
			c = AtMost(r.ID, doc, r.Most, r.Dates, r.Points, w)
		case season.ClubApart:
			c = Apart(r.ID, doc, wait, r.Points, w)
		case season.ClubAtLeast:
			c = AtLeast(r.ID, doc, Need{Least: r.Least, Dates: r.Dates, Points: r.Points, Which: w,
				Events: Match{Kind: r.EventKind, Title: r.EventTitle}, Before: r.Before})
		default:
			c = Custom{ID: r.ID, Doc: doc}
		}
		c.club = true
		out = append(out, c)
	}
	return out
}

func clubDoc(r season.ClubRule) string {
	switch r.Shape {
	case season.ClubForbid:
		return "no such session, says the club"
	case season.ClubCost:
		return "a session the club would rather not have"
	case season.ClubAfter:
		return fmt.Sprintf("such a session starts %d minutes or more after the event", r.Minutes)
	case season.ClubAtMost:
		return fmt.Sprintf("at most %d such sessions in any %d dates", r.Most, r.Dates)
	case season.ClubAtLeast:
		return fmt.Sprintf("such a session on %d of any %d dates", r.Least, r.Dates)
	}
	return fmt.Sprintf("such sessions %d minutes or more apart", r.Minutes)
}
