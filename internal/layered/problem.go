package layered

import (
	"errors"
	"fmt"
	"math"
)

// Inf is the cost of what may not be chosen. Costs add up saturating: nothing
// is dearer than Inf, and nothing that contains an Inf is cheaper.
const Inf int64 = math.MaxInt64 / 4

// MaxCost is the largest magnitude of a finite cost given by a caller, and of
// what a plan may cost in all: the largest costs of every layer and rule together
// are checked against it before a solve, so that no sum overflows.
const MaxCost int64 = 1 << 59

// ErrCosts says that the costs of a problem could add up to more than MaxCost.
var ErrCosts = errors.New("layered: costs could add up to more than the engine can count")

// Limits of a problem. They keep the work of a hostile problem bounded.
const (
	MaxLayers  = 4096
	MaxOptions = 4096
	MaxRules   = 128
)

// A Rule is a small weighted automaton over the decisions of a plan. It sees
// the layers in order, one chosen option each, and may charge for the choice
// or forbid it, by what its state remembers of the choices before.
//
// A rule must be a pure function of its arguments, must always allow at least
// one option, and its states must be few: see Settings.MaxStates.
type Rule interface {
	// Init is the state before the first layer.
	Init() uint64
	// Step returns the state after the option is chosen in the layer, and what
	// it costs there. Inf forbids the choice.
	Step(layer, option int, state uint64) (next uint64, cost int64)
}

// Grouper is an optional hint of a Rule: options of one layer with the same
// group are indistinguishable to the rule in every state. It saves calls of
// Step and is never needed for a right answer; CheckGroups tests it.
type Grouper interface {
	Group(layer, option int) uint64
}

// Problem is a choice of one option in each layer.
type Problem struct {
	// Options is the number of options of each layer, at least one each.
	Options []int
	// Rules charge for the choices. Their order changes nothing of the answer.
	Rules []Rule
}

// ErrStates says that a rule remembers more than the engine allows.
var ErrStates = errors.New("layered: a rule has too many states")

func (p Problem) check() error {
	if len(p.Options) > MaxLayers {
		return fmt.Errorf("layered: %d layers, at most %d", len(p.Options), MaxLayers)
	}
	if len(p.Rules) > MaxRules {
		return fmt.Errorf("layered: %d rules, at most %d", len(p.Rules), MaxRules)
	}
	for l, n := range p.Options {
		if n < 1 || n > MaxOptions {
			return fmt.Errorf("layered: layer %d has %d options, want 1 to %d", l, n, MaxOptions)
		}
	}
	return nil
}

// add adds two costs, saturating at Inf.
func add(a, b int64) int64 {
	if a >= Inf || b >= Inf {
		return Inf
	}
	return a + b
}
