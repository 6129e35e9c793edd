package oracle

import (
	"bufio"
	"fmt"
	"io"
)

// Program is an integer program: the least sum of costs of integers that
// satisfy all rows.
type Program struct {
	Vars []Var
	Rows []Row
}

// Var is a number from 0 to Upper. Loose ones are integers in some best answer
// even if that is not asked for.
type Var struct {
	Name           string
	Broken, Points int64 // cost of one
	Upper          int64
	Loose          bool
}

// Term is a multiple of a variable.
type Term struct {
	Var  int
	Coef int64
}

// Sense compares the sum of a row with its right-hand side.
type Sense byte

// The senses.
const (
	AtMost  Sense = 'L'
	AtLeast Sense = 'G'
	Exactly Sense = 'E'
)

// Row is one demand on a sum of terms.
type Row struct {
	Terms []Term
	Sense Sense
	Right int64
}

func (p *Program) add(v Var) int {
	v.Name = fmt.Sprintf("x%d", len(p.Vars))
	p.Vars = append(p.Vars, v)
	return len(p.Vars) - 1
}

// row keeps a demand unless every choice within the bounds satisfies it.
func (p *Program) row(terms []Term, sense Sense, right int64) {
	var low, high int64
	at := map[int]int{}
	var sum []Term
	for _, t := range terms {
		if i, ok := at[t.Var]; ok {
			sum[i].Coef += t.Coef
			continue
		}
		at[t.Var] = len(sum)
		sum = append(sum, t)
	}
	kept := sum[:0]
	for _, t := range sum {
		if t.Coef == 0 || p.Vars[t.Var].Upper == 0 {
			continue
		}
		kept = append(kept, t)
		if t.Coef > 0 {
			high += t.Coef * p.Vars[t.Var].Upper
		} else {
			low += t.Coef * p.Vars[t.Var].Upper
		}
	}
	if sense == AtMost && high <= right || sense == AtLeast && low >= right {
		return
	}
	p.Rows = append(p.Rows, Row{kept, sense, right})
}

// Weight is what one broken limit costs in points, more than all points together.
func (p *Program) Weight() int64 {
	w := int64(1)
	for _, v := range p.Vars {
		w += v.Points * v.Upper
	}
	return min(w, 10_000_000)
}

// Value is the cost of an assignment.
func (p *Program) Value(x []int64) (broken, points int64) {
	for i, v := range p.Vars {
		broken += v.Broken * x[i]
		points += v.Points * x[i]
	}
	return broken, points
}

// Violated returns the first row that an assignment does not satisfy, -1 if it
// satisfies all.
func (p *Program) Violated(x []int64) int {
	for i, r := range p.Rows {
		var sum int64
		for _, t := range r.Terms {
			sum += t.Coef * x[t.Var]
		}
		if r.Sense != AtLeast && sum > r.Right || r.Sense != AtMost && sum < r.Right {
			return i
		}
	}
	return -1
}

// WriteMPS writes the program in fixed MPS. Names have at most eight characters.
func (p *Program) WriteMPS(w io.Writer, name string) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, "NAME          %s\nROWS\n N  cost\n", name)
	for i, r := range p.Rows {
		fmt.Fprintf(b, " %c  r%d\n", r.Sense, i)
	}
	fmt.Fprintln(b, "COLUMNS")
	cols := make([][]Term, len(p.Vars))
	for i, r := range p.Rows {
		for _, t := range r.Terms {
			cols[t.Var] = append(cols[t.Var], Term{i, t.Coef})
		}
	}
	weight := p.Weight()
	write := func(i int) {
		v := p.Vars[i]
		fmt.Fprintf(b, "    %-8s  %-8s  %12d\n", v.Name, "cost", v.Points+v.Broken*weight)
		for _, t := range cols[i] {
			fmt.Fprintf(b, "    %-8s  %-8s  %12d\n", v.Name, fmt.Sprintf("r%d", t.Var), t.Coef)
		}
	}
	mark := func(n int, word string) {
		fmt.Fprintf(b, "    %-8s  %-8s                 %s\n", fmt.Sprintf("M%d", n), "'MARKER'", word)
	}
	mark(0, "'INTORG'")
	for i, v := range p.Vars {
		if !v.Loose {
			write(i)
		}
	}
	mark(1, "'INTEND'")
	for i, v := range p.Vars {
		if v.Loose {
			write(i)
		}
	}
	fmt.Fprintln(b, "RHS")
	for i, r := range p.Rows {
		if r.Right != 0 {
			fmt.Fprintf(b, "    %-8s  %-8s  %12d\n", "RHS", fmt.Sprintf("r%d", i), r.Right)
		}
	}
	fmt.Fprintln(b, "BOUNDS")
	for _, v := range p.Vars {
		fmt.Fprintf(b, " UP %-8s  %-8s  %12d\n", "BND", v.Name, v.Upper)
	}
	fmt.Fprintln(b, "ENDATA")
	return b.Flush()
}
