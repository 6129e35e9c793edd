package oracle

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// ErrNoCBC says that the solver is not installed.
var ErrNoCBC = errors.New("oracle: cbc is not installed")

// CBC is what CBC said of a program.
type CBC struct {
	Proved         bool
	Infeasible     bool
	X              []int64
	Broken, Points int64
	CPU, Wall      time.Duration // as it reports them itself
	Log            string
}

var totals = regexp.MustCompile(`Total time \(CPU seconds\):\s+([0-9.]+)\s+\(Wallclock seconds\):\s+([0-9.]+)`)

var infeasible = regexp.MustCompile(`(?m)^(Problem is infeasible|Result - Problem proven infeasible)`)

// RunCBC writes a program to DIR/name.mps, solves it with one thread and checks
// the answer against the program.
func RunCBC(ctx context.Context, p *Program, dir, name string, limit time.Duration) (*CBC, error) {
	exe, err := exec.LookPath("cbc")
	if err != nil {
		return nil, ErrNoCBC
	}
	model, answer := filepath.Join(dir, name+".mps"), filepath.Join(dir, name+".sol")
	var text bytes.Buffer
	if err := p.WriteMPS(&text, "season"); err != nil {
		return nil, err
	}
	if err := os.WriteFile(model, text.Bytes(), 0o644); err != nil {
		return nil, err
	}
	cmd := exec.CommandContext(ctx, exe, model, "threads", "1", "ratioGap", "0", "allowableGap", "0",
		"sec", strconv.Itoa(int(limit.Seconds())), "solve", "solution", answer)
	log, err := cmd.CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("oracle: cbc: %w: %s", err, log)
	}
	out := &CBC{Log: string(log)}
	if t := totals.FindAllStringSubmatch(out.Log, -1); t != nil {
		last := t[len(t)-1]
		out.CPU, out.Wall = seconds(last[1]), seconds(last[2])
	}
	if infeasible.MatchString(out.Log) {
		out.Infeasible = true
		return out, nil
	}
	f, err := os.ReadFile(answer)
	if err != nil {
		return nil, fmt.Errorf("oracle: cbc left no answer: %w: %s", err, log)
	}
	lines := bufio.NewScanner(bytes.NewReader(f))
	lines.Scan()
	out.Proved = strings.HasPrefix(lines.Text(), "Optimal")
	out.X = make([]int64, len(p.Vars))
	for lines.Scan() {
		w := strings.Fields(lines.Text())
		if len(w) > 0 && w[0] == "**" {
			w = w[1:]
		}
		if len(w) < 3 || !strings.HasPrefix(w[1], "x") {
			continue
		}
		i, err := strconv.Atoi(w[1][1:])
		if err != nil || i >= len(out.X) {
			return nil, fmt.Errorf("oracle: cbc answers %q", lines.Text())
		}
		v, err := strconv.ParseFloat(w[2], 64)
		if err != nil || math.Abs(v-math.Round(v)) > 1e-5 {
			return nil, fmt.Errorf("oracle: cbc answers %q", lines.Text())
		}
		out.X[i] = int64(math.Round(v))
	}
	if out.Proved {
		if r := p.Violated(out.X); r >= 0 {
			return nil, fmt.Errorf("oracle: cbc's answer violates row %d", r)
		}
	}
	out.Broken, out.Points = p.Value(out.X)
	return out, nil
}

func seconds(s string) time.Duration {
	v, _ := strconv.ParseFloat(s, 64)
	return time.Duration(v * float64(time.Second))
}
