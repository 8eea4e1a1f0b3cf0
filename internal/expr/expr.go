// Package expr reads and reckons the formulas that stand in a piece file:
// 'height - plinth', 'thickness(shell) / 3', 'min(width, 1 1/2 in * 4)'.
//
// The language is what a maker writes on a scrap of wood: numbers with units,
// names of sizes, + − * /, brackets, a few functions. Names may have spaces
// ('score shelf'), and the longest known name wins; therefore a formula is read
// against a Scope that knows all names. Every operation checks dimensions: a
// length and a plain number cannot be added, and the remark says which runes
// are at fault and what to write.
//
// # Fractions
//
// '3/4 in' is three quarters of an inch, 'a/4 in' would be a length divided by
// a length. The rule that keeps them apart: a run of digits 'n/n' or 'n n/n' is
// one amount only where a unit follows it. So '1/2 * width' is a half of the
// width, and 'width / 2 in' is a plain number.
//
// # Bounds
//
// A formula has at most MaxRunes runes and its brackets nest at most MaxDepth
// deep; reading and reckoning take time proportional to its length, times that
// of the names it is read against.
package expr

import (
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// Bounds of what is read.
const (
	MaxRunes = 1000
	MaxDepth = 40
)

// Value is a number with its dimension.
type Value struct {
	Num trace.Num
	Dim units.Dim
}

// Problem is a remark about the runes From to To of a formula.
type Problem struct {
	Code     string // kebab-case, as in a diag.Diagnostic
	From, To int
	Summary  string
	Detail   string
	Expected string
	Nearest  string
	// Mend is what should stand at From..To instead; HasMend tells it from
	// nothing.
	Mend    string
	HasMend bool
}

// Scope is what a formula may speak of.
type Scope struct {
	// Names of sizes.
	Names []string
	// Calls are the functions over things that have names of their own, and
	// those names: "thickness" → the roles of the piece.
	Calls map[string][]string
	// Currency is the only one that may be written; "" allows any.
	Currency string
	// BareUnit is the unit to propose where a plain number stands for a length.
	BareUnit string
}

// Env gives the values of names when a formula is reckoned. A false result
// means that the value is not to be had: for the reason that Call gives, or,
// where that is "", for one told elsewhere.
type Env interface {
	Value(name string) (Value, bool)
	Call(fn, arg string) (v Value, why string, ok bool)
}

// Ref is a name that a formula uses, at the runes From to To.
type Ref struct {
	Name     string
	From, To int
}

// Formula is a formula that was read.
type Formula struct {
	Text string
	root node
	refs []Ref
	// unknown names, whose Problems were reported
	unknown []Ref
	calls   int
}

// Refs returns the known names that the formula uses, in order, with repeats.
func (f *Formula) Refs() []Ref { return f.refs }

// Unknown returns the names that the formula uses and the scope does not have.
func (f *Formula) Unknown() []Ref { return f.unknown }

// Literal reports whether the formula speaks of nothing but written amounts.
func (f *Formula) Literal() bool { return len(f.refs) == 0 && len(f.unknown) == 0 && f.calls == 0 }

// Bare returns the number if the whole formula is one number without a unit,
// with or without a sign: what a field takes in its own unit.
func (f *Formula) Bare() (float64, bool) {
	n, sign := f.root, 1.0
	if u, ok := n.(*unary); ok {
		n, sign = u.arg, u.sign
	}
	if l, ok := n.(*literal); ok && !l.unit {
		return sign * l.v, true
	}
	return 0, false
}

type node interface{ span() (int, int) }

type at struct{ from, to int }

func (a at) span() (int, int) { return a.from, a.to }

type literal struct {
	at
	v    float64
	dim  units.Dim
	unit bool
}

type name struct {
	at
	name string
}

type unary struct {
	at
	sign float64
	arg  node
}

type binary struct {
	at
	op          rune
	left, right node
}

type call struct {
	at
	fn   string
	args []node
	word string // of a function over named things
	word0,
	word1 int
	named bool
}
