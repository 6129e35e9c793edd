package bridge

import (
	"context"
	"encoding/json"
	"testing"
)

// call makes a call and returns its result, or fails.
func call[T any](t *testing.T, d *Desk, name string, args any) T {
	t.Helper()
	var out struct {
		Result   T
		Problems []Problem
		Fault    string
	}
	text, err := json.Marshal(args)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(d.Call(context.Background(), name, text, nil), &out); err != nil {
		t.Fatal(err)
	}
	if len(out.Problems) > 0 || out.Fault != "" {
		t.Fatalf("%s: %v %s", name, out.Problems, out.Fault)
	}
	return out.Result
}

// wrongs makes a call that has to be refused, and returns what is wrong.
func wrongs(t *testing.T, d *Desk, name string, args any) []Problem {
	t.Helper()
	var out Reply
	text, err := json.Marshal(args)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(d.Call(context.Background(), name, text, nil), &out); err != nil {
		t.Fatal(err)
	}
	if out.Fault != "" {
		t.Fatalf("%s: a fault: %s", name, out.Fault)
	}
	if len(out.Problems) == 0 {
		t.Fatalf("%s: nothing was wrong", name)
	}
	return out.Problems
}

func example(t *testing.T) *Desk {
	t.Helper()
	d := new(Desk)
	call[View](t, d, "demo", nil)
	return d
}
