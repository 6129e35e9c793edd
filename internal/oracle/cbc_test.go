package oracle

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"testing"
	"time"

	"example.org/weft/internal/layered"
)

func deep() bool { return os.Getenv("WEFT_DEEP") != "" }

// needs skips a test whose outside program is missing, unless it must not be.
func needs(t *testing.T, err error) {
	t.Helper()
	if errors.Is(err, ErrNoCBC) && os.Getenv("WEFT_EXTERNAL") == "" {
		t.Skip("cbc is not installed (Debian: coinor-cbc): skipped")
	}
	if err != nil {
		t.Fatal(err)
	}
}

func shown(c *Case) string {
	b, err := json.Marshal(c.Request)
	if err != nil {
		return err.Error()
	}
	return string(b)
}

// drawn is a random season of 10 to 28 dates with all there is.
func drawn(t *testing.T, seed uint64) (*Case, Options) {
	t.Helper()
	o := Options{Days: 10 + int(seed*7%19), Congested: seed%3 == 1, Load: seed%4 == 2, Rolling: seed%5 == 3, Stress: seed%7 == 4, Plain: seed%8 == 5}
	req, err := Request(seed, o)
	if err != nil {
		t.Fatal(err)
	}
	var c *Case
	if seed%6 == 0 { // planned again
		c, err = Reissued(req, true)
	} else {
		c, err = NewCase(req, nil, true)
	}
	if err != nil {
		t.Fatalf("seed %d: %v\n%+v", seed, err, req)
	}
	return c, o
}

// The engine and CBC find the same optimum.
func TestSameOptimumCBC(t *testing.T) {
	n := uint64(40)
	if deep() {
		n = 600
	}
	dir := t.TempDir()
	broken, pinned, none := 0, 0, 0
	var engine, cbc time.Duration
	for seed := uint64(1); seed <= n; seed++ {
		c, _ := drawn(t, seed)
		p, _ := Encode(c)
		got, err := RunCBC(context.Background(), p, dir, "m", 300*time.Second)
		needs(t, err)
		if !got.Proved && !got.Infeasible {
			t.Fatalf("seed %d: cbc did not finish: %s", seed, got.Log)
		}
		start := time.Now()
		s, err := c.Solve()
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if got.Infeasible || s.Status == layered.Infeasible {
			if none++; !got.Infeasible || s.Status != layered.Infeasible {
				t.Errorf("seed %d: engine status %d, cbc infeasible %v\n%s", seed, s.Status, got.Infeasible, shown(c))
			}
			continue
		}
		engine, cbc = engine+time.Since(start), cbc+got.Wall
		b, pt := Cost(s.Cost)
		if s.Status != layered.Proved || b != got.Broken || pt != got.Points {
			t.Errorf("seed %d: engine status %d, %d broken, %d points; cbc %d broken, %d points\n%s", seed, s.Status, b, pt, got.Broken, got.Points, shown(c))
		}
		broken += s2i(b > 0)
		pinned += s2i(len(c.Request.Pins) > 0)
	}
	t.Logf("%d seasons, %d with pins, %d with broken limits, %d without any plan: engine %v, cbc %v", n, pinned, broken, none, engine, cbc)
}
