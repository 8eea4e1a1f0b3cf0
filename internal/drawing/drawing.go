// Package drawing turns a plan into figures, as a joiner would draw them.
//
// # One origin
//
// Every place on one part is told from one corner, its datum, along running
// dimensions (ISO 129-1): an open ring where they begin, an oblique stroke at
// each place, the value beyond it. Chains of dimensions are never drawn, for a
// maker who sets out from them adds up the errors. Values that would stand
// closer than labelGap fan out by a knee: they are moved apart as little as
// can be (see spread), keep their order, and none is left out. A value that
// two places share is told once.
//
// # What is told how
//
// Lines have the meaning and the widths of package leaf. The accent marks what
// a figure is about, the saw's line or the curve that the ribs meet, and has a
// second sign beside it. A length that was written whole prints whole; one
// that came out prints one decimal for wood, two for thickness and kerf, three
// for a gap. Only print is rounded. In inches lengths are fractions to 1/64,
// what needs more is decimal.
//
// # The figures
//
// Face: the front alone, for a page. Views: front and end, the inside and the plan, a dimetric picture, sections;
// lines that would lie closer than 0.6 mm on paper close to one. Strip, Kerfs and Bend: the
// shell laid flat, the kerfs of a bend, and the bend on its rail, folded from
// the list of kerfs. A flat part is unfolded about its datum edge. Sheets: the
// layouts with the order of the cuts. Joints: each kind in section, enlarged,
// with the dowel or screw that holds it. Edges and ends that are bored are looked
// at by themselves.
// Exploded: the parts moved out along their ways in, by the order of assembly.
//
// Nothing is computed here that is not about paper: a figure says what the plan
// says. Figures are pure: the same plan gives the same items in the same order.
package drawing

import (
	fits "rodwork/internal/fit"
	"rodwork/internal/leaf"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// Options say how figures are drawn.
type Options struct {
	// System is the units that values are printed in; "" is units.MM.
	System units.System
	// Only tells by its key whether a figure of Views is wanted; nil is: all of
	// them. Other figures are drawn whatever it says.
	Only func(key string) bool
}

func (o Options) wants(key string) bool { return o.Only == nil || o.Only(key) }

// All returns every figure of the plan in the order of the book.
func All(p *plan.Plan, opt Options) []leaf.Leaf {
	leaves := Views(p, opt)
	for _, q := range p.Piece.Parts {
		leaves = append(leaves, Part(p, q, opt)...)
	}
	leaves = append(leaves, Sheets(p, opt)...)
	leaves = append(leaves, Trials(p, opt)...)
	for _, q := range p.Piece.Parts {
		for i := range q.Bends {
			if l, err := fits.Load(q, i); err == nil {
				leaves = append(leaves, Clamped(q, i, l, opt))
			}
		}
	}
	leaves = append(leaves, Joints(p, opt)...)
	return append(leaves, Exploded(p, opt)...)
}
