// Package drawing turns a plan into figures.
package drawing

import (
	"rodwork/internal/leaf"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// Options say how figures are drawn.
type Options struct {
	// System is the units that values are printed in; "" is units.MM.
	System units.System
}

// All returns every figure of the plan in the order of the book.
func All(p *plan.Plan, opt Options) []leaf.Leaf {
	leaves := Views(p, opt)
	for _, q := range p.Piece.Parts {
		leaves = append(leaves, Part(p, q, opt)...)
	}
	return append(leaves, Sheets(p, opt)...)
}
