// Package trace carries numbers that know where they came from.
//
// A maker who sees '321.3' asks: from what? A Num answers by forward
// differentiation: beside its value it carries the partial derivative by every
// Input (a size, a written field, a measured thing of the shop, a habit) that
// moves it. The rules of sums, products and quotients carry the partials
// along, so what cancels is not named: an input is among Sources exactly if a
// small change of it changes the number, and D tells by how much.
//
// Some numbers move only in steps: a count of kerfs, a number of sheets. Their
// derivative is nought and yet they hang on their inputs. Those are kept apart,
// in Steps: a small change leaves the value, a large one need not.
//
// A size that is a formula is an input of its own beside the inputs that it
// stands on: a change of the formula by some amount is what its partial means.
package trace

import (
	"math"
	"slices"

	"rodwork/internal/diag"
)

// InputID names an input of one Ledger; it is its index there.
type InputID int32

// Kind tells what sort of thing an input is.
type Kind string

const (
	Size  Kind = "size"  // a named size of the piece file
	Field Kind = "field" // a value written in the piece file
	Shop  Kind = "shop"  // a value of the shop file
	Habit Kind = "habit" // a habit of the shop that filled in an absent field
	Rule  Kind = "rule"  // a constant of a rule or of the program, with its reason
)

// Input is one leaf from which values come.
type Input struct {
	ID   InputID    `json:"id"`
	Kind Kind       `json:"kind"`
	Path string     `json:"path"` // "sizes.width", "stock.birch ply 18.thickness"
	Text string     `json:"text"` // as written, or the reason of a rule's constant
	At   diag.Range `json:"at"`
}

type term struct {
	id InputID
	d  float64
}

// Num is a float64 with its partial derivatives. The zero Num is the constant
// 0. Nums are values: no operation changes its operands.
type Num struct {
	V     float64
	terms []term    // sorted by id, no zero derivatives
	steps []InputID // sorted
}

// negligible is the size under which a partial derivative counts as cancelled:
// partials here are ratios of millimetres (order 1e-3 to 1e3), and a sum of a
// hundred of them is exact to about 1e-13.
const negligible = 1e-10

// Const returns a number that hangs on nothing.
func Const(v float64) Num { return Num{V: v} }

// Sources returns the inputs that a small change of which changes n, in order.
func (n Num) Sources() []InputID {
	ids := make([]InputID, len(n.terms))
	for i, t := range n.terms {
		ids[i] = t.id
	}
	return ids
}

// Steps returns the inputs that can change n only in steps or by a decision.
func (n Num) Steps() []InputID { return slices.Clone(n.steps) }

// D returns the partial derivative of n by the input: how much n moves for
// each unit that the input moves.
func (n Num) D(id InputID) float64 {
	for _, t := range n.terms {
		if t.id == id {
			return t.d
		}
	}
	return 0
}

// combine returns the Num with value v and partials a·p.terms + b·q.terms.
func combine(v, a float64, p Num, b float64, q Num) Num {
	out := Num{V: v, steps: union(p.steps, q.steps)}
	out.terms = make([]term, 0, len(p.terms)+len(q.terms))
	i, j := 0, 0
	for i < len(p.terms) || j < len(q.terms) {
		var t term
		switch {
		case j == len(q.terms) || i < len(p.terms) && p.terms[i].id < q.terms[j].id:
			t = term{p.terms[i].id, a * p.terms[i].d}
			i++
		case i == len(p.terms) || q.terms[j].id < p.terms[i].id:
			t = term{q.terms[j].id, b * q.terms[j].d}
			j++
		default:
			t = term{p.terms[i].id, a*p.terms[i].d + b*q.terms[j].d}
			i, j = i+1, j+1
		}
		if math.Abs(t.d) > negligible {
			out.terms = append(out.terms, t)
		}
	}
	return out
}

func union(a, b []InputID) []InputID {
	if len(a) == 0 {
		return b
	}
	if len(b) == 0 {
		return a
	}
	out := append(slices.Clone(a), b...)
	slices.Sort(out)
	return slices.Compact(out)
}

// Add returns n + m.
func (n Num) Add(m Num) Num { return combine(n.V+m.V, 1, n, 1, m) }

// Sub returns n − m.
func (n Num) Sub(m Num) Num { return combine(n.V-m.V, 1, n, -1, m) }

