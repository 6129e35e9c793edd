package lpcheck

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"example.org/weft/internal/columns"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"
)

// program is the least of cost times x under rows of sums, x >= 0.
type program struct {
	right []float64
	equal []bool
	cost  []float64
	coef  [][]float64 // by column, then row
}

// draw draws a program whose costs are not negative, so that it has an end. most
// are the numbers of rows and columns.
func draw(t *rapid.T, rows, cols int) program {
	m, n := rapid.IntRange(1, rows).Draw(t, "rows"), rapid.IntRange(1, cols).Draw(t, "columns")
	var p program
	for range m {
		p.right = append(p.right, float64(rapid.IntRange(-3, 12).Draw(t, "right")))
		p.equal = append(p.equal, rapid.IntRange(0, 3).Draw(t, "equal") == 3)
	}
	for range n {
		p.cost = append(p.cost, float64(rapid.IntRange(0, 30).Draw(t, "cost")))
		row := make([]float64, m)
		for r := range row {
			if rapid.IntRange(0, 2).Draw(t, "there") > 0 {
				row[r] = float64(rapid.IntRange(-4, 6).Draw(t, "coef"))
			}
		}
		p.coef = append(p.coef, row)
	}
	return p
}

func (p program) ours() (float64, error) {
	q := columns.NewLP(p.right, p.equal)
	for c, cost := range p.cost {
		var rows []int
		var coefs []float64
		for r, v := range p.coef[c] {
			if v != 0 {
				rows, coefs = append(rows, r), append(coefs, v)
			}
		}
		q.Add(cost, rows, coefs)
	}
	if err := q.Solve(); err != nil {
		return 0, err
	}
	return q.Cost(), nil
}

// gonum's method takes equations and nonnegative numbers: each row that is no
// equation gets a number for what is left.
func (p program) gonum() (float64, error) {
	m, n := len(p.right), len(p.cost)
	wide := n
	for _, e := range p.equal {
		if !e {
			wide++
		}
	}
	if m > wide {
		return 0, errors.New("gonum panics on more rows than columns")
	}
	a := mat.NewDense(m, wide, nil)
	c := make([]float64, wide)
	copy(c, p.cost)
	for j := range p.cost {
		for r := range p.right {
			a.Set(r, j, p.coef[j][r])
		}
	}
	at := n
	for r, e := range p.equal {
		if !e {
			a.Set(r, at, 1)
			at++
		}
	}
	v, _, err := lp.Simplex(c, a, p.right, 1e-9, nil)
	return v, err
}

func TestAgainstGonum(t *testing.T) {
	same, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := draw(t, 8, 16)
		want, err := p.gonum()
		got, mine := p.ours()
		switch {
		case errors.Is(err, lp.ErrInfeasible):
			if !errors.Is(mine, columns.ErrLPInfeasible) {
				t.Fatalf("gonum: infeasible, ours %g %v", got, mine)
			}
			same++
		case err != nil: // it takes no rows that depend on each other, nor more rows than columns
			refused++
		case mine != nil || math.Abs(got-want) > 1e-6*(1+math.Abs(want)):
			t.Fatalf("gonum %g, ours %g %v", want, got, mine)
		default:
			same++
		}
	})
	t.Logf("gonum answered %d, refused %d", same, refused)
	if same+refused >= 50 && 5*same < same+refused {
		t.Errorf("gonum answered only %d", same)
	}
}

// TestAgainstCBC takes larger programs, of the shape that package columns has:
// limits, and sums that are one.
func TestAgainstCBC(t *testing.T) {
	exe, err := exec.LookPath("cbc")
	if err != nil {
		if os.Getenv("WEFT_EXTERNAL") != "" {
			t.Fatal(err)
		}
		t.Skip("cbc is not installed (Debian: coinor-cbc): skipped")
	}
	dir := t.TempDir()
	for seed := range uint64(12) {
		p := shaped(seed, 10+int(seed)*9, 4+int(seed)*3, 25)
		got, err := p.ours()
		if err != nil {
			t.Fatal(err)
		}
		model := filepath.Join(dir, "p.lp")
		if err := os.WriteFile(model, p.text(), 0o644); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(exe, model, "solve").CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		found := objective.FindSubmatch(out)
		if found == nil {
			t.Fatalf("%s", out)
		}
		want, err := strconv.ParseFloat(string(found[1]), 64)
		if err != nil || math.Abs(got-want) > 1e-5*(1+math.Abs(want)) {
			t.Errorf("seed %d: cbc %g %v, ours %g", seed, want, err, got)
		}
	}
}

var objective = regexp.MustCompile(`(?m)^Optimal objective\s+([-0-9.e+]+)`)

// shaped is a master program: rows with limits, groups of columns of which one is
// taken, and a column that is over for each row.
func shaped(seed uint64, rows, groups, columns int) program {
	state := seed*0x9e3779b97f4a7c15 + 17
	next := func(n int) int {
		state ^= state << 13
		state ^= state >> 7
		state ^= state << 17
		return int(state % uint64(n))
	}
	p := program{right: make([]float64, rows+groups), equal: make([]bool, rows+groups)}
	for r := range rows {
		p.right[r] = float64(1 + next(max(groups/3, 1)))
		over := make([]float64, rows+groups)
		over[r] = -1
		p.cost, p.coef = append(p.cost, 5000), append(p.coef, over)
	}
	for g := range groups {
		p.right[rows+g], p.equal[rows+g] = 1, true
		for range columns {
			col := make([]float64, rows+groups)
			col[rows+g] = 1
			for r := range rows {
				if next(5) == 0 {
					col[r] = 1
				}
			}
			p.cost, p.coef = append(p.cost, float64(next(900))), append(p.coef, col)
		}
	}
	return p
}

// text writes the program in the LP format.
func (p program) text() []byte {
	var b bytes.Buffer
	w := bufio.NewWriter(&b)
	fmt.Fprint(w, "Minimize\n c: ")
	for c, v := range p.cost {
		fmt.Fprintf(w, "+ %g x%d\n", v, c)
	}
	fmt.Fprintln(w, "Subject To")
	for r, right := range p.right {
		fmt.Fprintf(w, " r%d: ", r)
		for c := range p.cost {
			if v := p.coef[c][r]; v != 0 {
				fmt.Fprintf(w, "%+g x%d\n", v, c)
			}
		}
		sense := "<="
		if p.equal[r] {
			sense = "="
		}
		fmt.Fprintf(w, " %s %g\n", sense, right)
	}
	fmt.Fprintln(w, "End")
	w.Flush()
	return b.Bytes()
}

// BenchmarkMaster is one program of the size of a squad of 30 in a month.
func BenchmarkMaster(b *testing.B) {
	p := shaped(5, 112, 30, 20)
	b.Run("ours", func(b *testing.B) {
		for i := 0; i < b.N; i++ {
			if _, err := p.ours(); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("gonum", func(b *testing.B) {
		for i := 0; i < b.N; i++ {
			if _, err := p.gonum(); err != nil {
				b.Fatal(err)
			}
		}
	})
}
