package columns

import (
	"errors"
	"math"
	"slices"
)

// LP is the least sum of costs of numbers x >= 0 under rows of sums, solved by
// the revised primal simplex method with a dense inverse of the basis. Columns may
// be added after a solve, which then goes on from where it stood. It is meant for
// some hundred rows.
//
// Every product is rounded before it is added, so that machines with a fused
// multiply-add take the same steps as those without.
type LP struct {
	m     int
	right []float64
	cols  []lpColumn
	costs []float64
	basis []int     // column of each row
	at    []int     // row of each column, -1 if it is not basic
	off   []bool    // columns that may not enter
	inv   []float64 // inverse of the basis, column after column: inv[k*m+r] is its row r
	x     []float64 // value of each row's column
	dual  []float64
	alpha []float64
	cheap []float64 // costs of the first phase
	some  []int     // scratch: the columns that the last pivot's row has something in
	falls []int     // scratch: the rows whose numbers the last pivot changed
	ready bool      // the first phase is over
	since int       // pivots since the inverse was computed afresh
	from  int       // where the search for a column goes on
	// Pivots counts the steps of all solves.
	Pivots int
}

type lpColumn struct {
	rows   []int
	coefs  []float64
	barred bool // artificial: only there for the first phase
}

// Why a linear program has no answer.
var (
	ErrLPInfeasible = errors.New("columns: no numbers satisfy the rows")
	ErrLPUnbounded  = errors.New("columns: the cost falls without end")
	ErrLPSteps      = errors.New("columns: the simplex method takes too many steps")
	ErrLPSingular   = errors.New("columns: the basis is singular")
)

// Tolerances of the simplex method, on rows and costs of size one.
const (
	lpZero     = 1e-9
	lpPivot    = 1e-8
	lpSingular = 1e-11 // a pivot of a fresh inverse below it is none
	lpRefresh  = 250   // pivots after which the inverse is computed afresh
	lpBlock    = 256   // columns among which the best is taken
	lpTie      = 1e-11 // steps that differ by less are equal, numbers below it zero
	lpMoved    = 1e-9  // a step that counts as progress
	lpStall    = 60    // steps without progress after which Bland's rule decides
	lpUnsure   = 20    // so many steps without progress, and the duals are computed afresh
	lpSteps    = 2000  // of one solve, and 20 for each row
)

// NewLP makes a program of rows: sum <= right, or sum == right where equal says
// so.
func NewLP(right []float64, equal []bool) *LP {
	p := &LP{m: len(right), right: append([]float64(nil), right...)}
	p.basis = make([]int, p.m)
	p.inv = make([]float64, p.m*p.m)
	p.x = make([]float64, p.m)
	p.dual, p.alpha = make([]float64, p.m), make([]float64, p.m)
	for r := range right {
		slack := -1
		if !equal[r] {
			slack = p.Add(0, []int{r}, []float64{1})
		}
		sign := 1.0
		if right[r] < 0 {
			sign = -1
		}
		basic := slack
		if slack < 0 || sign < 0 {
			basic = p.Add(0, []int{r}, []float64{sign})
			p.cols[basic].barred, p.off[basic] = true, true
			p.cheap[basic] = 1
		}
		p.basis[r], p.at[basic] = basic, r
		p.inv[r*p.m+r] = sign
		p.x[r] = sign * right[r]
	}
	return p
}

// Add adds a column and returns its number. Rows must not repeat.
func (p *LP) Add(cost float64, rows []int, coefs []float64) int {
	p.cols = append(p.cols, lpColumn{rows: rows, coefs: coefs})
	p.costs = append(p.costs, cost)
	p.cheap = append(p.cheap, 0)
	p.at = append(p.at, -1)
	p.off = append(p.off, false)
	return len(p.cols) - 1
}

// Bar changes the cost of a column and lets it enter no more: if it is part of the
// answer it stays so until another column takes its place.
func (p *LP) Bar(col int, cost float64) {
	p.costs[col] = cost
	p.off[col] = true
}

// Clone returns a copy that goes on by itself.
func (p *LP) Clone() *LP {
	q := *p
	q.cols = p.cols[:len(p.cols):len(p.cols)] // columns are never changed
	q.costs, q.cheap = slices.Clone(p.costs), slices.Clone(p.cheap)
	q.basis, q.at, q.inv, q.x = slices.Clone(p.basis), slices.Clone(p.at), slices.Clone(p.inv), slices.Clone(p.x)
	q.off = slices.Clone(p.off)
	q.dual, q.alpha = slices.Clone(p.dual), slices.Clone(p.alpha)
	q.some, q.falls = nil, nil
	return &q
}