// Mul returns n · m.
func (n Num) Mul(m Num) Num { return combine(n.V*m.V, m.V, n, n.V, m) }

// Div returns n / m; division by nought gives an infinity or NaN, as floats do.
func (n Num) Div(m Num) Num { return combine(n.V/m.V, 1/m.V, n, -n.V/(m.V*m.V), m) }

// Scale returns k · n for a plain k.
func (n Num) Scale(k float64) Num { return combine(n.V*k, k, n, 0, Num{}) }

// Plus returns n + k for a plain k.
func (n Num) Plus(k float64) Num { n.V += k; return n }

// Neg returns −n.
func (n Num) Neg() Num { return n.Scale(-1) }

// Min returns the smaller; the other decides only in a step.
func Min(n, m Num) Num {
	if m.V < n.V {
		return m.DecidedBy(n)
	}
	return n.DecidedBy(m)
}

// Max returns the larger; the other decides only in a step.
func Max(n, m Num) Num {
	if m.V > n.V {
		return m.DecidedBy(n)
	}
	return n.DecidedBy(m)
}

// Sum adds any number of Nums.
func Sum(ns ...Num) Num {
	var s Num
	for _, n := range ns {
		s = s.Add(n)
	}
	return s
}

// Apply returns f(n) for a function with the known derivative dfdx at n.V.
func (n Num) Apply(value, dfdx float64) Num { return combine(value, dfdx, n, 0, Num{}) }

// Sin returns the sine of n radians.
func (n Num) Sin() Num { return n.Apply(math.Sin(n.V), math.Cos(n.V)) }

// Cos returns the cosine of n radians.
func (n Num) Cos() Num { return n.Apply(math.Cos(n.V), -math.Sin(n.V)) }

// Sqrt returns the square root of n.
func (n Num) Sqrt() Num { r := math.Sqrt(n.V); return n.Apply(r, 0.5/r) }

// DecidedBy returns n with the inputs of m among its Steps: m chose it, without
// entering its value.
func (n Num) DecidedBy(ms ...Num) Num {
	for _, m := range ms {
		n.steps = union(union(n.steps, m.steps), m.Sources())
	}
	return n
}

// Step returns the value v that was reached from the ns by rounding, counting
// or searching: it hangs on them only in steps.
func Step(v float64, ns ...Num) Num { return Const(v).DecidedBy(ns...) }

// Lift applies a smooth function of plain floats to Nums. Partials are central
// differences with a step of 1e-4 of the argument's scale (at least 1e-5),
// good to about 1e-7 of the value; a partial that is nought in them is not a
// source. Use it for formulas of mech that take and return plain quantities.
func Lift(f func(x []float64) float64, args ...Num) Num {
	out := LiftN(func(x []float64) []float64 { return []float64{f(x)} }, args...)
	return out[0]
}

// LiftN is Lift for a function with several results; it must return the same
// number of them near the arguments' values. A result is compared with the
// function's own rounding: differences under 1e-9 of its size are nought.
func LiftN(f func(x []float64) []float64, args ...Num) []Num {
	x := make([]float64, len(args))
	for i, a := range args {
		x[i] = a.V
	}
	at := f(slices.Clone(x))
	out := make([]Num, len(at))
	for k := range at {
		out[k] = Const(at[k])
	}
	for i, a := range args {
		for k := range out {
			out[k].steps = union(out[k].steps, a.steps)
		}
		if len(a.terms) == 0 {
			continue
		}
		h := math.Max(math.Abs(a.V)*1e-4, 1e-5)
		up, down := slices.Clone(x), slices.Clone(x)
		up[i] += h
		down[i] -= h
		fu, fd := f(up), f(down)
		if len(fu) != len(at) || len(fd) != len(at) {
			for k := range out {
				out[k] = out[k].DecidedBy(a)
			}
			continue
		}
		for k := range out {
			diff := fu[k] - fd[k]
			if math.Abs(diff) <= 1e-9*math.Max(math.Abs(at[k]), h) {
				continue
			}
			out[k] = combine(out[k].V, 1, out[k], diff/(2*h), a)
		}
	}
	return out
}

// MarshalJSON writes the value alone; where it came from is in the Ledger.
func (n Num) MarshalJSON() ([]byte, error) { return marshalFloat(n.V) }
