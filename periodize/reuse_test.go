package periodize

import (
	"bytes"
	"context"
	"encoding/json"
	"sync"
	"testing"

	"example.org/weft/internal/seasontest"
	"example.org/weft/periodize/season"
	"pgregory.net/rapid"
)

// A planner that keeps its memory makes the plans of one that does not, whatever
// it planned before, and from several goroutines at once.
func TestReuseChangesNoPlan(t *testing.T) {
	var requests []*season.Request
	var want [][]byte
	onSeasons(t, 40, func(t *rapid.T) { requests = append(requests, seasontest.Request(t, random)) })
	for _, req := range requests {
		p, err := (&Planner{}).Plan(context.Background(), req)
		if err != nil {
			t.Fatal(err)
		}
		b, err := json.Marshal(p)
		if err != nil {
			t.Fatal(err)
		}
		want = append(want, b)
	}
	planner := new(Planner).Reuse()
	check := func(first int) {
		for i := range requests {
			i = (i + first) % len(requests)
			p, err := planner.Plan(context.Background(), requests[i])
			if err != nil {
				t.Error(err)
				continue
			}
			if got, err := json.Marshal(p); err != nil || !bytes.Equal(got, want[i]) {
				t.Errorf("season %d: other bytes (%v)", i, err)
			}
		}
	}
	check(0)
	var wait sync.WaitGroup
	for n := range 3 {
		wait.Add(1)
		go func() {
			defer wait.Done()
			check(7 * n)
		}()
	}
	wait.Wait()
}
