package main

import "example.org/weft/periodize/rule"

func defaultRules() *rule.Set { return rule.Default() }

// ruleKnown returns the first rule of a family, "" if there is none.
func ruleKnown(family string) string {
	for _, r := range rule.Table() {
		if r.Kind == rule.Limit && rule.Family(r.ID) == family {
			return r.ID
		}
	}
	return ""
}
