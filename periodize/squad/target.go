package squad

import (
	"slices"

	"example.org/weft/periodize/rule"
	"example.org/weft/periodize/season"
)

// RuleTarget is the wish for the plan of the whole season, and TargetPoints what a
// session costs that is not in it: less than any aim, so that it decides only where
// the weeks leave a choice.
const (
	RuleTarget   = "squad-target"
	TargetPoints = 2
)

// targetRule is the wish for the season behind the weeks that are planned. Dates and
// kinds are compared, not starts: these are for the slots of the hall to say.
func targetRule(p *season.Plan) rule.Custom {
	return rule.Custom{ID: RuleTarget, Doc: "the dates and kinds of the season's plan", Single: func(_ rule.Day, s rule.Session) rule.Verdict {
		if !p.Period.Contains(s.Date) || slices.ContainsFunc(p.Sessions, func(x season.Session) bool { return x.Kind == s.Kind && x.Date == s.Date }) {
			return rule.Verdict{}
		}
		return rule.Verdict{Points: TargetPoints}
	}}
}
