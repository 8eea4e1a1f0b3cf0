// Package say has sentences whose numbers stay numbers: a text with quantities
// in it, each with its dimension and the number of decimals it deserves. The
// book, the findings and the terminal print the same Sentence in the unit that
// the reader asked for; nobody formats a quantity before that.
package say

import (
	"strings"

	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// Quantity is a number in a sentence or a table cell.
type Quantity struct {
	V   float64
	Dim units.Dim
	// Decimals to print in metric; inches are always printed in fractions.
	Decimals int
	// ID is the ledger value that this is, or "" for a number made on the way.
	ID string
	// Path is the place in the piece or shop file that this value is written
	// at, so that the page can change it; "" for computed ones.
	Path string
	// Bare leaves the unit word away where the system's own unit is meant
	// ('700' in mm), as dimensions on a drawing are printed.
	Bare bool
}

// Span is a stretch of a sentence: plain text, or a quantity where Q is set.
type Span struct {
	Text   string
	Q      *Quantity
	Strong bool // a word that carries a choice of the maker: 'birch ply 18'
	Italic bool // the name of a part, bay or view
	Path   string
}

// Sentence is a run of spans.
type Sentence []Span

// F builds a sentence: each {} in the format takes the next argument, which is
// a string, a Quantity, a Span, a Sentence or an int. Too few or too many
// arguments are a broken promise and panic.
func F(format string, args ...any) Sentence {
	var s Sentence
	rest := format
	for _, a := range args {
		before, after, ok := strings.Cut(rest, "{}")
		if !ok {
			panic("say: more arguments than {} in " + format)
		}
		if before != "" {
			s = append(s, Span{Text: before})
		}
		s = append(s, spans(a)...)
		rest = after
	}
	if strings.Contains(rest, "{}") {
		panic("say: fewer arguments than {} in " + format)
	}
	if rest != "" {
		s = append(s, Span{Text: rest})
	}
	return s
}

func spans(a any) Sentence {
	switch a := a.(type) {
	case string:
		return Sentence{{Text: a}}
	case int:
		return Sentence{{Q: &Quantity{V: float64(a), Dim: units.Count, Bare: true}}}
	case Quantity:
		return Sentence{{Q: &a}}
	case Span:
		return Sentence{a}
	case Sentence:
		return a
	}
	panic("say: cannot say a value of this type")
}

// Name is a part, bay or view in italics.
func Name(s string) Span { return Span{Text: s, Italic: true} }

// Choice is a word of the piece file that the maker chose, at a path.
func Choice(s, path string) Span { return Span{Text: s, Strong: true, Path: path} }

// Len is a length with the given decimals in mm, and its unit word.
func Len(mm float64, decimals int) Quantity {
	return Quantity{V: mm, Dim: units.Length, Decimals: decimals}
}

// LenN is a length from a traced number.
func LenN(n trace.Num, decimals int) Quantity { return Len(n.V, decimals) }

// Angle is an angle given in radians, printed in degrees.
func Angle(rad float64, decimals int) Quantity {
	return Quantity{V: rad, Dim: units.Angle, Decimals: decimals}
}

// Kg is a mass.
func Kg(v float64, decimals int) Quantity {
	return Quantity{V: v, Dim: units.Mass, Decimals: decimals}
}

// KgPerM is a load along a shelf, given in kg/m.
func KgPerM(v float64, decimals int) Quantity {
	return Quantity{V: v / 1000, Dim: units.MassPerLength, Decimals: decimals}
}

// KgPerM3 is a load by its volume, or a density, given in kg/m³.
func KgPerM3(v float64, decimals int) Quantity {
	return Quantity{V: v * 1e-9, Dim: units.Density, Decimals: decimals}
}

// Num is a plain number.
func Num(v float64, decimals int) Quantity {
	return Quantity{V: v, Dim: units.None, Decimals: decimals}
}

// Percent is a share, 0.01 printed as '1 %'.
func Percent(share float64, decimals int) Sentence {
	return Sentence{{Q: &Quantity{V: 100 * share, Dim: units.None, Decimals: decimals}}, {Text: " %"}}
}

// As names the ledger value that the quantity is.
func (q Quantity) As(id string) Quantity { q.ID = id; return q }

// Plain leaves the unit away.
func (q Quantity) Plain() Quantity { q.Bare = true; return q }