// Value returns the number of a column in the last answer.
func (p *LP) Value(col int) float64 {
	if r := p.at[col]; r >= 0 {
		return p.x[r]
	}
	return 0
}

// Dual returns by how much the least cost grows with the right side of a row.
func (p *LP) Dual(row int) float64 { return p.dual[row] }

// Cost returns the cost of the last answer.
func (p *LP) Cost() float64 {
	var sum float64
	for r, c := range p.basis {
		sum += float64(p.costs[c] * p.x[r])
	}
	return sum
}

// Solve finds the least cost.
func (p *LP) Solve() error {
	if !p.ready {
		if err := p.phase(true); err != nil {
			return err
		}
		for r, c := range p.basis {
			if p.cols[c].barred && p.x[r] > 1e-7 {
				return ErrLPInfeasible
			}
		}
		p.ready = true
	}
	return p.phase(false)
}

func (p *LP) cost(c int, first bool) float64 {
	if first {
		return p.cheap[c]
	}
	return p.costs[c]
}

// phase takes steps until no column promises anything.
func (p *LP) phase(first bool) error {
	stalled := 0
	p.duals(first)
	sure := true // the duals were computed afresh
	for step := 0; step < lpSteps+20*p.m; step++ {
		enter := p.entering(first, stalled > lpStall)
		if enter < 0 {
			if sure {
				return nil
			}
			p.duals(first)
			sure = true
			continue
		}
		d := p.reduced(enter, first)
		p.column(enter)
		leave := p.leaving(stalled > lpStall)
		if leave < 0 {
			return ErrLPUnbounded
		}
		if p.pivot(leave, enter) > lpMoved {
			stalled = 0
		} else {
			stalled++
		}
		for _, k := range p.some { // the duals move so that the new column breaks even
			p.dual[k] += float64(d * p.inv[k*p.m+leave])
		}
		if sure = stalled > 0 && stalled%lpUnsure == 0; sure {
			p.duals(first)
		}
		if p.since >= lpRefresh {
			if err := p.refresh(); err != nil {
				return err
			}
			p.duals(first)
			sure = true
		}
	}
	return ErrLPSteps
}

// duals computes the prices of the rows: basic costs times the inverse.
func (p *LP) duals(first bool) {
	priced := p.some[:0] // rows whose column costs anything
	for r, c := range p.basis {
		if p.cost(c, first) != 0 {
			priced = append(priced, r)
		}
	}
	for k := range p.dual {
		var sum float64
		col := p.inv[k*p.m : (k+1)*p.m]
		for _, r := range priced {
			sum += float64(p.cost(p.basis[r], first) * col[r])
		}
		p.dual[k] = sum
	}
}

// reduced is what a column costs more than the rows it uses are worth.
func (p *LP) reduced(c int, first bool) float64 {
	d := p.cost(c, first)
	col := &p.cols[c]
	for i, r := range col.rows {
		d -= float64(p.dual[r] * col.coefs[i])
	}
	return d
}

// size is how large the numbers are that reduced is the difference of: what it is
// exact to.
func (p *LP) size(c int, first bool) float64 {
	size := 1 + math.Abs(p.cost(c, first))
	col := &p.cols[c]
	for i, r := range col.rows {
		size += math.Abs(float64(p.dual[r] * col.coefs[i]))
	}
	return size
}

// entering picks the column that saves most for one unit, the first of equals,
// out of the next block of columns in which one saves anything; with Bland's rule
// the first of all.
func (p *LP) entering(first, bland bool) int {
	n := len(p.cols)
	if bland {
		p.from = 0
	}
	best, low := -1, 0.0
	for i := 0; i < n; i++ {
		c := p.from + i
		if c >= n {
			c -= n
		}
		if p.at[c] < 0 && !p.off[c] {
			if d := p.reduced(c, first); d < low && d < -lpZero*p.size(c, first) {
				if bland {
					return c
				}
				best, low = c, d
			}
		}
		if best >= 0 && i%lpBlock == lpBlock-1 {
			p.from = (c + 1) % n
			return best
		}
	}
	return best
}

