package oracle

import (
	"time"

	"github.com/crillab/gophersat/solver"
)

// pseudo is a program over literals: sums with weights above zero, at least so
// much. gophersat misreads other weights, and rows that hold by themselves.
type pseudo struct {
	rows  []solver.PBConstr
	bits  [][]bit // of each variable
	next  int
	used  map[int]bool
	never bool // some row cannot hold
}

// bit is a literal and what it adds to its variable.
type bit struct {
	lit    int
	weight int64
}

func newPseudo(p *Program) *pseudo {
	q := &pseudo{used: map[int]bool{}}
	for _, v := range p.Vars {
		var bits []bit
		for left, w := v.Upper, int64(1); left > 0; w *= 2 {
			w = min(w, left)
			q.next++
			bits = append(bits, bit{q.next, w})
			left -= w
		}
		q.bits = append(q.bits, bits)
	}
	for _, r := range p.Rows {
		if r.Sense != AtMost {
			q.row(r.Terms, r.Right, 1)
		}
		if r.Sense != AtLeast {
			q.row(r.Terms, -r.Right, -1)
		}
	}
	return q
}

// row adds: sign times the sum of the terms is at least right.
func (q *pseudo) row(terms []Term, right, sign int64) {
	var lits []int
	var weights []int64
	for _, t := range terms {
		for _, b := range q.bits[t.Var] {
			lit, w := b.lit, sign*t.Coef*b.weight
			if w < 0 { // w x = w - w (not x)
				lit, w, right = -lit, -w, right-w
			}
			lits, weights = append(lits, lit), append(weights, w)
		}
	}
	if right <= 0 {
		return
	}
	var all int64
	ints := make([]int, len(weights))
	for i, w := range weights {
		w = min(w, right)
		ints[i] = int(w)
		all += w
		q.used[max(lits[i], -lits[i])] = true
	}
	if all < right {
		q.never = true
		return
	}
	q.rows = append(q.rows, solver.GtEq(lits, ints, int(right)))
}

// RunPseudo solves a program with gophersat. done is false if it takes longer
// than allowed or gives up with a panic of its own, possible false if there is no answer.
func RunPseudo(p *Program, limit time.Duration) (x []int64, possible, done bool) {
	q := newPseudo(p)
	if q.never {
		return nil, false, true
	}
	pb := solver.ParsePBConstrs(q.rows)
	if pb.Status == solver.Unsat {
		return nil, false, true
	}
	var lits []solver.Lit
	var weights []int
	weight := p.Weight()
	for i, v := range p.Vars {
		for _, b := range q.bits[i] {
			if cost := (v.Points + v.Broken*weight) * b.weight; cost > 0 && q.used[b.lit] {
				lits, weights = append(lits, solver.IntToLit(int32(b.lit))), append(weights, int(cost))
			}
		}
	}
	pb.SetCostFunc(lits, weights)
	type answer struct {
		cost  int
		model []bool
	}
	out := make(chan answer, 1)
	go func() {
		// Its learning of clauses runs off the end of a slice on some rows.
		defer func() {
			if recover() != nil {
				close(out)
			}
		}()
		s := solver.New(pb)
		cost := s.Minimize()
		if cost < 0 {
			out <- answer{cost, nil}
			return
		}
		out <- answer{cost, s.Model()}
	}()
	select {
	case a, ok := <-out:
		if !ok {
			return nil, false, false
		}
		if a.cost < 0 {
			return nil, false, true
		}
		x = make([]int64, len(p.Vars))
		for i := range p.Vars {
			for _, b := range q.bits[i] {
				if q.used[b.lit] && a.model[b.lit-1] {
					x[i] += b.weight
				}
			}
		}
		return x, true, true
	case <-time.After(limit):
		return nil, false, false
	}
}
