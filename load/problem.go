package load

import (
	"strconv"
	"strings"
)

// Problem is one thing wrong with an input, and what to do about it.
type Problem struct {
	Path   string `json:"path,omitempty"` // where in the input, empty for a single value
	Value  string `json:"value"`          // what was found, shortened and quoted
	Reason string `json:"reason"`
	Remedy string `json:"remedy"`
}

// InputError lists every problem of an input, in the order of the input.
type InputError struct {
	Problems []Problem
}

// Error gives one line a problem.
func (e *InputError) Error() string {
	lines := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// String gives the path, the value, the reason and the remedy on one line.
func (p Problem) String() string {
	s := p.Value + ": " + p.Reason + "; " + p.Remedy
	if p.Path != "" {
		s = p.Path + ": " + s
	}
	return s
}

// problems collects what is wrong before it is reported all at once.
type problems []Problem

func (ps *problems) add(path, value, reason, remedy string) {
	*ps = append(*ps, Problem{path, value, reason, remedy})
}

func (ps problems) err() error {
	if len(ps) == 0 {
		return nil
	}
	return &InputError{Problems: ps}
}

// quoted shows untrusted text inertly and briefly.
func quoted(s string) string {
	const most = 40
	if len(s) > most {
		return strconv.QuoteToASCII(s[:most]) + "..."
	}
	return strconv.QuoteToASCII(s)
}

func itoa(n int) string { return strconv.Itoa(n) }

func ftoa(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
