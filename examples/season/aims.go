package main

import (
	"slices"

	"example.org/weft/periodize/rule"
)

// sortAims orders aims as the rule table does: what is kept first comes first.
func sortAims(aims []string) {
	rank := map[string]int{}
	for i, r := range rule.Table() {
		rank[r.ID] = i
	}
	slices.SortStableFunc(aims, func(a, b string) int { return rank[a] - rank[b] })
}
