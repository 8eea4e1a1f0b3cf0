package design

import (
	"fmt"
	"strings"

	"rodwork/internal/diag"
	"rodwork/internal/expr"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// sizeSet resolves the named sizes of a piece file in whatever order they stand.
type sizeSet struct {
	d      *decoder
	slots  []*slot
	names  []string
	byName map[string]int
	state  []int8 // 0 not begun, 1 on the way, 2 done
	stack  []int
	values map[string]expr.Value
	out    []Size
	used   map[string]bool
	call   func(fn, arg string) (expr.Value, string, bool)
}

// Value gives a size to a formula.
func (s *sizeSet) Value(name string) (expr.Value, bool) {
	s.used[name] = true
	v, ok := s.values[name]
	return v, ok
}

// Call gives what a function over the shop knows.
func (s *sizeSet) Call(fn, arg string) (expr.Value, string, bool) {
	if s.call == nil {
		return expr.Value{}, "", false
	}
	return s.call(fn, arg)
}

// newSizes names the sizes, so that formulas can be read.
func newSizes(d *decoder, root *rec) *sizeSet {
	s := &sizeSet{d: d, byName: map[string]int{}, values: map[string]expr.Value{}, used: map[string]bool{}}
	tbl := root.vals["sizes"]
	if tbl == nil {
		return s
	}
	for _, it := range tbl.items {
		name := strings.TrimPrefix(it.path, "sizes.")
		if it.n.shape != scalar { // told already; its uses are not at fault
			s.names = append(s.names, name)
			s.slots = append(s.slots, it)
			s.byName[name] = len(s.slots) - 1
			continue
		}
		if why := expr.CheckName(name); why != "" {
			d.add(diag.Diagnostic{Code: "bad-name", At: it.keyAt, Path: it.path, Summary: fmt.Sprintf("A size cannot be called %q", clip(name)),
				Detail: capital(why) + ".", Expected: "letters, digits and single spaces; neither a unit nor a function"})
			continue
		}
		s.byName[name] = len(s.slots)
		s.slots = append(s.slots, it)
		s.names = append(s.names, name)
	}
	s.state = make([]int8, len(s.slots))
	return s
}

// resolve finds all sizes, and names each circle once.
func (s *sizeSet) resolve() {
	for _, it := range s.slots {
		if it.n.shape == scalar {
			s.d.read(it)
		}
	}
	for i := range s.slots {
		s.visit(i)
	}
	for i, name := range s.names { // in the order of the file
		v, ok := s.values[name]
		if !ok {
			continue
		}
		it := s.slots[i]
		formula := it.formula != nil && !it.formula.Literal()
		s.out = append(s.out, Size{Name: name, Dim: v.Dim, Num: v.Num, Text: it.n.text, Formula: formula, Input: it.input, Path: it.path, At: it.n.at})
		s.d.written = append(s.d.written, Written{Path: it.path, Text: it.n.text, Formula: formula, Num: v.Num, Dim: v.Dim, Min: it.lo, Max: it.hi, At: it.n.at})
	}
}

func (s *sizeSet) visit(i int) {
	switch s.state[i] {
	case 2:
		return
	case 1:
		s.circle(i)
		return
	}
	s.state[i] = 1
	s.stack = append(s.stack, i)
	it := s.slots[i]
	if it.formula != nil {
		for _, r := range it.formula.Refs() {
			s.used[r.Name] = true
			s.visit(s.byName[r.Name])
		}
	}
	s.stack = s.stack[:len(s.stack)-1]
	s.state[i] = 2
	s.reckon(i)
}

// circle reports the sizes on the stack from i on: each waits for the next.
func (s *sizeSet) circle(i int) {
	start := 0
	for k, j := range s.stack {
		if j == i {
			start = k
		}
	}
	round := s.stack[start:]
	first := 0
	for k, j := range round {
		if j < round[first] {
			first = k
		}
	}
	var way []string
	for k := range round {
		j := round[(first+k)%len(round)]
		way = append(way, fmt.Sprintf("%s = %s (line %d)", s.names[j], clip(s.slots[j].n.text), s.slots[j].n.at.Start.Line))
	}
	it := s.slots[round[first]]
	what := "Sizes go in a circle"
	if len(round) == 1 {
		what = "A size stands on itself"
	}
	s.d.add(diag.Diagnostic{Code: "circle", At: it.n.at, Path: it.path, Summary: what,
		Detail: strings.Join(way, "; ") + ". One of them must be a written amount.", Expected: "a size that does not come back to itself"})
}

func (s *sizeSet) reckon(i int) {
	it := s.slots[i]
	if it.formula == nil || len(it.formula.Unknown()) > 0 {
		return
	}
	v, ok, problems := it.formula.Eval(s.d.scope, s)
	for _, p := range problems {
		s.d.problem(it, p)
	}
	if !ok {
		return
	}
	if n, bare := it.formula.Bare(); bare {
		f, _, _ := units.Factor(s.d.lengths)
		v = expr.Value{Num: trace.Const(n * f), Dim: units.Length}
	}
	if !(v.Num.V >= it.lo && v.Num.V <= it.hi) {
		s.d.add(diag.Diagnostic{Code: "out-of-bounds", At: it.n.at, Path: it.path, Summary: fmt.Sprintf("%s is out of bounds", printed(v.Num.V, v.Dim)),
			Detail: "No size of a piece is as large as that.", Expected: fmt.Sprintf("from %s to %s", printed(it.lo, v.Dim), printed(it.hi, v.Dim))})
		return
	}
	in := trace.Input{Kind: trace.Size, Path: it.path, Text: it.n.text, At: it.n.at}
	it.input = trace.InputID(len(s.d.led.Inputs()))
	if it.formula.Literal() {
		v.Num = s.d.led.Var(v.Num.V, in)
	} else {
		v.Num = s.d.led.Own(v.Num, in)
	}
	it.val, it.ok = v, true
	s.values[s.names[i]] = v
}
