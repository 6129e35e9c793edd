package columns

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// written is a linear program written out.
type written struct {
	right []float64
	equal []bool
	cost  []float64
	coef  [][]float64 // by column, then row
}

func (w written) lp() *LP {
	p := NewLP(w.right, w.equal)
	w.add(p, 0, len(w.cost))
	return p
}

func (w written) add(p *LP, from, to int) {
	for c := from; c < to; c++ {
		var rows []int
		var coefs []float64
		for r, v := range w.coef[c] {
			if v != 0 {
				rows, coefs = append(rows, r), append(coefs, v)
			}
		}
		p.Add(w.cost[c], rows, coefs)
	}
}

// offset is the number of columns that the program has of its own.
func offset(p *LP, w written) int { return len(p.cols) - len(w.cost) }

func drawWritten(t *rapid.T) written {
	m, n := rapid.IntRange(1, 7).Draw(t, "rows"), rapid.IntRange(1, 12).Draw(t, "columns")
	var w written
	for range m {
		w.right = append(w.right, float64(rapid.SampledFrom([]int{4, 9, 7, 2, 1, 0, 13, -1}).Draw(t, "right")))
		w.equal = append(w.equal, rapid.IntRange(0, 9).Draw(t, "equal") == 9)
	}
	for range n {
		w.cost = append(w.cost, float64(rapid.SampledFrom([]int{3, 0, 11, 20, 1, 6, -2}).Draw(t, "cost")))
		row := make([]float64, m)
		for r := range row {
			if rapid.Bool().Draw(t, "there") {
				row[r] = float64(rapid.IntRange(-3, 5).Draw(t, "coef"))
			}
		}
		w.coef = append(w.coef, row)
	}
	return w
}

// certify checks the answer by the duality theorem, without knowing how it was
// found: numbers that satisfy the rows, duals that no column undercuts, and equal
// values of both.
func certify(t *rapid.T, p *LP, w written) {
	const eps = 1e-6
	first := offset(p, w)
	value := 0.0
	for r := range w.right {
		sum := 0.0
		for c := range w.cost {
			sum += w.coef[c][r] * p.Value(first+c)
		}
		if sum > w.right[r]+eps || (w.equal[r] && sum < w.right[r]-eps) {
			t.Fatalf("row %d: %g, right side %g", r, sum, w.right[r])
		}
		if !w.equal[r] && p.Dual(r) > eps {
			t.Fatalf("row %d: a higher limit would cost %g", r, p.Dual(r))
		}
		value += p.Dual(r) * w.right[r]
	}
	cost := 0.0
	for c := range w.cost {
		x := p.Value(first + c)
		if x < -eps {
			t.Fatalf("column %d is %g", c, x)
		}
		cost += w.cost[c] * x
		d := w.cost[c]
		for r := range w.right {
			d -= p.Dual(r) * w.coef[c][r]
		}
		if d < -eps {
			t.Fatalf("column %d would save %g", c, d)
		}
	}
	if math.Abs(cost-value) > eps*(1+math.Abs(cost)) || math.Abs(cost-p.Cost()) > eps*(1+math.Abs(cost)) {
		t.Fatalf("cost %g, by the duals %g, said %g", cost, value, p.Cost())
	}
}

func TestLPIsOptimalByDuality(t *testing.T) {
	found, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		all++
		w := drawWritten(t)
		p := w.lp()
		err := p.Solve()
		switch {
		case errors.Is(err, ErrLPInfeasible), errors.Is(err, ErrLPUnbounded):
			return
		case err != nil:
			t.Fatal(err)
		}
		found++
		certify(t, p, w)
	})
	if all >= 50 && 10*found < all {
		t.Errorf("only %d of %d programs had an answer", found, all)
	}
}

// TestLPGoesOn: columns added after a solve lead where they would have led from
// the start.
func TestLPGoesOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWritten(t)
		half := len(w.cost) / 2
		p := NewLP(w.right, w.equal)
		w.add(p, 0, half)
		if p.Solve() != nil {
			return
		}
		w.add(p, half, len(w.cost))
		if err := p.Solve(); errors.Is(err, ErrLPUnbounded) {
			return
		} else if err != nil {
			t.Fatal(err)
		}
		certify(t, p, w)
	})
}

func TestLPByHand(t *testing.T) {
	// Chvatal, Linear Programming (1983), chapter 2, from memory: most of
	// 5x + 4y + 3z under 2x+3y+z <= 5, 4x+y+2z <= 11, 3x+4y+2z <= 8 is 13, at
	// 2, 0, 1. The duals 1, 0, 1 prove it: 5 + 8 = 13.
	p := NewLP([]float64{5, 11, 8}, make([]bool, 3))
	x := p.Add(-5, []int{0, 1, 2}, []float64{2, 4, 3})
	p.Add(-4, []int{0, 1, 2}, []float64{3, 1, 4})
	z := p.Add(-3, []int{0, 1, 2}, []float64{1, 2, 2})
	if err := p.Solve(); err != nil {
		t.Fatal(err)
	}
	if p.Cost() != -13 || p.Value(x) != 2 || p.Value(z) != 1 || p.Dual(0) != -1 || p.Dual(1) != 0 || p.Dual(2) != -1 {
		t.Errorf("cost %g, x %g, z %g, duals %g %g %g", p.Cost(), p.Value(x), p.Value(z), p.Dual(0), p.Dual(1), p.Dual(2))
	}
	none := NewLP([]float64{3, 5}, []bool{true, true})
	none.Add(1, []int{0, 1}, []float64{1, 1})
	if err := none.Solve(); !errors.Is(err, ErrLPInfeasible) {
		t.Errorf("x = 3 and x = 5: %v", err)
	}
	endless := NewLP([]float64{4}, []bool{false})
	endless.Add(-1, []int{0}, []float64{-1})
	if err := endless.Solve(); !errors.Is(err, ErrLPUnbounded) {
		t.Errorf("no limit upwards: %v", err)
	}
}
