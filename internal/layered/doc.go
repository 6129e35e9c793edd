// Package layered finds a plan of least cost exactly: one option in each layer,
// with static costs for single options and rules for what depends on the
// options chosen before.
//
// It knows nothing of calendars or training, only integers. A rule is a small
// weighted automaton (Rule). Compile enumerates each rule's reachable states
// layer by layer, minimises it, and gathers options that no rule can tell apart.
// Solve then multiplies the rules into one graph, one at a time, coarse to fine.
//
// # Why the answer is exact
//
// Let p(s) be the least that a rule can still charge from its state s. A
// transition s -> t of cost c is stored as c + p(t) - p(s). Along any plan these
// differences telescope, so the plan's cost is the sum of p at the initial
// states (the base) plus the reduced costs; and a reduced cost is never negative.
//
// A graph of some of the rules therefore gives, from each of its nodes, a lower
// bound on what any continuation costs under all the rules: the exact least cost
// under the rules composed, the others counted as zero. When the next rule is
// composed, a node is dropped only if the cost to reach it plus that bound is
// more than the cost of a plan already known. No plan of least cost passes
// through such a node. After the last rule nothing is left out of the bound, and
// the least cost in the graph is the answer. If before that the best plan of a
// graph is charged nothing by the rules that are left, its cost is both bound and
// price, and it is the answer too; graphs that are asked more questions go on to
// the last rule.
//
// Which rule comes next decides only the work: the one that says most against the
// best plan of the graph. A rule with very many states (Large) is not compiled
// but unfolded, state by state as the graph asks for it, after all others; its
// charges are not pushed, so that it counts as zero until then.
//
// The known plan comes from a beam search, guided by the same bounds. It only
// ever supplies an upper bound: a beam's plan is called proved when an exact
// bound meets it, and never otherwise.
//
// # Ties, limits, work
//
// Among plans of equal cost the one with the smallest option numbers, layer by
// layer, is returned, whatever the order of the rules. Work is counted in nodes,
// not in seconds, so that an answer repeats on every machine; the context aborts
// a solve and never changes its answer. All costs are int64 and bounded by
// MaxCost each, so that no sum overflows.
//
// It is not a general solver: rules with many states, such as sums over long
// spans, make its graphs large, and a choice must be expressible as options in a
// fixed order of layers.
package layered
