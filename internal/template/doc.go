// Package template makes the sheets that go to the shop at full size: what is
// laid on the wood, cut out, followed with a router, drilled through. It
// computes nothing of the piece; it draws what the plan says, and adds the
// lines that tools need beside it, each by a rule of package mech/rout.
//
// # The sheets
//
//   - Shapes: a part whose outline is more than square cuts. Its finished
//     outline is also the template for a pattern bit; beside it stand the line for
//     the jigsaw and, where the bush and the bit are known, the edge of a template
//     for a guide bush. The bit that goes into the tightest inside corner is named,
//     or a finding says that none does.
//   - Strips: a bent part laid flat, seen from its inside, with every kerf,
//     tangent point and cut; and its rod, the marks alone on a narrow band along
//     the datum edge, which is what one tapes to the board.
//   - Formers: one board of each former that a bend is pulled on.
//   - Holes: for each kind of row, one drilling template, and the spacer blocks
//     that set it off from the datum of each part that has such a row. For each
//     pattern of dowels, the drilling block with its fence.
//
// # One drawing, several carriers
//
// A Sheet is lines and words in millimetres, x to the right and y up, with the
// part's datum corner at (0, 0). Leaf draws it on paper, 1 : 1; Drawing gives it
// to a machine. Layers have whole words for names and carry no depth and no
// tool.
package template

import (
	"rodwork/internal/plan"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// Options say for which tools the sheets are made.
type Options struct {
	// System is the units that words print lengths in; "" is units.MM.
	System units.System
	// Bush is the outside diameter of the guide bush, mm; 0: the shop's first, and
	// without one no line is drawn for it.
	Bush float64
	// BushLength is how far it stands out below the router's base, mm; 0: not known.
	BushLength float64
	// Bit is the diameter of the bit in the bush, mm; 0: the one of the shop that
	// goes into the part's corners.
	Bit float64
}

// Make returns all sheets of a plan: shapes, strips with their rods, holes.
func Make(p *plan.Plan, opt Options) []Sheet {
	m := &maker{p: p, opt: opt}
	if opt.System == "" {
		m.opt.System = units.MM
	}
	m.shopBush()
	var out []Sheet
	for _, q := range p.Piece.Parts {
		if len(q.Bends) > 0 {
			out = append(out, m.strip(q), m.rod(q))
		}
	}
	for _, q := range p.Piece.Parts {
		if len(q.Bends) == 0 && shaped(q) {
			out = append(out, m.shape(q))
		}
	}
	out = append(out, m.drilling()...)
	out = append(out, m.dowelBlocks()...)
	out = append(out, m.formers()...)
	for i := range out {
		out[i].prune()
	}
	return out
}

// Findings returns what the sheets find, in their order.
func Findings(sheets []Sheet) []work.Finding {
	var out []work.Finding
	for _, s := range sheets {
		out = append(out, s.Findings...)
	}
	return out
}

type maker struct {
	p   *plan.Plan
	opt Options
}

// shopBush takes the shop's first bush where none was named.
func (m *maker) shopBush() {
	if m.opt.Bush != 0 || m.p.Design == nil || m.p.Design.Shop == nil || len(m.p.Design.Shop.Bushes) == 0 {
		return
	}
	b := m.p.Design.Shop.Bushes[0]
	m.opt.Bush, m.opt.BushLength = b.Diameter.V, b.Length.V
}

// mm prints a length with its unit.
func (m *maker) mm(v float64, decimals int) string {
	return units.Format(v, units.Length, m.opt.System, decimals)
}

// bare prints a length without its unit, as on a drawing.
func (m *maker) bare(v float64, decimals int) string {
	return units.FormatBare(v, units.Length, m.opt.System, decimals)
}

// by prints two lengths.
func (m *maker) by(a, b float64) string { return m.bare(a, 1) + " × " + m.mm(b, 1) }
