package periodize

import (
	"context"
	"encoding/json"
	"testing"

	"example.org/weft/internal/demo"
)

// TestProgress: whoever listens hears of each missed aim once and in order, to the
// last; a brief plan says nothing, and listening changes no plan.
func TestProgress(t *testing.T) {
	req := demo.Season()
	req.Period.To = req.Period.From.AddDays(41)
	var heard []int
	of := 0
	p := Planner{Progress: func(done, all int) { heard, of = append(heard, done), all }}
	plan, err := p.Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	if len(heard) != of+1 || of < len(plan.Missed) || of == 0 {
		t.Fatalf("%d calls of %d for %d missed aims", len(heard), of, len(plan.Missed))
	}
	for i, n := range heard {
		if n != i {
			t.Errorf("call %d says %d", i, n)
		}
	}
	same, err := new(Planner).Plan(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	a, _ := json.Marshal(plan)
	b, _ := json.Marshal(same)
	if string(a) != string(b) {
		t.Error("listening changes the plan")
	}
	heard = nil
	p.Brief = true
	if _, err := p.Plan(context.Background(), req); err != nil || len(heard) > 0 {
		t.Errorf("a brief plan says %v (%v)", heard, err)
	}
}
