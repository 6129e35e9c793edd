package oracle

import (
	"testing"
	"time"

	"example.org/weft/internal/layered"
)

// The engine and gophersat find the same optimum on short seasons.
func TestSameOptimumPseudo(t *testing.T) {
	n, limit := uint64(60), 3*time.Second
	if deep() {
		n, limit = 400, 10*time.Second
	}
	same, slow, none := 0, 0, 0
	for seed := uint64(1); seed <= n; seed++ {
		o := Options{Days: 10 + int(seed%5), Tight: seed%3 != 0, Congested: seed%2 == 1, Load: seed%8 == 2, Rolling: seed%8 == 3, Stress: seed%5 == 4}
		req, err := Request(seed, o)
		if err != nil {
			t.Fatal(err)
		}
		c, err := NewCase(req, nil, true)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		p, _ := Encode(c)
		x, possible, done := RunPseudo(p, limit)
		if !done {
			slow++
			continue
		}
		s, err := c.Solve()
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if !possible {
			if none++; s.Status != layered.Infeasible {
				t.Errorf("seed %d: gophersat has no plan, engine status %d\n%s", seed, s.Status, shown(c))
			}
			continue
		}
		if r := p.Violated(x); r >= 0 {
			t.Fatalf("seed %d: gophersat's answer violates row %d %+v", seed, r, p.Rows[r])
		}
		b, pt := Cost(s.Cost)
		if wantB, want := p.Value(x); s.Status != layered.Proved || b != wantB || pt != want {
			t.Errorf("seed %d: engine status %d, %d broken, %d points; gophersat %d, %d\n%s", seed, s.Status, b, pt, wantB, want, shown(c))
		}
		same++
	}
	t.Logf("%d seasons: %d compared, %d without any plan, %d not finished by gophersat in %v", n, same, none, slow, limit)
	if same < int(n)/2 {
		t.Errorf("only %d of %d compared", same, n)
	}
}