// column computes how the basic numbers fall when a column grows.
func (p *LP) column(c int) {
	clear(p.alpha)
	col := &p.cols[c]
	for i, k := range col.rows {
		f := col.coefs[i]
		for r, v := range p.inv[k*p.m : (k+1)*p.m] {
			p.alpha[r] += float64(v * f)
		}
	}
}

// leaving picks the row whose number falls to zero first. Among equals an
// artificial number goes first, then the largest pivot; with Bland's rule the
// first column.
func (p *LP) leaving(bland bool) int {
	best, low := -1, math.Inf(1)
	for r := 0; r < p.m; r++ {
		a := p.alpha[r]
		barred := p.ready && p.cols[p.basis[r]].barred
		if barred && math.Abs(a) > lpPivot {
			return r // it stays zero
		}
		if a <= lpPivot {
			continue
		}
		t := max(p.x[r], 0) / a
		switch {
		case best < 0 || t < low-lpTie:
		case t > low+lpTie:
			continue
		case bland && p.basis[r] > p.basis[best]:
			continue
		case !bland && a <= p.alpha[best]:
			continue
		}
		best, low = r, min(low, t)
	}
	return best
}

// pivot lets a column enter the basis for a row's, and returns how far it went.
func (p *LP) pivot(leave, enter int) float64 {
	a := p.alpha[leave]
	t := p.x[leave] / a
	if t < lpTie { // rounding may have left a number a trace below zero
		t = 0
	}
	p.eliminate(leave)
	for _, r := range p.falls {
		if p.x[r] -= float64(p.alpha[r] * t); math.Abs(p.x[r]) < lpTie {
			p.x[r] = 0
		}
	}
	p.at[p.basis[leave]] = -1
	p.basis[leave], p.at[enter] = enter, leave
	p.x[leave] = t
	p.Pivots++
	p.since++
	return math.Abs(t)
}

// refresh computes the inverse and the numbers afresh, so that rounding does not
// add up: columns that stand in one row alone first, then the others, one pivot for
// each, in the free row where it is largest. Which row a column belongs to may change.
func (p *LP) refresh() error {
	m := p.m
	clear(p.inv)
	var left []int
	taken := make([]bool, m)
	basis := make([]int, m)
	for _, c := range p.basis {
		col := &p.cols[c]
		if len(col.rows) != 1 || taken[col.rows[0]] {
			left = append(left, c)
			continue
		}
		r := col.rows[0]
		taken[r], basis[r] = true, c
	}
	for r, ok := range taken {
		p.inv[r*m+r] = 1
		if ok {
			p.inv[r*m+r] = 1 / p.cols[basis[r]].coefs[0]
		}
	}
	for _, c := range left {
		p.column(c)
		best := -1
		for r, ok := range taken {
			if a := math.Abs(p.alpha[r]); !ok && (best < 0 || a > math.Abs(p.alpha[best])) {
				best = r
			}
		}
		if best < 0 || math.Abs(p.alpha[best]) < lpSingular {
			return ErrLPSingular
		}
		taken[best], basis[best] = true, c
		p.eliminate(best)
	}
	copy(p.basis, basis)
	for r, c := range p.basis {
		p.at[c] = r
	}
	clear(p.x)
	for k, right := range p.right {
		for r, v := range p.inv[k*m : (k+1)*m] {
			p.x[r] += float64(v * right)
		}
	}
	for r, v := range p.x {
		if math.Abs(v) < lpTie {
			p.x[r] = 0
		}
	}
	p.since = 0
	return nil
}

// eliminate turns the column in alpha into the unit column of a row. The inverse is
// mostly zeros: what changes are the places where both that row and alpha have
// something.
func (p *LP) eliminate(row int) {
	rows := p.falls[:0]
	for r, f := range p.alpha {
		if r != row && f != 0 {
			rows = append(rows, r)
		}
	}
	p.falls, p.some = rows, p.some[:0]
	a := p.alpha[row]
	for k := 0; k < p.m; k++ {
		col := p.inv[k*p.m : (k+1)*p.m]
		if col[row] == 0 {
			continue
		}
		p.some = append(p.some, k)
		col[row] /= a
		v := col[row]
		for _, r := range rows {
			col[r] -= float64(p.alpha[r] * v)
		}
	}
}
